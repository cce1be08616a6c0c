//! Which axis is which, and how far does it go? A person is asked for one function after another and moves it; then
//! everything to its ends, and lets go.

use std::collections::{BTreeMap, BTreeSet};

use super::{AxisMap, Function, RawSticks, StickMap, SwitchMap};
use track::Track;

#[cfg(test)]
mod tests;
mod track;

/// How long everything rests before something is asked for, and how long it is waited for at most, seconds (judgement).
const SETTLE_S: (f64, f64) = (0.6, 3.0);
/// How long an axis stands at its end until it is taken, seconds (judgement).
const HOLD_S: f64 = 0.4;
/// How far an axis goes at least: its whole travel is 2 (judgement).
const FAR: f32 = 0.4;
/// Share of the throttle's travel up to which it is closed; one let go there stays where it is put (judgement).
const CLOSED: f32 = 0.25;

/// What a person is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// Let go of everything; then something is asked for.
    Settle(Function),
    /// Move this, all the way, and hold it there: the throttle to full, the stick back, the stick right, the switch on.
    Move(Function),
    /// Move everything to all its ends.
    Ends,
    /// Close the throttle and let go.
    Close,
}

/// Axes being found by moving them.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    asked: Asked,
    /// Since everything came to rest, and since it was asked to, seconds.
    settled_s: (f64, f64),
    tracks: BTreeMap<String, Track>,
    /// Buttons that were down before.
    buttons: BTreeSet<String>,
    map: StickMap,
}

impl Default for Finding {
    fn default() -> Self {
        let nothing = StickMap { mode: None, throttle: None, pitch: None, roll: None, ..StickMap::default() };
        Self {
            asked: Asked::Settle(Function::ALL[0]),
            settled_s: (0.0, 0.0),
            tracks: BTreeMap::new(),
            buttons: BTreeSet::new(),
            map: nothing,
        }
    }
}

impl Finding {
    /// What is asked for now.
    pub const fn asked(&self) -> Asked {
        self.asked
    }

    /// What has been found so far.
    pub const fn found(&self) -> &StickMap {
        &self.map
    }

    /// Takes what the device says, `dt` seconds after the last time.
    pub fn hear(&mut self, raw: &RawSticks, dt: f64) {
        let dt = if dt.is_finite() { dt.max(0.0) } else { 0.0 };
        for (id, value) in raw.axes.iter().filter(|(_, value)| value.is_finite()) {
            // A switch is heard of when it is first moved, a stick soon after.
            let rest = if self.asked == Asked::Move(Function::Switch) { 0.0 } else { *value };
            self.tracks.entry(id.clone()).or_insert_with(|| Track::new(*value, rest)).follow(*value, dt);
        }
        match self.asked {
            Asked::Settle(function) => self.settle(function, raw, dt),
            Asked::Move(function) => self.watch(function, raw, dt),
            Asked::Ends | Asked::Close => {}
        }
    }

    /// What has not been to both its ends yet, while it is to.
    pub fn not_yet(&self) -> Option<Function> {
        [Function::Pitch, Function::Roll].into_iter().find(|&function| {
            let whole = self.map.axis(function).and_then(|axis| {
                let track = self.tracks.get(&axis.axis)?;
                Some((axis.middle - track.low).min(track.high - axis.middle) >= FAR)
            });
            whole != Some(true)
        })
    }

    /// Goes on where nothing but the person can say so: there is no switch, everything was at its ends, everything is let go.
    /// Returns the map when it is done.
    pub fn go_on(&mut self) -> Option<StickMap> {
        match self.asked {
            Asked::Settle(Function::Switch) | Asked::Move(Function::Switch) => self.asked = Asked::Ends,
            Asked::Ends if self.not_yet().is_none() => self.asked = Asked::Close,
            Asked::Close => return Some(self.calibrated()),
            _ => {}
        }
        None
    }

    fn is_free(map: &StickMap, id: &str) -> bool {
        Function::ALL.into_iter().all(|function| map.axis(function).is_none_or(|axis| axis.axis != id))
    }

    fn settle(&mut self, function: Function, raw: &RawSticks, dt: f64) {
        let (rested, asked) = self.settled_s;
        self.settled_s = (rested + dt, asked + dt);
        if self.tracks.iter().any(|(id, track)| Self::is_free(&self.map, id) && track.is_away()) {
            self.settled_s.0 = 0.0;
            self.tracks.values_mut().for_each(Track::settle);
        }
        if self.settled_s.0 >= SETTLE_S.0 || self.settled_s.1 >= SETTLE_S.1 {
            self.tracks.values_mut().for_each(Track::settle);
            self.buttons.clone_from(&raw.buttons);
            self.asked = Asked::Move(function);
        }
    }

    fn watch(&mut self, function: Function, raw: &RawSticks, dt: f64) {
        self.tracks.values_mut().for_each(|track| track.watch(dt));
        // A button that was down and is let go may be the one.
        self.buttons.retain(|button| raw.buttons.contains(button));
        if function == Function::Switch
            && let Some(button) = raw.buttons.difference(&self.buttons).next()
        {
            self.map.switch = Some(SwitchMap::Button(button.clone()));
            return self.ask_after(function);
        }
        let far = self.tracks.iter().filter(|(id, track)| Self::is_free(&self.map, id) && track.gone.abs() > FAR);
        let Some((id, track)) = far.max_by(|a, b| a.1.gone.abs().total_cmp(&b.1.gone.abs())) else { return };
        if track.held_s < HOLD_S {
            return;
        }
        let (rest, end) = (track.rest, track.rest + track.gone);
        let middle = if matches!(function, Function::Pitch | Function::Roll) { rest } else { f32::midpoint(rest, end) };
        let axis =
            AxisMap { axis: id.clone(), low: rest.min(end), middle, high: rest.max(end), reversed: track.gone < 0.0 };
        match function {
            Function::Throttle => self.map.throttle = Some(axis),
            Function::Pitch => self.map.pitch = Some(axis),
            Function::Roll => self.map.roll = Some(axis),
            Function::Switch => self.map.switch = Some(SwitchMap::Axis(axis)),
        }
        self.ask_after(function);
    }

    fn ask_after(&mut self, function: Function) {
        let next = Function::ALL.into_iter().skip_while(|known| *known != function).nth(1);
        self.asked = next.map_or(Asked::Ends, Asked::Settle);
        self.settled_s = (0.0, 0.0);
        self.tracks.values_mut().for_each(Track::settle);
    }

    /// The map, with the ends as seen and the middles as everything is now.
    fn calibrated(&self) -> StickMap {
        let mut map = self.map.clone();
        let mut springs = false;
        for function in Function::ALL {
            let Some(axis) = map.axis_mut(function) else { continue };
            let Some(track) = self.tracks.get(&axis.axis) else { continue };
            (axis.low, axis.high) = (track.low, track.high);
            if function == Function::Throttle {
                let opened = if axis.reversed { track.high - track.now } else { track.now - track.low };
                springs = opened > CLOSED * (track.high - track.low);
            }
            let centres =
                matches!(function, Function::Pitch | Function::Roll) || function == Function::Throttle && springs;
            axis.middle = if centres { track.now } else { f32::midpoint(track.low, track.high) };
        }
        StickMap { springs, ..map }
    }
}
