//! Lines and casts to try, from plain numbers.

use taperwright::base::choice::Choice;
use taperwright::base::units::{Density, Length, Mass};
use taperwright::turnover::{
    Cast, CastNumber, DragLaw, FlyLine, LinePiece, Moment, Surroundings, Turnover,
};

/// A piece of a line: metres, millimetres at both ends, grams per cubic centimetre.
pub(crate) type Piece = (f64, f64, f64, f64);

/// A line of pieces, tip first.
pub(crate) fn line(pieces: &[Piece]) -> FlyLine {
    let solid = |&(length, thin, thick, density): &Piece| {
        LinePiece::solid(
            Length::from_metres(length),
            [thin, thick].map(Length::from_millimetres),
            Density::from_grams_per_cubic_centimetre(density),
        )
    };
    FlyLine::new(pieces.iter().flat_map(solid).collect()).expect("a sound line")
}

/// A cast of these numbers, in the order of [`CastNumber::ALL`].
pub(crate) fn cast(numbers: [f64; 9]) -> Cast {
    let both = CastNumber::ALL.iter().zip(numbers);
    both.fold(Cast::default(), |cast, (&number, value)| {
        with(cast, number, value)
    })
}

/// The cast with another number.
pub(crate) fn with(cast: Cast, number: CastNumber, value: f64) -> Cast {
    cast.with(number, value).expect("within its range")
}

/// The usual cast with a loop of this height, metres.
pub(crate) fn with_loop(height: f64) -> Cast {
    with(Cast::default(), CastNumber::LoopHeight, height)
}

/// Air whose drag does not depend on the speed: its density in kilograms per cubic metre, and both coefficients.
pub(crate) fn constant_air(density: f64, across: f64, along: f64) -> Surroundings {
    Surroundings {
        density: Density::from_grams_per_cubic_centimetre(density / 1e3),
        across: DragLaw::constant(across),
        along: DragLaw::constant(along),
        ..Surroundings::USUAL
    }
}

/// Mass of the first 30 ft.
pub(crate) fn head_mass(line: &FlyLine) -> Mass {
    let head = line.front(Length::from_feet(30.0));
    head.iter().map(LinePiece::mass).sum()
}

/// A line through points, feet and relative sizes, of 1.10 g/cm³: as thick as makes the first 30 ft weigh so many grains.
pub(crate) fn of_head_mass(points: &[(f64, f64)], grains: f64) -> FlyLine {
    let of_size = |times: f64| {
        let pieces = points.windows(2).map(|pair| {
            let length = Length::from_feet(pair[1].0 - pair[0].0).metres();
            (length, pair[0].1 * times, pair[1].1 * times, 1.10)
        });
        line(&pieces.collect::<Vec<Piece>>())
    };
    // Mass grows with the square of the size.
    of_size((Mass::from_grains(grains) / head_mass(&of_size(1.0))).sqrt())
}

/// Lines of class 5, its head of 140 gr, that differ in their front taper, in the order in which they arrive: hardest first.
pub(crate) fn fronts() -> [FlyLine; 5] {
    let front = |feet: f64| of_head_mass(&[(0.0, 0.6), (feet, 1.0), (40.0, 1.0)], 140.0);
    [
        of_head_mass(&[(0.0, 1.3), (20.0, 1.0), (30.0, 0.8)], 140.0),
        of_head_mass(&[(0.0, 1.0), (40.0, 1.0)], 140.0),
        front(5.0),
        front(10.0),
        front(25.0),
    ]
}

/// A cast when so much has run into the loop, between the moments on either side.
pub(crate) fn at_rolled(cast: &Turnover, rolled: Length) -> Moment {
    let after = cast.moments.partition_point(|one| one.rolled <= rolled);
    match (after.checked_sub(1), cast.moments.get(after)) {
        (None, _) => cast.start,
        (Some(before), None) => cast.moments[before],
        (Some(before), Some(next)) => {
            let before = &cast.moments[before];
            let share = (rolled - before.rolled) / (next.rolled - before.rolled);
            before.towards(next, share)
        }
    }
}
