//! The lines of a hatch, in step on a whole sheet; whatever draws them clips them by the surface. Viewers and printers make
//! tiles of a pattern, blurred or with seams between them; lines stay lines on paper.

use glam::DVec2;

use super::sheet::corners;
use super::{Hatch, Path, Pattern};

/// Lines that cover a surface, as far as it lies on a sheet of a size, mm. Each begins half a step and whole steps along
/// from the corner of the sheet, so that dots on them are in step too.
pub fn lines(hatch: Hatch, path: &Path, size: DVec2) -> Vec<[DVec2; 2]> {
    let (low, high) = extent(path);
    let (low, high) = (low.max(DVec2::ZERO), high.min(size));
    if !low.cmplt(high).all() {
        return Vec::new();
    }
    let degrees: &[f64] = match hatch.pattern {
        Pattern::Rising => &[-45.0],
        Pattern::Falling => &[45.0],
        Pattern::Crossed => &[-45.0, 45.0],
        Pattern::Level | Pattern::Dotted | Pattern::Spotted => &[0.0],
        Pattern::Upright => &[90.0],
        Pattern::Squared => &[0.0, 90.0],
    };
    degrees.iter().flat_map(|degrees| family(*degrees, step_mm(hatch), low, high)).collect()
}

/// Width of a line, mm; of a row of dots, how wide they are.
pub fn width_mm(hatch: Hatch) -> f64 {
    step_mm(hatch)
        * match hatch.pattern {
            Pattern::Dotted => 0.32,
            Pattern::Spotted => 0.52,
            _ => 0.22,
        }
}

/// What of a line is drawn and what is left out, mm, if it is a row of dots: dashes without length and with round ends.
pub fn dash_mm(hatch: Hatch) -> Option<[f64; 2]> {
    matches!(hatch.pattern, Pattern::Dotted | Pattern::Spotted).then(|| [0.0, step_mm(hatch)])
}

/// From line to line, mm; no less than printers can keep apart.
fn step_mm(hatch: Hatch) -> f64 {
    f64::from(hatch.step.max(20)) / 100.0
}

fn family(degrees: f64, step: f64, low: DVec2, high: DVec2) -> impl Iterator<Item = [DVec2; 2]> {
    let along = DVec2::from_angle(degrees.to_radians());
    let across = along.perp();
    let reach = |way: DVec2| {
        let shares = corners(low, high).map(|corner| corner.dot(way) / step - 0.5);
        let fold = |pick: fn(f64, f64) -> f64| shares.into_iter().reduce(pick).unwrap_or_default();
        // Rounding leaves no line out.
        ((fold(f64::min) - 1e-9).floor(), (fold(f64::max) + 1e-9).ceil())
    };
    let ((begin, end), (first, last)) = (reach(along), reach(across));
    let places = std::iter::successors(Some(first), |line| Some(line + 1.0)).take_while(move |line| *line <= last);
    places.map(move |line| [begin, end].map(|share| (along * (share + 0.5) + across * (line + 0.5)) * step))
}

fn extent(path: &Path) -> (DVec2, DVec2) {
    let around = |points: &mut dyn Iterator<Item = DVec2>| {
        points.fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
    };
    match path {
        Path::Open(points) => around(&mut points.iter().copied()),
        Path::Rings(rings) => around(&mut rings.iter().flatten().copied()),
        Path::Circle(middle, radius) => (*middle - *radius, *middle + *radius),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::Ink;

    /// The slope of each family: how far a line falls on its way to the right.
    #[track_caller]
    fn check(pattern: Pattern, slopes: &[f64]) {
        let hatch = Hatch { pattern, ink: Ink::BLACK, ground: None, step: 200 };
        let (low, high) = (DVec2::new(20.0, 30.0), DVec2::new(60.0, 50.0));
        let square = Path::Rings(vec![corners(low, high).to_vec()]);
        let all = lines(hatch, &square, DVec2::splat(100.0));
        let mut found = Vec::new();
        for [from, to] in &all {
            let way = (*to - *from).normalize();
            if !found.iter().any(|known: &DVec2| known.distance(way) < 1e-9) {
                found.push(way);
            }
            // Half a step and whole steps from the corner of the sheet.
            let away = way.perp().dot(*from) / 2.0 - 0.5;
            approx::assert_abs_diff_eq!(away, away.round(), epsilon = 1e-9);
        }
        let slope = |way: &DVec2| way.y.atan2(way.x).to_degrees().round();
        assert_eq!(found.iter().map(slope).collect::<Vec<_>>(), slopes);
        // No point of the surface is further than half a step from a line of each family.
        for way in found {
            for at in corners(low, high).into_iter().chain([(low + high) / 2.0]) {
                let of_family = all.iter().filter(|[from, to]| (*to - *from).normalize().distance(way) < 1e-9);
                let near = of_family.map(|[from, to]| {
                    assert!(way.dot(*from) <= way.dot(at) + 1e-9 && way.dot(at) <= way.dot(*to) + 1e-9);
                    way.perp_dot(at - *from).abs()
                });
                assert!(near.fold(f64::INFINITY, f64::min) <= 1.0 + 1e-9, "{pattern:?} leaves {at} out");
            }
        }
    }

    #[test]
    fn lines_run_as_the_pattern_says_and_cover_the_surface() {
        check(Pattern::Rising, &[-45.0]);
        check(Pattern::Falling, &[45.0]);
        check(Pattern::Crossed, &[-45.0, 45.0]);
        check(Pattern::Level, &[0.0]);
        check(Pattern::Upright, &[90.0]);
        check(Pattern::Squared, &[0.0, 90.0]);
        check(Pattern::Dotted, &[0.0]);
    }

    #[test]
    fn off_the_sheet_there_is_nothing_and_no_step_is_endlessly_fine() {
        let hatch = Hatch { pattern: Pattern::Level, ink: Ink::BLACK, ground: None, step: 0 };
        let circle = |x| Path::Circle(DVec2::new(x, 50.0), 10.0);
        assert!(lines(hatch, &circle(200.0), DVec2::splat(100.0)).is_empty());
        assert!(lines(hatch, &circle(50.0), DVec2::splat(100.0)).len() < 110);
    }
}
