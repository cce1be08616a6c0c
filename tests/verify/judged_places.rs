//! Margins in place and height of paths drawn by hand, reckoned by hand.

use peewit::field::{AreaFile, FieldFile, Metres, ObstacleFile, RuleName, SpotFile};
use peewit::margins::{Limit, MarginRow, MarginUnit, Verdict, judge};
use peewit::run::{HeightAbove, HeightLimit, ScenarioFile};
use peewit::units::Length;

use crate::support::{near, open, path::drawn_path};

const SQUARE: [Metres; 4] = [[-100.0, -100.0], [100.0, -100.0], [100.0, 100.0], [-100.0, 100.0]];

fn ring(x: [f64; 2], y: [f64; 2]) -> Vec<Metres> {
    vec![[x[0], y[0]], [x[1], y[0]], [x[1], y[1]], [x[0], y[1]]]
}

fn area(rule: RuleName, height: Option<f64>, ring_m: Vec<Metres>, holes_m: Vec<Vec<Metres>>) -> AreaFile {
    AreaFile {
        name: "area".into(),
        rule,
        height: height.map(Length::new),
        months: vec![],
        otherwise: None,
        ring_m,
        holes_m,
    }
}

/// Rows of a path in a field with 20 m of buffer aside and 10 m in height.
fn rows(
    field: impl FnOnce(&mut FieldFile),
    limits: impl FnOnce(&mut ScenarioFile),
    corners: &[[f64; 3]],
) -> Vec<MarginRow> {
    let scenario = open(|file| {
        let drawn = file.field.as_mut().unwrap();
        drawn.pilot_m = [0.0, -15.0];
        field(drawn);
        file.limits.buffer = Length::new(20.0);
        file.limits.height_buffer = Length::new(10.0);
        limits(file);
    });
    judge(&scenario, &drawn_path(&scenario, corners, 10.0)).rows
}

#[track_caller]
fn check(rows: &[MarginRow], limit: Limit, margin: f64, at_s: f64, verdict: Verdict) {
    let row = rows.iter().find(|row| row.limit == limit).expect("a row for the limit");
    near(row.margin, margin, 0.01);
    near(row.at_s, at_s, 0.1);
    assert_eq!(row.verdict, verdict, "{row:?}");
}

#[test]
fn boundary_to_edges_along_the_path() {
    let boundary = |field: &mut FieldFile| field.boundary.ring_m = SQUARE.to_vec();
    // Nearest to the right edge at the second corner, 15 m; inside the buffer of 20 m.
    let path = [[0.0, 0.0, 70.0], [85.0, 10.0, 70.0], [0.0, 20.0, 70.0]];
    check(&rows(boundary, |_| (), &path), Limit::Boundary, 15.0, 10.0, Verdict::InsideBuffer);
    // Out over the right edge by 30 m.
    let path = [[0.0, 0.0, 70.0], [130.0, 10.0, 70.0], [0.0, 20.0, 70.0]];
    check(&rows(boundary, |_| (), &path), Limit::Boundary, -30.0, 10.0, Verdict::Crossed);
    // A boundary with a notch whose corner (0, 0) the path passes between two samples, sqrt(2) * 30 away.
    let notched = |field: &mut FieldFile| {
        field.boundary.ring_m =
            vec![[-200.0, -200.0], [200.0, -200.0], [200.0, 0.0], [0.0, 0.0], [0.0, 200.0], [-200.0, 200.0]];
    };
    let path = [[-60.0, 0.0, 70.0], [0.0, -60.0, 70.0]];
    check(&rows(notched, |_| (), &path), Limit::Boundary, 30.0 * 2.0_f64.sqrt(), 5.0, Verdict::Clear);
}

#[test]
fn no_fly_areas_at_any_height() {
    let no_fly = |ring_m: Vec<Metres>, holes_m: Vec<Vec<Metres>>| {
        move |field: &mut FieldFile| field.areas = vec![area(RuleName::NoFly, None, ring_m, holes_m)]
    };
    // A spike that ends 5 m beside the middle of a path of two samples, at 300 m of height.
    let spike = vec![[50.0, 5.0], [70.0, 90.0], [30.0, 90.0]];
    let path = [[0.0, 0.0, 300.0], [100.0, 0.0, 300.0]];
    check(&rows(no_fly(spike, vec![]), |_| (), &path), Limit::Area(0), 5.0, 5.0, Verdict::InsideBuffer);
    // Through a strip 40 m wide between two samples: 20 m deep in its middle.
    let strip = ring([30.0, 70.0], [-90.0, 90.0]);
    check(&rows(no_fly(strip, vec![]), |_| (), &path), Limit::Area(0), -20.0, 5.0, Verdict::Crossed);
    // In the hole of an area, 60 m square: from its middle to 25 m beside its edge.
    let hole = vec![ring([-30.0, 30.0], [-30.0, 30.0])];
    let path = [[0.0, 0.0, 70.0], [5.0, 0.0, 70.0]];
    check(&rows(no_fly(SQUARE.to_vec(), hole), |_| (), &path), Limit::Area(0), 25.0, 10.0, Verdict::Clear);
}

#[test]
fn people_are_kept_off_over_the_ground_at_any_height() {
    let people = |ring_m: Vec<Metres>| {
        move |field: &mut FieldFile| field.areas = vec![area(RuleName::People, None, ring_m, vec![])]
    };
    let path = [[0.0, 0.0, 300.0], [100.0, 0.0, 300.0]];
    let asked = |metres: f64| move |file: &mut ScenarioFile| file.limits.people_buffer = Length::new(metres);
    // 25 m beside them between two samples: more than the 20 m off an edge, less than the 30 m off people.
    let spike = vec![[50.0, 25.0], [70.0, 90.0], [30.0, 90.0]];
    check(&rows(people(spike.clone()), |_| (), &path), Limit::Area(0), 25.0, 5.0, Verdict::InsideBuffer);
    check(&rows(people(spike), asked(25.0), &path), Limit::Area(0), 25.0, 5.0, Verdict::Clear);
    // Straight over them, 300 m up: 20 m deep in the middle of their ground.
    let found = rows(people(ring([30.0, 70.0], [-90.0, 90.0])), asked(0.0), &path);
    check(&found, Limit::Area(0), -20.0, 5.0, Verdict::Crossed);
}

#[test]
fn the_pilot_position_is_people_without_being_drawn() {
    // A spot of 3 m about (0, -15).
    for (y, up, margin, verdict) in [
        (30.0, 70.0, 42.0, Verdict::Clear),
        (10.0, 70.0, 22.0, Verdict::InsideBuffer),
        (-13.0, 300.0, -1.0, Verdict::Crossed),
        (-15.0, 300.0, -3.0, Verdict::Crossed),
    ] {
        let path = [[-100.0, y, up], [100.0, y, up]];
        check(&rows(|_| (), |_| (), &path), Limit::PilotPosition, margin, 5.0, verdict);
    }
}

#[test]
fn above_areas_by_height_or_by_distance() {
    let above = |field: &mut FieldFile| {
        field.areas = vec![area(RuleName::Above, Some(60.0), ring([0.0, 100.0], [0.0, 100.0]), vec![])];
    };
    // Over its middle at 75 m: 15 m too high to mind.
    let path = [[50.0, -90.0, 75.0], [50.0, 190.0, 75.0]];
    let over = rows(above, |_| (), &path);
    assert_eq!(over.iter().find(|row| row.limit == Limit::Area(0)).unwrap().verdict, Verdict::Clear);
    near(over.iter().find(|row| row.limit == Limit::Area(0)).unwrap().margin, 15.0, 0.01);
    // Over it at 66 m: 6 m where 10 are asked for.
    let path = [[50.0, 10.0, 66.0], [50.0, 90.0, 66.0]];
    assert_eq!(
        rows(above, |_| (), &path).iter().find(|row| row.limit == Limit::Area(0)).unwrap().verdict,
        Verdict::InsideBuffer
    );
    // Through it at 45 m, from its edge to its middle: 15 m too low.
    let path = [[50.0, 50.0, 45.0], [50.0, 60.0, 45.0]];
    let low = rows(above, |_| (), &path);
    near(low.iter().find(|row| row.limit == Limit::Area(0)).unwrap().margin, -15.0, 0.01);
    // Beside it at 30 m of height: 12 m away, and 40 m away.
    let path = |x: f64| [[x, 20.0, 30.0], [x, 80.0, 30.0]];
    let inside_buffer = rows(above, |_| (), &path(-12.0));
    let row = inside_buffer.iter().find(|row| row.limit == Limit::Area(0)).unwrap();
    assert_eq!((row.verdict, row.buffer), (Verdict::InsideBuffer, 20.0));
    near(row.margin, 12.0, 0.01);
    let clear = rows(above, |_| (), &path(-40.0));
    let row = clear.iter().find(|row| row.limit == Limit::Area(0)).unwrap();
    assert_eq!((row.verdict, row.buffer), (Verdict::Clear, 20.0));
    near(row.margin, 40.0, 0.01);
}

#[test]
fn avoided_areas_count_seconds() {
    let caution = |field: &mut FieldFile| {
        field.areas = vec![area(RuleName::Caution, None, ring([0.0, 100.0], [-50.0, 50.0]), vec![])];
    };
    // Straight across at 0.23 m/s, a sample every 10 s and none on an edge: 100 m inside, shared out between samples.
    let path: Vec<[f64; 3]> = (0..100).map(|i| [-100.0 + 2.3 * f64::from(i), 0.0, 70.0]).collect();
    let found = rows(caution, |_| (), &path);
    let row = found.iter().find(|row| row.limit == Limit::Area(0)).unwrap();
    assert_eq!((row.unit, row.verdict), (MarginUnit::Seconds, Verdict::Counted));
    near(row.margin, 100.0 / 0.23, 1e-9);
    // Past it.
    let path = [[-130.0, 60.0, 70.0], [230.0, 60.0, 70.0]];
    check(&rows(caution, |_| (), &path), Limit::Area(0), 0.0, 0.0, Verdict::Clear);
}

#[test]
fn obstacles_by_height_or_by_distance() {
    let mast = |field: &mut FieldFile| {
        let at_m = Some([50.0, 0.0]);
        field.obstacles = vec![ObstacleFile { name: "mast".into(), height: Length::new(30.0), at_m, ring_m: vec![] }];
    };
    // Over its top by 20 m, between two samples; past it 15 m aside at 20 m of height; 5 m above it and 12 m aside.
    let path = [[0.0, 0.0, 50.0], [100.0, 0.0, 50.0]];
    check(&rows(mast, |_| (), &path), Limit::Obstacle(0), 20.0, 5.0, Verdict::Clear);
    let path = [[0.0, 15.0, 20.0], [100.0, 15.0, 20.0]];
    check(&rows(mast, |_| (), &path), Limit::Obstacle(0), 15.0, 5.0, Verdict::InsideBuffer);
    let path = [[0.0, 12.0, 35.0], [100.0, 12.0, 35.0]];
    let found = rows(mast, |_| (), &path);
    assert_eq!(found.iter().find(|row| row.limit == Limit::Obstacle(0)).unwrap().verdict, Verdict::InsideBuffer);
    // Through a wood 60 m deep and 18 m high at 12 m: at its edge to its middle, 6 m below the tops.
    let wood = |field: &mut FieldFile| {
        let ring_m = ring([0.0, 60.0], [-80.0, 80.0]);
        field.obstacles = vec![ObstacleFile { name: "wood".into(), height: Length::new(18.0), at_m: None, ring_m }];
    };
    let path = [[-50.0, 0.0, 12.0], [110.0, 0.0, 12.0]];
    let found = rows(wood, |_| (), &path);
    let row = found.iter().find(|row| row.limit == Limit::Obstacle(0)).unwrap();
    near(row.margin, -6.0, 0.01);
    assert_eq!(row.verdict, Verdict::Crossed);
}

#[test]
fn flight_line_ahead_and_behind() {
    let line = |field: &mut FieldFile| {
        field.pilot_m = [0.0, -15.0];
        field.flight_line_m = Some([[-50.0, -5.0], [50.0, -5.0]]);
    };
    // The line is endless; the pilot position is behind it.
    let path = [[-80.0, 40.0, 70.0], [200.0, 7.0, 70.0]];
    check(&rows(line, |_| (), &path), Limit::FlightLine, 12.0, 10.0, Verdict::InsideBuffer);
    let path = [[-80.0, 40.0, 70.0], [300.0, -25.0, 70.0], [0.0, 40.0, 70.0]];
    check(&rows(line, |_| (), &path), Limit::FlightLine, -20.0, 10.0, Verdict::Crossed);
}

#[test]
fn height_limit_and_ground_over_home_and_over_the_slope() {
    let height_limit = |height: f64, above: HeightAbove| {
        move |file: &mut ScenarioFile| {
            file.limits.height_limit = Some(HeightLimit { height: Length::new(height), above });
        }
    };
    // Ground that falls one metre in ten to the east, 20 m of it by 200 m.
    let slope = |field: &mut FieldFile| {
        let spot = |x: f64, y: f64| SpotFile { at_m: [x, y], height: Length::new(-0.1 * x) };
        field.ground = vec![spot(-500.0, -500.0), spot(500.0, -500.0), spot(500.0, 500.0), spot(-500.0, 500.0)];
    };
    let path = [[0.0, 1.0, 100.0], [100.0, 1.0, 103.0], [200.0, 1.0, 100.0]];
    check(
        &rows(slope, height_limit(110.0, HeightAbove::Home), &path),
        Limit::HeightLimit,
        7.0,
        10.0,
        Verdict::InsideBuffer,
    );
    check(
        &rows(slope, height_limit(130.0, HeightAbove::Ground), &path),
        Limit::HeightLimit,
        10.0,
        20.0,
        Verdict::Clear,
    );
    check(
        &rows(slope, height_limit(115.0, HeightAbove::Ground), &path),
        Limit::HeightLimit,
        -5.0,
        20.0,
        Verdict::Crossed,
    );
    // Towards the hill at a steady 40 m: 300 m west the ground stands 30 m above home.
    let path = [[0.0, 1.0, 40.0], [-300.0, 1.0, 40.0], [-100.0, 1.0, 80.0]];
    check(&rows(slope, |_| (), &path), Limit::Ground, 10.0, 10.0, Verdict::Clear);
    // Into it between two samples: over a ridge of 45 m at 38 m.
    let ridge = |field: &mut FieldFile| {
        let spot = |x: f64, y: f64, height: f64| SpotFile { at_m: [x, y], height: Length::new(height) };
        let flat = [(0.0, -500.0), (0.0, 500.0), (200.0, -500.0), (200.0, 500.0)].map(|(x, y)| spot(x, y, 0.0));
        field.ground = flat.into_iter().chain([spot(100.0, -500.0, 45.0), spot(100.0, 500.0, 45.0)]).collect();
    };
    let path = [[0.0, 1.0, 38.0], [200.0, 1.0, 38.0]];
    check(&rows(ridge, |_| (), &path), Limit::Ground, -7.0, 5.0, Verdict::Crossed);
}
