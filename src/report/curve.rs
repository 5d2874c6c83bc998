//! The learning curve of a device: its right answers, window by window, with their band.

/// How many answers make a point.
const WINDOW: usize = 10;

/// How many standard deviations hold 95 %.
const WIDE: f64 = 1.959_963_984_540_054;

/// One window of answers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Answers to the device up to the end of the window.
    pub answers: usize,
    /// The share of right ones in the window, and its Wilson interval of 95 %.
    pub rate: f64,
    /// The lower end of the interval, 0 to 1.
    pub low: f64,
    /// The upper end of the interval, 0 to 1.
    pub high: f64,
}

/// A device's windows in order; the last may be short.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// The windows in order.
    pub points: Vec<Point>,
}

impl Curve {
    /// The windows of these outcomes, oldest first; `true` is right.
    #[must_use]
    pub fn of(outcomes: &[bool]) -> Self {
        let mut answers = 0;
        let points = outcomes.chunks(WINDOW).map(|window| {
            answers += window.len();
            point(answers, window)
        });
        Self {
            points: points.collect(),
        }
    }

    /// The curve in `height` rows of characters, the top row for 100 %: a dot for each
    /// window and a bar for its band. Only the last `width` windows are drawn.
    #[must_use]
    pub fn drawn(&self, width: usize, height: usize, ascii: bool) -> Vec<String> {
        let (dot, band) = if ascii { ('o', '|') } else { ('●', '│') };
        let first = self.points.len().saturating_sub(width);
        let shown = &self.points[first..];
        (0..height)
            .map(|row| {
                let mark = |point: &Point| {
                    let at = |rate: f64| row_of(rate, height);
                    if at(point.rate) == row {
                        dot
                    } else if (at(point.high)..=at(point.low)).contains(&row) {
                        band
                    } else {
                        ' '
                    }
                };
                let marks: String = shown.iter().map(mark).collect();
                marks.trim_end().to_owned()
            })
            .collect()
    }
}

/// The row, from the top, in which a rate from 0 to 1 lies.
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss
)]
fn row_of(rate: f64, height: usize) -> usize {
    let last = height.saturating_sub(1);
    (((1.0 - rate.clamp(0.0, 1.0)) * last as f64).round() as usize).min(last)
}

#[allow(clippy::cast_precision_loss)]
fn point(answers: usize, window: &[bool]) -> Point {
    let n = window.len() as f64;
    let rate = window.iter().filter(|right| **right).count() as f64 / n;
    let z2 = WIDE * WIDE;
    let centre = (rate + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let spread = libm::sqrt(rate * (1.0 - rate) / n + z2 / (4.0 * n * n));
    let half = WIDE / (1.0 + z2 / n) * spread;
    Point {
        answers,
        rate,
        low: (centre - half).max(0.0),
        high: (centre + half).min(1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_band_is_wilsons() {
        // 8 of 10: 0.490 to 0.943, as in Newcombe 1998, Statistics in Medicine 17,
        // method 3, computed by hand from the formula.
        let mut outcomes = [true; 10];
        outcomes[..2].fill(false);
        let point = Curve::of(&outcomes).points[0];
        assert!((point.low - 0.490).abs() < 0.001 && (point.high - 0.943).abs() < 0.001);
    }

    #[test]
    fn a_curve_is_drawn_from_its_top() {
        let mut outcomes = vec![false; 10];
        outcomes.extend([true; 13]);
        let curve = Curve::of(&outcomes);
        assert_eq!(curve.points[2].answers, 23);
        assert_eq!(
            curve.drawn(9, 5, true),
            [" oo", " ||", "  |", "|", "o"],
            "{curve:?}"
        );
        assert_eq!(curve.drawn(1, 2, false), ["●", "│"]);
    }
}
