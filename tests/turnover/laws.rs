//! What holds for every line and every cast.

use taperwright::base::choice::Choice;
use taperwright::base::units::{Density, Energy, Length, LinearDensity};
use taperwright::turnover::{
    Cast, CastNumber, FlyLine, LinePiece, Outcome, Surroundings, Turnover, turn_over,
};

use crate::chance::Chance;
use crate::lines::at_rolled;
use crate::lines::with;
use crate::row::agree;

/// Evenly over the powers of a number.
fn spread(chance: &mut Chance, low: f64, high: f64) -> f64 {
    low * (high / low).powf(chance.uniform())
}

/// A piece as it may be at worst: 0.05 to 20 mm thick, from light foam to gold, a millimetre to 200 m long.
fn any_piece(chance: &mut Chance) -> LinePiece {
    let size = spread(chance, 5e-5, 2e-2);
    let density = Density::from_grams_per_cubic_centimetre(spread(chance, 0.1, 20.0));
    let mass = Length::from_metres(size).circle() * density;
    LinePiece {
        length: Length::from_metres(spread(chance, 1e-3, 200.0)),
        diameter: [size, size * spread(chance, 0.5, 2.0)].map(Length::from_metres),
        linear_density: [mass, mass * spread(chance, 0.5, 2.0)],
    }
}

fn any_line(chance: &mut Chance) -> FlyLine {
    let pieces = 1.0 + 4.0 * chance.uniform();
    let mut line = vec![any_piece(chance)];
    while (line.len() as f64) < pieces.floor() {
        line.push(any_piece(chance));
    }
    FlyLine::new(line).expect("a sound line")
}

/// Numbers over all of their ranges, the ends often.
fn any_cast(chance: &mut Chance) -> Cast {
    CastNumber::ALL
        .iter()
        .fold(Cast::default(), |cast, &number| {
            let rule = number.rule();
            let share = (chance.uniform() * 1.5 - 0.25).clamp(0.0, 1.0);
            with(cast, number, rule.low + (rule.high - rule.low) * share)
        })
}

/// Lines and casts of all kinds.
fn each(count: u32, seed: u64, check: impl Fn(&FlyLine, &Cast)) {
    let mut chance = Chance::of(seed);
    for _ in 0..count {
        let line = any_line(&mut chance);
        check(&line, &any_cast(&mut chance));
    }
}

/// All numbers of it that are finite for a cast of any kind.
fn is_finite(found: &Turnover) -> bool {
    let moments = found.moments.iter().all(|moment| {
        let lengths = [moment.to_fly, moment.rolled, moment.drop];
        let plain = [moment.seconds, moment.lean, moment.mass.kilograms()];
        lengths.iter().all(|length| length.is_finite())
            && plain.iter().all(|number| number.is_finite())
            && moment.speed.is_finite()
            && moment.energy.is_finite()
    });
    let landing = found.landing;
    let lost = [found.losses.leg, found.losses.within_loop, found.losses.fly];
    moments
        && landing.speed.is_finite()
        && landing.energy_per_metre.is_finite()
        && lost
            .iter()
            .all(|energy| energy.is_finite() && *energy >= Energy::ZERO)
}

/// Nothing is gained from nothing; time, way and fall go on; and a cast is not followed for ever.
#[test]
fn every_cast_is_sound() {
    each(2000, 1, |line, cast| {
        let found = turn_over(line, cast, &Surroundings::USUAL);
        assert!(is_finite(&found), "{line:?} {cast:?}");
        assert!(found.moments.len() < 10_000, "{line:?} {cast:?}");
        for pair in found.moments.windows(2) {
            let [before, after] = [&pair[0], &pair[1]];
            assert!(after.energy <= before.energy, "{line:?} {cast:?}: {pair:?}");
            assert!(after.seconds > before.seconds && after.rolled > before.rolled);
            assert!(after.to_fly < before.to_fly && after.lean >= before.lean);
        }
        assert!((0.0..=1.0).contains(&found.energy_left()));
        assert!(found.at_fly.seconds >= found.at_leader.seconds);
    });
}

#[test]
fn what_is_lost_and_what_arrives_is_what_began() {
    each(1000, 2, |line, cast| {
        let found = turn_over(line, cast, &Surroundings::USUAL);
        let lost = found.losses.leg + found.losses.within_loop + found.losses.fly;
        agree((lost + found.at_fly.energy) / found.start.energy, 1.0, 1e-6);
    });
}

/// No air takes nothing, and bends no loop.
#[test]
fn without_air_nothing_is_lost() {
    each(300, 3, |line, cast| {
        let found = turn_over(line, cast, &Surroundings::NONE);
        let is_whole = |moment: &taperwright::turnover::Moment| {
            moment.energy == found.start.energy && moment.lean == 0.0
        };
        assert!(found.moments.iter().all(is_whole), "{line:?} {cast:?}");
        assert_eq!(found.energy_left(), 1.0);
    });
}

/// The shortest line and leader are shorter than the highest loop: there is no upper leg, and the cast is over as it begins.
#[test]
fn a_line_shorter_than_its_loop_has_rolled() {
    let piece = LinePiece::level(
        Length::from_metres(0.3),
        Length::from_millimetres(1.0),
        LinearDensity::from_tex(1000.0),
    );
    let line = FlyLine::new(vec![piece]).expect("a short line");
    let cast = [
        (CastNumber::LoopHeight, 1.5),
        (CastNumber::LeaderLength, 0.5),
    ]
    .into_iter()
    .fold(Cast::default(), |cast, (number, value)| {
        with(cast, number, value)
    });
    let found = turn_over(&line, &cast, &Surroundings::USUAL);
    assert!(is_finite(&found));
    assert_eq!(found.start, found.at_fly);
    assert_eq!((found.at_leader.seconds, found.energy_left()), (0.0, 1.0));
}

/// Lines of the trade in air of more and more weight.
#[test]
fn heavier_air_never_leaves_more_energy() {
    let mut chance = Chance::of(4);
    for _ in 0..100 {
        let mut between = |low: f64, high: f64| low + (high - low) * chance.uniform();
        let (density, belly) = (between(0.7, 1.3), between(0.8, 1.6));
        let pieces = [
            (between(0.5, 8.0), belly * between(0.4, 1.3), belly, density),
            (40.0, belly, belly, density),
        ];
        let line = crate::lines::line(&pieces);
        let cast = with(Cast::default(), CastNumber::LoopHeight, between(0.2, 1.5));
        let left = |density: f64| {
            let air = Surroundings {
                density: Density::from_grams_per_cubic_centimetre(density / 1e3),
                ..Surroundings::USUAL
            };
            turn_over(&line, &cast, &air)
        };
        let airs = [0.0, 0.3, 0.6, 0.9, 1.0, 1.1, 1.2, 1.3, 1.5, 2.0].map(left);
        for pair in airs.windows(2) {
            let [light, heavy] = [&pair[0], &pair[1]];
            assert!(
                heavy.at_leader.energy < light.at_leader.energy,
                "{pieces:?} {cast:?}"
            );
            assert!(
                heavy.at_leader.seconds > light.at_leader.seconds,
                "{pieces:?} {cast:?}"
            );
        }
    }
}

/// What is said of a moment between two is between them, and both ends are held.
#[test]
fn any_moment_can_be_asked_for() {
    each(100, 5, |line, cast| {
        let found = turn_over(line, cast, &Surroundings::USUAL);
        assert_eq!(found.at_time(-1.0), found.start);
        assert_eq!(found.at_time(1e9), found.at_fly);
        assert_eq!(
            at_rolled(&found, found.at_leader.rolled).seconds,
            found.at_leader.seconds
        );
        let middle = found.at_time(found.at_leader.seconds / 2.0);
        assert!(middle.energy <= found.start.energy && middle.energy >= found.at_leader.energy);
    });
}

/// A loop collapses where its speed falls below 2 √(g R), and only there.
#[test]
fn a_loop_collapses_where_it_is_too_slow() {
    each(500, 6, |line, cast| {
        let found = turn_over(line, cast, &Surroundings::USUAL);
        let slowest = 2.0 * (9.806_65 * cast.loop_radius().metres()).sqrt();
        agree(found.slowest.metres_per_second(), slowest, 1e-12);
        let slow = found
            .moments
            .iter()
            .find(|moment| moment.speed < found.slowest);
        match (found.outcome, slow) {
            (Outcome::TurnsOver, None) => {}
            (Outcome::Collapses(moment), Some(slow)) => assert_eq!(moment, *slow),
            (outcome, slow) => panic!("{outcome:?} {slow:?}"),
        }
    });
}
