//! Placemarks of KML 2.2 (OGC 07-147r2): points, lines, rings and polygons with their inner boundaries.

use roxmltree::Node;

use super::Form;
use super::found::{At, Degrees, Drawn, Found};
use super::xml::{Lines, child, children, is, text};

pub(super) fn read(root: Node<'_, '_>, lines: &Lines, found: &mut Found) {
    let mut placemarks = 0;
    for node in root.descendants().filter(Node::is_element) {
        let name = node.tag_name().name();
        if name == "Placemark" {
            placemarks += 1;
            placemark(node, &lines.at(node, "Placemark", placemarks), found);
        } else if let Some((problem, way_out)) = passed_over(name) {
            found.skip(&lines.at(node, name, 1), problem, way_out);
        }
        if found.is_full() {
            return;
        }
    }
}

fn passed_over(name: &str) -> Option<(&'static str, &'static str)> {
    match name {
        "NetworkLink" => Some(("a link to another file is not followed", "Save what it leads to as a file of its own")),
        "GroundOverlay" | "ScreenOverlay" | "PhotoOverlay" => {
            Some(("a picture laid over the ground is not a shape", "Open the picture itself and lay it by two points"))
        }
        _ => None,
    }
}

fn placemark(node: Node<'_, '_>, at: &At, found: &mut Found) {
    let mut any = false;
    for geometry in node.descendants().filter(Node::is_element) {
        let drawn = match geometry.tag_name().name() {
            "Point" => positions(geometry, found).and_then(|at| match at.as_slice() {
                [_] => Ok((Form::Point, vec![at])),
                more => Err(format!("a point of {} positions", more.len())),
            }),
            "LineString" => positions(geometry, found).map(|line| (Form::Line, vec![line])),
            "LinearRing" if !geometry.ancestors().take(3).any(|outer| is(outer, "Polygon")) => {
                positions(geometry, found).map(|ring| (Form::Ring, vec![ring]))
            }
            "Polygon" => polygon(geometry, found).map(|rings| (Form::Ring, rings)),
            kind @ ("Track" | "Model") => Err(format!("a {kind} is none of point, line and polygon")),
            _ => continue,
        };
        any = true;
        match drawn {
            Ok((form, rings)) => found.add(Drawn::new(at, form, rings)),
            Err(problem) => found.skip(at, problem, "Draw it again as a point, a line or a polygon"),
        }
    }
    if !any {
        found.skip(at, "it has no place", "Nothing, unless it ought to have one");
    }
}

fn polygon(node: Node<'_, '_>, found: &mut Found) -> Result<Vec<Vec<Degrees>>, String> {
    let rings = |name| children(node, name).flat_map(|boundary| children(boundary, "LinearRing"));
    let outer = rings("outerBoundaryIs").next().ok_or("the polygon has no outer boundary")?;
    std::iter::once(outer).chain(rings("innerBoundaryIs")).map(|ring| positions(ring, found)).collect()
}

/// `longitude,latitude[,height]`, apart by white space.
fn positions(node: Node<'_, '_>, found: &mut Found) -> Result<Vec<Degrees>, String> {
    let written = child(node, "coordinates").map(text).unwrap_or_default();
    let position = |tuple: &str| {
        let numbers: Result<Vec<f64>, _> = tuple.split(',').map(str::parse).collect();
        match numbers.as_deref() {
            Ok(&[longitude, latitude]) => Ok([longitude, latitude]),
            Ok(&[longitude, latitude, height]) => {
                if height != 0.0 {
                    found.has_heights();
                }
                Ok([longitude, latitude])
            }
            _ => {
                let short: String = tuple.chars().take(40).collect();
                Err(format!("\"{short}\" is not longitude,latitude in degrees with a point for decimals and no space"))
            }
        }
    };
    written.split_whitespace().map(position).collect()
}
