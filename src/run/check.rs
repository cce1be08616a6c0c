//! Which numbers of a scenario make no sense, each by itself and against the others.

use super::against::AIR;
use super::template::TO_FILL_IN;
use super::{Brief, FORMAT, Limits, Loss, RuleNote, ScenarioFile};
use crate::error::Fault;
use crate::field::Field;
use crate::jet::{Entry, JetSheet, PlainEntry};
use crate::recovery::{PerceptionSheet, RecoveryPlan};
use crate::units::{
    Angle, AngularRate, Area, Charge, Frequency, G0, Length, Mass, Power, Quantity, Ratio, Speed, Time,
};
use crate::wind::{Profile, WindSheet};

/// The sections of a scenario that could be read.
#[derive(Debug, Default)]
pub(super) struct Sections<'a> {
    pub format: Option<u32>,
    pub name: Option<&'a str>,
    pub notes: Option<&'a [String]>,
    pub date: Option<&'a str>,
    pub field: Option<&'a Field>,
    pub jet: Option<&'a JetSheet>,
    pub wind: Option<&'a WindSheet>,
    pub loss: Option<&'a Loss>,
    pub recovery: Option<&'a RecoveryPlan>,
    pub limits: Option<&'a Limits>,
    pub rules: Option<&'a [RuleNote]>,
    pub brief: Option<&'a Brief>,
}

impl<'a> Sections<'a> {
    pub(super) fn of(file: &'a ScenarioFile, field: Option<&'a Field>) -> Self {
        Self {
            format: Some(file.peewit),
            name: Some(&file.name),
            notes: Some(&file.notes),
            date: Some(&file.date),
            field,
            jet: Some(&file.jet),
            wind: Some(&file.wind),
            loss: Some(&file.loss),
            recovery: Some(&file.recovery),
            limits: Some(&file.limits),
            rules: Some(&file.rules),
            brief: Some(&file.brief),
        }
    }
}

/// Everything that makes no sense.
pub(super) fn check(sections: &Sections<'_>) -> Vec<Fault> {
    let mut checks = Checks::default();
    checks.head(sections);
    if let Some(jet) = sections.jet {
        checks.jet(jet);
    }
    if let Some(wind) = sections.wind {
        checks.wind(wind);
    }
    if let Some(loss) = sections.loss {
        checks.loss(loss, sections);
    }
    if let Some(recovery) = sections.recovery {
        checks.recovery(recovery);
        checks.perception(&recovery.perception);
    }
    if let Some(limits) = sections.limits {
        checks.limits(limits);
    }
    checks.0.extend(super::against::check(sections));
    if let Some(rules) = sections.rules {
        checks.0.extend(super::rules::check(rules, sections.date));
    }
    checks.0.extend(sections.brief.map(super::brief::check).unwrap_or_default());
    checks.0
}

/// Level stall speed of a jet, m/s.
fn stall(jet: &JetSheet) -> f64 {
    let weight = jet.mass.value.kg() * G0;
    (2.0 * weight / (AIR * jet.wing_area.value.m2() * jet.lift_max.value)).sqrt()
}

#[derive(Debug, Default)]
struct Checks(Vec<Fault>);

impl Checks {
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
            let way_out = format!("Write a number between {low} and {high}");
            self.error(place, format!("{value} makes no sense here"), way_out);
        }
    }

    /// A quantity and its spread.
    fn entry<Q: Quantity>(&mut self, place: &str, entry: Entry<Q>, low: f64, high: f64) {
        self.within(&format!("{place}/value"), entry.value, low, high);
        self.spread(&format!("{place}/spread"), entry.value.si(), entry.spread.si(), entry.spread.to_string());
    }

    /// A plain number and its spread.
    fn plain_entry(&mut self, place: &str, entry: PlainEntry, low: f64, high: f64) {
        self.plain(&format!("{place}/value"), entry.value, low, high);
        self.spread(&format!("{place}/spread"), entry.value, entry.spread, entry.spread.to_string());
    }

    fn spread(&mut self, place: &str, value: f64, spread: f64, text: String) {
        if !(0.0..=f64::MAX).contains(&spread) {
            self.error(place, format!("a spread of {text} makes no sense"), "Write one standard deviation, 0 or more");
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

    fn jet(&mut self, jet: &JetSheet) {
        if jet.name.trim().is_empty() {
            self.warn("/jet/name", "the jet has no name", "Write what its owner calls it");
        }
        self.exact(jet);
        self.entry::<Mass>("/jet/mass", jet.mass, 0.05, 50.0);
        self.entry::<Area>("/jet/wing_area", jet.wing_area, 0.005, 5.0);
        self.entry::<Length>("/jet/span", jet.span, 0.2, 6.0);
        self.plain_entry("/jet/lift_max", jet.lift_max, 0.2, 4.0);
        self.plain_entry("/jet/drag_zero_lift", jet.drag_zero_lift, 0.005, 0.5);
        self.plain_entry("/jet/drag_fan_stopped", jet.drag_fan_stopped, 0.0, 0.5);
        self.plain_entry("/jet/span_efficiency", jet.span_efficiency, 0.2, 1.2);
        self.entry::<Area>("/jet/nozzle_area", jet.nozzle_area, 0.0001, 0.2);
        self.entry::<Power>("/jet/full_power", jet.full_power, 10.0, 50_000.0);
        self.entry::<Ratio>("/jet/fan_efficiency", jet.fan_efficiency, 0.05, 1.0);
        self.entry::<Time>("/jet/fan_lag", jet.fan_lag, 0.0, 10.0);
        self.entry::<Power>("/jet/avionics_power", jet.avionics_power, 0.0, 500.0);
        self.plain("/jet/cells", f64::from(jet.cells), 1.0, 28.0);
        self.entry::<Charge>("/jet/capacity", jet.capacity, 36.0, 360_000.0);
        self.entry::<Angle>("/jet/bank_limit", jet.bank_limit, 5.0_f64.to_radians(), 60.0_f64.to_radians());
        self.entry::<Time>("/jet/roll_lag", jet.roll_lag, 0.01, 5.0);
        self.entry::<AngularRate>("/jet/roll_rate", jet.roll_rate, 5.0_f64.to_radians(), 1000.0_f64.to_radians());
        self.entry::<Angle>("/jet/climb_limit", jet.climb_limit, 1.0_f64.to_radians(), 60.0_f64.to_radians());
        self.entry::<Speed>("/jet/return_speed", jet.return_speed, 3.0, 150.0);
        let stall = stall(jet);
        if jet.return_speed.value.mps() <= stall {
            let problem =
                format!("the jet can't hold {}: it stalls at {stall:.1} m/s in level flight", jet.return_speed.value);
            self.warn(
                "/jet/return_speed/value",
                problem,
                "Raise the return speed, or check mass, wing area and lift_max",
            );
        }
    }

    fn exact(&mut self, jet: &JetSheet) {
        let exact = jet.taken_as_exact();
        if !exact.is_empty() {
            let problem = format!("taken as exact, though nobody has measured it: {}", exact.join(", "));
            self.warn("/jet", problem, "Write a spread, one standard deviation, or measure it");
        }
    }

    fn wind(&mut self, wind: &WindSheet) {
        self.within::<Speed>("/wind/mean", wind.mean, 0.0, 60.0);
        self.within::<Speed>("/wind/gust", wind.gust, 0.0, 90.0);
        if wind.gust < wind.mean {
            let problem = format!("the gust, {}, is below the mean, {}", wind.gust, wind.mean);
            self.error("/wind/gust", problem, "Write the speed in the gusts, not what they add; at least the mean");
        }
        self.within::<Length>("/wind/measured_at", wind.measured_at, 0.1, 3000.0);
        self.plain("/wind/exponent_low", wind.exponent_low, 0.0, 1.0);
        self.plain("/wind/exponent_high", wind.exponent_high, 0.0, 1.0);
        if wind.exponent_low > wind.exponent_high {
            let problem =
                format!("the lowest exponent, {}, is above the highest, {}", wind.exponent_low, wind.exponent_high);
            self.error("/wind/exponent_low", problem, "Exchange the two");
        }
        self.within::<Length>("/wind/roughness", wind.roughness, 0.00001, 5.0);
        if wind.profile == Profile::Log && wind.measured_at <= wind.roughness {
            let problem = "the log law has no meaning at or below the roughness length";
            self.error("/wind/measured_at", problem, "Write a height well above the roughness");
        }
        self.within::<Ratio>("/wind/mean_spread", wind.mean_spread, 0.0, 1.0);
        self.within::<Speed>("/wind/mean_floor", wind.mean_floor, 0.0, 10.0);
        self.within::<Angle>("/wind/from_spread", wind.from_spread, 0.0, std::f64::consts::PI);
    }

    fn loss(&mut self, loss: &Loss, sections: &Sections<'_>) {
        let [x, y] = loss.at_m;
        let near = x.hypot(y) <= 20_000.0;
        if !near {
            let problem = format!("({x}, {y}) is more than 20 km from the datum");
            self.error("/loss/at_m", problem, "Write metres east and north of the datum, not degrees");
        }
        if let Some(field) = sections.field.filter(|_| near)
            && field.outline.signed_distance(glam::DVec2::new(x, y)) < 0.0
        {
            let problem = "the loss lies outside the outline, so the run starts with a breach";
            self.warn("/loss/at_m", problem, "Move it inside, unless that is what you want to see");
        }
        self.within::<Length>("/loss/height", loss.height, 0.1, 3000.0);
        self.within::<Speed>("/loss/speed", loss.speed, 1.0, 200.0);
        let steep = 80.0_f64.to_radians();
        self.within::<Angle>("/loss/climb", loss.climb, -steep, steep);
        self.within::<Angle>("/loss/bank", loss.bank, -steep, steep);
        self.within::<Ratio>("/loss/charge", loss.charge, 0.001, 1.0);
        if let Some(stall) = sections.jet.map(stall).filter(|&stall| loss.speed.mps() < stall) {
            let problem = format!("at {} the jet is below its stall speed, {stall:.1} m/s", loss.speed);
            self.warn("/loss/speed", problem, "Write its airspeed, or check mass, wing area and lift_max");
        }
        if sections.limits.is_some_and(|limits| loss.charge <= limits.reserve) {
            let problem = format!("{} is no more than the reserve", loss.charge);
            self.warn("/loss/charge", problem, "Write what the pack still holds at the loss, or lower the reserve");
        }
    }

    fn recovery(&mut self, plan: &RecoveryPlan) {
        if plan.authorised_by.trim().is_empty() {
            let problem = "nobody is named who authorised this policy";
            self.warn("/recovery/authorised_by", problem, "Write who did and when, once somebody has");
        }
        self.within::<Length>("/recovery/radius", plan.radius, 5.0, 5000.0);
        self.within::<Length>("/recovery/height", plan.height, 1.0, 3000.0);
        self.entry::<Time>("/recovery/recognition", plan.recognition, 0.0, 60.0);
        self.within::<Length>("/recovery/turn_above", plan.turn_above, 0.0, 3000.0);
        self.within::<Time>("/recovery/wait", plan.wait, 0.0, 600.0);
        let steep = 60.0_f64.to_radians();
        self.within::<Angle>("/recovery/glide_bank", plan.glide_bank, -steep, steep);
        self.within::<Angle>("/recovery/fix_bank", plan.fix_bank, -steep, steep);
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
    }

    fn limits(&mut self, limits: &Limits) {
        self.within::<Length>("/limits/standoff", limits.standoff, 0.0, 1000.0);
        self.within::<Length>("/limits/height_standoff", limits.height_standoff, 0.0, 1000.0);
        if let Some(ceiling) = limits.ceiling {
            self.within::<Length>("/limits/ceiling/height", ceiling.height, 1.0, 5000.0);
        }
        self.plain("/limits/stall_factor", limits.stall_factor, 1.0, 3.0);
        self.within::<Ratio>("/limits/reserve", limits.reserve, 0.0, 1.0);
        self.plain("/limits/laps_in_hand", limits.laps_in_hand, 0.0, 100.0);
        if let Some(home_within) = limits.home_within {
            self.within::<Time>("/limits/home_within", home_within, 1.0, 3600.0);
        }
        self.entry::<Time>("/limits/hand_back", limits.hand_back, 0.0, 600.0);
        self.within::<Length>("/limits/visibility", limits.visibility, 10.0, 100_000.0);
        self.within::<Angle>("/limits/smallest_angle", limits.smallest_angle, 1e-5, 10.0_f64.to_radians());
    }
}
