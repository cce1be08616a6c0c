//! Does the simulator solve its own equations: the verification ladder, V1 to V26, as far as it is not beside the code.

mod air;
mod bounds;
mod circle;
mod convergence;
mod coverage;
mod draws;
mod draws_autopilot;
mod energy;
mod failsafe_actions;
mod frames;
mod holds;
mod judged;
mod judged_over;
mod judged_places;
mod judged_tracks;
mod known;
mod lags;
mod lap;
mod order;
mod robust;
mod same_bits;
mod settles;
mod unreachable;
mod wind_chance;
