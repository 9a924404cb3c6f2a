//! How lines turn over, in the words of somebody who casts.

use crate::base::rule::Misfit;
use crate::base::units::show::{Units, number, percent, trimmed};
use crate::base::units::text::Unit;
use crate::base::units::{Energy, Length, METRES_PER_FOOT, Speed};
use crate::edit::turnover::Wish;
use crate::turnover::{Cast, Moment, Outcome, Turnover};

/// What the place is for, and what it is not.
pub const LIMITS: &str = "It compares lines in the same cast. It does not predict a cast: wind, caster and rod are not in it.";
/// How the drawing is made.
pub const DRAWING: &str = "The upper leg ends at the fly, the lower leg at the rod tip, which rests. Heights are drawn double. The fall of the line is left out.";

/// When a line does not turn over.
pub const COLLAPSE: &str = "A loop stays round while it is pressed outward by more than its weight: (v/2)² / R > g. Slower than v = 2 √(g R) it collapses. That is our own rule, no source.";
/// Why there are no arrows.
pub const TOO_MANY: &str = "This drawing has too many points for arrows. Remove some.";

/// The stated cast in one line.
pub fn cast(cast: &Cast, units: Units) -> String {
    format!(
        "The cast: {} of line, a loop {} high, {}. You can change it below.",
        units.show_yarn(cast.outside(), 1),
        units.show_yarn(cast.loop_radius() * 2.0, 1),
        units.show_speed(cast.speed())
    )
}

/// Shares closer than this are alike. Our own choice: a caster would not feel it.
const ALIKE: f64 = 0.03;
/// Lengths of line closer than this are alike.
const ALIKE_LENGTH: Length = Length::from_metres(0.05);

/// A figure of one or two casts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CastFigure {
    /// What tests look for.
    pub key: &'static str,
    /// What it is.
    pub name: &'static str,
    /// One's own, in words.
    pub own: String,
    /// The other's; empty where there is none.
    pub other: String,
    /// By how much they differ; empty where there is no other.
    pub difference: String,
    /// One's own, in SI units; a share as it is.
    pub si: f64,
    /// The other's.
    pub other_si: Option<f64>,
    /// Its formula and source.
    pub ground: &'static str,
}

/// One figure: key, name, value in SI units, how that is written, formula and source.
struct Asked {
    key: &'static str,
    name: &'static str,
    of: fn(&Turnover) -> f64,
    /// When in the cast, seconds; nothing that a collapsed loop does not reach is said.
    when: fn(&Turnover) -> f64,
    written: fn(f64, Units) -> String,
    ground: &'static str,
}

const FIGURES: [Asked; 7] = [
    Asked {
        key: "arrival-speed",
        name: "line speed at the leader",
        of: |cast| cast.at_leader.speed.metres_per_second(),
        when: |cast| cast.at_leader.seconds,
        written: speed,
        ground: "Faster turns over harder. It is the speed of the upper leg as the loop reaches the leader. The loop moves about half as fast. v = √(2 E / M). E is the energy left, M the mass that still moves. After Spolek (Am. J. Phys. 54, 1986) and Robson (Am. J. Phys. 58, 1990). The mass of the loop counts, too.",
    },
    Asked {
        key: "energy-left",
        name: "energy that reaches the leader",
        of: Turnover::energy_left,
        when: |cast| cast.at_leader.seconds,
        written: |share, _| fine_percent(share),
        ground: "More turns over harder, less more gently. The lower leg rests, so only the air takes energy: dE/dt = −P. Drag is split as by Gatti-Bono and Perkins (J. Appl. Mech. 71, 2004). Across the line after White, along it after Majumdar and Shambaugh (1990); both from memory. The air also bends the loop forward; that is our own derivation.",
    },
    Asked {
        key: "fly-speed",
        name: "line speed left at the fly",
        of: |cast| cast.at_fly.speed.metres_per_second(),
        when: |cast| cast.at_fly.seconds,
        written: speed,
        ground: "The same speed when nothing of the upper leg is left. Leader and fly are those of the cast below.",
    },
    Asked {
        key: "turnover-time",
        name: "time to turn over",
        of: |cast| cast.at_fly.seconds,
        when: |cast| cast.at_fly.seconds,
        written: |seconds, _| seconds_of(seconds),
        ground: "The loop moves half as fast as the upper leg: dt = 2 ds / v, after Spolek (1986). The air takes tension from the line, so it rolls a little slower; that is our own derivation.",
    },
    Asked {
        key: "fall",
        name: "fall of the upper leg in that time",
        of: |cast| cast.at_fly.drop.metres(),
        when: |cast| cast.at_fly.seconds,
        written: |metres, units| units.show_yarn(Length::from_metres(metres), 1),
        ground: "Its weight less the drag of the air across it: dw/dt = g − D / M. A caster aims higher by so much.",
    },
    Asked {
        key: "front-fall",
        name: "fall of the front onto the water",
        of: |cast| cast.landing.speed.metres_per_second(),
        when: |_| 0.0,
        written: speed,
        ground: "Slower lands softer. The first metre of line, straight and level. It falls steadily when the air holds its weight: μ g = ½ ρ C d w².",
    },
    Asked {
        key: "landing",
        name: "landing of the front",
        of: |cast| cast.landing.energy_per_metre.joules(),
        when: |_| 0.0,
        written: |joules, units| landing(Energy::from_joules(joules), units),
        ground: "Less lands softer. It is the energy of each metre of the front as it meets the water: ½ μ w². The fly's own kick is not in it.",
    },
];

fn speed(metres_per_second: f64, units: Units) -> String {
    units.show_speed(Speed::from_metres_per_second(metres_per_second))
}

/// To a tenth of a percent: shapes of one class differ by little.
fn fine_percent(share: f64) -> String {
    number(share * 100.0, 1, Unit::Percent)
}

fn seconds_of(seconds: f64) -> String {
    format!("{seconds:.2}\u{202f}s")
}

fn landing(per_metre: Energy, units: Units) -> String {
    let millijoules = per_metre.joules() * 1e3;
    match units {
        Units::Metric => format!("{millijoules:.1} mJ per m"),
        Units::Imperial => format!("{:.1} mJ per ft", millijoules * METRES_PER_FOOT),
    }
}

/// The figures of one's own cast, beside those of the other line's.
pub fn figures(own: &Turnover, other: Option<&Turnover>, units: Units) -> Vec<CastFigure> {
    let figure = |asked: &Asked| {
        let (si, other_si) = ((asked.of)(own), other.map(asked.of));
        let is_reached = |cast: &Turnover| (asked.when)(cast) <= cast.end().seconds;
        let are_reached = is_reached(own) && other.is_none_or(is_reached);
        let written = |cast: &Turnover| {
            let written = is_reached(cast).then(|| (asked.written)((asked.of)(cast), units));
            written.unwrap_or_else(|| "–".to_owned())
        };
        CastFigure {
            key: asked.key,
            name: asked.name,
            own: written(own),
            other: other.map(written).unwrap_or_default(),
            difference: other_si
                .filter(|_| are_reached)
                .map(|other| more(si, other))
                .unwrap_or_default(),
            si,
            other_si,
            ground: asked.ground,
        }
    };
    FIGURES.iter().map(figure).collect()
}

/// By which share a value is more or less than another.
fn more(own: f64, other: f64) -> String {
    let share = own / other - 1.0;
    if !share.is_finite() || share.abs() < 0.005 {
        "alike".to_owned()
    } else if share > 0.0 {
        format!("{} more", percent(share))
    } else {
        format!("{} less", percent(-share))
    }
}

/// Whether a line turns over, and with how much.
pub fn verdict(cast: &Turnover, units: Units) -> String {
    match cast.outcome {
        Outcome::TurnsOver => format!(
            "It turns over. {} of its energy reaches the leader.",
            fine_percent(cast.energy_left())
        ),
        Outcome::Collapses(Moment { to_fly, .. }) => format!(
            "It does not turn over. Its loop becomes slower than {} and collapses with {} to go.",
            units.show_speed(cast.slowest),
            units.show_yarn(to_fly, 1)
        ),
    }
}

/// How one's own line differs from another, as a caster would say it.
pub fn compared(own: &Turnover, other: &Turnover, units: Units) -> Vec<String> {
    let mut said = Vec::new();
    if (own.outside - other.outside).abs() > ALIKE_LENGTH {
        said.push(format!(
            "Only {} of the shorter line can be cast, so this is not the same cast.",
            units.show_yarn(own.outside.min(other.outside), 1)
        ));
    }
    let is_over = |cast: &Turnover| cast.outcome == Outcome::TurnsOver;
    match (is_over(own), is_over(other)) {
        (true, false) => said.push("Yours turns over, the other does not.".to_owned()),
        (false, true) => said.push("Yours does not turn over, the other does.".to_owned()),
        (false, false) => said.push("Neither turns over.".to_owned()),
        (true, true) => {}
    }
    if !is_over(own) || !is_over(other) {
        return said;
    }
    let arrival = own.energy_left() / other.energy_left() - 1.0;
    said.push(by_share(
        arrival,
        [
            "Both arrive with about the same energy.",
            "Yours arrives with",
            "more of its energy: it turns over harder.",
            "less of its energy: it turns over more gently.",
        ],
    ));
    let landing = own.landing.energy_per_metre / other.landing.energy_per_metre - 1.0;
    said.push(by_share(
        landing,
        [
            "Both fronts land about alike.",
            "Your front lands with",
            "more energy: harder.",
            "less energy: softer.",
        ],
    ));
    let time = own.at_fly.seconds / other.at_fly.seconds - 1.0;
    if time.abs() >= ALIKE {
        let side = if time > 0.0 { "longer" } else { "shorter" };
        said.push(format!("Your loop takes {} {side}.", percent(time.abs())));
    }
    said
}

/// A sentence on a difference: alike, or its beginning with the share and its end for more or less.
fn by_share(share: f64, [alike, begin, more, less]: [&str; 4]) -> String {
    if !share.is_finite() || share.abs() < ALIKE {
        alike.to_owned()
    } else {
        let end = if share > 0.0 { more } else { less };
        format!("{begin} {} {end}", percent(share.abs()))
    }
}

/// Steps of a unit to which the ends of a range are named.
const FINE: f64 = 1e3;

/// Why a number of the cast was not taken, in the unit it is typed in.
pub fn misfit(misfit: &Misfit, shown: Unit) -> String {
    let typed = |value: f64, unit: Unit| unit.convert(value, shown).unwrap_or(value);
    match misfit {
        Misfit::OutOfRange { rule, value } => format!(
            "{} is not possible for “{}”. Type {} to {} {}.",
            trimmed(typed(*value, rule.unit), 4),
            rule.name,
            // Rounded inward: what is named is possible.
            trimmed((typed(rule.low, rule.unit) * FINE - 1e-6).ceil() / FINE, 3),
            trimmed(
                (typed(rule.high, rule.unit) * FINE + 1e-6).floor() / FINE,
                3
            ),
            shown.symbol()
        ),
        Misfit::NotANumber { rule } | Misfit::NotWhole { rule, .. } => {
            format!("“{}” needs a number.", rule.name)
        }
    }
}

/// What the arrows on the drawing mean, with the share of energy that reaches the leader now.
pub fn guide(wish: Wish, share: f64) -> String {
    let way = match wish {
        Wish::Gentler => "Gentler",
        Wish::Farther => "More energy",
    };
    format!(
        "{way}: move points along the arrows, and watch the class. Energy at the leader: {}",
        fine_percent(share)
    )
}

/// What a shape that was found is called while it is offered.
pub const fn offered(wish: Wish) -> &'static str {
    match wish {
        Wish::Gentler => "Gentler shape",
        Wish::Farther => "Shape with more energy",
    }
}

/// What was found, with the share of energy that reaches the leader before and after.
pub fn found(wish: Wish, (before, after): (f64, f64)) -> String {
    let name = match wish {
        Wish::Gentler => "A gentler shape of the same class.",
        Wish::Farther => "A shape of the same class that arrives with more energy.",
    };
    format!(
        "{name} Energy at the leader: {} now, {} with it. The figures above compare both.",
        fine_percent(before),
        fine_percent(after)
    )
}

/// A moment of a cast, for the slider.
pub fn moment(cast: &Turnover, seconds: f64, units: Units) -> String {
    let moment = cast.at_time(seconds.min(cast.end().seconds));
    let loop_speed = Speed::from_metres_per_second(moment.speed.metres_per_second() / 2.0);
    format!(
        "{}, loop at {}",
        seconds_of(seconds.min(cast.end().seconds)),
        units.show_speed(loop_speed)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::choice::Choice as _;
    use crate::design::demo::demo;
    use crate::edit::Edit;
    use crate::plan::Plan;
    use crate::turnover::{CastNumber, Surroundings, turn_over};

    fn cast_of(factor: f64, cast: &Cast) -> Turnover {
        let design = Edit::ScaleSizes(factor).apply(&demo()).unwrap();
        let line = Plan::of(&design).fly_line().unwrap();
        turn_over(&line, cast, &Surroundings::USUAL)
    }

    #[test]
    fn a_heavier_line_arrives_with_more() {
        let cast = Cast::default();
        let (heavy, light) = (cast_of(1.15, &cast), cast_of(1.0, &cast));
        let said = compared(&heavy, &light, Units::Metric);
        assert!(said[0].contains("more of its energy"), "{said:?}");
        assert!(said[1].contains("harder"), "{said:?}");
        let back = compared(&light, &heavy, Units::Metric);
        assert!(back[0].contains("less of its energy"), "{back:?}");
        let alike = compared(&light, &light, Units::Metric);
        assert_eq!(
            alike,
            [
                "Both arrive with about the same energy.",
                "Both fronts land about alike."
            ]
        );
    }

    #[test]
    fn a_slow_cast_does_not_turn_over() {
        let slow = Cast::default().with(CastNumber::Speed, 4.0).unwrap();
        let said = verdict(&cast_of(1.0, &slow), Units::Metric);
        assert!(said.starts_with("It does not turn over."), "{said}");
        let said = verdict(&cast_of(1.0, &Cast::default()), Units::Metric);
        assert!(said.starts_with("It turns over."), "{said}");
    }

    #[test]
    fn figures_stand_beside_each_other() {
        let cast = Cast::default();
        let (own, other) = (cast_of(1.15, &cast), cast_of(1.0, &cast));
        for figure in figures(&own, Some(&other), Units::Imperial) {
            assert!(
                figure.other_si.is_some() && !figure.own.is_empty(),
                "{figure:?}"
            );
            assert!(!figure.ground.is_empty());
        }
        let alone = figures(&own, None, Units::Metric);
        assert!(alone.iter().all(|figure| figure.difference.is_empty()));
    }

    #[test]
    fn what_is_out_of_range_is_said_in_the_units_typed() {
        for &asked in CastNumber::ALL {
            let rule = asked.rule();
            for (kept, shown) in [
                (rule.unit, rule.unit),
                (Unit::Metre, Unit::Foot),
                (Unit::Millimetre, Unit::Thousandth),
                (Unit::Gram, Unit::Grain),
                (Unit::MetrePerSecond, Unit::FootPerSecond),
            ] {
                if kept != rule.unit {
                    continue;
                }
                let wrong = Cast::default().with(asked, 1e6).unwrap_err();
                let said = misfit(&wrong, shown);
                assert!(said.contains(asked.name()), "{said}");
                let ends = said.split_once("Type ").unwrap().1;
                let mut words = ends.split(' ');
                for end in [words.next(), words.nth(1)] {
                    let end: f64 = end.unwrap().parse().unwrap();
                    let value = shown.convert(end, kept).unwrap();
                    assert!(Cast::default().with(asked, value).is_ok(), "{said}");
                }
            }
        }
    }
}
