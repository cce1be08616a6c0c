//! The user's own picture under the grid: how it is opened, and where it lies.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use bevy_egui::egui::ColorImage;
use glam::DVec2;
use image::{DynamicImage, ImageDecoder as _, ImageReader};

use crate::error::Fault;
use crate::geometry::{Placement, TangentPlane};

/// Longest side that is kept, pixels.
const LONGEST: u32 = 4096;
/// Width on the ground of a picture that nobody has placed yet, metres.
const FIRST_WIDTH: f64 = 500.0;
/// Endings of the world files of pictures.
const WORLD_FILES: [&str; 6] = ["pgw", "jgw", "wld", "pngw", "jpgw", "tfw"];

/// A picture of the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundPicture {
    /// The file.
    pub path: PathBuf,
    /// What is drawn of it; smaller than the file where that is very large.
    pub image: Arc<ColorImage>,
    /// Width and height of the file, pixels.
    pub size: [u32; 2],
    /// Name and text of the world file beside it, where there is one.
    pub world: Option<(String, String)>,
    /// Where its pixels, those of the file, lie.
    pub placement: Placement,
    /// Whether that is known, by two points or a world file.
    pub placed: bool,
    /// How strongly it is drawn, from 0.5 to 1.
    pub strength: f32,
    /// How it was placed, in words.
    pub said: String,
}

/// A known point of the picture: the pixel, and where that is on the ground once somebody has said so, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pin {
    /// The pixel.
    pub pixel: DVec2,
    /// The place.
    pub ground: Option<DVec2>,
}

/// What is asked of the picture.
#[derive(Debug, Clone, PartialEq)]
pub enum PictureCommand {
    /// Lays a picture under the grid.
    Lay(Box<GroundPicture>),
    /// Draws it this strongly, from 0.5 to 1.
    Strength(f32),
    /// Lets go of the known points, to name them again.
    Again,
    /// Takes the picture away.
    Remove,
}

/// Opens a picture, with the world file beside it where there is one. Where it lies is found when it is laid.
///
/// # Errors
/// What is wrong with it, and the way out.
pub fn open_picture(path: &Path) -> Result<GroundPicture, Vec<Fault>> {
    let refused = |problem: String| {
        let way_out = "Save the picture as PNG or JPEG and open that";
        vec![Fault::error("", format!("{} can't be shown: {problem}", path.display()), way_out)]
    };
    let (image, size) = decode(path).map_err(|error| refused(error.to_string()))?;
    if size.contains(&0) {
        return Err(refused("it has no pixels".into()));
    }
    let [width, height] = size.map(f64::from);
    let scale = FIRST_WIDTH / width;
    let [left, top] = [-width / 2.0 * scale, height / 2.0 * scale];
    Ok(GroundPicture {
        path: path.into(),
        image: Arc::new(image),
        size,
        world: world_file(path),
        placement: Placement { east: [scale, 0.0, left], north: [0.0, -scale, top] },
        placed: false,
        strength: 0.8,
        said: "not placed yet: name two points of it".into(),
    })
}

fn decode(path: &Path) -> image::ImageResult<(ColorImage, [u32; 2])> {
    let mut decoder = ImageReader::open(path)?.with_guessed_format()?.into_decoder()?;
    // A photograph may lie on its side and say so.
    let orientation = decoder.orientation()?;
    let mut image = DynamicImage::from_decoder(decoder)?;
    image.apply_orientation(orientation);
    let size = [image.width(), image.height()];
    if image.width().max(image.height()) > LONGEST {
        image = image.thumbnail(LONGEST, LONGEST);
    }
    let pixels = image.to_rgba8();
    let shape = [pixels.width() as usize, pixels.height() as usize];
    Ok((ColorImage::from_rgba_unmultiplied(shape, pixels.as_raw()), size))
}

/// The world file of a picture, by any of its usual endings: its name and its text.
fn world_file(path: &Path) -> Option<(String, String)> {
    WORLD_FILES.iter().find_map(|ending| {
        let file = path.with_extension(ending);
        let text = std::fs::read_to_string(&file).ok()?;
        Some((file.file_name()?.to_string_lossy().into_owned(), text))
    })
}

impl GroundPicture {
    /// Its corners on the ground, from the upper left one clockwise, metres.
    pub fn corners(&self) -> [DVec2; 4] {
        let [width, height] = self.size.map(f64::from);
        let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        corners.map(|(x, y)| self.placement.ground(DVec2::new(x, y)))
    }

    /// Its name without the folder.
    pub fn name(&self) -> String {
        self.path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
    }

    /// How far it is turned from north up, degrees clockwise, between -180 and 180.
    pub fn turn_deg(&self) -> f64 {
        let Placement { east, north } = &self.placement;
        0.0 - north[0].atan2(east[0]).to_degrees()
    }

    /// Places it by the world file beside it, on the plane of a field.
    pub(super) fn place_by_file(&mut self, plane: TangentPlane) {
        let Some((file, text)) = &self.world else { return };
        match Placement::from_world_file(text, self.size, plane) {
            Ok((placement, warnings)) => {
                self.placement = placement;
                let middle = placement.ground(DVec2::from_array(self.size.map(f64::from)) / 2.0);
                // Laid on the datum for want of a better place: scale and turn are known, where it lies is not.
                self.placed = warnings.is_empty() || middle.length() > 1e-3;
                let words = warnings.iter().map(|fault| format!(": {}", fault.problem)).collect::<String>();
                self.said = format!("placed by {file}{words}");
            }
            Err(faults) => {
                let why = faults.first().map(|fault| fault.problem.clone()).unwrap_or_default();
                self.said = format!("{file} is of no use: {why}. Name two points");
            }
        }
    }

    /// Places it by two known points; false where that can't be.
    pub(super) fn place(&mut self, [a, b]: [(DVec2, DVec2); 2]) -> bool {
        match Placement::from_two_points([a.0, b.0], [a.1, b.1]) {
            Ok(placement) => {
                (self.placement, self.placed) = (placement, true);
                self.said = "placed by two points".into();
                true
            }
            Err(fault) => {
                self.said = format!("{}. {}", fault.problem, fault.way_out);
                false
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(name: &str, size: [u32; 2], world: Option<(&str, &str)>) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join(name);
        image::RgbImage::from_fn(size[0], size[1], |x, _| image::Rgb([x as u8, 90, 40])).save(&path).unwrap();
        if let Some((name, text)) = world {
            std::fs::write(folder.path().join(name), text).unwrap();
        }
        (folder, path)
    }

    fn laid(path: &Path) -> GroundPicture {
        let mut picture = open_picture(path).unwrap();
        picture.place_by_file(TangentPlane::new(44.0, -30.0));
        picture
    }

    #[test]
    fn pictures_are_opened_and_world_files_beside_them_read() {
        for (name, world) in [("plan.png", "plan.pgw"), ("plan.jpg", "plan.jgw"), ("plan.jpeg", "plan.wld")] {
            let (_folder, path) = drawn(name, [80, 40], None);
            let picture = laid(&path);
            assert!(!picture.placed && picture.size == [80, 40] && picture.image.size == [80, 40]);
            let [a, b, ..] = picture.corners();
            assert!((a.distance(b) - FIRST_WIDTH).abs() < 1e-6);
            let (_folder, path) = drawn(name, [80, 40], Some((world, "2\n0\n0\n-2\n-80\n40\n")));
            let picture = laid(&path);
            assert!(picture.placed && picture.said.contains(world), "{}", picture.said);
            assert_eq!(picture.corners()[0], DVec2::new(-81.0, 41.0));
            assert_eq!(picture.turn_deg(), 0.0);
        }
    }

    #[test]
    fn a_world_file_that_does_not_fit_is_named_and_left() {
        for text in ["1\n0\n0", "1\n0\n0\n-1\n412000\n5400000"] {
            let (_folder, path) = drawn("plan.png", [8, 4], Some(("plan.pgw", text)));
            let picture = laid(&path);
            assert!(!picture.placed && picture.said.contains("plan.pgw"), "{}", picture.said);
        }
    }

    #[test]
    fn large_pictures_are_kept_smaller() {
        let (_folder, path) = drawn("wide.png", [6000, 30], None);
        let picture = open_picture(&path).unwrap();
        assert_eq!((picture.size, picture.image.size[0]), ([6000, 30], 4096));
    }

    #[test]
    fn what_is_no_picture_is_refused_with_a_way_out() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("notes.png");
        std::fs::write(&path, "not a picture").unwrap();
        for path in [path, folder.path().join("nowhere.png")] {
            let faults = open_picture(&path).unwrap_err();
            assert!(faults.len() == 1 && faults[0].way_out.contains("PNG"));
        }
    }
}
