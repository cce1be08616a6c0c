//! The wind limits as a table to go by.

use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{headed, paragraph, table};
use crate::study::Tally;
use crate::study::verdict::Answer;
use crate::study::wind_limit::{Direction, WindLimitStudy};
use crate::units::{Quantity as _, Speed};
use crate::words::{direction, limit, up_to};

pub(super) fn sections(study: &WindLimitStudy) -> Vec<String> {
    let table = if in_no_wind(study) { folded(study) } else { rows(study) };
    vec![
        headed("Go up to this wind, by where it comes from", &table),
        headed("In closed form, beside the flown", &closed(study)),
    ]
}

/// Whether from no direction any wind is known to hold.
fn in_no_wind(study: &WindLimitStudy) -> bool {
    !study.directions.is_empty() && study.directions.iter().all(|found| found.wind_limit_mps.is_none())
}

/// One line instead of a column of "none": what fails, and from how many of the directions where not from all.
fn folded(study: &WindLimitStudy) -> String {
    let all = study.directions.len();
    let (no, open): (Vec<_>, Vec<_>) = study.directions.iter().partition(|found| found.answer(0.0) == Answer::No);
    let mut fails: Vec<(&str, usize)> = Vec::new();
    for name in no.iter().map(|found| limit(study, found)) {
        match fails.iter_mut().find(|(known, _)| *known == name) {
            Some((_, count)) => *count += 1,
            None => fails.push((name, 1)),
        }
    }
    let told = |&(name, from): &(&str, usize)| {
        if from == all { name.into() } else { format!("{name} ({from} of {all} directions)") }
    };
    let what = fails.iter().map(told).collect::<Vec<String>>().join(", ");
    let line = if open.is_empty() {
        format!("Do not fly this plan in any wind: what fails from every direction, in a calm too, is {what}.")
    } else {
        let open = open.len();
        let rest = if no.is_empty() { String::new() } else { format!("; what fails from the others is {what}") };
        format!(
            "Do not fly this plan in any wind: in none it is known to hold. Undecided in a calm from {open} of {all} directions{rest}."
        )
    };
    paragraph("  ", &line)
}

fn rows(study: &WindLimitStudy) -> String {
    let head = [
        "",
        "wind from",
        "at the circle",
        "plan without errors",
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
            highest(found.wind_limit_mps),
            found.plan_mps.map_or_else(|| "none".into(), |mps| format!("{mps:.1} m/s")),
            found.at_2m_mps.map_or_else(String::new, |[low, high]| format!("{low:.1} to {high:.1} m/s")),
            found.undecided_mps.map_or_else(String::new, |[low, high]| format!("{low} to {high} m/s")),
            beyond(study, found),
            trials(found.held.as_ref()),
            trials(found.failed.as_ref()),
        ]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Left, Right, Right, Right, Left, Left, Left, Left], &rows)
        + &paragraph(
            "  ",
            "Mean wind at circle height: the highest in which the trials say yes, with no whole wind below it of which a \
             glance of 64 trials says no; then what the trials leave undecided, and the least in which they say no. Between \
             what holds and what is undecided or fails lies a step of 0.25 m/s. Plan without errors: the highest in which the plan \
             as entered keeps every buffer, nothing drawn. The hand meter's two readings are for the two ends of the range \
             in which the wind may grow with height: go by the lower one.",
        )
}

fn highest(wind_limit_mps: Option<f64>) -> String {
    match wind_limit_mps {
        None => "none known".into(),
        Some(mps) => {
            let knots = Speed::new(mps).in_unit("kt").unwrap_or(f64::NAN);
            format!("{mps} m/s ({knots:.0} kt)")
        }
    }
}

fn beyond(study: &WindLimitStudy, found: &Direction) -> String {
    match found.fails_mps {
        Some(mps) => format!("{mps} m/s: {}", limit(study, found)),
        None => "not flown: that is the return speed".into(),
    }
}

fn trials(tally: Option<&Tally>) -> String {
    tally.map_or_else(String::new, |tally| {
        format!("{} and {} of {}", tally.trials - tally.crossed, tally.kept, tally.trials)
    })
}

fn closed(study: &WindLimitStudy) -> String {
    let most = format!("The maximum bank holds this radius {}, whatever the field.", up_to(study.bank_mps));
    paragraph("  ", &most)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::fixture;
    use crate::run::Scenario;

    /// The table of a study in which no direction holds, the first `open` of 36 undecided and one failing by another limit.
    fn nowhere(open: usize) -> String {
        let mut study = fixture::wind_limit(&Scenario::tight_strip());
        for (index, found) in study.directions.iter_mut().enumerate() {
            (found.wind_limit_mps, found.held, found.limit) = (None, None, Some(usize::from(index == 35)));
            (found.fails_mps, found.undecided_mps) =
                if index < open { (Some(1.0), Some([0.0, 0.75])) } else { (Some(0.0), None) };
        }
        let [first, second] = [0, 1].map(|limit| study.limits[limit].name.clone());
        let told = sections(&study)[0].split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(!told.contains("none known") && told.contains(&format!("{second} (1 of 36 directions)")), "{told}");
        assert!(told.contains(&format!("{first} ({} of 36 directions)", 35 - open)), "{told}");
        told
    }

    #[test]
    fn where_no_wind_holds_there_is_one_line_and_no_table() {
        assert!(nowhere(0).contains("Do not fly this plan in any wind: what fails from every direction"));
        assert!(nowhere(4).contains("Undecided in a calm from 4 of 36 directions; what fails from the others"));
    }
}
