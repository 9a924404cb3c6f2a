//! Sums over the numbers before each one: what a straight line through any stretch of them costs, without looking at them again.

/// Weighted numbers in order of their places, summed up.
///
/// Places and numbers are taken from their means, so that little is lost when sums are subtracted.
#[derive(Clone, Debug, PartialEq)]
pub struct Sums {
    places: Vec<f64>,
    centre: (f64, f64),
    /// For each count of numbers: the sums over so many from the first.
    running: Vec<Moments>,
}

/// Sums of weights, and of products with them, over some numbers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Moments {
    pub(super) w: f64,
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) xx: f64,
    pub(super) xy: f64,
    pub(super) yy: f64,
}

/// A straight line: the middle of its numbers, its slope, and the weighted squares of what it leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Straight {
    /// Mean place of the numbers.
    pub at: f64,
    /// The line there.
    pub value: f64,
    /// Rise over a unit of place; 0 where all numbers have one place.
    pub slope: f64,
    /// Sum of weighted squares of the numbers less the line.
    pub squares: f64,
}

impl Straight {
    /// The line at a place.
    pub fn value_at(&self, place: f64) -> f64 {
        self.value + self.slope * (place - self.at)
    }
}

impl Moments {
    fn less(&self, other: &Self) -> Self {
        Self {
            w: self.w - other.w,
            x: self.x - other.x,
            y: self.y - other.y,
            xx: self.xx - other.xx,
            xy: self.xy - other.xy,
            yy: self.yy - other.yy,
        }
    }

    /// Squares of places, products, and squares of numbers, each from the means of these numbers. Rounding makes none below 0.
    fn about_means(&self) -> (f64, f64, f64) {
        let (x, y) = (self.x / self.w, self.y / self.w);
        let xx = (self.xx - x * self.x).max(0.0);
        let yy = (self.yy - y * self.y).max(0.0);
        (xx, self.xy - x * self.y, yy)
    }

    /// The same sums with places from `at` and numbers from `value`.
    pub(super) fn from(&self, at: f64, value: f64) -> Self {
        let (w, x, y) = (self.w, self.x - at * self.w, self.y - value * self.w);
        Self {
            w,
            x,
            y,
            xx: (self.xx - at * (self.x + x)).max(0.0),
            xy: self.xy - at * self.y - value * x,
            yy: (self.yy - value * (self.y + y)).max(0.0),
        }
    }
}

impl Sums {
    /// Sums of numbers at places in order, with weights above 0. What has no partner in the other lists is left away.
    pub fn of(places: &[f64], numbers: &[f64], weights: &[f64]) -> Self {
        let count = places.len().min(numbers.len()).min(weights.len());
        let whole: f64 = weights[..count].iter().sum();
        let mean = |values: &[f64]| {
            let products = values.iter().zip(weights).map(|(value, w)| value * w);
            let sum: f64 = products.take(count).sum();
            if whole > 0.0 { sum / whole } else { 0.0 }
        };
        let centre = (mean(places), mean(numbers));
        let mut sum = Moments::default();
        let mut running = Vec::with_capacity(count + 1);
        running.push(sum);
        for index in 0..count {
            let (x, y) = (places[index] - centre.0, numbers[index] - centre.1);
            let w = weights[index];
            sum = Moments {
                w: sum.w + w,
                x: sum.x + w * x,
                y: sum.y + w * y,
                xx: sum.xx + w * x * x,
                xy: sum.xy + w * x * y,
                yy: sum.yy + w * y * y,
            };
            running.push(sum);
        }
        Self {
            places: places[..count].to_vec(),
            centre,
            running,
        }
    }

    /// How many numbers there are.
    pub fn count(&self) -> usize {
        self.places.len()
    }

    /// The places.
    pub fn places(&self) -> &[f64] {
        &self.places
    }

    /// All weights together.
    pub fn weight(&self) -> f64 {
        self.running[self.count()].w
    }

    /// What is taken from places and numbers.
    pub(super) fn centre(&self) -> (f64, f64) {
        self.centre
    }

    /// How many numbers have a place before this one.
    pub(super) fn before(&self, place: f64) -> usize {
        self.places.partition_point(|&at| at < place)
    }

    /// The sums over the numbers from `first` up to `end`, without it; places and numbers are from the centre.
    pub(super) fn moments(&self, first: usize, end: usize) -> Moments {
        self.running[end].less(&self.running[first])
    }

    /// What the best straight line through the numbers from `first` up to `end`, without it, leaves: a sum of weighted squares.
    /// With the moments about the means it is `Syy − Sxy²/Sxx` (analytic; any text on linear regression).
    pub(super) fn squares(&self, first: usize, end: usize) -> f64 {
        if end <= first + 1 {
            return 0.0;
        }
        let (xx, xy, yy) = self.moments(first, end).about_means();
        // No more than all of `Syy`, nor less than nothing, is explained.
        if xx > 0.0 {
            (yy - (xy * xy / xx).min(yy)).max(0.0)
        } else {
            yy
        }
    }

    /// The best straight line through the numbers from `first` up to `end`, without it; `None` without any.
    pub fn straight(&self, first: usize, end: usize) -> Option<Straight> {
        let end = end.min(self.count());
        if end <= first {
            return None;
        }
        let sums = self.moments(first, end);
        let (xx, xy, _) = sums.about_means();
        let is_sloped = self.places[end - 1] > self.places[first] && xx > 0.0;
        Some(Straight {
            at: self.centre.0 + sums.x / sums.w,
            value: self.centre.1 + sums.y / sums.w,
            slope: if is_sloped { xy / xx } else { 0.0 },
            squares: self.squares(first, end),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Analytic: a line of slope 2 through 1, 3, 5 leaves nothing; the fourth number is 1 off the line through it.
    #[test]
    fn a_straight_line_is_found() {
        let sums = Sums::of(&[0.0, 1.0, 2.0, 3.0], &[1.0, 3.0, 5.0, 8.0], &[1.0; 4]);
        let line = sums.straight(0, 3).expect("three numbers");
        assert!((line.slope - 2.0).abs() < 1e-12 && line.squares < 1e-12);
        assert!((line.value_at(10.0) - 21.0).abs() < 1e-12);
        // The best line through all: slope 2.3, squares 0.3.
        let line = sums.straight(0, 4).expect("four numbers");
        assert!((line.slope - 2.3).abs() < 1e-12 && (line.squares - 0.3).abs() < 1e-12);
    }

    #[test]
    fn numbers_of_one_place_have_no_slope() {
        let sums = Sums::of(&[1.0, 1.0], &[2.0, 4.0], &[1.0, 3.0]);
        let line = sums.straight(0, 2).expect("two numbers");
        assert_eq!((line.slope, line.value), (0.0, 3.5));
        assert_eq!(sums.straight(1, 1), None);
    }
}
