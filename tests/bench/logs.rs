//! How long it takes to read the log of an hour: 36,000 rows of a CSV file, ten a second.

use std::f64::consts::TAU;
use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use peewit::log::read;
use peewit::run::Scenario;

const ROWS: u32 = 36_000;

/// Round and round at 25 m/s on a circle of 140 m.
fn table() -> String {
    let mut table = String::from("time_s,latitude_deg,longitude_deg,height_above_home_m\n");
    for row in 0..ROWS {
        let at_s = f64::from(row) / 10.0;
        let (east, north) = (at_s * 25.0 / 140.0 % TAU).sin_cos();
        let (latitude, longitude) = (44.0 + 0.001_26 * north, -30.0 + 0.001_75 * east);
        let height = 70.0 + 3.0 * (at_s / 9.0).sin();
        writeln!(table, "{at_s:.1},{latitude:.7},{longitude:.7},{height:.2}").expect("room in memory");
    }
    table
}

fn logs(criterion: &mut Criterion) {
    let (scenario, table) = (Scenario::demo(), table());
    let mut group = criterion.benchmark_group("log");
    group.throughput(Throughput::Elements(u64::from(ROWS)));
    group.sample_size(20);
    group.bench_function("an hour of CSV, ten rows a second", |bencher| {
        bencher.iter(|| {
            let log = read("hour.csv", black_box(table.as_bytes()), &scenario, None).expect("a log without a fault");
            assert!(log.track.time_s().len() == ROWS as usize, "{}", log.track.time_s().len());
            log
        });
    });
    group.finish();
}

criterion_group!(benches, logs);
criterion_main!(benches);
