//! What goes to people and other programs.
