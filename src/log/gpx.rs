//! What does a GPX 1.1 file (topografix.com/GPX/1/1) log: every track and every part of it, one after the other?

use std::borrow::Cow;

use roxmltree::Node;

use super::clock::moment;
use super::fix::{Clock, Fix, Heights, Raw, place};
use super::notes::{Kind, Notes};
use crate::error::Fault;
use crate::field::import::xml::{self, Lines, children};
use crate::geometry::TangentPlane;

const PARTS: Kind = Kind {
    many: "parts of the log",
    way_out: "They are taken as one log with gaps; cut the file to the flight to judge if they are of several",
};
const NO_TIME: Kind = Kind {
    many: "points without a time",
    way_out: "They are left out; export the log with its own times, not as a route",
};
const NO_NUMBER: Kind =
    Kind { many: "numbers that are none", way_out: "They count as missing; numbers have a point for decimals" };
const CUT: Kind =
    Kind { many: "ends that are missing", way_out: "It is read up to there; export it again if there was more" };

pub(super) fn read(text: &str, plane: TangentPlane, notes: &mut Notes) -> Option<Raw> {
    let mut text = Cow::from(text);
    if let Err(fault) = xml::parse(&text) {
        // A logger that loses its supply never writes the end.
        let end = text.rfind("</trkpt>").map(|at| at + "</trkpt>".len());
        let cut = end.map(|end| format!("{}</trkseg></trk></gpx>", &text[..end]));
        let Some((cut, end)) = cut.filter(|cut| xml::parse(cut).is_ok()).zip(end) else {
            notes.pass_on(fault);
            return None;
        };
        let line = text[..end].matches('\n').count() + 1;
        notes.warn(&CUT, Some(line), || "the file breaks off after this point".into());
        text = Cow::from(cut);
    }
    let (document, lines) = xml::parse(&text).ok()?;
    let root = document.root_element();
    if !xml::is(root, "gpx") {
        let problem = format!("this is XML of another kind, <{}>", root.tag_name().name());
        notes.pass_on(Fault::error("", problem, "Export the flight as GPX"));
        return None;
    }
    let mut parts: Vec<Vec<Fix>> = children(root, "trk")
        .flat_map(|track| children(track, "trkseg"))
        .map(|part| children(part, "trkpt").filter_map(|point| fix(point, &lines, plane, notes)).collect())
        .collect();
    parts.retain(|part| !part.is_empty());
    // A file may have its tracks in any order.
    parts.sort_by(|one, other| one[0].time_s.total_cmp(&other[0].time_s));
    for part in parts.iter().skip(1) {
        notes.warn(&PARTS, Some(part[0].line), || "another part of the log begins here".into());
    }
    let one_clock = parts.len() < 2;
    Some(Raw {
        fixes: parts.concat(),
        clock: Clock::Unix,
        day: None,
        heights: Heights::Sea,
        height_gap_s: f64::INFINITY,
        one_clock,
        extras: [false; 4],
        stretch: false,
    })
}

fn fix(point: Node<'_, '_>, lines: &Lines, plane: TangentPlane, notes: &mut Notes) -> Option<Fix> {
    let line = lines.line(point);
    let inside = |name: &'static str| xml::child(point, name).map(xml::text);
    let time = inside("time").as_deref().and_then(moment).filter(|time| time.day.is_some());
    let Some(time) = time else {
        notes.warn(&NO_TIME, Some(line), || match inside("time") {
            Some(text) => format!("\"{}\" is no day and time", text.trim().chars().take(40).collect::<String>()),
            None => "the point has no <time>".into(),
        });
        return None;
    };
    let mut number = |text: Option<&str>, name: &str| {
        let text = text?.trim();
        let value = text.parse::<f64>().ok().filter(|value| value.abs() < 1e5);
        if value.is_none() {
            let short: String = text.chars().take(40).collect();
            notes.warn(&NO_NUMBER, Some(line), || format!("the {name} \"{short}\" is no number"));
        }
        value
    };
    let height_m = number(inside("ele").as_deref(), "height");
    let degrees = [number(point.attribute("lat"), "latitude"), number(point.attribute("lon"), "longitude")];
    let place = match degrees {
        [Some(latitude), Some(longitude)] => place(plane, [latitude, longitude], line, notes),
        _ => None,
    };
    Some(Fix::new(line, time.seconds(), place, height_m))
}
