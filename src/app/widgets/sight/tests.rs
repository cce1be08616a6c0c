//! The two pictures against sums by hand, and that whatever is flown they neither leave their room nor fall over.

use bevy_egui::egui::epaint::{ClippedShape, Primitive};
use bevy_egui::egui::{Context, Painter, Pos2, RawInput, Rect, Shape, pos2, vec2};
use glam::DVec3;
use proptest::prelude::*;

use super::*;
use crate::app::look::theme::{Theme, fonts_ready};
use crate::jet::State;
use crate::margins::eyes;
use crate::run::{Scenario, WindChoice, draw, samples};
use crate::sun::{Place, sun_at};
use crate::words::Units;

fn room() -> Rect {
    Rect::from_min_size(pos2(40.0, 30.0), vec2(800.0, 600.0))
}

/// What is painted, and with it the context that makes triangles of it.
fn painted(paint: impl Fn(&Painter)) -> (Context, Vec<ClippedShape>) {
    let context = Context::default();
    let mut shapes = Vec::new();
    for _ in 0..2 {
        let screen = Some(Rect::from_min_size(Pos2::ZERO, vec2(900.0, 700.0)));
        let mut output = context.run_ui(RawInput { screen_rect: screen, ..RawInput::default() }, |ui| {
            if fonts_ready(ui.ctx()) {
                paint(ui.painter());
            }
        });
        output.textures_delta.clear();
        shapes = output.shapes;
    }
    (context, shapes)
}

fn state(scenario: &Scenario) -> State<f64> {
    draw(scenario, 0, WindChoice::Mean).start
}

fn scene<'a>(scenario: &'a Scenario, state: &'a State<f64>, units: &'a Units, theme: Theme) -> Scene<'a> {
    let sun = sun_over(scenario, 675.0);
    let palette = theme.palette();
    let (span_m, length_m) = (1.1, 1.3);
    Scene { scenario, state, span_m, length_m, energy_j: 3e5, pack_j: 4e5, sun, time_s: 75.0, palette, units }
}

fn seen(scene: &Scene<'_>, looking: Looking) -> StandPicture {
    let found = std::cell::Cell::new(StandPicture::default());
    painted(|painter| found.set(stand(painter, room(), scene, looking)));
    found.get()
}

/// Everything is a number and is clipped to the room.
fn keeps_to_its_room((context, shapes): (Context, Vec<ClippedShape>)) -> Result<usize, TestCaseError> {
    let mut corners = 0;
    for primitive in context.tessellate(shapes, 1.0) {
        let Primitive::Mesh(mesh) = primitive.primitive else { continue };
        if mesh.vertices.is_empty() {
            continue;
        }
        prop_assert!(room().contains_rect(primitive.clip_rect), "{:?}", primitive.clip_rect);
        corners += mesh.vertices.len();
        // Beside the picture nothing is drawn at all but what is cut off just outside, and words.
        let all = room().expand(300.0);
        for vertex in &mesh.vertices {
            prop_assert!(vertex.pos.is_finite() && all.contains(vertex.pos), "{:?}", vertex.pos);
        }
    }
    Ok(corners)
}

/// Closed forms: with its nose towards the eyes a jet of 1.1 m takes 2 atan(0.55 m / slant), and it is where the triangle of
/// its place says.
#[test]
fn ten_jets_are_where_and_as_large_as_the_triangle_says() {
    let (scenario, units) = (Scenario::tight_strip(), Units::default());
    for (away, bearing_deg, elevation_deg, angle_deg) in [
        // 3-4-5.
        ([0.0, 40.0, 30.0], 0.0, 36.869_898, 1.260_456),
        ([100.0, 0.0, 0.0], 90.0, 0.0, 0.630_247),
        ([0.0, -100.0, 0.0], 180.0, 0.0, 0.630_247),
        ([-100.0, 0.0, 100.0], 270.0, 45.0, 0.445_654),
        ([100.0, 100.0, 0.0], 45.0, 0.0, 0.445_654),
        // 5-12-13 over the ground, and as high as it is far.
        ([50.0, 120.0, 130.0], 22.619_865, 45.0, 0.342_812),
        ([0.0, 300.0, 0.0], 0.0, 0.0, 0.210_084),
        ([-120.0, 50.0, 0.0], 292.619_865, 0.0, 0.484_808),
        ([30.0, 40.0, 120.0], 36.869_898, 67.380_135, 0.484_808),
        ([60.0, -80.0, 24.0], 143.130_102, 13.495_733, 0.612_845),
    ] {
        let at = eyes(&scenario) + DVec3::from_array(away);
        let towards = -DVec3::from_array(away).truncate().normalize();
        let state = State {
            x: at.x,
            y: at.y,
            height: at.z,
            nose_x: towards.x,
            nose_y: towards.y,
            climb: 0.0,
            bank: 0.0,
            ..state(&scenario)
        };
        let scene = scene(&scenario, &state, &units, Theme::Light);
        for width_deg in [20.0, 90.0] {
            let looking = Looking { bearing_deg, elevation_deg, width_deg };
            let jet = seen(&scene, looking).jet.unwrap();
            let middle = room().center();
            assert!((jet.center().x - middle.x).abs() < 0.01 && jet.contains(middle), "{away:?}: {jet:?}");
            let [left, right] = [jet.left(), jet.right()].map(|x| direction(room(), looking, pos2(x, middle.y)));
            let off = crate::rehearsal::Sight::of(DVec3::ZERO, {
                let level = crate::units::Bearing::from_deg(left[0]).unit() * left[1].to_radians().cos();
                level.extend(left[1].to_radians().sin())
            });
            let found = off.off_deg(right[0], right[1]);
            assert!((found - angle_deg).abs() < 3e-4, "{away:?} at {width_deg} deg: {found}, not {angle_deg} deg");
        }
        // A picture of 800 points, 90 degrees wide, is 400 points from the eyes: 45 degrees to the left is its left edge.
        let aside = Looking { bearing_deg: bearing_deg + 20.0, elevation_deg: 0.0, width_deg: 90.0 };
        if elevation_deg == 0.0 {
            let jet = seen(&scene, aside).jet.unwrap();
            // 400 tan 20 deg = 145.588.
            assert!((jet.center().x - (440.0 - 145.588)).abs() < 1.0, "{away:?}: {jet:?}");
        }
    }
}

#[test]
fn a_jet_behind_the_back_is_not_in_the_picture_and_one_overhead_is_when_looked_up() {
    let (scenario, units) = (Scenario::tight_strip(), Units::default());
    let eyes = eyes(&scenario);
    let behind = State { x: eyes.x, y: eyes.y - 80.0, height: 40.0, ..state(&scenario) };
    let over = State { x: eyes.x, y: eyes.y, height: 80.0, ..behind };
    let looking = |elevation_deg| Looking { bearing_deg: 0.0, elevation_deg, width_deg: 90.0 };
    assert_eq!(seen(&scene(&scenario, &behind, &units, Theme::Dark), looking(0.0)).jet, None);
    assert_eq!(seen(&scene(&scenario, &over, &units, Theme::Dark), looking(0.0)).jet, None);
    let jet = seen(&scene(&scenario, &over, &units, Theme::Dark), looking(90.0)).jet.unwrap();
    assert!(jet.contains(room().center()), "{jet:?}");
}

#[test]
fn the_sun_stands_where_the_room_of_the_sun_says() {
    let (scenario, units) = (Scenario::tight_strip(), Units::default());
    let state = state(&scenario);
    // The plan's clock is two hours behind UTC.
    for (clock_min, utc_min) in [(480.0, 600.0), (675.0, 795.0), (1020.0, 1140.0)] {
        let (latitude_deg, longitude_deg) = scenario.field.plane.to_degrees(scenario.field.pilot);
        let day = time::Date::from_calendar_date(2026, time::Month::April, 18).unwrap();
        let sun = sun_at(Place { latitude_deg, longitude_deg }, day, utc_min).unwrap();
        let scene = Scene { sun: sun_over(&scenario, clock_min), ..scene(&scenario, &state, &units, Theme::Light) };
        let looking =
            Looking { bearing_deg: sun.azimuth_deg + 10.0, elevation_deg: sun.elevation_deg - 5.0, width_deg: 60.0 };
        let at = seen(&scene, looking).sun.unwrap();
        let [azimuth_deg, elevation_deg] = direction(room(), looking, at);
        assert!((azimuth_deg - sun.azimuth_deg).abs() < 0.01, "{azimuth_deg} and not {sun:?}");
        assert!((elevation_deg - sun.elevation_deg).abs() < 0.01, "{elevation_deg} and not {sun:?}");
        let away = Looking { bearing_deg: sun.azimuth_deg + 180.0, ..looking };
        assert_eq!(seen(&scene, away).sun, None);
    }
    let mut hourless = scenario.clone();
    hourless.file.brief.hours = None;
    assert_eq!(sun_over(&hourless, 675.0), None);
}

/// The boundary's corner at 260 east and 200 north, from eyes 12 m south of the datum and 1.7 m up, looking north-east: 472
/// along the diagonal and 48 to the right of it, each over the root of two. So 400 * 48 / 472 = 40.678 points to the right,
/// and 400 * 1.7 * 1.414 214 / 472 = 2.037 points below the middle.
#[test]
fn a_corner_of_the_boundary_is_where_the_projection_by_hand_puts_it() {
    let (scenario, units) = (Scenario::tight_strip(), Units::default());
    let state = state(&scenario);
    let scene = scene(&scenario, &state, &units, Theme::Light);
    let looking = Looking { bearing_deg: 45.0, elevation_deg: 0.0, width_deg: 90.0 };
    let (_, shapes) = painted(|painter| {
        stand(painter, room(), &scene, looking);
    });
    let corner = pos2(440.0 + 40.678, 330.0 + 2.037);
    let ends = shapes
        .iter()
        .filter_map(|shape| if let Shape::LineSegment { points, .. } = shape.shape { Some(points) } else { None });
    // Two edges of the boundary meet there.
    let met = ends.flatten().filter(|end| end.distance(corner) < 0.01).count();
    assert_eq!(met, 2);
}

#[test]
fn a_point_leads_to_a_direction_and_back() {
    for (bearing_deg, elevation_deg, width_deg) in
        [(0.0, 0.0, 20.0), (359.0, 30.0, 90.0), (123.0, -20.0, 110.0), (200.0, 85.0, 90.0)]
    {
        let looking = Looking { bearing_deg, elevation_deg, width_deg };
        for at in [pos2(60.0, 40.0), pos2(440.0, 330.0), pos2(830.0, 50.0), pos2(400.0, 620.0)] {
            let [bearing, elevation] = direction(room(), looking, at);
            let back = pos(room(), looking, bearing, elevation).unwrap();
            // A hundredth of a degree is at least so many points at the middle, where a point is largest.
            let least = 400.0 / (width_deg / 2.0).to_radians().tan() * 0.01_f64.to_radians();
            assert!(f64::from(back.distance(at)) < least, "{looking:?}: {at:?} and {back:?}");
        }
        assert_eq!(pos(room(), looking, bearing_deg + 180.0, -elevation_deg), None);
    }
}

#[test]
fn snow_changes_at_most_three_times_a_second_and_stands_still_where_asked() {
    let (scenario, units) = (Scenario::tight_strip(), Units::default());
    let state = state(&scenario);
    let plain = scene(&scenario, &state, &units, Theme::Light);
    let snow = |time_s: f64, still| {
        painted(|painter| forward(painter, room(), &Scene { time_s, ..plain }, Dark::Snow { seed: 7, still })).1
    };
    let differs = |a: &[ClippedShape], b: &[ClippedShape]| {
        let colours = |shapes: &[ClippedShape]| -> Vec<_> {
            let meshes =
                shapes.iter().filter_map(|shape| if let Shape::Mesh(mesh) = &shape.shape { Some(mesh) } else { None });
            meshes.flat_map(|mesh| mesh.vertices.iter().map(|vertex| vertex.color).collect::<Vec<_>>()).collect()
        };
        colours(a) != colours(b)
    };
    let second: Vec<_> = (0..=20_u8).map(|part| snow(5.1 + f64::from(part) / 20.0, false)).collect();
    let changes = second.windows(2).filter(|pair| differs(&pair[0], &pair[1])).count();
    assert!((1..=3).contains(&changes), "{changes} changes in a second");
    assert!(!differs(&snow(5.1, true), &snow(9.7, true)));
}

#[test]
fn a_frozen_picture_stays_as_it_was() {
    let (scenario, units) = (Scenario::tight_strip(), Units::default());
    let was = state(&scenario);
    let now = State { x: was.x + 50.0, bank: 0.5, energy: 5e4, ..was };
    let then = Scene { time_s: 40.0, ..scene(&scenario, &was, &units, Theme::Light) };
    let later = Scene { state: &now, time_s: 44.0, ..then };
    let shapes = |scene: &Scene<'_>, dark: Dark<'_>| painted(|painter| forward(painter, room(), scene, dark)).1;
    let told = |shapes: Vec<ClippedShape>| {
        format!("{:?}", shapes.iter().map(|one| one.shape.visual_bounding_rect()).collect::<Vec<_>>())
    };
    let first = told(shapes(&then, Dark::None));
    assert_eq!(told(shapes(&later, Dark::Frozen { state: &was, at_s: 40.0 })), first);
    assert_ne!(told(shapes(&later, Dark::None)), first);
}

fn words(shapes: &[ClippedShape]) -> Vec<String> {
    let texts = shapes.iter().filter_map(|shape| if let Shape::Text(text) = &shape.shape { Some(text) } else { None });
    texts.map(|text| text.galley.job.text.clone()).collect()
}

#[test]
fn every_field_that_ships_is_drawn_in_both_themes_and_the_pilot_reads_nothing_but_its_names() {
    let units = Units::default();
    for sample in samples() {
        let scenario = sample.scenario();
        let (state, field) = (state(&scenario), &scenario.field);
        let landmarks = scenario.file.brief.landmarks.iter().map(|one| &one.name);
        let tall = field.obstacles.iter().map(|one| &one.name);
        let names: Vec<&String> = field.areas.iter().map(|one| &one.name).chain(tall).chain(landmarks).collect();
        for theme in [Theme::Light, Theme::Dark] {
            let scene = scene(&scenario, &state, &units, theme);
            let mut read = Vec::new();
            for bearing_deg in [0.0, 90.0, 180.0, 270.0] {
                let looking = Looking { bearing_deg, elevation_deg: 0.0, width_deg: 100.0 };
                let standing = painted(|painter| {
                    stand(painter, room(), &scene, looking);
                });
                read.extend(words(&standing.1));
                keeps_to_its_room(standing).unwrap();
            }
            assert!(read.iter().all(|word| names.contains(&word)), "{}: {read:?}", sample.name);
            assert_eq!(read.is_empty(), names.is_empty(), "{}: {names:?}", sample.name);
            let ahead = painted(|painter| forward(painter, room(), &scene, Dark::None));
            let told = words(&ahead.1);
            assert!(told.iter().any(|line| line.contains("1:15") && line.contains("airspeed")), "{told:?}");
            keeps_to_its_room(ahead).unwrap();
        }
    }
}

/// Any number, and now and then none at all.
fn any(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![20 => low..high, 2 => Just(0.0), 1 => Just(f64::NAN), 1 => Just(f64::INFINITY)]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn whatever_is_flown_the_pictures_keep_to_their_room(
        (x, y, height) in (any(-400.0, 400.0), any(-400.0, 400.0), any(-30.0, 200.0)),
        (nose_x, nose_y) in (any(-1.0, 1.0), any(-1.0, 1.0)),
        (climb, bank) in (any(-1.6, 1.6), any(-3.2, 3.2)),
        (bearing_deg, elevation_deg, width_deg) in (any(-360.0, 720.0), any(-100.0, 100.0), any(0.0, 180.0)),
        hilly: bool,
    ) {
        let (scenario, units) = (if hilly { samples()[2].scenario() } else { Scenario::tight_strip() }, Units::default());
        let state = State { x, y, height, nose_x, nose_y, climb, bank, ..state(&scenario) };
        let scene = scene(&scenario, &state, &units, Theme::Dark);
        let looking = Looking { bearing_deg, elevation_deg, width_deg };
        keeps_to_its_room(painted(|painter| { stand(painter, room(), &scene, looking); }))?;
        for dark in [Dark::None, Dark::Snow { seed: 3, still: false }, Dark::Black("no picture")] {
            keeps_to_its_room(painted(|painter| forward(painter, room(), &scene, dark)))?;
        }
    }

    #[test]
    fn near_the_eyes_and_overhead_too(east in -2.0..2.0, north in -2.0..2.0, up in -2.0..2.0) {
        let (scenario, units) = (Scenario::tight_strip(), Units::default());
        let at = eyes(&scenario) + DVec3::new(east, north, up);
        let state = State { x: at.x, y: at.y, height: at.z, ..state(&scenario) };
        let scene = scene(&scenario, &state, &units, Theme::Light);
        for elevation_deg in [0.0, 90.0, -90.0] {
            let looking = Looking { bearing_deg: 0.0, elevation_deg, width_deg: 110.0 };
            keeps_to_its_room(painted(|painter| { stand(painter, room(), &scene, looking); }))?;
        }
    }
}
