//! What a person sees, flags and trees or a windsock, as a wind with its lowest and highest value.

use crate::error::Fault;
use crate::units::{Length, Ratio, Speed};
use crate::wind::sheet::{mean_floor, mean_spread};
use crate::wind::{ASSUMED_GUST, WindSheet};

/// One knot, m/s.
const KNOT: f64 = 1852.0 / 3600.0;

/// Height at which the Beaufort numbers have their speeds, metres: the WMO's, over open flat ground.
const BEAUFORT_M: f64 = 10.0;

/// Usual height of a club's windsock, metres: common practice, no source.
pub const SOCK_M: f64 = 6.0;

/// A wind judged by eye.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// The likely mean speed, m/s.
    pub mean_mps: f64,
    /// The least it may be, m/s.
    pub low_mps: f64,
    /// The most it may be, m/s.
    pub high_mps: f64,
    /// Height above the ground it is the wind of, metres.
    pub height_m: f64,
    /// What was seen and what that means, in plain words.
    pub words: String,
}

/// A Beaufort number as it is seen on land.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sign {
    /// The number.
    pub beaufort: u8,
    /// What one sees.
    pub seen: &'static str,
    /// Lowest mean speed, m/s.
    pub low_mps: f64,
    /// Highest mean speed, m/s.
    pub high_mps: f64,
}

/// Beaufort numbers 0 to 8 on land. Speeds: the WMO's table; signs after the same table, in other words.
pub const SIGNS: [Sign; 9] = [
    sign(0, "Smoke goes straight up; no leaf moves.", 0.0, 0.3),
    sign(1, "Smoke leans over, yet a vane does not turn.", 0.3, 1.5),
    sign(2, "You feel it on your face; leaves rustle; a vane turns.", 1.6, 3.3),
    sign(3, "Leaves and twigs keep moving; a light flag stands out.", 3.4, 5.4),
    sign(4, "Dust and loose paper fly up; small branches move.", 5.5, 7.9),
    sign(5, "Small leafy trees sway; ponds have little crests.", 8.0, 10.7),
    sign(6, "Big branches move; wires whistle; an umbrella is a struggle.", 10.8, 13.8),
    sign(7, "Whole trees move; walking against it is a push.", 13.9, 17.1),
    sign(8, "Twigs break off trees; walking against it is hard work.", 17.2, 20.7),
];

const fn sign(beaufort: u8, seen: &'static str, low_mps: f64, high_mps: f64) -> Sign {
    Sign { beaufort, seen, low_mps, high_mps }
}

/// The wind of a Beaufort number: between the ends of its band, most likely `0.836 B^1.5` m/s (the WMO's fit of 1946).
///
/// # Errors
///
/// Where there is no sign for the number: nobody flies in more than 8.
pub fn beaufort(number: u8) -> Result<Estimate, Vec<Fault>> {
    let Some(sign) = SIGNS.iter().find(|sign| sign.beaufort == number) else {
        let problem = format!("Beaufort {number} is not among the signs");
        return Err(vec![Fault::error(
            "Beaufort number",
            problem,
            "Choose a number from 0 to 8; above that stay on the ground",
        )]);
    };
    let mean_mps = 0.836 * f64::from(number).powf(1.5);
    let words = format!(
        "Beaufort {number}: {:.1} to {:.1} m/s at 10 m over open ground, most likely {mean_mps:.1} m/s. {} Between two \
         numbers take the higher.",
        sign.low_mps, sign.high_mps, sign.seen
    );
    Ok(Estimate { mean_mps, low_mps: sign.low_mps, high_mps: sign.high_mps, height_m: BEAUFORT_M, words })
}

/// Stripes of a windsock, and what each that stands out adds, kt: convention.
const STRIPES: u8 = 5;
const STRIPE_KT: f64 = 3.0;
/// The most that a sock which stands out whole is taken for, kt: "stands out at 15 to 20 kt" (NAVEDTRA 14342A, 4-27).
const FULL_KT: f64 = 20.0;

/// The wind of a windsock of five stripes, `standing` of which stand out, on a mast in metres: 3 kt a stripe, and a
/// stripe misjudged either way.
///
/// # Errors
///
/// Every reason why that makes no sense.
pub fn windsock_stripes(standing: u8, mast_m: f64) -> Result<Estimate, Vec<Fault>> {
    let mut faults = mast(mast_m);
    if standing > STRIPES {
        let problem = format!("{standing} stripes of {STRIPES} can't stand out");
        faults.push(Fault::error("stripes", problem, "Count the stripes that stand out, from the mast outwards"));
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let stripes = f64::from(standing);
    let (low, mean, high) = match standing {
        // It hangs until about 3 kt move it, so that half of that is as likely as anything.
        0 => (0.0, STRIPE_KT / 2.0, STRIPE_KT),
        STRIPES => (STRIPE_KT * (stripes - 1.0), STRIPE_KT * stripes, FULL_KT),
        _ => (STRIPE_KT * (stripes - 1.0), STRIPE_KT * stripes, STRIPE_KT * (stripes + 1.0)),
    };
    let seen = match standing {
        0 => "The sock hangs: less than 3 kt".into(),
        STRIPES => "The sock stands out whole: 15 kt or more, and it can't tell how much more".into(),
        1 => "1 stripe stands out".into(),
        _ => format!("{standing} stripes stand out"),
    };
    Ok(sock(&seen, [low, mean, high], mast_m))
}

/// How far below level a sock hangs, deg, and the wind, kt: Transport Canada, 6 kt 30 deg below, 10 kt 5 deg below,
/// 15 kt level. Hanging straight down is a calm.
const ANGLES: [(f64, f64); 4] = [(0.0, 15.0), (5.0, 10.0), (30.0, 6.0), (90.0, 0.0)];
/// How far an angle is misjudged by eye, deg: common practice, no source.
const BY_EYE_DEG: f64 = 10.0;

/// The wind of a windsock that hangs some degrees below level, on a mast in metres, and that angle misjudged by 10 deg
/// either way. Between the angles that have a source, and from 30 deg down to hanging in a calm, it is a straight line.
///
/// # Errors
///
/// Every reason why that makes no sense.
pub fn windsock_angle(below_level_deg: f64, mast_m: f64) -> Result<Estimate, Vec<Fault>> {
    let mut faults = mast(mast_m);
    if !(0.0..=90.0).contains(&below_level_deg) {
        let problem = format!("a sock can't hang {below_level_deg} deg below level");
        faults.push(Fault::error("angle", problem, "Give 0 for level, up to 90 for hanging straight down"));
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let high = if below_level_deg < BY_EYE_DEG { FULL_KT } else { knots(below_level_deg - BY_EYE_DEG) };
    let low = knots((below_level_deg + BY_EYE_DEG).min(90.0));
    let seen = match below_level_deg {
        0.0 => "The sock is level: 15 kt or more, and it can't tell how much more".into(),
        _ => format!("The sock hangs {below_level_deg:.0} deg below level"),
    };
    Ok(sock(&seen, [low, knots(below_level_deg), high], mast_m))
}

/// The wind at an angle of the table, kt.
fn knots(below_deg: f64) -> f64 {
    let pairs = ANGLES.windows(2).find(|pair| below_deg <= pair[1].0);
    pairs.map_or(0.0, |pair| {
        let share = (below_deg - pair[0].0) / (pair[1].0 - pair[0].0);
        pair[0].1 + share * (pair[1].1 - pair[0].1)
    })
}

fn mast(height_m: f64) -> Vec<Fault> {
    if (1.0..=30.0).contains(&height_m) {
        return Vec::new();
    }
    let problem = format!("a mast of {height_m} m makes no sense");
    let way_out = format!("Give its height between 1 and 30 m; {SOCK_M:.0} m is usual");
    vec![Fault::error("mast", problem, way_out)]
}

fn sock(seen: &str, knots: [f64; 3], height_m: f64) -> Estimate {
    let [low_mps, mean_mps, high_mps] = knots.map(|knots| knots * KNOT);
    let words = format!(
        "{seen}. Taken for {mean_mps:.1} m/s at the sock, {height_m:.0} m up, between {low_mps:.1} and {high_mps:.1} m/s."
    );
    Estimate { mean_mps, low_mps, high_mps, height_m, words }
}

impl Estimate {
    /// Puts the wind onto a sheet and says in words what was set. The direction stays as it is.
    pub fn apply(&self, sheet: &mut WindSheet) -> Vec<String> {
        let hundredths = |mps: f64| Speed::new((mps * 100.0).round() / 100.0);
        sheet.mean = hundredths(self.mean_mps);
        // Nobody sees a gust in advance; what was seen may be more than is assumed of one.
        sheet.gust = (self.high_mps > ASSUMED_GUST * self.mean_mps).then(|| hundredths(self.high_mps));
        sheet.measured_at = Length::new(self.height_m);
        sheet.mean_floor = mean_floor();
        sheet.mean_spread = self.spread();
        vec![
            format!("mean {:.1}", sheet.mean),
            match sheet.gust {
                Some(gust) => format!("gust {gust:.1}, the most that what was seen may be"),
                None => format!("gust {:.1}, 1.5 times the mean: nobody can see a gust in advance", sheet.gust()),
            },
            format!("measured at {:.1}", sheet.measured_at),
            format!(
                "spread of the mean {:.0} and {}, so that {:.1} to {:.1} m/s lie within two standard deviations",
                sheet.mean_spread, sheet.mean_floor, self.low_mps, self.high_mps
            ),
            format!("from {:.0} deg as it was", sheet.from.deg()),
        ]
    }

    /// Spread of the mean as a share of it: no less than the usual one, and two standard deviations, with what stays in
    /// light wind, reach the further end.
    fn spread(&self) -> Ratio {
        let reach = (self.mean_mps - self.low_mps).max(self.high_mps - self.mean_mps);
        let share = (reach / 2.0 - mean_floor().mps()) / self.mean_mps;
        let share = if share.is_finite() { (share * 100.0).ceil() / 100.0 } else { 0.0 };
        Ratio::new(share.clamp(mean_spread().share(), 1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn force(number: u8, mean: f64, low: f64, high: f64) {
        let found = beaufort(number).unwrap();
        approx::assert_abs_diff_eq!(found.mean_mps, mean, epsilon = 5e-4);
        assert_eq!((found.low_mps, found.high_mps, found.height_m), (low, high, 10.0));
    }

    #[test]
    fn beaufort_numbers_have_the_speeds_of_the_wmo() {
        // WMO table, and the fit of 1946: 4.344, 6.688, 9.347, 12.287 m/s for 3 to 6.
        force(0, 0.0, 0.0, 0.3);
        force(3, 4.344, 3.4, 5.4);
        force(4, 6.688, 5.5, 7.9);
        force(5, 9.347, 8.0, 10.7);
        force(6, 12.287, 10.8, 13.8);
        for sign in SIGNS {
            let found = beaufort(sign.beaufort).unwrap();
            assert!(found.low_mps <= found.mean_mps && found.mean_mps <= found.high_mps, "{found:?}");
            assert!(found.words.contains(sign.seen));
        }
        assert!(beaufort(9).unwrap_err()[0].to_string().contains("0 to 8"));
    }

    #[test]
    fn beaufort_bands_hold_the_middle_of_the_bands_in_knots() {
        // FAA AIM, table 10-2-3. The ends are rounded in both tables.
        let knots = [(1, 3), (4, 6), (7, 10), (11, 16), (17, 21), (22, 27), (28, 33), (34, 40)];
        for (sign, (low, high)) in SIGNS[1..].iter().zip(knots) {
            let middle = f64::from(low + high) / 2.0 * KNOT;
            assert!((sign.low_mps..=sign.high_mps).contains(&middle), "{sign:?} does not hold {middle}");
        }
    }

    #[track_caller]
    fn check(found: Result<Estimate, Vec<Fault>>, [low, mean, high]: [f64; 3]) {
        let found = found.unwrap();
        for (mps, kt) in [(found.low_mps, low), (found.mean_mps, mean), (found.high_mps, high)] {
            approx::assert_abs_diff_eq!(mps / KNOT, kt, epsilon = 1e-9);
        }
        assert_eq!(found.height_m, SOCK_M);
    }

    #[test]
    fn a_sock_has_three_knots_a_stripe() {
        // Convention: five stripes of 3 kt; FAA AC 150/5345-27: fully extended at 15 kt = 7.717 m/s.
        check(windsock_stripes(0, SOCK_M), [0.0, 1.5, 3.0]);
        check(windsock_stripes(1, SOCK_M), [0.0, 3.0, 6.0]);
        check(windsock_stripes(4, SOCK_M), [9.0, 12.0, 15.0]);
        check(windsock_stripes(5, SOCK_M), [12.0, 15.0, 20.0]);
        approx::assert_abs_diff_eq!(windsock_stripes(5, SOCK_M).unwrap().mean_mps, 7.717, epsilon = 5e-4);
    }

    #[test]
    fn a_sock_sinks_below_level_in_less_wind() {
        // Transport Canada, as quoted: 15 kt level, 10 kt 5 deg below, 6 kt 30 deg below. Halfway between by hand.
        check(windsock_angle(0.0, SOCK_M), [9.2, 15.0, 20.0]);
        check(windsock_angle(5.0, SOCK_M), [8.4, 10.0, 20.0]);
        check(windsock_angle(30.0, SOCK_M), [5.0, 6.0, 7.6]);
        check(windsock_angle(17.5, SOCK_M), [6.4, 8.0, 9.6]);
        check(windsock_angle(60.0, SOCK_M), [2.0, 3.0, 4.0]);
        check(windsock_angle(90.0, SOCK_M), [0.0, 0.0, 1.0]);
    }

    #[test]
    fn what_makes_no_sense_is_refused_all_at_once() {
        let faults = windsock_stripes(6, 0.0).unwrap_err();
        assert_eq!(faults.iter().map(|fault| fault.place.as_str()).collect::<Vec<_>>(), ["mast", "stripes"]);
        let faults = windsock_angle(f64::NAN, f64::NAN).unwrap_err();
        assert_eq!(faults.iter().map(|fault| fault.place.as_str()).collect::<Vec<_>>(), ["mast", "angle"]);
        assert_eq!(windsock_angle(-1.0, SOCK_M).unwrap_err().len(), 1);
    }

    #[test]
    fn an_estimate_sets_the_sheet_and_its_band_lies_within_two_spreads() {
        let sheet = serde_json::json!({ "mean": "3 m/s", "gust": "5 m/s", "from": "90 deg", "measured_at": "2 m" });
        let before: WindSheet = serde_json::from_value(sheet).unwrap();
        let numbers = (0..=8).map(beaufort);
        let stripes = (0..=5).map(|standing| windsock_stripes(standing, 4.0));
        let angles = (0..=9).map(|tens| windsock_angle(10.0 * f64::from(tens), 4.0));
        for estimate in numbers.chain(stripes).chain(angles) {
            let (estimate, mut sheet) = (estimate.unwrap(), before);
            assert_eq!(estimate.apply(&mut sheet).len(), 5);
            assert!(sheet.gust() >= sheet.mean && (sheet.from, sheet.from_spread) == (before.from, before.from_spread));
            let reach = 2.0 * (sheet.mean_spread.share() * sheet.mean.mps() + sheet.mean_floor.mps()) + 0.011;
            let band = sheet.mean.mps() - reach..=sheet.mean.mps() + reach;
            assert!(band.contains(&estimate.low_mps) && band.contains(&estimate.high_mps), "{estimate:?} {sheet:?}");
            assert!(sheet.gust().mps() >= estimate.high_mps.max(1.5 * sheet.mean.mps()) - 0.006);
            assert!(sheet.mean_spread.share() >= 0.15);
            assert_eq!(sheet.measured_at.m(), estimate.height_m);
        }
    }
}
