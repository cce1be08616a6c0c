//! The plan as the autopilot uses it, one trial or several side by side.

use crate::lane::lanes;

lanes! {
    /// A plan in SI, with the errors of one trial in it.
    pub struct PlanNumbers {
        /// Centre, east, m.
        centre_x,
        /// Centre, north, m.
        centre_y,
        /// Commanded radius, m.
        radius,
        /// Commanded height above home, m.
        height,
        /// 1 for clockwise, -1 for anticlockwise.
        turn,
        /// Number of the guidance law.
        law,
        /// Gain from course error to course rate of the laws that have one, 1/s.
        gain,
        /// Time constant of closing in on the ring, or how far ahead the point on it lies, s.
        lead,
        /// Number of what the throttle holds.
        speed_hold,
        /// Thrust for level flight at the return speed, N.
        trim_thrust,
        /// How long the elevator lags the bank, s.
        load_lag,
        /// Time from the loss until something acts on it, s.
        failsafe_delay,
        /// Height above home below which it climbs straight ahead, m.
        turn_above,
        /// How long it waits before a cut, s.
        wait,
        /// Bank held in the glide, rad, positive to the right.
        glide_bank,
        /// Bank held without a position, rad, positive to the right.
        drift_bank,
        /// Angle swept on the circle before the take-over, rad.
        sweep,
        /// Time on the circle before the take-over, s.
        take_over,
        /// Speed of the glide, m/s.
        glide_speed,
        /// Angle of the glide below the horizon, rad.
        glide_angle,
        /// Least speed asked for, in stall speeds.
        stall_factor,
        /// Error of the captured home, east, m.
        home_error_x,
        /// Error of the captured home, north, m.
        home_error_y,
        /// Height read less height true at rest, m.
        height_error,
        /// Height read less height true in flight, of the velocity head `V^2 / 2g`.
        static_error,
        /// Wander of the height, m.
        height_wander,
        /// Time over which the height wanders, s.
        height_wander_over,
        /// Wander of the position, each axis, m.
        position_noise,
        /// Noise of the ground velocity, each axis, m/s.
        velocity_noise,
    }
}
