//! What may only go one way (V24): more wind needs a larger circle, more buffer leaves less room.

use peewit::recovery::Turn;
use peewit::study::radius::{RadiusRange, RadiusStudy};
use peewit::units::{Length, Speed};

use super::{goatwillow, plain};

/// How near the ends of usable radii are found, metres.
const NEAR: f64 = 1.0;

/// Lowest and highest radius of the mean usable radii of a way round.
fn ends(study: &RadiusStudy, turn: Turn) -> Option<[f64; 2]> {
    let usable: Vec<&RadiusRange> = study.usable.mean.iter().filter(|range| range.turn == turn).collect();
    Some([usable.first()?.low.radius_m, usable.last()?.high.radius_m])
}

#[test]
fn more_wind_never_lowers_the_smallest_radius() {
    let winds = [0.0, 3.0, 6.0, 8.0];
    let studies = winds.map(|wind| {
        let windy = goatwillow([0.0, -80.0], |file| {
            file.wind.mean = Speed::new(wind);
            file.wind.gust = Some(Speed::new(1.5 * wind));
        });
        plain(&windy, &[50.0, 100.0, 150.0])
    });
    for pair in studies.windows(2) {
        let [calmer, windier] = [0, 1].map(|i| pair[i].closed.smallest_m);
        assert!(calmer[1] < windier[1] && calmer[2] < windier[2] && calmer[0] == windier[0]);
        for turn in [Turn::Anticlockwise, Turn::Clockwise] {
            let [calmer, windier] = [0, 1].map(|i| ends(&pair[i], turn).unwrap()[0]);
            assert!(calmer <= windier + NEAR, "{calmer} {windier}");
        }
    }
}

#[test]
fn more_buffer_never_widens_the_usable_radii() {
    let studies = [0.0, 10.0, 20.0, 30.0, 80.0].map(|buffer| {
        let strict = goatwillow([0.0, -80.0], |file| file.limits.buffer = Length::new(buffer));
        plain(&strict, &[100.0, 150.0, 200.0])
    });
    for turn in [Turn::Anticlockwise, Turn::Clockwise] {
        for pair in studies.windows(2) {
            assert!(pair[0].closed.largest_m > pair[1].closed.largest_m);
            let [wider, narrower] = [0, 1].map(|i| ends(&pair[i], turn));
            let Some([low, high]) = narrower else { continue };
            let wider = wider.unwrap();
            assert!(wider[0] <= low + NEAR && high <= wider[1] + NEAR, "{wider:?} {narrower:?}");
        }
        // It does shrink, and in the end nothing is left.
        assert!(ends(&studies[0], turn).unwrap()[1] > ends(&studies[3], turn).unwrap()[1] + 10.0);
        assert_eq!(ends(&studies[4], turn), None);
    }
}
