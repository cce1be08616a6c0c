//! How soon after a touch is there something to see: the coarse answer of every study, and the full one it grows into.
//!
//! The demo alone, or every scenario that ships where `PEEWIT_EVERY` is set.

use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use peewit::run::{Scenario, read};
use peewit::study::envelope::{EnvelopeAsk, envelope};
use peewit::study::keep_inside::{KeepAsk, keep_inside};
use peewit::study::losses::{LossAsk, first, refine};
use peewit::study::radius::{RadiusAsk, study, study_briefly};
use peewit::study::verdict::{Demand, plan};
use peewit::study::wind_limit::{WindLimitAsk, wind_limit};
use peewit::study::work::Work;

fn scenarios() -> Vec<Scenario> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut files: Vec<_> =
        std::fs::read_dir(folder).into_iter().flatten().flatten().map(|entry| entry.path()).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "json"));
    files.sort();
    if std::env::var_os("PEEWIT_EVERY").is_none() {
        return vec![Scenario::demo()];
    }
    files.iter().map(|file| read(file).expect("a file").scenario.expect("no fault")).collect()
}

fn touch(criterion: &mut Criterion) {
    for scenario in &scenarios() {
        let mut group = criterion.benchmark_group(format!("touch/{}", scenario.file.name));
        group.sample_size(10).warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_secs(1));
        let scenario = black_box(scenario);
        let work = Work::default;
        let coarse = (
            RadiusAsk::coarse(scenario),
            WindLimitAsk::coarse(scenario),
            LossAsk::coarse(scenario),
            EnvelopeAsk::coarse(),
        );
        let full = (RadiusAsk::usual(), WindLimitAsk::usual(scenario), LossAsk::usual(scenario), EnvelopeAsk::usual());
        group.bench_function("radius, coarse", |bencher| {
            bencher.iter(|| assert!(!study_briefly(scenario, &coarse.0, &work()).partial));
        });
        group.bench_function("wind limit, coarse", |bencher| {
            bencher.iter(|| assert!(!wind_limit(scenario, &coarse.1, &work()).partial));
        });
        group.bench_function("losses, coarse", |bencher| {
            bencher.iter(|| assert!(!first(scenario, &coarse.2, &work()).partial));
        });
        group.bench_function("envelope, coarse", |bencher| {
            bencher.iter(|| assert!(!envelope(scenario, &coarse.3, &work()).partial));
        });
        group.bench_function("radius, brief", |bencher| {
            bencher.iter(|| assert!(!study_briefly(scenario, &full.0, &work()).partial));
        });
        group.bench_function("verdict of the plan", |bencher| {
            bencher.iter(|| assert!(!plan(scenario, &Demand::of(&scenario.file.limits), &work()).partial));
        });
        group.bench_function("keep-inside line, full", |bencher| {
            bencher.iter(|| assert!(!keep_inside(scenario, &KeepAsk::usual(scenario), &work()).partial));
        });
        group.bench_function("radius, full", |bencher| {
            bencher.iter(|| assert!(!study(scenario, &full.0, &work()).partial));
        });
        group.bench_function("wind limit, full", |bencher| {
            bencher.iter(|| assert!(!wind_limit(scenario, &full.1, &work()).partial));
        });
        group.bench_function("losses, first", |bencher| {
            bencher.iter(|| assert!(!first(scenario, &full.2, &work()).partial));
        });
        group.bench_function("losses, refined", |bencher| {
            bencher.iter(|| {
                let map = first(scenario, &full.2, &work());
                assert!(!refine(scenario, map, &work()).partial);
            });
        });
        group.bench_function("envelope, full", |bencher| {
            bencher.iter(|| assert!(!envelope(scenario, &full.3, &work()).partial));
        });
        group.finish();
    }
}

criterion_group!(benches, touch);
criterion_main!(benches);
