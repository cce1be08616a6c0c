//! A picture's placement by the world file beside it.
//!
//! Six lines A D B E C F of the convention that came with the geographic information systems of Esri ("World files for
//! raster datasets", its documentation; common practice since): `x = A column + B row + C`, `y = D column + E row + F`,
//! where column and row count from 0 and C, F is the middle of the upper left pixel. The file does not name its unit.

use glam::DVec2;

use super::Placement;
use crate::error::Fault;
use crate::geometry::TangentPlane;

/// A picture of a field is less than this in degrees, and more in metres.
const SPAN_BETWEEN: f64 = 0.5;
/// Furthest that a picture may be from the datum, and widest it may be, metres.
const FURTHEST: f64 = 20_000.0;

/// From column and row of the file's formula to its unit.
struct Formula {
    right: DVec2,
    down: DVec2,
    first: DVec2,
}

impl Formula {
    /// Pixels count from the corner of the upper left pixel, the formula from its middle.
    fn at(&self, pixel: DVec2) -> DVec2 {
        let place = pixel - DVec2::splat(0.5);
        self.right * place.x + self.down * place.y + self.first
    }
}

impl Placement {
    /// From the text of a world file, the size of its picture in pixels, and the plane of the field.
    ///
    /// Degrees and metres are told apart by the span of the picture. Metres of a national grid or a map projection are
    /// not tied to the datum: scale and turn are kept and the middle of the picture is laid on the datum, with a
    /// warning beside the placement.
    ///
    /// # Errors
    ///
    /// Every line that is missing or no number; a picture that would lie mirrored, has no area or is far from the
    /// datum.
    pub fn from_world_file(text: &str, size: [u32; 2], plane: TangentPlane) -> Result<(Self, Vec<Fault>), Vec<Fault>> {
        let formula = formula(text)?;
        let size = DVec2::new(size[0].into(), size[1].into());
        let span = (formula.right * size.x).abs().max((formula.down * size.y).abs()).max_element();
        if span > 2.0 * FURTHEST {
            let problem = format!("the picture would be {:.3e} km across", span / 1000.0);
            return Err(vec![Fault::error("", problem, "Check that the world file belongs to this picture")]);
        }
        let middle = size / 2.0;
        let (placement, warnings) = if span < SPAN_BETWEEN {
            (in_degrees(&formula, middle, plane)?, vec![])
        } else {
            let there = formula.at(middle);
            let near = there.length() <= FURTHEST;
            let place = if near { there } else { DVec2::ZERO };
            let corner = place - formula.right * middle.x - formula.down * middle.y;
            let warning = if near {
                Fault::warning(
                    "",
                    "the world file is in metres, which are taken to be about the datum",
                    "Check two corners of the field; if they are off, lay the picture by two points",
                )
            } else {
                Fault::warning(
                    "",
                    format!("the world file is in metres of a grid, ({:.0}, {:.0}) at the middle", there.x, there.y),
                    "The picture's middle is laid on the datum: move it to its place, and check a known length, \
                     because a web map's metres are too short away from the equator",
                )
            };
            (Self::of(formula.right, formula.down, corner), vec![warning])
        };
        let faults = placement.faults("");
        if faults.is_empty() { Ok((placement, warnings)) } else { Err(faults) }
    }
}

fn formula(text: &str) -> Result<Formula, Vec<Fault>> {
    let lines: Vec<&str> = text.trim_start_matches('\u{feff}').lines().map(str::trim).collect();
    let mut faults = Vec::new();
    let numbers = ["A", "D", "B", "E", "C", "F"].into_iter().enumerate().map(|(index, name)| {
        let written = lines.get(index).copied().unwrap_or_default();
        let number = written.parse::<f64>().ok().filter(|number| number.is_finite());
        if number.is_none() {
            let short: String = written.chars().take(40).collect();
            let problem = format!("{name} is \"{short}\", not a number");
            let way_out = "A world file is six numbers, each on its own line, with a point for decimals";
            faults.push(Fault { line: Some(index + 1), ..Fault::error(name, problem, way_out) });
        }
        number.unwrap_or_default()
    });
    let numbers: Vec<f64> = numbers.collect();
    match numbers.as_slice() {
        &[a, d, b, e, c, f] if faults.is_empty() => {
            Ok(Formula { right: DVec2::new(a, d), down: DVec2::new(b, e), first: DVec2::new(c, f) })
        }
        _ => Err(faults),
    }
}

/// Straightened out about the middle, which moves the corners of a picture of some kilometres by centimetres.
fn in_degrees(formula: &Formula, middle: DVec2, plane: TangentPlane) -> Result<Placement, Vec<Fault>> {
    let there = formula.at(middle);
    let refused = |problem: String, way_out: &str| Err(vec![Fault::error("", problem, way_out)]);
    if there.x.abs() > 180.0 || there.y.abs() > 90.0 {
        let problem = format!("({}, {}) is neither longitude and latitude nor metres", there.x, there.y);
        return refused(problem, "Lay the picture by two points");
    }
    let away = plane.distance_m(there.y, there.x);
    if away > FURTHEST {
        let problem = format!("the picture is {:.0} km from the datum", away / 1000.0);
        return refused(problem, "Check that it shows this field, and the datum");
    }
    let metres = |pixel: DVec2| {
        let degrees = formula.at(pixel);
        plane.to_metres(degrees.y, degrees.x)
    };
    let across = |half: DVec2| (metres(middle + half) - metres(middle - half)) / (2.0 * half.max_element());
    let (right, down) = (across(DVec2::X * middle.x), across(DVec2::Y * middle.y));
    Ok(Placement::of(right, down, metres(middle) - right * middle.x - down * middle.y))
}

#[cfg(test)]
mod tests {
    use geographiclib_rs::{DirectGeodesic as _, Geodesic};

    use super::*;

    const SIZE: [u32; 2] = [1000, 800];

    fn plane() -> TangentPlane {
        TangentPlane::new(44.0, -30.0)
    }

    fn read(text: &str) -> Result<(Placement, Vec<Fault>), Vec<Fault>> {
        Placement::from_world_file(text, SIZE, plane())
    }

    #[test]
    fn metres_about_the_datum() {
        let (placed, warnings) = read("0.5\n0\n0\n-0.5\n-249.75\n199.75\n").unwrap();
        // The middle of the first pixel is half a pixel in from the corner.
        assert_eq!(placed, Placement { east: [0.5, 0.0, -250.0], north: [0.0, -0.5, 200.0] });
        assert!(warnings.len() == 1 && warnings[0].problem.contains("about the datum"), "{warnings:?}");
    }

    #[test]
    fn metres_of_a_grid_keep_scale_and_turn_and_lie_about_the_datum() {
        let (placed, warnings) = read("0.4\r\n-0.3\r\n-0.3\r\n-0.4\r\n412345.5\r\n5123456.5\r\n").unwrap();
        assert!((placed.metres_a_pixel() - 0.5).abs() < 1e-12);
        assert!(placed.ground(DVec2::new(500.0, 400.0)).length() < 1e-9);
        let step = placed.ground(DVec2::new(501.0, 400.0));
        assert!(step.distance(DVec2::new(0.4, -0.3)) < 1e-9, "{step}");
        assert!(warnings[0].problem.contains("of a grid") && warnings[0].way_out.contains("known length"));
    }

    #[test]
    fn degrees_lie_where_the_geodesic_says() {
        // 0.000005 degrees a pixel: 0.40 m east, 0.56 m north.
        let (placed, warnings) = read("0.000005\n0\n0\n-0.000005\n-30.001\n44.002\n").unwrap();
        assert_eq!(warnings, []);
        for (azimuth, distance) in [(10.0, 90.0), (120.0, 300.0), (250.0, 60.0)] {
            let (lat, lon): (f64, f64) = Geodesic::wgs84().direct(44.0, -30.0, azimuth, distance);
            let pixel = DVec2::new((lon + 30.001) / 5e-6, (44.002 - lat) / 5e-6) + DVec2::splat(0.5);
            let (sin, cos) = f64::to_radians(azimuth).sin_cos();
            let wanted = DVec2::new(sin, cos) * distance;
            let off = placed.ground(pixel).distance(wanted);
            assert!(off < 0.1, "{azimuth} {distance}: {off} m");
        }
    }

    #[track_caller]
    fn refused(text: &str, words: &[&str]) {
        let faults = read(text).unwrap_err();
        assert_eq!(faults.len(), words.len(), "{faults:?}");
        for (fault, words) in faults.iter().zip(words) {
            assert!(fault.to_string().contains(words) && !fault.way_out.is_empty(), "{fault}");
        }
    }

    #[test]
    fn what_cant_lie_is_refused() {
        refused("0.5\n0\n0\n0.5\n0\n0", &["mirrored"]);
        refused("-0.5\n0\n0\n-0.5\n0\n0", &["mirrored"]);
        refused("0.5\n0\n0\n0\n0\n0", &["no area"]);
        refused("0\n0\n0\n0\n-30\n44", &["no area"]);
        refused("0,5\n0\n0\nx\n0\n", &["A is \"0,5\"", "E is \"x\"", "F is \"\""]);
        refused("", &["A is", "D is", "B is", "E is", "C is", "F is"]);
        refused("1e308\n0\n0\n-1e308\n0\n0", &["km across"]);
        refused("nan\n0\n0\ninf\n0\n0", &["A is", "E is"]);
        refused("0.000005\n0\n0\n-0.000005\n-31\n44", &["80 km from the datum"]);
        refused("0.000005\n0\n0\n-0.000005\n412345\n5123456", &["neither longitude"]);
        // Half a turn is no mirror.
        assert!(read("-0.5\n0\n0\n0.5\n0\n0").is_ok());
    }
}
