//! Margins of tracks: a run that a log misses nothing of is judged as the run is; a log of place, height and time by what
//! those tell; and small tracks with uneven times by hand.

use glam::DVec2;
use peewit::field::{AreaFile, Metres, RuleName};
use peewit::margins::{Channel, Limit, MarginRow, TrackMargins, Verdict, judge_track};
use peewit::run::{Channels, HeightAbove, HeightLimit, Scenario, Track};
use peewit::units::Length;

use crate::support::{flown, near, open, shipped, tight_strip};

/// A track through corners (seconds, east, north, height).
fn track(corners: &[[f64; 4]], channels: Channels) -> Track {
    let list = |part: usize| corners.iter().map(|corner| corner[part]).collect::<Vec<f64>>();
    let place = corners.iter().map(|corner| DVec2::new(corner[1], corner[2])).collect();
    Track::new(list(0), place, list(3), channels).expect("lists that belong together")
}

/// The same rows within rounding; of the speed held, whose slowest seconds may be as slow as many others, only how slow.
#[track_caller]
fn same(rows: &[MarginRow], expected: &[MarginRow]) {
    assert_eq!(rows.len(), expected.len());
    for (row, expected) in rows.iter().zip(expected) {
        near(row.margin, expected.margin, 1e-9);
        near(row.buffer, expected.buffer, 1e-9);
        assert_eq!((row.limit, &row.name, row.verdict), (expected.limit, &expected.name, expected.verdict));
        if row.limit != Limit::SpeedHeld {
            near(row.at_s, expected.at_s, 1e-9);
            near(row.at.distance(expected.at), 0.0, 1e-6);
            near(row.height_m, expected.height_m, 1e-6);
        }
    }
}

fn both() -> impl Iterator<Item = Scenario> {
    shipped().into_iter().chain([tight_strip()])
}

#[test]
fn a_run_of_which_everything_is_known_is_judged_as_the_run_is() {
    for scenario in both() {
        let (run, margins) = flown(&scenario);
        let judged = judge_track(&scenario, &run.track());
        assert_eq!(judged.lacked, []);
        same(&judged.rows, &margins.rows);
        for (row, expected) in judged.rows.iter().zip(&margins.rows).filter(|(row, _)| row.limit != Limit::SpeedHeld) {
            assert_eq!(row.stretch, expected.stretch, "{}", row.name);
        }
    }
}

#[test]
fn place_height_and_time_tell_most_and_what_they_dont_is_named() {
    for scenario in both() {
        let (run, margins) = flown(&scenario);
        let all = run.track();
        let (time_s, place, height_m) = (all.time_s().to_vec(), all.place().to_vec(), all.height_m().to_vec());
        let bare = Track::new(time_s, place, height_m, Channels::default()).unwrap();
        let judged = judge_track(&scenario, &bare);
        let lacks = |limit: Limit| {
            matches!(limit, Limit::Stall | Limit::SpeedHeld | Limit::Bank | Limit::TimeHome | Limit::Energy)
        };
        let told: Vec<_> = margins.rows.iter().filter(|row| !lacks(row.limit)).cloned().collect();
        assert!(told.len() >= 3);
        same(&judged.rows, &told);
        assert!(judged.rows.iter().all(|row| row.stretch.is_none()));
        let named = judged.lacked.iter().map(|lacked| (lacked.limit.limit, &lacked.limit.name));
        let missing = margins.rows.iter().filter(|row| lacks(row.limit)).map(|row| row.limit);
        for limit in missing {
            assert!(named.clone().any(|(named, _)| named == limit), "{limit:?}");
        }
        for lacked in &judged.lacked {
            assert_eq!(lacked.channels, lacked.limit.limit.channels(), "all of them: it has none");
        }
    }
}

#[test]
fn a_channel_more_is_a_limit_more() {
    let scenario = tight_strip();
    let all = flown(&scenario).0.track();
    let only = |channels: Channels| {
        let (time_s, place, height_m) = (all.time_s().to_vec(), all.place().to_vec(), all.height_m().to_vec());
        judge_track(&scenario, &Track::new(time_s, place, height_m, channels).unwrap())
    };
    let lacked = |judged: &TrackMargins, limit: Limit| {
        let found = judged.lacked.iter().find(|lacked| lacked.limit.limit == limit);
        assert_eq!(found.is_none(), judged.rows.iter().any(|row| row.limit == limit), "{limit:?}");
        found.map(|lacked| lacked.channels.clone())
    };
    let channels = all.channels();
    let bank = only(Channels { bank_rad: channels.bank_rad.clone(), ..Channels::default() });
    assert_eq!(lacked(&bank, Limit::Bank), Some(vec![Channel::Stretches]));
    assert_eq!(lacked(&bank, Limit::TimeHome), Some(vec![Channel::Stretches]));
    let stretches = only(Channels { stretch: channels.stretch.clone(), ..Channels::default() });
    assert_eq!(lacked(&stretches, Limit::TimeHome), None);
    assert_eq!(lacked(&stretches, Limit::Bank), Some(vec![Channel::Bank]));
    assert_eq!(lacked(&stretches, Limit::Energy), Some(vec![Channel::Energy]));
    let speed = only(Channels { airspeed_mps: channels.airspeed_mps.clone(), ..Channels::default() });
    assert_eq!(lacked(&speed, Limit::Stall), Some(vec![Channel::Load]));
    let load = channels.load.clone();
    let speed = only(Channels { airspeed_mps: channels.airspeed_mps.clone(), load, ..Channels::default() });
    assert_eq!((lacked(&speed, Limit::Stall), lacked(&speed, Limit::SpeedHeld)), (None, None));
}

/// A field 200 m square about the datum, with a square that nobody may fly over, one where seconds are counted, and a
/// height limit over home.
fn square() -> Scenario {
    open(|file| {
        let field = file.field.as_mut().unwrap();
        field.boundary.ring_m = vec![[-100.0, -100.0], [100.0, -100.0], [100.0, 100.0], [-100.0, 100.0]];
        let area = |name: &str, rule: RuleName, ring: [Metres; 4]| AreaFile {
            name: name.into(),
            rule,
            height: None,
            months: vec![],
            otherwise: None,
            ring_m: ring.to_vec(),
            holes_m: vec![],
        };
        field.areas = vec![
            area("paddock", RuleName::NoFly, [[0.0, -40.0], [40.0, -40.0], [40.0, 0.0], [0.0, 0.0]]),
            area("path", RuleName::Caution, [[-50.0, -100.0], [-40.0, -100.0], [-40.0, 100.0], [-50.0, 100.0]]),
        ];
        field.pilot_m = [0.0, -50.0];
        file.loss.at_m = [10.0, 10.0];
        file.limits.buffer = Length::new(15.0);
        file.limits.height_limit = Some(HeightLimit { height: Length::new(120.0), above: HeightAbove::Home });
    })
}

#[test]
fn a_track_with_uneven_times_by_hand() {
    let scenario = square();
    // North past the north edge's buffer in 2 s, back along the diagonal past the paddock's corner in 8 s, then slowly east.
    let corners = [
        [0.0, -70.0, 60.0, 50.0],
        [1.0, -70.0, 90.0, 60.0],
        [2.0, -60.0, -20.0, 80.0],
        [10.0, 20.0, 60.0, 100.0],
        [15.5, 60.0, 60.0, 90.0],
    ];
    let judged = judge_track(&scenario, &track(&corners, Channels::default()));
    let row = |limit: Limit| judged.rows.iter().find(|row| row.limit == limit).expect("a row for the limit").clone();
    let check = |row: &MarginRow, margin: f64, at_s: f64, at: [f64; 2], height_m: f64, verdict: Verdict| {
        near(row.margin, margin, 1e-9);
        near(row.at_s, at_s, 1e-9);
        near(row.at.distance(at.into()), 0.0, 1e-9);
        near(row.height_m, height_m, 1e-9);
        assert_eq!((row.verdict, row.stretch), (verdict, None), "{}", row.name);
    };
    check(&row(Limit::Boundary), 10.0, 1.0, [-70.0, 90.0], 60.0, Verdict::InsideBuffer);
    // The diagonal runs 40 m north of the corner at the datum, so that it passes it at 40 m over the root of two, where it
    // is half way: 6 s.
    check(&row(Limit::Area(0)), 40.0 / 2.0_f64.sqrt(), 6.0, [-20.0, 20.0], 90.0, Verdict::Clear);
    // Of the diagonal's 80 m east, the path's 10 to 20: 1 s of 8, from 3 s on.
    check(&row(Limit::Area(1)), 1.0, 3.0, [-50.0, -10.0], 82.5, Verdict::Counted);
    check(&row(Limit::HeightLimit), 20.0, 10.0, [20.0, 60.0], 100.0, Verdict::Clear);
    check(&row(Limit::Ground), 50.0, 0.0, [-70.0, 60.0], 50.0, Verdict::Clear);
}

#[test]
fn a_speed_is_held_by_time_and_not_by_samples() {
    let scenario = square();
    // Stall speed of the demo's jet in level flight, 12.14 m/s: the root of 2 m g / (rho S CL) with 2.1 kg, 0.228 m2, CL 1
    // and 1.225 kg/m3.
    let stall = (2.0 * 2.1 * 9.80665 / (1.225 * 0.228_f64)).sqrt();
    let held = |seconds: &[f64], speeds: &[f64]| {
        let corners: Vec<_> = seconds.iter().map(|&second| [second, second, 0.0, 50.0]).collect();
        let (airspeed_mps, load) = (Some(speeds.to_vec()), Some(vec![1.0; speeds.len()]));
        let judged = judge_track(&scenario, &track(&corners, Channels { airspeed_mps, load, ..Channels::default() }));
        let row = judged.rows.iter().find(|row| row.limit == Limit::SpeedHeld).expect("a row for it");
        (row.margin + stall, row.at_s)
    };
    // The 3 s that end with the 4th second: 1 s at 20 m/s after four samples in the second at 16 m/s, and 1 s at 18 m/s.
    let (speed, at_s) =
        held(&[0.0, 1.0, 2.0, 2.25, 2.5, 2.75, 3.0, 4.0, 5.0], &[30.0, 30.0, 20.0, 16.0, 16.0, 16.0, 16.0, 18.0, 30.0]);
    near(speed, ((400.0 + 256.0 + 324.0) / 3.0_f64).sqrt(), 1e-6);
    near(at_s, 3.0, 1e-9);
    // Shorter than 3 s, all of it: 0.5 s and as much for the first sample, then 1.5 s.
    let (speed, at_s) = held(&[0.0, 0.5, 2.0], &[20.0, 16.0, 14.0]);
    near(speed, ((0.5 * 400.0 + 0.5 * 256.0 + 1.5 * 196.0) / 2.5_f64).sqrt(), 1e-6);
    near(at_s, 1.0, 1e-9);
}
