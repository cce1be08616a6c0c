//! `peewit check`: everything wrong with scenario files, and what was understood of those that can be used.

use std::path::{Path, PathBuf};

use glam::DVec2;
use serde_json::{Value, json};

use super::common::asked_for;
use super::{Outcome, print, say};
use crate::Result;
use crate::brief::{SaidBack, SaidLine, left_out};
use crate::error::letters::on_one_line;
use crate::error::{Fault, Faults, Severity};
use crate::field::{Field, FieldArea, Rule};
use crate::report::said_back;
use crate::run::{Reading, Scenario, ScenarioFile, read, today};
use crate::units::Bearing;
use crate::words::Units;

pub(super) fn check(files: &[PathBuf], as_json: bool) -> Result<Outcome> {
    let mut outcome = Outcome::Done;
    let mut told = Vec::new();
    for path in files {
        match read(path) {
            Ok(reading) => {
                if as_json {
                    told.push(for_programs(path, &reading));
                }
                if !good(path, &reading, as_json)? {
                    outcome = Outcome::BadInput;
                }
            }
            // The other files are still worth looking at.
            Err(error) => {
                say(&error.to_string());
                outcome = Outcome::BadInput;
            }
        }
    }
    if as_json {
        print(format!("{:#}\n", Value::from(told)))?;
    }
    Ok(outcome)
}

/// What is wrong and what the jet amounts to, for other programs.
fn for_programs(path: &Path, reading: &Reading) -> Value {
    let faults = reading.faults.iter().map(|fault| {
        let severity = if fault.severity == Severity::Error { "error" } else { "warning" };
        json!({
            "severity": severity,
            "line": fault.line,
            "place": fault.place,
            "problem": fault.problem,
            "way_out": fault.way_out,
        })
    });
    let usable = reading.scenario.as_ref();
    json!({
        "file": path.display().to_string(),
        "can_be_used": usable.is_some(),
        "hash": usable.map(Scenario::hash),
        "faults": faults.collect::<Vec<_>>(),
        "jet": usable.map(|scenario| said_back(&scenario.file)),
    })
}

/// Says what is wrong and what was understood; whether the file can be used.
fn good(path: &Path, reading: &Reading, as_json: bool) -> Result<bool> {
    let bad = reading.faults.iter().any(|fault| fault.severity == Severity::Error);
    let (notes, others) = asked_for(&reading.faults);
    if bad {
        say(&Faults { file: path.into(), faults: others.into_iter().cloned().collect() }.to_string());
    } else {
        others.iter().for_each(|warning| say(&format!("{}: {warning}", path.display())));
    }
    if !notes.is_empty() {
        say(&format!("{}: still to be filled in; take each note out once that is done", path.display()));
        notes.iter().for_each(|note| say(&to_do(note)));
    }
    if let Some(scenario) = reading.scenario.as_ref().filter(|_| !bad) {
        let expired = scenario.file.expiry(&today());
        expired.iter().for_each(|warning| say(&format!("{}: {warning}", path.display())));
        if !as_json {
            print(understood(path, scenario))?;
        }
    }
    Ok(reading.scenario.is_some() && !bad)
}

/// What a note asks for, with the line it stands on.
fn to_do(note: &Fault) -> String {
    let asked = note.problem.split_once(": ").map_or(note.problem.as_str(), |(_, asked)| asked);
    note.line.map_or_else(|| format!("  {asked}"), |line| format!("  line {line}: {asked}"))
}

fn understood(path: &Path, scenario: &Scenario) -> String {
    let (file, field) = (&scenario.file, &scenario.field);
    let (low, high) = field.boundary.bounds();
    let size = high - low;
    let mut lines = vec![
        format!("{}: can be used", path.display()),
        format!("  scenario  {}, {}, hash {}", file.name, file.date, scenario.hash()),
        format!("  datum     {}", degrees(field.plane.to_degrees(DVec2::ZERO))),
        format!(
            "  boundary  {:.2} ha, {} corners, {:.0} m east to west, {:.0} m north to south",
            field.boundary.area_m2() / 10_000.0,
            field.boundary.rings().iter().map(Vec::len).sum::<usize>(),
            size.x,
            size.y
        ),
        format!(
            "  points    home {} from the pilot position, centre {} from home",
            way(field.pilot, field.home),
            way(field.home, field.centre)
        ),
        format!("  facing    {:.0} deg ({}), {}", field.facing.deg(), field.facing.point(), field.facing_from),
        format!(
            "  centre    {:.0} m from the nearest edge of the boundary ({})",
            field.boundary.signed_distance(field.centre).abs(),
            if field.boundary.contains(field.centre) { "inside" } else { "OUTSIDE" }
        ),
        format!("  holding   {}", holding(field)),
    ];
    lines.extend(field.areas.iter().map(|area| format!("  area      {}", described(area, field.centre))));
    lines.extend(field.obstacles.iter().map(|obstacle| {
        let away = obstacle.region.nearest(field.centre).distance;
        format!(
            "  obstacle  {}, top {:.0} m above the datum, {away:.0} m from the centre",
            obstacle.name, obstacle.top_m
        )
    }));
    lines.extend(field.runway.map(|strip| {
        let along = strip.to - strip.from;
        let bearing = Bearing::of(along).deg();
        format!("  runway    {:.0} m by {:.0} m, along {bearing:.0} deg", along.length(), strip.width_m)
    }));
    lines.push(format!(
        "  circle    radius {}, height {}, wind from {:.0} deg at {:.1}, gusts {:.1}",
        file.recovery.radius,
        file.recovery.height,
        file.wind.from.deg(),
        file.wind.mean,
        file.wind.gust()
    ));
    lines.extend(jet(&scenario.file));
    // A name with a line break in it makes no line of its own.
    lines.iter().map(|line| format!("{}\n", on_one_line(line))).collect()
}

/// What the jet does, and what its sheet leaves out.
fn jet(file: &ScenarioFile) -> Vec<String> {
    let said = SaidBack::of(file).lines(&Units::default());
    let mut lines = vec![format!("  jet       {}, {}", file.jet.name, file.jet.mass.value)];
    lines.extend(said.into_iter().map(|SaidLine { name, value, second, .. }| {
        let beside = if second.is_empty() { second } else { format!(" ({second})") };
        format!("            {name}: {value}{beside}")
    }));
    let left_out = left_out(&file.jet);
    for (by_default, from) in [(false, "worked out from what is known"), (true, "by default, nobody has measured it")] {
        let these = left_out.iter().filter(|one| one.by_default == by_default);
        lines.extend(these.map(|one| format!("            {}: {from}", one.in_words())));
    }
    lines
}

/// A place on the globe, as people read it off a map: good to a metre.
fn degrees((latitude, longitude): (f64, f64)) -> String {
    let one = |degrees: f64, [over, under]: [&str; 2]| {
        format!("{:.5} deg {}", degrees.abs(), if degrees < 0.0 { under } else { over })
    };
    format!("{}, {}", one(latitude, ["N", "S"]), one(longitude, ["E", "W"]))
}

fn holding(field: &Field) -> String {
    let counted = |count: usize, one: &str, many: &str| format!("{count} {}", if count == 1 { one } else { many });
    format!(
        "{}, {}, {}, ground {}",
        counted(field.areas.len(), "area", "areas"),
        counted(field.obstacles.len(), "obstacle", "obstacles"),
        if field.flight_line.is_some() { "a flight line" } else { "no flight line" },
        if field.ground.is_flat() { "flat" } else { "with spot heights" }
    )
}

fn described(area: &FieldArea, centre: DVec2) -> String {
    let rule = match area.rule {
        Rule::NoFly => "no-fly".into(),
        Rule::Above(height_m) => format!("only above {height_m:.0} m"),
        Rule::People => "people".into(),
        Rule::Caution => "a caution area".into(),
        Rule::Idle => "no rule in this month".into(),
    };
    let away = area.region.nearest(centre).distance;
    let hectares = area.region.area_m2() / 10_000.0;
    let inside = if area.region.contains(centre) { ", the centre is over it" } else { "" };
    format!("{}: {rule}; {hectares:.2} ha, {away:.0} m from the centre{inside}", area.name)
}

fn way(from: DVec2, to: DVec2) -> String {
    let leg = to - from;
    if leg.length() < 0.05 {
        return "0 m".into();
    }
    format!("{:.1} m {}", leg.length(), Bearing::of(leg).point())
}
