//! Does it find what somebody moves, on devices of several kinds?

use std::collections::{BTreeMap, BTreeSet};

use super::{Asked, Finding};
use crate::app::session::sticks::{Function, RawSticks, StickMap, SwitchMap};

const HZ: f64 = 60.0;

/// A device under somebody's hands; `noise` is how far each axis jitters.
struct Bench {
    axes: BTreeMap<&'static str, f32>,
    noise: BTreeMap<&'static str, f32>,
    buttons: BTreeSet<String>,
    finding: Finding,
    tick: u32,
}

impl Bench {
    fn new(axes: &[(&'static str, f32)]) -> Self {
        let axes = axes.iter().copied().collect();
        Self { axes, noise: BTreeMap::new(), buttons: BTreeSet::new(), finding: Finding::default(), tick: 0 }
    }

    fn raw(&self) -> RawSticks {
        // To one side, then to the other, in an uneven rhythm.
        let side = [1.0, -0.4, -1.0, 0.7, 0.2, -0.9, 0.4][self.tick as usize % 7];
        let value = |id, value: f32| value + side * self.noise.get(id).copied().unwrap_or(0.0);
        let axes = self.axes.iter().map(|(id, now)| ((*id).to_owned(), value(id, *now))).collect();
        RawSticks { name: "box".into(), axes, buttons: self.buttons.clone() }
    }

    fn wait(&mut self, seconds: f64) {
        for _ in 0..(seconds * HZ) as u32 {
            self.tick += 1;
            let raw = self.raw();
            self.finding.hear(&raw, 1.0 / HZ);
        }
    }

    /// Moves an axis there within 0.3 s.
    fn push(&mut self, id: &'static str, to: f32) {
        let from = self.axes.get(id).copied().unwrap_or(to);
        for step in 1..=18u8 {
            self.axes.insert(id, from + (to - from) * f32::from(step) / 18.0);
            self.wait(1.5 / HZ);
        }
    }

    /// Waits until it is asked for, moves it there, holds it and brings it back.
    #[track_caller]
    fn give(&mut self, function: Function, id: &'static str, to: f32, back: f32) {
        self.wait(1.0);
        assert_eq!(self.finding.asked(), Asked::Move(function));
        self.push(id, to);
        self.wait(0.7);
        assert_ne!(self.finding.asked(), Asked::Move(function), "{id} was not taken");
        self.push(id, back);
    }

    /// The rest of it, once the switch is there or passed over.
    #[track_caller]
    fn finish(&mut self, ends: &[(&'static str, f32, f32)], let_go: &[(&'static str, f32)]) -> StickMap {
        assert_eq!(self.finding.asked(), Asked::Ends);
        assert!(self.finding.not_yet().is_some() && self.finding.go_on().is_none());
        assert_eq!(self.finding.asked(), Asked::Ends);
        for &(id, low, high) in ends {
            for to in [low, high] {
                self.push(id, to);
                self.wait(0.7);
            }
        }
        assert_eq!(self.finding.not_yet(), None);
        assert_eq!(self.finding.go_on(), None);
        for &(id, to) in let_go {
            self.push(id, to);
        }
        self.wait(0.7);
        self.finding.go_on().unwrap()
    }
}

#[track_caller]
fn check(map: &StickMap, function: Function, id: &str, [low, middle, high]: [f32; 3], reversed: bool) {
    let axis = map.axis(function).unwrap();
    assert_eq!((axis.axis.as_str(), axis.reversed), (id, reversed));
    for (found, wanted) in [(axis.low, low), (axis.middle, middle), (axis.high, high)] {
        assert!((found - wanted).abs() < 0.02, "{axis:?} for {low}, {middle}, {high}");
    }
}

/// A transmitter: its throttle rests at -1, roll counts the other way, pitch is off centre and short to one side, two knobs
/// that nobody touches are at their ends, one of them with a worn track that jitters.
#[test]
fn a_transmitter_is_found_as_it_is() {
    let mut bench = Bench::new(&[("x", 0.0), ("y", 0.1), ("z", -1.0), ("knob", -1.0), ("worn", 0.3), ("sw", -1.0)]);
    bench.noise.extend([("worn", 0.6), ("z", 0.02), ("x", 0.03)]);
    bench.give(Function::Throttle, "z", 1.0, -1.0);
    bench.give(Function::Pitch, "y", 0.8, 0.1);
    bench.give(Function::Roll, "x", -1.0, 0.0);
    bench.give(Function::Switch, "sw", 1.0, -1.0);
    let map =
        bench.finish(&[("x", -1.0, 1.0), ("y", -0.9, 0.8), ("z", -1.0, 1.0)], &[("x", 0.0), ("y", 0.1), ("z", -1.0)]);
    check(&map, Function::Throttle, "z", [-1.0, 0.0, 1.0], false);
    check(&map, Function::Pitch, "y", [-0.9, 0.1, 0.8], false);
    check(&map, Function::Roll, "x", [-1.0, 0.0, 1.0], true);
    check(&map, Function::Switch, "sw", [-1.0, 0.0, 1.0], false);
    assert!(!map.springs && map.mode.is_none());
    bench.axes.extend([("x", -1.0), ("y", -0.4), ("z", 0.0), ("sw", 1.0)]);
    bench.noise.clear();
    let (sticks, on) = map.read(&bench.raw(), 0.0, 0.1);
    let found = [sticks.roll_share, sticks.pitch_share, sticks.throttle_share];
    // Half of the way from 0.1 to -0.9, less the dead band: (0.5 - 0.05) / 0.95.
    for (found, wanted) in found.into_iter().zip([1.0, -0.474, 0.5]) {
        assert!((found - wanted).abs() < 0.02, "{sticks:?}");
    }
    assert!(on);
}

#[test]
fn a_gamepad_has_a_throttle_that_springs_back_and_a_button() {
    let mut bench = Bench::new(&[("lx", 0.0), ("ly", 0.0), ("rx", 0.0), ("ry", 0.0)]);
    bench.buttons.insert("stuck".into());
    bench.give(Function::Throttle, "ly", 1.0, 0.0);
    bench.give(Function::Pitch, "ry", -1.0, 0.0);
    bench.give(Function::Roll, "rx", 1.0, 0.0);
    bench.wait(1.0);
    bench.buttons.insert("south".into());
    bench.wait(0.1);
    let ends = [("ly", -1.0, 1.0), ("ry", -1.0, 1.0), ("rx", -1.0, 1.0)];
    let map = bench.finish(&ends, &[("ly", 0.0), ("ry", 0.0), ("rx", 0.0)]);
    check(&map, Function::Throttle, "ly", [-1.0, 0.0, 1.0], false);
    check(&map, Function::Pitch, "ry", [-1.0, 0.0, 1.0], true);
    assert!(map.springs);
    assert_eq!(map.switch, Some(SwitchMap::Button("south".into())));
}

#[test]
fn to_and_fro_is_not_taken_and_neither_is_the_smaller_of_two() {
    let mut bench = Bench::new(&[("x", 0.0), ("y", 0.0), ("z", -1.0)]);
    bench.wait(1.0);
    for _ in 0..6 {
        bench.push("x", 1.0);
        bench.push("x", -1.0);
    }
    assert_eq!(bench.finding.asked(), Asked::Move(Function::Throttle));
    bench.push("x", 0.0);
    bench.push("y", 0.5);
    bench.push("z", 1.0);
    bench.wait(0.7);
    assert_eq!(bench.finding.found().axis(Function::Throttle).unwrap().axis, "z");
}

/// Some systems tell of an axis only once it has moved.
#[test]
fn axes_that_come_late_are_found_the_right_way_round() {
    let mut bench = Bench::new(&[]);
    bench.wait(1.0);
    bench.push("z", -0.98);
    bench.push("z", 1.0);
    bench.wait(0.7);
    check(bench.finding.found(), Function::Throttle, "z", [-0.98, 0.0, 1.0], false);
    bench.push("y", 0.03);
    bench.give(Function::Pitch, "y", 1.0, 0.0);
    bench.push("x", 0.03);
    bench.give(Function::Roll, "x", 1.0, 0.0);
    bench.wait(1.0);
    // A switch is heard of when it is already on.
    bench.axes.insert("sw", 1.0);
    bench.wait(0.7);
    let switch = bench.finding.found().axis(Function::Switch).unwrap();
    assert_eq!((switch.axis.as_str(), switch.reversed), ("sw", false));
}

#[test]
fn an_axis_that_never_rests_stops_nothing() {
    let mut bench = Bench::new(&[("z", -1.0), ("restless", 0.0)]);
    for _ in 0..6 {
        bench.push("restless", 1.0);
        bench.push("restless", -1.0);
    }
    assert_eq!(bench.finding.asked(), Asked::Move(Function::Throttle));
}

#[test]
fn nobody_needs_a_switch() {
    let mut bench = Bench::new(&[("x", 0.0), ("y", 0.0), ("z", -1.0)]);
    bench.give(Function::Throttle, "z", 1.0, -1.0);
    bench.give(Function::Pitch, "y", 1.0, 0.0);
    bench.give(Function::Roll, "x", 1.0, 0.0);
    assert_eq!(bench.finding.go_on(), None);
    assert_eq!((bench.finding.asked(), &bench.finding.found().switch), (Asked::Ends, &None));
}
