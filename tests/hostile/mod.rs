//! What people, other programs and bad luck do to it: names that are code, numbers that are absurd, files that are somebody
//! else's.

mod files;
mod letters;
mod numbers;
mod work;
