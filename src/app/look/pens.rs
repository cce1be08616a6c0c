//! Lines on the screen, drawn with the pens of the look: dashes that bend where the line does, and the mark of the
//! maximum bank.

use bevy_egui::egui::{Color32, Painter, Pos2, Shape, Stroke};

use crate::app::look::theme::Pen;

/// Distance between the rungs that mark the maximum bank, points.
const RUNG: f32 = 8.0;
/// The band behind the part at the maximum bank: the yellow of Okabe and Ito.
pub const LIMIT_BAND: Color32 = Color32::from_rgb(0xF0, 0xE4, 0x42);

/// Draws a line with a pen.
pub fn pen_line(painter: &Painter, points: &[Pos2], pen: Pen) {
    let stroke = Stroke::new(pen.width, pen.colour);
    painter.extend(dashes(points, pen.dash).into_iter().map(|dash| Shape::line(dash, stroke)));
}

/// The parts of a line that a dash pattern draws; the whole line for an empty pattern. Dashes bend where the line does.
pub fn dashes(line: &[Pos2], pattern: &[f32]) -> Vec<Vec<Pos2>> {
    let (Some(&first), true) = (line.first(), pattern.iter().sum::<f32>() > 0.0) else { return vec![line.to_vec()] };
    let mut lengths = pattern.iter().copied().cycle().enumerate();
    let mut dashes = vec![vec![first]];
    let (mut part, mut left) = lengths.next().unwrap_or_default();
    for pair in line.windows(2) {
        let length = pair[0].distance(pair[1]);
        let mut gone = 0.0;
        while gone + left < length {
            gone += left;
            let at = pair[0].lerp(pair[1], gone / length);
            // Even parts of the pattern are drawn, odd ones left out.
            match dashes.last_mut().filter(|_| part % 2 == 0) {
                Some(dash) => dash.push(at),
                None => dashes.push(vec![at]),
            }
            (part, left) = lengths.next().unwrap_or_default();
        }
        left -= length - gone;
        if let Some(dash) = dashes.last_mut().filter(|_| part % 2 == 0) {
            dash.push(pair[1]);
        }
    }
    dashes.retain(|dash| dash.len() > 1);
    dashes
}

/// Short lines across a line, evenly spaced along it.
pub fn rungs(line: &[Pos2]) -> Vec<[Pos2; 2]> {
    let mut rungs = Vec::new();
    let mut to_next = RUNG / 2.0;
    for pair in line.windows(2) {
        let along = pair[1] - pair[0];
        let length = along.length();
        if length <= 0.0 {
            continue;
        }
        let side = along.rot90() / length * 6.0;
        while to_next < length {
            let at = pair[0] + along * (to_next / length);
            rungs.push([at - side, at + side]);
            to_next += RUNG;
        }
        to_next -= length;
    }
    rungs
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy_egui::egui::pos2;

    #[test]
    fn dashes_have_their_lengths_whatever_the_samples_are() {
        let fine: Vec<Pos2> = (0..=200_u8).map(|x| pos2(f32::from(x) * 0.3, 5.0)).collect();
        for line in [vec![pos2(0.0, 5.0), pos2(60.0, 5.0)], fine] {
            let ends: Vec<[f32; 2]> =
                dashes(&line, &[16.0, 6.0]).iter().map(|dash| [dash[0].x, dash[dash.len() - 1].x]).collect();
            for (found, expected) in ends.iter().flatten().zip([0.0, 16.0, 22.0, 38.0, 44.0, 60.0]) {
                assert!((found - expected).abs() < 0.01, "{ends:?}");
            }
            assert_eq!(ends.len(), 3);
        }
    }

    #[test]
    fn a_pen_without_gaps_draws_the_line_as_it_is() {
        let line = [pos2(0.0, 0.0), pos2(10.0, 0.0), pos2(10.0, 10.0)];
        assert_eq!(dashes(&line, &[]), [line.to_vec()]);
    }

    #[test]
    fn rungs_are_evenly_spaced_round_corners() {
        let line = [pos2(0.0, 0.0), pos2(10.0, 0.0), pos2(10.0, 10.0)];
        // At 4, 12 and 20 less a hair along a line 20 long.
        assert_eq!(rungs(&line).len(), 2);
    }
}
