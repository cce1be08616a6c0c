//! Is every kind of broken log either mended, which is said, or refused with a way out?

use super::samples::{GPX, HEADER, IGC, nmea, row, sentence, table};
use super::{read, scenario};

/// How many samples are left, where it is not refused.
type Left = Result<usize, ()>;

#[track_caller]
fn check(what: &str, name: &str, bytes: &[u8], left: Left, phrases: &[&str]) {
    let read = read(name, bytes, &scenario(), None);
    let (found, faults) = match &read {
        Ok(log) => (Ok(log.track.time_s().len()), &log.repairs),
        Err(faults) => (Err(()), faults),
    };
    assert_eq!(found, left, "{what}: {faults:#?}");
    for phrase in phrases {
        assert!(faults.iter().any(|fault| fault.problem.contains(phrase)), "{what}, \"{phrase}\": {faults:#?}");
    }
    if phrases.is_empty() {
        assert!(faults.is_empty(), "{what}: {faults:#?}");
    }
    assert!(faults.iter().all(|fault| !fault.way_out.is_empty()), "{what}: {faults:#?}");
}

/// A table of twenty rows of which some are written otherwise.
fn changed(change: impl Fn(usize) -> Option<String>) -> String {
    let rows = (0..20).map(|index| change(index).unwrap_or_else(|| row(index)) + "\n");
    format!("{HEADER}\n{}", rows.collect::<String>())
}

/// One row, its cells time, latitude, longitude, height.
fn one(at: usize, text: &str) -> String {
    changed(|index| (index == at).then(|| text.to_owned()))
}

#[test]
fn tables() {
    let whole = table(20);
    let earlier = changed(|index| {
        let time_s = index as f64 / 2.0 - 3600.0;
        (index >= 10).then(|| format!("{time_s},{:.4},-30,50", 44.0 + index as f64 * 1e-4))
    });
    let elsewhere = changed(|index| (index >= 10).then(|| row(index).replace(",44.0", ",44.05")));
    let without = |rows: std::ops::Range<usize>| changed(|index| rows.contains(&index).then(String::new));
    let placeless = |rows: std::ops::Range<usize>| {
        changed(|index| rows.contains(&index).then(|| format!("{},,,50", index as f64 / 2.0)))
    };
    for (what, text, left, phrases) in [
        ("whole", whole.clone(), Ok(20), &[][..]),
        ("comment", whole.replace("\n2,", "\n# a thought\n2,"), Ok(20), &[]),
        ("spreadsheet", format!("\u{feff}{}", whole.replace('\n', "\r\n")), Ok(20), &[]),
        ("old line ends", whole.replace('\n', "\r"), Ok(20), &[]),
        ("line twice", whole.replace(&row(4), &format!("{0}\n{0}", row(4))), Ok(20), &["the time comes again"]),
        ("rows swapped", changed(|i| [5, 6].contains(&i).then(|| row(11 - i))), Ok(19), &["goes back by 0.500 s"]),
        ("block twice", whole.clone() + &table(20), Ok(20), &["header comes again", "10 more samples whose time"]),
        ("clock set back", earlier, Ok(20), &["later by 3600 s"]),
        ("time ahead", one(10, "99999,44.0010,-30,50"), Ok(19), &["runs ahead"]),
        ("jump", one(10, "5,44.05,-30,50"), Ok(19), &["jumps 5456 m away and comes back"]),
        ("height jump", one(10, "5,44.0010,-30,9050"), Ok(19), &["jumps 9000 m away"]),
        ("first fix wrong", one(0, "0,44.05,-30,50"), Ok(19), &["the first fix is"]),
        ("jump that stays", elsewhere, Ok(20), &["stays there"]),
        ("gap", without(5..15), Ok(10), &["a gap of 5.5 s"]),
        ("place missing", placeless(5..6), Ok(20), &["place is missing and taken from its neighbours"]),
        ("places missing", placeless(4..11), Ok(13), &["too far from a neighbour", "a gap of 4.0 s"]),
        ("no fix", one(5, "2.5,0,0,50"), Ok(20), &["latitude and longitude are 0"]),
        ("no place on Earth", one(5, "2.5,144,-30,50"), Ok(20), &["no place on the Earth"]),
        ("word for a number", one(5, "2.5,44.0005,-30,high"), Ok(20), &["\"high\" is no height above home"]),
        ("time missing", one(5, ",44.0005,-30,50"), Ok(19), &["no time that can be read"]),
        ("torn row", whole[..whole.len() - 5].to_owned(), Ok(19), &["3 cells and the header 4"]),
        ("quote never closed", one(5, "\"2.5,44.0005,-30,50"), Ok(19), &["no time that can be read"]),
        ("no heights", whole.replace(",50\n", ",\n"), Err(()), &["no column holds the height"]),
        ("decimal commas", whole.replace('.', ","), Err(()), &["cells and the header 4", "no sample with a time"]),
        ("another field", whole.replace(",44", ",45"), Err(()), &["111 km from the field's datum", "no sample"]),
        ("header alone", HEADER.to_owned(), Err(()), &["no sample with a time"]),
        ("one row", table(1), Err(()), &["only one sample"]),
        ("no header", whole[HEADER.len() + 1..].to_owned(), Err(()), &["no line names the columns"]),
        ("no time", whole.replace("time_s", "number"), Err(()), &["no column holds the time"]),
        ("no place", whole.replace("latitude", "width"), Err(()), &["no column holds the place"]),
        ("no height", whole.replace("height_above_home", "depth"), Err(()), &["no column holds the height"]),
    ] {
        check(what, "flown.csv", text.as_bytes(), left, phrases);
    }
}

#[test]
fn other_formats() {
    let cut = &GPX[..GPX.len() - 60];
    let garbled = nmea().replacen("43.2,0.0", "43.3,0.0", 1);
    let void = nmea() + &sentence("GPRMC,000001.00,V,,,,,,,250526,,,N");
    for (what, name, text, left, phrases) in [
        ("gpx cut off", "a.gpx", cut.to_owned(), Ok(3), &["breaks off after this point"][..]),
        ("gpx without times", "a.gpx", GPX.replace("time>", "when>"), Err(()), &["no <time>", "no sample"]),
        ("gpx without heights", "a.gpx", GPX.replace("ele>", "up>"), Err(()), &["no height in the whole log"]),
        ("gpx with words", "a.gpx", GPX.replace(">125<", ">high<"), Ok(3), &["the height \"high\" is no number"]),
        ("other XML", "a.gpx", "<kml></kml>".into(), Err(()), &["another kind, <kml>"]),
        ("no XML", "a.gpx", "hello".into(), Err(()), &["no GPX"]),
        ("checksum", "a.nmea", garbled, Ok(4), &["checksum of this RMC sentence is wrong"]),
        ("no checksums", "a.nmea", unchecked(&nmea()), Ok(4), &["no checksum"]),
        ("no fix", "a.nmea", void, Ok(4), &["says that it is no fix"]),
        ("chatter", "a.nmea", nmea() + "hello\n", Ok(4), &["the line is no sentence"]),
        ("no heights", "a.nmea", nmea().replace("GGA", "GGB"), Err(()), &["no height in the whole log"]),
        ("no sentence", "a.nmea", "$GPVTG,1*00\n".into(), Err(()), &["no GGA or RMC"]),
        ("garbled record", "a.igc", IGC.replace("B1200014400010N", "B12000144X0010N"), Ok(2), &["can't be read"]),
        ("pressure alone", "a.igc", IGC.replace("WA", "WV"), Ok(3), &["the pressure's is taken"]),
        ("no record", "a.igc", "AXXX001\n".into(), Err(()), &["no B record"]),
        ("JSON", "a.json", "{}".into(), Err(()), &["this is JSON"]),
        ("nothing", "a.csv", " \n".into(), Err(()), &["is empty"]),
    ] {
        check(what, name, text.as_bytes(), left, phrases);
    }
    let latin = [table(20).replace("time_s", "Zeit time_s").as_bytes(), b"# f\xfcr\n"].concat();
    for (what, bytes, left, phrase) in [
        ("latin letters", &latin[..], Ok(20), "not UTF-8"),
        ("packed", b"PK\x03\x04", Err(()), "a packed file"),
        ("UTF-16", b"\xff\xfet\0i\0", Err(()), "UTF-16"),
        ("no text", b"\x01\x00\x02", Err(()), "is not text"),
    ] {
        check(what, "a.csv", bytes, left, &[phrase]);
    }
}

fn unchecked(text: &str) -> String {
    text.lines().filter_map(|line| Some(line.split_once('*')?.0.to_owned() + "\n")).collect()
}

#[test]
fn a_thousand_of_a_kind_are_told_in_ten_and_a_count() {
    let twice: String = (0..1000).map(|index| format!("{0}\n{0}\n", row(index))).collect();
    let log = read("twice.csv", format!("{HEADER}\n{twice}").as_bytes(), &scenario(), None).unwrap();
    assert_eq!((log.track.time_s().len(), log.repairs.len()), (1000, 11));
    assert_eq!(log.repairs[0].line, Some(3));
    assert!(log.repairs[10].problem.contains("990 more samples whose time comes again, 1000 in all"));
}

#[test]
fn an_hour_ten_times_a_second_is_read() {
    // A circle of 100 m in 28 s.
    let rows = (0..36_000).map(|index| {
        let (sin, cos) = (f64::from(index) / 45.0).sin_cos();
        format!("{:.1};{:.3};{:.3};50;25;30\n", f64::from(index) / 10.0, 100.0 * cos, 100.0 * sin)
    });
    let text = format!("time_s;east_m;north_m;height_m;airspeed_mps;bank_deg\n{}", rows.collect::<String>());
    let log = read("hour.csv", text.as_bytes(), &scenario(), None).unwrap();
    assert_eq!((log.track.time_s().len(), log.track.time_s().last()), (36_000, Some(&3599.9)));
}
