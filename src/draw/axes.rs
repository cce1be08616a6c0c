//! Straight axes: a span of values on a length of paper, with ticks at numbers people use.

use glam::DVec2;

use super::{Fill, Ink, Lettering, Pen, Sheet};

/// A rectangle of the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Upper left corner, mm.
    pub low: DVec2,
    /// Lower right corner, mm.
    pub high: DVec2,
}

impl Frame {
    /// From its upper left corner, width and height, mm.
    pub const fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { low: DVec2::new(x, y), high: DVec2::new(x + width, y + height) }
    }

    /// Width and height, mm.
    pub fn size(&self) -> DVec2 {
        self.high - self.low
    }

    /// Its middle.
    pub fn middle(&self) -> DVec2 {
        (self.low + self.high) / 2.0
    }
}

/// A span of values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Least value shown.
    pub from: f64,
    /// Greatest value shown.
    pub to: f64,
    /// From tick to tick.
    pub step: f64,
}

impl Scale {
    /// The span that holds all values and ends on ticks, with no more than so many steps.
    ///
    /// What is not finite is passed over; without a value the span is from 0 to 1.
    pub fn over(values: impl IntoIterator<Item = f64>, steps: u32) -> Self {
        let finite = values.into_iter().filter(|value| value.is_finite());
        let (low, high) = finite.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        let (low, high) = if low > high { (0.0, 1.0) } else { (low, high) };
        let high = if high - low > 1e-9 * (1.0 + high.abs()) { high } else { low + 1.0 };
        let mut step = nice((high - low) / f64::from(steps.max(1)));
        // Ends moved out to ticks may need a step more than there may be.
        while ((high / step).ceil() - (low / step).floor()) > f64::from(steps.max(1)) + 0.5 {
            step = nice(step * 1.01);
        }
        Self { from: (low / step).floor() * step, to: (high / step).ceil() * step, step }
    }

    /// The share of the span that lies below a value.
    pub fn share(&self, value: f64) -> f64 {
        (value - self.from) / (self.to - self.from)
    }

    /// Values of the ticks.
    pub fn ticks(&self) -> Vec<f64> {
        let mut ticks = Vec::new();
        let mut count = (self.from / self.step - 1e-9).ceil();
        while count * self.step <= self.to + 1e-9 * self.step {
            ticks.push(count * self.step);
            count += 1.0;
        }
        ticks
    }

    /// A tick's digits: no more than the step needs.
    pub fn tick(&self, value: f64) -> String {
        let digits = usize::from(self.step < 0.999) + usize::from(self.step < 0.0999);
        format!("{:.digits$}", value + 0.0)
    }
}

/// The least of 1, 2, 5, 10 and so on that is no less.
fn nice(step: f64) -> f64 {
    let ten = 10.0_f64.powf(step.log10().floor());
    let least = [1.0, 2.0, 5.0, 10.0].into_iter().find(|part| part * ten >= step * (1.0 - 1e-9));
    least.unwrap_or(10.0) * ten
}

/// Two scales at right angles on a frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axes {
    /// Where.
    pub frame: Frame,
    /// Left to right.
    pub x: Scale,
    /// Bottom to top.
    pub y: Scale,
}

impl Axes {
    /// Size of the ticks' digits, mm.
    pub const DIGITS: f64 = 3.6;

    /// The place of a pair of values.
    pub fn at(&self, x: f64, y: f64) -> DVec2 {
        let size = self.frame.size();
        DVec2::new(self.frame.low.x + size.x * self.x.share(x), self.frame.high.y - size.y * self.y.share(y))
    }

    /// The value along the foot at a place, no further than the axis goes.
    pub fn x_at(&self, at: DVec2) -> f64 {
        let share = (at.x - self.frame.low.x) / self.frame.size().x.max(1e-9);
        self.x.from + share.clamp(0.0, 1.0) * (self.x.to - self.x.from)
    }

    /// Draws grid and ticks. The digits stand outside the frame: some 9 mm to the left and 6 mm below.
    pub fn draw(&self, sheet: &mut Sheet) {
        let (low, high) = (self.frame.low, self.frame.high);
        let digits = Lettering::new(Self::DIGITS);
        for value in self.x.ticks() {
            let x = self.at(value, self.y.from).x;
            sheet.line([DVec2::new(x, low.y), DVec2::new(x, high.y)], Pen::plain(Ink::FAINT, 0.2));
            sheet.words(DVec2::new(x, high.y + 4.4), self.x.tick(value), digits.middle());
        }
        for value in self.y.ticks() {
            let y = self.at(self.x.from, value).y;
            sheet.line([DVec2::new(low.x, y), DVec2::new(high.x, y)], Pen::plain(Ink::FAINT, 0.2));
            sheet.words(DVec2::new(low.x - 1.5, y + 1.3), self.y.tick(value), digits.end());
        }
        sheet.rectangle(low, high, Some(Pen::plain(Ink::BLACK, 0.3)), Fill::None);
    }

    /// Letters the names beyond the digits: some 14 mm to the left and 12 mm below.
    pub fn name(&self, sheet: &mut Sheet, x_name: &str, y_name: &str) {
        let (low, high, size) = (self.frame.low, self.frame.high, self.frame.size());
        sheet.words(DVec2::new(self.frame.middle().x, high.y + 9.4), x_name, named(x_name, size.x));
        let widest = self.y.ticks().into_iter().map(|v| super::width_mm(&self.y.tick(v), Self::DIGITS, false));
        let beside = low.x - widest.fold(0.0, f64::max) - 4.0;
        sheet.words(DVec2::new(beside, self.frame.middle().y), y_name, named(y_name, size.y).turned(90.0));
    }
}

/// How the name of an axis is lettered: as large as its length takes, within what reads well.
fn named(name: &str, long_mm: f64) -> Lettering {
    let [least, most] = [3.4, 4.0];
    let size = most * long_mm / super::width_mm(name, most, true);
    Lettering::new(size.clamp(least, most)).bold().middle()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(values: &[f64], steps: u32, expected: [f64; 3]) {
        let scale = Scale::over(values.iter().copied(), steps);
        for (found, expected) in [scale.from, scale.to, scale.step].into_iter().zip(expected) {
            approx::assert_abs_diff_eq!(found, expected, epsilon = 1e-9);
        }
        assert!(scale.ticks().len() <= steps as usize + 1, "{:?}", scale.ticks());
    }

    #[test]
    fn a_scale_ends_on_ticks_people_use() {
        check(&[43.0, 257.0], 8, [0.0, 300.0, 50.0]);
        check(&[0.0, 8.4], 5, [0.0, 10.0, 2.0]);
        check(&[-3.0, 3.0, f64::INFINITY], 4, [-4.0, 4.0, 2.0]);
        check(&[5.0, 5.0], 5, [5.0, 6.0, 0.2]);
        check(&[], 5, [0.0, 1.0, 0.2]);
        check(&[f64::NAN], 1, [0.0, 1.0, 1.0]);
    }

    #[test]
    fn digits_are_no_more_than_the_step_needs() {
        let scale = Scale::over([0.0, 1.0], 5);
        assert_eq!(
            scale.ticks().iter().map(|v| scale.tick(*v)).collect::<Vec<_>>(),
            ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]
        );
        assert_eq!(Scale::over([-20.0, 40.0], 4).tick(-0.0), "0");
    }

    #[test]
    fn values_grow_to_the_right_and_up() {
        let axes = Axes {
            frame: Frame::new(20.0, 10.0, 100.0, 50.0),
            x: Scale::over([0.0, 10.0], 5),
            y: Scale::over([0.0, 10.0], 5),
        };
        assert_eq!(axes.at(0.0, 0.0), DVec2::new(20.0, 60.0));
        assert_eq!(axes.at(10.0, 10.0), DVec2::new(120.0, 10.0));
        assert_eq!([0.0, 70.0, 500.0].map(|x| axes.x_at(DVec2::new(x, 0.0))), [0.0, 5.0, 10.0]);
    }
}
