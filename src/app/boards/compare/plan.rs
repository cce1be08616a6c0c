//! What the two plans are, and what came of their flights.

use crate::app::session::Flown;
use crate::margins::{MarginRow, Margins, Verdict};
use crate::units::Bearing;
use crate::words::{self, Measure, Units};

use super::line::{Judged, Line, Wanted};

/// What was decided: nothing of it is better in itself.
pub(super) fn lines(now: &Flown, kept: &Flown, units: &Units) -> Vec<Line> {
    let both = [now, kept];
    let number = |name: &str, measure: Measure, of: &dyn Fn(&Flown) -> f64| {
        let values = both.map(|flown| Some(of(flown)));
        Line::numbers(name, values, "", Wanted::Either, |si| units.short(measure, si))
    };
    let way = |flown: &Flown| words::turn(flown.scenario.file.recovery.turn).to_owned();
    vec![
        number("circle radius", Measure::Distance, &|flown| flown.scenario.file.recovery.radius.m()),
        number("circle height", Measure::Height, &|flown| flown.scenario.file.recovery.height.m()),
        number("return speed", Measure::Speed, &|flown| flown.scenario.file.jet.return_speed.value.mps()),
        centre(now, kept, units),
        Line::words("way round", way(now), way(kept)),
        wind(now, kept, units),
    ]
}

fn centre(now: &Flown, kept: &Flown, units: &Units) -> Line {
    let places = [now, kept].map(|flown| flown.scenario.field.centre);
    let length = |metres: f64| units.short(Measure::Distance, metres);
    let [a, b] = places.map(|centre| {
        let side = |value: f64, more: &str, less: &str| {
            let side = if value < 0.0 { less } else { more };
            format!("{} {side}", length(value.abs()))
        };
        format!("{}, {}", side(centre.x, "E", "W"), side(centre.y, "N", "S"))
    });
    let away = places[0] - places[1];
    let mut line = Line::words("centre", a, b);
    if away.length() > 0.005 {
        let towards = Bearing::from_deg(away.x.atan2(away.y).to_degrees());
        line.difference = format!("{} {}", length(away.length()), towards.point());
        line.judged = Judged::Open;
    }
    line
}

fn wind(now: &Flown, kept: &Flown, units: &Units) -> Line {
    let [a, b] = [now, kept].map(|flown| {
        let wind = &flown.scenario.file.wind;
        let mean = crate::app::look::words::number(units.first(Measure::Wind, wind.mean.mps()));
        format!("{:.0}\u{b0}, {mean} to {}", wind.from.deg(), units.short(Measure::Wind, wind.gust().mps()))
    });
    Line::words("wind, mean to gust", a, b)
}

/// What came of it.
pub(super) fn results(now: &Flown, kept: &Flown, units: &Units) -> Vec<Line> {
    let margins = [&now.margins, &kept.margins];
    let ends = |flown: &Flown| words::ending(flown.margins.ending).to_owned();
    let metres = |metres: f64| units.short(Measure::Distance, metres);
    let seconds = |value: f64| crate::app::look::words::seconds(value);
    let plain = |value: f64| crate::app::look::words::number(value);
    let figure = |name: &str, wanted: Wanted, of: &dyn Fn(&Margins) -> Option<f64>, text: &dyn Fn(f64) -> String| {
        Line::numbers(name, margins.map(of), "not reached", wanted, text)
    };
    vec![
        amounts(margins),
        worst_margin(margins, units),
        figure("furthest from the centre", Wanted::Less, &|margins| margins.figures.furthest_m, &metres),
        figure("overshoot while joining", Wanted::Less, &|margins| margins.figures.joining_overshoot_m, &metres),
        figure("time home", Wanted::Less, &|margins| margins.figures.home_s, &seconds),
        figure("laps to the reserve", Wanted::More, &|margins| margins.figures.laps_to_reserve, &plain),
        Line::words("ends", ends(now), ends(kept)),
    ]
}

/// How many margins are crossed or inside the buffer.
fn amounts(margins: [&Margins; 2]) -> Line {
    let count = |margins: &Margins, verdict| margins.rows.iter().filter(|row| row.verdict == verdict).count();
    let key = |margins: &Margins| (count(margins, Verdict::Crossed), count(margins, Verdict::InsideBuffer));
    let words = |margins: &Margins| {
        let (crossed, inside_buffer) = key(margins);
        format!("{crossed} crossed, {inside_buffer} inside the buffer")
    };
    let [now, kept] = margins;
    let judged = Judged::more(key(kept).cmp(&key(now)));
    Line { judged, ..Line::words("margins", words(now), words(kept)) }
}

/// The worst row: by verdict, and then by what is left of what was asked for. Where nothing was asked for and nothing is
/// crossed, a row is not near to anything.
fn worst(margins: &Margins) -> Option<&MarginRow> {
    let share = |row: &MarginRow| row.margin / row.buffer.max(0.1);
    let told = |row: &&MarginRow| row.buffer > 0.0 || row.verdict == Verdict::Crossed;
    let rows = margins.rows.iter().filter(|row| row.verdict != Verdict::Counted).filter(told);
    rows.max_by(|a, b| a.verdict.cmp(&b.verdict).then(share(b).total_cmp(&share(a))))
}

fn worst_margin(margins: [&Margins; 2], units: &Units) -> Line {
    let rows = margins.map(worst);
    let words = |row: Option<&MarginRow>| {
        row.map_or_else(
            || "none".to_owned(),
            |row| {
                format!(
                    "{}: {}, {}",
                    row.name,
                    units.left(row.margin, row.buffer, row.unit.symbol()),
                    row.verdict.name()
                )
            },
        )
    };
    let [now, kept] = rows;
    let mut line = Line::words("worst margin", words(now), words(kept));
    if let (Some(now), Some(kept)) = (now, kept) {
        let same = (now.limit, &now.name) == (kept.limit, &kept.name);
        line.judged = match kept.verdict.cmp(&now.verdict) {
            std::cmp::Ordering::Equal if same => Judged::more(now.margin.total_cmp(&kept.margin)),
            std::cmp::Ordering::Equal => Judged::Open,
            order => Judged::more(order),
        };
    }
    line
}
