//! Where in a GeoJSON text each part of the field stands.

use crate::error::Fault;
use crate::error::json::Lines;

/// From places in the field, such as `/areas/0/ring_m/2`, to places in the text.
#[derive(Debug, Clone, Default)]
pub struct Places {
    pub(super) features: Vec<(String, String)>,
    pub(super) lines: Lines,
}

impl Places {
    /// The same fault with its place and line in the GeoJSON text.
    pub fn translate(&self, fault: Fault) -> Fault {
        let inside = |part: &str| {
            fault.place.strip_prefix(part).filter(|rest| rest.is_empty() || rest.starts_with('/')).map(str::to_owned)
        };
        let found = self.features.iter().find_map(|(part, feature)| Some((feature, inside(part)?)));
        let place = found.map_or(String::new(), |(feature, rest)| format!("{feature}{}", within(&rest)));
        Fault { line: self.lines.line(&place), place, ..fault }
    }
}

/// The place inside a feature of a place inside a part of the field.
fn within(rest: &str) -> String {
    let parts: Vec<&str> = rest.split('/').skip(1).collect();
    let corner = |index: Option<&&str>| index.map_or(String::new(), |index| format!("/{index}"));
    match parts.first() {
        Some(&"line_m") => format!("/geometry/coordinates{}", corner(parts.get(1))),
        Some(&("ring_m" | "area_m")) => format!("/geometry/coordinates/0{}", corner(parts.get(1))),
        Some(&"holes_m") => {
            let ring = parts.get(1).and_then(|index| index.parse::<usize>().ok()).unwrap_or_default() + 1;
            format!("/geometry/coordinates/{ring}{}", corner(parts.get(2)))
        }
        Some(&("at_m" | "from_m" | "to_m")) => "/geometry/coordinates".into(),
        Some(index) if index.bytes().all(|byte| byte.is_ascii_digit()) => format!("/geometry/coordinates/{index}"),
        Some(&("latitude_deg" | "longitude_deg")) | None => "/geometry".into(),
        Some(key) => format!("/properties/{key}"),
    }
}
