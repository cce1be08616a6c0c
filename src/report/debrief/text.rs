//! A debrief for people: what was read, what was found in it, the wind, what steers it, what was predicted, what it corrects.

use super::{DebriefReport, LogDebrief};
use crate::VERSION;
use crate::debrief::Debriefed;
use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{headed, listed, paragraph, table};
use crate::report::text::{foot, margin_lines};
use crate::words::{Units, debrief as words};

/// The whole report.
pub(super) fn debrief(about: &DebriefReport<'_>) -> String {
    let mut sections = vec![
        format!("Peewit {VERSION}: what was flown against what was said\n"),
        paragraph("", &words::standing(&about.tally())),
    ];
    for log in about.logs {
        sections.extend(one_log(about, log));
    }
    let lines: Vec<_> = about.corrections().iter().map(words::correction).collect();
    let head = if about.logs.len() > 1 {
        "What they would correct in the sheet, together"
    } else {
        "What it would correct in the sheet"
    };
    sections.push(listed(&format!("{head}, with your consent"), &lines));
    sections.push(paragraph("", &about.stamp()));
    sections.push(foot());
    sections.into_iter().filter(|section| !section.is_empty()).collect::<Vec<_>>().join("\n")
}

fn one_log(about: &DebriefReport<'_>, log: &LogDebrief) -> Vec<String> {
    let track = &log.log.track;
    let lasts_s = track.time_s().last().copied().unwrap_or_default();
    let day = log.log.day.as_deref().unwrap_or("a day that it does not tell");
    let read = format!("{} fixes over {lasts_s:.0} s, of {day}.", track.time_s().len());
    let mut sections = vec![
        headed(&format!("Log {}", log.log.name), &paragraph("  ", &read)),
        listed("What was repaired or taken for granted", &log.log.repairs),
    ];
    if log.recoveries.is_empty() {
        sections.push(paragraph("  ", "No recovery was found in it: nowhere three quarters of a lap on the circle."));
    }
    for (number, one) in log.recoveries.iter().enumerate() {
        sections.extend(recovery(about, log, number + 1, one));
    }
    sections.push(listed("Wind by height, from whole turns", &words::by_height(&log.heights, &Units::default())));
    sections
}

fn recovery(about: &DebriefReport<'_>, log: &LogDebrief, number: usize, one: &Debriefed) -> Vec<String> {
    let units = Units::default();
    let time = log.log.track.time_s();
    let at = |sample: usize| format!("{:.0} s", time[sample.min(time.len() - 1)]);
    let marks = &one.marks;
    let told = [
        Some(format!("lost at {}", at(marks.lost))),
        marks.turned_home.map(|sample| format!("heading home from {}", at(sample))),
        marks.joined.map(|sample| format!("joining from {}", at(sample))),
        marks.circling.as_ref().map(|range| format!("on the circle from {} to {}", at(range.start), at(range.end - 1))),
        marks.landed.map(|sample| format!("on the ground from {}", at(sample))),
    ];
    let mut lines = paragraph("  ", &format!("{}.", told.into_iter().flatten().collect::<Vec<_>>().join(", ")));
    lines += &paragraph(
        "  ",
        &match &one.wind {
            Ok(fit) => format!("From the ground track: {}.", words::wind(fit, &units)),
            Err(why) => format!("The wind can't be told: {why}."),
        },
    );
    for (lap, (_, fit)) in one.laps.iter().enumerate().filter(|_| one.laps.len() > 1) {
        if let Ok(fit) = fit {
            lines += &paragraph("    ", &format!("lap {}: {}", lap + 1, words::wind(fit, &units)));
        }
    }
    match &one.steering {
        Ok(steering) => {
            lines += &paragraph("  ", &format!("By the join and the laps {}.", words::steers(steering)));
            for candidate in &steering.candidates {
                lines += &paragraph("    ", &words::candidate(candidate, &units));
            }
        }
        Err(why) => lines += &paragraph("  ", &format!("What steers it can't be told: {why}.")),
    }
    let head = ["", "predicted", "flown", "off"].map(String::from);
    let rows: Vec<_> = std::iter::once(head)
        .chain(
            words::compared(one, &units)
                .into_iter()
                .map(|line| [line.name.into(), line.predicted, line.flown, line.off]),
        )
        .collect();
    lines += &table([Left, Right, Right, Right], &rows);
    for line in one.learned.as_ref().map_or_else(Vec::new, |learned| words::learned(learned, &units)) {
        lines += &paragraph(
            "  ",
            &match line.told {
                Ok(told) => format!("{}: {told}.", line.name),
                Err(why) => format!("{}: can't be told, {why}.", line.name),
            },
        );
    }
    lines += &paragraph("  ", words::held(one));
    let mut sections = vec![headed(&format!("Recovery {number}"), &lines)];
    if about.places {
        sections.push(headed("How near the flight came", &margin_lines(&one.margins.rows)));
    }
    sections
}
