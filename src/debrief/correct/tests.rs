//! Are only those numbers corrected that the log knows better, and is what follows from them worked out anew?

use super::*;
use crate::debrief::Candidate;
use crate::run::Scenario;

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

fn within(value: f64, spread: f64) -> Result<Estimate, &'static str> {
    Ok(Estimate::within(value, spread))
}

#[test]
fn a_number_known_as_well_stays_and_a_contradicted_one_goes() {
    let file = Scenario::demo().file;
    let whats = |learned: &Learned| {
        let all = corrections(&file, learned, None, "june.gpx", None);
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
    let all = corrections(&file, &learned, None, "june.gpx", Some("2026-06-18"));
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
    let learned = Learned { failsafe_delay: within(2.0, 0.1), ..silent() };
    let new = corrected(&file, &corrections(&file, &learned, None, "june.gpx", None));
    assert_eq!((new.delay().value.s(), new.delay().spread.s()), (2.0, 0.4));
}

#[test]
fn a_law_that_is_found_is_flown_and_ruled_out_no_more() {
    let [field, ahead, nose] = Guidance::ALL;
    let candidate = |(guidance, misfit_m)| Candidate { guidance, gain: Gain::Soft, misfit_m };
    let candidates = [(nose, 1.0), (ahead, 20.0), (field, 21.0)].map(candidate).to_vec();
    let steering = Steering { candidates, noise_m: 2.0 };
    let file = Scenario::demo().file;
    assert_eq!(file.recovery.laws_ruled_out, [nose]);
    let all = corrections(&file, &silent(), Some(&steering), "june.gpx", None);
    assert_eq!(
        (all[0].before.as_str(), all[0].after.as_str()),
        ("nose on the centre", "field of directions, look-ahead")
    );
    let plan = corrected(&file, &all).recovery;
    assert_eq!((plan.laws_ruled_out, plan.guidance, plan.gain), (vec![field, ahead], nose, Gain::Soft));
}
