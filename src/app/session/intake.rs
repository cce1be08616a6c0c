//! Shapes of somebody else's file on their way into the field: what each may stand for, as a person decides.

use crate::error::Fault;
use crate::field::import::{Form, Role, Shape, shapes};
use crate::field::{Datum, FieldFile, GeoField};

/// One shape, and what it is to stand for.
#[derive(Debug, Clone, PartialEq)]
pub struct Take {
    /// The shape.
    pub shape: Shape,
    /// Its role; none leaves it out.
    pub role: Option<Role>,
}

/// The shapes of a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Intake {
    /// Name of the file.
    pub name: String,
    /// Origin of the metres of the shapes.
    pub datum: Datum,
    /// Whether that is to be the datum of the field, which has none worth keeping yet.
    pub fresh: bool,
    /// The shapes.
    pub takes: Vec<Take>,
    /// What is odd about the file.
    pub faults: Vec<Fault>,
    /// All of a field, where the file is one of ours.
    pub whole: Option<Box<FieldFile>>,
}

/// What is asked of the shapes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TakeCommand {
    /// The shape of this number stands for that, or for nothing.
    Role(usize, Option<Role>),
    /// The line of this number goes round something and becomes its ring.
    Close(usize),
}

impl Intake {
    /// Reads a file, for a field that may have nothing in it yet.
    pub fn read(name: &str, bytes: &[u8], field: Option<&FieldFile>) -> Self {
        let fresh = field.is_none_or(is_empty);
        let import = shapes(name, bytes, field.filter(|_| !fresh).map(|field| field.datum));
        let whole = std::str::from_utf8(bytes).ok().and_then(|text| GeoField::read(text).file).map(Box::new);
        let takes = import.shapes.into_iter().map(|shape| Take { role: shape.role, shape }).collect();
        let mut intake = Self { name: name.into(), datum: import.datum, fresh, takes, faults: import.faults, whole };
        intake.suggest(fresh);
        intake
    }

    /// The largest ring is the boundary of a field that has none, until a person says otherwise.
    fn suggest(&mut self, no_boundary: bool) {
        if !no_boundary || self.takes.iter().any(|take| take.role == Some(Role::Boundary)) {
            return;
        }
        let rings = self.takes.iter_mut().filter(|take| take.shape.form == Form::Ring && take.role.is_none());
        if let Some(largest) = rings.max_by(|a, b| size(&a.shape).total_cmp(&size(&b.shape))) {
            largest.role = Some(Role::Boundary);
        }
    }

    /// How many shapes have a role.
    pub fn chosen(&self) -> usize {
        self.takes.iter().filter(|take| take.role.is_some()).count()
    }

    pub(super) fn obey(&mut self, command: TakeCommand) {
        match command {
            TakeCommand::Role(at, role) => {
                let Some(take) = self.takes.get_mut(at) else { return };
                take.role = role.filter(|role| role.fits(take.shape.form));
                let single = |role: Role| !matches!(role, Role::Area(_) | Role::Obstacle);
                // Of what there is one of, the last one named is it.
                if let Some(role) = take.role.filter(|role| single(*role)) {
                    let others = self.takes.iter_mut().enumerate().filter(|(other, _)| *other != at);
                    for (_, take) in others.filter(|(_, take)| take.role == Some(role)) {
                        take.role = None;
                    }
                }
            }
            TakeCommand::Close(at) => {
                if let Some(take) = self.takes.get_mut(at)
                    && let Some(ring) = take.shape.closed()
                {
                    *take = Take { shape: ring, role: None };
                }
            }
        }
    }
}

fn is_empty(field: &FieldFile) -> bool {
    field.boundary.ring_m.is_empty()
        && field.areas.is_empty()
        && field.obstacles.is_empty()
        && field.runway.is_none()
        && field.flight_line_m.is_none()
}

/// Length of a line, metres, or area of a ring without its holes, m^2.
pub fn size(shape: &Shape) -> f64 {
    let points = &shape.points_m;
    match shape.form {
        Form::Point => 0.0,
        Form::Line => points.windows(2).map(|pair| (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1])).sum(),
        Form::Ring => {
            let next = points.iter().cycle().skip(1);
            let doubled: f64 = points.iter().zip(next).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum();
            doubled.abs() / 2.0
        }
    }
}
