//! From what is left to every limit to the lines of the margins: where that was, how high and in which stretch.

use super::flown::Flown;
use super::{Figures, Gap, Limit, LimitInfo, MarginRow};
use crate::lane::Lane;
use crate::run::Stretch;

/// A row for every limit that applied. `stretch` has one entry a sample where stretches are known.
pub(super) fn rows<L: Lane>(
    flown: &Flown<'_, L>,
    limits: &[LimitInfo],
    (figures, gaps): (&Figures, Vec<Option<Gap>>),
    stretch: Option<&[Stretch]>,
) -> Vec<MarginRow> {
    let never = flown.comes_home() && figures.home_s.is_none();
    let rows = limits.iter().zip(gaps).filter_map(|(info, gap)| {
        let gap = gap?;
        let at = flown.clock.sample(gap.at_s);
        let name = if never && info.limit == Limit::TimeHome { "time home: never on the circle" } else { &info.name };
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
        let sample = ((at + 1e-9) as usize).min(flown.seen.last());
        Some(MarginRow {
            limit: info.limit,
            name: name.into(),
            unit: info.unit,
            margin: gap.margin,
            buffer: gap.buffer,
            verdict: gap.verdict,
            at_s: gap.at_s,
            at: flown.seen.point_between(at),
            height_m: flown.seen.height(at),
            stretch: stretch.map(|stretch| stretch[sample]),
        })
    });
    rows.collect()
}
