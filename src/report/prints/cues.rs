//! Where to look, when to take over and where the sun stands, each in a sentence or two.

use super::Plan;
use crate::ledger::{facing, hour};
use crate::recovery::Policy;
use crate::report::text::{bearing, number};
use crate::units::Bearing;

impl Plan<'_> {
    /// Whether the sun stands in the circle, and on that day from when to when.
    pub(super) fn sun(&self) -> String {
        let spells: Vec<String> =
            self.glare.spells.iter().map(|[from, to]| format!("{} to {}", time(*from), time(*to))).collect();
        let whole =
            if spells.is_empty() { String::new() } else { format!(" Within it on that day: {}.", spells.join(", ")) };
        self.sun_briefly() + &whole
    }

    /// Whether the sun stands in the circle in the hours of the flight, and when it clears.
    pub(super) fn sun_briefly(&self) -> String {
        let glare = &self.glare;
        let within = format!("{:.0} deg of the sun", glare.within_deg);
        if !glare.known {
            return "Not looked at: it takes a whole lap.".into();
        }
        let Some(worst) = glare.worst else { return "Down all the time.".into() };
        let at = time(worst.clock_min);
        let (when, clock) = if glare.hours.is_some() { ("in these hours", "") } else { ("all day", " (by UTC)") };
        if worst.share <= 0.0 {
            let nearest = worst.nearest_deg.floor();
            return format!("The circle keeps out of {within} {when}: nearest {nearest:.0} deg at {at}{clock}.");
        }
        let clears = match glare.clears(worst.clock_min) {
            Some(minute) => format!("clears at {}", time(minute)),
            None => "not clear before the day is over".into(),
        };
        let share = (worst.share * 100.0).max(1.0);
        format!("{share:.0} % of the lap within {within} at {at}{clock}; {clears}.")
    }

    pub(super) fn look_cue(&self) -> Option<String> {
        let look = self.look.as_ref()?;
        let fists = number(look.fists);
        let way = match look.to_right {
            Some(true) => ", moving left to right",
            Some(false) => ", moving right to left",
            None => "",
        };
        let beside = look.landmark.as_ref().map_or_else(String::new, |(name, aside)| match aside.round() {
            aside if aside.abs() < 1.5 => format!(", over the {name}"),
            aside => format!(", {:.0} deg {} of the {name}", aside.abs(), if aside > 0.0 { "right" } else { "left" }),
        });
        let slow = look.slow.map_or_else(String::new, |(side, share)| {
            format!(" It lingers on the {} side: {:.0} % of the lap.", side.name(), share * 100.0)
        });
        Some(format!(
            "{}, {} o'clock, {fists} fist{} up{beside}{way}.{slow}",
            bearing(Bearing::from_deg(look.bearing.deg().round())),
            look.clock,
            if look.fists > 1.0 { "s" } else { "" },
        ))
    }

    pub(super) fn take_over(&self) -> String {
        let plan = &self.scenario.file.recovery;
        if plan.policy != Policy::Return {
            let ledger = &self.ledger;
            return format!(
                "The fan stops: there is no circle to take over on. It is down {:.0} s after the loss, {:.0} m from where it \
                 was lost. Take it whenever the link is back.",
                ledger.end_s, ledger.figures.drift_m
            );
        }
        let Some((part, lap)) = self.hand_back.as_ref().zip(self.lap.as_ref()) else {
            return "No part of this lap is slow and off the bank limit: there is no good place to take over.".into();
        };
        let slow = match (part.slow, part.away) {
            (true, true) => "slow, against the wind, flying away from you",
            (true, false) => "slow, against the wind",
            (false, true) => "flying away from you",
            (false, false) => "anywhere on the lap",
        };
        let clock = |index: Option<&usize>| index.map(|&index| self.clock(lap.place[index]));
        let (from, to) = (clock(part.bearings.first()), clock(part.bearings.last()));
        let hours = match from.zip(to) {
            Some((from, to)) if from != to => format!("from {from} round to {to} o'clock: "),
            Some((from, _)) => format!("at {from} o'clock: "),
            None => String::new(),
        };
        format!("On the thick arc, {hours}{slow}, {:.0} s each lap. Never on the fast half.", part.seconds)
    }

    /// The hour at which a place is seen from the stand.
    pub(super) fn clock(&self, at: glam::DVec2) -> u32 {
        hour(Bearing::of(at - self.scenario.field.stand), facing(self.scenario).0)
    }
}

/// A minute of the day as a clock shows it.
fn time(minute: i32) -> String {
    format!("{:02}:{:02}", minute / 60, minute % 60)
}
