//! The field with the circle as it will really be flown: the path from the loss, the last lap, where it is blown wide,
//! where to take over.

use glam::DVec2;

use crate::brief::Plan;
use crate::draw::{Fill, Frame, Hatch, Ink, Lettering, MapFrame, Path, Pattern, Pen, Sheet, Taken, arrow_head};
use crate::margins::Lap;
use crate::report::picture::losses::keep_inside;
use crate::report::picture::{STRIP, field, furniture};
use crate::run::Stretch;
use crate::units::Bearing;

/// How much of the plan a map shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Shown {
    /// The path from the loss to the circle.
    pub path: bool,
    /// Where to take over.
    pub take_over: bool,
    /// The ring that most recoveries stay inside, way home included.
    pub envelope: bool,
    /// The line inside which a loss is recovered.
    pub keep_inside: bool,
    /// Where the sun stands in the hours of the flight.
    pub sun: bool,
    /// The time along the path, every five seconds.
    pub times: bool,
    /// The hours about the pilot position.
    pub clock: bool,
    /// Scale, north and wind on a strip under it.
    pub furniture: bool,
}

impl Shown {
    /// Everything.
    pub(super) const ALL: Self = Self {
        path: true,
        take_over: true,
        envelope: true,
        keep_inside: true,
        sun: true,
        times: false,
        clock: false,
        furniture: true,
    };
    /// What one goes by on the flight line.
    pub(super) const CARD: Self = Self { envelope: false, clock: true, ..Self::ALL };
}

/// How long after it has reached the circle a flight is told, seconds.
pub(super) const SETTLED_S: f64 = 20.0;

/// The hours stand so far inside the frame, mm.
const RIM: f64 = 3.2;
/// An hour nearer to the pilot position than this is left out, mm.
const LEAST_HAND: f64 = 12.0;

/// Pens of the plan on paper.
pub(super) const COMMANDED: Pen = Pen::plain(Ink::BLACK, 0.4).dashed(&[1.2, 1.2]);
pub(super) const ENVELOPE: Pen = Pen::plain(Ink::BLUE, 0.5).dashed(&[3.0, 1.0]);
pub(super) const HEADING_HOME: Pen = Pen::plain(Ink::BLACK, 0.5);
pub(super) const LAP: Pen = Pen::plain(Ink::BLACK, 1.1);
/// The lap where the bank is at its limit, and the jet is blown wide.
pub(super) const SATURATED: Pen = Pen::plain(Ink::VERMILION, 1.5).dashed(&[1.6, 0.7]);
/// Ground over which one looks into the sun.
pub(super) const SUN: Hatch = Hatch { pattern: Pattern::Spotted, ink: Ink::ORANGE, ground: None, step: 260 };
pub(super) const TAKE_OVER: Pen = Pen::plain(Ink::BLACK, 3.8);
pub(super) const TAKE_OVER_CORE: Pen = Pen::plain(Ink(0x0079_CAAF), 2.9);

impl Plan<'_> {
    /// Draws the map in a frame, with scale, north and wind on a strip below it; returns how many names found no room.
    pub(super) fn map(&self, sheet: &mut Sheet, room: Frame, shown: Shown) -> usize {
        let strip = if shown.furniture { STRIP } else { 0.0 };
        let frame = Frame { low: room.low, high: room.high - DVec2::new(0.0, strip) };
        let (low, high) = self.extent(shown);
        let map = MapFrame::fit(frame, low, high);
        let land = &self.scenario.field;
        sheet.rectangle(frame.low, frame.high, None, Fill::Plain(Ink(0x00EE_EFF0)));
        let mut taken = Taken::default();
        let mut left_out = 0;
        sheet.clipped(frame.low, frame.high, |sheet| {
            field::ground(sheet, &map, land);
            if shown.sun {
                self.sun_sector(sheet, &map, &mut taken);
            }
            field::shapes(sheet, &map, land);
            self.flight(sheet, &map, shown);
            self.lines(&map, shown, &mut taken);
            field::points(sheet, &map, land, &mut taken);
            self.marks(sheet, &map, shown, &mut taken);
            if shown.clock {
                self.clock_face(sheet, &map, &mut taken);
            }
            left_out = field::names(sheet, &map, land, &mut taken);
        });
        sheet.rectangle(frame.low, frame.high, Some(Pen::plain(Ink::BLACK, 0.3)), Fill::None);
        if shown.furniture {
            furniture(sheet, &map, self.scenario, room.high.y);
        }
        left_out
    }

    /// Ground to be shown: land, points and path, with a little around them.
    pub(super) fn extent(&self, shown: Shown) -> (DVec2, DVec2) {
        let land = &self.scenario.field;
        let (low, high) = land.boundary.bounds();
        let trace = &self.run.trace;
        let path = (0..trace.len()).filter(|_| shown.path).map(|index| trace.point(index));
        let lap = self.lap.iter().flat_map(|lap| lap.place.iter().copied());
        let points = [land.pilot, land.home, land.centre];
        let all = path.chain(lap).chain(points);
        // What flies far off would make the field too small to read.
        let (from, to) = (low - (high - low) * 0.5, high + (high - low) * 0.5);
        let (low, high) = all.fold((low, high), |(low, high), at| {
            let at = at.clamp(from, to);
            (low.min(at), high.max(at))
        });
        let rim = DVec2::splat((high - low).max_element() * 0.03);
        (low - rim, high + rim)
    }

    /// The hours at the edge of the map, as they lie from the pilot position.
    fn clock_face(&self, sheet: &mut Sheet, map: &MapFrame, taken: &mut Taken) {
        let land = &self.scenario.field;
        let pilot = map.at(land.pilot);
        let (low, high) = (map.frame.low + RIM, map.frame.high - RIM);
        for hour in 1_u8..=12 {
            let way = Bearing::from_deg(land.facing.deg() + 30.0 * f64::from(hour)).unit();
            let way = DVec2::new(way.x, -way.y);
            let reach = |from: f64, by: f64, low: f64, high: f64| match by {
                by if by > 1e-9 => (high - from) / by,
                by if by < -1e-9 => (low - from) / by,
                _ => f64::INFINITY,
            };
            let far = reach(pilot.x, way.x, low.x, high.x).min(reach(pilot.y, way.y, low.y, high.y));
            if far < LEAST_HAND {
                continue;
            }
            let places = [0.0, 5.0, 10.0].map(|back| pilot + way * (far - back).max(0.0));
            taken.letter(sheet, map.frame, &hour.to_string(), Lettering::new(3.9).bold().rimmed(), places);
        }
    }

    /// Where the sun wanders in the hours of the flight, seen from the pilot position.
    fn sun_sector(&self, sheet: &mut Sheet, map: &MapFrame, taken: &mut Taken) {
        let Some(sector) = self.glare.sector else { return };
        let [from, to] = sector.azimuth_deg;
        let wide = (to - from).rem_euclid(360.0);
        let pilot = map.at(self.scenario.field.pilot);
        let far = map.frame.size().length();
        let way = |deg: f64| {
            let way = Bearing::from_deg(deg).unit();
            DVec2::new(way.x, -way.y)
        };
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a turn has 360 degrees")]
        let steps = (wide.ceil() as u32).max(1);
        let rim = (0..=steps).map(|step| pilot + way(from + wide * f64::from(step) / f64::from(steps)) * far);
        let wedge: Vec<DVec2> = std::iter::once(pilot).chain(rim).collect();
        let pen = Some(Pen::plain(Ink::ORANGE, 0.35).dashed(&[0.8, 0.8]));
        sheet.shape(Path::Rings(vec![wedge]), pen, Fill::Hatch(SUN), "the sun in the hours of the flight");
        let middle = way(from + wide / 2.0);
        let inside = |at: DVec2| at.cmpge(map.frame.low + 7.0).all() && at.cmple(map.frame.high - 7.0).all();
        let steps = (0_u8..=100).map(|percent| pilot + middle * far * f64::from(percent) / 100.0);
        let Some(at) = steps.take_while(|at| inside(*at)).last() else { return };
        for ray in 0_u8..8 {
            let out = DVec2::from_angle(f64::from(ray) * std::f64::consts::FRAC_PI_4);
            sheet.line([at + out * 2.5, at + out * 3.9], Pen::plain(Ink::BLACK, 0.5));
        }
        sheet.circle(at, 1.9, Some(Pen::plain(Ink::BLACK, 0.5)), Fill::Plain(Ink::YELLOW));
        taken.take(at - 4.0, at + 4.0);
    }

    fn flight(&self, sheet: &mut Sheet, map: &MapFrame, shown: Shown) {
        let circles = self.lap.is_some();
        let radius = self.scenario.file.recovery.radius.m() * map.mm_a_metre;
        let centre = map.at(self.scenario.field.centre);
        sheet.shape(Path::Circle(centre, radius), Some(COMMANDED), Fill::None, "circle as commanded");
        let ring = self.studies.envelope.and_then(|study| study.rings.iter().find(|ring| ring.share >= 0.9));
        if let Some(ring) = ring.filter(|_| shown.envelope) {
            let ring = vec![map.all(&ring.corners).collect()];
            sheet.shape(
                Path::Rings(ring),
                Some(ENVELOPE),
                Fill::None,
                "90 % of whole recoveries stay inside, way home included",
            );
        }
        if let Some(keep) = self.studies.line().filter(|_| shown.keep_inside) {
            keep_inside(sheet, map, keep);
        }
        let trace = &self.run.trace;
        let until = |index: &usize| !circles || trace.stretch[*index] != Stretch::Circling;
        let path: Vec<DVec2> = (0..trace.len()).take_while(until).map(|index| map.at(trace.point(index))).collect();
        if shown.path && path.len() > 1 {
            sheet.line(path.iter().copied(), Pen::plain(Ink::PAPER, 1.3));
            sheet.shape(Path::Open(path), Some(HEADING_HOME), Fill::None, "path from the loss");
        }
        let Some(lap) = &self.lap else { return };
        let whole = vec![map.all(&lap.place).collect()];
        sheet.shape(Path::Rings(whole.clone()), Some(Pen::plain(Ink::PAPER, 1.9)), Fill::None, "");
        sheet.shape(Path::Rings(whole), Some(LAP), Fill::None, "circle as it is flown");
        if let Some(part) = self.take_over.as_ref().filter(|_| shown.take_over) {
            let mut arc: Vec<DVec2> = part.bearings.iter().map(|&index| map.at(lap.place[index])).collect();
            arc.extend(part.bearings.last().map(|&last| map.at(lap.place[lap.after(last)])));
            sheet.shape(Path::Open(arc.clone()), Some(TAKE_OVER), Fill::None, "take over here");
            sheet.line(arc.iter().copied(), TAKE_OVER_CORE);
            sheet.line(arc, LAP);
        }
        for run in saturated(lap) {
            let run: Vec<DVec2> = run.iter().map(|&index| map.at(lap.place[index])).collect();
            sheet.line(run.iter().copied(), Pen::plain(Ink::PAPER, 1.2));
            sheet.shape(Path::Open(run), Some(SATURATED), Fill::None, "at the maximum bank");
        }
    }

    /// Where words had better not lie: on the boundary, the lap and the way home.
    fn lines(&self, map: &MapFrame, shown: Shown, taken: &mut Taken) {
        for ring in self.scenario.field.boundary.rings() {
            taken.line(map.all(ring).chain(ring.first().map(|first| map.at(*first))));
        }
        let trace = &self.run.trace;
        let every = (0..trace.len()).step_by(10);
        taken.line(every.filter(|_| shown.path).map(|index| map.at(trace.point(index))));
        let lap = self.lap.iter().flat_map(|lap| lap.place.iter().chain(lap.place.first()));
        taken.line(map.all(lap));
    }

    /// Arrow heads on the lap, and words on the map about the plan.
    fn marks(&self, sheet: &mut Sheet, map: &MapFrame, shown: Shown, taken: &mut Taken) {
        let words = Lettering::new(3.3).bold().rimmed();
        if let Some(lap) = &self.lap {
            for index in (0..lap.place.len()).step_by(lap.place.len() / 4).map(|index| index + 4) {
                let course = lap.course(index);
                let along = DVec2::new(course.x, -course.y);
                arrow_head(sheet, map.at(lap.place[index]), along, [2.2, 1.4, 1.7], (Ink::BLACK, 0.4));
            }
            if let Some((part, middle)) = self.take_over.as_ref().and_then(|part| Some((part, part.middle(lap)?))) {
                let centre = self.scenario.field.centre;
                let half = part.bearings.len() / 2;
                let about =
                    [half, half / 2, half + half / 2].map(|at| part.bearings.get(at).copied().unwrap_or(middle));
                let places = about.into_iter().flat_map(|index| {
                    let out = (lap.place[index] - centre).normalize_or_zero();
                    [-11.0, 12.0, -15.0, 16.0].map(|by| map.at(lap.place[index]) + DVec2::new(out.x, -out.y) * by)
                });
                if shown.take_over && !part.bearings.is_empty() {
                    taken.letter(sheet, map.frame, "take over", words, places);
                }
            }
        }
        if shown.times {
            self.times(sheet, map, taken);
        }
        if let Some(keep) = self.studies.line().filter(|_| shown.clock) {
            let ring = keep.drawn().map(|line| line.ring(keep.centre)).unwrap_or_default();
            let places = map.all(&ring).flat_map(|at| [4.0, -4.0].map(|down| at + DVec2::new(0.0, down)));
            taken.letter(sheet, map.frame, "keep inside", words, places.collect::<Vec<_>>());
        }
        if shown.path {
            let at = map.at(self.scenario.file.loss.at_m.into());
            let arms = [DVec2::new(1.5, 1.5), DVec2::new(1.5, -1.5)];
            for (ink, width) in [(Ink::PAPER, 1.8), (Ink::BLACK, 0.8)] {
                arms.iter().for_each(|arm| sheet.line([at - *arm, at + *arm], Pen::plain(ink, width)));
            }
            taken.take(at - DVec2::splat(1.6), at + DVec2::splat(1.6));
            let places = [(0.0, 4.0), (0.0, -4.0), (7.0, 0.0), (-7.0, 0.0)].map(|(x, y)| at + DVec2::new(x, y));
            taken.letter(sheet, map.frame, "lost here", words, places);
        }
    }

    /// The seconds since the loss along the path, until it circles.
    fn times(&self, sheet: &mut Sheet, map: &MapFrame, taken: &mut Taken) {
        let trace = &self.run.trace;
        let end = self.margins.figures.home_s.map_or(60.0, |home| home + SETTLED_S);
        let mut next = 5.0;
        for index in 0..trace.len() {
            if trace.time_s(index) + 1e-9 < next || next > end {
                continue;
            }
            let at = map.at(trace.point(index));
            sheet.circle(at, 1.0, Some(Pen::plain(Ink::BLACK, 0.4)), Fill::Plain(Ink::PAPER));
            let places = [(0.0, -4.0), (0.0, 4.0), (5.5, 0.0), (-5.5, 0.0)].map(|(x, y)| at + DVec2::new(x, y));
            taken.letter(sheet, map.frame, &format!("{next:.0} s"), Lettering::new(3.1).rimmed(), places);
            next += 5.0;
        }
    }
}

/// The runs of bearings of a lap at which the bank is at its limit, in the order of flight.
fn saturated(lap: &Lap) -> Vec<Vec<usize>> {
    let order = lap.in_flight_order();
    let count = order.len();
    let at = |place: usize| order[place % count];
    if (0..count).all(|place| lap.saturated[at(place)]) {
        return vec![(0..=count).map(at).collect()];
    }
    let begins = (0..count).filter(|&place| lap.saturated[at(place)] && !lap.saturated[at(place + count - 1)]);
    begins
        .map(|begin| {
            let end = (begin..begin + count).find(|&place| !lap.saturated[at(place)]).unwrap_or(begin + count);
            (begin..=end).map(at).collect()
        })
        .collect()
}
