//! The wind that a track tells, where it can be worked out, and what is said where it can't be.

use std::f64::consts::TAU;

use glam::DVec2;
use peewit::debrief::{TooLittle, WindFit, by_height, circle, laps, wind};
use peewit::run::{Channels, Track};
use peewit::units::Bearing;
use peewit::verify::another::Flight;

use crate::support::near;

#[test]
fn three_ground_speeds_and_tracks() {
    // Handbook 10.1: D. Gray, "Using GPS to accurately establish true airspeed", 1998, as quoted, knots and degrees;
    // more digits recomputed there.
    let tracks = [(140.0, 192.0), (112.0, 283.0), (120.0, 20.0)];
    let velocities = tracks.map(|(speed, track)| Bearing::from_deg(track).unit() * speed);
    let circle = circle::taubin(&velocities).unwrap();
    near(circle.radius, 129.998_5, 1e-4);
    near(circle.centre.length(), 20.633, 1e-3);
    near(Bearing::of(-circle.centre).deg(), 314.758, 1e-3);
    for (velocity, heading) in velocities.into_iter().zip([199.67, 287.79, 11.71]) {
        near(Bearing::of(velocity - circle.centre).deg(), heading, 5e-3);
    }
}

/// A turn at one airspeed and one rate in one wind, closed form: a circle in the air that drifts.
fn drifting(airspeed: f64, rate: f64, blows: DVec2, every_s: f64, seconds: f64) -> Track {
    let time_s: Vec<f64> = (0..).map(|index| f64::from(index) * every_s).take_while(|&at| at <= seconds).collect();
    let place = |&at: &f64| blows * at + DVec2::from_angle(0.7 + rate * at) * (airspeed / rate);
    let places = time_s.iter().map(place).collect();
    logged(time_s, places)
}

fn logged(time_s: Vec<f64>, place: Vec<DVec2>) -> Track {
    let height_m = vec![50.0; time_s.len()];
    Track::new(time_s, place, height_m, Channels::default()).unwrap()
}

fn whole(track: &Track) -> Result<WindFit, TooLittle> {
    wind(track, 0..track.time_s().len())
}

#[test]
fn a_steady_turn_tells_wind_and_airspeed_as_they_are() {
    // Closed form, with the shortening of a chord in it, and with more wind than airspeed.
    for (every_s, rate) in [(0.1, 0.35), (0.1, -0.9), (1.0, 0.5), (1.0, -0.3), (0.37, 0.4)] {
        for blows in [DVec2::ZERO, DVec2::new(3.0, -5.0), DVec2::new(-20.0, 12.0)] {
            let fit = whole(&drifting(21.0, rate, blows, every_s, 30.0)).unwrap();
            near(fit.wind.distance(blows), 0.0, 1e-6);
            near(fit.airspeed_mps, 21.0, 1e-6);
            near(fit.residual_mps, 0.0, 1e-6);
            near(fit.turned_deg, (rate.abs() * 29.0).to_degrees(), 2.0 * rate.abs().to_degrees());
            near(fit.height_m, 50.0, 1e-9);
            assert!(fit.holds(blows) && fit.speed_within.holds(blows.length()), "{fit:?}");
            assert_eq!(fit.from_within_deg == 180.0, blows == DVec2::ZERO, "{fit:?}");
        }
    }
}

#[test]
fn too_little_is_said_in_words() {
    #[track_caller]
    fn check(track: &Track, words: &str) {
        let found = whole(track).expect_err(words).to_string();
        assert!(found.contains(words), "{found}");
    }
    let blows = DVec2::new(4.0, 2.0);
    // 140 deg between the middles of the first and the last of 13 velocities.
    check(&drifting(20.0, 140.0_f64.to_radians() / 12.0, blows, 0.1, 13.05), "turned only 140 deg");
    check(&drifting(20.0, 1e-9, blows, 0.1, 30.0), "turned only 0 deg");
    check(&drifting(20.0, 0.5, blows, 0.1, 6.0), "only 6 s");
    check(&drifting(20.0, 0.3, blows, 4.0, 80.0), "one position in 4.0 s");
    let without = |gaps: &dyn Fn(f64) -> bool| {
        let all = drifting(20.0, 0.2, blows, 0.1, 39.0);
        let kept = all.time_s().iter().zip(all.place()).filter(|(at, _)| !gaps(**at));
        let (time_s, place) = kept.map(|(at, place)| (*at, *place)).unzip();
        logged(time_s, place)
    };
    // Three gaps of 5 s in 35.
    check(&without(&|at| at.rem_euclid(10.0) > 5.0), "gaps: 43 %");
    // One and a quarter turns, most of half of one missing and not flown again.
    check(&without(&|at| (8.0..21.4).contains(&at)), "headings over only");
    let uneven: Vec<DVec2> = (0..600)
        .scan(DVec2::ZERO, |place, index| {
            let at = f64::from(index) * 0.1;
            *place += DVec2::from_angle(0.4 * at) * (20.0 + 14.0 * (TAU * at / 7.0).sin()) * 0.1;
            Some(*place)
        })
        .collect();
    check(&logged((0..600).map(|index| f64::from(index) * 0.1).collect(), uneven), "don't lie on a circle");
    let track = drifting(20.0, 0.3, blows, 0.1, 40.0);
    assert_eq!(wind(&track, 5..5000), Err(TooLittle::Nothing));
    assert_eq!(wind(&track, 5..5), Err(TooLittle::Nothing));
}

#[test]
fn a_short_arc_is_told_with_a_caution() {
    let arc = |degrees: f64| whole(&drifting(20.0, 0.3, DVec2::X, 0.1, degrees.to_radians() / 0.3)).unwrap();
    assert!(arc(260.0).caution().is_some());
    assert!(arc(400.0).caution().is_none());
    // With the same gusts, an arc tells less than a turn that is whole: what the caution says.
    let flight = Flight { gust: (1.0, 2.0), noise: (0.5, 5.0), seconds: 60.0, ..Flight::default() };
    let track = flight.log(11).unwrap();
    let (short, long) = (wind(&track, 0..175).unwrap(), whole(&track).unwrap());
    assert!(short.caution().is_some(), "{short:?}");
    let width = |fit: &WindFit| fit.airspeed_within.high - fit.airspeed_within.low;
    assert!(width(&short) > 1.5 * width(&long), "{short:?} {long:?}");
}

#[test]
fn lap_by_lap() {
    for radius in [60.0, -60.0] {
        let flight = Flight { radius, seconds: 62.0, gust: (0.5, 2.0), ..Flight::default() };
        let track = flight.log(5).unwrap();
        let found = laps(&track, 10..track.time_s().len(), DVec2::ZERO);
        assert_eq!(found.len(), 3, "{found:?}");
        let mut begins = 10;
        for (lap, fit) in &found {
            assert_eq!(lap.start, begins);
            begins = lap.end - 1;
            let (first, last) = (track.place()[lap.start], track.place()[begins]);
            assert!(first.angle_to(last).abs() < 0.1, "{first} {last}");
            let fit = fit.unwrap();
            assert!(fit.wind.distance(flight.wind) < 2.0, "{fit:?}");
        }
    }
}

/// Two laps at each height, one after the other, in wind that grows as height to 0.2 from 4.4 m/s at 10 m.
fn at_heights(heights: &[f64]) -> (Track, Vec<std::ops::Range<usize>>) {
    let (mut time_s, mut place, mut height_m, mut parts) = (vec![], vec![], vec![], vec![]);
    for (seed, &height) in (1..).zip(heights) {
        let wind = DVec2::new(4.0, -1.833) * (height / 10.0_f64).powf(0.2);
        let flight =
            Flight { height, wind, power: 0.2, gust: (0.3, 1.0), noise: (0.3, 5.0), every: 5, ..Flight::default() };
        let log = flight.log(seed).unwrap();
        let begins = time_s.last().map_or(0.0, |last| last + 20.0);
        parts.push(time_s.len()..time_s.len() + log.time_s().len());
        time_s.extend(log.time_s().iter().map(|at| begins + at));
        place.extend(log.place());
        height_m.extend(log.height_m());
    }
    (Track::new(time_s, place, height_m, Channels::default()).unwrap(), parts)
}

#[test]
fn wind_by_height() {
    let (track, parts) = at_heights(&[110.0, 20.0, 50.0, 80.0, 35.0]);
    let found = by_height(&track, &parts);
    assert!(found.winds.is_sorted_by(|low, high| low.height_m < high.height_m) && found.winds.len() == 5);
    let law = found.law.unwrap();
    assert!(law.exponent_within.holds(0.2), "{law:?}");
    assert!(law.exponent_within.high - law.exponent_within.low < 0.3, "{law:?}");
    near(law.at_ten_mps, 4.4, 0.6);
    // 18 m apart.
    let (track, parts) = at_heights(&[40.0, 58.0]);
    let found = by_height(&track, &parts);
    assert_eq!((found.winds.len(), found.law), (2, None));
}
