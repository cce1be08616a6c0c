//! What a lost link ends in, case by case: where the jet goes, what is done, what remains, and who may be hurt.

use super::Plan;
use crate::recovery::FailsafeAction;
use crate::units::Time;
use crate::words;

/// A case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Case {
    /// What is lost.
    pub(crate) lost: &'static str,
    /// What it ends in.
    pub(crate) ends: String,
    /// What is done about it, the most urgent first.
    pub(crate) done: String,
    /// What remains, and whether a trial has flown it.
    pub(crate) remains: String,
    /// Who may be hurt.
    pub(crate) people: String,
}

impl Plan<'_> {
    /// Every case, with the actions of the field card.
    pub(crate) fn cases(&self) -> [Case; 5] {
        let people = self.people();
        let [passes, falls] = [words::passes(&people), words::falls(&people)].map(|told| words::capital(&told) + ".");
        let glides = words::glides(&people).map_or_else(String::new, |told| format!(" {}.", words::capital(&told)));
        let told = [
            [
                self.video_ends(),
                "The spotter may have lost it too: then it is as with both lost.".into(),
                passes.clone(),
            ],
            [self.control_ends(), self.trials_leave(), passes.clone()],
            [
                "As with control lost, and nobody sees where it goes until it is found by eye.".into(),
                self.both_leaves(),
                passes,
            ],
            [
                self.falling_ends(),
                "Not flown in trials: reckoned from the plan as entered, thrown as fast as it flies, without drag."
                    .into(),
                format!("{falls}{glides}"),
            ],
            [
                self.leaving_ends(),
                "Not flown in trials. Who is under it is not reckoned with once it has left the field.".into(),
                "Whoever is below: nobody is drawn beyond the field.".into(),
            ],
        ];
        let mut told = told.into_iter();
        self.loss_boxes().map(|done| {
            let [ends, remains, people] = told.next().unwrap_or_default();
            Case { lost: done.title, ends, done: done.lines.join(" "), remains, people }
        })
    }

    /// Minutes of circling to the reserve, whole ones; none where no lap is flown.
    pub(super) fn circles_min(&self) -> Option<f64> {
        let figures = &self.margins.figures;
        Some((figures.laps_to_reserve? * figures.lap_s? / 60.0).floor())
    }

    /// Seconds from a loss to the circle where it is acted on after a delay; none where it never gets there. The flight is
    /// that of the file's own loss.
    pub(super) fn home_after_s(&self, delay: Time) -> Option<f64> {
        Some(self.margins.figures.home_s? - self.scenario.file.delay().value.s() + delay.s())
    }

    fn returns_by_itself(&self) -> bool {
        self.scenario.file.recovery.failsafe_action == FailsafeAction::Return
    }

    fn video_ends(&self) -> String {
        if !self.returns_by_itself() {
            return "It is flown back by eye. Where nobody has it in sight, the fan is cut and it glides.".into();
        }
        let plan = &self.scenario.file.recovery;
        let delay = plan.reaction_time.unwrap_or(plan.failsafe_delay).value;
        match self.home_after_s(delay) {
            Some(home) => {
                format!(
                    "Told to return within {delay}, it is on the circle {home:.0} s after the loss, and is landed by eye."
                )
            }
            None => "Told to return, it never gets on the circle.".into(),
        }
    }

    fn control_ends(&self) -> String {
        if !self.returns_by_itself() {
            return self.facts().take_over;
        }
        let delay = self.scenario.file.recovery.failsafe_delay.value;
        let (Some(home), Some(minutes)) = (self.home_after_s(delay), self.circles_min()) else {
            return format!("It turns home by itself after {delay}, and never gets on the circle.");
        };
        format!(
            "It turns home by itself after {delay}, is on the circle {home:.0} s after the loss, and circles {minutes:.0} min to \
             the reserve. Control back: landed by eye. Never back: it circles until the pack is empty, and comes down within \
             a glide of the circle, {:.0} m in still air.",
            self.margins.figures.glide_footprint_m
        )
    }

    /// What the trials have left of it.
    fn trials_leave(&self) -> String {
        let Some(trials) = self.trials().filter(|trials| trials.verdict.trials > 0) else {
            return "No trials have judged it.".into();
        };
        let crossed = trials.verdict.crossed;
        let counted = words::counted(crossed.count, crossed.of, trials.verdict.demand.confidence);
        format!("A limit is crossed in {counted} trials.")
    }

    fn both_leaves(&self) -> String {
        format!("{} The jet flies home the same way, with video or without.", self.trials_leave())
    }

    fn falling_ends(&self) -> String {
        let figures = &self.margins.figures;
        format!(
            "From circle height it comes down {:.0} m on where it falls, {:.0} m on where it glides in still air. The battery \
             may burn.",
            figures.fall_footprint_m, figures.glide_footprint_m
        )
    }

    fn leaving_ends(&self) -> String {
        format!(
            "It goes on until the fan is cut or the pack is empty. The wind at the circle carries it {:.0} m a minute.",
            self.drift_m_a_minute()
        )
    }

    /// How far the mean wind at circle height carries what does not steer, metres a minute.
    pub(super) fn drift_m_a_minute(&self) -> f64 {
        60.0 * self.margins.figures.wind_at_circle_mps[0]
    }
}

#[cfg(test)]
mod tests {
    use crate::brief::{Plan, Studies};
    use crate::jet::{Entry, Origin};
    use crate::run::{LossKind, Scenario};

    #[test]
    fn a_lost_link_is_told_by_its_own_delay_where_the_plan_flies_a_lost_video() {
        let mut file = Scenario::tight_strip().file;
        file.recovery.failsafe_delay = Entry::si(1.2, 0.0, Origin::Measured);
        file.recovery.reaction_time = Some(Entry::si(6.0, 0.0, Origin::Measured));
        file.loss.kind = LossKind::Video;
        let scenario = Scenario::from_file(file).unwrap();
        let plan = Plan::new(&scenario, "2026-04-18", Studies::default(), &[], &[]);
        let home_s = plan.margins.figures.home_s.unwrap();
        let [video, control, ..] = plan.loss_boxes();
        assert!(video.title.starts_with("Video"));
        // By hand: 6 - 1.2 = 4.8 s earlier.
        let said = format!("it circles {:.0} s after the loss", home_s - 4.8);
        assert!(control.lines.iter().any(|line| line.contains(&said)), "{said}: {:?}", control.lines);
        assert!(plan.cases()[0].ends.contains(&format!("on the circle {home_s:.0} s")), "{}", plan.cases()[0].ends);
    }
}
