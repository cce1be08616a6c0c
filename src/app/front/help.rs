//! The window with the explanation of a number. F1 explains whatever has the keyboard.

mod pages;

use bevy_egui::egui::{Align2, Button, Context, Id, Key, Modifiers, RichText, ScrollArea, Ui, Window, vec2};

use crate::app::widgets::help::focused;

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, FileCommand, FrontCommand, Page, Reply, View};
use crate::words::help::Topic;

/// F1 and Escape.
pub fn keys(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let front = &view.session.front;
    if front.ask.is_some() {
        if ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
            out.push(AppCommand::File(FileCommand::Reply(Reply::GoBack)));
        }
        return;
    }
    let open = view.session.help.is_some() || front.page.is_some();
    let pressed = |key| ctx.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if (open || front.settings) && pressed(Key::Escape) {
        out.push(AppCommand::Front(FrontCommand::Close));
    }
    if pressed(Key::F1) {
        out.push(match focused(ctx) {
            _ if open => AppCommand::Front(FrontCommand::Close),
            Some(topic) => AppCommand::Help(Some(topic)),
            None => page(Page::Keys),
        });
    }
}

const fn page(page: Page) -> AppCommand {
    AppCommand::Front(FrontCommand::Page(Some(page)))
}

/// Shows the explanation or the page that is open.
pub fn show(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let front = &view.session.front;
    let title = match (view.session.help, front.page) {
        (Some(topic), _) => topic.help().title,
        (None, Some(page)) => pages::title(page),
        (None, None) => return,
    };
    let screen = ctx.viewport_rect();
    let width = if view.session.help.is_some() { 520.0 } else { 720.0 };
    let window = Window::new(title).title_bar(false).collapsible(false).resizable(false).pivot(Align2::CENTER_CENTER);
    // A page is larger than an explanation, so each kind has a place of its own.
    let window = window.id(Id::new(("help", view.session.help.is_some()))).default_pos(screen.center());
    window.constrain_to(screen.shrink(8.0)).show(ctx, |ui| {
        ui.set_width(width);
        ui.label(RichText::new(title).family(bold()).size(20.0));
        ui.add_space(4.0);
        // The rest is the title, the two rows of buttons and the frame.
        let room = screen.height() - 210.0;
        ScrollArea::vertical().max_height(room).auto_shrink([false, true]).show(ui, |ui| {
            match (view.session.help, front.page) {
                (Some(topic), _) => explain(ui, view, topic, out),
                (None, Some(page)) => pages::show(ui, view, page, out),
                (None, None) => {}
            }
        });
        ui.separator();
        foot(ui, view, out);
    });
}

fn explain(ui: &mut Ui, view: &View<'_>, topic: Topic, out: &mut Vec<AppCommand>) {
    let help = topic.help();
    ui.label(help.what);
    for (head, text) in [("How it is found", help.how), ("What is not in it", help.not_modelled)] {
        if text.is_empty() {
            continue;
        }
        ui.add_space(6.0);
        ui.label(RichText::new(head).family(bold()).color(view.palette.soft));
        ui.label(text);
    }
    ui.add_space(8.0);
    ui.label(RichText::new("See also").family(bold()).color(view.palette.soft));
    ui.horizontal_wrapped(|ui| {
        for near in neighbours(topic) {
            if ui.add(Button::new(near.help().title).min_size(vec2(0.0, TARGET))).clicked() {
                out.push(AppCommand::Help(Some(near)));
            }
        }
    });
}

/// Topics that a topic speaks of, and those beside it in the list.
fn neighbours(topic: Topic) -> Vec<Topic> {
    let help = topic.help();
    let text = [help.what, help.how, help.not_modelled].join(" ").to_lowercase();
    let spoken = |other: &&Topic| **other != topic && text.contains(&other.help().title.to_lowercase());
    let mut near: Vec<Topic> = Topic::ALL.iter().filter(spoken).copied().collect();
    let at = Topic::ALL.iter().position(|other| *other == topic).unwrap_or_default();
    for beside in [at.checked_sub(1), Some(at + 1), at.checked_sub(2), Some(at + 2)].into_iter().flatten() {
        let beside = Topic::ALL.get(beside).copied();
        near.extend(beside.filter(|beside| !near.contains(beside)));
    }
    near.truncate(5);
    near
}

/// The other pages, the tour, and the way out.
fn foot(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal_wrapped(|ui| {
        let mut press = |text: &str, chosen: bool, command: AppCommand| {
            if ui.add(Button::new(text).selected(chosen).min_size(vec2(0.0, TARGET))).clicked() {
                out.push(command);
            }
        };
        let open = view.session.front.page;
        for other in [Page::Topics, Page::Words, Page::Keys, Page::Cautions] {
            press(pages::title(other), open == Some(other), page(other));
        }
        press(
            "What the model leaves out",
            view.session.help == Some(Topic::Model),
            AppCommand::Help(Some(Topic::Model)),
        );
        if view.session.front.tour.is_none() {
            press("Tour", false, AppCommand::File(FileCommand::Tour));
        }
        press("Close", false, AppCommand::Front(FrontCommand::Close));
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_topic_has_neighbours_and_is_none_of_them() {
        for &topic in Topic::ALL {
            let near = neighbours(topic);
            assert!((2..=5).contains(&near.len()) && !near.contains(&topic), "{topic:?}: {near:?}");
        }
    }
}
