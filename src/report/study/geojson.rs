//! The loss map as GeoJSON (RFC 7946): a polygon for each cell and each keep-inside line (role `keep-inside`, in reports
//! only), the turn-back line, the no-return line and the centre.

use geojson::{FeatureCollection, GeometryValue};
use glam::DVec2;
use serde_json::{Value, json};

use crate::VERSION;
use crate::brief::StudyReport;
use crate::report::geojson::{feature, position};
use crate::report::json::{Line, outcomes};
use crate::study::losses::{Cell, LossStudy};
use crate::words::cautions;

/// The map: longitude, latitude, degrees to 9 decimals.
pub(super) fn losses(report: &StudyReport, study: &LossStudy) -> String {
    let plane = &report.scenario.field.plane;
    let place = |at: DVec2| {
        let (latitude, longitude) = plane.to_degrees(at);
        position(longitude, latitude)
    };
    let closed = |ring: &[DVec2]| ring.iter().chain(ring.first()).map(|at| place(*at)).collect::<Vec<_>>();
    let line =
        |ring: &Vec<DVec2>, role: &str| feature(GeometryValue::new_line_string(closed(ring)), json!({ "role": role }));
    let cells = study.cells.iter().map(|cell| {
        // Counter-clockwise, as RFC 7946, 3.1.6 asks of an outer ring.
        feature(GeometryValue::new_polygon([closed(&corners(study, cell))]), about(cell))
    });
    let turn_back = study.turn_back.iter().map(|ring| line(ring, "turn-back line"));
    let no_return = (study.no_return.len() > 1).then(|| line(&study.no_return, "no-return line"));
    let keep = study.keep_inside.iter().flat_map(|keep| {
        let rings = keep.lines.iter().filter(|line| !line.bounds.is_empty());
        rings.map(|line| {
            // Told clockwise; the outer ring of a polygon goes the other way.
            let ring: Vec<DVec2> = line.ring(keep.centre).into_iter().rev().collect();
            feature(GeometryValue::new_polygon([closed(&ring)]), json!(Line::new(keep, line)))
        })
    });
    let centre = feature(GeometryValue::new_point(place(report.scenario.field.centre)), json!({ "role": "centre" }));
    let features = cells.chain(keep).chain(turn_back).chain(no_return).chain([centre]).collect();
    let about = json!({
        "peewit": VERSION,
        "scenario": report.scenario.file.name,
        "hash": report.scenario.hash(),
        "seed": report.scenario.file.seed,
        "partial": report.partial(),
        "headline": report.headline(),
        "cautions": cautions::ALL,
    });
    let collection = FeatureCollection { bbox: None, features, foreign_members: about.as_object().cloned() };
    format!("{collection}\n")
}

fn corners(study: &LossStudy, cell: &Cell) -> [DVec2; 4] {
    let low = study.corner + DVec2::new(f64::from(cell.at[0]), f64::from(cell.at[1])) * study.cell_m;
    let side = study.cell_m;
    [low, low + DVec2::new(side, 0.0), low + DVec2::splat(side), low + DVec2::new(0.0, side)]
}

fn about(cell: &Cell) -> Value {
    let replay = cell.replay;
    json!({
        "role": "cell",
        "as_entered": cell.plan_worst.name(),
        "worst": cell.worst.name(),
        "flown": cell.count.flown,
        "trials": cell.trials.flown,
        "trials_crossed": cell.trials.crossed,
        "trials_kept": cell.trials.kept,
        "checked_closely": cell.checked_closely(),
        "outcomes": outcomes(&cell.outcomes),
        "replay_heading_deg": replay.heading_deg,
        "replay_height_m": replay.height_m,
        "replay_speed_mps": replay.speed_mps,
        "replay_trial": replay.trial,
    })
}
