//! How many knots a broken line deserves.

/// What a fit costs: less is better.
///
/// Schwarz's criterion for normal errors of unknown size, `n ln σ² + Σ r²/σ² + p ln n`, at the likeliest `σ` that is no smaller
/// than the error stated. Sources: Schwarz 1978, "Estimating the dimension of a model", Annals of Statistics 6; Yao 1988,
/// "Estimating the number of change-points via Schwarz' criterion", Statistics & Probability Letters 6, who counts the place of a
/// change as a parameter like any other (both from memory). A number left out costs as much as one [`FAR`] spreads off or more, so that
/// none is dropped to save less than that: the bounded loss of Fearnhead & Rigaill 2019, "Changepoint detection in the presence of
/// outliers", JASA 114 (from memory).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Criterion {
    /// Numbers used.
    pub used: f64,
    /// Numbers left out.
    pub left_out: f64,
    /// Squares that no line explains: numbers at one place differ from each other.
    pub within: f64,
    /// Least error of a number, one standard deviation, above 0.
    pub floor: f64,
    /// Price of a parameter: `ln n`, or a multiple of it.
    pub price: f64,
    /// A number left out costs as much as one so many spreads off: [`FAR`], or more.
    pub far: f64,
}

/// A number farther off than so many standard deviations is an error: of 16,000 normal ones one is. Our own choice.
pub const FAR: f64 = 4.0;

impl Criterion {
    /// The square of the errors' standard deviation, where a line of so many parameters leaves so many squares.
    pub fn variance(&self, squares: f64, parameters: usize) -> f64 {
        let free = (self.used - parameters as f64).max(1.0);
        ((squares + self.within) / free).max(self.floor * self.floor)
    }

    /// The cost of a line of so many parameters that leaves so many squares.
    pub fn cost(&self, squares: f64, parameters: usize) -> f64 {
        let variance = self.variance(squares, parameters);
        (self.used + self.left_out) * libm::log(variance)
            + (squares + self.within) / variance
            + self.far * self.far * self.left_out
            + self.price * parameters as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OF_TEN: Criterion = Criterion {
        used: 10.0,
        left_out: 0.0,
        within: 0.0,
        floor: 1.0,
        price: 2.0,
        far: FAR,
    };

    /// Analytic: below the error stated only squares and parameters count.
    #[test]
    fn squares_below_the_floor_are_weighed_by_it() {
        assert!((OF_TEN.cost(3.0, 2) - 7.0).abs() < 1e-12);
        assert_eq!(OF_TEN.variance(3.0, 2), 1.0);
        assert_eq!(OF_TEN.variance(32.0, 2), 4.0);
    }

    /// Analytic: a number left out costs 16, where the error stated is all there is.
    #[test]
    fn a_number_left_out_has_its_price() {
        let with_one_out = Criterion {
            used: 9.0,
            left_out: 1.0,
            ..OF_TEN
        };
        assert!((with_one_out.cost(3.0, 2) - OF_TEN.cost(3.0, 2) - 16.0).abs() < 1e-12);
    }
}
