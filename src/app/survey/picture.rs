//! The user's own picture under the grid: how it is opened, and what it rests on.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use bevy_egui::egui::ColorImage;
use glam::DVec2;
use image::{DynamicImage, ImageDecoder as _, ImageReader};

use super::Placement;
use crate::error::Fault;

/// Longest side that is kept, pixels.
const LONGEST: u32 = 4096;
/// Width on the ground of a picture that nobody has placed yet, metres.
const FIRST_WIDTH: f64 = 500.0;
/// Furthest that a world file may put a picture from the datum, metres.
const FURTHEST: f64 = 20_000.0;

/// A picture of the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundPicture {
    /// The file.
    pub path: PathBuf,
    /// What is drawn of it; smaller than the file where that is very large.
    pub image: Arc<ColorImage>,
    /// Width and height of the file, pixels.
    pub size: [u32; 2],
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
    PutAway,
}

/// Opens a picture, and reads the world file beside it where there is one.
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
    let first = Placement::middle(DVec2::new(width, height), FIRST_WIDTH / width, DVec2::ZERO);
    let mut picture = GroundPicture {
        path: path.into(),
        image: Arc::new(image),
        size,
        placement: first,
        placed: false,
        strength: 0.8,
        said: "not placed yet: name two points of it".into(),
    };
    if let Some((file, text)) = world_file(path) {
        picture.said = match Placement::from_world_file(&text) {
            Some(placement) if reach(&placement, size) <= FURTHEST => {
                (picture.placement, picture.placed) = (placement, true);
                format!("placed by {file}")
            }
            Some(_) => format!("{file} counts from elsewhere than the datum: name two points"),
            None => format!("{file} has not the six numbers of a world file: name two points"),
        };
    }
    Ok(picture)
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
    ["pgw", "jgw", "tfw", "wld", "pngw", "jpgw"].iter().find_map(|ending| {
        let file = path.with_extension(ending);
        let text = std::fs::read_to_string(&file).ok()?;
        Some((file.file_name()?.to_string_lossy().into_owned(), text))
    })
}

/// How far from the datum the furthest corner lies, metres.
fn reach(placement: &Placement, size: [u32; 2]) -> f64 {
    let [width, height] = size.map(f64::from);
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    corners.iter().map(|&(x, y)| placement.ground(DVec2::new(x, y)).length()).fold(0.0, f64::max)
}

impl GroundPicture {
    /// Its corners on the ground, from the upper left one clockwise, metres.
    pub fn corners(&self) -> [DVec2; 4] {
        let [width, height] = self.size.map(f64::from);
        // A pixel reaches half a pixel to every side of its middle.
        let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        corners.map(|(x, y)| self.placement.ground(DVec2::new(x, y) - DVec2::splat(0.5)))
    }

    /// Its name without the folder.
    pub fn name(&self) -> String {
        self.path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
    }

    /// Places it by two known points; false where they are the same.
    pub(super) fn place(&mut self, [a, b]: [(DVec2, DVec2); 2]) -> bool {
        let Some(placement) = Placement::from_two_points(a.0, b.0, a.1, b.1) else {
            self.said = "the two points are one and the same: name others".into();
            return false;
        };
        (self.placement, self.placed) = (placement, true);
        self.said = "placed by two points".into();
        true
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

    #[test]
    fn pictures_are_opened_and_world_files_beside_them_read() {
        for (name, world) in [("plan.png", "plan.pgw"), ("plan.jpg", "plan.jgw"), ("plan.jpeg", "plan.wld")] {
            let (_folder, path) = drawn(name, [80, 40], None);
            let picture = open_picture(&path).unwrap();
            assert!(!picture.placed && picture.size == [80, 40] && picture.image.size == [80, 40]);
            let [a, b, ..] = picture.corners();
            assert!((a.distance(b) - FIRST_WIDTH).abs() < 1e-6);
            let (_folder, path) = drawn(name, [80, 40], Some((world, "2\n0\n0\n-2\n-80\n40\n")));
            let picture = open_picture(&path).unwrap();
            assert!(picture.placed && picture.said.contains(world), "{}", picture.said);
            assert_eq!(picture.corners()[0], DVec2::new(-81.0, 41.0));
        }
    }

    #[test]
    fn a_world_file_that_does_not_fit_is_named_and_left() {
        for text in ["1 0 0", "1 0 0 -1 412000 5400000"] {
            let (_folder, path) = drawn("plan.png", [8, 4], Some(("plan.pgw", text)));
            let picture = open_picture(&path).unwrap();
            assert!(!picture.placed && picture.said.starts_with("plan.pgw"), "{}", picture.said);
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
