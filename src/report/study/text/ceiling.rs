//! The wind ceilings as a table to go by.

use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{paragraph, table};
use crate::report::study::words::{direction, limit, up_to};
use crate::report::text::headed;
use crate::study::Tally;
use crate::study::ceiling::{CeilingStudy, Direction};
use crate::units::{Quantity as _, Speed};

pub(super) fn sections(study: &CeilingStudy) -> Vec<String> {
    vec![
        headed("Go up to this wind, by where it comes from", &rows(study)),
        headed("In closed form, beside the flown", &closed(study)),
    ]
}

fn rows(study: &CeilingStudy) -> String {
    let head = [
        "",
        "wind from",
        "at the circle",
        "plan alone",
        "hand meter at 2 m",
        "undecided",
        "fails",
        "trials at the limit: inside, buffers kept",
        "where it fails",
    ]
    .map(String::from);
    let lines = study.directions.iter().enumerate().map(|(index, found)| {
        [
            if study.worst == Some(index) { "worst".into() } else { String::new() },
            direction(found.from_deg),
            highest(found.ceiling_mps),
            found.plan_mps.map_or_else(|| "none".into(), |mps| format!("{mps:.1} m/s")),
            found.at_2m_mps.map_or_else(String::new, |[low, high]| format!("{low:.1} to {high:.1} m/s")),
            found.undecided_mps.map_or_else(String::new, |[low, high]| format!("{low} to {high} m/s")),
            beyond(study, found),
            cases(found.held.as_ref()),
            cases(found.failed.as_ref()),
        ]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Left, Right, Right, Right, Left, Left, Left, Left], &rows)
        + &paragraph(
            "  ",
            "Mean wind at circle height: the highest in which the trials say yes, with no whole wind below it of which a \
             glance of 64 trials says no; then what the trials leave undecided, and the least in which they say no. Between \
             what holds and what is undecided or fails lies a step of 0.25 m/s. Plan alone: the highest in which the plan \
             as written keeps every buffer, nothing drawn. The hand meter's two readings are for the two ends of the range \
             in which the wind may grow with height: go by the lower one.",
        )
}

fn highest(ceiling_mps: Option<f64>) -> String {
    match ceiling_mps {
        None => "none known".into(),
        Some(mps) => {
            let knots = Speed::new(mps).in_unit("kt").unwrap_or(f64::NAN);
            format!("{mps} m/s ({knots:.0} kt)")
        }
    }
}

fn beyond(study: &CeilingStudy, found: &Direction) -> String {
    match found.fails_mps {
        Some(mps) => format!("{mps} m/s: {}", limit(study, found)),
        None => "not flown: that is the return speed".into(),
    }
}

fn cases(tally: Option<&Tally>) -> String {
    tally.map_or_else(String::new, |tally| {
        format!("{} and {} of {}", tally.cases - tally.crossed, tally.kept, tally.cases)
    })
}

fn closed(study: &CeilingStudy) -> String {
    let most = format!("The bank limit holds this radius {}, whatever the field.", up_to(study.bank_mps));
    paragraph("  ", &most)
}
