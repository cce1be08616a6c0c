//! Which prints there are, what each is for, and which studies it needs.

use glam::DVec2;

use super::paper::size;
use super::{pack, paper, phrases, poster};
use crate::brief::Plan;
use crate::draw::{Document, Sheet};
use crate::report::{Format, bytes, unfit};
use crate::{Error, Result, draw};

/// Dots an inch of a PNG: letters of 2.4 mm stay sharp.
pub(in crate::report) const DOTS_AN_INCH: f64 = 150.0;

/// A print.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Print {
    #[default]
    /// One side of A4 for the flight line.
    Card,
    /// A3 for the wall of the clubhouse.
    Poster,
    /// A6 for pilot and spotter.
    Phrases,
    /// The briefing for those who are new to it, a page a step.
    Lesson,
    /// Several pages for a committee.
    Pack,
    /// One side of A4 to be filled in on the day.
    Today,
}

impl Print {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::Card, Self::Today, Self::Poster, Self::Phrases, Self::Lesson, Self::Pack];

    /// What it is called at the keyboard and in the names of files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Card => "card",
            Self::Today => "today",
            Self::Poster => "poster",
            Self::Phrases => "phrases",
            Self::Lesson => "briefing",
            Self::Pack => "pack",
        }
    }

    /// Whether it shows which radius fits.
    pub const fn needs_radius(self) -> bool {
        match self {
            Self::Lesson | Self::Pack | Self::Poster => true,
            Self::Card | Self::Today | Self::Phrases => false,
        }
    }

    /// Whether it shows from where a loss is recovered.
    pub const fn needs_losses(self) -> bool {
        match self {
            Self::Pack => true,
            Self::Card | Self::Today | Self::Poster | Self::Phrases | Self::Lesson => false,
        }
    }

    /// Its paper, mm.
    pub(super) const fn paper(self) -> DVec2 {
        match self {
            Self::Card | Self::Today | Self::Pack => size::A4,
            Self::Lesson => size::A4_LYING,
            Self::Poster => size::A3,
            Self::Phrases => size::A6,
        }
    }

    /// Paper that it leaves free on every side, mm.
    pub(super) const fn edge(self) -> f64 {
        match self {
            Self::Card | Self::Today | Self::Lesson => paper::EDGE,
            Self::Poster => poster::EDGE,
            Self::Phrases => phrases::EDGE,
            Self::Pack => pack::EDGE,
        }
    }

    /// What it is for.
    pub const fn purpose(self) -> &'static str {
        match self {
            Self::Card => "field card, one side of A4, for the flight line",
            Self::Poster => "poster, A3, for the clubhouse",
            Self::Phrases => "card of phrases, A6, for pilot and spotter",
            Self::Lesson => "briefing for those who are new to it, A4",
            Self::Pack => "pack for a committee, A4: a decision paper of four pages and a technical annex",
            Self::Today => "go or no-go, one side of A4, to be filled in on the day",
        }
    }
}

impl Plan<'_> {
    /// What a print can be written as.
    pub const FORMATS: &'static [Format] =
        &[Format::Text, Format::Json, Format::Pdf, Format::Html, Format::Svg, Format::Png];

    /// The pages of a print.
    pub fn pages(&self, print: Print) -> Vec<Sheet> {
        if self.release().stopped() {
            let instead = self.stopped(print, print.paper(), print.edge());
            return match print {
                Print::Card | Print::Poster | Print::Phrases | Print::Today => vec![instead],
                Print::Lesson => std::iter::once(instead).chain(self.lesson()).collect(),
                Print::Pack => self.pack(),
            };
        }
        match print {
            Print::Card => vec![self.card()],
            Print::Poster => vec![self.poster()],
            Print::Phrases => vec![self.phrases()],
            Print::Lesson => self.lesson(),
            Print::Pack => self.pack(),
            Print::Today => vec![self.today()],
        }
    }

    /// A print with its title and what the card says in plain words.
    pub fn document(&self, print: Print) -> Document {
        let name = &self.scenario.file.name;
        Document {
            title: format!("{name}: {}", print.purpose()),
            author: self.scenario.file.recovery.authorised_by.clone(),
            subject: self.stamp(),
            pages: self.pages(print),
            words: self.sections(),
        }
    }

    /// A print in a format; of those that have one page a file, the page of that number, from 1.
    ///
    /// # Errors
    ///
    /// Where there is no such page, or the format is none of [`Plan::FORMATS`].
    pub fn render(&self, print: Print, format: Format, page: usize) -> Result<Vec<u8>> {
        let document = self.document(print);
        let one = || {
            let count = document.pages.len();
            let none = || Error::Asked(format!("there is no page {page}: the {} has {count}", print.purpose()));
            document.pages.get(page.wrapping_sub(1)).ok_or_else(none)
        };
        Ok(match format {
            Format::Text => bytes(self.in_words()),
            Format::Json => bytes(self.json()),
            Format::Pdf => draw::pdf(&document)?,
            Format::Html => bytes(draw::html(&document)),
            Format::Svg => bytes(one()?.svg()),
            Format::Png => draw::png(one()?, DOTS_AN_INCH)?,
            _ => return Err(unfit("a print", format)),
        })
    }
}
