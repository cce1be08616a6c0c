//! Which tests stand behind the sums, what they compare with what, where they stand, and which are not there yet.

use super::Flow;
use super::inputs::explained;
use super::table::{Cell, Sign, text};

/// One rung of the ladder.
pub(super) struct Rung {
    /// Its number.
    pub(super) id: u8,
    /// What is checked.
    pub(super) what: &'static str,
    /// Against what.
    pub(super) against: &'static str,
    /// Files of the source, each with the test in it; none where there is no such test.
    pub(super) places: &'static [(&'static str, &'static str)],
}

const fn rung(
    id: u8,
    what: &'static str,
    against: &'static str,
    places: &'static [(&'static str, &'static str)],
) -> Rung {
    Rung { id, what, against, places }
}

/// The ladder.
pub(super) const RUNGS: [Rung; 28] = [
    rung(
        1,
        "bank needed with the wind behind and ahead",
        "closed form of a circle in wind",
        &[("tests/verify/circle.rs", "bank_at_the_ends_of_the_wind")],
    ),
    rung(
        2,
        "smallest radius",
        "formula of the procedure manual, in its units",
        &[("tests/verify/circle.rs", "smallest_radius_is_that_of_the_procedure_manual")],
    ),
    rung(
        3,
        "time of a lap",
        "elliptic integral, and a lap flown",
        &[
            ("tests/verify/circle.rs", "lap_time_is_the_elliptic_integral"),
            ("tests/verify/circle.rs", "a_flown_lap_takes_as_long_as_the_integral_says"),
        ],
    ),
    rung(
        4,
        "how far outside a circle that is too small the jet is blown",
        "trochoid",
        &[("tests/verify/circle.rs", "blown_wide_where_the_maximum_bank_can_not_hold_the_circle")],
    ),
    rung(
        5,
        "a steady wind",
        "the same flight in still air, less wind times time",
        &[("tests/verify/frames.rs", "steady_wind_changes_nothing_but_the_track")],
    ),
    rung(
        6,
        "the whole scenario turned and mirrored",
        "the same margins",
        &[
            ("tests/verify/frames.rs", "a_turned_scenario_gives_the_same_margins"),
            ("tests/verify/frames.rs", "a_mirrored_scenario_gives_the_same_margins"),
        ],
    ),
    rung(
        7,
        "drift of a constant bank",
        "wind times time",
        &[("tests/verify/frames.rs", "a_constant_bank_drifts_by_the_wind_times_the_time")],
    ),
    rung(
        8,
        "error of the step when it is halved",
        "second order",
        &[
            ("tests/verify/order.rs", "the_integrator_is_of_second_order"),
            ("tests/verify/convergence.rs", "a_tenth_of_the_step_moves_no_margin_of_the_plan_by_a_decimetre"),
        ],
    ),
    rung(
        9,
        "energy: power and time, height, battery",
        "closed form",
        &[
            ("tests/verify/energy.rs", "level_flight_draws_power_times_time"),
            ("tests/verify/energy.rs", "a_steady_climb_turns_work_into_height"),
            ("tests/verify/energy.rs", "a_battery_only_ever_empties"),
        ],
    ),
    rung(
        10,
        "length of a glide in wind",
        "lift over drag",
        &[("tests/verify/energy.rs", "a_glide_carries_its_ratio_and_the_wind_adds_the_time")],
    ),
    rung(
        11,
        "distances to edges, holes, corners that touch",
        "another library's plain scan of every edge",
        &[
            ("src/geometry/region.rs", "distances_agree_with_a_plain_scan"),
            ("src/geometry/region.rs", "rings_that_touch_at_a_corner"),
        ],
    ),
    rung(
        12,
        "metres about the datum, over 3 km",
        "geodesic of another library",
        &[("src/geometry/tangent.rs", "agrees_with_the_geodesic_to_a_decimetre_over_three_kilometres")],
    ),
    rung(
        13,
        "no way flown is shorter than the shortest there is",
        "turn, straight, turn in still air",
        &[
            ("tests/verify/bounds.rs", "no_flight_is_shorter_than_the_shortest_path"),
            ("tests/handbook/paths.rs", "shortest_paths_match_the_published_table"),
        ],
    ),
    rung(
        14,
        "turbulence over a long run: variance, length, spectrum",
        "published forms",
        &[
            ("tests/handbook/turbulence.rs", "a_long_run_has_the_variance_and_the_correlation_at_any_step"),
            ("tests/handbook/turbulence.rs", "a_long_run_has_the_spectrum"),
        ],
    ),
    rung(
        15,
        "the same seed on any number of threads",
        "the same bits",
        &[
            ("tests/verify/same_bits.rs", "threads_change_nothing"),
            ("tests/verify/same_bits.rs", "company_changes_nothing"),
        ],
    ),
    rung(
        16,
        "intervals of a share",
        "published values, and how often they hold the truth",
        &[
            ("tests/handbook/statistics.rs", "two_sided_intervals"),
            ("tests/verify/coverage.rs", "shares_are_held_as_often_as_said"),
        ],
    ),
    rung(
        17,
        "share of trials where only the wind is drawn",
        "normal distribution",
        &[
            ("tests/verify/wind_chance.rs", "a_radius_holds_in_as_many_winds_as_the_normal_distribution_says"),
            ("tests/study/probability.rs", "flown_trials_hold_a_circle_as_often_as_the_closed_form_says"),
        ],
    ),
    rung(
        18,
        "direction of the sun",
        "worked example of the algorithm; positions of the Jet Propulsion Laboratory; rise and set of the Naval Observatory",
        &[
            ("src/sun/tests.rs", "the_worked_example_of_the_algorithm"),
            ("src/sun/tests.rs", "positions_by_the_jet_propulsion_laboratory"),
            ("src/sun/tests.rs", "sunrise_and_sunset_by_the_naval_observatory"),
        ],
    ),
    rung(
        19,
        "weather reports, good and broken",
        "decoded, or refused with the reason",
        &[
            ("src/wind/metar/tests.rs", "winds_are_decoded"),
            ("src/wind/metar/tests.rs", "what_makes_no_sense_is_refused_with_its_reason_and_place"),
        ],
    ),
    rung(
        20,
        "units as people type them",
        "there and back",
        &[("src/units/parse.rs", "every_unit_comes_back_as_it_went")],
    ),
    rung(
        21,
        "files written and read back",
        "the same field, path and scenario",
        &[
            ("tests/formats.rs", "gpx_comes_back_with_its_times"),
            ("tests/formats.rs", "kml_comes_back_stretch_by_stretch_with_the_field"),
            ("tests/doors_geojson.rs", "degrees_come_back_to_a_ten_millionth"),
            ("tests/doors.rs", "files_are_written_whole_and_read_back"),
        ],
    ),
    rung(22, "wind and airspeed found from a noisy log", "what was put in", &[]),
    rung(
        23,
        "a wind as fast as the jet",
        "said in words; no endless loop",
        &[
            ("tests/verify/unreachable.rs", "a_jet_slower_than_the_wind_does_not_come_home"),
            ("tests/verify/unreachable.rs", "closed_forms_have_no_answer_there"),
        ],
    ),
    rung(
        24,
        "more wind, more buffer",
        "never a smaller radius, never more room",
        &[
            ("tests/verify/bounds.rs", "more_wind_never_lowers_the_smallest_radius"),
            ("tests/study/order.rs", "more_buffer_never_widens_the_usable_radii"),
        ],
    ),
    rung(
        25,
        "judging a flight twice, and judging what was written down",
        "the same margins",
        &[
            ("tests/verify/judged.rs", "judging_twice_gives_the_same"),
            ("tests/verify/judged.rs", "judging_what_was_written_down_gives_the_same"),
        ],
    ),
    rung(
        26,
        "any field, wind and broken file",
        "an answer, never a crash",
        &[
            ("tests/verify/robust.rs", "any_scenario_can_be_flown_and_judged"),
            ("tests/mutations.rs", "changed_structure_is_answered"),
        ],
    ),
    rung(27, "the circle written again in another language", "the same track", &[]),
    rung(28, "time taken on a named machine", "a budget; cargo bench prints it, nothing holds it to one", &[]),
];

/// Tells it.
pub(super) fn tell(flow: &mut Flow<'_>) {
    flow.section("Tests passed");
    let there = RUNGS.iter().filter(|rung| !rung.places.is_empty()).count();
    flow.paragraph(&format!(
        "{there} of {} steps of the verification ladder have a test in the source of this version ({}); the others are \
         said so. The program can't run them from here: \"cargo test\" in its source does, and a version goes out only when \
         all of them pass.",
        RUNGS.len(),
        crate::VERSION
    ));
    let columns =
        [text("", 12.0), text("what is checked", 56.0), text("against what", 44.0), text("where it stands", 70.0)];
    let rows: Vec<Vec<Cell>> = RUNGS
        .iter()
        .map(|rung| {
            let mut files: Vec<&str> = rung.places.iter().map(|(file, _)| *file).collect();
            files.dedup();
            let (sign, place) = if files.is_empty() {
                (Sign::Open, Cell::bold("no test yet"))
            } else {
                (Sign::Full, files.join(", ").into())
            };
            vec![Cell::signed(sign, format!("V{}", rung.id)), rung.what.into(), rung.against.into(), place]
        })
        .collect();
    flow.table(&columns, &rows);
    explained(
        flow,
        "Full square: there is a test. Open square: there is none, and this pack rests on nothing of the kind.",
    );
}
