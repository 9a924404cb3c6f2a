//! Swatches of the threads and gears of a line.

use super::swatch::{Swatch, SwatchField};
use crate::base::units::Length;
use crate::braid::stretch::Piece;
use crate::design::Design;
use crate::plan::Plan;
use crate::plan::run::Run;

impl Swatch {
    /// A swatch of the threads and gears of the belly of a line, nothing measured.
    pub fn of_belly(design: &Design, plan: &Plan) -> Self {
        Self::of_piece(design, &plan.belly.piece)
    }

    /// A swatch of the threads and gears that a line begins with, with what was measured on its lead-in: the last number of each
    /// kind. `tension` says how the carriers pulled.
    pub fn of_start(design: &Design, plan: &Plan, run: &Run, tension: &str) -> Self {
        let piece = plan.station(Length::ZERO).piece;
        let mut swatch = Self {
            tension: tension.to_owned(),
            ..Self::of_piece(design, &piece)
        };
        for check in run.checks.iter().filter(|check| check.at_m == 0.0) {
            swatch.take(check.measured());
        }
        swatch
    }

    /// A swatch of the threads and gears of a piece, nothing measured.
    fn of_piece(design: &Design, piece: &Piece) -> Self {
        let threads = f64::from(piece.load.threads);
        let ends = piece.load.yarn / threads * f64::from(design.thread().ends);
        let mut swatch = Self::default();
        swatch.set(SwatchField::Threads, Some(threads));
        swatch.set(SwatchField::Ends, Some(ends.round()));
        swatch.set(SwatchField::Driver, Some(f64::from(piece.wheels.driver)));
        swatch.set(SwatchField::Driven, Some(f64::from(piece.wheels.driven)));
        swatch
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::run::{Check, CheckKind};

    fn check(kind: CheckKind, value: f64, at_m: f64) -> Check {
        Check {
            kind,
            value,
            planned: value,
            fine: 1.0,
            done: usize::from(at_m > 0.0),
            at_m,
            error: None,
        }
    }

    /// 34.5 crossings a centimetre are as many a metre a hundred times over: the lay is N/(2 · 3450) m. Analytic.
    #[test]
    fn what_is_measured_on_the_lead_in_makes_a_swatch() {
        let (design, plan) = (demo(), Plan::of(&demo()));
        let mut run = Run::default();
        assert!(!Swatch::of_start(&design, &plan, &run, "").is_measured());
        run.checks = vec![
            check(CheckKind::Angle, 40.0, 0.0),
            check(CheckKind::Crossings, 34.5, 0.0),
            check(CheckKind::Angle, 43.5, 0.0),
            check(CheckKind::Angle, 47.0, 1.2),
            check(CheckKind::Diameter, 0.71, 0.0),
        ];
        let swatch = Swatch::of_start(&design, &plan, &run, "blue spring");
        assert!(swatch.is_measured());
        let start = &plan.events[0];
        assert_eq!(swatch.threads, Some(f64::from(start.threads())));
        assert_eq!(swatch.ends, Some(f64::from(design.thread().ends)));
        let wheels = [start.wheels.driver, start.wheels.driven].map(|teeth| Some(f64::from(teeth)));
        assert_eq!([swatch.driver, swatch.driven], wheels);
        assert_eq!(swatch.angle_deg, Some(43.5));
        assert_eq!(swatch.diameter_mm, Some(0.71));
        assert_eq!(swatch.tension, "blue spring");
        let lay = swatch.lay_by_crossings().map(Length::metres);
        let wanted = f64::from(start.threads()) / (2.0 * 3450.0);
        assert!(
            lay.is_some_and(|lay| (lay - wanted).abs() < 1e-12),
            "{lay:?}"
        );
        // What came from a photo keeps its error until it is measured again.
        let by_photo = Check {
            error: Some(0.5),
            ..check(CheckKind::Angle, 43.5, 0.0)
        };
        run.checks.push(by_photo);
        let photo = Swatch::of_start(&design, &plan, &run, "");
        assert_eq!(photo.own_error(SwatchField::Angle), Some(0.5));
        run.checks.push(check(CheckKind::Angle, 43.5, 0.0));
        let typed = Swatch::of_start(&design, &plan, &run, "");
        assert_eq!((typed.angle_deg, typed.angle_error_deg), (Some(43.5), None));
        let mut more = swatch.clone();
        more.set(SwatchField::Mass, Some(0.2));
        assert!(more.has_all_of(&swatch) && !swatch.has_all_of(&more));
    }
}
