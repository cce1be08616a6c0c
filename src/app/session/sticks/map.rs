//! What do the axes of a device mean, and where does that put the sticks?

use serde::{Deserialize, Serialize};

use super::{Function, RawSticks, StickMode};
use crate::rehearsal::Sticks;

/// Least travel that an axis can have to one side, as it reports itself: less is no travel (judgement).
const LEAST_TRAVEL: f32 = 0.05;
/// How far beyond its middle a switch is on, as a share of its travel: one with three positions is off in the middle,
/// however it jitters there (judgement).
const SWITCHED_ON: f64 = 0.25;
/// Shares of the throttle's travel a second that a stick which springs back moves it by (judgement: two seconds for all).
const THROTTLE_RATE: f64 = 0.5;

/// One axis, with its calibration.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AxisMap {
    /// Which.
    pub axis: String,
    /// What it reports at its one end.
    pub low: f32,
    /// What it reports when it is let go.
    pub middle: f32,
    /// What it reports at its other end.
    pub high: f32,
    /// Whether it counts down where the function counts up.
    pub reversed: bool,
}

impl AxisMap {
    /// As an axis is made: from -1 to 1.
    pub fn new(axis: &str, reversed: bool) -> Self {
        Self { axis: axis.to_owned(), low: -1.0, middle: 0.0, high: 1.0, reversed }
    }

    /// From -1 at one end over 0 when let go to 1 at the other; none where nothing is heard of it.
    fn centred(&self, raw: &RawSticks) -> Option<f64> {
        let value = raw.axis(&self.axis)?;
        let share = if value < self.middle {
            -part(self.middle - value, self.middle - self.low)
        } else {
            part(value - self.middle, self.high - self.middle)
        };
        Some(if self.reversed { -share } else { share })
    }

    /// From 0 at one end to 1 at the other; none where nothing is heard of it.
    fn travel(&self, raw: &RawSticks) -> Option<f64> {
        let share = part(raw.axis(&self.axis)? - self.low, self.high - self.low);
        Some(if self.reversed { 1.0 - share } else { share })
    }
}

/// Share of a travel, from 0 to 1.
fn part(gone: f32, whole: f32) -> f64 {
    if whole >= LEAST_TRAVEL { f64::from(gone / whole).clamp(0.0, 1.0) } else { 0.0 }
}

/// What commands the return.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum SwitchMap {
    /// A button, while it is down.
    Button(String),
    /// An axis, while it is past its middle.
    Axis(AxisMap),
}

/// What the axes of one device mean.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct StickMap {
    /// The mode that the axes were assigned by; none where they were found by moving them.
    pub mode: Option<StickMode>,
    /// Fan speed.
    pub throttle: Option<AxisMap>,
    /// Nose up and down.
    pub pitch: Option<AxisMap>,
    /// Left and right.
    pub roll: Option<AxisMap>,
    /// What commands the return.
    pub switch: Option<SwitchMap>,
    /// Whether the throttle's stick springs back to its middle: then it moves the throttle instead of being it.
    pub springs: bool,
    /// Share of the travel about the middle that counts as the middle, from 0 to 0.5.
    pub dead_band: f64,
}

impl Default for StickMap {
    fn default() -> Self {
        Self::by_mode(StickMode::default())
    }
}

impl StickMap {
    /// For a device that reports its two sticks by their usual names, as gamepads do: up and right are 1, and both sticks
    /// spring back. The stick is pulled back for nose up. It has no switch.
    pub fn by_mode(mode: StickMode) -> Self {
        let [throttle, pitch, roll] = mode.axes();
        Self {
            mode: Some(mode),
            throttle: Some(AxisMap::new(throttle, false)),
            pitch: Some(AxisMap::new(pitch, true)),
            roll: Some(AxisMap::new(roll, false)),
            switch: None,
            springs: true,
            dead_band: 0.05,
        }
    }

    /// The axis of a function, where it has one.
    pub const fn axis(&self, function: Function) -> Option<&AxisMap> {
        match function {
            Function::Throttle => self.throttle.as_ref(),
            Function::Pitch => self.pitch.as_ref(),
            Function::Roll => self.roll.as_ref(),
            Function::Switch => match &self.switch {
                Some(SwitchMap::Axis(axis)) => Some(axis),
                _ => None,
            },
        }
    }

    /// The same, to be changed.
    pub const fn axis_mut(&mut self, function: Function) -> Option<&mut AxisMap> {
        match function {
            Function::Throttle => self.throttle.as_mut(),
            Function::Pitch => self.pitch.as_mut(),
            Function::Roll => self.roll.as_mut(),
            Function::Switch => match &mut self.switch {
                Some(SwitchMap::Axis(axis)) => Some(axis),
                _ => None,
            },
        }
    }

    /// Functions whose axis the device has not told of yet: it has to be moved once.
    pub fn unheard(&self, raw: &RawSticks) -> Vec<Function> {
        let unheard = |function: &Function| self.axis(*function).is_some_and(|axis| raw.axis(&axis.axis).is_none());
        Function::ALL.into_iter().filter(unheard).collect()
    }

    /// Where the sticks are, and whether the switch is on. `throttle_before` is the share of the full fan speed so far, which
    /// stays where nothing moves it; `dt` is the time since, seconds.
    pub fn read(&self, raw: &RawSticks, throttle_before: f64, dt: f64) -> (Sticks, bool) {
        let dead_band = if self.dead_band.is_finite() { self.dead_band.clamp(0.0, 0.5) } else { 0.0 };
        let centred = |axis: &Option<AxisMap>| {
            let share = axis.as_ref().and_then(|axis| axis.centred(raw)).unwrap_or(0.0);
            ((share.abs() - dead_band) / (1.0 - dead_band)).max(0.0).copysign(share)
        };
        let throttle_share = if self.springs {
            let dt = if dt.is_finite() { dt.max(0.0) } else { 0.0 };
            throttle_before + centred(&self.throttle) * THROTTLE_RATE * dt
        } else {
            self.throttle.as_ref().and_then(|axis| axis.travel(raw)).unwrap_or(throttle_before)
        };
        let on = match &self.switch {
            Some(SwitchMap::Button(button)) => raw.buttons.contains(button),
            Some(SwitchMap::Axis(axis)) => axis.centred(raw).is_some_and(|share| share > SWITCHED_ON),
            None => false,
        };
        let (roll_share, pitch_share) = (centred(&self.roll), centred(&self.pitch));
        (Sticks { roll_share, pitch_share, throttle_share }.within_reach(), on)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn raw(axes: &[(&str, f32)]) -> RawSticks {
        let axes = axes.iter().map(|(id, value)| ((*id).to_owned(), *value)).collect();
        RawSticks { name: "pad".into(), axes, ..RawSticks::default() }
    }

    /// With every axis in its place, no dead band and a throttle that stays.
    fn plain() -> StickMap {
        StickMap { springs: false, dead_band: 0.0, ..StickMap::by_mode(StickMode::Two) }
    }

    #[track_caller]
    fn check(map: &StickMap, axes: &[(&str, f32)], roll: f64, pitch: f64, throttle: f64) {
        let (sticks, _) = map.read(&raw(axes), 0.25, 0.1);
        let found = [sticks.roll_share, sticks.pitch_share, sticks.throttle_share];
        for (found, wanted) in found.into_iter().zip([roll, pitch, throttle]) {
            assert!((found - wanted).abs() < 1e-6, "{sticks:?} for {roll}, {pitch}, {throttle}");
        }
    }

    /// Trade knowledge: mode 1 has pitch left and throttle right, mode 2 the other way round, both with roll right; modes 3
    /// and 4 are their mirror images. Sticks: left up, left right, right up, right right, each alone and in a size of its own.
    #[test]
    fn each_mode_gives_each_hand_its_functions() {
        let sticks = [("left stick y", 0.2), ("left stick x", 0.4), ("right stick y", 0.6), ("right stick x", 0.8)];
        for (mode, roll, up, throttle_up) in [
            (StickMode::One, 0.8, 0.2, 0.6),
            (StickMode::Two, 0.8, 0.6, 0.2),
            (StickMode::Three, 0.4, 0.2, 0.6),
            (StickMode::Four, 0.4, 0.6, 0.2),
        ] {
            let map = StickMap { springs: false, dead_band: 0.0, ..StickMap::by_mode(mode) };
            // Away is nose down; the throttle's travel is from -1 to 1.
            check(&map, &sticks, roll, -up, f64::midpoint(throttle_up, 1.0));
        }
    }

    #[test]
    fn an_axis_that_is_off_centre_is_whole_on_both_sides() {
        let roll = AxisMap { axis: "a".into(), low: -0.6, middle: 0.2, high: 0.8, reversed: false };
        let mut map = StickMap { roll: Some(roll), ..plain() };
        for (value, share) in [(-0.7, -1.0), (-0.6, -1.0), (-0.2, -0.5), (0.2, 0.0), (0.5, 0.5), (0.8, 1.0), (2.0, 1.0)]
        {
            check(&map, &[("a", value)], share, 0.0, 0.25);
        }
        map.axis_mut(Function::Roll).unwrap().reversed = true;
        check(&map, &[("a", 0.5)], -0.5, 0.0, 0.25);
        map.dead_band = 0.2;
        // Inside the band nothing; beyond it the rest of the travel counts as a whole: (0.6 - 0.2) / (1 - 0.2).
        check(&map, &[("a", 0.3)], 0.0, 0.0, 0.25);
        check(&map, &[("a", 0.56)], -0.5, 0.0, 0.25);
    }

    #[test]
    fn a_throttle_stays_and_one_that_springs_back_is_moved() {
        let mut map = plain();
        check(&map, &[("left stick y", -1.0)], 0.0, 0.0, 0.0);
        check(&map, &[("left stick y", 0.0)], 0.0, 0.0, 0.5);
        map.axis_mut(Function::Throttle).unwrap().reversed = true;
        check(&map, &[("left stick y", -1.0)], 0.0, 0.0, 1.0);
        // Not heard of: as it was.
        check(&map, &[], 0.0, 0.0, 0.25);
        assert_eq!(map.unheard(&raw(&[("right stick x", 0.0)])), [Function::Throttle, Function::Pitch]);
        let springs = StickMap { springs: true, ..plain() };
        check(&springs, &[("left stick y", 0.0)], 0.0, 0.0, 0.25);
        check(&springs, &[("left stick y", 1.0)], 0.0, 0.0, 0.25 + 0.1 * THROTTLE_RATE);
        check(&springs, &[("left stick y", -0.5)], 0.0, 0.0, 0.25 - 0.05 * THROTTLE_RATE);
    }

    #[test]
    fn a_switch_is_a_button_or_an_axis_past_its_middle() {
        let mut map = StickMap { switch: Some(SwitchMap::Axis(AxisMap::new("s", false))), ..plain() };
        let on = |map: &StickMap, value| map.read(&raw(&[("s", value)]), 0.0, 0.1).1;
        assert!(!on(&map, -1.0) && !on(&map, 0.1) && on(&map, 1.0));
        map.axis_mut(Function::Switch).unwrap().reversed = true;
        assert!(on(&map, -1.0) && !on(&map, 1.0));
        map.switch = Some(SwitchMap::Button("three".into()));
        let mut pressed = raw(&[]);
        assert!(!map.read(&pressed, 0.0, 0.1).1);
        pressed.buttons.insert("three".into());
        assert!(map.read(&pressed, 0.0, 0.1).1);
    }

    #[test]
    fn whatever_comes_sticks_stay_within_reach() {
        let odd = [f32::NAN, f32::INFINITY, f32::NEG_INFINITY, -1e30, 1e30, 0.0, 1.0];
        for low in odd {
            for value in odd {
                let axis = AxisMap { axis: "a".into(), low, middle: value, high: low, reversed: low > value };
                let some = Some(axis);
                let wild = StickMap { roll: some.clone(), pitch: some.clone(), throttle: some, ..plain() };
                for map in [wild.clone(), StickMap { springs: true, dead_band: f64::NAN, ..wild }] {
                    for dt in [0.1, f64::NAN, f64::INFINITY, -1.0] {
                        let (sticks, _) = map.read(&raw(&[("a", value)]), f64::from(low), dt);
                        assert_eq!(sticks, sticks.within_reach());
                    }
                }
            }
        }
    }

    #[test]
    fn a_map_comes_back_as_it_was_kept_and_reads_older_ones() {
        let map = StickMap { switch: Some(SwitchMap::Axis(AxisMap::new("s", true))), ..plain() };
        let kept = serde_json::to_string(&map).unwrap();
        assert_eq!(serde_json::from_str::<StickMap>(&kept).unwrap(), map);
        assert_eq!(serde_json::from_str::<StickMap>(r#"{"later":1}"#).unwrap(), StickMap::default());
    }
}
