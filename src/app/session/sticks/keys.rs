//! Where do keys that are held, and the mouse, put the sticks?

use crate::rehearsal::Sticks;

/// Shares of the travel to one side that a held key moves a stick by, a second: a tap is a small correction (judgement).
const OUT_RATE: f64 = 2.5;
/// The same, back to the middle when it is let go (judgement).
const BACK_RATE: f64 = 4.0;
/// Shares of the throttle's travel that a held key moves it by, a second (judgement).
const THROTTLE_RATE: f64 = 0.5;

/// Keys that are down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct KeysHeld {
    /// Stick left.
    pub left: bool,
    /// Stick right.
    pub right: bool,
    /// Stick back: nose up.
    pub back: bool,
    /// Stick forward: nose down.
    pub forward: bool,
    /// More throttle.
    pub more: bool,
    /// Less throttle.
    pub less: bool,
}

/// Keyboard and mouse.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Keys {
    /// Which keys are down.
    pub held: KeysHeld,
    /// Where the mouse is in its square, as shares of half its side: to the right, and towards the person, which is stick
    /// back. None where it doesn't fly.
    pub mouse: Option<[f64; 2]>,
}

impl Keys {
    /// Where the sticks are, `dt` seconds after they were where they were before.
    #[must_use]
    pub fn after(&self, before: Sticks, dt: f64) -> Sticks {
        let dt = if dt.is_finite() { dt.max(0.0) } else { 0.0 };
        let before = before.within_reach();
        let towards = |from: f64, less: bool, more: bool| match wish(less, more) {
            0.0 => from - from.clamp(-BACK_RATE * dt, BACK_RATE * dt),
            side => from + side * OUT_RATE * dt,
        };
        let held = self.held;
        let [roll_share, pitch_share] = self.mouse.unwrap_or_else(|| {
            [towards(before.roll_share, held.left, held.right), towards(before.pitch_share, held.forward, held.back)]
        });
        let throttle_share = before.throttle_share + wish(held.less, held.more) * THROTTLE_RATE * dt;
        Sticks { roll_share, pitch_share, throttle_share }.within_reach()
    }
}

/// Which way two keys that go against each other ask for.
fn wish(less: bool, more: bool) -> f64 {
    f64::from(i8::from(more) - i8::from(less))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sticks at some moments, by a screen of so many frames a second: a key is down from 0 to `let_go`.
    fn flown(held: KeysHeld, hz: f64, let_go: f64, moments: [f64; 3]) -> [Sticks; 3] {
        let (mut sticks, mut at) = (Sticks::default(), 0.0);
        moments.map(|moment| {
            while at < moment {
                let until = if at < let_go { moment.min(let_go) } else { moment };
                let dt = (until - at).min(1.0 / hz);
                let held = if at < let_go { held } else { KeysHeld::default() };
                sticks = Keys { held, mouse: None }.after(sticks, dt);
                at += dt;
            }
            sticks
        })
    }

    #[test]
    fn sticks_go_as_far_on_a_slow_screen_as_on_a_fast_one() {
        let held = KeysHeld { right: true, back: true, more: true, ..KeysHeld::default() };
        let moments = [0.17, 0.33, 0.37];
        // By hand: 2.5 a second for 0.3 s, then back by 4 a second; the throttle 0.5 a second and stays.
        let wanted = [(0.425, 0.085), (0.75 - 0.12, 0.15), (0.75 - 0.28, 0.15)];
        for hz in [20.0, 60.0, 144.0] {
            for (found, (stick, throttle)) in flown(held, hz, 0.3, moments).into_iter().zip(wanted) {
                for (found, wanted) in
                    [(found.roll_share, stick), (found.pitch_share, stick), (found.throttle_share, throttle)]
                {
                    assert!((found / wanted - 1.0).abs() < 0.01, "{found} for {wanted} by {hz} Hz");
                }
            }
        }
    }

    #[test]
    fn let_go_they_come_to_rest_in_the_middle_without_passing_it() {
        let out = Sticks { roll_share: -0.07, pitch_share: 0.5, throttle_share: 0.5 };
        let back = Keys::default().after(out, 0.05);
        assert_eq!((back.roll_share, back.throttle_share), (0.0, 0.5));
        assert!((back.pitch_share - 0.3).abs() < 1e-12);
        // Two against each other are none.
        let both = KeysHeld { left: true, right: true, ..KeysHeld::default() };
        assert_eq!(Keys { held: both, mouse: None }.after(out, 0.05), back);
    }

    #[test]
    fn the_mouse_is_the_stick_and_the_keys_still_have_the_throttle() {
        let held = KeysHeld { left: true, less: true, ..KeysHeld::default() };
        let keys = Keys { held, mouse: Some([0.4, -3.0]) };
        let found = keys.after(Sticks { throttle_share: 0.5, ..Sticks::default() }, 0.2);
        assert_eq!(found, Sticks { roll_share: 0.4, pitch_share: -1.0, throttle_share: 0.4 });
        let odd = Keys { held, mouse: Some([f64::NAN, f64::INFINITY]) }.after(found, f64::NAN);
        assert_eq!(odd, Sticks { roll_share: 0.0, pitch_share: 1.0, throttle_share: 0.4 });
    }
}
