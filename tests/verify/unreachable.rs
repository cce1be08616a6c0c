//! Wind as fast as the jet: said in words, without an endless loop or a number that is none (V23).

use peewit::jet::turn::{blown_wide, lap_time};
use peewit::run::{Ending, LONGEST_S};
use peewit::units::{Bearing, Charge};

use crate::support::{at_speed, eastward, flown, open};

#[test]
fn a_jet_slower_than_the_wind_does_not_come_home() {
    for wind in [20.0, 22.0, 30.0] {
        let scenario = open(|file| {
            at_speed(file, 20.0);
            eastward(file, wind);
            file.loss.at_m = [300.0, 20.0];
            file.loss.heading = Bearing::from_deg(90.0);
            file.jet.capacity.value = Charge::new(3600.0 * 20.0);
        });
        let (run, margins) = flown(&scenario);
        assert_eq!(run.ending, Ending::OutOfTime);
        assert!((margins.end_s - LONGEST_S).abs() < 0.2);
        assert!(margins.rows.iter().all(|row| row.margin.is_finite() && row.at_s.is_finite() && row.at.is_finite()));
        assert_eq!((margins.figures.home_s, margins.figures.lap_s, margins.figures.furthest_m), (None, None, None));
        let said = |part: &str| margins.remarks.iter().any(|remark| remark.contains(part));
        assert!(
            said("it can't come home against it") && said("Not home 900 s after the loss"),
            "{:?}",
            margins.remarks
        );
        let home = margins.rows.iter().find(|row| row.name.starts_with("time home")).unwrap();
        assert!(home.margin < 0.0);
    }
}

#[test]
fn closed_forms_have_no_answer_there() {
    for wind in [24.0, 24.5, 100.0] {
        assert_eq!(lap_time(24.0, wind, 100.0), None);
        assert_eq!(blown_wide(24.0, wind, 100.0, 0.6), None);
    }
    assert!(blown_wide(24.0, 23.99, 100.0, 0.6).is_some_and(|distance| !distance.is_nan()));
}
