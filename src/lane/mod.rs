//! Numbers, one or several side by side.
