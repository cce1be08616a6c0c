//! What is seen.
