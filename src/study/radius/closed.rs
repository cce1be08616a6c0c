//! What can be said without flying: bounds in closed form, and the room about the centre.

use glam::DVec2;

use super::answer::ClosedForm;
use crate::field::Rule;
use crate::jet::turn;
use crate::run::{Scenario, Trial, WindChoice, draw};

/// What the jet has to make against the wind, m/s: less is no way of coming home.
pub(in crate::study) const PENETRATION: f64 = 2.0;

/// Wind of a trial at circle height, m/s.
pub(super) fn wind_aloft(scenario: &Scenario, trial: &Trial) -> f64 {
    let wind = trial.wind.at(scenario.file.wind.profile, trial.plan.height);
    wind.x.hypot(wind.y)
}

/// Slowest airspeed that keeps the stall margin at a bank, m/s.
pub(in crate::study) fn stall_floor(scenario: &Scenario, bank: f64) -> f64 {
    let jet = draw(scenario, 0, WindChoice::Mean).jet;
    scenario.file.limits.stall_factor * jet.stall_speed(turn::load(bank))
}

/// The distance from a centre to what is nearest in the plane, buffer taken off where asked for, and its name.
///
/// What the circle passes over with the height buffer to spare is not in the way.
pub(in crate::study) fn room(scenario: &Scenario, centre: DVec2, buffer: f64) -> (f64, String) {
    let (field, file) = (&scenario.field, &scenario.file);
    let home_ground = field.ground.height_m(field.home);
    let circle = home_ground + file.recovery.height.m();
    let low = |top: f64| circle - top >= file.limits.height_buffer.m();
    let more = (file.limits.people_buffer.m() - file.limits.buffer.m()).max(0.0);
    let mut all = vec![(field.boundary.signed_distance(centre), "boundary".to_owned())];
    for area in &field.areas {
        let distance = -area.region.signed_distance(centre);
        match area.rule {
            Rule::NoFly => all.push((distance, format!("{}, no-fly", area.name))),
            // Off people more is asked for: as much more they are nearer, once a buffer is taken off.
            Rule::People => {
                all.push((distance - if buffer > 0.0 { more } else { 0.0 }, format!("{}, people", area.name)));
            }
            Rule::Above(height) => {
                let top = field.ground.height_m(area.region.nearest(centre).at) + height;
                if !low(top) {
                    all.push((distance, format!("above {height:.0} m: {}", area.name)));
                }
            }
            Rule::Caution | Rule::Idle => {}
        }
    }
    all.extend(field.flight_line.map(|line| (line.signed_distance(centre), "flight line".to_owned())));
    let tall = field.obstacles.iter().filter(|obstacle| !low(obstacle.top_m));
    all.extend(tall.map(|obstacle| (-obstacle.region.signed_distance(centre), format!("obstacle: {}", obstacle.name))));
    let (distance, name) = all.into_iter().min_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or_default();
    (distance - buffer, name)
}

/// The bounds of a scenario.
pub(super) fn closed_form(scenario: &Scenario) -> ClosedForm {
    let file = &scenario.file;
    let (speed, bank, radius) =
        (file.jet.return_speed.value.mps(), file.jet.maximum_bank.value.rad(), file.recovery.radius.m());
    let [mean, gust] = scenario.wind_at_circle();
    let (largest_m, largest_reason) = room(scenario, scenario.field.centre, file.limits.buffer.m());
    ClosedForm {
        smallest_m: [0.0, mean, gust].map(|wind| turn::smallest_radius(speed, wind, bank)),
        largest_m,
        largest_reason,
        speed_window_mps: speed_window(stall_floor(scenario, bank), radius, mean, bank),
        wind_limit_mps: turn::wind_limit(speed, radius, bank),
    }
}

/// Slowest and fastest airspeed at which a radius is held in a wind: the stall floor and headway below, bank above.
fn speed_window(stall_floor: f64, radius: f64, wind: f64, bank: f64) -> [f64; 2] {
    // The most wind that the maximum bank holds the radius in at no airspeed is the most of airspeed and wind together.
    [stall_floor.max(wind + PENETRATION), turn::wind_limit(0.0, radius, bank) - wind]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn speed_windows_of_the_worked_examples() {
        // Stall at 12.3 m/s, 1.3 times that asked for, 35 deg, 8 m/s of wind: "R=100 gives 17.7 to 18.2 m/s (a slit);
        // R=150 gives 17.7 to 24.1 m/s".
        let bank = 35.0_f64.to_radians();
        let floor = 1.3 * 12.3 * turn::load(bank).sqrt();
        for (radius, wanted) in [(100.0, [17.7, 18.2]), (150.0, [17.7, 24.1])] {
            let found = speed_window(floor, radius, 8.0, bank);
            for (found, wanted) in found.into_iter().zip(wanted) {
                approx::assert_abs_diff_eq!(found, wanted, epsilon = 0.05);
            }
        }
        // In 20 m/s it is headway, not the stall, that bounds it below.
        approx::assert_abs_diff_eq!(speed_window(floor, 150.0, 20.0, bank)[0], 22.0, epsilon = 1e-9);
    }

    #[test]
    fn room_about_a_centre_by_hand() {
        let scenario = Scenario::tight_strip();
        // 95 m to the paddock from the datum; from the shipped centre 175 m to the paddock and 180 m to the boundary.
        assert_eq!(room(&scenario, DVec2::ZERO, 20.0), (75.0, "goat paddock, no-fly".into()));
        assert_eq!(room(&scenario, DVec2::new(0.0, -80.0), 20.0), (155.0, "goat paddock, no-fly".into()));
        assert_eq!(room(&scenario, DVec2::new(0.0, -100.0), 0.0), (160.0, "boundary".into()));
        assert_eq!(room(&scenario, DVec2::new(0.0, 100.0), 0.0).0, -5.0);
        // In June goats are no reason.
        let mut june = scenario.file.clone();
        june.date = "2026-06-20".into();
        let june = Scenario::from_file(june).unwrap();
        assert_eq!(room(&june, DVec2::ZERO, 0.0), (200.0, "boundary".into()));
        // Off people 10 m more are asked for than off an edge.
        let mut people = june.file.clone();
        people.field.as_mut().unwrap().areas[1].rule = crate::field::RuleName::People;
        let people = Scenario::from_file(people).unwrap();
        assert_eq!(room(&people, DVec2::ZERO, 0.0), (20.0, "pits and cars, people".into()));
        assert_eq!(room(&people, DVec2::ZERO, 20.0), (-10.0, "pits and cars, people".into()));
        // The oak is 14 m high: in the way of a circle at 20 m, not of one at 24 m.
        for (height, nearest) in [(20.0, 12.0_f64.hypot(10.0)), (24.0, 44.0)] {
            let mut low = june.file.clone();
            low.recovery.height = crate::units::Length::new(height);
            let low = Scenario::from_file(low).unwrap();
            approx::assert_abs_diff_eq!(room(&low, DVec2::new(210.0, -216.0), 0.0).0, nearest, epsilon = 1e-9);
        }
    }
}
