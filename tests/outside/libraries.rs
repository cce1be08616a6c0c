//! What the program works out, put before libraries of other people in another language: `check.py` beside this file.
//!
//! It runs where `PEEWIT_PYTHON` names a Python that has them, as CI sets it up; else the test says so and passes.

use std::path::Path;
use std::process::Command;

use glam::DVec2;
use peewit::geometry::TangentPlane;
use peewit::jet::turn::lap_time;
use peewit::study::stats::Share;
use peewit::sun::{Place, sun_at};
use peewit::wind::{Metar, TurbulenceScale};
use serde_json::{Value, json};
use time::{Date, Month};

/// Reports as aerodromes send them, with nothing in them that is about a real day or place.
const REPORTS: [&str; 9] = [
    "METAR ZZZA 181250Z 24015G25KT 9999 FEW030 18/09 Q1013",
    "METAR ZZZB 010020Z 00000KT CAVOK M02/M07 Q1032",
    "METAR ZZZC 151155Z 36007KT 320V040 4000 BR OVC008 07/06 Q0998",
    "METAR ZZZD 311700Z 09005MPS 2000 -RA BKN004 M00/M01 Q1002 NOSIG",
    "METAR ZZZE 071953Z 31014G22KT 10SM SCT250 24/06 A3012 RMK AO2",
    "METAR ZZZF 220600Z VRB03KT 8000 11/10 Q1021",
    "SPECI ZZZG 052115Z 12018G31KT 6000 SHRA 15/12 Q1007",
    "METAR ZZZH 091350Z 27008KT 1 1/2SM HZ 31/18 A2988",
    "METAR ZZZI 121200Z 18010KT 9999 SCT035 21/13 Q1015 TEMPO 20020G35KT",
];

fn sun() -> Vec<Value> {
    let mut told = Vec::new();
    for (latitude_deg, longitude_deg) in [(44.1, -29.6), (-33.6, 18.4), (69.6, 18.9), (1.3, 103.8), (-54.8, -68.3)] {
        for (year, month) in [(2024, 3), (2026, 6), (2026, 11), (2029, 1)] {
            for minutes in [130.0, 500.0, 845.0, 1210.0] {
                let day = Date::from_calendar_date(year, Month::try_from(month).unwrap(), 17).unwrap();
                let sun = sun_at(Place { latitude_deg, longitude_deg }, day, minutes).unwrap();
                told.push(json!({
                    "latitude_deg": latitude_deg, "longitude_deg": longitude_deg, "day": day.to_string(),
                    "minutes": minutes, "azimuth_deg": sun.azimuth_deg, "elevation_deg": sun.elevation_deg,
                }));
            }
        }
    }
    told
}

fn reports() -> Vec<Value> {
    let told = REPORTS.iter().map(|text| {
        let read = Metar::read(text).unwrap();
        let wind = read.wind.unwrap();
        json!({
            "text": text, "from_deg": wind.from_deg, "mean_mps": wind.mean_mps, "gust_mps": wind.gust_mps,
            "visibility_m": read.visibility_m, "temperature_c": read.temperature_c, "dew_point_c": read.dew_point_c,
            "qnh_hpa": read.qnh_hpa,
        })
    });
    told.collect()
}

fn planes() -> Vec<Value> {
    let mut told = Vec::new();
    for (latitude_deg, longitude_deg) in [(44.0, -30.0), (-37.2, 175.5), (69.6, 18.9), (0.3, -179.99)] {
        let plane = TangentPlane::new(latitude_deg, longitude_deg);
        for at in [[120.0, -80.0], [-900.0, 650.0], [2500.0, 2500.0]] {
            let (there_latitude_deg, there_longitude_deg) = plane.to_degrees(DVec2::from(at));
            told.push(json!({
                "datum_deg": [latitude_deg, longitude_deg], "at_m": at,
                "there_deg": [there_latitude_deg, there_longitude_deg],
            }));
        }
    }
    told
}

fn shares() -> Vec<Value> {
    let mut told = Vec::new();
    for (count, of) in [(0, 20), (1, 20), (7, 50), (81, 263), (397, 400), (2048, 2048), (1, 100_000)] {
        for confidence in [0.8, 0.95, 0.99] {
            let share = Share { count, of };
            let (wilson, exact) = (share.wilson(confidence), share.clopper_pearson(confidence));
            told.push(json!({
                "count": count, "of": of, "confidence": confidence, "wilson": [wilson.low, wilson.high],
                "exact": [exact.low, exact.high], "exact_lower": share.exact_lower(confidence),
            }));
        }
    }
    told
}

fn laps() -> Vec<Value> {
    let told = [(25.0, 0.0, 80.0), (24.0, 8.0, 120.0), (24.0, 18.0, 120.0), (30.0, 29.5, 200.0)];
    told.iter()
        .map(|&(v, w, r)| json!({ "airspeed_mps": v, "wind_mps": w, "radius_m": r, "lap_s": lap_time(v, w, r) }))
        .collect()
}

/// The strength of the turbulence, as the integral of the standard's spectrum is to give it back.
fn eddies() -> Vec<Value> {
    let told = [10.0, 60.0, 120.0].map(|height: f64| {
        let scale = TurbulenceScale::at(height, 8.0);
        json!({
            "height_m": height, "wind_20ft_mps": 8.0, "length_h_m": scale.length_h, "length_v_m": scale.length_v,
            "sigma_h_mps": scale.sigma_h, "sigma_v_mps": scale.sigma_v,
        })
    });
    told.into()
}

#[test]
fn libraries_of_other_people_agree() {
    let told = json!({
        "sun": sun(), "reports": reports(), "planes": planes(), "shares": shares(), "laps": laps(), "eddies": eddies(),
    });
    let Some(python) = std::env::var_os("PEEWIT_PYTHON") else {
        eprintln!("SKIPPED: PEEWIT_PYTHON names no Python with the libraries of tests/outside/check.py");
        return;
    };
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("told.json");
    std::fs::write(&file, told.to_string()).unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let ran = Command::new(python)
        .arg(root.join("tests/outside/check.py"))
        .args([&file, &root.join("scenarios")])
        .env("PEEWIT", assert_cmd::cargo::cargo_bin!("peewit"))
        .current_dir(folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&ran.stdout).into_owned() + &String::from_utf8_lossy(&ran.stderr);
    eprintln!("{said}");
    assert!(ran.status.success() && said.contains("held"), "{said}");
}
