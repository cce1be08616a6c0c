//! A scripted pilot: moves the sticks of a rehearsal as somebody would who flies carefully, goes through the drill, takes
//! over and lands on the runway. What it does wrong can be chosen.

use glam::DVec2;
use peewit::recovery::Turn;
use peewit::rehearsal::{Deed, Exercise, Lost, Recording, Rehearsal, Stage, Sticks};
use peewit::run::Scenario;
use peewit::units::G0;

/// What the pilot does wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Wrong {
    /// Nothing.
    #[default]
    Nothing,
    /// Flies over the boundary before anything is lost.
    OverTheBoundary,
    /// Flies over an area.
    OverAnArea,
    /// Climbs through the height limit.
    TooHigh,
    /// Slows down until the wing stalls.
    Stalls,
    /// Flies into the ground blind.
    IntoTheGround,
    /// Flies over people.
    OverPeople,
    /// Never takes over.
    NeverTakesOver,
    /// Lands so that nobody would call it that.
    HardLanding,
}

/// When the stages are done, seconds after the loss, by somebody who has practised.
const NOTICED_S: f64 = 0.8;
const RETURN_S: f64 = 1.4;
const CALLED_S: f64 = 2.0;
const OFF_S: f64 = 5.0;
const CUED_S: f64 = 7.0;
const FOUND_S: f64 = 14.0;
const SAID_S: f64 = 17.0;

pub(crate) struct Pilot {
    wrong: Wrong,
    /// Which leg of the landing is flown.
    leg: usize,
}

/// Flies an exercise from beginning to end.
pub(crate) fn flown(scenario: &Scenario, exercise: &Exercise, wrong: Wrong) -> Rehearsal {
    let mut rehearsal = Rehearsal::new(scenario, exercise).expect("it can be flown so");
    let mut pilot = Pilot::new(wrong);
    let mut sticks = rehearsal.sticks();
    while !rehearsal.is_over() {
        let mut deeds = pilot.deeds(&rehearsal);
        // Sticks have eighty steps, and a step that changes nothing is not written down.
        let wanted = pilot.sticks(&rehearsal);
        let coarse = |share: f64| (share * 40.0).round() / 40.0;
        let now = Sticks {
            roll_share: coarse(wanted.roll_share),
            pitch_share: coarse(wanted.pitch_share),
            throttle_share: coarse(wanted.throttle_share),
        };
        if now != sticks {
            deeds.insert(0, Deed::Sticks(now));
            sticks = now;
        }
        rehearsal.step(&deeds);
    }
    rehearsal
}

/// The same as a recording.
pub(crate) fn recorded(scenario: &Scenario, exercise: &Exercise, wrong: Wrong) -> (Rehearsal, Recording) {
    let rehearsal = flown(scenario, exercise, wrong);
    let recording = Recording::of(&rehearsal, "scripted");
    (rehearsal, recording)
}

impl Pilot {
    pub(crate) fn new(wrong: Wrong) -> Self {
        Self { wrong, leg: 0 }
    }

    /// What is done beside moving the sticks.
    pub(crate) fn deeds(&self, flown: &Rehearsal) -> Vec<Deed> {
        let Some(since) = flown.since_loss_s() else { return Vec::new() };
        let (mut deeds, stages) = (Vec::new(), flown.stages());
        let due = |stage: Stage, at: f64| stages.at(stage).is_none() && since >= at;
        for (stage, at) in
            [(Stage::Noticed, NOTICED_S), (Stage::Called, CALLED_S), (Stage::GogglesOff, OFF_S), (Stage::Cued, CUED_S)]
        {
            if due(stage, at) {
                deeds.push(Deed::Stage { stage });
            }
        }
        let returns = flown.exercise().lost != Lost::Position && self.wrong != Wrong::IntoTheGround;
        if returns && flown.by_hand() && stages.at(Stage::TakenOver).is_none() && since >= RETURN_S {
            deeds.push(Deed::Return);
        }
        if due(Stage::Found, FOUND_S) {
            let sight = flown.sight();
            deeds.push(Deed::Point { bearing_deg: sight.bearing.deg() + 2.0, elevation_deg: sight.elevation_deg });
        }
        if due(Stage::Said, SAID_S) {
            deeds.push(Deed::Say { seen: flown.seen() });
        }
        let slow = over_ground(flown).length() < flown.state().airspeed;
        let circling = flown.stretch() == peewit::run::Stretch::Circling || !returns;
        if self.wrong != Wrong::NeverTakesOver
            && stages.at(Stage::Said).is_some()
            && stages.at(Stage::TakenOver).is_none()
            && flown.has_control()
            && slow
            && circling
        {
            deeds.push(Deed::TakeOver);
        }
        if self.wrong == Wrong::NeverTakesOver && since > 120.0 {
            deeds.push(Deed::End);
        }
        deeds
    }

    /// Where the sticks are wanted.
    pub(crate) fn sticks(&mut self, flown: &Rehearsal) -> Sticks {
        let state = flown.state();
        let taken_over = flown.stages().at(Stage::TakenOver).is_some();
        if taken_over {
            return self.land(flown);
        }
        let speed = flown.trial().jet.return_speed;
        match (self.wrong, flown.lost_at()) {
            (Wrong::OverTheBoundary, None) => level(flown, DVec2::NEG_X, 60.0, speed),
            (Wrong::OverAnArea, None) => to(flown, DVec2::new(-320.0, 390.0), 60.0, speed),
            (Wrong::OverPeople, None) => to(flown, DVec2::new(0.0, -57.0), 60.0, speed),
            (Wrong::TooHigh, None) => orbit(flown, 150.0, speed + 4.0),
            (Wrong::Stalls, None) => Sticks {
                throttle_share: 0.0,
                pitch_share: ((60.0 - state.height) / 10.0).clamp(-1.0, 1.0),
                roll_share: 0.0,
            },
            (Wrong::IntoTheGround, Some(_)) => Sticks { throttle_share: 0.4, pitch_share: -0.8, roll_share: 0.0 },
            _ => orbit(flown, 60.0, speed),
        }
    }

    /// Flies a circuit to the runway: out past its end with the wind, round, and down against it.
    fn land(&mut self, flown: &Rehearsal) -> Sticks {
        let state = flown.state();
        let jet = &flown.trial().jet;
        let field = &flown.scenario().field;
        let runway = flown.scenario().file.field.as_ref().and_then(|field| field.runway.as_ref()).expect("a runway");
        let ends = [runway.from_m, runway.to_m].map(DVec2::from_array);
        let wind = -flown.scenario().file.wind.from.unit();
        // Against the wind, or eastward across it.
        let mut along = (ends[1] - ends[0]).normalize();
        if along.dot(wind) > 0.2 {
            along = -along;
        }
        let middle = (ends[0] + ends[1]) / 2.0;
        let inwards = (field.centre - middle - along * (field.centre - middle).dot(along)).normalize_or(DVec2::Y);
        let slow = 1.35 * jet.stall_speed(1.0);
        let place = DVec2::new(state.x, state.y);
        let legs = [middle - along * 150.0 + inwards * 170.0, middle - along * 250.0 + inwards * 135.0];
        if self.leg < legs.len() && place.distance(legs[self.leg]) < 45.0 {
            self.leg += 1;
        }
        // Nobody turns towards the people.
        let before_line = (place - middle).dot(inwards);
        if self.leg < legs.len() && before_line < 140.0 && over_ground(flown).dot(inwards) < -4.0 {
            return level(flown, inwards, 38.0, slow + 2.0);
        }
        if self.leg < legs.len() {
            let height = [38.0, 26.0][self.leg];
            return to(flown, legs[self.leg], height, slow + 2.0);
        }
        let touch = middle - along * 40.0;
        let left = (touch - place).dot(along);
        // The inner edge of the runway, away from the people.
        let aside = (place - middle - inwards * 5.0).perp_dot(along);
        // Positive to the right of the line.
        let turn = (aside / 70.0).clamp(-0.5, 0.5);
        let course = DVec2::from_angle(turn).rotate(along);
        let hard = self.wrong == Wrong::HardLanding;
        let height = (left * 0.09).max(if hard { -20.0 } else { 0.0 });
        let sticks = level(flown, course, height, slow);
        let flare = state.height < 2.5 && !hard;
        if flare {
            // Half a metre a second down.
            let climb = (-0.5 / state.airspeed) / jet.climb_limit;
            return Sticks { pitch_share: climb, throttle_share: 0.0, ..sticks };
        }
        if hard && state.height < 14.0 {
            return Sticks { pitch_share: -1.0, throttle_share: 0.3, ..sticks };
        }
        sticks
    }
}

/// Velocity over the ground, m/s.
pub(crate) fn over_ground(flown: &Rehearsal) -> DVec2 {
    let state = flown.state();
    DVec2::new(state.nose_x, state.nose_y) * state.airspeed * state.climb.cos() + flown.air()
}

/// Along a course over the ground at a height and a speed.
fn level(flown: &Rehearsal, course: DVec2, height: f64, speed: f64) -> Sticks {
    let (state, jet) = (flown.state(), &flown.trial().jet);
    // A turn to the right is negative from the course flown.
    let off = -over_ground(flown).angle_to(course);
    let bank = (speed * off * 0.8 / G0).atan();
    let climb = ((height - state.height) * 0.35 / state.airspeed).clamp(-jet.climb_limit, jet.climb_limit);
    let drag = jet.drag(state.airspeed, 1.0 / state.bank.cos(), 0.0) + jet.mass * G0 * climb.sin();
    let thrust = (drag + jet.mass * 0.6 * (speed - state.airspeed)).max(0.0);
    Sticks {
        roll_share: (bank / jet.maximum_bank).clamp(-1.0, 1.0),
        pitch_share: (climb / jet.climb_limit).clamp(-1.0, 1.0),
        throttle_share: (jet.efflux(state.airspeed, thrust) / jet.efflux_full).clamp(0.0, 1.0),
    }
}

fn to(flown: &Rehearsal, place: DVec2, height: f64, speed: f64) -> Sticks {
    let state = flown.state();
    level(flown, (place - DVec2::new(state.x, state.y)).normalize_or(DVec2::Y), height, speed)
}

/// Round the centre, as far off as it is at the beginning but not too near.
fn orbit(flown: &Rehearsal, height: f64, speed: f64) -> Sticks {
    let state = flown.state();
    let field = &flown.scenario().field;
    let out = DVec2::new(state.x, state.y) - field.centre;
    let wanted = flown.scenario().file.recovery.radius.m() * 0.9;
    let (away, off) = (out.normalize_or(DVec2::X), out.length() - wanted);
    // The way round that the plan circles, towards the ring.
    let round = if flown.scenario().file.recovery.turn == Turn::Clockwise { 1.0 } else { -1.0 };
    let towards = (off / 60.0).clamp(-1.0, 1.0);
    let course = (-away.perp() * round - away * towards).normalize();
    let mut sticks = level(flown, course, height, speed);
    let lean = (over_ground(flown).length_squared() / (G0 * wanted)).atan() / flown.trial().jet.maximum_bank;
    sticks.roll_share = (sticks.roll_share + lean * round).clamp(-1.0, 1.0);
    sticks
}
