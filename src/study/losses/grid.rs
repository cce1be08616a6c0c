//! Which squares of the field a loss is tried from.

use glam::DVec2;

use crate::field::{Field, Rule};

/// Squares over the boundary.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    /// South-west corner, metres.
    pub(super) corner: DVec2,
    /// Side of a cell, metres.
    pub(super) cell_m: f64,
    /// Columns and rows.
    pub(super) size: [u32; 2],
}

impl Grid {
    /// As many cells along the longer side of the boundary, and what fits along the shorter.
    pub(super) fn over(field: &Field, cells: u32) -> Self {
        let (low, high) = field.boundary.bounds();
        let extent = high - low;
        let cell_m = extent.max_element() / f64::from(cells.max(1));
        // A row begun is a whole row; one begun only by rounding is none.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most the number of cells")]
        let count = |along: f64| ((along / cell_m - 1e-9).ceil() as u32).max(1);
        Self { corner: low, cell_m, size: [count(extent.x), count(extent.y)] }
    }

    /// Middle of a cell, metres.
    pub(super) fn middle(&self, [column, row]: [u32; 2]) -> DVec2 {
        self.corner + DVec2::new(f64::from(column) + 0.5, f64::from(row) + 0.5) * self.cell_m
    }

    /// The cells a flight may be in, by rows from the south: middle inside the boundary and outside every area that
    /// nobody may enter that day.
    pub(super) fn cells(&self, field: &Field) -> Vec<[u32; 2]> {
        let [columns, rows] = self.size;
        let all = (0..rows).flat_map(|row| (0..columns).map(move |column| [column, row]));
        let barred: Vec<_> =
            field.areas.iter().filter(|area| matches!(area.rule, Rule::NoFly | Rule::People)).collect();
        let open =
            |middle: DVec2| field.boundary.contains(middle) && !barred.iter().any(|area| area.region.contains(middle));
        all.filter(|&at| open(self.middle(at))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[test]
    fn cells_cover_the_boundary_and_leave_the_paddock_out() {
        // The demo: 520 m by 460 m, with a paddock nobody may enter from (-180, 95) to (60, 200).
        let field = Scenario::tight_strip().field;
        let grid = Grid::over(&field, 52);
        assert_eq!((grid.size, grid.cell_m, grid.corner), ([52, 46], 10.0, DVec2::new(-260.0, -260.0)));
        let cells = grid.cells(&field);
        // 24 columns of middles from -175 to 55, 10 rows from 105 to 195 and that of 95, which lies on the edge.
        let left_out = 52 * 46 - cells.len();
        assert!(left_out == 24 * 10 || left_out == 24 * 11, "{left_out}");
        assert!(cells.is_sorted_by_key(|[column, row]| (*row, *column)));
        assert!(cells.iter().all(|&at| !(grid.middle(at).y > 95.0 && (-180.0..60.0).contains(&grid.middle(at).x))));
        // A longer side that the cells don't divide: one begun row more.
        assert_eq!(Grid::over(&field, 8).size, [8, 8]);
    }
}
