//! A low sun behind a wide circle: the share of a lap in the glare against that of a circle flown exactly.

use glam::{DVec2, DVec3};
use peewit::margins::EYES_M;
use peewit::run::{Scenario, WindChoice, fly};
use peewit::study::glare::Sights;
use peewit::sun::Sun;
use peewit::units::{Length, Speed};

use super::shipped;

/// Half the width of the glare, degrees.
const WITHIN_DEG: f64 = 15.0;

#[test]
fn tansycroft_a_wide_circle_passes_through_the_sun() {
    let mut file = shipped("tansycroft-common");
    // In a calm the jet takes as long over every degree of the lap.
    (file.wind.mean, file.wind.gust) = (Speed::new(0.0), Some(Speed::new(0.0)));
    let field = file.field.clone().expect("inline");
    let (centre, pilot) = (DVec2::from(field.centre_m.expect("a centre")), DVec2::from(field.pilot_m));
    let sun = Sun { azimuth_deg: 290.0, elevation_deg: 16.0 };
    let mut shares = Vec::new();
    for radius in [70.0, 120.0, 200.0] {
        file.recovery.radius = Length::new(radius);
        let scenario = Scenario::from_file(file.clone()).unwrap();
        let seen = Sights::of(&scenario, &fly(&scenario, 0, WindChoice::Mean)).unwrap().look(sun, WITHIN_DEG).share;
        let height = file.recovery.height.m() - EYES_M;
        let sight = |step: i32| -> DVec3 {
            let place = centre + radius * DVec2::from_angle(f64::from(step).to_radians());
            (place - pilot).extend(height)
        };
        let blinded = (0..360).filter(|&step| sight(step).angle_between(sun.direction()).to_degrees() <= WITHIN_DEG);
        let exact = blinded.count() as f64 / 360.0;
        assert!((seen - exact).abs() < 0.02, "{radius} m: {seen}, exactly {exact}");
        shares.push(seen);
    }
    assert!(shares[0] == 0.0 && shares[2] > shares[1], "{shares:?}");
}
