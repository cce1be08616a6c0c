//! Whether every spread of the jet sheet reaches the trials that are drawn, in the shape that it should have.

use peewit::jet::JetNumbers;
use peewit::run::{Scenario, WindChoice, draw};
use serde_json::{Value, json};

/// A tenth of a value as it stands in a file: `"2.1 kg"` gives `"0.21 kg"`.
fn tenth(value: &Value) -> Value {
    match value {
        Value::Number(number) => json!(number.as_f64().unwrap() / 10.0),
        Value::String(text) => {
            let (number, unit) = text.split_once(' ').unwrap();
            json!(format!("{} {unit}", number.parse::<f64>().unwrap() / 10.0))
        }
        other => panic!("{other} is no value of the sheet"),
    }
}

#[test]
fn every_spread_of_the_jet_sheet_changes_the_trial() {
    let demo = serde_json::to_value(crate::support::tight_strip().file).unwrap();
    let entries: Vec<String> = demo["jet"]
        .as_object()
        .unwrap()
        .iter()
        .filter(|(_, entry)| entry.get("value").is_some())
        .map(|(key, _)| key.clone())
        .collect();
    assert!(entries.len() >= 17, "{entries:?}");
    for spread_out in &entries {
        let mut file = demo.clone();
        for key in &entries {
            let value = file["jet"][key]["value"].clone();
            let spread = if key == spread_out { tenth(&value) } else { Value::Null };
            let entry = file["jet"][key].as_object_mut().unwrap();
            entry.shift_remove("spread");
            if !spread.is_null() {
                entry.insert("spread".into(), spread);
            }
        }
        let scenario = Scenario::from_file(serde_json::from_value(file).unwrap()).unwrap();
        let jet = |trial| draw(&scenario, trial, WindChoice::Mean).jet;
        assert_ne!(jet(1), jet(0), "{spread_out}");
        assert_eq!(jet(1), jet(1), "{spread_out}");
    }
}

/// Mean, standard deviation and kurtosis (3 for a normal, 1.8 for a uniform: closed forms) of a number of the drawn jets
/// of the demo, and its least and largest.
fn moments(number: impl Fn(&JetNumbers<f64>) -> f64) -> ([f64; 3], [f64; 2]) {
    let scenario = crate::support::tight_strip();
    let all: Vec<f64> = (1..=6000).map(|trial| number(&draw(&scenario, trial, WindChoice::Mean).jet)).collect();
    let mean_of = |power: i32, middle: f64| all.iter().map(|x| (x - middle).powi(power)).sum::<f64>() / 6000.0;
    let mean = mean_of(1, 0.0);
    let sd = mean_of(2, mean).sqrt();
    let ends =
        [all.iter().copied().fold(f64::INFINITY, f64::min), all.iter().copied().fold(f64::NEG_INFINITY, f64::max)];
    ([mean, sd, mean_of(4, mean) / sd.powi(4)], ends)
}

/// A row of the default uncertainties (judgement): its mean, its standard deviation, and a normal's shape. The errors of
/// 6000 draws are a hundredth of the deviation for it and for the mean, 0.06 for the kurtosis; four of each are allowed.
#[track_caller]
fn normal(number: impl Fn(&JetNumbers<f64>) -> f64, mean: f64, sd: f64) -> [f64; 2] {
    let ([found_mean, found_sd, kurtosis], ends) = moments(number);
    assert!((found_mean - mean).abs() < 0.052 * sd, "mean {found_mean}, not {mean}");
    assert!((found_sd / sd - 1.0).abs() < 0.04, "standard deviation {found_sd}, not {sd}");
    // Cut at three deviations a normal has 2.83 (closed form).
    assert!((kurtosis - 2.9).abs() < 0.25, "kurtosis {kurtosis}");
    ends
}

#[test]
fn airspeed_bank_mass_and_battery_are_normal() {
    normal(|jet| jet.return_speed, 22.0, 1.5);
    normal(|jet| jet.mass / 2.1, 1.0, 0.03);
    normal(|jet| jet.pack / (6.0 * 3.7 * 5.0 * 3600.0), 1.0, 0.08);
    let two = 2.0_f64.to_radians();
    let ends = normal(|jet| jet.maximum_bank, 35.0_f64.to_radians(), two);
    // Capped: nothing beyond three deviations.
    assert!(ends.iter().all(|end| (end - 35.0_f64.to_radians()).abs() <= 3.0 * two + 1e-12), "{ends:?}");
}

#[test]
fn the_stall_speed_spreads_by_a_twentieth_for_its_lift() {
    normal(|jet| jet.lift_max, 1.0, 0.1);
    // The speed goes with the root, closed form: half the share. The root also bends: 3/8 of the variance in the mean.
    let ([mean, sd, _], _) = moments(|jet| (1.0 / jet.lift_max).sqrt());
    assert!((mean - 1.004).abs() < 0.003 && (sd - 0.05).abs() < 0.003, "{mean} {sd}");
}

#[test]
fn the_roll_lag_is_even_from_0_3_to_0_8_s() {
    let ([mean, sd, kurtosis], [least, most]) = moments(|jet| jet.roll_lag);
    assert!((mean - 0.55).abs() < 0.008 && (sd - 0.5 / 12.0_f64.sqrt()).abs() < 0.004, "{mean} {sd}");
    assert!((kurtosis - 1.8).abs() < 0.08, "{kurtosis}");
    assert!((0.299..0.302).contains(&least) && (0.798..0.801).contains(&most), "{least} to {most}");
}

#[test]
fn a_cold_day_takes_its_share_of_every_pack() {
    let warm = crate::support::tight_strip();
    let mut file = warm.file.clone();
    file.jet.cold = true;
    let cold = Scenario::from_file(file).unwrap();
    for trial in 0..5 {
        let pack = |scenario: &Scenario| draw(scenario, trial, WindChoice::Mean).jet.pack;
        // 15 % less (judgement).
        assert!((pack(&cold) / pack(&warm) - 0.85).abs() < 1e-12);
    }
}
