//! What is flown with: keyboard, mouse or a device that is plugged in; what its axes do, and how they are found.

mod bars;
mod finding;

use bevy_egui::egui::{Button, Checkbox, ComboBox, Key, RichText, Slider, Ui};

use crate::app::look::theme::{Palette, TARGET, boxed};
use crate::app::session::sticks::{Function, KeysHeld, StickCommand, StickDesk, StickMode, Way};

/// Shows it.
pub(super) fn show(ui: &mut Ui, desk: &StickDesk, palette: &Palette, out: &mut Vec<StickCommand>) {
    ui.heading("Flown with");
    ways(ui, desk, out);
    match &desk.way {
        Way::Keys => soft(ui, palette, "Arrow keys are the stick, up is nose down. W is more throttle, S is less."),
        Way::Mouse => {
            soft(ui, palette, "The mouse is the stick, towards you is nose up. W is more throttle, S is less.");
        }
        Way::Device(name) if desk.unplugged() => {
            ui.label(format!("{name} is unplugged: plug it in again, or fly with something else."));
            return;
        }
        Way::Device(name) => device(ui, desk, name, palette, out),
    }
    bars::sticks(ui, desk.now(), palette);
}

/// Keys that are down, as they fly.
pub(super) fn held(ui: &Ui) -> KeysHeld {
    ui.input(|input| KeysHeld {
        left: input.key_down(Key::ArrowLeft),
        right: input.key_down(Key::ArrowRight),
        back: input.key_down(Key::ArrowDown),
        forward: input.key_down(Key::ArrowUp),
        more: input.key_down(Key::W),
        less: input.key_down(Key::S),
    })
}

fn ways(ui: &mut Ui, desk: &StickDesk, out: &mut Vec<StickCommand>) {
    let gone = desk.unplugged().then(|| desk.way.clone());
    let devices = desk.plugged().iter().map(|raw| Way::Device(raw.name.clone()));
    ui.horizontal_wrapped(|ui| {
        for way in [Way::Keys, Way::Mouse].into_iter().chain(devices).chain(gone) {
            let name = match &way {
                Way::Keys => "keyboard",
                Way::Mouse => "mouse",
                Way::Device(name) => name,
            };
            let chosen = way == desk.way;
            let button = Button::new(name).selected(chosen).min_size([0.0, TARGET].into());
            if ui.add(button).clicked() && !chosen {
                out.push(StickCommand::FlyWith(way));
            }
        }
    });
}

fn device(ui: &mut Ui, desk: &StickDesk, name: &str, palette: &Palette, out: &mut Vec<StickCommand>) {
    let Some(raw) = desk.raw() else { return };
    let map = desk.map(name);
    if let Some(finding) = desk.finding() {
        finding::show(ui, finding, palette, out);
        bars::axes(ui, raw, finding.found(), palette);
        return;
    }
    bars::axes(ui, raw, &map, palette);
    let unheard: Vec<_> = map.unheard(raw).into_iter().map(Function::name).collect();
    if !unheard.is_empty() {
        ui.label(format!("Nothing heard yet of {}: move each of them once.", unheard.join(", ")));
    }
    if ui.add(Button::new("Find my sticks by moving them").min_size([0.0, TARGET].into())).clicked() {
        out.push(StickCommand::Find);
    }
    boxed(ui);
    ui.horizontal(|ui| {
        ui.label("or as a gamepad in");
        let words = map.mode.map_or("mode", StickMode::name);
        ComboBox::from_id_salt("stick mode").selected_text(words).show_ui(ui, |ui| {
            for mode in StickMode::ALL {
                let line = format!("{}: {}", mode.name(), mode.hands());
                if ui.selectable_label(map.mode == Some(mode), line).clicked() {
                    out.push(StickCommand::Mode(mode));
                }
            }
        });
    });
    ui.horizontal_wrapped(|ui| {
        for function in Function::ALL {
            let Some(mut reversed) = map.axis(function).map(|axis| axis.reversed) else { continue };
            let words = format!("{} the other way", function.name());
            if ui.add(Checkbox::new(&mut reversed, words)).changed() {
                out.push(StickCommand::Reverse(function, reversed));
            }
        }
    });
    let mut springs = map.springs;
    if ui.checkbox(&mut springs, "the throttle's stick springs back: it moves the throttle, which stays").changed() {
        out.push(StickCommand::Springs(springs));
    }
    let mut percent = 100.0 * map.dead_band;
    let slider =
        Slider::new(&mut percent, 0.0..=30.0).fixed_decimals(0).suffix(" %").text("about the middle does nothing");
    if ui.add(slider).changed() {
        out.push(StickCommand::DeadBand(percent / 100.0));
    }
}

fn soft(ui: &mut Ui, palette: &Palette, words: &str) {
    ui.label(RichText::new(words).color(palette.soft));
}

#[cfg(test)]
mod tests {
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;

    use super::*;
    use crate::app::look::theme::{Theme, fonts_ready};
    use crate::app::session::sticks::RawSticks;

    /// A desk with a panel on it that is obeyed, and keys.
    fn shown(desk: StickDesk) -> Harness<'static, StickDesk> {
        Harness::new_ui_state(
            |ui, desk: &mut StickDesk| {
                if !fonts_ready(ui.ctx()) {
                    return;
                }
                let mut out = vec![StickCommand::Held(held(ui))];
                show(ui, desk, Theme::Light.palette(), &mut out);
                out.into_iter().for_each(|command| desk.obey(command));
            },
            desk,
        )
    }

    fn hear(harness: &mut Harness<'_, StickDesk>, axes: [f32; 4]) {
        let names = ["axis 0", "axis 1", "axis 2", "axis 3"].map(str::to_owned);
        let raw = RawSticks { name: "box".into(), axes: names.into_iter().zip(axes).collect(), ..RawSticks::default() };
        for _ in 0..20 {
            harness.state_mut().hear(vec![raw.clone()], 0.05);
        }
        harness.run();
    }

    #[test]
    fn a_person_finds_the_sticks_of_a_transmitter() {
        let mut harness = shown(StickDesk::default());
        hear(&mut harness, [0.0, 0.0, -1.0, 0.0]);
        harness.get_by_label("box").click();
        harness.run();
        assert!(harness.query_by_label_contains("Nothing heard yet of throttle, pitch, roll").is_some());
        harness.get_by_label("Find my sticks by moving them").click();
        harness.run();
        let steps = [
            ("Push the throttle", [0.0, 0.0, 1.0, 0.0]),
            ("Pull the stick back", [0.0, -1.0, -1.0, 0.0]),
            ("Push the stick right", [1.0, 0.0, -1.0, 0.0]),
        ];
        for (words, axes) in steps {
            hear(&mut harness, [0.0, 0.0, -1.0, 0.0]);
            assert!(harness.query_by_label_contains(words).is_some(), "{words}");
            hear(&mut harness, axes);
        }
        hear(&mut harness, [0.0, 0.0, -1.0, 0.0]);
        harness.get_by_label("There is no switch").click();
        harness.run();
        hear(&mut harness, [-1.0, -1.0, -1.0, 0.0]);
        hear(&mut harness, [1.0, 1.0, 1.0, 0.0]);
        harness.get_by_label("They were at all their ends").click();
        harness.run();
        hear(&mut harness, [0.0, 0.0, -1.0, 0.0]);
        harness.get_by_label("It is closed, and they are let go").click();
        harness.run();
        hear(&mut harness, [1.0, -1.0, 0.0, 0.0]);
        let (sticks, _) = harness.state_mut().sticks(0.05);
        let found = [sticks.roll_share, sticks.pitch_share, sticks.throttle_share];
        assert!(
            found.into_iter().zip([1.0, 1.0, 0.5]).all(|(found, wanted)| (found - wanted).abs() < 0.01),
            "{sticks:?}"
        );
        harness.get_by_label("roll the other way").click();
        harness.run();
        assert!(harness.state_mut().sticks(0.05).0.roll_share < -0.99);
        harness.state_mut().hear(Vec::new(), 0.05);
        harness.run();
        assert!(harness.query_by_label_contains("box is unplugged").is_some());
    }

    #[test]
    fn keys_that_are_down_fly() {
        let mut harness = shown(StickDesk::default());
        harness.key_down(Key::ArrowDown);
        harness.key_down(Key::W);
        harness.run();
        let (sticks, _) = harness.state_mut().sticks(10.0);
        assert_eq!((sticks.pitch_share, sticks.roll_share, sticks.throttle_share), (1.0, 0.0, 1.0));
    }
}
