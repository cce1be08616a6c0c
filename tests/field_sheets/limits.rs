//! Loss, failsafe action, limits and rules: who allowed what, and who has checked which rule.

use bevy_egui::egui::accesskit::Role;
use egui_kittest::kittest::Queryable as _;
use peewit::app::FieldSheet;
use peewit::recovery::{FailsafeAction, Guidance, SpeedHold, Turn};
use peewit::run::HeightAbove;

use super::{click, does_not_say, enter, file, open, says, undo_words};

#[test]
fn a_blank_authority_warns() {
    let mut harness = open(FieldSheet::Loss);
    does_not_say(&harness, "NOBODY HAS AUTHORISED THIS");
    enter(&mut harness, "authorised by", " ");
    assert_eq!(file(&harness).recovery.authorised_by, "");
    says(&harness, "NOBODY HAS AUTHORISED THIS");
    says(&harness, "Write who did and when");
    enter(&mut harness, "authorised by", "field committee, 2026-03-02");
    does_not_say(&harness, "NOBODY HAS AUTHORISED THIS");
}

#[test]
fn failsafe_action_and_circle_are_chosen() {
    let mut harness = open(FieldSheet::Loss);
    click(&mut harness, "failsafe action: wait, then cut");
    assert_eq!(file(&harness).recovery.failsafe_action, FailsafeAction::WaitThenCut);
    assert_eq!(undo_words(&harness), Some("set the failsafe action"));
    enter(&mut harness, "waits", "8");
    assert_eq!(file(&harness).recovery.wait.s(), 8.0);
    click(&mut harness, "turns: clockwise (right)");
    assert_eq!(file(&harness).recovery.turn, Turn::Clockwise);
    enter(&mut harness, "failsafe delay", "1.5");
    assert_eq!(file(&harness).recovery.failsafe_delay.value.s(), 1.5);
    enter(&mut harness, "loss east of datum", "-120");
    assert_eq!(file(&harness).loss.at_m, [-120.0, 30.0]);
    enter(&mut harness, "nose points to", "NW");
    assert_eq!(file(&harness).loss.heading.deg(), 315.0);
}

#[test]
fn a_return_that_is_not_permitted_is_warned_of() {
    let mut harness = open(FieldSheet::Limits);
    harness.get_by_role_and_label(Role::CheckBox, "Automatic return is not permitted here").click();
    harness.run_steps(3);
    assert!(file(&harness).limits.no_automatic_return);
    says(&harness, "an automatic return is not permitted here");
}

#[test]
fn height_limit_and_time_come_and_go_with_their_switches() {
    let mut harness = open(FieldSheet::Limits);
    enter(&mut harness, "height limit", "300 ft");
    approx::assert_abs_diff_eq!(file(&harness).limits.height_limit.unwrap().height.m(), 91.44, epsilon = 1e-9);
    click(&mut harness, "height limit is: over home");
    assert_eq!(file(&harness).limits.height_limit.unwrap().above, HeightAbove::Home);
    for label in ["There is a height limit", "It must be home within a time"] {
        harness.get_by_role_and_label(Role::CheckBox, label).click();
        harness.run_steps(3);
    }
    assert_eq!((file(&harness).limits.height_limit, file(&harness).limits.home_within), (None, None));
}

#[test]
fn a_preset_is_not_checked_until_a_person_says_who_did_and_when() {
    let mut harness = open(FieldSheet::Limits);
    click(&mut harness, "start from: UK");
    assert!(file(&harness).rules.is_empty(), "a press shows what it would set");
    click(&mut harness, "Start from UK");
    let all = file(&harness).rules.len();
    assert!(all > 3 && undo_words(&harness) == Some("start from the numbers of UK"));
    says(&harness, "NOT CHECKED");
    says(&harness, &format!("{all} of {all} rules not checked"));
    enter(&mut harness, "rule 1 checked by", "A. Secretary");
    says(&harness, &format!("{all} of {all} rules not checked"));
    enter(&mut harness, "rule 1 checked on", "2026-04-01");
    assert!(file(&harness).rules[0].is_checked());
    says(&harness, &format!("{} of {all} rules not checked", all - 1));
    // They stay editable.
    enter(&mut harness, "height limit", "90");
    assert_eq!(file(&harness).limits.height_limit.unwrap().height.m(), 90.0);
}

#[test]
fn the_shares_that_are_enough_and_the_factors_over_the_stall_are_entered() {
    let mut harness = open(FieldSheet::Limits);
    for (label, text) in [
        ("crossed in at most", "2"),
        ("buffers kept in at least", "95 %"),
        ("speed held over the stall", "1.4"),
        ("held for", "5"),
        ("speed over the stall at a moment", "1.2"),
    ] {
        enter(&mut harness, label, text);
    }
    let limits = &file(&harness).limits;
    let shares = [limits.crossed_at_most.share(), limits.kept_at_least.share()];
    assert_eq!((shares, limits.stall_over.s()), ([0.02, 0.95], 5.0));
    assert_eq!((limits.stall_factor, limits.stall_factor_moment), (1.4, 1.2));
    assert!(harness.state().session.is_current());
}

#[test]
fn laws_are_ruled_out_one_by_one_and_never_all() {
    let mut harness = open(FieldSheet::Loss);
    let tick = |harness: &mut egui_kittest::Harness<'_, crate::panels::Stage>, label: &str| {
        harness.get_by_role_and_label(Role::CheckBox, label).click();
        harness.run_steps(3);
    };
    tick(&mut harness, "not nose on the centre");
    assert_eq!(file(&harness).recovery.laws_ruled_out, [Guidance::NoseOnTheCentre]);
    assert_eq!(undo_words(&harness), Some("rule out nose on the centre"));
    assert!(harness.state().session.is_current());
    tick(&mut harness, "not look-ahead");
    tick(&mut harness, "not field of directions");
    assert!(!harness.state().session.is_current());
    tick(&mut harness, "not field of directions");
    assert_eq!(file(&harness).recovery.laws_ruled_out, [Guidance::NoseOnTheCentre, Guidance::LookAhead]);
    click(&mut harness, "holds: speed over ground");
    assert_eq!(file(&harness).recovery.speed_hold, SpeedHold::GroundSpeed);
    click(&mut harness, "How well it knows where it is");
    tick(&mut harness, "It took off before its fix had settled");
    enter(&mut harness, "wander of height", "3");
    enter(&mut harness, "static error, of q", "10");
    let sheet = &file(&harness).recovery.perception;
    assert_eq!((sheet.flew_early, sheet.height_wander.m(), sheet.static_error.share()), (true, 3.0, 0.1));
}
