//! The glare on laps that were really flown: against the closed form, turned round, by any clock, and over whole days.

use glam::DVec2;
use peewit::margins::EYES_M;
use peewit::recovery::{FailsafeAction, Turn};
use peewit::run::{Hours, Scenario, ScenarioFile, WindChoice, fly};
use peewit::study::glare::{Glare, GlareAsk, Sights, glare};
use peewit::sun::Sun;
use peewit::units::{Bearing, Length};

use crate::support::{at_speed, brisk, circle, close, eastward, near, open};

fn hours(from: &str, to: &str, ahead: &str) -> Option<Hours> {
    Some(Hours { from: from.into(), to: to.into(), ahead_of_utc: ahead.into() })
}

fn glare_of(scenario: &Scenario) -> Glare {
    glare(scenario, &fly(scenario, 0, WindChoice::Mean), &GlareAsk::default())
}

/// The ideal tracker in still air round the pilot position itself.
fn round_the_pilot(radius: f64, height: f64, turn: Turn) -> Scenario {
    open(|file| {
        brisk(file);
        at_speed(file, 24.0);
        eastward(file, 0.0);
        file.loss.height = Length::new(height);
        circle(file, radius, 3.0);
        file.recovery.turn = turn;
        let field = file.field.as_mut().unwrap();
        field.pilot_m = field.centre_m.unwrap_or(field.home_m);
    })
}

#[test]
fn round_the_pilot_position_the_share_is_an_arc() {
    for (radius, height, elevation_deg) in [(190.0, 60.0, 22.0), (150.0, 50.0, 10.0), (190.0, 60.0, 25.0)] {
        for turn in [Turn::Clockwise, Turn::Anticlockwise] {
            let scenario = round_the_pilot(radius, height, turn);
            let lap = Sights::of(&scenario, &fly(&scenario, 0, WindChoice::Mean)).unwrap();
            // Spherical law of cosines: the sun and a jet at elevations s and e are 15 degrees apart where their azimuths
            // are so much apart.
            let (jet, sky) = (f64::atan2(height - EYES_M, radius), f64::to_radians(elevation_deg));
            let cos = (f64::to_radians(15.0).cos() - jet.sin() * sky.sin()) / (jet.cos() * sky.cos());
            let share = cos.acos() / std::f64::consts::PI;
            for azimuth_deg in [5.0, 123.0, 290.0] {
                let sun = Sun { azimuth_deg, elevation_deg };
                close(lap.look(sun, 15.0).share, share, 0.01);
                let parts = lap.parts(sun, 15.0);
                assert_eq!(parts.len(), 1, "{parts:?}");
                let way = if turn == Turn::Clockwise { -180.0 } else { 180.0 };
                for (found, sign) in parts[0].from_centre_deg.into_iter().zip([1.0, -1.0]) {
                    let off = found - (azimuth_deg + sign * way * share);
                    near((off + 180.0).rem_euclid(360.0) - 180.0, 0.0, 0.5);
                }
            }
        }
    }
}

/// Turned clockwise by an angle, with everything in it.
fn turned(mut file: ScenarioFile, deg: f64) -> Scenario {
    let by = DVec2::from_angle(f64::to_radians(-deg));
    let field = file.field.as_mut().unwrap();
    let mut places: Vec<&mut [f64; 2]> = field.boundary.ring_m.iter_mut().collect();
    places.extend(field.areas.iter_mut().flat_map(|area| &mut area.ring_m));
    places.extend(field.centre_m.iter_mut().chain([&mut field.pilot_m, &mut field.home_m, &mut file.loss.at_m]));
    for at in places {
        *at = by.rotate(DVec2::from(*at)).into();
    }
    field.obstacles.clear();
    field.runway = None;
    file.wind.from = Bearing::from_deg(file.wind.from.deg() + deg);
    file.loss.heading = Bearing::from_deg(file.loss.heading.deg() + deg);
    Scenario::from_file(file).unwrap()
}

#[test]
fn turning_everything_and_the_sun_changes_nothing() {
    let mut file = crate::support::tight_strip().file;
    file.field.as_mut().unwrap().flight_line_m = None;
    let lap = |deg: f64| {
        let scenario = turned(file.clone(), deg);
        Sights::of(&scenario, &fly(&scenario, 0, WindChoice::Mean)).unwrap()
    };
    let plain = lap(0.0);
    let mut some = 0;
    for deg in [37.3, 90.0, 201.0] {
        let other = lap(deg);
        for (azimuth_deg, elevation_deg) in [(0.0, 5.0), (100.0, 25.0), (200.0, 12.0), (280.0, 30.0), (330.0, 16.0)] {
            let one = plain.look(Sun { azimuth_deg, elevation_deg }, 15.0);
            let other = other.look(Sun { azimuth_deg: azimuth_deg + deg, elevation_deg }, 15.0);
            near(other.share, one.share, 1e-5);
            near(other.nearest_deg, one.nearest_deg, 1e-4);
            some += u32::from(one.share > 0.0);
        }
    }
    assert!(some > 0, "no glare to compare");
}

#[test]
fn a_day_is_the_same_by_any_clock() {
    let mut file = crate::support::tight_strip().file;
    file.brief.hours = None;
    let by_utc = glare_of(&Scenario::from_file(file).unwrap());
    assert!(by_utc.known && by_utc.hours.is_none() && by_utc.in_hours().is_none() && by_utc.sector.is_none());
    let mut file = crate::support::tight_strip().file;
    file.brief.hours = hours("10:00", "12:00", "-02:00");
    let by_clock = glare_of(&Scenario::from_file(file).unwrap());
    // Up after 2:00 and down before 24:00 UTC, so that neither clock cuts the day's sun in two.
    let back = |minutes: i32| minutes - 120;
    let moved: Vec<_> =
        by_utc.moments.iter().map(|moment| (back(moment.clock_min), moment.sun, moment.share)).collect();
    let found: Vec<_> = by_clock.moments.iter().map(|moment| (moment.clock_min, moment.sun, moment.share)).collect();
    assert_eq!(found, moved);
    assert_eq!(by_clock.spells, by_utc.spells.iter().map(|spell| spell.map(back)).collect::<Vec<_>>());
}

/// Every minute of a day, looked at one by one.
#[track_caller]
fn spelt_out(scenario: &Scenario) {
    let run = fly(scenario, 0, WindChoice::Mean);
    let found = glare(scenario, &run, &GlareAsk::default());
    let lap = Sights::of(scenario, &run).unwrap();
    let [_, _, ahead] = scenario.file.brief.hours.as_ref().unwrap().minutes().unwrap();
    let datum = scenario.file.field.as_ref().unwrap().datum;
    let place = peewit::sun::Place { latitude_deg: datum.latitude_deg, longitude_deg: datum.longitude_deg };
    let day = peewit::run::day(&scenario.file.date).unwrap();
    let share = |minute: i32| {
        let sun = peewit::sun::sun_at(place, day, f64::from(minute - ahead)).unwrap();
        lap.look(sun, 15.0).share
    };
    let name = format!("{} {} {:?}", scenario.file.name, scenario.file.date, found.spells);
    for minute in 0..1440 {
        let spelt = found.spells.iter().any(|[from, to]| (*from..=*to).contains(&minute));
        assert_eq!(spelt, share(minute) > 0.0, "{name}: {minute}");
    }
    assert!(found.spells.windows(2).all(|pair| pair[0][1] + 1 < pair[1][0]), "{name}");
    let [first, last] = found.hours.unwrap();
    let most = (first..=last).map(share).fold(0.0, f64::max);
    assert_eq!(found.in_hours(), Some(most > 0.0), "{name}");
    // Between the moments told it may be a little more.
    let worst = found.worst.map_or(0.0, |moment| moment.share);
    assert!(worst <= most + 1e-9 && worst >= 0.8 * most - 0.002, "{name}: {worst} of {most}");
    assert_eq!(found.parts.is_empty(), most == 0.0, "{name}");
    near(found.parts.iter().map(|part| part.share).sum(), worst, 1e-6);
    for from in [0, 700, 1200] {
        let clear = (from..1440).find(|&minute| share(minute) == 0.0);
        assert_eq!(found.clears(from), clear, "{name}");
    }
}

#[test]
fn spells_are_every_minute_with_glare_and_no_other() {
    let days = [("2026-06-21", "18:00", "21:30"), ("2026-12-21", "09:02", "09:04"), ("2026-03-20", "06:30", "18:59")];
    let common = crate::support::shipped().into_iter().find(|one| one.file.name == "Tansycroft Common").unwrap().file;
    for radius in [100.0, 160.0] {
        for (date, from, to) in days {
            let mut file = common.clone();
            file.recovery.radius = Length::new(radius);
            file.date = date.into();
            file.brief.hours = hours(from, to, "-02:00");
            spelt_out(&Scenario::from_file(file).unwrap());
        }
    }
    // Inside the circle the sun meets it from whichever side; in the Arctic, the Antarctic and the tropics.
    for (latitude_deg, longitude_deg) in [(78.0, 15.0), (-70.0, -30.0), (-1.0, -179.5), (23.4, 30.0)] {
        let mut file = round_the_pilot(150.0, 50.0, Turn::Clockwise).file;
        let datum = &mut file.field.as_mut().unwrap().datum;
        (datum.latitude_deg, datum.longitude_deg) = (latitude_deg, longitude_deg);
        file.date = "2026-12-21".into();
        file.brief.hours = hours("00:01", "23:58", "+03:30");
        spelt_out(&Scenario::from_file(file).unwrap());
    }
}

#[test]
fn the_sector_holds_the_sun_of_the_hours() {
    let sector = |latitude_deg: f64, [from, to]: [&str; 2]| {
        let mut file = round_the_pilot(150.0, 50.0, Turn::Clockwise).file;
        let datum = &mut file.field.as_mut().unwrap().datum;
        (datum.latitude_deg, datum.longitude_deg) = (latitude_deg, 0.0);
        file.date = "2026-06-21".into();
        file.brief.hours = hours(from, to, "+00:00");
        glare_of(&Scenario::from_file(file).unwrap()).sector
    };
    let wide = |[from, to]: [f64; 2]| (to - from).rem_euclid(360.0);
    // In the north it goes round by the south, in the south by the north and so anticlockwise: clockwise from the
    // afternoon's end to the morning's. Near noon its height is 90 degrees less the latitude's way to 23.44 N.
    let north = sector(50.0, ["09:00", "15:00"]).unwrap();
    assert!(
        north.azimuth_deg[0] > 90.0 && north.azimuth_deg[1] < 270.0 && wide(north.azimuth_deg) < 180.0,
        "{north:?}"
    );
    near(north.elevation_deg[1], 90.0 - (50.0 - 23.44), 0.2);
    let south = sector(-35.0, ["09:00", "15:00"]).unwrap();
    assert!(
        south.azimuth_deg[0] > 270.0 && south.azimuth_deg[1] < 90.0 && wide(south.azimuth_deg) < 180.0,
        "{south:?}"
    );
    near(south.elevation_deg[1], 90.0 - (35.0 + 23.44), 0.2);
    // All the way round, never down.
    let polar = sector(80.0, ["00:00", "23:59"]).unwrap();
    assert_eq!(polar.azimuth_deg, [0.0, 360.0]);
    near(polar.elevation_deg[0], 80.0 + 23.44 - 90.0, 0.3);
    assert_eq!(sector(50.0, ["00:00", "01:00"]), None);
}

#[test]
fn without_a_lap_nothing_is_said() {
    let edits: [fn(&mut ScenarioFile); 3] = [
        |file| file.recovery.failsafe_action = FailsafeAction::Cut,
        // So little wind is left of the jet's own speed that it never comes home.
        |file| eastward(file, 60.0),
        |file| file.date = "3500-06-21".into(),
    ];
    for edit in edits {
        let mut file = crate::support::tight_strip().file;
        file.brief.hours = hours("06:00", "20:00", "+00:00");
        edit(&mut file);
        let found = glare_of(&Scenario::from_file(file).unwrap());
        assert!(!found.known && found.moments.is_empty() && found.spells.is_empty() && found.parts.is_empty());
        assert!(found.worst.is_none() && found.sector.is_none() && found.in_hours().is_none());
        assert_eq!((found.hours, found.clears(600)), (Some([360, 1200]), None));
    }
}
