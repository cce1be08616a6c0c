//! Pictures of every sheet, to be looked at.

use peewit::app::{Sheet, Theme};

use super::open;
use crate::pictures::{check_not_blank, draw};

#[test]
fn every_sheet_is_drawn_small_and_large_light_and_dark() {
    for sheet in Sheet::ALL {
        let name = sheet.name().to_lowercase();
        for (size, theme) in [([1366, 768], Theme::Light), ([1920, 1080], Theme::Dark), ([1366, 2600], Theme::Light)] {
            let file = format!("sheet-{name}-{}-{theme:?}.png", size[1]).to_lowercase();
            let Some(png) = draw(open(sheet), size, theme, &file) else { return };
            check_not_blank(&png, size);
        }
    }
}
