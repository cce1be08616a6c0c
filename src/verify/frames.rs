//! The same flight turned round, in a mirror and in moving air is the same flight.

use glam::DVec2;

use super::by_hand::{jet, steady, trimmed};
use super::line::{Group, Line, Lines};
use crate::field::Metres;
use crate::jet::{Command, step};
use crate::margins::{Margins, judge};
use crate::recovery::Turn;
use crate::run::{Scenario, ScenarioFile, WindChoice, fly, samples};
use crate::study::work::{Work, in_order};
use crate::units::{Angle, Bearing};

/// Rounding, in metres and seconds, after a flight of some minutes.
const ROUNDING: f64 = 1e-6;

pub(super) fn lines(work: &Work) -> Vec<Line> {
    let mut lines = Lines::of(Group::Frames);
    let flat = samples().iter().map(|sample| sample.scenario()).filter(|scenario| scenario.field.ground.is_flat());
    let files: Vec<ScenarioFile> = flat.map(|scenario| scenario.file).map(banked).collect();
    work.expect(files.len() as u64);
    #[allow(clippy::cast_possible_truncation, reason = "a few fields")]
    let found = in_order(work, 0..files.len() as u64, |index| {
        let off = changes(&files[index as usize]);
        work.add(1);
        off
    });
    let source = "closed form: nothing in the air or on the ground knows where north is, or left";
    for (turn, name) in
        ["turned by 90 deg", "turned by 37.3 deg", "turned by 201 deg", "in a mirror"].iter().enumerate()
    {
        let most = found.results.iter().map(|changes| changes[turn]).fold(0.0, f64::max);
        let name = format!("most that a margin of {} plans changes {name}", files.len());
        lines.at_most(&name, most, ROUNDING, "m, s or m/s", source);
    }
    let source = "closed form: a steady wind moves the track and nothing else";
    for (x, y) in [(10.0, 0.0), (-3.0, 7.0), (30.0, -30.0)] {
        let [place, speed] = carried(x, y);
        let told = format!("in air that moves by ({x}, {y}) m/s");
        lines.at_most(&format!("how far 90 s of hard flying come apart {told}"), place, ROUNDING, "m", source);
        lines.at_most(&format!("change of its airspeed {told}"), speed, ROUNDING, "m/s", source);
    }
    lines.done()
}

/// Lost in a bank to the right, so that left and right differ.
fn banked(mut file: ScenarioFile) -> ScenarioFile {
    file.loss.bank = Angle::new(0.3);
    file
}

/// The largest change of a margin, three times turned and once in a mirror.
fn changes(file: &ScenarioFile) -> [f64; 4] {
    let margins = |scenario: Scenario| judge(&scenario, &fly(&scenario, 0, WindChoice::Mean));
    let against = |plain: &Margins, other: Option<Scenario>| {
        let Some(other) = other.map(margins).filter(|other| other.rows.len() == plain.rows.len()) else {
            return f64::INFINITY;
        };
        let rows = plain.rows.iter().zip(&other.rows);
        rows.map(|(one, other)| (one.margin - other.margin).abs()).fold((plain.end_s - other.end_s).abs(), f64::max)
    };
    let Some(plain) = moved(file.clone(), |at| at, |deg| deg, false).map(margins) else { return [f64::INFINITY; 4] };
    let turned = |deg: f64| {
        let (sin, cos) = (-deg).to_radians().sin_cos();
        let place = |[x, y]: Metres| [x * cos - y * sin, x * sin + y * cos];
        against(&plain, moved(file.clone(), place, |from| from + deg, false))
    };
    let mirrored = moved(file.clone(), |[x, y]| [-x, y], |deg| -deg, true);
    [turned(90.0), turned(37.3), turned(201.0), against(&plain, mirrored)]
}

/// A scenario with every place moved and every direction turned; the way round changes in a mirror; without its circuit, which
/// only losses of trials are drawn from. None where that is no scenario.
pub fn moved(
    mut file: ScenarioFile,
    place: impl Fn(Metres) -> Metres,
    bearing: impl Fn(f64) -> f64,
    mirror: bool,
) -> Option<Scenario> {
    let turned = |from: Bearing| Bearing::from_deg(bearing(from.deg()));
    let field = file.field.as_mut()?;
    field.circuit = None;
    field.facing = field.facing.map(turned);
    let mut places: Vec<&mut Metres> =
        field.boundary.ring_m.iter_mut().chain(field.boundary.holes_m.iter_mut().flatten()).collect();
    for area in &mut field.areas {
        places.extend(area.ring_m.iter_mut().chain(area.holes_m.iter_mut().flatten()));
    }
    for obstacle in &mut field.obstacles {
        places.extend(obstacle.ring_m.iter_mut().chain(&mut obstacle.at_m));
    }
    places.extend(field.runway.iter_mut().flat_map(|strip| [&mut strip.from_m, &mut strip.to_m]));
    places.extend(field.flight_line_m.iter_mut().flatten().chain(&mut field.centre_m));
    places.extend([&mut field.pilot_m, &mut field.home_m, &mut file.loss.at_m]);
    for at in places {
        *at = place(*at);
    }
    file.wind.from = turned(file.wind.from);
    file.loss.heading = turned(file.loss.heading);
    if mirror {
        file.loss.bank = Angle::new(-file.loss.bank.rad());
        file.recovery.turn = match file.recovery.turn {
            Turn::Clockwise => Turn::Anticlockwise,
            Turn::Anticlockwise => Turn::Clockwise,
        };
    }
    Scenario::from_file(file).ok()
}

/// How far a flight in moving air comes away from the same in still air, but for the way of the air: m, and m/s.
fn carried(wind_x: f64, wind_y: f64) -> [f64; 2] {
    let jet = jet();
    let (dt, mut most) = (0.05, [0.0_f64; 2]);
    let (mut still, mut command) = trimmed(&jet, 24.0, DVec2::X, 0.0);
    let mut carried = still;
    for index in 0..1800 {
        let now = f64::from(index) * dt;
        if index % 10 == 0 {
            command = Command {
                bank: 0.6 * (0.31 * now).sin(),
                climb: 0.2 * (0.17 * now).cos(),
                thrust: 8.0 + 6.0 * (0.23 * now).sin(),
                stopped: 0.0,
            };
        }
        still = step(&jet, &still, &command, &steady(0.0, 0.0), dt);
        carried = step(&jet, &carried, &command, &steady(wind_x, wind_y), dt);
        let off = DVec2::new(carried.x - still.x, carried.y - still.y) - DVec2::new(wind_x, wind_y) * (now + dt);
        let apart = off.length().hypot(carried.height - still.height);
        most = [most[0].max(apart), most[1].max((carried.airspeed - still.airspeed).abs())];
    }
    most
}
