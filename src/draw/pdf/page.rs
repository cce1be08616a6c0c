//! The marks of a sheet on a page of PDF, and how its parts are tagged: one figure of all shapes, told in the words of
//! the sheet, then every line of words in the order they were lettered.

use krilla::paint::FillRule;
use krilla::surface::Surface;
use krilla::tagging::{ContentTag, SpanTag, Tag, TagGroup};

use super::shape::{course, shapes};
use super::words::Letters;
use crate::draw::sheet::corners;
use crate::draw::sound::legible;
use crate::draw::tiles::alike;
use crate::draw::{Mark, Path, Sheet};

/// Draws a sheet, in millimetres, and returns its parts.
pub(super) fn draw(surface: &mut Surface, sheet: &Sheet, letters: &Letters) -> TagGroup {
    let told = if sheet.about.is_empty() { &sheet.title } else { &sheet.about };
    let mut figure = TagGroup::new(Tag::Figure(Some(legible(told))));
    let mut lines = Vec::new();
    let mut clips = Vec::new();
    let marks = sheet.sound();
    let drawn = |mark: &Mark| matches!(mark, Mark::Shape { .. });
    for run in marks.chunk_by(|mark, next| drawn(mark) && drawn(next)) {
        match run {
            [Mark::Words { at, words, lettering }] => {
                letters.rim(surface, *at, words, lettering, &mut figure);
                // The sign for what is missing stands for many letters; which, only the line as a whole can tell.
                let told = letters.lack(words, lettering.bold).then_some(words.as_str());
                let tag = surface.start_tagged(ContentTag::Span(SpanTag::empty().with_actual_text(told)));
                letters.draw(surface, *at, words, lettering);
                surface.end_tagged();
                let mut line = TagGroup::new(Tag::P);
                line.push(tag);
                lines.push(line);
            }
            [Mark::Clip(low, high)] => {
                let path = course(&Path::Rings(vec![corners(*low, *high).to_vec()]));
                path.iter().for_each(|path| surface.push_clip_path(path, &FillRule::NonZero));
                clips.push(path.is_some());
            }
            [Mark::Unclip] => {
                if clips.pop() == Some(true) {
                    surface.pop();
                }
            }
            _ => {
                let tag = surface.start_tagged(ContentTag::Other);
                run.chunk_by(alike).for_each(|run| shapes(surface, run, sheet.size_mm));
                surface.end_tagged();
                figure.push(tag);
            }
        }
    }
    let mut section = TagGroup::new(Tag::Section);
    section.push(figure);
    lines.into_iter().for_each(|line| section.push(line));
    section
}
