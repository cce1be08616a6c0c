//! Which parts of a line lie in a rectangle.

use bevy_egui::egui::{Pos2, Rect, Vec2};

/// The parts of a line that lie in a rectangle: one far away would be thousands of dashes that nobody sees.
pub fn seen(line: &[Pos2], room: Rect) -> Vec<Vec<Pos2>> {
    let mut pieces: Vec<Vec<Pos2>> = Vec::new();
    for pair in line.windows(2) {
        let way = pair[1] - pair[0];
        let Some((from, to)) = within(room, pair[0].to_vec2(), way) else { continue };
        let (from, to) = (from.max(0.0), to.min(1.0));
        if from >= to {
            continue;
        }
        // Corners as they are, so that pieces join.
        let start = if from > 0.0 { pair[0] + way * from } else { pair[0] };
        let end = if to < 1.0 { pair[0] + way * to } else { pair[1] };
        match pieces.last_mut().filter(|piece| piece.last() == Some(&start)) {
            Some(piece) => piece.push(end),
            None => pieces.push(vec![start, end]),
        }
    }
    pieces
}

/// From where to where along a line it lies in a rectangle.
pub fn within(rect: Rect, start: Vec2, way: Vec2) -> Option<(f32, f32)> {
    let mut span = (f32::NEG_INFINITY, f32::INFINITY);
    for (at, along, low, high) in
        [(start.x, way.x, rect.left(), rect.right()), (start.y, way.y, rect.top(), rect.bottom())]
    {
        if along.abs() < 1e-6 {
            if at < low || at > high {
                return None;
            }
        } else {
            let (a, b) = ((low - at) / along, (high - at) / along);
            span = (span.0.max(a.min(b)), span.1.min(a.max(b)));
        }
    }
    (span.0 < span.1).then_some(span)
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy_egui::egui::pos2;

    #[test]
    fn only_what_is_on_the_map_is_drawn() {
        let room = Rect::from_min_max(pos2(0.0, 0.0), pos2(100.0, 50.0));
        let far = |x: f32, y: f32| pos2(x * 1e5, y * 1e5);
        assert!(seen(&[far(-1.0, -1.0), far(1.0, -1.0), far(1.0, 1.0)], room).is_empty());
        let across = seen(&[pos2(-100.0, 20.0), pos2(200.0, 20.0), pos2(200.0, 300.0)], room);
        assert_eq!(across, [vec![pos2(0.0, 20.0), pos2(100.0, 20.0)]]);
        let inside = [pos2(10.0, 10.0), pos2(20.0, 40.0), pos2(90.0, 30.0)];
        assert_eq!(seen(&inside, room), [inside.to_vec()]);
        let out_and_in = seen(&[pos2(10.0, 10.0), pos2(10.0, 90.0), pos2(60.0, 90.0), pos2(60.0, 10.0)], room);
        assert_eq!(out_and_in.len(), 2);
    }
}
