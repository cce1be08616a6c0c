//! The circle as it is seen from the pilot position: which way, how high, beside what.

use glam::DVec2;

use crate::brief::Plan;
use crate::draw::{Fill, Frame, Ink, Lettering, Path, Pen, Sheet, Taken, arrow_head};
use crate::margins::eyes;
use crate::units::Bearing;

/// Highest elevation shown, degrees.
const TOP: f64 = 90.0;

impl Plan<'_> {
    /// The whole horizon from left to right, twelve o'clock in the middle; upwards the height of gaze.
    pub(super) fn draw_sky(&self, sheet: &mut Sheet, room: Frame) {
        let facing = self.scenario.field.facing;
        let top = self.sky_top();
        let frame = Frame { low: room.low + DVec2::new(15.0, 4.0), high: room.high - DVec2::new(3.0, 26.0) };
        let at = |bearing: f64, elevation: f64| {
            let aside = (bearing - facing.deg() + 180.0).rem_euclid(360.0) / 360.0;
            DVec2::new(
                frame.low.x + frame.size().x * aside,
                frame.high.y - frame.size().y * elevation.clamp(0.0, top) / top,
            )
        };
        sheet.rectangle(frame.low, frame.high, None, Fill::Plain(Ink(0x00F4_F8FB)));
        let mut taken = Taken::default();
        for fists in 1..9 {
            let elevation = f64::from(fists) * 10.0;
            if elevation > top {
                break;
            }
            let y = at(facing.deg(), elevation).y;
            sheet.line([DVec2::new(frame.low.x, y), DVec2::new(frame.high.x, y)], Pen::plain(Ink::RULE, 0.25));
            let words = if fists == 1 { "1 fist".to_owned() } else { format!("{fists} fists") };
            sheet.words(DVec2::new(frame.low.x - 1.2, y + 1.2), words, Lettering::new(3.2).end());
        }
        for hour in 0_u8..12 {
            let bearing = facing.deg() + f64::from(hour) * 30.0;
            let x = at(bearing, 0.0).x;
            sheet.line([DVec2::new(x, frame.low.y), DVec2::new(x, frame.high.y)], Pen::plain(Ink::FAINT, 0.25));
            let name = if hour == 0 { 12 } else { hour };
            let lettering = Lettering::new(if hour == 0 { 5.4 } else { 4.2 }).bold().middle();
            sheet.words(DVec2::new(x, frame.high.y + 6.6), format!("{name}"), lettering);
            let point = Bearing::from_deg(bearing).point();
            sheet.words(DVec2::new(x, frame.high.y + 11.4), point, Lettering::new(3.0).middle().ink(Ink::SOFT));
        }
        let told = "hour of the clock, 12 straight ahead; below it the point of the compass";
        sheet.words(DVec2::new(frame.middle().x, frame.high.y + 16.8), told, Lettering::new(3.4).middle());
        self.draw_sun(sheet, frame, &at, &mut taken);
        self.draw_seen(sheet, frame, &at, &mut taken);
        self.draw_tall(sheet, frame, &at, &mut taken);
        sheet.line([DVec2::new(frame.low.x, frame.high.y), frame.high], Pen::plain(Ink::BLACK, 1.2));
        sheet.rectangle(frame.low, frame.high, Some(Pen::plain(Ink::BLACK, 0.3)), Fill::None);
    }

    /// High enough for the whole lap.
    fn sky_top(&self) -> f64 {
        let lap = self.look.as_ref().map_or(40.0, |look| look.elevations_deg[1]);
        let sun = self.glare.worst.map_or(0.0, |worst| worst.sun.elevation_deg);
        let highest = lap.max(sun);
        ((highest + 12.0) / 10.0).ceil().mul_add(10.0, 0.0).clamp(40.0, TOP)
    }

    /// The lap, with the part to take over on.
    fn draw_seen(&self, sheet: &mut Sheet, frame: Frame, at: &dyn Fn(f64, f64) -> DVec2, taken: &mut Taken) {
        let Some(lap) = &self.lap else {
            let words = Lettering::new(5.0).bold();
            taken.letter(sheet, frame, "no whole lap is flown", words, [frame.middle()]);
            return;
        };
        let eyes = eyes(self.scenario);
        let seen = |index: usize| {
            let sight = lap.place[index].extend(lap.height_m[index]) - eyes;
            at(Bearing::of(sight.truncate()).deg(), sight.z.atan2(sight.truncate().length()).to_degrees())
        };
        let ring = lap.in_flight_order();
        let closed: Vec<usize> = ring.iter().chain(ring.first()).copied().collect();
        let part = self.take_over.as_ref().map(|part| part.bearings.clone()).unwrap_or_default();
        let run = |sheet: &mut Sheet, indices: &[usize], pen: Pen, about: &str| {
            let points: Vec<DVec2> = indices.iter().map(|&index| seen(index)).collect();
            // The picture ends behind the back, and there the line is broken.
            let near = |a: &DVec2, b: &DVec2| (a.x - b.x).abs() < frame.size().x / 2.0;
            for piece in points.chunk_by(near).filter(|piece| piece.len() > 1) {
                sheet.shape(Path::Open(piece.to_vec()), Some(pen), Fill::None, about);
            }
        };
        sheet.clipped(frame.low, frame.high, |sheet| {
            run(sheet, &part, Pen::plain(Ink::BLACK, 4.4), "take over here");
            run(sheet, &part, Pen::plain(Ink(0x0079_CAAF), 3.4), "");
            run(sheet, &closed, Pen::plain(Ink::PAPER, 2.0), "");
            run(sheet, &closed, Pen::plain(Ink::BLACK, 1.1), "the circle as it is seen");
        });
        for index in ring.iter().step_by(12).copied() {
            let (from, to) = (seen(index), seen(lap.after(index)));
            if (to.x - from.x).abs() > frame.size().x / 2.0 || from.distance(to) < 1e-6 {
                continue;
            }
            let along = (to - from).normalize();
            arrow_head(sheet, from, along, [2.6, 1.6, 2.0], (Ink::BLACK, 0.4));
        }
        let middle = self.take_over.as_ref().and_then(|part| part.middle(lap));
        if let Some(middle) = middle.map(seen) {
            let places = [-8.0, 8.0, -13.0, 13.0].map(|down| middle + DVec2::new(0.0, down));
            taken.letter(sheet, frame, "take over here", Lettering::new(4.4).bold().rimmed(), places);
        }
    }

    /// Landmarks and tall things on the horizon.
    fn draw_tall(&self, sheet: &mut Sheet, frame: Frame, at: &dyn Fn(f64, f64) -> DVec2, taken: &mut Taken) {
        let (pilot, eyes) = (self.scenario.field.pilot, eyes(self.scenario));
        let home = self.scenario.field.ground.height_m(self.scenario.field.home);
        let tall = self.scenario.field.obstacles.iter().map(|obstacle| {
            let (low, high) = obstacle.region.bounds();
            let way = (low + high) / 2.0 - pilot;
            let up = (obstacle.top_m - home - eyes.z).atan2(way.length()).to_degrees();
            (obstacle.name.as_str(), way, up.max(0.5))
        });
        let far = self.scenario.file.brief.landmarks.iter();
        let far = far.map(|mark| (mark.name.as_str(), DVec2::from(mark.at_m) - pilot, 2.0));
        for (name, way, up) in far.chain(tall).filter(|(_, way, _)| way.length() > 1.0) {
            let bearing = Bearing::of(way).deg();
            let (foot, top) = (at(bearing, 0.0), at(bearing, up));
            sheet.line([foot, top], Pen::plain(Ink::BLACK, 1.6));
            sheet.circle(top, 1.1, None, Fill::Plain(Ink::BLACK));
            let places = [5.0, 9.5, 14.0, 18.5].map(|over| top - DVec2::new(0.0, over));
            taken.letter(sheet, frame, name, Lettering::new(3.5).rimmed(), places);
        }
    }

    /// The sun at the worst moment, with the ring of its glare.
    fn draw_sun(&self, sheet: &mut Sheet, frame: Frame, at: &dyn Fn(f64, f64) -> DVec2, taken: &mut Taken) {
        let Some(worst) = self.glare.worst.filter(|worst| worst.sun.is_up()) else { return };
        let place = at(worst.sun.azimuth_deg, worst.sun.elevation_deg);
        if worst.sun.elevation_deg > self.sky_top() {
            return;
        }
        let mm_a_degree = frame.size().y / self.sky_top();
        sheet.clipped(frame.low, frame.high, |sheet| {
            let across = frame.size().x / 360.0 / worst.sun.elevation_deg.to_radians().cos().max(0.1);
            let rim = (0_u8..=72).map(|step| {
                let turn = DVec2::from_angle(f64::from(step) * std::f64::consts::TAU / 72.0);
                place + turn * DVec2::new(across, mm_a_degree) * self.glare.within_deg
            });
            let pen = Pen::plain(Ink::ORANGE, 0.6).dashed(&[1.6, 1.2]);
            sheet.ring(rim, Some(pen), Fill::Plain(Ink::YELLOW.thinned(0.25)));
        });
        sheet.circle(place, 2.4, Some(Pen::plain(Ink::BLACK, 0.6)), Fill::Plain(Ink::YELLOW));
        taken.take(place - 3.0, place + 3.0);
        let words = format!("sun at {:02}:{:02}", worst.clock_min / 60, worst.clock_min % 60);
        let places = [5.5, -5.0].map(|down| place + DVec2::new(0.0, down));
        taken.letter(sheet, frame, &words, Lettering::new(3.5).rimmed(), places);
    }
}
