//! The program against what shares nothing with it: an integration written from the stated equations, and libraries of other
//! people in another language.

mod equations;
mod integration;
mod libraries;
