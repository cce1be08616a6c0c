//! Valid and malformed groups, decoded or refused. Sources are named beside each table; knots are 1852 m an hour.

use super::*;
use crate::wind::WindSheet;

const KNOT: f64 = 1852.0 / 3600.0;

fn with(groups: &str) -> String {
    format!("METAR ZZZZ 281120Z {groups}")
}

#[track_caller]
fn read(groups: &str) -> Metar {
    Metar::read(&with(groups)).unwrap()
}

#[track_caller]
fn wind(groups: &str, from_deg: Option<f64>, mean_mps: f64, gust_mps: Option<f64>) -> MetarWind {
    let found = read(groups).wind.unwrap();
    assert_eq!(found.from_deg, from_deg, "{groups}");
    approx::assert_abs_diff_eq!(found.mean_mps, mean_mps, epsilon = 1e-9);
    assert_eq!(found.gust_mps.is_some(), gust_mps.is_some(), "{groups}");
    approx::assert_abs_diff_eq!(found.gust_mps.unwrap_or(0.0), gust_mps.unwrap_or(0.0), epsilon = 1e-9);
    found
}

#[test]
fn winds_are_decoded() {
    let gusts = |knots: f64| Some(knots * KNOT);
    // US Navy, Aerographer's Mate (NAVEDTRA 14269), wind group: "a wind from 270 at 25 knots with gusts to 40 knots would
    // be encoded as 27025G40KT"; "Calm winds are encoded 00000KT".
    wind("27025G40KT", Some(270.0), 25.0 * KNOT, gusts(40.0));
    wind("00000KT", None, 0.0, None);
    // NAVEDTRA 14342A: "variable at 4 knots [...] VRB04KT"; "a wind that varies between 160 to 250 at 12 knots [...]
    // 21012KT 160V250".
    assert!(wind("VRB04KT", None, 4.0 * KNOT, None).variable);
    assert_eq!(wind("21012KT 160V250", Some(210.0), 12.0 * KNOT, None).sector_deg, Some([160.0, 250.0]));
    // The groups that the job names.
    wind("27012G22KT", Some(270.0), 12.0 * KNOT, gusts(22.0));
    wind("VRB03KT", None, 3.0 * KNOT, None);
    // 1 km/h and 1 m/s by definition; "P99KT (P49MPS or P199KMH)" for 100 kt, 50 m/s and 200 km/h or more: WMO CBS-XII.
    wind("24008MPS", Some(240.0), 8.0, None);
    wind("24008G14MPS", Some(240.0), 8.0, Some(14.0));
    wind("240036KMH", Some(240.0), 10.0, None);
    wind("24036KMH", Some(240.0), 10.0, None);
    wind("240P99KT", Some(240.0), 100.0 * KNOT, None);
    wind("240P49MPS", Some(240.0), 50.0, None);
    wind("24080GP99KT", Some(240.0), 80.0 * KNOT, gusts(100.0));
    // "010 represents 010" (14342A); north is 360 and a sector may lie across it (FM 15, 15.5.1 and 15.5.3).
    wind("01005KT", Some(10.0), 5.0 * KNOT, None);
    assert_eq!(wind("36010KT 330V030", Some(360.0), 10.0 * KNOT, None).sector_deg, Some([330.0, 30.0]));
    // Slashes for what a machine could not observe (FM 15, 15.4: AUTO reports).
    wind("///08KT", None, 8.0 * KNOT, None);
    assert_eq!(read("/////KT 9999").wind, None);
    assert_eq!(read("270//KT 9999").wind, None);
}

#[track_caller]
fn refused(text: &str, faults: &[(&str, &str)]) {
    let found = Metar::read(text).expect_err(text);
    assert_eq!(found.len(), faults.len(), "{found:#?}");
    for (fault, (place, says)) in found.iter().zip(faults) {
        assert!(fault.place == *place && fault.to_string().contains(says), "{fault} at {}", fault.place);
        assert!(!fault.way_out.is_empty());
    }
}

#[test]
fn what_makes_no_sense_is_refused_with_its_reason_and_place() {
    // Against the same rules as above.
    for (group, says) in [
        ("37012KT", "from 370"),
        ("27512KT", "no multiple of ten"),
        ("27022G12KT", "below the mean"),
        ("00012KT", "360 for north"),
        ("2702KT", "is no speed"),
        ("27KT", "too short"),
        ("KT", "too short"),
        ("VRBKT", "too short"),
        ("27012GKT", "is no speed"),
        ("27012G2KT", "is no speed"),
        ("270120250KT", "is no speed"),
        ("270P50KT", "P stands in front of 99 alone"),
        ("270250KT", "faster than any wind"),
        ("27O12KT", "is no direction"),
    ] {
        refused(&with(group), &[(group, says)]);
    }
    for (sector, says) in [
        ("310V240", "is 290 deg"),
        ("240V240", "is 0 deg"),
        ("090V270", "is 180 deg"),
        ("245V310", "no multiple of ten"),
        ("24V310", "is no direction"),
        ("240V400", "from 400"),
    ] {
        refused(&with(&format!("27012KT {sector}")), &[(sector, says)]);
    }
    refused(&with("18012KT 240V310"), &[("18012KT", "outside the sector")]);
    refused(&with("27012KT 28012KT"), &[("28012KT", "a second wind group")]);
    refused(&with("27012KT 18/19"), &[("18/19", "dew point")]);
    refused(&with("27012KT 70/10"), &[("70/10", "70 degrees")]);
    refused(&with("27012KT Q2992"), &[("Q2992", "2992 hPa")]);
    refused(&with("27012KT A1018"), &[("A1018", "345 hPa")]);
    refused(&with("27012KT 11/2SM"), &[("11/2SM", "no number of miles")]);
    refused(&with("27012KT 1 1/3SM"), &[("1 1/3SM", "no number of miles")]);
    refused("METAR ZZZZ 321120Z 27012KT", &[("321120Z", "no day 32")]);
    refused("METAR ZZZZ 282520Z 27012KT", &[("282520Z", "25:20")]);
    refused("METAR ZZZZ 1120Z 27012KT", &[("1120Z", "six digits")]);
    refused("METAR ZZZZ 281120Z NIL", &[("NIL", "no report"), ("", "no wind group")]);
}

#[test]
fn a_report_without_a_wind_is_refused() {
    refused("", &[("", "no wind group")]);
    refused("hello, nice day", &[("", "no wind group")]);
    refused(&with("9999 18/12"), &[("", "no wind group")]);
    refused(&with("27012 9999"), &[("27012", "doesn't read as one")]);
    refused(&with("27012KTS"), &[("27012KTS", "doesn't read as one")]);
    // What comes after RMK is no wind of now, although it may look like one.
    refused(&with("9999 RMK 27012KT"), &[("", "no wind group")]);
    refused(&"A ".repeat(1001), &[("", "longer than 2000")]);
}

#[test]
fn a_forecast_is_no_report() {
    let taf = "TAF ZZZZ 281100Z 2812/2918 27012KT 9999";
    refused(taf, &[("TAF", "a forecast"), ("2812/2918", "period of a forecast")]);
    refused(&taf[4..], &[("2812/2918", "period of a forecast")]);
}

#[test]
fn every_fault_is_told_at_once() {
    let faults = [("329999Z", "no day"), ("37522G12KT", "from 375"), ("Q0018", "18 hPa"), ("02/18", "dew point")];
    refused("METAR ZZZZ 329999Z 37522G12KT Q0018 02/18", &faults);
}

#[track_caller]
fn sees(groups: &str, metres: Option<f64>) {
    let found = read(&format!("27012KT {groups}")).visibility_m;
    assert_eq!(found.map(|found| (found * 1000.0).round() / 1000.0), metres, "{groups}");
}

#[test]
fn visibility_is_the_least_that_is_given() {
    // FM 15, 15.6: metres in four digits, 9999 for 10 km or more, CAVOK likewise; a second group is the least, with its
    // direction. One statute mile is 1609.344 m.
    sees("9999", Some(10_000.0));
    sees("CAVOK", Some(10_000.0));
    sees("0800", Some(800.0));
    sees("4000NE", Some(4000.0));
    sees("9999 4000NE", Some(4000.0));
    sees("3000NDV", Some(3000.0));
    sees("10SM", Some(16_093.44));
    sees("1/2SM", Some(804.672));
    sees("1 1/2SM", Some(2414.016));
    sees("2 1/2SM HZ", Some(4023.36));
    sees("M1/4SM", Some(402.336));
    sees("P6SM", Some(9656.064));
    sees("////", None);
    sees("", None);
}

#[test]
fn temperature_and_pressure_are_decoded() {
    let found = read("27012KT 18/M02 Q1018");
    assert_eq!((found.temperature_c, found.dew_point_c, found.qnh_hpa), (Some(18.0), Some(-2.0), Some(1018.0)));
    // 29.92 inches of mercury are the 1013.25 hPa of the standard atmosphere, to the hundredth of an inch.
    approx::assert_abs_diff_eq!(read("27012KT A2992").qnh_hpa.unwrap(), 1013.25, epsilon = 0.17);
    assert_eq!(read("27012KT Q1013 A2995").qnh_hpa, Some(1013.0));
    // "When the dew point is not available, the temperature is encoded as 02/": NAVEDTRA 14342A.
    let found = read("27012KT 02/ Q////");
    assert_eq!((found.temperature_c, found.dew_point_c, found.qnh_hpa), (Some(2.0), None, None));
    assert_eq!(read("27012KT M00/M00").temperature_c, Some(0.0));
}

#[test]
fn whole_reports_are_taken_group_by_group() {
    // Reports printed as examples: documentation of the `metar` crate; dixwx.com, "Decoding METAR"; the manual's own form.
    let text = "EGHI 282120Z 19015KT 140V220 6000 RA SCT006 BKN009 16/14 Q1006";
    let found = Metar::read(text).unwrap();
    assert_eq!((found.station.as_deref(), found.day_hour_minute), (Some("EGHI"), Some([28, 21, 20])));
    assert_eq!(found.wind.unwrap().sector_deg, Some([140.0, 220.0]));
    let unused: Vec<_> = found.groups.iter().filter(|(_, words)| words == NOT_USED).map(|(group, _)| group).collect();
    assert_eq!(unused, ["RA", "SCT006", "BKN009"]);
    let all: Vec<_> = found.groups.iter().map(|(group, _)| group.as_str()).collect();
    assert_eq!(all.join(" "), text, "no group is lost");

    let found =
        Metar::read("kmem 230853z auto 18014g18kt\n10sm clr 16/m02 a3008 rmk ao2 slp117 t01561022 tsno $").unwrap();
    assert_eq!((found.station.as_deref(), found.visibility_m.map(f64::round)), (Some("KMEM"), Some(16_093.0)));
    assert_eq!((found.temperature_c, found.dew_point_c), (Some(16.0), Some(-2.0)));
    assert_eq!(found.groups.last().map(|(group, _)| group.as_str()), Some("RMK AO2 SLP117 T01561022 TSNO $"));

    let found = Metar::read("SPECI COR ZZZZ 281120Z AUTO 27012G22KT CAVOK 18/07 Q1018 NOSIG=\nMETAR ZZZZ").unwrap();
    assert_eq!(found.wind.unwrap().gust_mps, Some(22.0 * 1852.0 / 3600.0));
    assert!(found.groups.last().unwrap().1.contains("after the end"));

    // What a person remembers of it will do, as long as the wind is there.
    let found = Metar::read("27012KT").unwrap();
    assert_eq!((found.station, found.day_hour_minute), (None, None));
}

fn sheet() -> WindSheet {
    let sheet = serde_json::json!({ "mean": "3 m/s", "gust": "5 m/s", "from": "90 deg", "measured_at": "2 m" });
    serde_json::from_value(sheet).unwrap()
}

#[track_caller]
fn applied(groups: &str, mean: f64, gust: f64, from: f64, spread: f64) -> String {
    let mut sheet = sheet();
    let words = read(groups).apply(&mut sheet).join("; ");
    let found = [sheet.mean.mps(), sheet.gust().mps(), sheet.from.deg(), sheet.from_spread().rad().to_degrees()];
    for (found, wanted) in found.into_iter().zip([mean, gust, from, spread]) {
        approx::assert_abs_diff_eq!(found, wanted, epsilon = 0.006);
    }
    assert_eq!(sheet.measured_at.m(), 10.0);
    words
}

#[test]
fn a_report_sets_the_wind_sheet() {
    applied("27012G22KT", 6.17, 11.32, 270.0, 15.0);
    // An even chance over 70 degrees: 70 / sqrt 12 = 20.2; over 40 degrees 11.5, which is less than the usual spread.
    applied("27012KT 240V310", 6.17, 9.26, 270.0, 20.2);
    applied("27012KT 250V290", 6.17, 9.26, 270.0, 15.0);
    // All round: 360 / sqrt 12 = 103.9, about the direction that was there.
    let words = applied("VRB03KT", 1.54, 2.31, 90.0, 103.9);
    assert!(words.contains("90 deg as it was") && words.contains("1.5 times the mean"), "{words}");
    applied("00000KT", 0.0, 0.0, 90.0, 103.9);
    applied("36008MPS", 8.0, 12.0, 0.0, 15.0);
}

#[test]
fn a_report_undoes_what_the_one_before_widened_and_one_without_wind_sets_nothing() {
    let mut sheet = sheet();
    read("VRB03KT").apply(&mut sheet);
    read("27012KT").apply(&mut sheet);
    approx::assert_abs_diff_eq!(sheet.from_spread().rad().to_degrees(), 15.0, epsilon = 1e-9);
    assert!(sheet.gust_is_assumed());
    let before = sheet;
    assert!(read("/////KT").apply(&mut sheet)[0].contains("nothing"));
    assert_eq!(sheet, before);
    assert!(caution().contains("10 m") && caution().contains("hour"));
}

#[test]
fn a_report_sets_the_air() {
    let mut air = crate::wind::AirSheet { elevation: crate::units::Length::new(200.0), ..Default::default() };
    let words = read("27012KT 9999 31/12 Q1005").apply_air(&mut air).join("; ");
    assert!(words.contains("31 C") && words.contains("1005 hPa"), "{words}");
    assert_eq!(air.elevation.m(), 200.0);
    // ICAO standard atmosphere: some 8.4 m a hectopascal at 200 m; ideal gas by hand: 98132 / (287.05287 * 304.15).
    approx::assert_abs_diff_eq!(air.density(), 98_132.0 / (287.052_87 * 304.15), epsilon = 0.001);
    let before = air;
    assert!(read("27012KT").apply_air(&mut air)[0].contains("nothing"));
    assert_eq!(air, before);
}

proptest::proptest! {
    #[test]
    fn no_text_breaks_it(text in "[ A-Z0-9/VGP=\u{e9}]{0,60}", odd in ".{0,40}") {
        for text in [format!("27012KT {text}"), text, odd] {
            if let Err(faults) = Metar::read(&text) {
                proptest::prop_assert!(!faults.is_empty());
            }
        }
    }
}
