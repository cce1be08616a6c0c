//! Colours, pens and hatches of the prints.
//!
//! Hues are those of Okabe and Ito ("Color Universal Design", 2008), which most colour-blind people can tell apart. None
//! of them says anything alone: a print must read in grey, so a pattern, a shape or a word always says it too.

/// A colour, red, green and blue of one byte each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Ink(pub u32);

impl Ink {
    /// Text and whatever matters most.
    pub const BLACK: Self = Self(0x0000_0000);
    /// Text that explains; still more than seven to one against the paper.
    pub const SOFT: Self = Self(0x0046_4646);
    /// Rules between things.
    pub const RULE: Self = Self(0x00B4_B9BE);
    /// Lines that only guide the eye.
    pub const FAINT: Self = Self(0x00E1_E3E6);
    /// The paper.
    pub const PAPER: Self = Self(0x00FF_FFFF);
    /// Orange.
    pub const ORANGE: Self = Self(0x00E6_9F00);
    /// Sky blue.
    pub const SKY: Self = Self(0x0056_B4E9);
    /// Bluish green.
    pub const GREEN: Self = Self(0x0000_9E73);
    /// Yellow.
    pub const YELLOW: Self = Self(0x00F0_E442);
    /// Blue.
    pub const BLUE: Self = Self(0x0000_72B2);
    /// Vermilion.
    pub const VERMILION: Self = Self(0x00D5_5E00);
    /// Reddish purple.
    pub const PURPLE: Self = Self(0x00CC_79A7);

    /// This colour thinned with paper: 0 leaves the paper white, 1 is the colour itself.
    pub fn thinned(self, share: f64) -> Self {
        let channels = self.0.to_be_bytes().map(|channel| {
            let thinned = 255.0 - (255.0 - f64::from(channel)) * share.clamp(0.0, 1.0);
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 255")]
            let channel = thinned.round() as u32;
            channel
        });
        let [_, red, green, blue] = channels;
        Self((red << 16) | (green << 8) | blue)
    }

    /// As SVG writes it.
    pub(super) fn hex(self) -> String {
        format!("#{:06x}", self.0)
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Colour.
    pub ink: Ink,
    /// Width, mm.
    pub width_mm: f64,
    /// Lengths drawn and left out in turn, mm; empty for a line without gaps.
    pub dash_mm: &'static [f64],
}

impl Pen {
    /// A line without gaps.
    pub const fn plain(ink: Ink, width_mm: f64) -> Self {
        Self { ink, width_mm, dash_mm: &[] }
    }

    /// The same line with gaps.
    pub const fn dashed(self, dash_mm: &'static [f64]) -> Self {
        Self { dash_mm, ..self }
    }
}

/// What a surface is filled with, so that it can be told from others without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Pattern {
    /// Lines rising to the right.
    Rising,
    /// Lines falling to the right.
    Falling,
    /// Both.
    Crossed,
    /// Lines from left to right.
    Level,
    /// Lines from top to bottom.
    Upright,
    /// Level and upright lines.
    Squared,
    /// Fine dots.
    Dotted,
    /// Coarse dots.
    Spotted,
}

/// A pattern, its colour, what shines through, and how coarse it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Hatch {
    /// Pattern.
    pub pattern: Pattern,
    /// Colour of its lines.
    pub ink: Ink,
    /// Colour between them; none leaves what lies below.
    pub ground: Option<Ink>,
    /// From line to line, hundredths of a mm; below 20 it is drawn as 20, which printers can keep apart.
    pub step: u32,
}

/// What fills a surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Fill {
    /// Nothing.
    #[default]
    None,
    /// One colour.
    Plain(Ink),
    /// A hatch.
    Hatch(Hatch),
}

impl Fill {
    /// A pattern of an ink on the same ink thinned.
    pub fn hatched(pattern: Pattern, ink: Ink) -> Self {
        Self::Hatch(Hatch { pattern, ink, ground: Some(ink.thinned(0.25)), step: 150 })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_goes_from_paper_to_the_colour_itself() {
        assert_eq!(Ink::BLUE.thinned(0.0), Ink::PAPER);
        assert_eq!(Ink::BLUE.thinned(1.0), Ink::BLUE);
        assert_eq!(Ink::BLACK.thinned(0.5).hex(), "#808080");
    }
}
