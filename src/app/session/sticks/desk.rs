//! What is flown with, and where does that put the sticks now?

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Finding, Function, Keys, KeysHeld, RawSticks, StickMap, StickMode};
use crate::rehearsal::Sticks;

/// What a person flies with.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Way {
    /// The keyboard.
    #[default]
    Keys,
    /// The mouse in a square, with the keyboard's throttle.
    Mouse,
    /// A device that is plugged in, by its name.
    Device(String),
}

/// What is asked of the sticks.
#[derive(Debug, Clone, PartialEq)]
pub enum StickCommand {
    /// Flies with this.
    FlyWith(Way),
    /// Assigns the axes of the device by a stick mode, as gamepads report them.
    Mode(StickMode),
    /// Turns an axis of the device round, or back.
    Reverse(Function, bool),
    /// Says whether the stick of the throttle springs back.
    Springs(bool),
    /// Sets how much about the middle counts as the middle, as a share of the travel.
    DeadBand(f64),
    /// Begins to find the axes of the device by moving them.
    Find,
    /// Goes on with that where nothing but the person can say so.
    GoOn,
    /// Gives it up.
    StopFinding,
    /// These keys are down.
    Held(KeysHeld),
    /// The mouse is here in its square, or nowhere.
    Mouse(Option<[f64; 2]>),
}

/// Everything about the sticks.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StickDesk {
    /// What the axes mean, by the name of the device.
    pub maps: BTreeMap<String, StickMap>,
    /// What is flown with.
    pub way: Way,
    /// What is plugged in, by name.
    plugged: Vec<RawSticks>,
    finding: Option<Finding>,
    keys: Keys,
    now: Sticks,
}

impl StickDesk {
    /// What is plugged in.
    pub fn plugged(&self) -> &[RawSticks] {
        &self.plugged
    }

    /// What the device that is flown with says; none where there is none, or where it is unplugged.
    pub fn raw(&self) -> Option<&RawSticks> {
        let Way::Device(name) = &self.way else { return None };
        self.plugged.iter().find(|raw| raw.name == *name)
    }

    /// Whether the device that is flown with is no longer there: whoever flies waits for it.
    pub fn unplugged(&self) -> bool {
        matches!(self.way, Way::Device(_)) && self.raw().is_none()
    }

    /// What the axes of a device mean; as those of a gamepad in mode 2 until somebody says otherwise.
    pub fn map(&self, name: &str) -> StickMap {
        self.maps.get(name).cloned().unwrap_or_default()
    }

    /// The finding in progress.
    pub const fn finding(&self) -> Option<&Finding> {
        self.finding.as_ref()
    }

    /// Where the sticks were when they were last asked for.
    pub const fn now(&self) -> Sticks {
        self.now
    }

    /// Takes what every device says, `dt` seconds after the last time.
    pub fn hear(&mut self, plugged: Vec<RawSticks>, dt: f64) {
        self.plugged = plugged;
        let Self { plugged, finding: Some(finding), way: Way::Device(name), .. } = self else { return };
        if let Some(raw) = plugged.iter().find(|raw| raw.name == *name) {
            finding.hear(raw, dt);
        }
    }

    /// Where the sticks are, `dt` seconds after the last time, and whether the switch of the return is on. While the device is
    /// unplugged they are in the middle and the throttle stays.
    pub fn sticks(&mut self, dt: f64) -> (Sticks, bool) {
        let before = self.now;
        let let_go = Sticks { throttle_share: before.throttle_share, ..Sticks::default() };
        let (now, on) = match &self.way {
            Way::Keys => (Keys { mouse: None, ..self.keys }.after(before, dt), false),
            Way::Mouse => (self.keys.after(before, dt), false),
            Way::Device(name) => self.raw().map_or((let_go, false), |raw| {
                let map = self.map(name);
                map.read(raw, before.throttle_share, dt)
            }),
        };
        self.now = now;
        (now, on)
    }

    /// Puts the sticks somewhere, as where a flight begins with its throttle set.
    pub const fn put(&mut self, sticks: Sticks) {
        self.now = sticks;
    }

    /// Obeys a command.
    pub fn obey(&mut self, command: StickCommand) {
        match command {
            StickCommand::FlyWith(way) => {
                self.finding = self.finding.take().filter(|_| way == self.way);
                self.way = way;
            }
            StickCommand::Mode(mode) => self.change(|map| {
                *map = StickMap { dead_band: map.dead_band, switch: map.switch.take(), ..StickMap::by_mode(mode) };
            }),
            StickCommand::Reverse(function, reversed) => self.change(|map| {
                if let Some(axis) = map.axis_mut(function) {
                    axis.reversed = reversed;
                }
            }),
            StickCommand::Springs(springs) => self.change(|map| map.springs = springs),
            StickCommand::DeadBand(share) => self.change(|map| map.dead_band = share),
            StickCommand::Find => self.finding = self.raw().map(|_| Finding::default()),
            StickCommand::GoOn => {
                if let Some(found) = self.finding.as_mut().and_then(Finding::go_on) {
                    self.change(|map| *map = StickMap { dead_band: map.dead_band, ..found });
                    self.finding = None;
                }
            }
            StickCommand::StopFinding => self.finding = None,
            StickCommand::Held(held) => self.keys.held = held,
            StickCommand::Mouse(mouse) => self.keys.mouse = mouse,
        }
    }

    /// Changes what the axes of the device mean.
    fn change(&mut self, change: impl FnOnce(&mut StickMap)) {
        if let Way::Device(name) = &self.way {
            change(self.maps.entry(name.clone()).or_default());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::session::sticks::{Asked, AxisMap, SwitchMap};

    fn raw(name: &str, axes: &[(&str, f32)]) -> RawSticks {
        let axes = axes.iter().map(|(id, value)| ((*id).to_owned(), *value)).collect();
        RawSticks { name: name.into(), axes, ..RawSticks::default() }
    }

    fn flying_with(name: &str) -> StickDesk {
        let mut desk = StickDesk::default();
        desk.obey(StickCommand::FlyWith(Way::Device(name.into())));
        desk
    }

    #[test]
    fn a_device_pulled_out_is_told_and_taken_up_again() {
        let mut desk = flying_with("pad");
        desk.obey(StickCommand::Springs(false));
        let pad = raw("pad", &[("right stick x", 1.0), ("left stick y", 0.5)]);
        desk.hear(vec![raw("another", &[]), pad.clone()], 0.1);
        assert!(!desk.unplugged());
        assert_eq!(desk.sticks(0.1).0, Sticks { roll_share: 1.0, pitch_share: 0.0, throttle_share: 0.75 });
        desk.hear(vec![raw("another", &[("right stick x", -1.0)])], 0.1);
        assert!(desk.unplugged());
        // Nobody holds the stick, and the fan turns as it did.
        assert_eq!(desk.sticks(0.1).0, Sticks { throttle_share: 0.75, ..Sticks::default() });
        // Plugged in again it has told of nothing but what has moved since.
        desk.hear(vec![raw("pad", &[("right stick x", -1.0)])], 0.1);
        assert!(!desk.unplugged());
        assert_eq!(desk.sticks(0.1).0, Sticks { roll_share: -1.0, pitch_share: 0.0, throttle_share: 0.75 });
        desk.hear(Vec::new(), 0.1);
        desk.obey(StickCommand::FlyWith(Way::Keys));
        assert!(!desk.unplugged(), "keys are always there");
    }

    #[test]
    fn keys_and_mouse_fly_and_the_throttle_goes_along() {
        let mut desk = StickDesk::default();
        desk.put(Sticks { throttle_share: 0.6, ..Sticks::default() });
        desk.obey(StickCommand::Held(KeysHeld { right: true, ..KeysHeld::default() }));
        desk.obey(StickCommand::Mouse(Some([-0.5, 0.5])));
        assert_eq!(desk.sticks(10.0).0, Sticks { roll_share: 1.0, pitch_share: 0.0, throttle_share: 0.6 });
        desk.obey(StickCommand::FlyWith(Way::Mouse));
        assert_eq!(desk.sticks(0.1).0, Sticks { roll_share: -0.5, pitch_share: 0.5, throttle_share: 0.6 });
        assert_eq!(desk.now().pitch_share, 0.5);
    }

    #[test]
    fn each_device_keeps_what_its_axes_mean() {
        let mut desk = flying_with("one");
        desk.obey(StickCommand::Mode(StickMode::One));
        desk.obey(StickCommand::DeadBand(0.1));
        desk.obey(StickCommand::Reverse(Function::Roll, true));
        desk.obey(StickCommand::FlyWith(Way::Device("two".into())));
        desk.obey(StickCommand::Mode(StickMode::Three));
        let one = desk.map("one");
        assert_eq!((one.mode, one.dead_band, one.roll.unwrap().reversed), (Some(StickMode::One), 0.1, true));
        assert_eq!(desk.map("two"), StickMap::by_mode(StickMode::Three));
        // A mode leaves the switch that was found.
        let switch = Some(SwitchMap::Axis(AxisMap::new("s", false)));
        desk.maps.get_mut("two").unwrap().switch.clone_from(&switch);
        desk.obey(StickCommand::Mode(StickMode::Four));
        assert_eq!(desk.map("two"), StickMap { switch, ..StickMap::by_mode(StickMode::Four) });
    }

    #[test]
    fn finding_waits_while_the_device_is_gone_and_ends_with_another() {
        let mut desk = flying_with("box");
        desk.obey(StickCommand::Find);
        assert_eq!(desk.finding(), None, "nothing is plugged in");
        desk.hear(vec![raw("box", &[("z", -1.0)])], 0.1);
        desk.obey(StickCommand::Find);
        let settling = Some(Asked::Settle(Function::Throttle));
        desk.hear(Vec::new(), 60.0);
        assert_eq!(desk.finding().map(Finding::asked), settling);
        for _ in 0..10 {
            desk.hear(vec![raw("box", &[("z", -1.0)])], 0.1);
        }
        assert_eq!(desk.finding().map(Finding::asked), Some(Asked::Move(Function::Throttle)));
        desk.obey(StickCommand::FlyWith(Way::Keys));
        assert_eq!(desk.finding(), None);
    }
}
