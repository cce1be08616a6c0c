//! The table of the program's own checks: for people, and as JSON that is read back for the committee pack.

use serde_json::{Value, json};

use super::layout::paragraph;
use super::text::foot;
use super::{Format, bytes, unfit};
use crate::verify::{Checked, Group, Line};
use crate::words::{cautions, checks as words};
use crate::{Result, VERSION};

impl Checked {
    /// What it can be written as.
    pub const FORMATS: &'static [Format] = &[Format::Text, Format::Json];

    /// The table in a format.
    ///
    /// # Errors
    ///
    /// Where the format is none of [`Checked::FORMATS`].
    pub fn render(&self, format: Format) -> Result<Vec<u8>> {
        match format {
            Format::Text => Ok(bytes(text(self))),
            Format::Json => Ok(bytes(format!("{:#}\n", json(self)))),
            _ => Err(unfit("a run of the checks", format)),
        }
    }
}

fn text(checked: &Checked) -> String {
    let mut text =
        paragraph("", &format!("Peewit {VERSION}: what this copy works out, against what is known from elsewhere"));
    text += &paragraph("", &words::ran(checked));
    for group in Group::ALL {
        let lines: Vec<&Line> = checked.lines.iter().filter(|line| line.group == group).collect();
        if !lines.is_empty() {
            text += &format!("\n{}\n", words::group(group));
            lines.into_iter().for_each(|line| text += &told(line));
        }
    }
    text += &format!("\n{}\n", words::outcome(checked));
    if !checked.holds() {
        checked.missed().for_each(|line| text += &told(line));
        text += &paragraph("", words::MISSED);
    }
    text + "\n" + &foot()
}

fn told(line: &Line) -> String {
    let tolerance = words::tolerance(line);
    let within = if tolerance.is_empty() { String::new() } else { format!(", tolerance {tolerance}") };
    let unit = if line.unit.is_empty() { String::new() } else { format!(" {}", line.unit) };
    let numbers = format!("got {}, expected {}{within}{unit}", words::got(line), words::expected(line));
    let held = if line.held() { "  held  " } else { "  NOT   " };
    paragraph(held, &format!("{}: {numbers}", line.name)) + &paragraph("        ", &line.source)
}

/// What was kept, with what follows from it: a reader passes over that.
fn json(checked: &Checked) -> Value {
    let mut value = json!(checked);
    let told = value.get_mut("lines").and_then(Value::as_array_mut);
    for (told, line) in told.into_iter().flatten().zip(&checked.lines) {
        told["held"] = line.held().into();
    }
    value["report"] = "checks".into();
    value["peewit_version"] = VERSION.into();
    value["held"] = checked.holds().into();
    value["cautions"] = json!(cautions::ALL);
    value
}
