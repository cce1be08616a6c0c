//! Pictures of every sheet, to be looked at.

use bevy_egui::egui::Rect;
use peewit::app::field_board::{Chosen, Part};
use peewit::app::{AppCommand, Session, Shown};
use peewit::app::{FieldCommand, FieldSheet, Theme};

use super::session;
use crate::panels::{Stage, painted, stage};
use crate::pictures::{check_not_blank, draw};

fn with(sheet: FieldSheet, part: Option<Part>) -> Session {
    let mut session = session(sheet);
    let chosen = part.map(|part| Chosen { part, corner: None });
    session.apply(AppCommand::Field(FieldCommand::Choose(chosen)), Shown::default().lens);
    session
}

#[test]
fn every_sheet_is_drawn_small_and_large_light_and_dark() {
    let all = FieldSheet::ALL.map(|sheet| (sheet.name(), with(sheet, None)));
    for (name, session) in all.into_iter().chain([("area", with(FieldSheet::Field, Some(Part::Area(0))))]) {
        let mut looks = vec![([1366, 768], Theme::Light), ([1920, 1080], Theme::Dark)];
        if std::env::var_os("PEEWIT_PICTURES").is_some() {
            looks.push(([1366, 2400], Theme::Light));
        }
        for (size, theme) in looks {
            let file = format!("sheet-{name}-{}-{theme:?}.png", size[1]).to_lowercase();
            let Some(png) = draw(session.clone(), size, theme, &file) else { return };
            check_not_blank(&png, size);
        }
    }
}

/// Every line of text on the screen with its rectangle, the room it may use, and the size of its letters.
fn lines(harness: &egui_kittest::Harness<'_, Stage>) -> Vec<(String, Rect, Rect, f32)> {
    let mut found = Vec::new();
    for (text, room, smallest) in painted(harness) {
        for row in &text.galley.rows {
            // In a wrapped row a label begins where the one before ends, and its box at the left.
            let (Some(first), Some(last)) = (row.glyphs.first(), row.glyphs.last()) else { continue };
            let rect = row.rect().with_min_x(row.pos.x + first.pos.x).with_max_x(row.pos.x + last.max_x());
            found.push((row.text(), rect.translate(text.pos.to_vec2()), room, smallest));
        }
    }
    found
}

#[test]
fn no_word_of_a_sheet_is_cut_overlapped_or_too_small() {
    let parts = [None, Some(Part::Area(0)), Some(Part::Boundary), Some(Part::Obstacle(0)), Some(Part::Runway)];
    let sessions = FieldSheet::ALL.map(|sheet| with(sheet, None)).into_iter();
    for session in sessions.chain(parts.map(|part| with(FieldSheet::Field, part))) {
        let sheet = session.sheet;
        let harness = stage(session, super::TALL);
        let lines = lines(&harness);
        // The sheets are on the right; the map draws its own words, and its own tests look after them.
        let right: Vec<_> =
            lines.iter().filter(|(text, rect, ..)| !text.trim().is_empty() && rect.left() > 896.0).collect();
        assert!(right.len() > 20, "{sheet:?} shows only {} texts", right.len());
        for (at, (text, rect, room, size)) in right.iter().enumerate() {
            assert!(*size >= 14.0, "{sheet:?}: \"{text}\" is {size} points high");
            assert!(room.expand(1.0).contains_rect(*rect), "{sheet:?}: \"{text}\" is cut: {rect:?} in {room:?}");
            for (other, overlapped, ..) in &right[at + 1..] {
                let both = rect.shrink(2.0).intersect(overlapped.shrink(2.0));
                assert!(!both.is_positive(), "{sheet:?}: \"{text}\" lies over \"{other}\"");
            }
        }
    }
}
