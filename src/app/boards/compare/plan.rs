//! What the two plans are, and what came of their flights.

use crate::app::look::units::{Measure, Units};
use crate::app::look::words::{ending, turn};
use crate::app::session::Flown;
use crate::ledger::{Ledger, Row, Verdict};
use crate::units::Bearing;

use super::line::{Judged, Line, Wanted};

/// What was decided: nothing of it is better in itself.
pub(super) fn lines(now: &Flown, kept: &Flown, units: &Units) -> Vec<Line> {
    let both = [now, kept];
    let number = |name: &str, measure: Measure, of: &dyn Fn(&Flown) -> f64| {
        let values = both.map(|flown| Some(of(flown)));
        Line::numbers(name, values, "", Wanted::Either, |si| units.short(measure, si))
    };
    // The words in brackets say the same again.
    let way = |flown: &Flown| turn(flown.scenario.file.recovery.turn).split(" (").next().unwrap_or_default().to_owned();
    vec![
        number("circle radius", Measure::Distance, &|flown| flown.scenario.file.recovery.radius.m()),
        number("circle height", Measure::Height, &|flown| flown.scenario.file.recovery.height.m()),
        number("return speed", Measure::Speed, &|flown| flown.scenario.file.jet.return_speed.value.mps()),
        hub(now, kept, units),
        Line::words("way round", way(now), way(kept)),
        wind(now, kept, units),
    ]
}

fn hub(now: &Flown, kept: &Flown, units: &Units) -> Line {
    let places = [now, kept].map(|flown| flown.scenario.field.hub);
    let length = |metres: f64| units.short(Measure::Distance, metres);
    let [a, b] = places.map(|hub| {
        let side = |value: f64, more: &str, less: &str| {
            let side = if value < 0.0 { less } else { more };
            format!("{} {side}", length(value.abs()))
        };
        format!("{}, {}", side(hub.x, "E", "W"), side(hub.y, "N", "S"))
    });
    let away = places[0] - places[1];
    let mut line = Line::words("hub", a, b);
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
    let ledgers = [&now.ledger, &kept.ledger];
    let metres = |metres: f64| units.short(Measure::Distance, metres);
    let seconds = |value: f64| crate::app::look::words::seconds(value);
    let plain = |value: f64| crate::app::look::words::number(value);
    let figure = |name: &str, wanted: Wanted, of: &dyn Fn(&Ledger) -> Option<f64>, text: &dyn Fn(f64) -> String| {
        Line::numbers(name, ledgers.map(of), "not reached", wanted, text)
    };
    vec![
        amounts(ledgers),
        worst_margin(ledgers, units),
        figure("outermost", Wanted::Less, &|ledger| ledger.figures.outermost_m, &metres),
        figure("join overshoot", Wanted::Less, &|ledger| ledger.figures.join_overshoot_m, &metres),
        figure("time home", Wanted::Less, &|ledger| ledger.figures.home_s, &seconds),
        figure("laps in hand", Wanted::More, &|ledger| ledger.figures.laps_in_hand, &plain),
        Line::words("ends", ends(&now.ledger), ends(&kept.ledger)),
    ]
}

/// How a flight ended; when is of no concern here.
fn ends(ledger: &Ledger) -> String {
    let words = ending(ledger.ending, ledger.end_s);
    words.rsplit_once(" at ").map_or(words.as_str(), |(how, _)| how).to_owned()
}

/// How many margins are breached or thin.
fn amounts(ledgers: [&Ledger; 2]) -> Line {
    let count = |ledger: &Ledger, verdict| ledger.rows.iter().filter(|row| row.verdict == verdict).count();
    let key = |ledger: &Ledger| (count(ledger, Verdict::Breached), count(ledger, Verdict::Thin));
    let words = |ledger: &Ledger| {
        let (breached, thin) = key(ledger);
        format!("{breached} breached, {thin} thin")
    };
    let [now, kept] = ledgers;
    let judged = Judged::more(key(kept).cmp(&key(now)));
    Line { judged, ..Line::words("margins", words(now), words(kept)) }
}

/// The worst row: by verdict, and then by what is left of what was asked for. Where nothing was asked for and nothing is
/// breached a row is not near to anything.
fn worst(ledger: &Ledger) -> Option<&Row> {
    let share = |row: &Row| row.margin / row.standoff.max(0.1);
    let told = |row: &&Row| row.standoff > 0.0 || row.verdict == Verdict::Breached;
    let rows = ledger.rows.iter().filter(|row| row.verdict != Verdict::Counted).filter(told);
    rows.max_by(|a, b| a.verdict.cmp(&b.verdict).then(share(b).total_cmp(&share(a))))
}

fn worst_margin(ledgers: [&Ledger; 2], units: &Units) -> Line {
    let rows = ledgers.map(worst);
    let words = |row: Option<&Row>| {
        row.map_or_else(
            || "none".to_owned(),
            |row| format!("{}: {}, {}", row.name, units.margin(row.margin, row.unit.symbol()), row.verdict.name()),
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
