//! Why the usable radii end where they do, in words, with what the closed form says.

use crate::draw::{Frame, Lettering, Sheet, lines};
use crate::recovery::Turn;
use crate::study::radius::RadiusStudy;
use crate::words::{self, end, number};

const LETTERS: f64 = 3.4;

/// The ends in words, one line for each range, and the closed form; reasons that repeat are said once.
fn reasons(study: &RadiusStudy) -> Vec<String> {
    let mut said: Vec<(Turn, String, Vec<&str>)> = Vec::new();
    let usable = &study.usable;
    for (wind, list) in [("mean wind", &usable.mean), ("gust wind", &usable.gust), ("trials", &usable.trials)] {
        for range in list {
            let below = format!("below {} m: {}", number(range.low.radius_m), end(&range.low));
            let above = format!("above {} m: {}", number(range.high.radius_m), end(&range.high));
            let both = format!("{below}; {above}.");
            match said.iter_mut().find(|(turn, words, _)| *turn == range.turn && *words == both) {
                Some((_, _, winds)) => winds.push(wind),
                None => said.push((range.turn, both, vec![wind])),
            }
        }
    }
    let mut lines: Vec<String> = said
        .into_iter()
        .map(|(turn, both, winds)| format!("{}, {}: {both}", words::turn(turn), winds.join(" and ")))
        .collect();
    if usable.mean.is_empty() {
        let remedy = study.remedies.iter().find(|remedy| !remedy.usable.is_empty());
        lines.push("No radius meets every margin asked for in the mean wind.".into());
        lines
            .extend(remedy.map(|remedy| {
                format!("What would help: {} ({}).", remedy.change, words::usable(&remedy.usable, None))
            }));
    }
    lines.push(closed_form(study).join(" "));
    lines
}

/// What the closed form says of the maximum bank and of the plan's radius.
pub(super) fn closed_form(study: &RadiusStudy) -> [String; 2] {
    let [still, mean, gust] = study.closed.smallest_m;
    let [slow, fast] = study.closed.speed_window_mps;
    let smallest = format!(
        "Smallest radius the maximum bank holds, in closed form: {still:.0} m in still air, {mean:.0} m in the mean \
         wind, {gust:.0} m in the gust wind."
    );
    let window = if slow <= fast {
        format!("The plan's radius is held between {slow:.1} and {fast:.1} m/s of airspeed.")
    } else {
        format!("No airspeed holds the plan's radius: it takes {slow:.1} m/s at least and {fast:.1} m/s at most.")
    };
    [smallest, window]
}

fn set(study: &RadiusStudy, width: f64) -> Vec<String> {
    reasons(study).iter().flat_map(|line| lines(line, LETTERS, false, width)).collect()
}

/// Paper that they take, mm.
#[allow(clippy::cast_precision_loss, reason = "a handful of lines")]
pub(super) fn height(study: &RadiusStudy, width: f64) -> f64 {
    set(study, width).len() as f64 * LETTERS * Sheet::LEADING + 2.0
}

/// Tells the reasons, the foot of the first line at the top of a room.
pub(super) fn tell(sheet: &mut Sheet, study: &RadiusStudy, room: Frame) {
    let mut foot = room.low;
    for line in set(study, room.size().x) {
        sheet.words(foot, line, Lettering::new(LETTERS));
        foot.y += LETTERS * Sheet::LEADING;
    }
}
