//! Names on the lines that the curve of the radius is compared with, where the curves leave room for them.

use glam::DVec2;

use super::kind::{GUST, MEAN};
use super::radius_chart::Plot;
use crate::draw::{Axes, Lettering, Sheet, shortened, width_mm};

const WORDS: Lettering = Lettering::new(3.4).rimmed();
/// From a line to the foot of its name above or below it, mm.
const ABOVE: f64 = -1.4;
const BELOW: f64 = 4.0;

/// Where the names of the axes stand where there is no room outside the frame: that of the lower one ends at the foot, that
/// of the upright one begins at the head.
pub(super) fn names_inside(axes: &Axes) -> [DVec2; 2] {
    [axes.frame.high - DVec2::new(1.5, 1.3), axes.frame.low + DVec2::new(1.5, 3.6)]
}

/// Names the level lines on the right, where the curves are above them, and the upright ones at the foot.
pub(super) fn names(sheet: &mut Sheet, plot: &Plot<'_>) {
    let (study, unit, axes) = (plot.study, plot.chart.unit, &plot.axes);
    if study.free_m > 0.0 {
        let to = if study.free_to.is_empty() { "the nearest limit" } else { &study.free_to };
        let room = format!("{} from the centre: {to}", unit.whole(study.free_m));
        level(sheet, plot, study.free_m, ABOVE, &room, WORDS.bold());
    }
    if study.closed.largest_m > 0.0 {
        let asked = format!("{}: with the buffer kept", unit.whole(study.closed.largest_m));
        // Two lines close together have their names on either side of them.
        level(sheet, plot, study.closed.largest_m, BELOW, &asked, WORDS);
    }
    let bottom = axes.frame.high.y - 1.5;
    // Names of the level lines, from head to foot.
    let levels = [(study.free_m, ABOVE), (study.closed.largest_m, BELOW)].map(|(value, away)| {
        let foot = plot.at(0.0, value).y + away;
        [foot - 3.0, foot + 1.2]
    });
    for (radius, (name, ink)) in study.closed.smallest_m.into_iter().skip(1).zip([("mean", MEAN), ("gust", GUST)]) {
        if (0.03..0.99).contains(&axes.x.share(unit.of(radius))) {
            let told = format!("{name}: {}", unit.whole(radius));
            let long = width_mm(&told, WORDS.size_mm, false);
            let clear = |foot: &f64| levels.iter().all(|[head, low]| *foot < *head || foot - long > *low);
            let feet = std::iter::once(bottom).chain(levels.iter().map(|[head, _]| head - 0.5));
            let foot = feet.filter(|foot| foot - long > axes.frame.low.y).find(clear).unwrap_or(bottom);
            // In a low chart there is no room for it.
            if foot - long > axes.frame.low.y {
                let at = DVec2::new(plot.at(radius, 0.0).x - 0.9, foot);
                sheet.words(at, told, WORDS.turned(90.0).ink(ink));
            }
        }
    }
}

/// Names a level line, above or below it, where the marks of the curves are furthest away.
fn level(sheet: &mut Sheet, plot: &Plot<'_>, value: f64, away_mm: f64, name: &str, words: Lettering) {
    let frame = plot.axes.frame;
    let name = &shortened(name, words.size_mm, words.bold, frame.size().x - 4.0);
    let wide = width_mm(name, words.size_mm, words.bold);
    let [end, start] = names_inside(&plot.axes);
    let across = (0..=8).map(|part| DVec2::new(f64::from(part) * 4.0, 0.0));
    let title = across.flat_map(|across| [end - across, start + across]).map(|foot| foot - DVec2::new(0.0, 1.2));
    let marks = plot.chart.points().flat_map(|point| {
        let furthest = [&point.mean, &point.gust].map(|score| score.furthest_m);
        furthest.into_iter().flatten().map(|furthest| plot.at(point.radius_m, furthest))
    });
    let marks: Vec<DVec2> = marks.chain(title).collect();
    let (low, high) = (frame.low.x + 2.0, frame.high.x - wide - 2.0);
    let foot = plot.at(0.0, value).y + away_mm;
    let clearance = |left: f64| {
        let beside = marks.iter().filter(|at| at.x > left - 3.0 && at.x < left + wide + 3.0);
        beside.map(|at| (at.y - foot + 1.2).abs()).fold(f64::INFINITY, f64::min)
    };
    let places = (0..=8).map(|part| high + (low - high) * f64::from(part) / 8.0);
    // The first of equals is the one furthest to the right.
    let best = places.reduce(|best, next| if clearance(next) > clearance(best) + 2.0 { next } else { best });
    sheet.words(DVec2::new(best.unwrap_or(low), foot), name.as_str(), words);
}
