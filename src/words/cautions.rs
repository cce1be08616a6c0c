//! What must be said beside every answer, on screen and on paper.
//!
//! Nothing turns these off: a report takes them from here and has no switch for them.

/// Every caution, for prints and for the page that lists them.
pub const ALL: [&str; 10] = [
    "A planning aid, not approved equipment. The law where you fly, your association, your club, the landowner and \
     the people on the flight line come first. Nothing printed here is leave to fly.",
    "The jet in this model is a point with mass in a tidy wind. Your jet, its electronics and the air on the day will \
     differ: try the recovery in sight, high and in light wind before you rely on any number.",
    SPOTTER,
    "An answer is worth no more than what was put in. Numbers nobody has measured are listed as such, and the wind at \
     circle height is worked out from lower down, not measured.",
    "Somebody entitled to decide must have agreed to the failsafe action named here, for this jet, at this field. A return \
     under power is not allowed everywhere, least of all for turbines.",
    "A margin is not permission. Plan so that no people, vehicles, animals or buildings lie under the path.",
    "The return is for the day something fails. It is no way to land, no reason to fly out of sight and no stand-in \
     for flying by hand.",
    "Runs that met the margins say something about this model with these inputs. They prove nothing about a flight.",
    "No rule or limit in a file is a fact until a person has compared it with the text in force today.",
    "If a jet is lost: warn people, note the bearing and the time, stay off land you may not enter, expect a battery \
     fire, report it.",
];

/// What a spotter is for.
pub const SPOTTER: &str = "A spotter stands beside the pilot and keeps unaided eyes on the jet from take-off to \
                           landing. When the spotter loses it, the flight is over.";

/// One line for the window's foot and the foot of a page.
pub const FOOT: &str = "Planning aid, not approved equipment. Law, club, landowner and the people on the flight line \
                        come first. A spotter keeps unaided eyes on the jet.";

/// Where a terminal has the others.
pub const IN_FULL: &str = "All the cautions: peewit cautions";

/// What is shown before the first use.
pub const FIRST_START: &str = "Peewit works out where a model jet would go if its video or its control link were \
                               lost. It does so for a point with mass in an idealised wind, with the numbers you give \
                               it. It approves nothing and proves nothing. The law, your association, your club, the \
                               landowner and the people on the flight line come before anything it prints. Check \
                               every rule against today's text, try the recovery in sight, high and in light wind, \
                               and keep a spotter with unaided eyes on the jet beside the pilot.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_one_clean_paragraph_and_none_is_said_twice() {
        for (index, text) in ALL.iter().chain([&FOOT, &FIRST_START]).enumerate() {
            assert!(text.ends_with('.') && !text.contains("  ") && !text.contains('\n'), "caution {index}: {text}");
        }
        for (index, text) in ALL.iter().enumerate() {
            assert!(!ALL[..index].contains(text), "said twice: {text}");
        }
    }

    #[test]
    fn the_foot_fits_a_line_of_a_small_window() {
        assert!(FOOT.len() <= 160, "{} characters", FOOT.len());
    }
}
