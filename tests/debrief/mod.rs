//! Wind and airspeed from the ground track, against published circles and against logs that nothing of the program flew.

mod circles;
mod coverage;
mod published;
mod told;
