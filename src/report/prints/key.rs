//! What the lines and hatches on the map mean.

use glam::DVec2;

use super::plot::{COMMANDED, ENVELOPE, HEADING_HOME, LAP, SATURATED, SUN, Shown, TAKE_OVER, TAKE_OVER_CORE};
use crate::brief::Plan;
use crate::draw::{Fill, Frame, Hatch, Ink, Lettering, Pen, Sheet};
use crate::field::Rule::{Above, Caution, Idle, NoFly, People};
use crate::report::picture::losses::KEEP_INSIDE;
use crate::report::picture::{circuit, field};
use crate::study::keep_inside::KeepInside;

/// A sign of the key.
#[derive(Debug, Clone, Copy)]
enum Sign {
    Line(Pen),
    Arc,
    Area(Hatch),
}

impl Plan<'_> {
    /// What the lines on the map mean, each with its sign, along a strip; returns the lower edge.
    pub(super) fn key(&self, sheet: &mut Sheet, room: Frame, shown: Shown, left_out: usize) -> f64 {
        let saturated = self.lap.as_ref().is_some_and(|lap| lap.saturated.contains(&true));
        let circles = self.lap.is_some();
        let ring = self.studies.envelope.is_some_and(|study| study.rings.iter().any(|ring| ring.share >= 0.9));
        let keep = self.studies.line().and_then(KeepInside::drawn).is_some_and(|line| !line.bounds.is_empty());
        let rules =
            |rule: fn(&crate::field::Rule) -> bool| self.scenario.field.areas.iter().map(|area| area.rule).find(rule);
        let signs: Vec<(Sign, &str)> = [
            (circles, Sign::Line(LAP), "as it is flown"),
            (saturated, Sign::Line(SATURATED), "blown wide: bank at its limit"),
            (circles && self.take_over.is_some() && shown.take_over, Sign::Arc, "take over"),
            (true, Sign::Line(COMMANDED), "as commanded"),
            (ring && shown.envelope, Sign::Line(ENVELOPE), "90 % of whole recoveries inside"),
            (keep && shown.keep_inside, Sign::Line(KEEP_INSIDE), "keep inside"),
            (shown.path, Sign::Line(HEADING_HOME), if circles { "way home" } else { "the way it goes" }),
            (self.scenario.field.circuit.is_some(), Sign::Line(circuit::LINE), "circuit"),
            (shown.sun && self.glare.sector.is_some(), Sign::Area(SUN), "into the sun"),
        ]
        .into_iter()
        .filter_map(|(there, sign, words)| there.then_some((sign, words)))
        .chain(rules(|rule| matches!(rule, NoFly)).map(|rule| (Sign::Area(field::ruled(rule)), "no-fly")))
        .chain(rules(|rule| matches!(rule, Above(_))).map(|rule| (Sign::Area(field::ruled(rule)), "only above")))
        .chain(rules(|rule| matches!(rule, People)).map(|rule| (Sign::Area(field::ruled(rule)), "people")))
        .chain(rules(|rule| matches!(rule, Caution)).map(|rule| (Sign::Area(field::ruled(rule)), "caution")))
        .chain(rules(|rule| matches!(rule, Idle)).map(|rule| (Sign::Area(field::ruled(rule)), "no rule today")))
        .collect();
        let size = 3.1;
        let (mut x, mut y) = (room.low.x, room.low.y + 3.0);
        let left_out = match left_out {
            0 => String::new(),
            1 => "One name found no room.".into(),
            more => format!("{more} names found no room."),
        };
        let words = signs.iter().map(|(sign, words)| (Some(sign), (*words).to_owned()));
        for (sign, words) in words.chain([(None, left_out)].into_iter().filter(|(_, words)| !words.is_empty())) {
            let lead = if sign.is_some() { 9.5 } else { 0.0 };
            let wide = lead + crate::draw::width_mm(&words, size, false) + 4.0;
            if x + wide - 4.0 > room.high.x && x > room.low.x {
                (x, y) = (room.low.x, y + 4.6);
            }
            let at = DVec2::new(x, y);
            match sign {
                Some(Sign::Line(pen)) => {
                    sheet.line([at + DVec2::new(0.0, -1.0), at + DVec2::new(8.0, -1.0)], *pen);
                }
                Some(Sign::Arc) => {
                    let ends = [at + DVec2::new(1.5, -1.0), at + DVec2::new(7.0, -1.0)];
                    sheet.line(ends, TAKE_OVER);
                    sheet.line(ends, TAKE_OVER_CORE);
                    sheet.line(ends, LAP);
                }
                Some(Sign::Area(hatch)) => {
                    let low = at + DVec2::new(0.0, -2.9);
                    let pen = Some(Pen::plain(Ink::BLACK, 0.25));
                    sheet.rectangle(low, low + DVec2::new(8.0, 3.6), pen, Fill::Hatch(*hatch));
                }
                None => {}
            }
            sheet.words(at + DVec2::new(lead, 0.0), words, Lettering::new(size));
            x += wide;
        }
        y + 1.6
    }
}
