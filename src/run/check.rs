//! Which numbers of a scenario make no sense, each by itself and against the others.

use super::sections::Sections;
use super::template::TO_FILL_IN;
use super::{FORMAT, Limits, Loss};
use crate::error::{Fault, Severity};
use crate::field::Circuit;
use crate::jet::{Entry, JetSheet, PlainEntry};
use crate::recovery::{Guidance, PerceptionSheet, RecoveryPlan};
use crate::units::{Angle, Frequency, Length, Quantity, Ratio, Speed, Time, typed};

mod air;
mod jet;
mod known;
pub(super) mod letters;

/// Radii of a circle, metres: smaller ones no jet flies, on larger ones nobody sees it (judgement).
pub const RADII_M: [f64; 2] = [5.0, 5000.0];
/// Heights of a loss above home, metres: no higher than anybody sees a jet (judgement).
pub const LOSS_HEIGHTS_M: [f64; 2] = [0.1, 3000.0];
/// Airspeeds at a loss, m/s: from a glide to where air begins to be pressed together, which the model knows nothing of
/// (judgement).
pub const LOSS_SPEEDS_MPS: [f64; 2] = [1.0, 200.0];

/// Everything that makes no sense.
pub(super) fn check(sections: &Sections<'_>) -> Vec<Fault> {
    let mut checks = Checks::default();
    checks.head(sections);
    // Against what makes no sense by itself nothing else is held.
    let air = sections.air.filter(|air| checks.sound(|checks| checks.air(air)));
    let density = air.copied().unwrap_or_default().density();
    let jet = sections.jet.filter(|jet| checks.sound(|checks| checks.jet(jet, density)));
    let sections = &Sections { air, jet, ..*sections };
    if let Some(wind) = sections.wind {
        checks.wind(wind);
    }
    if let Some(loss) = sections.loss {
        checks.loss(loss, sections);
    }
    if let Some((jet, circuit)) = sections.jet.zip(sections.field.and_then(|field| field.circuit.as_ref())) {
        checks.circuit(jet, circuit, density);
    }
    if let Some(recovery) = sections.recovery {
        checks.recovery(recovery);
        checks.perception(&recovery.perception);
    }
    if let Some(limits) = sections.limits {
        checks.limits(limits);
    }
    checks.0.extend(super::against::check(sections, density));
    if let Some(rules) = sections.rules {
        checks.0.extend(super::rules::check(rules, sections.date));
    }
    checks.0.extend(sections.brief.map(super::brief::check).unwrap_or_default());
    checks.0
}

/// Density of the air that the stall is judged in, kg/m^3.
fn density(sections: &Sections<'_>) -> f64 {
    sections.air.copied().unwrap_or_default().density()
}

#[derive(Debug, Default)]
struct Checks(Vec<Fault>);

impl Checks {
    /// Whether a check finds nothing worse than warnings.
    fn sound(&mut self, check: impl FnOnce(&mut Self)) -> bool {
        let before = self.0.len();
        check(self);
        self.0[before..].iter().all(|fault| fault.severity < Severity::Error)
    }

    fn error(&mut self, place: &str, problem: impl Into<String>, way_out: impl Into<String>) {
        self.0.push(Fault::error(place, problem, way_out));
    }

    fn warn(&mut self, place: &str, problem: impl Into<String>, way_out: impl Into<String>) {
        self.0.push(Fault::warning(place, problem, way_out));
    }

    /// A quantity within bounds, given in SI.
    fn within<Q: Quantity>(&mut self, place: &str, value: Q, low: f64, high: f64) {
        if !(low..=high).contains(&value.si()) {
            let way_out = format!("Write {} between {} and {}", Q::KIND, Q::from_si(low), Q::from_si(high));
            self.error(place, format!("{value} makes no sense here"), way_out);
        }
    }

    /// A plain number within bounds.
    fn plain(&mut self, place: &str, value: f64, low: f64, high: f64) {
        if !(low..=high).contains(&value) {
            let way_out = format!("Write a number between {} and {}", typed(low), typed(high));
            self.error(place, format!("{} makes no sense here", typed(value)), way_out);
        }
    }

    /// A quantity and its spread.
    fn entry<Q: Quantity>(&mut self, place: &str, entry: Entry<Q>, low: f64, high: f64) {
        self.within(&format!("{place}/value"), entry.value, low, high);
        let (spread, widest) = (entry.spread.to_string(), Q::from_si(high - low).to_string());
        self.spread(&format!("{place}/spread"), entry.value.si(), [entry.spread.si(), high - low], [spread, widest]);
    }

    /// A plain number and its spread.
    fn plain_entry(&mut self, place: &str, entry: PlainEntry, low: f64, high: f64) {
        self.plain(&format!("{place}/value"), entry.value, low, high);
        let words = [entry.spread, high - low].map(typed);
        self.spread(&format!("{place}/spread"), entry.value, [entry.spread, high - low], words);
    }

    /// A spread as wide as all values that make sense says nothing.
    fn spread(&mut self, place: &str, value: f64, [spread, widest]: [f64; 2], [text, most]: [String; 2]) {
        if !(0.0..=widest).contains(&spread) {
            let way_out = format!("Write one standard deviation, 0 to {most}");
            self.error(place, format!("a spread of {text} makes no sense"), way_out);
        } else if spread > value.abs() / 2.0 && spread > 0.0 {
            let problem = format!("the spread {text} is more than half the value");
            self.warn(place, problem, "Write one standard deviation, not the whole range");
        }
    }

    fn head(&mut self, sections: &Sections<'_>) {
        if let Some(format) = sections.format.filter(|&format| format != FORMAT) {
            let problem = format!("the file is written in format {format}; this program reads format {FORMAT}");
            self.error("/peewit", problem, "Use the program that wrote it, or rewrite the file to this format");
        }
        if sections.name.is_some_and(|name| name.trim().is_empty()) {
            self.warn("/name", "the scenario has no name", "Write what people call it; it stands on every print");
        }
        for (index, note) in sections.notes.into_iter().flatten().enumerate() {
            if let Some(asked) = note.strip_prefix(TO_FILL_IN) {
                let problem = format!("still to be filled in: {}", asked.trim_end_matches('.'));
                self.warn(&format!("/notes/{index}"), problem, "Do that, then take the note out");
            }
        }
        if let Some(date) = sections.date.filter(|date| super::date::month(date).is_none()) {
            let problem = format!("\"{date}\" is not a day of the calendar");
            self.error("/date", problem, "Write year-month-day, such as \"2026-04-18\"");
        }
    }

    fn loss(&mut self, loss: &Loss, sections: &Sections<'_>) {
        let [x, y] = loss.at_m;
        let near = x.hypot(y) <= 20_000.0;
        if !near {
            let problem = format!("({}, {}) is more than 20 km from the datum", typed(x), typed(y));
            self.error("/loss/at_m", problem, "Write metres east and north of the datum, not degrees");
        }
        if let Some(field) = sections.field.filter(|_| near)
            && field.boundary.signed_distance(glam::DVec2::new(x, y)) < 0.0
        {
            let problem = "the loss lies outside the boundary, so the run starts outside it";
            self.warn("/loss/at_m", problem, "Move it inside, unless that is what you want to see");
        }
        self.within::<Length>("/loss/height", loss.height, LOSS_HEIGHTS_M[0], LOSS_HEIGHTS_M[1]);
        self.within::<Speed>("/loss/speed", loss.speed, LOSS_SPEEDS_MPS[0], LOSS_SPEEDS_MPS[1]);
        let steep = 80.0_f64.to_radians();
        self.within::<Angle>("/loss/climb", loss.climb, -steep, steep);
        self.within::<Angle>("/loss/bank", loss.bank, -steep, steep);
        self.within::<Ratio>("/loss/charge", loss.charge, 0.001, 1.0);
        if let Some(stall) =
            sections.jet.map(|jet| jet::stall(jet, density(sections))).filter(|&stall| loss.speed.mps() < stall)
        {
            let problem = format!("at {} the jet is below its stall speed, {stall:.1} m/s", loss.speed);
            self.warn("/loss/speed", problem, "Write its airspeed, or check mass, stall_speed, wing_area and lift_max");
        }
        if sections.limits.is_some_and(|limits| loss.charge <= limits.reserve) {
            let problem = format!("{} is no more than the reserve", loss.charge);
            self.warn("/loss/charge", problem, "Write what the pack still holds at the loss, or lower the reserve");
        }
    }

    fn circuit(&mut self, jet: &JetSheet, circuit: &Circuit, density: f64) {
        let (stall, [slowest, _]) = (jet::stall(jet, density), circuit.speeds_mps);
        if slowest <= stall {
            let problem = format!("at {} the jet is below its stall speed, {stall:.1} m/s", Speed::new(slowest));
            self.warn("/field/circuit/slowest", problem, "Write the slowest airspeed it is really flown at");
        }
    }

    fn recovery(&mut self, plan: &RecoveryPlan) {
        if plan.authorised_by.trim().is_empty() {
            let problem = "nobody is named who authorised this failsafe action";
            self.warn("/recovery/authorised_by", problem, "Write who did and when, once somebody has");
        }
        self.within::<Length>("/recovery/radius", plan.radius, RADII_M[0], RADII_M[1]);
        self.within::<Length>("/recovery/height", plan.height, 1.0, 3000.0);
        self.entry::<Time>("/recovery/failsafe_delay", plan.failsafe_delay, 0.0, 60.0);
        if let Some(reaction) = plan.reaction_time {
            self.entry::<Time>("/recovery/reaction_time", reaction, 0.0, 60.0);
        }
        self.within::<Length>("/recovery/turn_above", plan.turn_above, 0.0, 3000.0);
        self.within::<Time>("/recovery/wait", plan.wait, 0.0, 600.0);
        let steep = 60.0_f64.to_radians();
        self.within::<Angle>("/recovery/glide_bank", plan.glide_bank, -steep, steep);
        self.within::<Angle>("/recovery/drift_bank", plan.drift_bank, -steep, steep);
        self.within::<Time>("/recovery/load_lag", plan.load_lag, 0.0, 5.0);
        let place = "/recovery/laws_ruled_out";
        if Guidance::ALL.iter().all(|law| plan.laws_ruled_out.contains(law)) {
            self.error(place, "every guidance law is ruled out", "Leave at least one that the logs agree with");
        } else if plan.laws_ruled_out.contains(&plan.guidance) {
            let problem = "the plan as entered flies a law that is ruled out";
            self.warn(place, problem, "Write under `guidance` one of those that are left");
        }
        self.plain("/recovery/laps", plan.laps, 0.5, 20.0);
    }

    fn perception(&mut self, sheet: &PerceptionSheet) {
        let place = |key: &str| format!("/recovery/perception/{key}");
        self.within::<Frequency>(&place("fix_rate"), sheet.fix_rate, 1.0, 50.0);
        self.within::<Time>(&place("delay"), sheet.delay, 0.0, 0.7);
        self.within::<Length>(&place("position_noise"), sheet.position_noise, 0.0, 100.0);
        self.within::<Speed>(&place("velocity_noise"), sheet.velocity_noise, 0.0, 20.0);
        self.within::<Length>(&place("home_error"), sheet.home_error, 0.0, 200.0);
        self.within::<Length>(&place("height_error"), sheet.height_error, 0.0, 200.0);
        self.within::<Length>(&place("height_drift"), sheet.height_drift, 0.0, 200.0);
        self.within::<Length>(&place("height_wander"), sheet.height_wander, 0.0, 50.0);
        self.within::<Time>(&place("height_wander_over"), sheet.height_wander_over, 0.5, 3600.0);
        self.within::<Ratio>(&place("static_error"), sheet.static_error, 0.0, 1.0);
    }

    fn limits(&mut self, limits: &Limits) {
        self.within::<Length>("/limits/buffer", limits.buffer, 0.0, 1000.0);
        self.within::<Length>("/limits/people_buffer", limits.people_buffer, 0.0, 1000.0);
        if limits.people_buffer < limits.buffer {
            let (people, buffer) = (limits.people_buffer, limits.buffer);
            let problem = format!("less is asked for off people, {people}, than off edges and trees, {buffer}");
            self.warn("/limits/people_buffer", problem, "Write no less than `buffer`, as your rules have it");
        }
        self.within::<Length>("/limits/height_buffer", limits.height_buffer, 0.0, 1000.0);
        if let Some(height_limit) = limits.height_limit {
            self.within::<Length>("/limits/height_limit/height", height_limit.height, 1.0, 5000.0);
        }
        self.plain("/limits/stall_factor", limits.stall_factor, 1.0, 3.0);
        self.within::<Time>("/limits/stall_over", limits.stall_over, 0.1, 60.0);
        self.plain("/limits/stall_factor_moment", limits.stall_factor_moment, 1.0, 3.0);
        if limits.stall_factor_moment > limits.stall_factor {
            let (moment, held) = (limits.stall_factor_moment, limits.stall_factor);
            let problem = format!("a moment is asked for more, {moment}, than a speed that is held, {held}");
            self.warn("/limits/stall_factor_moment", problem, "Write no more than stall_factor");
        }
        self.within::<Ratio>("/limits/crossed_at_most", limits.crossed_at_most, 0.0, 0.5);
        self.within::<Ratio>("/limits/kept_at_least", limits.kept_at_least, 0.0, 0.999_999);
        self.within::<Ratio>("/limits/reserve", limits.reserve, 0.0, 1.0);
        self.plain("/limits/laps_to_reserve", limits.laps_to_reserve, 0.0, 100.0);
        if let Some(home_within) = limits.home_within {
            self.within::<Time>("/limits/home_within", home_within, 1.0, 3600.0);
        }
        self.entry::<Time>("/limits/take_over", limits.take_over, 0.0, 600.0);
        self.within::<Length>("/limits/visibility", limits.visibility, 10.0, 100_000.0);
        self.within::<Angle>("/limits/smallest_angle", limits.smallest_angle, 1e-5, 10.0_f64.to_radians());
    }
}
