//! What do the gamepads and transmitters that are plugged in say? bevy hears them where the feature `joystick` is on; where
//! it is off there are none.

use bevy::input::InputSystems;
use bevy::input::gamepad::GamepadInput;
use bevy::prelude::*;

use super::Held;
use crate::app::session::sticks::RawSticks;

/// Notes down in every frame, before anything is obeyed, what is plugged in.
pub(super) fn plugin(app: &mut App) {
    app.insert_resource(Held(Vec::<RawSticks>::new()));
    app.add_observer(as_it_is);
    app.add_systems(PreUpdate, listen.after(InputSystems));
}

/// Leaves a new device as it reports itself. bevy takes every stick for one that is in its middle until it moves, which a
/// throttle is not, and cuts a dead band out of it, which is the person's to choose.
fn as_it_is(new: On<Add, Gamepad>, mut gamepads: Query<(&mut Gamepad, &mut GamepadSettings)>) {
    let Ok((mut gamepad, mut settings)) = gamepads.get_mut(new.entity) else { return };
    for axis in GamepadAxis::all() {
        gamepad.analog_mut().remove(axis);
    }
    let settings = &mut settings.default_axis_settings;
    settings.set_deadzone_lowerbound(0.0);
    settings.set_deadzone_upperbound(0.0);
    settings.set_threshold(0.0);
}

fn listen(gamepads: Query<(&Name, &Gamepad)>, mut plugged: ResMut<Held<Vec<RawSticks>>>) {
    let mut now: Vec<RawSticks> = gamepads.iter().map(|(name, gamepad)| raw(gamepad, name)).collect();
    now.sort_by(|a, b| a.name.cmp(&b.name));
    // Whoever waits for a change is told only of one.
    if plugged.0 != now {
        plugged.0 = now;
    }
}

/// What a gamepad says.
fn raw(gamepad: &Gamepad, name: &str) -> RawSticks {
    let axis = |input: &GamepadInput| match input {
        GamepadInput::Axis(axis) => Some((axis_name(*axis), gamepad.get(*axis)?)),
        GamepadInput::Button(_) => None,
    };
    RawSticks {
        name: name.to_owned(),
        axes: gamepad.get_analog_axes().filter_map(axis).collect(),
        buttons: gamepad.get_pressed().map(|button| button_name(*button)).collect(),
    }
}

fn axis_name(axis: GamepadAxis) -> String {
    match axis {
        GamepadAxis::LeftStickX => "left stick x".into(),
        GamepadAxis::LeftStickY => "left stick y".into(),
        GamepadAxis::LeftZ => "left z".into(),
        GamepadAxis::RightStickX => "right stick x".into(),
        GamepadAxis::RightStickY => "right stick y".into(),
        GamepadAxis::RightZ => "right z".into(),
        GamepadAxis::Other(number) => format!("axis {number}"),
    }
}

/// "button south", "button left trigger", "button 5".
fn button_name(button: GamepadButton) -> String {
    let mut name = "button".to_owned();
    match button {
        GamepadButton::Other(number) => name.push_str(&format!(" {number}")),
        known => {
            for letter in format!("{known:?}").chars() {
                if letter.is_ascii_uppercase() || letter.is_ascii_digit() {
                    name.push(' ');
                }
                name.push(letter.to_ascii_lowercase());
            }
        }
    }
    name
}

#[cfg(test)]
mod tests {
    use bevy::input::InputPlugin;
    use bevy::input::gamepad::{
        GamepadConnection, GamepadConnectionEvent, RawGamepadAxisChangedEvent, RawGamepadButtonChangedEvent,
        RawGamepadEvent,
    };

    use super::*;
    use crate::app::session::sticks::{StickMap, StickMode, SwitchMap};
    use crate::rehearsal::Sticks;

    fn connect(app: &mut App, gamepad: Entity, name: &str) {
        let connection = GamepadConnection::Connected { name: name.into(), vendor_id: None, product_id: None };
        app.world_mut().write_message(GamepadConnectionEvent::new(gamepad, connection));
    }

    fn move_axis(app: &mut App, gamepad: Entity, axis: GamepadAxis, to: f32) {
        let moved = RawGamepadAxisChangedEvent::new(gamepad, axis, to);
        app.world_mut().write_message(RawGamepadEvent::Axis(moved));
    }

    fn press(app: &mut App, gamepad: Entity, button: GamepadButton, value: f32) {
        let pressed = RawGamepadButtonChangedEvent::new(gamepad, button, value);
        app.world_mut().write_message(RawGamepadEvent::Button(pressed));
    }

    fn plugged(app: &mut App) -> Vec<RawSticks> {
        app.update();
        app.world().resource::<Held<Vec<RawSticks>>>().0.clone()
    }

    #[test]
    fn what_a_gamepad_sends_comes_to_the_sticks() {
        let mut app = App::new();
        app.add_plugins((MinimalPlugins, InputPlugin, plugin));
        assert!(plugged(&mut app).is_empty());
        let [pad, second] = [(); 2].map(|()| app.world_mut().spawn_empty().id());
        connect(&mut app, pad, "pad");
        connect(&mut app, second, "a second");
        // In the same frame as the connection, and inside what bevy would take for the middle.
        move_axis(&mut app, pad, GamepadAxis::LeftStickY, -0.04);
        let found = plugged(&mut app);
        assert_eq!([&*found[0].name, &*found[1].name], ["a second", "pad"]);
        assert_eq!(found[1].axes, [("left stick y".to_owned(), -0.04)].into(), "nothing else has been heard of");

        move_axis(&mut app, pad, GamepadAxis::RightStickX, 0.5);
        move_axis(&mut app, pad, GamepadAxis::RightStickY, -1.0);
        move_axis(&mut app, pad, GamepadAxis::Other(6), 0.25);
        press(&mut app, pad, GamepadButton::LeftTrigger2, 1.0);
        press(&mut app, second, GamepadButton::Other(5), 1.0);
        let found = plugged(&mut app);
        assert_eq!(found[1].axes.get("axis 6"), Some(&0.25));
        assert_eq!(found[0].buttons, ["button 5".to_owned()].into());
        let switch = Some(SwitchMap::Button("button left trigger 2".into()));
        let map = StickMap { switch, springs: false, dead_band: 0.0, ..StickMap::by_mode(StickMode::Two) };
        let (sticks, on) = map.read(&found[1], 0.0, 0.1);
        assert!(on);
        assert_eq!((sticks.roll_share, sticks.pitch_share), (0.5, 1.0));
        assert!((sticks.throttle_share - 0.48).abs() < 1e-6, "{sticks:?}");

        press(&mut app, pad, GamepadButton::LeftTrigger2, 0.0);
        assert!(!map.read(&plugged(&mut app)[1], 0.0, 0.1).1);
        // Pulled out, and in again: as new.
        app.world_mut().write_message(GamepadConnectionEvent::new(pad, GamepadConnection::Disconnected));
        assert_eq!(plugged(&mut app).len(), 1);
        connect(&mut app, pad, "pad");
        let found = plugged(&mut app);
        assert_eq!(map.read(&found[1], 0.7, 0.1), (Sticks { throttle_share: 0.7, ..Sticks::default() }, false));
    }

    #[test]
    fn names_are_words() {
        assert_eq!(button_name(GamepadButton::DPadUp), "button d pad up");
        assert_eq!(button_name(GamepadButton::South), "button south");
        // The modes go by the names that sticks have here.
        let sticks =
            [GamepadAxis::LeftStickX, GamepadAxis::LeftStickY, GamepadAxis::RightStickX, GamepadAxis::RightStickY];
        let names = sticks.map(axis_name);
        for mode in StickMode::ALL {
            assert!(mode.axes().iter().all(|axis| names.iter().any(|name| name == axis)), "{mode:?}");
        }
    }
}
