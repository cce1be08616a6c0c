//! How a cell is filled: the outcomes as on paper, the shares from pale to dark, each with a pattern of its own.

use bevy_egui::egui::Color32;

use crate::app::look::theme::Palette;
use crate::draw::{Fill, Hatch, Ink, Pattern};
use crate::margins::Outcome;
use crate::report::picture::look as on_paper;
use crate::study::stats::Share;

/// Points of the screen to a hundredth of a millimetre of paper.
const POINTS: f32 = 0.045;

/// How a cell is filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CellStyle {
    /// Colour of the ground.
    pub ground: Color32,
    /// Pattern, its colour, and points from line to line.
    pub hatch: Option<(Pattern, Color32, f32)>,
}

/// The look of an outcome: that of the prints. Only ground without a hatch, bright on paper, is darker on a dark screen.
pub(crate) fn outcome_look(outcome: Outcome, palette: &Palette) -> CellStyle {
    match on_paper(outcome) {
        Fill::Hatch(Hatch { pattern, ink, ground, step }) => {
            #[allow(clippy::cast_precision_loss, reason = "a few hundred")]
            let step = step as f32 * POINTS;
            CellStyle { ground: colour(ground.unwrap_or(Ink::PAPER)), hatch: Some((pattern, colour(ink), step)) }
        }
        Fill::Plain(ink) => CellStyle { ground: plain(colour(ink), palette), hatch: None },
        Fill::None => CellStyle { ground: plain(Color32::WHITE, palette), hatch: None },
    }
}

fn plain(bright: Color32, palette: &Palette) -> Color32 {
    if palette.dark { Color32::from_rgb(0x1F, 0x4D, 0x3E) } else { bright }
}

fn colour(ink: Ink) -> Color32 {
    let [_, red, green, blue] = ink.0.to_be_bytes();
    Color32::from_rgb(red, green, blue)
}

/// How many of a cell's flights crossed no limit, in steps that can be told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum ShareStep {
    /// Every one flown.
    Every,
    /// Three quarters or more.
    Most,
    /// Half or more.
    Half,
    /// A quarter or more.
    Some,
    /// Fewer.
    Few,
    /// Not one flown.
    None,
    /// No trial was flown there: nothing is known but what the plan as entered comes to.
    Unknown,
}

impl ShareStep {
    /// All of them, the best first, and last where nobody knows.
    pub(crate) const ALL: [Self; 7] =
        [Self::Every, Self::Most, Self::Half, Self::Some, Self::Few, Self::None, Self::Unknown];

    /// That of a share; none before the first flight.
    pub(crate) fn of(share: Share) -> Option<Self> {
        let seen = share.share()?;
        Some(match seen {
            _ if share.count >= share.of => Self::Every,
            _ if share.count == 0 => Self::None,
            seen if seen >= 0.75 => Self::Most,
            seen if seen >= 0.5 => Self::Half,
            seen if seen >= 0.25 => Self::Some,
            _ => Self::Few,
        })
    }

    /// Its name.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Every => "every flight of the cell",
            Self::Most => "three quarters or more",
            Self::Half => "half or more",
            Self::Some => "a quarter or more",
            Self::Few => "fewer than a quarter",
            Self::None => "not one flight",
            Self::Unknown => "no trial flown: not known",
        }
    }

    /// Its look.
    pub(crate) fn look(self, palette: &Palette) -> CellStyle {
        let (ink, paper) = (Color32::BLACK, Color32::WHITE);
        let rgb = Color32::from_rgb;
        let (ground, hatch) = match self {
            Self::Every => return outcome_look(Outcome::Recovered, palette),
            Self::Most => (rgb(0xD3, 0xE6, 0xF3), (Pattern::Dotted, ink, 8.0)),
            Self::Half => (rgb(0x9F, 0xCB, 0xE8), (Pattern::Falling, ink, 9.0)),
            Self::Some => (rgb(0x56, 0xA5, 0xD6), (Pattern::Rising, ink, 6.0)),
            Self::Few => (rgb(0x00, 0x62, 0x9B), (Pattern::Crossed, paper, 9.0)),
            Self::None => (rgb(0x30, 0x30, 0x30), (Pattern::Level, paper, 6.5)),
            Self::Unknown => (rgb(0xB8, 0xB8, 0xB8), (Pattern::Upright, ink, 9.0)),
        };
        CellStyle { ground, hatch: Some(hatch) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::theme::Theme;

    #[test]
    fn every_outcome_and_every_step_can_be_told_apart_without_colour() {
        for theme in [Theme::Light, Theme::Dark] {
            let palette = theme.palette();
            let outcomes = Outcome::ALL.map(|outcome| outcome_look(outcome, palette)).to_vec();
            let steps = ShareStep::ALL.map(|step| step.look(palette)).to_vec();
            for looks in [outcomes, steps] {
                let patterns: Vec<_> = looks.iter().map(|look| look.hatch.map(|(pattern, ..)| pattern)).collect();
                for (index, pattern) in patterns.iter().enumerate() {
                    assert!(!patterns[index + 1..].contains(pattern), "{pattern:?} twice");
                }
            }
        }
    }

    #[test]
    fn steps_are_those_of_the_share_seen() {
        #[track_caller]
        fn check(count: u64, of: u64, expected: Option<ShareStep>) {
            assert_eq!(ShareStep::of(Share { count, of }), expected);
        }
        check(8, 8, Some(ShareStep::Every));
        check(71, 72, Some(ShareStep::Most));
        check(6, 8, Some(ShareStep::Most));
        check(4, 8, Some(ShareStep::Half));
        check(2, 8, Some(ShareStep::Some));
        check(1, 8, Some(ShareStep::Few));
        check(0, 8, Some(ShareStep::None));
        check(0, 0, None);
    }
}
