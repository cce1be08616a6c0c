//! Waypoints, routes and tracks of GPX 1.0 and 1.1 (topografix.com/GPX/1/1).

use roxmltree::Node;

use super::Form;
use super::found::{At, Degrees, Drawn, Found};
use super::xml::{Lines, child, children};

pub(super) fn read(root: Node<'_, '_>, lines: &Lines, found: &mut Found) {
    for (node, number) in children(root, "wpt").zip(1..) {
        let at = lines.at(node, "Waypoint", number);
        match position(node, found) {
            Ok(position) => found.add(Drawn::new(&at, Form::Point, vec![vec![position]])),
            Err(problem) => found.skip(&at, problem, WAY_OUT),
        }
        if found.is_full() {
            return;
        }
    }
    for (node, number) in children(root, "rte").zip(1..) {
        line(children(node, "rtept"), &lines.at(node, "Route", number), found);
        if found.is_full() {
            return;
        }
    }
    for (node, number) in children(root, "trk").zip(1..) {
        let at = lines.at(node, "Track", number);
        let one = children(node, "trkseg").nth(1).is_none();
        for (segment, part) in children(node, "trkseg").zip(1..) {
            // A logger opens a new part wherever it lost its fix.
            let named = |text: &str| if one { text.to_owned() } else { format!("{text}, part {part}") };
            let at = At { name: named(&at.name), place: named(&at.place), ..at };
            line(children(segment, "trkpt"), &at, found);
            if found.is_full() {
                return;
            }
        }
    }
}

pub(super) const WAY_OUT: &str =
    "Fix it or log it again: lat and lon are degrees north and east, with a point for decimals";

fn line<'a, 'i: 'a>(points: impl Iterator<Item = Node<'a, 'i>>, at: &At, found: &mut Found) {
    let points: Result<Vec<_>, String> = points.map(|point| position(point, found)).collect();
    match points {
        Ok(points) => found.add(Drawn::new(at, Form::Line, vec![points])),
        Err(problem) => found.skip(at, problem, WAY_OUT),
    }
}

fn position(node: Node<'_, '_>, found: &mut Found) -> Result<Degrees, String> {
    if child(node, "ele").is_some() {
        found.has_heights();
    }
    degrees(node)
}

/// Where a point is.
pub(super) fn degrees(node: Node<'_, '_>) -> Result<Degrees, String> {
    let degrees = |name: &str| {
        let written = node.attribute(name).ok_or_else(|| format!("a position has no {name}"))?;
        let short = || written.chars().take(40).collect::<String>();
        written.trim().parse::<f64>().map_err(|_| format!("{name} \"{}\" is not a number of degrees", short()))
    };
    Ok([degrees("lon")?, degrees("lat")?])
}
