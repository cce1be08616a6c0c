//! The air by standards and reports: density, growth of the wind with height, gusts, turbulence, a weather report.

use super::one;
use crate::lane::{Lane as _, Random, Wide};
use crate::units::{Length, Speed};
use crate::verify::line::Lines;
use crate::wind::{Metar, PEAK, Profile, ProfileNumbers, Turbulence, TurbulenceScale, estimate, isa_density};

pub(super) fn lines(lines: &mut Lines) {
    density(lines);
    growth(lines);
    gusts(lines);
    report(lines);
    scales(lines);
    long_run(lines);
}

fn density(lines: &mut Lines) {
    let source = "ICAO Doc 7488 / US Standard Atmosphere 1976, as quoted";
    lines.near("density of the standard air at the sea", isa_density(0.0), (1.2250, 5e-5), "kg/m^3", source);
    let source = "closed form of the same layer";
    lines.near("density of the standard air at 1000 m", isa_density(1000.0), (1.111_643, 1e-6), "kg/m^3", source);
}

/// A wind of 1 m/s at one height, at another.
fn grown(profile: Profile, [exponent, roughness]: [f64; 2], [from, to]: [f64; 2]) -> f64 {
    let wind = ProfileNumbers { x: 1.0, y: 0.0, excess_x: 0.0, excess_y: 0.0, measured_at: from, exponent, roughness };
    wind.at(profile, to).x
}

fn growth(lines: &mut Lines) {
    for (exponent, expected, standard) in [(0.2, 1.643_75, "IEC 61400-1"), (0.14, 1.416_07, "IEC 61400-3")] {
        let found = grown(Profile::Power, [exponent, 0.03], [10.0, 120.0]);
        let source = format!("power law with the exponent of {standard}, as quoted; closed form");
        lines.near(
            &format!("growth of the wind from 10 to 120 m, exponent {exponent}"),
            found,
            (expected, 5.1e-6),
            "",
            &source,
        );
    }
    let wind = ProfileNumbers {
        x: 1.0,
        y: 0.0,
        excess_x: 0.0,
        excess_y: 0.0,
        measured_at: 10.0,
        exponent: 0.2,
        roughness: 0.03,
    };
    let source = "closed form: the derivative of the power law, exponent times growth over height";
    let found = wind.at(Profile::Power, 120.0).shear_x;
    lines.near(
        "change of a wind of 1 m/s at 10 m a metre of height at 120 m, exponent 0.2",
        found,
        (0.2 * 1.643_752 / 120.0, 1e-8),
        "1/s",
        source,
    );
    let foot = one::<Length>("ft");
    for (roughness, height, expected, read) in [
        (0.15, 100.0, 1.328_94, "as quoted"),
        (2.0, 200.0, 2.0, "roughness from memory"),
        (2.0, 50.0, 1.397_94, "roughness from memory"),
    ] {
        let found = grown(Profile::Log, [0.0, roughness * foot], [20.0 * foot, height * foot]);
        let name = format!("growth of the wind from 20 to {height} ft over a roughness of {roughness} ft");
        lines.near(&name, found, (expected, 5.1e-6), "", &format!("MIL-F-8785C 3.7.3, {read}; closed form"));
    }
}

fn gusts(lines: &mut Lines) {
    let source = "WMO/TD-No. 1555 table 1.1, 3 s in 10 min, as quoted; roughness by Davenport's classes, from memory";
    for (expected, land, roughness) in
        [(1.66, "rough open land", 0.10), (1.52, "open land", 0.03), (1.23, "the sea", 0.000_2)]
    {
        let found = 1.0 + PEAK / (10.0_f64 / roughness).ln();
        lines.near(&format!("gust over mean wind, {land}"), found, (expected, 0.06), "", source);
    }
    let seen = estimate::beaufort(5).map_or(f64::NAN, |seen| seen.mean_mps);
    lines.near("likely wind of Beaufort 5", seen, (9.347, 0.000_51), "m/s", "WMO fit of 1946, 0.836 B^1.5, as quoted");
}

fn report(lines: &mut Lines) {
    let report = Metar::read("METAR ZZZZ 181250Z 24015G25KT 9999 18/09 Q1013").unwrap_or_default();
    let wind = report.wind.as_ref();
    let source = "code form of WMO-No. 306 FM 15, from memory; 1 kt is 1852 m an hour";
    let (mean, gust) = (wind.map_or(f64::NAN, |wind| wind.mean_mps), wind.and_then(|wind| wind.gust_mps));
    lines.near("mean wind of the report 24015G25KT", mean, (7.716_67, 5.1e-6), "m/s", source);
    lines.near("gusts of the same", gust.unwrap_or(f64::NAN), (12.861_11, 5.1e-6), "m/s", source);
}

fn scales(lines: &mut Lines) {
    let [foot, knot] = [one::<Length>("ft"), one::<Speed>("kt")];
    let at = |feet: f64, knots: f64| TurbulenceScale::at(feet * foot, knots * knot);
    let source = "MIL-F-8785C 3.7.3.4, figs 10-11, as quoted; height goes in in feet";
    lines.near(
        "length of the Dryden eddies at 100 ft",
        at(100.0, 30.0).length_h / foot,
        (505.169, 0.000_51),
        "ft",
        source,
    );
    let low = at(100.0, 30.0);
    let ratio = low.sigma_h / low.sigma_v;
    lines.near("strength along over up, at 100 ft", ratio, (1.715_849, 5.1e-7), "", source);
    lines.near("length of the eddies at 1000 ft", at(1000.0, 30.0).length_h / foot, (1000.0, 1e-9), "ft", source);
    let source = "MIL-F-8785C fig. 9, classes as quoted; a tenth of the wind at 20 ft, closed form";
    for (class, knots, expected) in [("light", 15.0, 0.771_67), ("severe", 45.0, 2.315_00)] {
        let name = format!("upward strength of {class} turbulence");
        lines.near(&name, at(200.0, knots).sigma_v, (expected, 5.1e-6), "m/s", source);
    }
    let source = "closed form of the same at 200 ft in 30 kt";
    lines.near("strength along, moderate, at 200 ft", at(200.0, 30.0).sigma_h, (2.371_66, 5.1e-6), "m/s", source);
}

/// Mean squares, and mean products one eddy length apart, of a long run with unit strength: along, across, up.
fn products() -> [[f64; 2]; 3] {
    const APART: usize = 2;
    const SHARE: f64 = 1.0 / APART as f64;
    const STEPS: usize = 60_000;
    let (one, length) = (Wide::<4>::splat(1.0), Wide::splat(300.0));
    let scale = TurbulenceScale { length_h: length, length_v: length, sigma_h: one, sigma_v: one };
    let mut random = Random::new(&[1, 2, 3, 4].map(|lane| [lane, 77, 3 * lane, 5]));
    let mut air = Turbulence::new(scale, length, SHARE);
    air.stir(&mut random);
    let mut last = [air.motion(); APART];
    let mut sums = [[Wide::splat(0.0); 2]; 3];
    for index in 0..STEPS {
        air.update(random.five_normals());
        let now = air.motion();
        let before = std::mem::replace(&mut last[index % APART], now);
        for (part, sums) in sums.iter_mut().enumerate() {
            sums[0] += now[part] * now[part];
            sums[1] += now[part] * before[part];
        }
    }
    let mean = |sum: Wide<4>| (0..4).map(|lane| sum.lane(lane)).sum::<f64>() / (4 * STEPS) as f64;
    sums.map(|sums| sums.map(mean))
}

fn long_run(lines: &mut Lines) {
    let source =
        "MIL-F-8785C 3.7.1.2, as quoted: exp(-x/L) along, exp(-x/L)(1 - x/2L) across and up; five standard errors";
    // A mean product over n eddy lengths has a variance of at most 2 / n; here n is 120 000.
    let within = 5.0 * (2.0 / 120_000.0_f64).sqrt();
    for ([square, product], (way, expected)) in
        products().into_iter().zip([("along", 0.367_88), ("across", 0.183_94), ("up", 0.183_94)])
    {
        lines.near(&format!("mean square of a long run of turbulence, {way}"), square, (1.0, within), "", source);
        lines.near(&format!("the same one eddy length apart, {way}"), product, (expected, within), "", source);
    }
}
