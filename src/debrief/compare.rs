//! A recovery as it was flown beside the one that the plan predicts from the same loss in the wind as flown.

use glam::DVec2;

use super::{CircleFigures, Learned, Marks, Steering, TooLittle, WindFit, find, hodograph, learned, steering};
use crate::margins::{TrackMargins, judge_track};
use crate::run::{Run, Scenario, Track, WindChoice, fly};
use crate::study::envelope::{EnvelopeAsk, Ring, envelope, reach_of};
use crate::study::work::Work;
use crate::units::{Angle, Bearing, Length, Speed};

/// The share of recoveries that the ring of the comparison should hold.
pub const HELD_SHARE: f64 = 0.9;

/// One recovery of a log, with all that is told of it.
#[derive(Debug, Clone)]
pub struct Debriefed {
    /// Where it is in the track.
    pub marks: Marks,
    /// Wind and airspeed on the circle, from the ground track.
    pub wind: Result<WindFit, TooLittle>,
    /// The same lap by lap.
    pub laps: Vec<(std::ops::Range<usize>, Result<WindFit, TooLittle>)>,
    /// What steers it, or why that can't be asked.
    pub steering: Result<Steering, &'static str>,
    /// What the log says of the sheet; none where the wind is not known.
    pub learned: Option<Learned>,
    /// The plan from the same loss in the wind as flown; none where that can't be flown.
    pub predicted: Option<Predicted>,
    /// How the circle was flown.
    pub flown: CircleFigures,
    /// Every margin of it.
    pub margins: TrackMargins,
}

/// What the plan says of it.
#[derive(Debug, Clone)]
pub struct Predicted {
    /// The plan with the wind and the loss as flown.
    pub scenario: Scenario,
    /// Its flight, without errors.
    pub run: Run,
    /// How the circle is flown there.
    pub figures: CircleFigures,
    /// The ring that holds 90 % of its trials.
    pub ring: Option<Ring>,
    /// Whether it holds the flight; none where there is no ring.
    pub holds: Option<bool>,
}

/// Every recovery of a track.
pub fn debrief(scenario: &Scenario, track: &Track, work: &Work) -> Vec<Debriefed> {
    find(scenario, track).into_iter().map(|marks| debrief_marked(scenario, track, marks, work)).collect()
}

/// One recovery, its moments given.
pub fn debrief_marked(scenario: &Scenario, track: &Track, marks: Marks, work: &Work) -> Debriefed {
    let none = || Err(TooLittle::Nothing);
    let wind = marks.circling.clone().map_or_else(none, |range| hodograph::wind(track, range));
    let centre = scenario.field.centre;
    let laps = marks.circling.clone().map_or_else(Vec::new, |range| hodograph::laps(track, range, centre));
    let fit = wind.as_ref().ok();
    let steering =
        fit.map_or(Err("the wind is not known"), |fit| steering(track, &marks, scenario, fit.wind, fit.airspeed_mps));
    let learned = fit.map(|fit| learned(track, &marks, scenario, fit.wind, steering.as_ref().ok()));
    let radius_m = scenario.file.recovery.radius.m();
    let recovery = part(track, marks.lost, marks.taken_over);
    let predicted = fit.and_then(|fit| predict(scenario, track, &marks, fit, work));
    Debriefed {
        flown: CircleFigures::of(track, &marks, centre, radius_m),
        margins: judge_track(scenario, recovery.as_ref().unwrap_or(track)),
        marks,
        wind,
        laps,
        steering,
        learned,
        predicted,
    }
}

/// A part of a track, its times as they were; none of less than two samples.
pub fn part(track: &Track, from: usize, to: usize) -> Option<Track> {
    let range = from..(to + 1).min(track.time_s().len());
    if range.len() < 2 {
        return None;
    }
    let channels = track.channels();
    let cut = |list: &Option<Vec<f64>>| list.as_ref().map(|list| list[range.clone()].to_vec());
    let channels = crate::run::Channels {
        airspeed_mps: cut(&channels.airspeed_mps),
        load: cut(&channels.load),
        bank_rad: cut(&channels.bank_rad),
        energy_left_j: cut(&channels.energy_left_j),
        stretch: channels.stretch.as_ref().map(|list| list[range.clone()].to_vec()),
    };
    let from_s = track.time_s()[range.start];
    let times = track.time_s()[range.clone()].iter().map(|time| time - from_s).collect();
    Track::new(times, track.place()[range.clone()].to_vec(), track.height_m()[range].to_vec(), channels)
}

/// The plan with the wind and the loss as flown.
pub fn as_flown(scenario: &Scenario, track: &Track, marks: &Marks, fit: &WindFit) -> Option<Scenario> {
    let mut file = scenario.file.clone();
    let circle_m = file.recovery.height.m();
    // The growth with height stays the plan's: the wind where it is measured is what makes the one that was flown.
    let grows = {
        let [aloft, _] = file.wind.aloft(circle_m);
        if file.wind.mean.mps() > 0.1 { aloft / file.wind.mean.mps() } else { 1.0 }
    };
    let mean_mps = fit.wind.length() / grows.max(0.1);
    // What the gust adds to the mean stays the plan's too.
    file.wind.gust = file.wind.gust.map(|_| Speed::new(mean_mps + file.wind.excess_mps()));
    file.wind.mean = Speed::new(mean_mps);
    file.wind.from = Bearing::of(-fit.wind);
    let seen = crate::debrief::velocity(track, marks.lost)?;
    let through_air = seen - fit.wind;
    file.loss.at_m = track.place()[marks.lost].to_array();
    file.loss.height = Length::new(track.height_m()[marks.lost].max(1.0));
    file.loss.speed = Speed::new(through_air.length());
    file.loss.heading = Bearing::of(through_air);
    (file.loss.bank, file.loss.climb) = (Angle::default(), Angle::default());
    Scenario::from_file(file).ok()
}

fn predict(scenario: &Scenario, track: &Track, marks: &Marks, fit: &WindFit, work: &Work) -> Option<Predicted> {
    let flown = as_flown(scenario, track, marks, fit)?;
    let run = fly(&flown, 0, WindChoice::Mean);
    // By the same rules as the log: what a flight of this program knows of its stretches no other log tells.
    let predicted = if track.channels().stretch.is_some() { run.track() } else { run.track().without_stretches() };
    let centre = scenario.field.centre;
    let figures = find(&flown, &predicted).first().map_or_else(CircleFigures::default, |marks| {
        CircleFigures::of(&predicted, marks, centre, flown.file.recovery.radius.m())
    });
    // The trials of this one loss: no circuit is drawn from.
    let mut here = flown.file.clone();
    if let Some(field) = &mut here.field {
        field.circuit = None;
    }
    let trials = Scenario::from_file(here).ok()?;
    let ask = EnvelopeAsk { shares: vec![HELD_SHARE], ..EnvelopeAsk::coarse() };
    let ring = envelope(&trials, &ask, work).rings.pop();
    let acts_s = track.time_s()[marks.lost] + flown.file.delay().value.s();
    let from = track.time_s().partition_point(|&time| time < acts_s).min(marks.taken_over);
    let places: Vec<DVec2> = track.place()[from..=marks.taken_over].to_vec();
    let holds = ring.as_ref().map(|ring| ring.holds(&reach_of(&places, centre, ask.bearings)));
    Some(Predicted { scenario: flown, run, figures, ring, holds })
}
