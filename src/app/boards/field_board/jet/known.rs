//! What people know of their jet from flying it: stall speed, top speed and climb, in the place of coefficients.

use bevy_egui::egui::Ui;

use crate::app::boards::field_board::soft;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{About, EntryKind, Numbered as _};
use crate::brief::SaidBack;
use crate::jet::{Entry as Sheeted, JetSheet, Origin};
use crate::units::Speed;
use crate::words::Measure;
use crate::words::help::Topic;

/// Spread that such a number begins with, as a share of it: judgement.
const SPREAD: f64 = 0.05;

/// One number that people know.
struct Known {
    /// What the switch says.
    switch: &'static str,
    name: &'static str,
    place: &'static str,
    topic: Option<Topic>,
    /// How to find it.
    how: &'static str,
    /// What the sheet amounts to so far, m/s.
    worked_out: fn(&SaidBack) -> f64,
    get: fn(&JetSheet) -> Option<Sheeted<Speed>>,
    put: fn(&mut JetSheet, Option<Sheeted<Speed>>),
    /// The key that it takes the place of: entered from what it was worked out to be, or taken out.
    instead: fn(&mut JetSheet, &JetSheet),
}

static KNOWN: [Known; 3] = [
    Known {
        switch: "Stall speed is known",
        name: "stall speed as flown",
        place: "/jet/stall_speed",
        topic: Some(Topic::StallMargin),
        how: "High and in sight, fan off, wings level, slow to the stall into wind, then downwind, and average the two ground \
              speeds.",
        worked_out: |said| said.stall_mps,
        get: |jet| jet.stall_speed,
        put: |jet, speed| jet.stall_speed = speed,
        instead: |jet, whole| match jet.stall_speed {
            Some(_) => jet.lift_max = None,
            None => (jet.lift_max, jet.wing_area) = (whole.lift_max, whole.wing_area),
        },
    },
    Known {
        switch: "Top speed is known",
        name: "top speed as flown",
        place: "/jet/top_speed",
        topic: None,
        how: "Level, full throttle, fresh pack, both ways along the runway, and average the two ground speeds.",
        worked_out: |said| said.top_speed_mps,
        get: |jet| jet.top_speed,
        put: |jet, speed| jet.top_speed = speed,
        instead: |jet, whole| match jet.top_speed {
            Some(_) => jet.drag_zero_lift = None,
            None => (jet.drag_zero_lift, jet.nozzle_area) = (whole.drag_zero_lift, whole.nozzle_area),
        },
    },
    Known {
        switch: "Climb is known",
        name: "climb as flown",
        place: "/jet/climb",
        topic: None,
        how: "Full throttle, fresh pack, as steep as the return speed can be held: height gained over the seconds it takes.",
        worked_out: |said| said.climb_mps,
        get: |jet| jet.climb,
        put: |jet, rate| jet.climb = rate,
        instead: |jet, whole| match jet.climb {
            Some(_) => jet.fan_efficiency = None,
            None => (jet.fan_efficiency, jet.full_power) = (whole.fan_efficiency, whole.full_power),
        },
    },
];

/// To a tenth of a metre a second, as a person would write it.
fn begin(mps: f64) -> Sheeted<Speed> {
    let tenths = |number: f64| (10.0 * number).round() / 10.0;
    Sheeted::si(tenths(mps), tenths(SPREAD * mps), Origin::Estimated)
}

impl Known {
    /// Writes it, or takes it away; the jet stays what it is, but for rounding.
    fn turn(&self, jet: &mut JetSheet, number: Option<Sheeted<Speed>>) {
        let whole = jet.whole();
        (self.put)(jet, number);
        (self.instead)(jet, &whole);
    }
}

/// Shows the switches, and the numbers that are there.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    ui.add_space(6.0);
    ui.heading("As flown");
    soft(ui, view, "Better than coefficients: what you know of this jet. Wing, drag and fan are worked out from it.");
    for known in &KNOWN {
        let now = (known.get)(&file.jet);
        if let Some(on) = entry::switch(ui, out, known.switch, now.is_some()) {
            let what = if on { format!("enter the {}", known.name) } else { format!("take the {} away", known.name) };
            let number = on.then(|| begin((known.worked_out)(&SaidBack::of(file))));
            entry::change(view, out, what, |file| known.turn(&mut file.jet, number));
        }
        let Some(number) = now else { continue };
        let kind = EntryKind::Of(Measure::Speed);
        let about = About { name: known.name, kind, place: known.place, topic: known.topic };
        let new = entry::number(ui, view, out, &about, number.number());
        entry::set(view, out, known.name, new, |file, number| {
            let entered = Sheeted::si(number.value, number.spread, number.origin);
            (known.put)(&mut file.jet, Some(entered));
        });
        soft(ui, view, known.how);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jet::JetNumbers;
    use crate::run::Scenario;

    #[test]
    fn a_number_that_is_known_leaves_the_jet_what_it_was_and_so_does_taking_it_away() {
        for known in &KNOWN {
            let mut file = Scenario::tight_strip().file;
            let number = begin((known.worked_out)(&SaidBack::of(&file)));
            let before = JetNumbers::new(&file.jet, 1.225);
            for number in [Some(number), None] {
                known.turn(&mut file.jet, number);
                assert_eq!((known.get)(&file.jet), number);
                Scenario::from_file(file.clone()).unwrap();
                let after = JetNumbers::new(&file.jet, 1.225);
                approx::assert_relative_eq!(after.stall_speed(1.0), before.stall_speed(1.0), max_relative = 0.01);
                approx::assert_relative_eq!(after.top_speed(), before.top_speed(), max_relative = 0.01);
                approx::assert_relative_eq!(after.thrust_full(0.0), before.thrust_full(0.0), max_relative = 0.01);
            }
        }
    }
}
