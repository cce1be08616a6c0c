//! Are only those numbers corrected that the log knows better, and is what follows from them worked out anew?

use super::*;
use crate::debrief::Candidate;
use crate::run::Scenario;
use crate::study::stats::Interval;

const SILENT: Result<Estimate, &str> = Err("not asked");

fn silent() -> Learned {
    Learned {
        return_speed: SILENT,
        maximum_bank: SILENT,
        roll_lag: SILENT,
        circle_height: SILENT,
        height_wander: SILENT,
        failsafe_delay: SILENT,
        return_power: SILENT,
        radius: SILENT,
    }
}

fn of<'a>(learned: &'a Learned, steering: Option<&'a Steering>, source: &str) -> Evidence<'a> {
    Evidence { source: source.into(), learned: vec![learned], steering: steering.into_iter().collect(), growth: None }
}

fn within(value: f64, spread: f64) -> Result<Estimate, &'static str> {
    Ok(Estimate::within(value, spread))
}

#[test]
fn a_number_known_as_well_stays_and_a_contradicted_one_goes() {
    let file = Scenario::demo().file;
    let whats = |learned: &Learned| {
        let all = corrections(&file, &[of(learned, None, "june.gpx")]);
        all.into_iter().map(|one| one.what).collect::<Vec<_>>()
    };
    // The sheet says 22 m/s within 1.5, measured.
    assert_eq!(whats(&silent()), [""; 0]);
    assert_eq!(whats(&Learned { return_speed: within(22.5, 1.4), ..silent() }), [""; 0]);
    assert_eq!(whats(&Learned { return_speed: within(22.5, 0.4), ..silent() }), ["return speed"]);
    assert_eq!(whats(&Learned { return_speed: within(28.0, 1.6), ..silent() }), ["return speed"]);
}

#[test]
fn what_was_measured_at_the_return_speed_follows_it_and_the_notes_say_so() {
    let mut file = Scenario::demo().file;
    file.jet.return_power = Some(Entry::si(500.0, 20.0, Origin::Measured));
    let learned = Learned { return_speed: within(26.0, 0.4), ..silent() };
    let all = corrections(&file, &[of(&learned, None, "june.gpx on 2026-06-18")]);
    let new = corrected(&file, &all);
    assert_eq!(
        new.jet.return_speed,
        Entry { value: Speed::new(26.0), spread: Speed::new(0.4), origin: Origin::Measured }
    );
    let power = new.jet.return_power.unwrap();
    assert!(power.value.w() > 510.0 && power.origin == Origin::Estimated, "{power:?}");
    assert_eq!(new.notes.last().unwrap(), "Return speed measured in june.gpx on 2026-06-18.");
    assert_eq!(new.wind, file.wind);
    assert!(Scenario::from_file(new).is_ok());
}

#[test]
fn one_loss_leaves_the_spread_of_the_delay() {
    let file = Scenario::demo().file;
    let learned = Learned { failsafe_delay: within(2.6, 0.1), ..silent() };
    let new = corrected(&file, &corrections(&file, &[of(&learned, None, "june.gpx")]));
    assert_eq!((new.delay().value.s(), new.delay().spread.s()), (2.6, 0.4));
}

#[test]
fn a_law_that_is_found_is_flown_and_ruled_out_no_more() {
    let [field, ahead, nose] = Guidance::ALL;
    let candidate = |(guidance, misfit_m)| Candidate { guidance, gain: Gain::Soft, misfit_m };
    let candidates = [(nose, 1.0), (ahead, 20.0), (field, 21.0)].map(candidate).to_vec();
    let steering = Steering { candidates, noise_m: 2.0, asks_bank_rad: None };
    let file = Scenario::demo().file;
    assert_eq!(file.recovery.laws_ruled_out, [nose]);
    let all = corrections(&file, &[of(&silent(), Some(&steering), "june.gpx")]);
    assert_eq!(
        (all[0].before.as_str(), all[0].after.as_str()),
        ("nose on the centre", "field of directions, look-ahead")
    );
    let plan = corrected(&file, &all).recovery;
    assert_eq!((plan.laws_ruled_out, plan.guidance, plan.gain), (vec![field, ahead], nose, Gain::Soft));
}

#[test]
fn logs_speak_together_and_are_named() {
    let file = Scenario::demo().file;
    let all: Vec<Learned> =
        [23.0, 23.6, 23.3, 23.3].map(|speed| Learned { return_speed: within(speed, 0.6), ..silent() }).into();
    let names = ["a.csv", "b.csv", "c.csv", "d.csv"];
    let evidence: Vec<_> = all.iter().zip(names).map(|(one, name)| of(one, None, name)).collect();
    let found = corrections(&file, &evidence);
    let Change::ReturnSpeed(entry) = &found[0].change else { panic!("{found:?}") };
    // The mean, within 0.6 by the root of four.
    assert_eq!((entry.value.mps(), entry.spread.mps()), (23.3, 0.3));
    assert_eq!(found[0].note, "Return speed measured in a.csv, b.csv, c.csv and 1 more.");
}

#[test]
fn each_log_may_rule_out_a_law_and_the_one_that_all_leave_is_flown() {
    let [field, ahead, nose] = Guidance::ALL;
    let of_misfits = |misfits: [f64; 3]| {
        let candidate = |(guidance, misfit_m)| Candidate { guidance, gain: Gain::Sharp, misfit_m };
        let mut candidates: Vec<_> = [field, ahead, nose].into_iter().zip(misfits).map(candidate).collect();
        candidates.sort_by(|a, b| a.misfit_m.total_cmp(&b.misfit_m));
        Steering { candidates, noise_m: 2.0, asks_bank_rad: None }
    };
    let (one, two) = (of_misfits([2.0, 3.0, 40.0]), of_misfits([20.0, 3.0, 4.0]));
    let mut file = Scenario::demo().file;
    file.recovery.laws_ruled_out = vec![ahead];
    let learned = silent();
    let all = corrections(&file, &[of(&learned, Some(&one), "a"), of(&learned, Some(&two), "b")]);
    let plan = corrected(&file, &all).recovery;
    assert_eq!((plan.laws_ruled_out, plan.guidance, plan.gain), (vec![field, nose], ahead, Gain::Sharp));
}

#[test]
fn a_growth_of_the_wind_that_was_flown_takes_the_place_of_a_guess() {
    let mut file = Scenario::demo().file;
    (file.wind.profile, file.wind.exponent_low, file.wind.exponent_high) = (Profile::Power, Some(0.1), Some(0.2));
    let learned = silent();
    let new = |exponent: f64, off: f64| {
        let within = Interval { low: exponent - off, high: exponent + off };
        let law = PowerLaw { exponent, exponent_within: within, at_ten_mps: 5.0 };
        let evidence = Evidence { growth: Some(&law), ..of(&learned, None, "june.gpx") };
        let wind = corrected(&file, &corrections(&file, &[evidence])).wind;
        [wind.exponent_low, wind.exponent_high].map(Option::unwrap)
    };
    // As wide as what is written; wide, but elsewhere; sharp, but another hour is another.
    assert_eq!(new(0.18, 0.1), [0.1, 0.2]);
    assert_eq!(new(0.4, 0.14), [0.28, 0.52]);
    assert_eq!(new(0.4, 0.01), [0.35, 0.45]);
}
