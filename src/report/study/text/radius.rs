//! The radius study in words and columns.

use crate::margins::{Gap, LimitInfo, Score, Verdict};
use crate::recovery::{Guidance, Turn};
use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{headed, paragraph, table};
use crate::study::Tally;
use crate::study::radius::{Choice, RadiusPoint, RadiusRange, RadiusStudy, Remedy, holds};
use crate::study::stats::{Share, percent_interval};
use crate::study::verdict::Answer;
use crate::words::{self, counted, end, met, number, outcomes, span, up_to, usable, way};

pub(super) fn sections(study: &RadiusStudy) -> Vec<String> {
    let mut sections = vec![headed("Usable radii", &ends(study))];
    if let Some(choice) = &study.choice {
        sections.push(headed("The circle that holds best comes closest to", &closest(study, choice)));
    }
    if let Some(choice) = &study.least_bad {
        sections.push(headed("The circle nearest to it comes closest to", &closest(study, choice)));
    }
    if study.usable.mean.is_empty() || study.usable.gust.is_empty() {
        sections.push(headed("What would help", &remedies(study)));
    }
    sections.extend(
        study
            .ask
            .turns
            .iter()
            .map(|turn| headed(&format!("Radius by radius, {}", words::turn(*turn)), &curve(study, *turn))),
    );
    sections.push(headed("Room budget", &room(study)));
    sections.push(headed("In closed form, beside the flown", &closed(study)));
    let (radius, turn) = study.looked_at;
    sections.push(headed(&format!("What moves it, at {}", way(radius, turn)), &sensitivity(study)));
    sections.push(headed(&format!("The guidance family, at {}", way(radius, turn)), &family(study)));
    sections.push(headed("The best centre found", &centre(study)));
    sections
}

fn ends(study: &RadiusStudy) -> String {
    let usable = &study.usable;
    let written =
        [("without errors, mean wind", &usable.mean), ("without errors, gust wind all the time", &usable.gust)];
    let drawn = [("by the trials", &usable.trials), ("undecided by the trials", &usable.undecided)];
    let drawn = if study.ask.judges() { &drawn[..] } else { &[] };
    let (mut text, mut none) = (String::new(), Vec::new());
    for (name, list) in drawn.iter().chain(&written) {
        let mut bare = Vec::new();
        for turn in &study.ask.turns {
            let those: Vec<&RadiusRange> = list.iter().filter(|range| range.turn == *turn).collect();
            if those.is_empty() {
                bare.push(words::turn(*turn));
            }
            for range in those {
                let [low, high] = [range.low.radius_m, range.high.radius_m];
                let ends = format!(
                    "{}. Below {} m: {}. Above {} m: {}.",
                    span([low, high]),
                    number(low),
                    end(&range.low),
                    number(high),
                    end(&range.high)
                );
                text += &paragraph(&format!("  {name}, {}: ", words::turn(*turn)), &ends);
            }
        }
        if bare.len() == study.ask.turns.len() {
            none.push((*name).to_owned());
        } else if !bare.is_empty() {
            none.push(format!("{name}, {}", bare.join(", ")));
        }
    }
    if none.is_empty() { text } else { text + &paragraph("  none: ", &none.join("; ")) }
}

fn closest(study: &RadiusStudy, choice: &Choice) -> String {
    let head = ["limit", "in the mean wind", "in the gust wind", "trials that cross it", "inside its buffer"];
    let head = head.map(String::from);
    let lines = choice.closest.iter().take(5).filter_map(|&index| {
        let info = study.limits.get(index)?;
        let tally = choice.trials.limits.get(index);
        let trials = |count: u64| counted(count, choice.trials.trials, study.ask.confidence);
        let said = |score: &Score| score.gaps.get(index).map_or_else(String::new, |gap| margin_text(info, gap));
        Some([
            info.name.clone(),
            said(&choice.mean),
            said(&choice.gust),
            tally.map_or_else(String::new, |tally| trials(tally.crossed)),
            tally.map_or_else(String::new, |tally| trials(tally.inside_buffer)),
        ])
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    let outcomes = outcomes(&choice.trials);
    let outcomes = if outcomes.is_empty() { String::new() } else { paragraph("  Outcomes of the trials: ", &outcomes) };
    table([Left, Left, Left, Left, Left], &rows) + &outcomes + &by_law(&choice.trials)
}

/// What the trials under each guidance law came to: nobody knows the law of a jet until a log has ruled the others out.
fn by_law(tally: &Tally) -> String {
    let flown = Guidance::ALL.into_iter().zip(tally.by_law).filter(|(_, law)| law.trials > 0);
    let told: Vec<String> = flown
        .map(|(guidance, law)| {
            format!("{} met every margin in {} of {}, crossed in {}", name(guidance), law.kept, law.trials, law.crossed)
        })
        .collect();
    if told.is_empty() { String::new() } else { paragraph("  By guidance law: ", &told.join("; ")) }
}

fn margin_text(info: &LimitInfo, gap: &Gap) -> String {
    let words = words::gap(info, gap);
    if gap.verdict == Verdict::Crossed { format!("CROSSED {words}") } else { words }
}

/// The changes that open something, each alone; what else was tried in one line.
fn remedies(study: &RadiusStudy) -> String {
    let opens = |remedy: &&Remedy| !remedy.usable.is_empty() || !remedy.gust.is_empty();
    let helpful: Vec<&Remedy> = study.remedies.iter().filter(opens).collect();
    let mut vain: Vec<&str> = Vec::new();
    for kind in study.remedies.iter().map(|remedy| remedy.step.kind()) {
        if !vain.contains(&kind) && helpful.iter().all(|remedy| remedy.step.kind() != kind) {
            vain.push(kind);
        }
    }
    let vain = match vain.as_slice() {
        [] => String::new(),
        vain => paragraph("  ", &format!("Changed alone, without success: {}.", vain.join(", "))),
    };
    if helpful.is_empty() {
        return if vain.is_empty() { paragraph("  ", "Nothing that was tried.") } else { vain };
    }
    let head = ["change", "usable radii in the mean wind", "in the gust wind"].map(String::from);
    let lines =
        helpful.iter().map(|remedy| [remedy.change.clone(), usable(&remedy.usable, None), usable(&remedy.gust, None)]);
    table([Left, Left, Left], &std::iter::once(head).chain(lines).collect::<Vec<_>>()) + &vain
}

/// What a radius fails by in either wind, where neighbours that fail alike may share a line; none where it holds, or
/// may.
fn failing<'a>(study: &'a RadiusStudy, point: &'a RadiusPoint) -> Option<[String; 2]> {
    let no = point.verdict.map_or(point.trials.trials == 0, |verdict| verdict.answer == Answer::No);
    let by = |score: &Score| match words::missed(&study.limits, score) {
        Some((info, gap)) if gap.verdict == Verdict::Crossed => Some(format!("{} crossed", info.name)),
        Some((info, _)) => Some(format!("{} inside its buffer", info.name)),
        None => met(&study.limits, score),
    };
    Some([by(&point.mean)?, by(&point.gust)?]).filter(|_| no)
}

fn curve(study: &RadiusStudy, turn: Turn) -> String {
    let head = [
        "radius",
        "furthest: mean",
        "gust",
        "mean wind",
        "gust wind",
        "trials",
        "stay inside",
        "keep the buffers",
        "hold the circle",
        "answer",
    ]
    .map(String::from);
    let flown: Vec<&RadiusPoint> = study.points.iter().filter(|point| point.turn == turn).collect();
    let alike = flown.chunk_by(|a, b| failing(study, a).is_some_and(|by| Some(by) == failing(study, b)));
    let lines = alike.flat_map(|group| match (group, group.first().and_then(|first| failing(study, first))) {
        ([first, .., last], Some([mean, gust])) => {
            let mut row: [String; 10] = Default::default();
            row[0] = span([first.radius_m, last.radius_m]);
            (row[3], row[4], row[9]) = (mean, gust, answer(first));
            vec![row]
        }
        _ => group.iter().map(|point| row(study, point)).collect(),
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Right, Right, Right, Left, Left, Right, Left, Left, Left, Left], &rows)
}

/// What a radius came to.
fn row(study: &RadiusStudy, point: &RadiusPoint) -> [String; 10] {
    let distance = |score: &Score| match score.furthest_m {
        None => "no lap".into(),
        Some(furthest) => format!("{furthest:.0} m ({:+.0})", (furthest - point.radius_m).round() + 0.0),
    };
    let said = |score: &Score, usable: &[RadiusRange]| match met(&study.limits, score) {
        Some(missed) => missed,
        None if holds(usable, point.radius_m, point.turn) => "usable".into(),
        None => "margins met, circle not held".into(),
    };
    let share = |count| match point.trials.trials {
        0 => String::new(),
        of => percent_interval(study.demand.interval(Share { count, of })),
    };
    [
        format!("{} m", number(point.radius_m)),
        distance(&point.mean),
        distance(&point.gust),
        said(&point.mean, &study.usable.mean),
        said(&point.gust, &study.usable.gust),
        point.trials.trials.to_string(),
        share(point.trials.trials - point.trials.crossed),
        share(point.trials.kept),
        share(point.trials.held),
        answer(point),
    ]
}

fn answer(point: &RadiusPoint) -> String {
    point.verdict.map_or("not judged", |verdict| verdict.answer.name()).into()
}

fn room(study: &RadiusStudy) -> String {
    if study.budget.is_empty() {
        return String::new();
    }
    let total: f64 = study.budget.iter().map(|part| part.metres).sum();
    let line = |name: &str, metres: f64, origin: &str| [name.to_owned(), format!("{metres:.1} m"), origin.to_owned()];
    let mut rows: Vec<_> = study.budget.iter().map(|part| line(part.name, part.metres, &part.origin)).collect();
    rows.push(line("together", total, ""));
    rows.push(line("distance from the centre", study.free_m, &format!("to the nearest limit: {}", study.free_to)));
    rows.push(line("left for the circle", study.free_m - total, ""));
    let falls =
        format!("Beside these, not one of them: what falls from the circle may land {:.0} m away.", study.falls_m);
    table([Left, Right, Left], &rows) + &paragraph("  ", &falls)
}

fn closed(study: &RadiusStudy) -> String {
    let form = &study.closed;
    let [still, mean, gust] = form.smallest_m;
    let [slow, fast] = form.speed_window_mps;
    let window = if slow <= fast {
        format!("{slow:.1} to {fast:.1} m/s")
    } else {
        format!("none: at least {slow:.1} m/s for stall and wind, at most {fast:.1} m/s for the maximum bank")
    };
    let rows = [
        (
            "smallest radius the maximum bank holds",
            format!("{still:.0} m in still air, {mean:.0} m in the mean wind, {gust:.0} m in the gusts"),
        ),
        ("largest circle that keeps its buffer", format!("{:.0} m: {}", form.largest_m, form.largest_reason)),
        ("airspeeds that hold the plan's radius", window),
        ("the maximum bank holds the plan's radius", up_to(form.wind_limit_mps)),
        ("flown: usable radii in the mean wind", usable(&study.usable.mean, None)),
    ];
    table([Left, Left], &rows.map(|(name, value)| [name.to_owned(), value]))
}

fn sensitivity(study: &RadiusStudy) -> String {
    if study.sensitivity.is_empty() {
        return String::new();
    }
    let head = ["input", "low", "high", "furthest from the centre", "least spare", "smallest radius"].map(String::from);
    let pair = |[low, high]: [Option<f64>; 2]| {
        let said = |value: Option<f64>| value.map_or_else(|| "no lap".into(), |metres| format!("{metres:.0}"));
        format!("{} | {} m", said(low), said(high))
    };
    let lines = study.sensitivity.iter().map(|moved| {
        let [low, high] = moved.values.clone();
        [
            moved.input.to_owned(),
            low,
            high,
            pair(moved.furthest_m),
            pair(moved.spare_m.map(Some)),
            pair(moved.smallest_m.map(Some)),
        ]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Right, Right, Right, Right, Right], &rows)
        + &paragraph(
            "  ",
            "Each input alone, one standard deviation or the end of its range to either side: low | high.",
        )
}

fn family(study: &RadiusStudy) -> String {
    if study.family.is_empty() {
        return String::new();
    }
    let head = ["law", "gain", "furthest from the centre", "in the mean wind"].map(String::from);
    let lines = study.family.iter().map(|member| {
        [
            name(member.guidance),
            name(member.gain),
            member.mean.furthest_m.map_or_else(|| "no lap".into(), |metres| format!("{metres:.0} m")),
            met(&study.limits, &member.mean).unwrap_or_else(|| "met".into()),
        ]
    });
    table([Left, Left, Right, Left], &std::iter::once(head).chain(lines).collect::<Vec<_>>())
}

/// The name a choice has in a scenario file.
fn name(choice: impl serde::Serialize) -> String {
    serde_json::to_value(choice).ok().and_then(|name| name.as_str().map(String::from)).unwrap_or_default()
}

fn centre(study: &RadiusStudy) -> String {
    let Some(best) = &study.best_centre else { return String::new() };
    let said = met(&study.limits, &best.mean).unwrap_or_else(|| "every margin met".into());
    let at = words::place(best.centre);
    let words = format!(
        "Centre at {at}: {} in the mean wind; there {} gives: {said}.",
        usable(&best.usable, None),
        way(best.radius_m, best.turn)
    );
    paragraph("  ", &words)
}
