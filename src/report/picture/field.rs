//! The field on paper: outline, patches with their rules, tall things, strip, flight line and the points.

use glam::DVec2;

use crate::field::{Field, Rule};
use crate::geometry::Region;
use crate::report::draw::{Fill, Hatch, Ink, Lettering, MapFrame, Pattern, Pen, Sheet};

/// How ground with a rule is filled. Each rule has its own pattern.
pub(super) const fn ruled(rule: Rule) -> Hatch {
    let (pattern, ink, step) = match rule {
        Rule::Never => (Pattern::Crossed, Ink::BLACK, 240),
        Rule::Above(_) => (Pattern::Level, Ink::BLACK, 240),
        Rule::Avoid => (Pattern::Dotted, Ink::BLACK, 200),
        Rule::Idle => (Pattern::Dotted, Ink::RULE, 400),
    };
    Hatch { pattern, ink, ground: None, step }
}

/// Draws what lies under the answer: land, strip, tall things.
pub(super) fn ground(sheet: &mut Sheet, map: &MapFrame, field: &Field) {
    sheet.shape(map.rings(&field.outline), None, Fill::Plain(Ink::PAPER), "outline");
    if let Some(strip) = field.runway {
        let across = (strip.to - strip.from).normalize_or_zero().perp() * strip.width_m / 2.0;
        let corners = [strip.from + across, strip.to + across, strip.to - across, strip.from - across];
        sheet.ring(map.all(&corners), Some(Pen::plain(Ink::SOFT, 0.2)), Fill::Plain(Ink::FAINT));
    }
}

/// Draws what must be seen through the answer: edges, patches, obstacles, flight line, points, names.
pub(super) fn limits(sheet: &mut Sheet, map: &MapFrame, field: &Field) {
    for patch in &field.patches {
        let pen = Some(Pen::plain(Ink::BLACK, 0.4));
        sheet.shape(map.rings(&patch.region), pen, Fill::Hatch(ruled(patch.rule)), patch.name.as_str());
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
    sheet.shape(map.rings(&field.outline), Some(Pen::plain(Ink::BLACK, 1.0)), Fill::None, "outline");
    if let Some(ends) = field.flight_line_ends {
        sheet.line(map.all(&ends), Pen::plain(Ink::BLACK, 0.7).dashed(&[4.0, 1.5, 0.8, 1.5]));
    }
    names(sheet, map, field);
    points(sheet, map, field);
}

fn names(sheet: &mut Sheet, map: &MapFrame, field: &Field) {
    let words = Lettering::new(3.3).middle().rimmed();
    for patch in &field.patches {
        sheet.words(map.at(middle(&patch.region)) + DVec2::new(0.0, 1.2), patch.name.as_str(), words.bold());
    }
    for obstacle in &field.obstacles {
        let at = map.at(middle(&obstacle.region));
        let name = format!("{}, {:.0} m", obstacle.name, obstacle.top_m);
        let half = crate::report::draw::width_mm(&name, words.size_mm, false) / 2.0;
        // Names of things at the edge of the frame move inwards.
        let (low, high) = (map.frame.low.x + half + 1.0, map.frame.high.x - half - 1.0);
        let x = at.x.clamp(low.min(high), high.max(low));
        sheet.words(DVec2::new(x, at.y - 2.4), name, words);
    }
}

fn middle(region: &Region) -> DVec2 {
    let (low, high) = region.bounds();
    (low + high) / 2.0
}

/// The four points, told apart by shape and letter.
fn points(sheet: &mut Sheet, map: &MapFrame, field: &Field) {
    for (name, at, way) in point_list(field) {
        let at = map.at(at);
        point(sheet, at, name);
        let beside = at + way * 4.0 + DVec2::new(0.0, 1.1);
        let words = Lettering::new(3.3).bold().rimmed();
        let words = if way.x < -0.5 {
            words.end()
        } else if way.x > 0.5 {
            words
        } else {
            words.middle()
        };
        sheet.words(beside, name, words);
    }
}

/// Datum, stand, home and hub with the side on which each is named; points that fall together share one mark.
fn point_list(field: &Field) -> Vec<(&'static str, DVec2, DVec2)> {
    let mut list: Vec<(&'static str, DVec2, DVec2)> = Vec::new();
    let all = [
        ("hub", field.hub, DVec2::X),
        ("home", field.home, DVec2::X),
        ("stand", field.stand, DVec2::NEG_X),
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
        ("hub", "home") => "hub, home",
        ("hub", "stand") => "hub, stand",
        ("hub", _) => "hub, datum",
        ("home", "stand") => "home, stand",
        ("home", _) => "home, datum",
        ("stand", _) => "stand, datum",
        ("hub, home", "stand") => "hub, home, stand",
        ("hub, home", _) => "hub, home, datum",
        _ => "several points",
    }
}

fn point(sheet: &mut Sheet, at: DVec2, name: &str) {
    let pen = |width| Some(Pen::plain(Ink::BLACK, width));
    match name.split(',').next().unwrap_or_default() {
        "hub" => {
            sheet.circle(at, 2.0, pen(0.6), Fill::Plain(Ink::PAPER));
            sheet.line([at - DVec2::new(3.0, 0.0), at + DVec2::new(3.0, 0.0)], Pen::plain(Ink::BLACK, 0.5));
            sheet.line([at - DVec2::new(0.0, 3.0), at + DVec2::new(0.0, 3.0)], Pen::plain(Ink::BLACK, 0.5));
        }
        "home" => {
            let roof = [(-1.8, 0.0), (0.0, -2.0), (1.8, 0.0), (1.2, 0.0), (1.2, 1.7), (-1.2, 1.7), (-1.2, 0.0)];
            sheet.ring(roof.map(|(x, y)| at + DVec2::new(x, y)), pen(0.45), Fill::Plain(Ink::PAPER));
        }
        "stand" => {
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
