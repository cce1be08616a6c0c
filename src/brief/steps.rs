//! What is told at each step, in words for somebody who has never heard of it.

use crate::brief::Plan;
use crate::recovery::FailsafeAction;
use crate::run::Ending;
use crate::words::{self, capital, met, number, usable as told_usable};

/// What of a step moves in the window, where a plain picture does not say it as well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Live {
    /// Nothing: its picture.
    Picture,
    /// The curve of the radius, with the radius under the pointer.
    Curve,
    /// The field as it is.
    Field,
    /// The flight from the loss to the circle.
    Flight,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What it is about.
    pub title: &'static str,
    /// What is told, a paragraph each.
    pub words: Vec<String>,
    /// What moves.
    pub live: Live,
}

impl Plan<'_> {
    /// The steps, in order.
    pub fn steps(&self) -> Vec<Step> {
        let step = |title, live, words: Vec<String>| Step { title, words, live };
        vec![
            step("Why it circles", Live::Picture, self.why()),
            step("A smaller circle can need a bigger field", Live::Picture, self.smaller()),
            step("The curve is a U", Live::Curve, self.curve_words()),
            step("Where it is here, today", Live::Field, self.here()),
            step("Three losses, three things to do", Live::Picture, self.three()),
            step("Where to look", Live::Picture, self.looking()),
            step("One recovery, from the loss on", Live::Flight, self.watched()),
            step("Before anybody flies", Live::Picture, self.before()),
        ]
    }

    fn why(&self) -> Vec<String> {
        let then = match self.scenario.file.recovery.failsafe_action {
            FailsafeAction::Return => "So the jet flies home by itself and circles until somebody has found it by eye.",
            FailsafeAction::WaitThenCut | FailsafeAction::Cut => {
                "Here the plan is to stop the fan and glide. The circle is what it would be if it returned."
            }
        };
        vec![
            "The pilot wears goggles and sees what the jet sees. If the video dies, the pilot knows neither where the \
             jet is nor where to look."
                .into(),
            then.into(),
            "The circle buys time: goggles off, find it with the spotter's help, take over, land.".into(),
            "That works only where the whole of the circle fits: inside the field, off the animals, over the trees, under \
             the height limit, within sight."
                .into(),
        ]
    }

    fn smaller(&self) -> Vec<String> {
        let [small, own] = self.pair();
        let flown_out = |metres: Option<f64>| {
            metres.map_or_else(|| "never flies a whole lap".into(), |far| format!("is flown out to {far:.0} m"))
        };
        let further = small.furthest_m.zip(own.furthest_m).is_some_and(|(small, own)| small > own);
        let turned = if further {
            "So here the smaller circle needs the bigger field."
        } else {
            "In this wind the smaller one still keeps further in. More wind turns that round."
        };
        vec![
            format!(
                "Told to circle at {} m, this jet {}. Told {} m, it {}.",
                number(small.radius_m),
                flown_out(small.furthest_m),
                number(own.radius_m),
                flown_out(own.furthest_m)
            ),
            turned.into(),
            "With the wind behind it the jet races over the ground. To stay on a small circle it would have to lean more \
             than it is allowed to. It can't, so it is blown wide."
                .into(),
            format!(
                "The least this jet can hold: {:.0} m in still air, {:.0} m in this wind, {:.0} m in its gusts.",
                self.margins.figures.smallest_radius_m[0],
                self.margins.figures.smallest_radius_m[1],
                self.margins.figures.smallest_radius_m[2]
            ),
        ]
    }

    fn curve_words(&self) -> Vec<String> {
        let free = self.studies.radius.map(|study| {
            let to = words::bare(&study.free_to);
            if study.free_m > 0.0 {
                format!("The level line is the room there is: {:.0} m from the centre to {to}.", study.free_m)
            } else {
                format!("There is no room at all: the centre itself lies within {to} or beyond it.")
            }
        });
        [
            Some("Left to right: the circle one asks for. Upwards: how far out the jet really goes.".to_owned()),
            Some("Too small, and it is blown wide. Too big, and the circle itself does not fit. The least room is needed at the bottom of the U.".to_owned()),
            free,
            self.studies.radius.map(|study| format!("{}.", capital(&usable(study)))),
            Some("More wind moves the whole left arm to the right and up. On some days nothing is left between the arms: then no circle fits.".to_owned()),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn here(&self) -> Vec<String> {
        let facts = self.facts();
        let wind = match facts.wind_limits.as_ref().map(|found| (found.hand_mps, found)) {
            Some((Some([low, _]), found)) => {
                format!("Up to {low:.1} m/s on the hand-held meter, wind from {}.", found.from)
            }
            Some((None, found)) => {
                format!("It holds in no wind from {}, not even in a calm. What is missed: {}.", found.from, found.limit)
            }
            None => "Up to what wind it holds has not been worked out.".into(),
        };
        let mut words = vec![
            if self.scenario.file.recovery.failsafe_action == FailsafeAction::Return {
                let turn = facts.turn;
                format!("Radius {}, {} above home, {}, {}.", facts.radius, facts.height[0], turn[0], turn[1])
            } else {
                format!("It does not circle: this plan is to {}.", facts.failsafe_action)
            },
            format!("The wind of the plan: {}.", facts.wind),
            wind,
            format!("The sun: {}", facts.sun),
        ];
        words.extend(facts.alarms);
        words
    }

    fn three(&self) -> Vec<String> {
        vec![
            "Video lost: you still have the sticks. Control lost: the jet acts by itself. Both, or falling: look up and move."
                .into(),
            "Say it aloud, at once. The spotter answers with where the jet is.".into(),
            format!(
                "When control is lost the jet will: {}. Authorised by: {}.",
                self.facts().failsafe_action,
                self.facts().authority
            ),
        ]
    }

    fn looking(&self) -> Vec<String> {
        let facts = self.facts();
        [
            facts.look,
            Some(facts.take_over),
            Some(format!("{}.", facts.clock)),
            Some("Goggles off, eyes to the horizon first: against a blank sky they focus on nothing.".into()),
            Some("Say its attitude aloud before you touch the sticks: coming, going, left, right, level.".into()),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn watched(&self) -> Vec<String> {
        let figures = &self.margins.figures;
        let further = match figures.turn_back_m.round() {
            metres if metres >= 1.0 => format!(" Before it has turned for home it is {metres:.0} m further out."),
            _ => String::new(),
        };
        let notices = number(self.scenario.file.delay().value.s());
        let mut words = vec![format!("For {notices} s nothing notices, and the jet goes on as it was.{further}")];
        if let Some(home) = figures.home_s {
            words.push(format!(
                "Then it levels, climbs if it must, and comes home: on the circle {home:.0} s after the loss."
            ));
        }
        if let Some(laps) = figures.laps_to_reserve {
            words.push(format!("From there the battery has {laps:.1} laps before its reserve."));
        }
        let end_s = self.margins.end_s;
        match self.margins.ending {
            Ending::Empty => words.push(format!("{end_s:.0} s after the loss the battery is empty, in the air.")),
            Ending::OutOfTime => words.push("It does not come home in this wind.".into()),
            Ending::Landed => words.push(format!(
                "{end_s:.0} s after the loss it is down, {:.0} m from where it was lost.",
                figures.drift_m
            )),
            Ending::TakenOver => {}
        }
        words.push("Watch where it is nearest to something, and say what you would do at that moment.".into());
        words
    }

    fn before(&self) -> Vec<String> {
        vec![
            "Read the card aloud with the spotter. Agree on the words.".into(),
            "Try the return in sight, high and in light wind, before it is ever needed.".into(),
            "Fly the take-over often: what is not practised takes much longer than anybody thinks.".into(),
            "When something on the list is so, nobody flies first-person.".into(),
            "A margin is not permission. The law, the club, the landowner and the people on the line come first."
                .into(),
        ]
    }
}

fn usable(study: &crate::study::radius::RadiusStudy) -> String {
    match told_usable(&study.usable.mean, None).as_str() {
        "none" => {
            let missed = study.least_bad.as_ref().and_then(|choice| met(&study.limits, &choice.mean));
            let missed = missed.map_or_else(String::new, |missed| format!("; the best of them: {missed}"));
            format!("in this wind no circle about this centre meets every margin{missed}")
        }
        usable => format!("in this wind {usable} meet every margin"),
    }
}
