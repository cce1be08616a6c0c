//! How panels look: lettering, sizes and the style of everything to press.

use bevy_egui::egui::epaint::FontColorTransferFunction;
use bevy_egui::egui::{
    self, Button, Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, RichText, Stroke,
    TextStyle, Ui, Visuals, vec2,
};

pub use super::palette::{Palette, Pen, Theme};

/// Family of the bold weight.
pub fn bold() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// Size of running text, points: readable at 1366 x 768 at arm's length.
pub const TEXT: f32 = 15.0;
/// How pale an answer of another plan is drawn.
pub const PALE: f32 = 0.6;
/// Least height of anything to press, points.
pub const TARGET: f32 = 32.0;

/// Room between groups of things, points; within a group they stand as near as the style has them.
pub const GAP: f32 = 12.0;

/// Smallest and largest scale of everything on the screen.
pub const SCALES: [f32; 6] = [0.9, 1.0, 1.15, 1.3, 1.5, 1.75];

/// The smallest window in which nothing is cut off, points.
pub const LEAST: (f32, f32) = (1180.0, 660.0);

/// The largest of the [`SCALES`] at which nothing is cut off in a window of this size.
pub fn most_scale(ctx: &egui::Context) -> f32 {
    let room = ctx.viewport_rect().size() * ctx.zoom_factor();
    let most = (room.x / LEAST.0).min(room.y / LEAST.1);
    SCALES.into_iter().rev().find(|scale| *scale <= most).unwrap_or(SCALES[0].min(1.0))
}

/// Draws everything as large as was chosen, as far as the window has room for it.
pub fn scale(ctx: &egui::Context, wanted: f32) {
    ctx.set_zoom_factor(wanted.min(most_scale(ctx).max(SCALES[0])));
}

/// Whether egui has the lettering; where it has not it is handed over, and there from the next pass on.
pub fn fonts_ready(ctx: &egui::Context) -> bool {
    if ctx.fonts(|fonts| fonts.families().contains(&bold())) {
        return true;
    }
    let regular: &[u8] = include_bytes!("../../../assets/fonts/AtkinsonHyperlegible-Regular.ttf");
    let heavy: &[u8] = include_bytes!("../../../assets/fonts/AtkinsonHyperlegible-Bold.ttf");
    let mut fonts = FontDefinitions::default();
    fonts.font_data.insert("regular".into(), FontData::from_static(regular).into());
    fonts.font_data.insert("heavy".into(), FontData::from_static(heavy).into());
    // The fonts that ship with egui stay behind ours, for signs that ours lack.
    let spare = fonts.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    for (family, name) in [(FontFamily::Proportional, "regular"), (bold(), "heavy")] {
        let names = std::iter::once(name.to_owned()).chain(spare.iter().cloned());
        fonts.families.insert(family, names.collect());
    }
    ctx.set_fonts(fonts);
    ctx.request_repaint();
    false
}

/// Makes the panels look like the theme.
pub fn apply(ctx: &egui::Context, theme: Theme) {
    let palette = theme.palette();
    // The keys for that are ours: the choice is kept.
    ctx.options_mut(|options| options.zoom_with_keyboard = false);
    ctx.set_theme(if palette.dark { egui::Theme::Dark } else { egui::Theme::Light });
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Small, FontId::proportional(14.0)),
            (TextStyle::Body, FontId::proportional(TEXT)),
            (TextStyle::Button, FontId::proportional(TEXT)),
            (TextStyle::Monospace, FontId::monospace(14.0)),
            (TextStyle::Heading, FontId::new(17.0, bold())),
        ]
        .into();
        style.animation_time = 0.0;
        style.interaction.selectable_labels = false;
        let space = &mut style.spacing;
        space.interact_size = vec2(40.0, TARGET);
        space.item_spacing = vec2(6.0, 4.0);
        space.button_padding = vec2(10.0, 4.0);
        space.window_margin = Margin::same(10);
        space.slider_rail_height = 6.0;
        // What can be scrolled shows it without being pointed at.
        space.scroll.dormant_handle_opacity = 0.6;
        space.scroll.floating_width = 4.0;
        style.visuals = visuals(palette);
    });
}

/// What is pressed before anything else where it stands: the one accent.
pub fn primary(words: &str, palette: &Palette) -> Button<'static> {
    let text = RichText::new(words).family(bold()).color(palette.ink);
    Button::new(text).fill(palette.chosen).stroke(Stroke::new(1.0, palette.focus))
}

/// Takes the box from whatever is pressed on a board until the pointer or the keyboard is on it.
pub fn unboxed(ui: &mut Ui) {
    let visuals = ui.visuals_mut();
    visuals.extreme_bg_color = visuals.widgets.inactive.bg_fill;
    let inactive = &mut visuals.widgets.inactive;
    inactive.weak_bg_fill = Color32::TRANSPARENT;
    inactive.bg_stroke = Stroke::NONE;
    visuals.widgets.hovered.bg_stroke = Stroke::new(1.0, visuals.widgets.hovered.bg_stroke.color);
}

/// Gives the box back to what is typed in, ticked or read as a list of things to choose.
pub fn boxed(ui: &mut Ui) {
    let style = ui.ctx().global_style();
    ui.visuals_mut().widgets = style.visuals.widgets.clone();
}

fn visuals(palette: &Palette) -> Visuals {
    let mut visuals = if palette.dark { Visuals::dark() } else { Visuals::light() };
    visuals.override_text_color = None;
    visuals.panel_fill = palette.paper;
    visuals.window_fill = palette.paper;
    visuals.extreme_bg_color = palette.paper;
    visuals.faint_bg_color = palette.stripe;
    visuals.weak_text_color = Some(palette.soft);
    visuals.selection.bg_fill = palette.chosen;
    visuals.selection.stroke = Stroke::new(1.5, palette.ink);
    visuals.slider_trailing_fill = true;
    // Letters as heavy as their shapes allow, and set by their own widths.
    visuals.text_options.color_transfer_function = FontColorTransferFunction::Gamma(0.6);
    visuals.text_options.font_hinting = false;
    let widgets = &mut visuals.widgets;
    for (widget, frame) in [
        (&mut widgets.noninteractive, Stroke::new(1.0, palette.rule)),
        (&mut widgets.inactive, Stroke::new(1.0, palette.rule)),
        (&mut widgets.hovered, Stroke::new(2.0, palette.ink)),
        (&mut widgets.active, Stroke::new(2.5, palette.focus)),
        (&mut widgets.open, Stroke::new(2.0, palette.ink)),
    ] {
        widget.bg_fill = palette.button;
        widget.weak_bg_fill = palette.button;
        widget.bg_stroke = frame;
        widget.fg_stroke = Stroke::new(1.5, palette.ink);
        widget.corner_radius = CornerRadius::same(4);
        widget.expansion = 0.0;
    }
    visuals
}
