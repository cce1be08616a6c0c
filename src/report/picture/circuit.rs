//! Where the jet is flown, on paper: the line with heads of arrows for the way round, or the edge of the area.

use glam::DVec2;

use crate::draw::{Fill, Ink, Lettering, MapFrame, Path, Pen, Sheet, Taken, arrow_head, width_mm};
use crate::field::{Circuit, Field, Way, Where};

/// The line flown.
pub(in crate::report) const LINE: Pen = Pen::plain(Ink::PURPLE, 0.5).dashed(&[4.0, 0.9, 0.6, 0.9, 0.6, 0.9]);
/// Size of its name, mm.
const NAME: f64 = 3.3;
/// How many heads of arrows it has, and about how many places its name is tried at.
const HEADS: u32 = 6;
/// Over how much of the line an arrow points, metres.
const CHORD_M: f64 = 10.0;

pub(super) fn draw(sheet: &mut Sheet, map: &MapFrame, circuit: &Circuit) {
    match &circuit.place {
        Where::Area(area) => sheet.shape(map.rings(area), Some(LINE), Fill::None, "circuit"),
        Where::Line(line) => {
            let ring = map.all(&line.corners).collect();
            sheet.shape(Path::Rings(vec![ring]), Some(LINE), Fill::None, "circuit");
            for index in 0..HEADS {
                let along = line.length_m() * (f64::from(index) + 0.5) / f64::from(HEADS);
                let against = match circuit.way {
                    Way::Drawn => false,
                    Way::Reversed => true,
                    // Every other one points the other way.
                    Way::Both => index % 2 == 1,
                };
                let course = line.course(along, CHORD_M) * if against { -1.0 } else { 1.0 };
                let ahead = DVec2::new(course.x, -course.y);
                arrow_head(sheet, map.at(line.place(along)), ahead, [1.7, 1.1, 1.2], (Ink::PURPLE, 0.3));
            }
        }
    }
}

/// Names it where there is room; says whether there was, or nothing to name.
pub(super) fn name(sheet: &mut Sheet, map: &MapFrame, field: &Field, taken: &mut Taken) -> bool {
    let Some(circuit) = &field.circuit else { return true };
    let line = match &circuit.place {
        Where::Line(line) => line.clone(),
        Where::Area(area) => crate::field::Loop::new(area.rings().first().map_or(&[], Vec::as_slice)),
    };
    let words = Lettering::new(NAME).rimmed();
    let aside = width_mm("circuit", NAME, false) / 2.0 + 1.5;
    let places = (0..2 * HEADS).flat_map(|index| {
        let at = map.at(line.place(line.length_m() * f64::from(index) / f64::from(2 * HEADS)));
        [(0.0, -2.5), (0.0, 4.5), (aside, 1.0), (-aside, 1.0)].map(|(x, y)| at + DVec2::new(x, y))
    });
    taken.letter(sheet, map.frame, "circuit", words, places)
}
