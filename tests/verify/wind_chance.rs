//! Whether the trials meet a limit on the wind as often as the normal distribution says (verification V17).

use peewit::jet::turn::{smallest_radius, wind_limit};
use peewit::run::{Scenario, WindChoice, draw};
use peewit::study::stats::Share;
use statrs::function::erf::erfc;

/// Closed form: a radius holds where the wind stays below its most_wind, so a normal wind lets it with the normal
/// distribution's chance of that.
#[test]
fn a_radius_holds_in_as_many_winds_as_the_normal_distribution_says() {
    let (speed, bank) = (20.0, 0.6);
    let mut file = crate::support::tight_strip().file;
    let (wind, mean) = (&file.wind, file.wind.mean.mps());
    let sd = wind.mean_spread.share() * mean + wind.mean_floor.mps();
    let seeds = 100;
    for deviate in [-1.0, 0.0, 0.5, 1.5, 2.0] {
        let most_wind = mean + deviate * sd;
        let radius = smallest_radius(speed, most_wind, bank);
        assert!((wind_limit(speed, radius, bank) - most_wind).abs() < 1e-9);
        let chance = 0.5 * erfc(-deviate / std::f64::consts::SQRT_2);
        let held = (1..=seeds).filter(|seed| {
            file.seed = *seed;
            let scenario = Scenario::from_file(file.clone()).unwrap();
            let holds = |trial| {
                let wind = draw(&scenario, trial, WindChoice::Mean).wind;
                smallest_radius(speed, wind.x.hypot(wind.y), bank) <= radius
            };
            let count = (1..=400).filter(|trial| holds(*trial)).count() as u64;
            Share { count, of: 400 }.clopper_pearson(0.99).holds(chance)
        });
        let held = held.count();
        // At most 1 interval in 100 misses; more than 5 of 100 do so in 1 of 2000 sets (binomial).
        assert!(held >= 95, "{deviate}: {held} of {seeds}");
    }
}
