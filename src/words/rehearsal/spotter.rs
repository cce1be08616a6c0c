//! What does a spotter say at this very moment? In the words of the field card: hour, fists, which way, which wing is down.

use glam::DVec2;

use super::names::seen;
use crate::margins::{hour, in_fists, landmark};
use crate::rehearsal::{Lean, Rehearsal, SeenAttitude};
use crate::run::Stretch;
use crate::words::fists;

/// Least wind in which the circle has a slow side, m/s: in less of it nobody sees one (judgement).
const SLOW_SIDE_MPS: f64 = 1.0;

/// What a spotter sees.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Seen<'a> {
    hour: u32,
    fists: f64,
    attitude: SeenAttitude,
    landmark: Option<&'a str>,
    /// What it is at, once something is lost.
    stretch: Option<Stretch>,
    slow: bool,
}

/// What a spotter says of the jet now, such as "2 o'clock, 3 fists, going left, level, by the barn. Slow side now."
pub fn spotter_line(rehearsal: &Rehearsal) -> String {
    let (scenario, sight) = (rehearsal.scenario(), rehearsal.sight());
    let landmark = landmark(scenario, sight.bearing);
    line(&Seen {
        hour: hour(sight.bearing, scenario.field.facing),
        fists: in_fists(sight.elevation_deg),
        attitude: rehearsal.seen(),
        landmark: landmark.as_ref().map(|(name, _)| name.as_str()),
        stretch: rehearsal.lost_at().map(|_| rehearsal.stretch()),
        slow: is_slow(rehearsal),
    })
}

/// Against the wind: slower over the ground than through the air.
fn is_slow(rehearsal: &Rehearsal) -> bool {
    let (state, air) = (rehearsal.state(), rehearsal.air());
    let through_air = DVec2::new(state.nose_x, state.nose_y) * state.airspeed * state.climb.cos();
    air.length() >= SLOW_SIDE_MPS && (through_air + air).length() < through_air.length()
}

fn line(seen_now: &Seen<'_>) -> String {
    let up = if seen_now.fists > 0.0 { fists(seen_now.fists) } else { "on the horizon".into() };
    let by = seen_now.landmark.map_or_else(String::new, |name| format!(", by the {}", name.trim_start_matches("the ")));
    format!("{} o'clock, {up}, {}{by}.{}", seen_now.hour, seen(seen_now.attitude), besides(seen_now))
}

/// What it does of its own on the return.
fn besides(seen_now: &Seen<'_>) -> &'static str {
    let banks = seen_now.attitude.lean != Lean::Level;
    match seen_now.stretch {
        Some(Stretch::BeforeFailsafe | Stretch::Levelling | Stretch::Climb | Stretch::Waiting) => " Not turning.",
        Some(Stretch::HeadingHome) if banks => " Turning.",
        Some(Stretch::HeadingHome) => " Heading home.",
        Some(Stretch::Joining) => " Joining.",
        Some(Stretch::Circling) if seen_now.slow => " Slow side now.",
        Some(Stretch::Gliding) => " It glides. Clear below it.",
        Some(Stretch::Drifting) => " It drifts. Take it by hand.",
        Some(Stretch::Circling | Stretch::TakenOver | Stretch::ByHand) | None => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rehearsal::{Deed, Exercise, Heading, When};
    use crate::run::Scenario;

    #[test]
    fn a_moment_is_told_in_the_words_of_the_card() {
        let level = SeenAttitude { heading: Heading::Left, lean: Lean::Level };
        let banked = SeenAttitude { heading: Heading::Going, lean: Lean::Right };
        let plain = Seen { hour: 2, fists: 3.0, attitude: level, landmark: None, stretch: None, slow: true };
        for (seen_now, said) in [
            (plain, "2 o'clock, 3 fists, going left, level."),
            (Seen { landmark: Some("barn"), ..plain }, "2 o'clock, 3 fists, going left, level, by the barn."),
            (Seen { landmark: Some("the barn"), ..plain }, "2 o'clock, 3 fists, going left, level, by the barn."),
            (Seen { hour: 12, fists: 0.5, ..plain }, "12 o'clock, 0.5 fist, going left, level."),
            (Seen { fists: 0.0, ..plain }, "2 o'clock, on the horizon, going left, level."),
            (
                Seen { stretch: Some(Stretch::Levelling), ..plain },
                "2 o'clock, 3 fists, going left, level. Not turning.",
            ),
            (
                Seen { stretch: Some(Stretch::HeadingHome), attitude: banked, ..plain },
                "2 o'clock, 3 fists, going away, right wing down. Turning.",
            ),
            (
                Seen { stretch: Some(Stretch::HeadingHome), ..plain },
                "2 o'clock, 3 fists, going left, level. Heading home.",
            ),
            (
                Seen { stretch: Some(Stretch::Circling), ..plain },
                "2 o'clock, 3 fists, going left, level. Slow side now.",
            ),
            (Seen { stretch: Some(Stretch::Circling), slow: false, ..plain }, "2 o'clock, 3 fists, going left, level."),
            (Seen { stretch: Some(Stretch::ByHand), ..plain }, "2 o'clock, 3 fists, going left, level."),
        ] {
            assert_eq!(line(&seen_now), said);
        }
    }

    #[test]
    fn on_the_circle_the_slow_side_is_told_where_it_goes_slower_over_the_ground_than_through_the_air() {
        let scenario = Scenario::demo();
        let exercise = Exercise { when: When::AfterS(2.0), ..Exercise::default() };
        let mut flown = Rehearsal::new(&scenario, &exercise).unwrap();
        while flown.lost_at().is_none() {
            flown.step(&[]);
        }
        flown.step(&[Deed::Return]);
        let (mut slow, mut fast) = (0, 0);
        let half = scenario.wind_at_circle()[0] / 2.0;
        while flown.time_s() < 150.0 && flown.step(&[]) {
            if flown.stretch() != Stretch::Circling {
                continue;
            }
            // By the path itself, some of the way off the edge between the two sides.
            let (trace, at) = (flown.trace(), flown.trace().len() - 1);
            let over_ground = trace.point(at).distance(trace.point(at - 1)) / trace.step_s;
            let pushed = over_ground - trace.airspeed_mps[at];
            let told = spotter_line(&flown).ends_with("Slow side now.");
            if pushed < -half {
                assert!(told, "{} at {} s", spotter_line(&flown), flown.time_s());
                slow += 1;
            } else if pushed > half {
                assert!(!told, "{} at {} s", spotter_line(&flown), flown.time_s());
                fast += 1;
            }
        }
        assert!(slow > 50 && fast > 50, "{slow} {fast}");
    }
}
