//! How long, which way, how large: what is read while a field is drawn, in the user's units.

use glam::DVec2;

use super::extent::{area, length, ring_area};
use super::{Chosen, FieldBoard, Kind, Part, Tool, circuit};
use crate::run::ScenarioFile;
use crate::units::Bearing;
use crate::words::{Measure, Units};

/// A length and the true bearing it runs along, such as "40 m, bearing 045°".
pub fn run(units: &Units, from: DVec2, to: DVec2) -> String {
    let away = to - from;
    format!("{}, bearing {}", units.text(Measure::Distance, away.length()), bearing(away))
}

/// A true bearing in three digits.
pub fn bearing(along: DVec2) -> String {
    format!("{:03.0}\u{b0}", Bearing::of(along).deg().round() % 360.0)
}

/// A place about the datum, such as "120 m east, 35 m south".
pub fn place(units: &Units, at: DVec2) -> String {
    let part = |metres: f64, [ahead, back]: [&str; 2]| {
        let length = units.short(Measure::Distance, metres.abs());
        format!("{length} {}", if metres < 0.0 { back } else { ahead })
    };
    format!("{}, {}", part(at.x, ["east", "west"]), part(at.y, ["north", "south"]))
}

fn round(units: &Units, corners: &[DVec2]) -> String {
    format!("round it {}", units.text(Measure::Distance, length(corners, true)))
}

fn ring(units: &Units, corners: &[DVec2]) -> Vec<String> {
    vec![round(units, corners), format!("area {}", area(units, ring_area(corners)))]
}

/// What is read now: of the corners drawn or measured with the place aimed at, or of what is chosen.
pub fn lines(field_board: &FieldBoard, file: &ScenarioFile, units: &Units, aim: Option<DVec2>) -> Vec<String> {
    match field_board.tool {
        Tool::Draw(kind) => {
            let mut lines = drawn(units, &field_board.drawing, aim, Some(kind));
            lines.extend(aim.or(field_board.drawing.last().copied()).map(|at| place(units, at)));
            lines
        }
        Tool::Measure => {
            let mut lines = drawn(units, &field_board.measured, aim, None);
            lines.extend(aim.or(field_board.measured.last().copied()).map(|at| place(units, at)));
            lines
        }
        Tool::PlacePicture => aim.map(|at| place(units, at)).into_iter().collect(),
        Tool::Choose => field_board.chosen.map_or_else(Vec::new, |chosen| of_chosen(units, file, chosen)),
    }
}

fn drawn(units: &Units, placed: &[DVec2], aim: Option<DVec2>, kind: Option<Kind>) -> Vec<String> {
    let mut corners = placed.to_vec();
    corners.extend(aim.filter(|at| placed.last() != Some(at)));
    let mut lines = Vec::new();
    if let [.., from, to] = corners[..] {
        lines.push(run(units, from, to));
    }
    if corners.len() > 2 {
        lines.push(format!("so far {}", units.text(Measure::Distance, length(&corners, false))));
        match kind {
            Some(Kind::Circuit) => lines.push(round(units, &corners)),
            Some(kind) if kind.is_ring() => lines.extend(ring(units, &corners)),
            _ => {}
        }
    }
    lines
}

/// What is read of a part or of one of its corners.
pub fn of_chosen(units: &Units, file: &ScenarioFile, chosen: Chosen) -> Vec<String> {
    let Chosen { part, corner } = chosen;
    let points = part.points(file);
    let count = points.len();
    let mut lines = Vec::new();
    if let [from, to] = points[..]
        && matches!(part, Part::FlightLine | Part::Runway)
    {
        lines.push(run(units, from, to));
    }
    let is_ring = part.is_ring(file);
    if let Some(corner) = corner.filter(|corner| is_ring && *corner < count && count > 1) {
        for other in [(corner + count - 1) % count, (corner + 1) % count] {
            lines.push(format!("to corner {}: {}", other + 1, run(units, points[corner], points[other])));
        }
    }
    let flown = file.field.as_ref().and_then(|field| field.circuit.as_ref()).filter(|_| part == Part::Circuit);
    match flown {
        Some(flown) if count > 1 => lines.extend(circuit::figures(units, flown)),
        _ if is_ring && count > 1 => lines.extend(ring(units, &points)),
        _ => {}
    }
    let at = corner.map_or_else(|| points.first().filter(|_| count == 1), |corner| points.get(corner));
    lines.extend(at.map(|&at| place(units, at)));
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;
    use crate::words::Pair;

    fn units(first: &str, second: &str) -> Units {
        Units { distance: Pair { first: first.into(), second: second.into() }, ..Units::default() }
    }

    #[test]
    fn bearings_have_three_digits_and_never_say_360() {
        assert_eq!(bearing(DVec2::new(1.0, 1.0)), "045\u{b0}");
        assert_eq!(bearing(DVec2::new(-1e-4, 1.0)), "000\u{b0}");
        assert_eq!(bearing(DVec2::new(-1.0, 0.0)), "270\u{b0}");
    }

    #[test]
    fn places_and_lengths_are_said_in_words() {
        assert_eq!(place(&units("m", ""), DVec2::new(120.0, -35.0)), "120 m east, 35.0 m south");
        assert_eq!(run(&units("m", ""), DVec2::ZERO, DVec2::new(0.0, -150.0)), "150 m, bearing 180\u{b0}");
    }

    #[test]
    fn what_is_being_drawn_is_read_with_the_place_aimed_at() {
        let corner = |x, y| DVec2::new(x, y);
        let field_board = FieldBoard {
            tool: Tool::Draw(Kind::Area),
            drawing: vec![corner(0.0, 0.0), corner(300.0, 0.0)],
            ..FieldBoard::default()
        };
        let lines = lines(&field_board, &Scenario::tight_strip().file, &units("m", ""), Some(corner(300.0, 400.0)));
        // By hand: a right triangle of 300, 400 and 500 m has 60 000 m2.
        let expected = ["400 m, bearing 000\u{b0}", "so far 700 m", "round it 1200 m", "area 6.00 ha"];
        assert_eq!(lines[..4], expected);
    }
}
