//! Where to look, when to take over and where the sun stands, each in a sentence or two.

use super::Plan;
use crate::margins::{Lap, TakeOver, eyes, hour};
use crate::recovery::FailsafeAction;
use crate::units::Bearing;
use crate::words::{bearing, fists};

impl Plan<'_> {
    /// The hours of the flight, such as "18:00 to 20:00"; none where none are named.
    pub(crate) fn hours(&self) -> Option<String> {
        self.scenario.file.brief.hours.as_ref().map(|hours| format!("{} to {}", hours.from, hours.to))
    }

    /// Whether the sun stands in the circle, and on that day from when to when.
    pub(crate) fn sun(&self) -> String {
        let spells: Vec<String> =
            self.glare.spells.iter().map(|[from, to]| format!("{} to {}", time(*from), time(to + 1))).collect();
        let whole =
            if spells.is_empty() { String::new() } else { format!(" Within it on that day: {}.", spells.join(", ")) };
        self.sun_briefly() + &whole
    }

    /// Whether the sun stands in the circle in the hours of the flight, and from when it is clear.
    pub(crate) fn sun_briefly(&self) -> String {
        let glare = &self.glare;
        let within = format!("{:.0} deg of the sun", glare.within_deg);
        if !glare.known {
            return "no circle is flown, so there is none to stand in it.".into();
        }
        let Some(worst) = glare.worst else { return "down all the time.".into() };
        let at = time(worst.clock_min);
        let (when, clock) = if glare.hours.is_some() { ("in these hours", "") } else { ("all day", " (by UTC)") };
        if worst.share <= 0.0 {
            let nearest = worst.nearest_deg.floor();
            return format!("the circle keeps out of {within} {when}: nearest {nearest:.0} deg at {at}{clock}.");
        }
        let since = glare.spells.iter().find(|[from, to]| (*from..=*to).contains(&worst.clock_min));
        let since = since.map_or_else(String::new, |[from, _]| format!(", in it since {}", time(*from)));
        let clears = match glare.clears(worst.clock_min) {
            Some(minute) => format!("clears at {}", time(minute)),
            None => "not clear before the day is over".into(),
        };
        let share = (worst.share * 100.0).max(1.0);
        format!("up to {share:.0} % of the lap within {within}, worst at {at}{clock}{since}; {clears}.")
    }

    pub(crate) fn look_cue(&self) -> Option<String> {
        let look = self.look.as_ref()?;
        let fists = fists(look.fists);
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
            "{}, {} o'clock, {fists} up{beside}{way}.{slow}",
            bearing(Bearing::from_deg(look.bearing.deg().round())),
            look.clock,
        ))
    }

    pub(crate) fn take_over(&self) -> String {
        let plan = &self.scenario.file.recovery;
        if plan.failsafe_action != FailsafeAction::Return {
            let margins = &self.margins;
            return format!(
                "The fan stops: there is no circle to take over on. It is down {:.0} s after the loss, {:.0} m from where it \
                 was lost. Take it whenever control is back.",
                margins.end_s, margins.figures.drift_m
            );
        }
        let Some((part, lap)) = self.take_over.as_ref().zip(self.lap.as_ref()) else {
            return "No part of this lap is slow and off the maximum bank: there is no good place to take over.".into();
        };
        let slow = match (part.slow, part.away) {
            (true, true) => "slow, against the wind, flying away from you",
            (true, false) => "slow, against the wind",
            (false, true) => "flying away from you",
            (false, false) => "anywhere on the lap",
        };
        let clock = |index: Option<usize>| index.map(|index| self.clock(lap.place[index]));
        let ends = [part.bearings.first().copied(), part.middle(lap), part.bearings.last().copied()].map(clock);
        let hours = match ends {
            [Some(from), Some(_), Some(to)] if from == to => format!("at {from} o'clock: "),
            [Some(from), Some(by), Some(to)] if by == from || by == to => format!("from {from} to {to} o'clock: "),
            [Some(from), Some(by), Some(to)] => format!("from {from} by way of {by} to {to} o'clock: "),
            _ => String::new(),
        };
        let sun = match self.arc_in_the_sun(part, lap) {
            share if share > 0.0 => format!(" Up to {:.0} % of that arc is in the sun.", (share * 100.0).max(1.0)),
            _ => String::new(),
        };
        format!(
            "On the arc marked \u{201c}take over\u{201d}, {hours}{slow}, {:.0} s each lap. Never on the fast half.{sun}",
            part.seconds
        )
    }

    /// Share of the take-over arc that is in the glare at the worst moment of the flight's hours.
    fn arc_in_the_sun(&self, part: &TakeOver, lap: &Lap) -> f64 {
        let Some(worst) = self.glare.worst.filter(|worst| worst.share > 0.0 && self.glare.hours.is_some()) else {
            return 0.0;
        };
        let (eyes, sun) = (eyes(self.scenario), worst.sun.direction());
        let blinded = |&&index: &&usize| {
            let sight = lap.place[index].extend(lap.height_m[index]) - eyes;
            sight.angle_between(sun).to_degrees() <= self.glare.within_deg
        };
        let lasts = |index: &usize| lap.lasts_s(*index);
        part.bearings.iter().filter(blinded).map(lasts).sum::<f64>() / part.seconds
    }

    /// The hour at which a place is seen from the pilot position.
    pub(crate) fn clock(&self, at: glam::DVec2) -> u32 {
        hour(Bearing::of(at - self.scenario.field.pilot), self.scenario.field.facing)
    }
}

/// A minute of the day as a clock shows it.
fn time(minute: i32) -> String {
    format!("{:02}:{:02}", minute / 60, minute % 60)
}
