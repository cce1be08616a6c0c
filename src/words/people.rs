//! How near people a recovery passes, in one sentence.

use crate::margins::People;

/// The sentence, such as "Passes 62 m from pits at the nearest; what falls would come down no nearer than 31 m; a glide
/// could reach people from 40 % of the circle." Distances are rounded down.
pub fn people(found: &People) -> String {
    let glides = glides(found).map_or_else(String::new, |glides| format!("; {glides}"));
    let nobody = if found.areas == 0 { "; nobody else is drawn" } else { "" };
    format!("{}; {}{glides}{nobody}.", passes(found), falls(found))
}

/// How near it passes to people; without a full stop, like its fellows.
pub fn passes(found: &People) -> String {
    if found.nearest_m < 0.0 {
        format!("Flies over {}", called(&found.to))
    } else {
        format!("Passes {:.0} m from {} at the nearest", found.nearest_m.floor(), called(&found.to))
    }
}

/// Whether what falls could come down on people.
pub fn falls(found: &People) -> String {
    let whom = if found.fall_to == found.to { String::new() } else { format!(" to {}", called(&found.fall_to)) };
    match found.fall_share {
        _ if found.fall_nearest_m > 0.0 => {
            format!("what falls would come down no nearer than {:.0} m{whom}", found.fall_nearest_m.floor())
        }
        Some(share) if share > 0.0 => format!("what falls could come down on people from {}", part(share)),
        _ => "what falls on the way could come down on people".into(),
    }
}

/// Whether a glide could reach people; none where no circle is flown.
pub fn glides(found: &People) -> Option<String> {
    Some(match found.glide_share? {
        share if share > 0.0 => format!("a glide could reach people from {}", part(share)),
        _ => "no glide from the circle could reach people".into(),
    })
}

/// Areas are called what people call them.
fn called(name: &str) -> String {
    if name == "pilot position" { format!("the {name}") } else { name.into() }
}

/// A part of the circle that is neither nothing nor, short of all of it, all.
fn part(share: f64) -> String {
    if share >= 1.0 {
        return "anywhere on the circle".into();
    }
    format!("{:.0} % of the circle", (100.0 * share).round().clamp(1.0, 99.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn says(change: impl FnOnce(&mut People), expected: &str) {
        let mut found = People {
            nearest_m: 62.9,
            to: "pits".into(),
            fall_nearest_m: 31.2,
            fall_to: "pits".into(),
            fall_share: Some(0.0),
            glide_share: Some(0.4),
            areas: 1,
        };
        change(&mut found);
        assert_eq!(people(&found), expected);
    }

    #[test]
    fn one_sentence_says_how_near_and_what_could() {
        says(
            |_| (),
            "Passes 62 m from pits at the nearest; what falls would come down no nearer than 31 m; a glide could reach people \
             from 40 % of the circle.",
        );
        says(
            |found| {
                (found.fall_to, found.glide_share, found.areas) = ("pilot position".into(), Some(0.0), 0);
            },
            "Passes 62 m from pits at the nearest; what falls would come down no nearer than 31 m to the pilot position; no \
             glide from the circle could reach people; nobody else is drawn.",
        );
        says(
            |found| {
                (found.nearest_m, found.fall_nearest_m) = (-0.2, 0.0);
                (found.fall_share, found.glide_share) = (Some(0.001), Some(1.0));
            },
            "Flies over pits; what falls could come down on people from 1 % of the circle; a glide could reach people from \
             anywhere on the circle.",
        );
        says(
            |found| (found.fall_nearest_m, found.fall_share, found.glide_share) = (0.0, None, None),
            "Passes 62 m from pits at the nearest; what falls on the way could come down on people.",
        );
        says(
            |found| (found.fall_nearest_m, found.fall_share, found.glide_share) = (0.0, Some(0.0), Some(0.999)),
            "Passes 62 m from pits at the nearest; what falls on the way could come down on people; a glide could reach people \
             from 99 % of the circle.",
        );
    }
}
