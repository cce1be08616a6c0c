//! The envelope of the circle: what it is in a calm, that its rings nest, that they hold what they say, and that neither
//! threads nor a stop change its bits.

use peewit::ledger::judge;
use peewit::recovery::{Guidance, Policy};
use peewit::run::{Scenario, ScenarioFile, WindChoice, fly};
use peewit::study::envelope::{Envelope, EnvelopeAsk, envelope};
use peewit::study::work::Work;
use peewit::units::{Length, Ratio, Speed};

use super::whole::on_threads;
use crate::support::{circle, eastward, near, open, shipped};

fn found(scenario: &Scenario, cases: u64) -> Envelope {
    envelope(scenario, &EnvelopeAsk { cases, ..EnvelopeAsk::usual() }, &Work::default())
}

/// No wind that blows or may, senses without noise, and the law that winds onto the ring: a nose held flies wide in still
/// air too, and a point ahead overshoots while it joins.
fn still(file: &mut ScenarioFile) {
    eastward(file, 0.0);
    file.wind.turbulence = false;
    file.wind.mean_spread = Ratio::new(0.0);
    file.wind.mean_floor = Speed::new(0.0);
    file.recovery.laws_ruled_out = vec![Guidance::LookAhead, Guidance::StraightAt];
    let perception = &mut file.recovery.perception;
    perception.home_error = Length::new(0.0);
    perception.position_noise = Length::new(0.0);
    perception.velocity_noise = Speed::new(0.0);
}

#[test]
fn in_a_calm_it_is_the_commanded_circle() {
    for radius in [100.0, 150.0] {
        let scenario = open(|file| {
            still(file);
            circle(file, radius, 2.0);
        });
        let envelope = found(&scenario, 40);
        assert_eq!((envelope.cases, envelope.circling, envelope.never()), (40, 40, 0));
        assert!(!envelope.partial && envelope.flown.iter().all(|&flown| flown == 40));
        assert_eq!((envelope.hub, envelope.bearings), (scenario.field.hub, 72));
        for ring in &envelope.rings {
            for (index, (&inner, &outer)) in ring.inner_m.iter().zip(&ring.outer_m).enumerate() {
                // The circle counts as reached within 5 % of its radius; settled, it is held to half a metre: a soft law opposes
                // what is left of an error four ninths as firmly as usual.
                assert!(inner > 0.95 * radius && outer < 1.05 * radius, "{index}: {inner} {outer}");
                near(ring.corners[index].distance(envelope.hub), outer, 1e-9);
            }
            let furthest = ring.outer_m.iter().copied().fold(0.0, f64::max);
            let nearest = ring.outer_m.iter().copied().fold(f64::INFINITY, f64::min);
            near(nearest, radius, 0.75);
            assert!(furthest >= nearest);
        }
        // Corners go clockwise from north.
        let corners = &envelope.rings[0].corners;
        assert!(corners[0].y > 0.9 * radius && corners[0].x.abs() < 1e-9 && corners[18].x > 0.9 * radius);
    }
}

#[test]
fn rings_of_more_cases_lie_outside_rings_of_fewer() {
    for scenario in shipped() {
        let envelope = found(&scenario, 60);
        for pair in envelope.rings.windows(2) {
            assert!(pair[0].share < pair[1].share);
            assert!(pair[0].outer_m.iter().zip(&pair[1].outer_m).all(|(fewer, more)| fewer <= more));
            assert!(pair[0].inner_m.iter().zip(&pair[1].inner_m).all(|(fewer, more)| fewer >= more));
        }
        for ring in &envelope.rings {
            assert!(ring.inner_m.iter().zip(&ring.outer_m).all(|(inner, outer)| inner <= outer), "{ring:?}");
            // 60 cases say where half and 90 % of all stay, not where 99 % do.
            assert!(ring.short || ring.share < 0.99, "{}", scenario.file.name);
        }
        assert!(envelope.flown.iter().all(|&flown| flown <= envelope.circling));
        assert!(envelope.circling <= envelope.cases && envelope.cases == 60);
    }
}

#[test]
fn a_ring_holds_the_share_of_fresh_cases_it_says_at_every_single_bearing() {
    let scenario = Scenario::demo();
    let envelope = found(&scenario, 400);
    let mut fresh = scenario;
    // Each fresh case alone: the ring of one case is the furthest it goes.
    let cases = 600;
    let ask = EnvelopeAsk { cases: 1, shares: vec![0.5], bearings: 72 };
    let alone: Vec<Envelope> = (0..cases)
        .map(|seed| {
            fresh.file.seed = 5000 + seed;
            one(&fresh, &ask)
        })
        .collect();
    for ring in &envelope.rings {
        for bearing in 0..72 {
            let flown: Vec<f64> =
                alone.iter().filter(|one| one.flown[bearing] > 0).map(|one| one.rings[0].outer_m[bearing]).collect();
            let inside = flown.iter().filter(|&&outer| outer <= ring.outer_m[bearing]).count();
            let share = inside as f64 / flown.len() as f64;
            // Four standard deviations of the share among the fresh cases and of the ring's own place among its 400.
            let spread = (ring.share * (1.0 - ring.share) * (1.0 / flown.len() as f64 + 1.0 / 400.0)).sqrt();
            assert!((share - ring.share).abs() < 4.0 * spread, "{} at {bearing}: {share}", ring.share);
        }
    }
}

fn one(scenario: &Scenario, ask: &EnvelopeAsk) -> Envelope {
    envelope(scenario, ask, &Work::default())
}

#[test]
fn one_case_reaches_as_far_as_its_ledger_says() {
    let mut scenario = Scenario::demo();
    for seed in 1..20 {
        scenario.file.seed = seed;
        let ask = EnvelopeAsk { cases: 1, shares: vec![0.5], bearings: 72 };
        let envelope = one(&scenario, &ask);
        let outermost = judge(&scenario, &fly(&scenario, 1, WindChoice::Mean)).figures.outermost_m.unwrap();
        let furthest = envelope.rings[0].outer_m.iter().copied().fold(0.0, f64::max);
        // The ledger looks at the last lap, the envelope at all that is flown on the circle, to the sample.
        assert!(furthest >= outermost - 1e-9, "{furthest} {outermost}");
    }
}

#[test]
fn threads_change_nothing_and_a_stop_leaves_the_first_cases() {
    let scenario = Scenario::demo();
    let [one, two, four] = [1, 2, 4].map(|threads| on_threads(threads, || found(&scenario, 100)));
    assert!(one == two && one == four && !one.partial);
    let work = Work::default();
    let ask = EnvelopeAsk { cases: 1_000_000, ..EnvelopeAsk::usual() };
    let stopped = std::thread::scope(|scope| {
        let running = scope.spawn(|| envelope(&scenario, &ask, &work));
        while work.progress().0 < 50 {
            std::thread::yield_now();
        }
        work.stop();
        running.join().unwrap()
    });
    assert!(stopped.partial && stopped.cases >= 50 && stopped.cases < 1_000_000);
    assert_eq!(Envelope { partial: false, ..stopped.clone() }, found(&scenario, stopped.cases));
}

#[test]
fn without_a_circle_there_is_no_ring_and_it_is_said() {
    let scenario = open(|file| file.recovery.policy = Policy::Cut);
    let envelope = found(&scenario, 20);
    assert_eq!((envelope.cases, envelope.circling, envelope.never()), (20, 0, 20));
    assert!(envelope.rings.is_empty() && envelope.flown.iter().all(|&flown| flown == 0) && !envelope.partial);
}
