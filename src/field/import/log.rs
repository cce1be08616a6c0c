//! Where was a jet, how high and when? The one track of a GPX 1.1 file (topografix.com/GPX/1/1), every point with its
//! time and its height, or all that is wrong with it.

use glam::DVec2;
use roxmltree::Node;
use time::format_description::well_known::Rfc3339;
use time::{OffsetDateTime, UtcOffset};

use super::found::At;
use super::gpx::{WAY_OUT, degrees};
use super::xml::{self, Lines, child, children};
use crate::error::Fault;
use crate::field::Datum;
use crate::field::rings::FURTHEST;
use crate::geometry::TangentPlane;

/// Most faults of a kind in a part of the track that are told one by one.
const MOST_TOLD: usize = 20;

const LOG: &str = "Export the flight as GPX, a single track of points with <time> and <ele>";
const TIMES: &str = "Log it again, or export it with the logger's own times, in UTC as 2026-05-24T12:00:00.2Z";
const HEIGHTS: &str = "Export it with the logger's heights, metres above mean sea level";

/// What was logged of a flight: an entry a point in every list.
#[derive(Debug, Clone, PartialEq)]
pub struct Log {
    /// The time of the first point, UTC.
    pub began: OffsetDateTime,
    /// Times since the first point, seconds, each later than the one before.
    pub time_s: Vec<f64>,
    /// Places, metres about the datum.
    pub place: Vec<DVec2>,
    /// Heights as GPX has them, metres above mean sea level.
    pub above_sea_m: Vec<f64>,
}

/// Reads the one track of a GPX file about a datum, or tells everything that is wrong with it.
pub fn log(bytes: &[u8], datum: Datum) -> Result<Log, Vec<Fault>> {
    let text = super::text(bytes, "Cut it to the one flight").map_err(|fault| vec![fault])?;
    let (document, lines) = xml::parse(text).map_err(|fault| vec![fault])?;
    let root = document.root_element();
    if !xml::is(root, "gpx") {
        let problem = format!("this is XML of another kind, <{}>", root.tag_name().name());
        return Err(vec![Fault::error("", problem, LOG)]);
    }
    let parts = parts(root, &lines);
    let mut faults = Vec::new();
    let Some((first, more)) = parts.split_first() else {
        return Err(vec![Fault::error("", "there is no track in the file", LOG)]);
    };
    for part in more {
        let (problem, way_out) = if part.track == first.track {
            (
                "the logger stopped before this part, and nothing is known in between",
                "Cut the file to the part to judge",
            )
        } else {
            ("there is more than one track", "Keep one track a file")
        };
        faults.push(Fault { line: part.at.line, ..Fault::error(&*part.at.place, problem, way_out) });
    }
    let plane = TangentPlane::new(datum.latitude_deg, datum.longitude_deg);
    let mut read: Vec<_> = parts.iter().map(|part| part.read(&lines, plane, &mut faults)).collect();
    faults.sort_by_key(|fault| fault.line);
    if faults.is_empty() { Ok(read.swap_remove(0)) } else { Err(faults) }
}

/// An unbroken part of a track.
struct Part<'a, 'i> {
    /// Number of its track in the file.
    track: usize,
    at: At,
    points: Vec<Node<'a, 'i>>,
}

/// What is wrong with a point, and the way out.
type Problem = (String, &'static str);

/// Every part with a point in it.
fn parts<'a, 'i: 'a>(root: Node<'a, 'i>, lines: &Lines) -> Vec<Part<'a, 'i>> {
    let mut parts = Vec::new();
    for (node, track) in children(root, "trk").zip(1..) {
        let named = lines.at(node, "Track", track);
        let one = children(node, "trkseg").nth(1).is_none();
        for (segment, number) in children(node, "trkseg").zip(1..) {
            let place = if one { named.place.clone() } else { format!("{}, part {number}", named.place) };
            let at = At { place, line: Some(lines.line(segment)), ..named.clone() };
            parts.push(Part { track, at, points: children(segment, "trkpt").collect() });
        }
    }
    parts.retain(|part| !part.points.is_empty());
    parts
}

impl<'a, 'i> Part<'a, 'i> {
    /// What its points say, as far as nothing is wrong with them.
    fn read(&self, lines: &Lines, plane: TangentPlane, faults: &mut Vec<Fault>) -> Log {
        let mut before = None;
        let times = self.all(lines, faults, |point| {
            let now = moment(point)?;
            match before.replace(now) {
                Some(before) if now == before => Err((format!("the time {} comes again", clock(now)), TIMES)),
                Some(before) if now < before => {
                    Err((format!("the time goes back from {} to {}", clock(before), clock(now)), TIMES))
                }
                _ => Ok(now),
            }
        });
        let place = self.all(lines, faults, |point| place(point, plane));
        let above_sea_m = self.all(lines, faults, height);
        let began = times.first().copied().unwrap_or(OffsetDateTime::UNIX_EPOCH);
        let time_s = times.iter().map(|&time| (time - began).as_seconds_f64()).collect();
        Log { began, time_s, place, above_sea_m }
    }

    /// One thing of every point; a fault for every run of points that lack it in the same way.
    fn all<T>(
        &self,
        lines: &Lines,
        faults: &mut Vec<Fault>,
        mut read: impl FnMut(Node<'a, 'i>) -> Result<T, Problem>,
    ) -> Vec<T> {
        let (mut all, mut bad) = (Vec::with_capacity(self.points.len()), Vec::new());
        for (&point, number) in self.points.iter().zip(1_usize..) {
            match read(point) {
                Ok(value) => all.push(value),
                Err(problem) => bad.push((number, problem)),
            }
        }
        let runs: Vec<_> = bad.chunk_by(|a, b| a.0 + 1 == b.0 && a.1 == b.1).collect();
        let (told, rest) = runs.split_at(runs.len().min(MOST_TOLD));
        let mut tell = |number: usize, points: String, problem: &str, way_out: &str| {
            let line = Some(lines.line(self.points[number - 1]));
            faults.push(Fault { line, ..Fault::error(format!("{}, {points}", self.at.place), problem, way_out) });
        };
        for run in told {
            let (from, (problem, way_out)) = &run[0];
            let to = from + run.len() - 1;
            let points = if run.len() == 1 { format!("point {from}") } else { format!("points {from} to {to}") };
            tell(*from, points, problem, way_out);
        }
        if let Some((from, (_, way_out))) = rest.first().map(|run| &run[0]) {
            let count: usize = rest.iter().map(|run| run.len()).sum();
            tell(*from, format!("points from {from} on"), &format!("{count} more have a fault of this kind"), way_out);
        }
        all
    }
}

/// GPX means UTC where a time names no zone.
fn moment(point: Node<'_, '_>) -> Result<OffsetDateTime, Problem> {
    let written = inside(point, "time").ok_or_else(|| ("there is no <time>".to_owned(), TIMES))?;
    let read = |text: &str| OffsetDateTime::parse(text, &Rfc3339);
    let time = read(&written).or_else(|_| read(&format!("{written}Z")));
    time.map(|time| time.to_offset(UtcOffset::UTC))
        .map_err(|_| (format!("\"{}\" is no day and time", short(&written)), TIMES))
}

fn height(point: Node<'_, '_>) -> Result<f64, Problem> {
    let written = inside(point, "ele").ok_or_else(|| ("there is no <ele>, the height".to_owned(), HEIGHTS))?;
    let height = written.parse::<f64>().ok().filter(|height| height.is_finite());
    height.ok_or_else(|| (format!("the height \"{}\" is not a number of metres", short(&written)), HEIGHTS))
}

fn place(point: Node<'_, '_>, plane: TangentPlane) -> Result<DVec2, Problem> {
    let [longitude, latitude] = degrees(point).map_err(|problem| (problem, WAY_OUT))?;
    let away = plane.distance_m(latitude, longitude);
    if away <= FURTHEST {
        return Ok(plane.to_metres(latitude, longitude));
    }
    Err((format!("the place is {:.0} km from the field's datum", away / 1e3), "Judge it by the field it was flown at"))
}

/// The text of an element inside a point, without the space around it.
fn inside(point: Node<'_, '_>, name: &'static str) -> Option<String> {
    child(point, name).map(|node| xml::text(node).trim().to_owned())
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

/// The time of day.
fn clock(moment: OffsetDateTime) -> String {
    let (hour, minute, second) = moment.to_hms();
    let thousandths = match moment.millisecond() {
        0 => String::new(),
        part => format!(".{part:03}"),
    };
    format!("{hour:02}:{minute:02}:{second:02}{thousandths}")
}

#[cfg(test)]
mod tests {
    use super::*;

    const DATUM: Datum = Datum { latitude_deg: 44.0, longitude_deg: -30.0 };

    fn point(time: &str, ele: &str) -> String {
        format!("<trkpt lat=\"44\" lon=\"-30\">{ele}{time}</trkpt>\n")
    }

    /// A point at so many seconds after noon, 100 m up.
    fn at(second: &str) -> String {
        point(&format!("<time>2026-05-24T12:00:{second}Z</time>"), "<ele>100</ele>")
    }

    fn gpx(parts: &[&[String]]) -> String {
        let parts = parts.iter().map(|points| format!("<trkseg>\n{}</trkseg>", points.concat()));
        format!("<gpx>\n<trk><name>Sortie</name>{}</trk></gpx>", parts.collect::<String>())
    }

    /// The faults, each by its place and words.
    #[track_caller]
    fn check(text: &str, expected: &[(&str, &str)]) {
        let faults = log(text.as_bytes(), DATUM).unwrap_err();
        let told: Vec<_> = faults.iter().map(|fault| (&*fault.place, &*fault.problem)).collect();
        assert_eq!(told.len(), expected.len(), "{told:#?}");
        for (told, expected) in told.iter().zip(expected) {
            assert!(told.0 == expected.0 && told.1.contains(expected.1), "{told:?} {expected:?}");
        }
    }

    #[test]
    fn times_count_from_the_first_point_in_utc_and_heights_are_as_written() {
        let times = ["12:00:00.25Z", "14:00:01.5+02:00", "12:00:02", "12:00:10Z"];
        let heights = ["101.5", " 102 ", "-3", "1e2"];
        let points = times
            .iter()
            .zip(heights)
            .map(|(time, ele)| point(&format!("<time> 2026-05-24T{time} </time>"), &format!("<ele>{ele}</ele>")));
        let log = log(gpx(&[&points.collect::<Vec<_>>(), &[]]).as_bytes(), DATUM).unwrap();
        assert_eq!(log.began.to_string(), "2026-05-24 12:00:00.25 +00:00:00");
        assert_eq!(log.time_s, [0.0, 1.25, 1.75, 9.75]);
        assert_eq!(log.above_sea_m, [101.5, 102.0, -3.0, 100.0]);
        assert_eq!(log.place, [DVec2::ZERO; 4]);
    }

    #[test]
    fn what_is_no_log_is_refused() {
        check("", &[("", "breaks off")]);
        check("<kml/>", &[("", "another kind, <kml>")]);
        check("<gpx/>", &[("", "no track")]);
        check("<gpx><wpt lat=\"44\" lon=\"-30\"/><trk><trkseg/></trk></gpx>", &[("", "no track")]);
        check("<!DOCTYPE gpx []><gpx/>", &[("", "DOCTYPE")]);
        assert!(log(b"<gpx>\xff</gpx>", DATUM).unwrap_err()[0].problem.contains("not UTF-8"));
    }

    #[test]
    fn every_fault_of_a_track_is_told_with_its_place() {
        let (time, ele) = ("<time>2026-05-24T12:00:03Z</time>", "<ele>100</ele>");
        check(
            &gpx(&[&[at("00"), point("", ele), point("", ele), point(time, ""), at("04")]]),
            &[("Track \"Sortie\", points 2 to 3", "no <time>"), ("Track \"Sortie\", point 4", "no <ele>")],
        );
        check(
            &gpx(&[&[at("00"), at("01"), at("01"), at("01"), at("02.5"), at("02"), at("03")]]),
            &[
                ("Track \"Sortie\", points 3 to 4", "12:00:01 comes again"),
                ("Track \"Sortie\", point 6", "back from 12:00:02.500 to 12:00:02"),
            ],
        );
        check(
            &gpx(&[&[point("<time>noon</time>", "<ele>high</ele>"), at("01"), point(time, "<ele>nan</ele>")]]),
            &[
                ("Track \"Sortie\", point 1", "\"noon\" is no day and time"),
                ("Track \"Sortie\", point 1", "height \"high\""),
                ("Track \"Sortie\", point 3", "height \"nan\""),
            ],
        );
        let far = at("02").replace("lat=\"44\"", "lat=\"45\"");
        let odd = at("03").replace("lon=\"-30\"", "");
        check(
            &gpx(&[&[at("01"), far, odd]]),
            &[
                ("Track \"Sortie\", point 2", "111 km from the field's datum"),
                ("Track \"Sortie\", point 3", "a position has no lon"),
            ],
        );
    }

    #[test]
    fn a_gap_and_a_second_track_are_faults_beside_those_of_their_points() {
        check(
            &gpx(&[&[at("00"), at("01")], &[at("05"), at("05")]]),
            &[
                ("Track \"Sortie\", part 2", "stopped before this part"),
                ("Track \"Sortie\", part 2, point 2", "comes again"),
            ],
        );
        let two = gpx(&[&[at("00")]]).replace("</gpx>", &format!("<trk><trkseg>{}</trkseg></trk></gpx>", at("01")));
        check(&two, &[("Track 2", "more than one track")]);
    }

    #[test]
    fn a_thousand_faults_of_a_kind_are_told_in_a_few_and_a_count() {
        let points: Vec<_> = (0..1000)
            .map(|i| if i % 2 == 0 { at(&format!("{:06.3}", f64::from(i) / 100.0)) } else { at("xx") })
            .collect();
        let faults = log(gpx(&[&points]).as_bytes(), DATUM).unwrap_err();
        assert_eq!(faults.len(), MOST_TOLD + 1);
        assert_eq!((faults[19].line, &*faults[19].place), (Some(42), "Track \"Sortie\", point 40"));
        assert!(faults[20].problem.contains("480 more"), "{:?}", faults[20]);
    }
}
