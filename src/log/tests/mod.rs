//! Does each format say what was written by hand, and in metres what was worked out by hand?

mod broken;
mod samples;

use approx::assert_abs_diff_eq;
use glam::DVec2;

use super::{Columns, FlightLog, Role, igc, nmea, notes::Notes, read};
use crate::geometry::TangentPlane;
use crate::run::{Scenario, Stretch};
use crate::units::Length;
use samples::table;

/// Metres in a thousandth of a degree of longitude and of latitude at 44 degrees north: the WGS84 series of handbook 14.14,
/// 111412.84 cos b - 93.5 cos 3b + 0.118 cos 5b and 111132.954 - 559.822 cos 2b + 1.175 cos 4b.
const THOUSANDTH_M: [f64; 2] = [80.206, 111.112];

/// The invented field at 44 N 30 W, home at its datum.
fn scenario() -> Scenario {
    Scenario::demo()
}

fn log(name: &str, text: &str) -> FlightLog {
    read(name, text.as_bytes(), &scenario(), None).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"))
}

fn says(log: &FlightLog, phrase: &str) -> bool {
    log.repairs.iter().any(|fault| fault.problem.contains(phrase))
}

#[track_caller]
fn places(log: &FlightLog, expected: &[[f64; 2]]) {
    assert_eq!(log.track.place().len(), expected.len());
    for (place, expected) in log.track.place().iter().zip(expected) {
        // Half a centimetre in 300 m: the series is of the arc, the place of the plane.
        assert!(place.distance(DVec2::from(*expected)) < 5e-3, "{place} {expected:?}");
    }
}

#[test]
fn gpx_of_several_tracks_is_one_log_with_gaps() {
    let log = log("a/flown.gpx", samples::GPX);
    assert_eq!((&*log.name, log.day.as_deref()), ("flown.gpx", Some("2026-05-24")));
    assert_eq!(log.track.time_s(), [0.0, 1.0, 2.0, 7.5]);
    let [east, north] = THOUSANDTH_M;
    places(&log, &[[0.0, 0.0], [0.1 * east, 0.0], [0.1 * east, 0.2 * north], [east, north]]);
    // The second has no height: half way between 110 and 130. The lowest is taken for the ground.
    assert_eq!(log.track.height_m(), [0.0, 10.0, 20.0, 15.0]);
    for phrase in ["height is missing", "another part", "gap of 5.5 s", "its lowest height, 110.0 m"] {
        assert!(says(&log, phrase), "{phrase}: {:#?}", log.repairs);
    }
    assert_eq!(log.repairs.len(), 4, "{:#?}", log.repairs);
}

#[test]
fn tables_in_the_ways_people_write_them() {
    let [east, north] = THOUSANDTH_M;
    for (name, text, height_m) in samples::TABLES {
        let log = log(name, text);
        assert_eq!(log.track.time_s(), [0.0, 0.5, 1.5], "{name}");
        places(&log, &[[0.0, 0.0], [0.0, 0.1 * north], [0.1 * east, 0.2 * north]]);
        for (found, expected) in log.track.height_m().iter().zip(height_m) {
            assert_abs_diff_eq!(*found, expected, epsilon = 1e-9);
        }
    }
}

#[test]
fn channels_are_in_si_units() {
    let text = "# a flight\r\nTime (ms);Position;Alt rel[ft];Air speed (km/h);Roll[deg];Nz;Energy left (Wh)\r\n\
        0;44,000 -30,000;100;72;-45;1,5;20\r\n100;44,00001 -30,000;100;;-45;1,5;20\r\n200;44,00002 -30,000;110;108;45;1;19,5\r\n";
    let log = log("flight.csv", text);
    assert_eq!(log.track.time_s(), [0.0, 0.1, 0.2]);
    // A foot is 0.3048 m, 36 km/h are 10 m/s and a watt-hour 3600 J, each exactly.
    for (found, expected) in log.track.height_m().iter().zip([30.48, 30.48, 33.528]) {
        assert_abs_diff_eq!(*found, expected, epsilon = 1e-9);
    }
    let channels = log.track.channels();
    let quarter = std::f64::consts::FRAC_PI_4;
    for (found, expected) in [
        (&channels.airspeed_mps, [20.0, 25.0, 30.0]),
        (&channels.bank_rad, [-quarter, -quarter, quarter]),
        (&channels.load, [1.5, 1.5, 1.0]),
        (&channels.energy_left_j, [72_000.0, 72_000.0, 70_200.0]),
    ] {
        for (found, expected) in found.as_ref().unwrap().iter().zip(expected) {
            assert_abs_diff_eq!(*found, expected, epsilon = 1e-9);
        }
    }
    assert!(says(&log, "airspeed is missing for 0.2 s and taken"), "{:#?}", log.repairs);
}

#[test]
fn the_programs_own_table_comes_back_whole() {
    let text = "time_s,x_m,y_m,latitude_deg,longitude_deg,height_m,airspeed_mps,ground_speed_mps,course_deg,bank_deg,\
        load,energy_wh,stretch\r\n\
        0.000,0,0,44.000000000,-30.000000000,60.000,25.000,25.000,0.00,0.000,1.0000,0.00000,until the failsafe acts\r\n\
        0.100,0,2.5,44.000022500,-30.000000000,61.000,26.000,25.000,0.00,30.000,1.1547,0.50000,levelling\r\n";
    let log = log("path.csv", text);
    let channels = log.track.channels();
    assert_eq!(log.track.height_m(), [60.0, 61.0]);
    assert_eq!(channels.airspeed_mps.as_deref(), Some(&[25.0, 26.0][..]));
    assert_eq!(channels.load.as_deref(), Some(&[1.0, 1.1547][..]));
    assert_abs_diff_eq!(channels.bank_rad.as_ref().unwrap()[1], std::f64::consts::FRAC_PI_6, epsilon = 1e-12);
    let left = channels.energy_left_j.as_ref().unwrap();
    assert_abs_diff_eq!(left[0] - left[1], 1800.0, epsilon = 1e-6);
    assert_eq!(channels.stretch.as_deref(), Some(&[Stretch::BeforeFailsafe, Stretch::Levelling][..]));
}

#[test]
fn sentences_of_a_receiver() {
    // D. DePriest, "NMEA data": its examples of the two sentences.
    let published = "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\n\
        $GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\n";
    let mut said = Notes::default();
    let raw = nmea::read(published, TangentPlane::new(48.1173, 11.0 + 31.0 / 60.0), &mut said);
    assert!(said.faults().is_empty());
    let fix = &raw.fixes[0];
    assert_eq!((raw.fixes.len(), fix.time_s, fix.height_m), (1, 45_319.0, Some(545.4)));
    assert!(fix.place.unwrap().length() < 1e-3 && raw.day.unwrap().to_string() == "1994-03-23");
    let log = log("flown.nmea", &samples::nmea());
    // Over midnight, from the 24th of May.
    assert_eq!((log.day.as_deref(), log.track.time_s()), (Some("2026-05-24"), &[0.0, 0.5, 1.0, 1.5][..]));
    let north = THOUSANDTH_M[1];
    places(&log, &[0.0, 0.1, 0.2, 0.3].map(|part| [0.0, part * north]));
    assert_eq!(log.track.height_m(), [0.0, 1.0, 2.0, 3.0]);
    assert!(says(&log, "midnight") && log.repairs.len() == 2, "{:#?}", log.repairs);
}

#[test]
fn records_of_a_flight_recorder() {
    // The specification's own example of a fix; value from memory.
    let published = "B1101355206343N00006198WA0058700558";
    let plane = TangentPlane::new(52.0 + 6.343 / 60.0, -6.198 / 60.0);
    let raw = igc::read(published, plane, &mut Notes::default());
    assert_eq!((raw.fixes[0].time_s, raw.fixes[0].height_m), (39_695.0, Some(558.0)));
    assert!(raw.fixes[0].place.unwrap().length() < 1e-6);
    let frozen = [published, "B1101365206343N00006198WV0058700000", "B1101375206344N00006198WA0058700558"].join("\n");
    let mut said = Notes::default();
    let raw = igc::read(&frozen, plane, &mut said);
    assert_eq!(raw.fixes.iter().map(|fix| fix.time_s).collect::<Vec<_>>(), [39_695.0, 39_697.0]);
    assert!(said.faults().iter().any(|fault| fault.way_out.contains("left out")));
    for writing in ["HFDTE240526", "HFDTEDATE:240526,01"] {
        let log = log("flown.igc", &samples::IGC.replace("HFDTE240526", writing));
        assert_eq!((log.day.as_deref(), log.track.time_s()), (Some("2026-05-24"), &[0.0, 1.0, 1.5][..]));
        // 44 00.010 and then 44 00.0205 by its further digit: minutes of latitude are 1/0.06 thousandths of a degree.
        let north = THOUSANDTH_M[1];
        places(&log, &[[0.0, 0.0], [0.0, 0.010 / 0.06 * north], [0.0, 0.0205 / 0.06 * north]]);
        // The second has the pressure's height, 60 m, and the satellites' are 40 m above those.
        assert_eq!(log.track.height_m(), [0.0, 10.0, 20.0]);
        assert!(says(&log, "signature is not checked") && says(&log, "without a height"), "{:#?}", log.repairs);
    }
}

#[test]
fn heights_are_above_home() {
    let wait: String =
        (0..100).map(|i| format!("{},44,-30,{}\n", f64::from(i) / 10.0, 119.0 + f64::from(i % 3))).collect();
    let fly: String = (1..50)
        .map(|i| format!("{:.1},{:.6},-30,{}\n", 9.9 + f64::from(i) / 10.0, 44.0 + f64::from(i) * 2e-5, 120 + i))
        .collect();
    let header = "time_s,lat_deg,lon_deg,alt_msl_m\n";
    // The median of what stands at home is 120 m.
    let stood = log("stood.csv", &format!("{header}{wait}{fly}"));
    assert_eq!(stood.track.height_m().last(), Some(&49.0));
    assert!(says(&stood, "120.0 m in the log, as it stood") && says(&stood, "on the ground until 9."));
    let mut known = scenario();
    known.file.air.elevation = Length::new(110.0);
    let text = format!("{header}{fly}");
    let known = read("flown.csv", text.as_bytes(), &known, None).unwrap();
    assert_eq!(known.track.height_m().last(), Some(&59.0));
    assert!(says(&known, "the field's 110.0 m"));
    let lowest = log("flown.csv", &text);
    assert_eq!(lowest.track.height_m()[0], 0.0);
    assert!(says(&lowest, "lowest height, 121.0 m"));
}

#[test]
fn what_a_person_says_of_the_columns_is_done_and_remembered() {
    let header = ["t", "a", "b", "h", "h2"];
    let text = "t,a,b,h,h2\n0,44,-30,10,100\n1,44.0001,-30,10,100\n";
    assert!(read("odd.csv", text.as_bytes(), &scenario(), None).is_err());
    let mut columns = Columns::guess(&header, &[]);
    for (index, role, unit) in
        [(1, Role::Latitude, "deg"), (2, Role::Longitude, "deg"), (4, Role::HeightAboveHome, "ft")]
    {
        (columns.columns[index].role, columns.columns[index].unit) = (role, unit.to_owned());
    }
    let kept: Columns = serde_json::from_str(&serde_json::to_string(&columns).unwrap()).unwrap();
    let log = read("odd.csv", text.as_bytes(), &scenario(), Some(&kept)).unwrap();
    assert!((log.track.height_m()[0] - 30.48).abs() < 1e-9 && log.repairs.is_empty(), "{log:?}");
    assert_eq!(Columns::key(&header), Columns::key(&["T ", "a", "B", " h", "h2"]));
    assert_ne!(Columns::key(&header), Columns::key(&["t", "a", "b", "hh", "2"]));
    let log = read("other.csv", table(20).as_bytes(), &scenario(), Some(&kept)).unwrap();
    assert!(says(&log, "not the columns that were chosen"));
}

#[test]
fn a_second_receiver_is_left_aside() {
    let text = "time_s,lat,lon,height_above_home_m,gps2_lat,gps2_lon\n0,44,-30,50,1,2\n1,44.0001,-30,50,1,2\n";
    let log = log("two.csv", text);
    assert!(says(&log, "\"gps2_lat\" (latitude) is not read") && log.repairs.len() == 2, "{:#?}", log.repairs);
}
