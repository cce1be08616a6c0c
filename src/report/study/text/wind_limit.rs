//! The wind limits as a table to go by.

use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{headed, paragraph, table};
use crate::study::Tally;
use crate::study::verdict::Answer;
use crate::study::wind_limit::{Direction, STEP_MPS, WindLimitStudy};
use crate::units::{Quantity as _, Speed};
use crate::words::{direction, hand_held, limit, metered, number, up_to};

/// The answer as one would say it at the flight line.
pub(super) fn said(study: &WindLimitStudy) -> String {
    let Some(worst) = study.worst.and_then(|index| study.directions.get(index)) else {
        return "Not known: no direction was flown to its end.".into();
    };
    if let Some(told) = too_near(study) {
        return format!("Do not fly this plan in any wind. {told}.");
    }
    let (from, fails) = (direction(worst.from_deg), limit(study, worst));
    let Some(mps) = worst.wind_limit_mps else {
        let undecided = worst.answer(0.0) == Answer::Undecided;
        return match (in_no_wind(study), undecided) {
            (true, _) => "Do not fly this plan in any wind, not even in a calm.".into(),
            (false, true) => format!("With the wind from {from} it is undecided even in a calm: go by the table."),
            (false, false) => format!("Do not fly it with the wind from {from}: even in a calm it fails by {fails}."),
        };
    };
    let hand = worst
        .at_2m_mps
        .map_or_else(String::new, |[low, _]| format!(", {:.1} m/s on a meter held up at 2 m", metered(low)));
    let proof = if study.ask.trials == 0 { " without errors: no trial has said what that is worth" } else { "" };
    let highest = highest(Some(mps));
    let beyond =
        worst.fails_mps.map_or_else(String::new, |mps| format!("; the first to go is {fails}, from {mps} m/s on"));
    format!(
        "It holds in up to {highest} at circle height{hand}, whichever way the wind blows{proof}. The worst direction is \
         {from}{beyond}."
    )
}

/// Where the loss itself lies too near to something for any wind to be flown.
fn too_near(study: &WindLimitStudy) -> Option<String> {
    let near = study.loss_too_near.and_then(|index| study.limits.get(index))?;
    Some(format!(
        "From all {} directions the loss itself is nearer to {} than the buffer",
        study.directions.len(),
        near.name
    ))
}

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
    if let Some(told) = too_near(study) {
        return paragraph("  ", &format!("{told}."));
    }
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
    let row = |found: &Direction| {
        [
            String::new(),
            String::new(),
            highest(found.wind_limit_mps),
            found.plan_mps.map_or_else(|| "none".into(), |mps| format!("{mps:.1} m/s")),
            found.at_2m_mps.map_or_else(String::new, hand_held),
            found.undecided_mps.map_or_else(String::new, |[low, high]| format!("{low} to {high} m/s")),
            beyond(study, found),
            trials(found.held.as_ref()),
            trials(found.failed.as_ref()),
        ]
    };
    // Neighbours that say the same share a line.
    let numbered: Vec<(usize, &Direction)> = study.directions.iter().enumerate().collect();
    let lines = numbered.chunk_by(|(_, a), (_, b)| row(a) == row(b)).filter_map(|group| {
        let (&(start, first), &(end, last)) = (group.first()?, group.last()?);
        let mut line = row(first);
        line[0] = if study.worst.is_some_and(|worst| (start..=end).contains(&worst)) { "worst" } else { "" }.into();
        line[1] = match group.len() {
            1 => direction(first.from_deg),
            count if count == numbered.len() => format!("all {count} directions"),
            _ => format!("{} to {}", number(first.from_deg), direction(last.from_deg)),
        };
        Some(line)
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Left, Right, Right, Right, Left, Left, Left, Left], &rows)
        + &paragraph(
            "  ",
            &format!(
                "Mean wind at circle height: the highest in which the trials say yes, with no whole wind below it of which a \
                 glance of 32 trials says no; then what the trials leave undecided, and the least in which they say no. \
                 Between what holds and what is undecided or fails lies a step of {STEP_MPS} m/s; more trials (--trials) \
                 leave less undecided. Plan without errors: the highest in which the plan as entered keeps every buffer, \
                 nothing drawn. The hand meter's two readings are for the two ends of the range in which the wind may \
                 grow with height: go by the lower one."
            ),
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
    fn the_answer_is_one_sentence_and_equal_directions_share_a_line() {
        let mut study = fixture::wind_limit(&Scenario::tight_strip());
        assert!(said(&study).starts_with("It holds in up to "), "{}", said(&study));
        let one = study.directions[0].clone();
        study.directions.iter_mut().for_each(|found| *found = Direction { from_deg: found.from_deg, ..one.clone() });
        assert!(rows(&study).contains("worst  all 36 directions"), "{}", rows(&study));
        study.directions[35].fails_mps = Some(99.0);
        assert!(rows(&study).contains("0 to 340 deg (NNW)"), "{}", rows(&study));
        study.loss_too_near = Some(0);
        study.directions.iter_mut().for_each(|found| found.wind_limit_mps = None);
        let near =
            format!("From all 36 directions the loss itself is nearer to {} than the buffer.", study.limits[0].name);
        assert!(said(&study).ends_with(&near), "{}", said(&study));
        assert_eq!(sections(&study)[0].lines().nth(1).unwrap().trim(), near);
    }

    #[test]
    fn where_no_wind_holds_there_is_one_line_and_no_table() {
        assert!(nowhere(0).contains("Do not fly this plan in any wind: what fails from every direction"));
        assert!(nowhere(4).contains("Undecided in a calm from 4 of 36 directions; what fails from the others"));
    }
}
