//! Whole scenarios from a seed: every number anywhere that the checks allow, its ends often.

use std::f64::consts::TAU;

use peewit::field::{AreaFile, Metres, ObstacleFile, RuleName, SpotFile};
use peewit::jet::Entry;
use peewit::recovery::{FailsafeAction, Gain, Guidance, Turn};
use peewit::run::{HeightAbove, HeightLimit, LossKind, Scenario, ScenarioFile};
use peewit::units::{Bearing, Length, Quantity};
use peewit::wind::Profile;
use rand::{RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;

/// Random numbers, put where they are asked for.
pub(crate) struct Dice(Xoshiro256PlusPlus);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(Xoshiro256PlusPlus::seed_from_u64(seed))
    }

    fn roll(&mut self) -> f64 {
        self.0.random()
    }

    /// Between two numbers, one roll in seven at an end.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        match self.roll() {
            roll if roll < 0.07 => low,
            roll if roll > 0.93 => high,
            roll => low + (high - low) * roll,
        }
    }

    pub(crate) fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small positive index")]
        let index = (self.roll() * f64::from(u32::try_from(from.len()).unwrap_or(1))) as usize;
        from[index.min(from.len() - 1)]
    }

    pub(crate) fn quantity<Q: Quantity>(&mut self, low: f64, high: f64) -> Q {
        Q::from_si(self.between(low, high))
    }

    fn entry<Q: Quantity>(&mut self, entry: &mut Entry<Q>, low: f64, high: f64) {
        entry.value = self.quantity(low, high);
        entry.spread = Q::from_si(entry.value.si().abs() * self.between(0.0, 0.4));
    }

    /// A ring about a place whose corners lie at any distance, in the order of their directions.
    fn star(&mut self, [x, y]: Metres, largest: f64) -> Vec<Metres> {
        let corners = self.pick(&[3_u32, 4, 5, 8, 12]);
        let corner = |i: u32| {
            let (sin, cos) = (f64::from(i) / f64::from(corners) * TAU).sin_cos();
            let reach = largest * self.between(0.05, 1.0);
            [x + reach * cos, y + reach * sin]
        };
        (0..corners).map(corner).collect()
    }

    fn field(&mut self, file: &mut ScenarioFile) {
        let field = file.field.as_mut().expect("the demo has its field inline");
        field.boundary.ring_m = self.star([0.0, 0.0], 700.0);
        let rule = self.pick(&[RuleName::NoFly, RuleName::Above, RuleName::People, RuleName::Caution]);
        field.areas = vec![AreaFile {
            name: "area".into(),
            rule,
            height: (rule == RuleName::Above).then(|| self.quantity(1.0, 120.0)),
            months: vec![],
            otherwise: None,
            ring_m: self.star([150.0, 90.0], 200.0),
            holes_m: vec![],
        }];
        let ring_m = self.star([-200.0, -120.0], 120.0);
        field.obstacles = vec![ObstacleFile { name: "wood".into(), height: Length::new(18.0), at_m: None, ring_m }];
        let place = |dice: &mut Self| [dice.between(-300.0, 300.0), dice.between(-300.0, 300.0)];
        field.home_m = place(self);
        field.centre_m = Some(place(self));
        field.pilot_m = place(self);
        field.flight_line_m = self.pick(&[true, false]).then(|| [place(self), place(self)]);
        let spots = 0..self.pick(&[0, 0, 3, 5]);
        let spot = |_| SpotFile { at_m: place(self), height: self.quantity(-30.0, 30.0) };
        field.ground = spots.map(spot).collect();
    }

    fn jet(&mut self, file: &mut ScenarioFile) {
        let jet = &mut file.jet;
        self.entry(&mut jet.mass, 0.3, 12.0);
        self.entry(jet.full_power.as_mut().expect("the demo has all numbers"), 10.0, 8000.0);
        self.entry(&mut jet.roll_lag, 0.0, 2.0);
        self.entry(&mut jet.fan_lag, 0.0, 3.0);
        self.entry(&mut jet.roll_rate, 0.1, 17.0);
        self.entry(&mut jet.maximum_bank, 0.09, 1.04);
        self.entry(&mut jet.climb_limit, 0.02, 1.04);
        self.entry(&mut jet.return_speed, 3.0, 60.0);
        self.entry(&mut jet.capacity, 360.0, 40_000.0);
        jet.lift_max.as_mut().expect("the demo has all numbers").value = self.between(0.2, 4.0);
        jet.drag_zero_lift.as_mut().expect("the demo has all numbers").value = self.between(0.005, 0.5);
    }

    fn plan(&mut self, file: &mut ScenarioFile) {
        let (plan, loss) = (&mut file.recovery, &mut file.loss);
        plan.failsafe_action = self.pick(&[
            FailsafeAction::Return,
            FailsafeAction::Return,
            FailsafeAction::WaitThenCut,
            FailsafeAction::Cut,
        ]);
        plan.guidance = self.pick(&[Guidance::FieldOfDirections, Guidance::LookAhead, Guidance::NoseOnTheCentre]);
        plan.gain = self.pick(&[Gain::Soft, Gain::Nominal, Gain::Sharp]);
        plan.turn = self.pick(&[Turn::Clockwise, Turn::Anticlockwise]);
        plan.radius = self.quantity(5.0, 300.0);
        plan.height = self.quantity(1.0, 200.0);
        plan.turn_above = self.quantity(0.0, 100.0);
        plan.laps = self.between(0.5, 2.0);
        plan.glide_bank = self.quantity(-1.04, 1.04);
        self.entry(&mut plan.failsafe_delay, 0.0, 5.0);
        let perception = &mut plan.perception;
        perception.fix_rate = self.quantity(1.0, 50.0);
        perception.delay = self.quantity(0.0, 0.7);
        perception.position_noise = self.quantity(0.0, 20.0);
        loss.kind = self.pick(&[LossKind::Control, LossKind::Video, LossKind::Both, LossKind::Position]);
        loss.at_m = [self.between(-500.0, 500.0), self.between(-500.0, 500.0)];
        loss.height = self.quantity(0.1, 300.0);
        loss.speed = self.quantity(1.0, 80.0);
        loss.heading = Bearing::from_deg(self.between(0.0, 360.0));
        loss.climb = self.quantity(-1.39, 1.39);
        loss.bank = self.quantity(-1.39, 1.39);
        loss.charge = self.quantity(0.002, 0.3);
    }

    /// A scenario, unless the field's rings are refused.
    pub(crate) fn scenario(&mut self) -> Option<Scenario> {
        let mut file = crate::support::tight_strip().file;
        self.plan(&mut file);
        self.jet(&mut file);
        file.wind.mean = self.quantity(0.0, 40.0);
        file.wind.gust = Some(Quantity::from_si(file.wind.mean.mps() + self.between(0.0, 20.0)));
        file.wind.from = Bearing::from_deg(self.between(0.0, 360.0));
        file.wind.profile = self.pick(&[Profile::Power, Profile::Log, Profile::Uniform]);
        file.wind.measured_at = self.quantity(0.1, 200.0);
        let above = self.pick(&[HeightAbove::Ground, HeightAbove::Home]);
        file.limits.height_limit = Some(HeightLimit { height: self.quantity(20.0, 200.0), above });
        file.limits.stall_factor = self.between(1.0, 2.0);
        file.limits.stall_over = self.quantity(0.1, 60.0);
        file.limits.stall_factor_moment = self.between(1.0, 2.0);
        self.field(&mut file);
        Scenario::from_file(file).ok()
    }
}
