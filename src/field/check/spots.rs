//! Which spot heights are none, and which are two facts about one place?

use std::collections::HashMap;

use super::super::SpotFile;
use super::super::corners::point;
use super::super::rings::position;
use crate::error::Fault;
use crate::units::figure;

/// Spot heights nearer to one another than this are of one place, metres: less than a surveyor's staff is off.
const ONE_PLACE_M: f64 = 0.5;

pub(super) fn check(spots: &[SpotFile], place: &str, faults: &mut Vec<Fault>) {
    let mut seen: HashMap<[i64; 2], Vec<usize>> = HashMap::new();
    for (index, spot) in spots.iter().enumerate() {
        let sound = position(spot.at_m, &format!("{place}/{index}/at_m"), faults);
        let at = point(spot.at_m);
        // Squares as wide as one place: what is nearer lies in the same or the next.
        #[allow(clippy::cast_possible_truncation, reason = "within 20 km there are some ten thousand squares")]
        let square = (at / ONE_PLACE_M).floor().to_array().map(|number| number as i64);
        let beside =
            (-1..=1).flat_map(|x| (-1..=1).map(move |y| [square[0].saturating_add(x), square[1].saturating_add(y)]));
        let near = |other: &usize| point(spots[*other].at_m).distance(at) < ONE_PLACE_M;
        let first = beside.filter_map(|square| seen.get(&square)).flatten().copied().filter(near).min();
        if let Some(first) = first.filter(|_| sound) {
            let apart = point(spots[first].at_m).distance(at);
            let problem = format!(
                "spot height {first}, counted from 0, is at the same place, {} and {} high, {} m apart",
                spots[first].height,
                spot.height,
                figure(apart)
            );
            let way_out = format!("Keep one of the two: spot heights lie {ONE_PLACE_M} m apart or more");
            faults.push(Fault::error(format!("{place}/{index}"), problem, way_out));
        } else if sound {
            // Of spots that are refused none is kept, so that a square never holds many.
            seen.entry(square).or_default().push(index);
        }
        if !(-1000.0..=1000.0).contains(&spot.height.m()) {
            let problem = format!("{} is no height above the datum's ground", spot.height);
            let way_out = "Write the height above the ground at the datum, within 1000 m of it";
            faults.push(Fault::error(format!("{place}/{index}/height"), problem, way_out));
        }
    }
}
