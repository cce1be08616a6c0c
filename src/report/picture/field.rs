//! The field on paper: boundary, areas with their rules, tall things, strip, flight line and the points.

use glam::DVec2;

use super::circuit;
use crate::draw::{Fill, Hatch, Ink, Lettering, MapFrame, Pattern, Pen, Sheet, Taken, shortened, width_mm};
use crate::field::{Field, Rule};
use crate::geometry::Region;

/// How ground with a rule is filled. Each rule has its own pattern.
pub(in crate::report) const fn ruled(rule: Rule) -> Hatch {
    let (pattern, ink, step) = match rule {
        Rule::NoFly => (Pattern::Crossed, Ink::BLACK, 240),
        Rule::Above(_) => (Pattern::Level, Ink::BLACK, 240),
        Rule::People => (Pattern::Upright, Ink::BLACK, 160),
        Rule::Caution => (Pattern::Dotted, Ink::BLACK, 200),
        Rule::Idle => (Pattern::Dotted, Ink::RULE, 400),
    };
    Hatch { pattern, ink, ground: None, step }
}

/// Draws what lies under the answer: land, strip, tall things.
pub(in crate::report) fn ground(sheet: &mut Sheet, map: &MapFrame, field: &Field) {
    sheet.shape(map.rings(&field.boundary), None, Fill::Plain(Ink::PAPER), "boundary");
    if let Some(strip) = field.runway {
        let across = (strip.to - strip.from).normalize_or_zero().perp() * strip.width_m / 2.0;
        let corners = [strip.from + across, strip.to + across, strip.to - across, strip.from - across];
        sheet.ring(map.all(&corners), Some(Pen::plain(Ink::SOFT, 0.2)), Fill::Plain(Ink::FAINT));
    }
}

/// Draws what must be seen through the answer: edges, areas, obstacles, flight line, points, names.
///
/// Returns how many names found no room.
pub(super) fn limits(sheet: &mut Sheet, map: &MapFrame, field: &Field) -> usize {
    shapes(sheet, map, field);
    let mut taken = Taken::default();
    points(sheet, map, field, &mut taken);
    names(sheet, map, field, &mut taken)
}

/// Draws edges, areas, obstacles, flight line and circuit.
pub(in crate::report) fn shapes(sheet: &mut Sheet, map: &MapFrame, field: &Field) {
    if let Some(flown) = &field.circuit {
        circuit::draw(sheet, map, flown);
    }
    for area in &field.areas {
        let pen = Some(Pen::plain(Ink::BLACK, 0.4));
        sheet.shape(map.rings(&area.region), pen, Fill::Hatch(ruled(area.rule)), area.name.as_str());
    }
    for obstacle in &field.obstacles {
        let (path, pen) = (map.rings(&obstacle.region), Some(Pen::plain(Ink::BLACK, 0.4)));
        if obstacle.region.rings().iter().any(|ring| ring.len() > 2) {
            sheet.shape(path, pen, Fill::Plain(Ink::SOFT), obstacle.name.as_str());
        } else {
            let at = map.at(middle(&obstacle.region));
            let [up, right, left] = [DVec2::new(0.0, -1.7), DVec2::new(1.6, 1.2), DVec2::new(-1.6, 1.2)];
            sheet.ring([at + up, at + right, at + left], pen, Fill::Plain(Ink::SOFT));
        }
    }
    sheet.shape(map.rings(&field.boundary), Some(Pen::plain(Ink::BLACK, 1.0)), Fill::None, "boundary");
    if let Some(ends) = field.flight_line_ends {
        sheet.line(map.all(&ends), Pen::plain(Ink::BLACK, 0.7).dashed(&[4.0, 1.5, 0.8, 1.5]));
    }
}

/// Size of names on a map, mm.
const NAME: f64 = 3.3;
/// Length of the arrow that shows which way people look, mm.
const LOOK: f64 = 9.0;
/// More things than this are not all named.
const CROWD: usize = 24;
/// A name wider than this is shortened, mm.
const WIDEST: f64 = 42.0;

/// Letters names where there is room, those nearest to the centre first; returns how many found none.
pub(in crate::report) fn names(sheet: &mut Sheet, map: &MapFrame, field: &Field, taken: &mut Taken) -> usize {
    let words = Lettering::new(NAME).rimmed();
    let areas = field.areas.iter().map(|area| (&area.region, area.name.clone(), words.bold(), 0.0));
    let obstacles = field.obstacles.iter().map(|obstacle| {
        let name = format!("{}, {:.0} m", shortened(&obstacle.name, NAME, true, WIDEST), obstacle.top_m);
        (&obstacle.region, name, words, 4.2)
    });
    let mut all: Vec<_> = areas.chain(obstacles).collect();
    all.sort_by(|(a, ..), (b, ..)| a.nearest(field.centre).distance.total_cmp(&b.nearest(field.centre).distance));
    // So many names would hide what they name.
    let shown = if all.len() > CROWD { CROWD / 3 } else { all.len() };
    let mut left_out = all.len() - shown;
    left_out += usize::from(!circuit::name(sheet, map, field, taken));
    for (region, name, words, off) in all.into_iter().take(shown) {
        let (name, at) = (shortened(&name, NAME, true, WIDEST), map.at(middle(region)));
        let half = width_mm(&name, NAME, words.bold) / 2.0 + 1.0;
        // Names of things at the edge of the frame move inwards.
        let (left, right) = (map.frame.low.x + half, map.frame.high.x - half);
        let x = at.x.clamp(left.min(right), right.max(left));
        let (low, high) = region.bounds();
        let tall = (high.y - low.y) * map.mm_a_metre / 2.0;
        // Ground is named on itself where that will do, a tall thing beside itself; both else further off.
        let inside = (off == 0.0).then(|| [0.0, -0.5, 0.5].map(|part| DVec2::new(x, at.y + part * tall)));
        let over = [-1.0, 1.0].map(|way| DVec2::new(x, at.y + way * (tall + 3.2)));
        let wide = (high.x - low.x) * map.mm_a_metre / 2.0;
        let aside = [1.0, -1.0].map(|way| DVec2::new(at.x + way * (wide + half + 1.5), at.y));
        let further = [6.5, 10.0].map(|more| [-1.0, 1.0].map(|way| DVec2::new(x, at.y + way * (tall + more))));
        let ways = inside.into_iter().flatten().chain(over).chain(aside).chain(further.into_iter().flatten());
        if !taken.letter(sheet, map.frame, &name, words, ways) {
            left_out += 1;
        }
    }
    left_out
}

fn middle(region: &Region) -> DVec2 {
    let (low, high) = region.bounds();
    (low + high) / 2.0
}

/// The four points, told apart by shape and letter.
pub(in crate::report) fn points(sheet: &mut Sheet, map: &MapFrame, field: &Field, taken: &mut Taken) {
    let list = point_list(field);
    for (_, at, _) in &list {
        taken.take(map.at(*at) - DVec2::splat(3.0), map.at(*at) + DVec2::splat(3.0));
    }
    faced(sheet, map.at(field.pilot), field, taken);
    for (name, at, way) in list {
        let at = map.at(at);
        point(sheet, at, name);
        let half = width_mm(name, NAME, true) / 2.0 + 4.0;
        let beside = [way.x * half, -way.x * half].map(|right| at + DVec2::new(right, 0.0));
        let over = [5.0, -5.0, 9.0, -9.0].map(|down| at + DVec2::new(0.0, down));
        let words = Lettering::new(NAME).bold().rimmed();
        taken.letter(sheet, map.frame, name, words, beside.into_iter().chain(over));
    }
}

/// An arrow from the pilot position the way people look, which is the twelve of the clock.
fn faced(sheet: &mut Sheet, pilot: DVec2, field: &Field, taken: &mut Taken) {
    let ahead = field.facing.unit() * DVec2::new(1.0, -1.0);
    let (foot, tip, across) = (pilot + ahead * 3.2, pilot + ahead * LOOK, ahead.perp() * 1.2);
    sheet.line([foot, tip - ahead], Pen::plain(Ink::PAPER, 1.4));
    sheet.line([foot, tip - ahead], Pen::plain(Ink::BLACK, 0.5));
    let head = [tip, tip - ahead * 2.4 + across, tip - ahead * 2.4 - across];
    sheet.ring(head, Some(Pen::plain(Ink::PAPER, 0.3)), Fill::Plain(Ink::BLACK));
    taken.line([foot, tip]);
}

/// Datum, pilot, home and centre with the side on which each is named; points that fall together share one mark.
fn point_list(field: &Field) -> Vec<(&'static str, DVec2, DVec2)> {
    let mut list: Vec<(&'static str, DVec2, DVec2)> = Vec::new();
    let all = [
        ("centre", field.centre, DVec2::X),
        ("home", field.home, DVec2::X),
        ("pilot", field.pilot, DVec2::NEG_X),
        ("datum", DVec2::ZERO, DVec2::NEG_X),
    ];
    for (name, at, way) in all {
        match list.iter_mut().find(|(_, other, _)| other.distance(at) < 0.5) {
            Some(same) => same.0 = both(same.0, name),
            None => list.push((name, at, way)),
        }
    }
    list
}

fn both(first: &str, second: &str) -> &'static str {
    match (first, second) {
        ("centre", "home") => "centre, home",
        ("centre", "pilot") => "centre, pilot",
        ("centre", _) => "centre, datum",
        ("home", "pilot") => "home, pilot",
        ("home", _) => "home, datum",
        ("pilot", _) => "pilot, datum",
        ("centre, home", "pilot") => "centre, home, pilot",
        ("centre, home", _) => "centre, home, datum",
        _ => "several points",
    }
}

fn point(sheet: &mut Sheet, at: DVec2, name: &str) {
    let pen = |width| Some(Pen::plain(Ink::BLACK, width));
    match name.split(',').next().unwrap_or_default() {
        "centre" => {
            sheet.circle(at, 2.0, pen(0.6), Fill::Plain(Ink::PAPER));
            sheet.line([at - DVec2::new(3.0, 0.0), at + DVec2::new(3.0, 0.0)], Pen::plain(Ink::BLACK, 0.5));
            sheet.line([at - DVec2::new(0.0, 3.0), at + DVec2::new(0.0, 3.0)], Pen::plain(Ink::BLACK, 0.5));
        }
        "home" => {
            let roof = [(-1.8, 0.0), (0.0, -2.0), (1.8, 0.0), (1.2, 0.0), (1.2, 1.7), (-1.2, 1.7), (-1.2, 0.0)];
            sheet.ring(roof.map(|(x, y)| at + DVec2::new(x, y)), pen(0.45), Fill::Plain(Ink::PAPER));
        }
        "pilot" => {
            sheet.circle(at - DVec2::new(0.0, 1.4), 0.9, pen(0.4), Fill::Plain(Ink::BLACK));
            let coat = [(0.0, -0.6), (1.2, 1.9), (-1.2, 1.9)].map(|(x, y)| at + DVec2::new(x, y));
            sheet.ring(coat, pen(0.4), Fill::Plain(Ink::BLACK));
        }
        _ => {
            let peg = [(0.0, -1.6), (1.6, 0.0), (0.0, 1.6), (-1.6, 0.0)].map(|(x, y)| at + DVec2::new(x, y));
            sheet.ring(peg, pen(0.45), Fill::Plain(Ink::PAPER));
            sheet.circle(at, 0.4, None, Fill::Plain(Ink::BLACK));
        }
    }
}
