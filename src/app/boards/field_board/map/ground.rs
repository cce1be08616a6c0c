//! The field as the draft has it, painted by egui: what is seen is what is written, whether it can be flown or not.

use std::sync::Arc;

use bevy_egui::egui::{self, Color32, Context, Id, Painter};
use glam::DVec2;

use crate::app::look::lens::Lens;
use crate::app::map::{ground, places};
use crate::app::session::View;
use crate::app::session::field_board::{Part, as_drawn};
use crate::field::{Field, FieldFile};
use crate::geometry::Region;

/// A field with its triangles, kept until something of it changes.
#[derive(Debug)]
pub(super) struct DrawnField {
    key: (FieldFile, String, Lens, bool, bool),
    /// The field.
    pub(super) field: Field,
    /// Where the name of each ring stands.
    pub(super) anchors: Vec<(Part, DVec2)>,
    mesh: Arc<egui::Mesh>,
}

/// Paints it.
pub(super) fn draw(painter: &Painter, lens: &Lens, view: &View<'_>) {
    if let Some(drawn) = drawn(painter.ctx(), lens, view) {
        painter.add(egui::Shape::Mesh(Arc::clone(&drawn.mesh)));
    }
}

/// The field of the draft as it is drawn now.
pub(super) fn drawn(ctx: &Context, lens: &Lens, view: &View<'_>) -> Option<Arc<DrawnField>> {
    let id = Id::new("field of the draft");
    let file = view.session.draft.file();
    let over_picture = view.session.field_board.picture.is_some();
    let fits = |drawn: &Arc<DrawnField>| {
        let (field, date, seen, dark, over) = &drawn.key;
        Some(field) == file.field.as_ref()
            && *date == file.date
            && seen == lens
            && (*dark, *over) == (view.palette.dark, over_picture)
    };
    if let Some(known) = ctx.data(|data| data.get_temp::<Arc<DrawnField>>(id)).filter(fits) {
        return Some(known);
    }
    let palette = view.palette;
    let field = as_drawn(file)?;
    let see_through = |colour: Color32| match colour {
        colour if !over_picture => colour,
        colour if colour == palette.inside => Color32::TRANSPARENT,
        colour if palette.tint.contains(&colour) => colour.gamma_multiply(0.45),
        colour => colour,
    };
    let mesh = Arc::new(ground::draw(&field, palette, lens.metres_a_point).painted(lens, see_through));
    let key = (file.field.clone()?, file.date.clone(), *lens, palette.dark, over_picture);
    let drawn = Arc::new(DrawnField { key, anchors: anchors(&field), field, mesh });
    ctx.data_mut(|data| data.insert_temp(id, Arc::clone(&drawn)));
    Some(drawn)
}

fn anchors(field: &Field) -> Vec<(Part, DVec2)> {
    let mut anchors = Vec::new();
    let mut add = |part: Part, region: &Region| {
        if !region.edges().is_empty() {
            anchors.push((part, places::deepest(region)));
        }
    };
    let hole = |region: &Region, hole: usize| region.rings().get(hole + 1).map(|ring| Region::new(ring, &[]));
    for index in 0..field.boundary.rings().len().saturating_sub(1) {
        if let Some(region) = hole(&field.boundary, index) {
            add(Part::BoundaryHole(index), &region);
        }
    }
    for (index, area) in field.areas.iter().enumerate() {
        add(Part::Area(index), &area.region);
        for number in 0..area.region.rings().len().saturating_sub(1) {
            if let Some(region) = hole(&area.region, number) {
                add(Part::AreaHole(index, number), &region);
            }
        }
    }
    for (index, tall) in field.obstacles.iter().enumerate() {
        add(Part::Obstacle(index), &tall.region);
    }
    anchors
}
