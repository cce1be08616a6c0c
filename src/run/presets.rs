//! Numbers that people start from in some part of the world, each of them a note that nobody has checked yet.
//!
//! None is given as law: rules change from year to year and from association to association. What a preset puts into
//! the limits is what a person would otherwise type from the same hearsay.

use super::{HeightAbove, HeightLimit, RuleNote, ScenarioFile};
use crate::jet::Origin;
use crate::units::{Angle, Length, Ratio};

/// A note of a preset: what it is about, what is said, and where that was read.
type Said = (&'static str, &'static str, &'static str);

/// Numbers to start from.
#[derive(Debug, Clone, Copy)]
pub struct Preset {
    /// Where, in a word or two.
    pub name: &'static str,
    /// What it says about itself.
    pub about: &'static str,
    notes: &'static [Said],
    /// Highest height over the ground, m; none leaves the height limit as it is.
    height_limit_m: Option<f64>,
    /// Buffer, m.
    buffer_m: f64,
    /// Buffer from people, m.
    people_buffer_m: f64,
}

/// Judgement, for every preset: maximum bank, deg; stall factor; buffer and people buffer, m; reserve. None has a source.
const BANK_DEG: f64 = 35.0;
const STALL_FACTOR: f64 = 1.3;
const BUFFER_M: f64 = 20.0;
const PEOPLE_BUFFER_M: f64 = 30.0;
const RESERVE: f64 = 0.2;

const JUDGEMENT: &str = "judgement of this tool's makers, no source";

const PRESETS: [Preset; 4] = [
    Preset {
        name: "UK",
        about: "Numbers said to hold for members of United Kingdom associations; older and newer texts differ.",
        height_limit_m: Some(120.0),
        buffer_m: 50.0,
        people_buffer_m: 50.0,
        notes: &[
            (
                "height",
                "400 ft or 120 m above the surface; the lower of the two is set",
                "CAA Drone and Model Aircraft Code, October 2019, a superseded edition",
            ),
            (
                "height, association members",
                "models below 7 kg, or 7.5 kg, flown by eye, may go above 400 ft",
                "association pages and a club's summary of the Article 16 authorisation, December 2023; they differ",
            ),
            (
                "first-person flight",
                "observer with direct sight, at most 3.5 kg, at most 1000 ft in the older text and 400 ft in the newer",
                "CAA general exemptions of 2014 and of 2019 (ORS4 1294), both superseded",
            ),
            (
                "distance from people, vehicles and structures",
                "50 m, and 30 m at take-off and landing; set as the buffer from people and from everything else",
                "CAA code of 2019 and exemption of 2014, superseded; the present authorisation may say less",
            ),
            (
                "distance from built-up areas and crowds",
                "150 m; draw such places as areas that large",
                "CAA exemption ORS4 1294, 2019, superseded",
            ),
            (
                "loss of the control link",
                "fan closed; an older text makes no exception above 7 kg and for turbines",
                "association guidance, older edition",
            ),
            (
                "automatic return",
                "an association reports that the regulator accepts it on loss of the control link",
                "association notice; ask for the text that covers your jet",
            ),
            ("video sender", "25 mW", "association guidance"),
            ("dead line of one club", "12 m, and 30 m for turbines; an example only", "one club's rules"),
        ],
    },
    Preset {
        name: "EU",
        about: "Numbers said to hold in the European Union's open category; clubs fly under authorisations of their state.",
        height_limit_m: Some(120.0),
        buffer_m: BUFFER_M,
        people_buffer_m: PEOPLE_BUFFER_M,
        notes: &[
            ("height", "120 m from the closest point of the surface", "Regulation (EU) 2019/947, UAS.OPEN.010"),
            ("observer", "beside the pilot, with unaided eyes", "Regulation (EU) 2019/947, open category"),
            (
                "distance from areas where people live, work or rest",
                "150 m; draw such places as areas that large",
                "Regulation (EU) 2019/947, UAS.OPEN.040",
            ),
            (
                "how far one sees",
                "the lesser of 490 spans plus 30 m, and three tenths of the visibility; the margins measure both",
                "EASA guidelines for the open and specific category, issue 03, 2025: best practice, not binding",
            ),
            (
                "clubs",
                "an authorisation of the state, which may say something else",
                "Regulation (EU) 2019/947, Article 16",
            ),
            ("Germany", "first-person flight without an observer only below 30 m", "association page"),
        ],
    },
    Preset {
        name: "US",
        about: "Numbers said to hold for recreational flight in the United States, outside controlled airspace.",
        height_limit_m: Some(121.92),
        buffer_m: BUFFER_M,
        people_buffer_m: PEOPLE_BUFFER_M,
        notes: &[
            ("height", "400 ft above the ground in uncontrolled airspace", "49 U.S.C. 44809(a)(6), edition of 2018"),
            ("observer", "beside the pilot and in direct talk with them", "49 U.S.C. 44809(a)(3), edition of 2018"),
            (
                "guidelines, test, registration",
                "those of a recognised association",
                "49 U.S.C. 44809(a), edition of 2018",
            ),
            (
                "distance from other people",
                "25 ft, which is less than the people buffer set here",
                "association code, older edition",
            ),
            (
                "stabilised and self-guided models",
                "below 15 lb and 70 mph; one club: 10 lb, 60 mph and no automatic flight at all",
                "association paper of 2012, from memory; one club's rules",
            ),
        ],
    },
    Preset {
        name: "club's own",
        about: "Nothing but this tool's judgement: put your club's rules in its place. The height limit stays as it is.",
        height_limit_m: None,
        buffer_m: BUFFER_M,
        people_buffer_m: PEOPLE_BUFFER_M,
        notes: &[
            ("height", "write what your club and your landowner agreed", "none yet"),
            ("automatic return", "write whether your club permits it, and who decided", "none yet"),
        ],
    },
];

/// Every preset.
pub fn presets() -> &'static [Preset] {
    &PRESETS
}

impl Preset {
    /// The notes it brings, none of them checked.
    pub fn notes(&self) -> Vec<RuleNote> {
        let buffer = if self.buffer_m > BUFFER_M {
            String::new()
        } else {
            format!(", buffer {BUFFER_M} m, people buffer {PEOPLE_BUFFER_M} m")
        };
        let reserve = Ratio::new(RESERVE);
        let judged = format!("bank {BANK_DEG} deg, stall factor {STALL_FACTOR}{buffer}, reserve {reserve}");
        let judgement = ("maximum bank, stall factor, buffers, reserve", judged.as_str(), JUDGEMENT);
        let notes = self.notes.iter().copied().chain([judgement]);
        let note = |(label, value, source): (&str, &str, &str)| RuleNote {
            label: label.into(),
            value: value.into(),
            source: source.into(),
            checked_on: None,
            checked_by: String::new(),
        };
        notes.map(note).collect()
    }

    /// Sets what the tool keeps and puts its own notes in the place of those in the file; says in words what was set.
    ///
    /// A maximum bank that somebody has measured or estimated stays.
    pub fn apply(&self, file: &mut ScenarioFile) -> Vec<String> {
        let mut set = Vec::new();
        let limits = &mut file.limits;
        if let Some(metres) = self.height_limit_m {
            let height = Length::new(metres);
            limits.height_limit = Some(HeightLimit { height, above: HeightAbove::Ground });
            set.push(format!("height limit {height} above the ground"));
        }
        limits.buffer = Length::new(self.buffer_m);
        limits.people_buffer = Length::new(self.people_buffer_m);
        limits.stall_factor = STALL_FACTOR;
        limits.reserve = Ratio::new(RESERVE);
        set.push(format!("buffer {}", limits.buffer));
        set.push(format!("people buffer {}", limits.people_buffer));
        set.push(format!("stall factor {STALL_FACTOR}"));
        set.push(format!("reserve {}", limits.reserve));
        let bank = &mut file.jet.maximum_bank;
        if bank.origin == Origin::Default {
            bank.value = Angle::new(BANK_DEG.to_radians());
            set.push(format!("maximum bank {}", bank.value));
        } else {
            set.push(format!("maximum bank {} as it was, for somebody has checked it", bank.value));
        }
        // What nobody has measured is not exact either.
        if !file.jet.taken_as_exact().is_empty() {
            file.jet.spread_out();
            set.push("a spread by judgement for every number of the jet that nobody has measured".into());
        }
        file.rules = self.notes();
        set.push(format!("{} rules, none of them checked", file.rules.len()));
        set
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[track_caller]
    fn check(name: &str, height_limit_m: Option<f64>, buffers_m: [f64; 2]) {
        let preset = presets().iter().find(|preset| preset.name == name).unwrap();
        let mut file = Scenario::tight_strip().file;
        file.limits.height_limit = None;
        file.limits.stall_factor = 2.0;
        file.rules = vec![RuleNote { label: "old".into(), ..RuleNote::default() }];
        let words = preset.apply(&mut file);
        assert!(words.iter().any(|words| words.contains("none of them checked")), "{words:?}");
        assert_eq!(file.limits.height_limit.map(|height_limit| height_limit.height.m()), height_limit_m);
        assert_eq!([file.limits.buffer, file.limits.people_buffer].map(|buffer| buffer.m()), buffers_m);
        assert_eq!(file.limits.stall_factor, 1.3);
        assert_eq!(file.rules, preset.notes());
        // One warning a rule, and a scenario that can still be used.
        let (rules, scenario) = (file.rules.len(), Scenario::from_file(file).unwrap());
        assert_eq!(
            scenario.warnings().iter().filter(|fault| fault.problem.contains("nobody has checked")).count(),
            rules
        );
    }

    #[test]
    fn presets_set_the_limits_and_replace_the_rules() {
        // 400 ft are 121.92 m by definition of the foot; of 400 ft and 120 m the lower is kept.
        check("UK", Some(120.0), [50.0, 50.0]);
        check("EU", Some(120.0), [20.0, 30.0]);
        check("US", Some(400.0 * 0.3048), [20.0, 30.0]);
        check("club's own", None, [20.0, 30.0]);
        assert_eq!(presets().len(), 4);
    }

    #[test]
    fn a_maximum_bank_that_somebody_has_checked_stays() {
        let mut file = Scenario::tight_strip().file;
        file.jet.maximum_bank.value = Angle::new(0.7);
        presets()[0].apply(&mut file);
        assert_eq!((file.jet.maximum_bank.origin, file.jet.maximum_bank.value.rad()), (Origin::Measured, 0.7));
        file.jet.maximum_bank.origin = Origin::Default;
        presets()[0].apply(&mut file);
        approx::assert_abs_diff_eq!(file.jet.maximum_bank.value.rad().to_degrees(), 35.0, epsilon = 1e-9);
    }

    #[test]
    fn no_note_claims_to_be_the_law_or_to_be_checked() {
        for note in presets().iter().flat_map(Preset::notes) {
            assert!(!note.is_checked() && !note.source.is_empty() && !note.label.is_empty(), "{note:?}");
            let text = format!("{} {}", note.label, note.value).to_lowercase();
            for word in ["must", "shall", "law", "legal", "required", "illegal", "allowed"] {
                assert!(!text.split(|c: char| !c.is_alphabetic()).any(|found| found == word), "{text} says {word}");
            }
        }
    }
}
