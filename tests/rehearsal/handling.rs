//! The jet in somebody's hands against the numbers of its sheet: roll, turn, stall and climb.

use peewit::jet::{Entry, Origin, turn};
use peewit::rehearsal::{Deed, Exercise, From, Hands, Rehearsal, Sticks, When};
use peewit::run::{Scenario, ScenarioFile};
use peewit::units::{Length, Quantity, Ratio};

/// The demo's jet in still air, high, in somebody's hands and with nothing lost.
fn flying(hands: Hands, edit: impl FnOnce(&mut ScenarioFile)) -> Rehearsal {
    let mut file = Scenario::demo().file;
    file.wind.turbulence = false;
    file.wind.gust = None;
    file.loss.height = Length::new(300.0);
    file.loss.charge = Ratio::new(1.0);
    file.loss.speed = file.jet.return_speed.value;
    file.limits.height_limit = None;
    edit(&mut file);
    let scenario = Scenario::from_file(file).unwrap();
    let exercise = Exercise { when: When::Pressed, wind_share: 0.0, hands, from: From::Plan, ..Exercise::default() };
    Rehearsal::new(&scenario, &exercise).unwrap()
}

fn hold(flown: &mut Rehearsal, seconds: f64, sticks: Sticks) {
    let end = flown.time_s() + seconds;
    let mut deeds = vec![Deed::Sticks(sticks)];
    while flown.time_s() < end - 1e-9 && flown.step(&deeds) {
        deeds.clear();
    }
}

/// The throttle of level flight at the return speed.
fn trim(flown: &Rehearsal) -> f64 {
    let jet = &flown.trial().jet;
    jet.trim_throttle(jet.return_speed)
}

#[test]
fn it_rolls_to_thirty_degrees_in_the_lag_of_the_sheet() {
    let mut flown = flying(Hands::Levelling, |file| file.jet.roll_rate.value = Quantity::from_si(15.0));
    let throttle_share = trim(&flown);
    let limit = flown.trial().jet.maximum_bank;
    let lag = flown.trial().jet.roll_lag;
    let wanted = 30_f64.to_radians();
    // A first-order lag has done 1 - 1/e of it after one lag: stick for 30 degrees, looked at after the steps nearest to it.
    let step_s = flown.step_s();
    let steps = (lag / step_s).round();
    hold(&mut flown, steps * step_s, Sticks { roll_share: wanted / limit, throttle_share, pitch_share: 0.0 });
    let expected = wanted * (1.0 - (-steps * step_s / lag).exp());
    assert!((flown.state().bank - expected).abs() < 1e-3, "{} for {expected}", flown.state().bank);
}

#[test]
fn a_level_turn_has_the_radius_of_the_closed_form() {
    let mut flown = flying(Hands::Levelling, |_| {});
    let limit = flown.trial().jet.maximum_bank;
    let wanted = 30_f64.to_radians();
    let jet = flown.trial().jet;
    // The throttle of a level turn at that bank, by the drag at its load.
    let efflux = jet.efflux(jet.return_speed, jet.drag(jet.return_speed, 1.0 / wanted.cos(), 0.0));
    let sticks = Sticks { roll_share: wanted / limit, throttle_share: efflux / jet.efflux_full, pitch_share: 0.0 };
    hold(&mut flown, 25.0, sticks);
    let from = flown.trace().len();
    hold(&mut flown, 20.0, sticks);
    let trace = flown.trace();
    let (mut low, mut high) = (f64::MAX, f64::MIN);
    for index in from..trace.len() {
        low = low.min(trace.x_m[index]);
        high = high.max(trace.x_m[index]);
    }
    let speed = flown.state().airspeed;
    // r = V^2 / (g tan bank).
    let expected = turn::radius(speed, wanted);
    assert!(((high - low) / 2.0 - expected).abs() < 0.02 * expected, "{} for {expected}", (high - low) / 2.0);
}

#[test]
fn it_stalls_at_the_speed_of_the_sheet() {
    let mut flown = flying(Hands::Levelling, |_| {});
    let stall = flown.trial().jet.stall_speed(1.0);
    // Throttle closed, the stick holding it level: the wing stalls where the load wanted is more than it carries.
    let (mut slowest, step_s) = (f64::MAX, flown.step_s());
    for _ in 0..300 {
        hold(&mut flown, step_s, Sticks::default());
        let trace = flown.trace();
        let last = trace.len() - 1;
        if trace.wanted_load[last] > trace.load[last] + 1e-9 {
            slowest = trace.airspeed_mps[last];
            break;
        }
    }
    // Within what it slows down by in a step of 0.1 s.
    assert!((slowest - stall).abs() < 0.02 * stall, "{slowest} for {stall}");
}

#[test]
fn it_climbs_at_the_rate_of_the_sheet() {
    let rate = 9.0;
    let mut flown = flying(Hands::Levelling, |file| {
        file.jet.climb = Some(Entry::si(rate, 0.0, Origin::Measured));
        file.jet.full_power = None;
        file.jet.climb_limit.value = Quantity::from_si(0.6);
        // So that the pack does not sag meanwhile.
        file.jet.capacity.value = Quantity::from_si(30.0 * 3600.0);
    });
    let jet = flown.trial().jet;
    let mut heights = Vec::new();
    // Full throttle, and the nose where the return speed stays.
    for _ in 0..300 {
        let faster = flown.state().airspeed - jet.return_speed;
        let climb = (rate / jet.return_speed).asin() + 0.1 * faster;
        let step_s = flown.step_s();
        hold(&mut flown, step_s, Sticks { throttle_share: 1.0, pitch_share: climb / jet.climb_limit, roll_share: 0.0 });
        heights.push(flown.state().height);
    }
    let found = (heights[299] - heights[199]) / (100.0 * flown.step_s());
    // The wind, the air and the pack are those of the sheet; the lift in a climb is a little less than the weight.
    assert!((found - rate).abs() < 0.03 * rate, "{found} for {rate}, at {}", flown.state().airspeed);
}
