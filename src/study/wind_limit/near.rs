//! Whether the one place of the loss lies nearer to a limit than is asked for.

use crate::field::Rule;
use crate::margins::{Limit, LimitInfo, PILOT_SPOT_M};
use crate::run::Scenario;

/// The first limit that the loss itself lies nearer to than is asked for: no wind helps there. None where there is a
/// circuit, since trials are then lost all along it and not there.
pub(super) fn loss_too_near(scenario: &Scenario, limits: &[LimitInfo]) -> Option<usize> {
    let (file, field) = (&scenario.file, &scenario.field);
    if field.circuit.is_some() {
        return None;
    }
    let (at, height) = (glam::DVec2::from_array(file.loss.at_m), file.loss.height.m());
    let (aside, above) = (file.limits.buffer.m(), file.limits.height_buffer.m());
    let off_people = file.limits.people_buffer.m();
    let near = |limit: Limit| match limit {
        Limit::Boundary => field.boundary.signed_distance(at) < aside,
        Limit::Area(index) => {
            let (area, distance) = (&field.areas[index], -field.areas[index].region.signed_distance(at));
            match area.rule {
                Rule::NoFly => distance < aside,
                Rule::People => distance < off_people,
                Rule::Above(_) | Rule::Caution | Rule::Idle => false,
            }
        }
        Limit::PilotPosition => field.pilot.distance(at) - PILOT_SPOT_M < off_people,
        Limit::FlightLine => field.flight_line.is_some_and(|line| line.signed_distance(at) < aside),
        Limit::Obstacle(index) => {
            let obstacle = &field.obstacles[index];
            let rise = height + field.ground.height_m(field.home) - obstacle.top_m;
            -obstacle.region.signed_distance(at) < aside && rise < above
        }
        _ => false,
    };
    limits.iter().position(|info| near(info.limit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::{CircuitFile, Way};
    use crate::margins::Scorer;
    use crate::units::{Length, Ratio, Speed};

    #[track_caller]
    fn check_near(edit: impl FnOnce(&mut Scenario), named: Option<&str>) {
        let mut scenario = Scenario::tight_strip();
        edit(&mut scenario);
        let scorer = Scorer::new(&scenario);
        let found = loss_too_near(&scenario, scorer.limits());
        assert_eq!(found.map(|limit| scorer.limits()[limit].name.as_str()), named);
    }

    #[test]
    fn a_loss_too_near_to_a_limit_is_seen_before_the_flight() {
        check_near(|_| (), None);
        check_near(|scenario| scenario.file.loss.at_m = [239.0, 30.0], None);
        check_near(|scenario| scenario.file.loss.at_m = [241.0, 30.0], Some("boundary"));
        check_near(|scenario| scenario.file.loss.at_m = [81.0, 150.0], None);
        check_near(|scenario| scenario.file.loss.at_m = [79.0, 150.0], Some("goat paddock, no-fly"));
        // 30 m off a spot of 3 m at (0, -12), at any height.
        check_near(|scenario| scenario.file.loss.at_m = [0.0, 20.9], Some("pilot position"));
        check_near(|scenario| scenario.file.loss.at_m = [0.0, 21.1], None);
        // The oak is 14 m tall; 10 m over it are asked for.
        let by_the_oak = |height: f64| {
            move |scenario: &mut Scenario| {
                scenario.file.loss.at_m = [210.0, -220.0];
                scenario.file.loss.height = Length::new(height);
            }
        };
        check_near(by_the_oak(25.0), None);
        check_near(by_the_oak(23.0), Some("obstacle: lone oak"));
    }

    #[test]
    fn trials_lost_along_a_circuit_are_not_lost_at_the_place_written() {
        let mut file = Scenario::tight_strip().file;
        file.loss.at_m = [250.0, 30.0];
        file.field.as_mut().unwrap().circuit = Some(CircuitFile {
            line_m: vec![[-150.0, -150.0], [150.0, -150.0], [150.0, 50.0], [-150.0, 50.0]],
            area_m: vec![],
            way: Way::Both,
            width: Length::new(15.0),
            lowest: Length::new(50.0),
            highest: Length::new(80.0),
            slowest: Speed::new(20.0),
            fastest: Speed::new(30.0),
            charge_low: Ratio::new(0.45),
            charge_high: Ratio::new(0.9),
        });
        let scenario = Scenario::from_file(file).unwrap();
        assert_eq!(loss_too_near(&scenario, Scorer::new(&scenario).limits()), None);
    }
}
