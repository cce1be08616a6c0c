//! Which prints there are, what each is for, and which studies it needs.

use super::Plan;
use crate::report::draw::{self, Sheet};
use crate::report::{Format, unfit};
use crate::{Error, Result};

/// Dots an inch of a PNG: letters of 2.4 mm stay sharp.
const DOTS_AN_INCH: f64 = 150.0;

/// A print.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Print {
    /// One side of A4 for the flight line.
    Card,
    /// Several pages for a committee.
    Pack,
    /// One side of A4 to be filled in on the day.
    Today,
}

impl Print {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Card, Self::Pack, Self::Today];

    /// What it is called at the keyboard and in the names of files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Card => "card",
            Self::Pack => "pack",
            Self::Today => "today",
        }
    }

    /// What it is for.
    pub const fn purpose(self) -> &'static str {
        match self {
            Self::Card => "field card, one side of A4, for the flight line",
            Self::Pack => "pack for a committee, several pages of A4, with all inputs, results and tests",
            Self::Today => "go or no-go, one side of A4, to be filled in on the day",
        }
    }
}

impl Plan<'_> {
    /// What a print can be written as.
    pub const FORMATS: &'static [Format] = &[Format::Text, Format::Json, Format::Svg, Format::Png];

    /// The pages of a print.
    pub fn pages(&self, print: Print) -> Vec<Sheet> {
        match print {
            Print::Card => vec![self.card()],
            Print::Pack => self.pack(),
            Print::Today => vec![self.today()],
        }
    }

    /// A print in a format; of those that have one page a file, the page of that number, from 1.
    ///
    /// # Errors
    ///
    /// Where there is no such page, or the format is none of [`Plan::FORMATS`].
    pub fn render(&self, print: Print, format: Format, page: usize) -> Result<Vec<u8>> {
        let pages = self.pages(print);
        let one = || {
            let count = pages.len();
            pages
                .get(page.wrapping_sub(1))
                .ok_or_else(|| Error::Asked(format!("there is no page {page}: {} has {count}", print.purpose())))
        };
        Ok(match format {
            Format::Svg => one()?.svg().into_bytes(),
            Format::Png => draw::png(one()?, DOTS_AN_INCH)?,
            _ => return Err(unfit("a print", format)),
        })
    }
}
