//! A number with its spread and where it came from: three kinds of frame, so that a number not measured yet never looks
//! like a measured one.

use bevy_egui::egui::{Align, Frame, Layout, Margin, Pos2, Rect, RichText, Sense, Shape, Stroke, StrokeKind, Ui, vec2};

use super::{Entry, EntryKind, choice, name};
use crate::app::look::theme::{Palette, bold};
use crate::app::session::{AppCommand, View};
use crate::jet::{Entry as Sheeted, Origin, PlainEntry};
use crate::units::Quantity;
use crate::words::help::Topic;

/// Value and spread in SI, and their origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number {
    /// The value.
    pub value: f64,
    /// One standard deviation.
    pub spread: f64,
    /// Where it came from.
    pub origin: Origin,
}

/// What holds such a number.
pub trait Numbered {
    /// The number.
    fn number(&self) -> Number;
    /// Puts another in its place.
    fn take(&mut self, number: Number);
}

impl<Q: Quantity> Numbered for Sheeted<Q> {
    fn number(&self) -> Number {
        Number { value: self.value.si(), spread: self.spread.si(), origin: self.origin }
    }

    fn take(&mut self, number: Number) {
        *self = Self::si(number.value, number.spread, number.origin);
    }
}

impl Numbered for PlainEntry {
    fn number(&self) -> Number {
        Number { value: self.value, spread: self.spread, origin: self.origin }
    }

    fn take(&mut self, Number { value, spread, origin }: Number) {
        *self = Self { value, spread, origin };
    }
}

/// What such a number is called and where it stands.
#[derive(Debug, Clone, Copy)]
pub struct About<'a> {
    /// Its name.
    pub name: &'a str,
    /// What it measures.
    pub kind: EntryKind,
    /// Its place in the scenario's file, as a JSON pointer.
    pub place: &'a str,
    /// What explains it.
    pub topic: Option<Topic>,
}

const ORIGINS: [(Origin, &str); 3] =
    [(Origin::Measured, "measured"), (Origin::Estimated, "estimated"), (Origin::Default, "default")];

/// Shows a number and returns another one when it was entered. A value typed in place of one not measured yet is an
/// estimate until somebody says that it was measured.
pub fn number(
    ui: &mut Ui,
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    about: &About<'_>,
    now: Number,
) -> Option<Number> {
    let places = [format!("{}/value", about.place), format!("{}/spread", about.place)];
    let spread_name = format!("spread of {}", about.name);
    let mut new = now;
    let frame = Frame::new().inner_margin(Margin { left: 9, right: 7, top: 4, bottom: 5 });
    let inner = frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.horizontal(|ui| {
            if about.topic.is_none() {
                ui.spacing_mut().interact_size.y = 20.0;
            }
            let (mark, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
            ui.painter().extend(sign(now.origin, mark, view.palette));
            ui.scope(|ui| name(ui, about.name, about.topic, out));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if now.origin == Origin::Default {
                    ui.label(RichText::new("not measured yet").size(14.0).italics());
                }
                ui.label(RichText::new(about.kind.second(view.units(), now.value)).color(view.palette.soft));
            });
        });
        let cells = ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 5.0;
            let value = Entry::new(about.name, about.kind, now.value, &places[0]).wide(90.0).cell(ui, view, out);
            ui.label("\u{b1}");
            let spread = Entry::new(&spread_name, about.kind, now.spread, &places[1]).wide(108.0).cell(ui, view, out);
            if let Some(origin) = choice::plain(ui, out, &format!("origin of {}", about.name), now.origin, &ORIGINS) {
                new.origin = origin;
            }
            (value.found(), spread.found(), value, spread)
        });
        let (value, spread, value_cell, spread_cell) = cells.inner;
        if let Some(value) = value {
            new.value = value;
            new.origin = if now.origin == Origin::Default { Origin::Estimated } else { now.origin };
        }
        new.spread = spread.unwrap_or(new.spread);
        value_cell.below(ui, view);
        spread_cell.below(ui, view);
    });
    let edge = inner.response.rect.shrink(1.5);
    ui.painter().extend(boundary(now.origin, edge, view.palette));
    (new != now).then_some(new)
}

/// The frame round a number: dashed where it is not measured yet, thin where it is estimated, heavy where it is
/// measured.
fn boundary(origin: Origin, edge: Rect, palette: &Palette) -> Vec<Shape> {
    match origin {
        Origin::Measured => {
            vec![Shape::rect_stroke(edge, 4.0, Stroke::new(2.5, palette.ink), StrokeKind::Middle)]
        }
        Origin::Estimated => {
            vec![Shape::rect_stroke(edge, 4.0, Stroke::new(1.0, palette.soft), StrokeKind::Middle)]
        }
        Origin::Default => {
            let corners = [edge.left_top(), edge.right_top(), edge.right_bottom(), edge.left_bottom(), edge.left_top()];
            Shape::dashed_line(&corners, Stroke::new(2.0, palette.hatch[2]), 7.0, 5.0)
        }
    }
}

/// The sign before its name: a tick, a wave, or an empty dashed square.
fn sign(origin: Origin, room: Rect, palette: &Palette) -> Vec<Shape> {
    let at = |x: f32, y: f32| -> Pos2 { room.left_top() + vec2(x, y) * room.size() };
    match origin {
        Origin::Measured => {
            let tick = vec![at(0.08, 0.55), at(0.38, 0.85), at(0.95, 0.15)];
            vec![Shape::line(tick, Stroke::new(3.0, palette.ink))]
        }
        Origin::Estimated => [0.38_f32, 0.68]
            .into_iter()
            .map(|height| {
                let wave = (0..=12u8).map(|step| {
                    let along = f32::from(step) / 12.0;
                    at(along, height + 0.1 * (along * std::f32::consts::TAU).sin())
                });
                Shape::line(wave.collect(), Stroke::new(2.0, palette.ink))
            })
            .collect(),
        Origin::Default => {
            let corners = [at(0.1, 0.1), at(0.9, 0.1), at(0.9, 0.9), at(0.1, 0.9), at(0.1, 0.1)];
            Shape::dashed_line(&corners, Stroke::new(2.0, palette.ink), 4.0, 3.0)
        }
    }
}

/// What the three frames mean, in a line.
pub fn key(ui: &mut Ui, view: &View<'_>) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().interact_size.y = 22.0;
        for (origin, word) in ORIGINS {
            let (mark, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
            ui.painter().extend(sign(origin, mark, view.palette));
            ui.label(RichText::new(word).family(bold()));
            ui.add_space(6.0);
        }
    });
}
