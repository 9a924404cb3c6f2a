//! Thread plans to choose from, as a small chart: how likely each makes the class, against how often the braider stops for a change.
//! The best are at the upper left.

/// Size of the chart, in its own pixels.
pub const SIZE: (f64, f64) = (340.0, 200.0);
/// Radius of a dot: a target for a finger. Common practice, 24 pixels and more across.
pub const RADIUS: f64 = 14.0;
/// Room for what is written at the left and below, and around the dots.
const LEFT: f64 = 56.0;
const BELOW: f64 = 40.0;
const AROUND: f64 = RADIUS + 4.0;
/// Chances are drawn over at least this range, so that plans alike by chance do not look far apart. Our own choice.
const LEAST_CHANCE: f64 = 0.1;
/// The same for the changes.
const LEAST_CHANGES: f64 = 10.0;

/// A plan to be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The chance of the class, 0 to 1.
    pub chance: f64,
    /// Changes of thread and gear.
    pub changes: usize,
}

/// The chart.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanChoice {
    /// The middle of the dot of each plan, in their order, in pixels from the upper left corner. No two cover each other.
    pub dots: Vec<(f64, f64)>,
    /// Where the axes meet.
    pub origin: (f64, f64),
    /// The chances at which the upright axis is marked, with their height.
    pub chances: [(f64, f64); 2],
    /// The changes at which the level axis is marked, with their place.
    pub changes: [(f64, f64); 2],
}

/// The chart of some plans; `None` for fewer than two, which leave nothing to choose.
pub fn plan_choice(plans: &[Candidate]) -> Option<PlanChoice> {
    if plans.len() < 2 {
        return None;
    }
    let (width, height) = SIZE;
    let chances = range(plans.iter().map(|plan| plan.chance), LEAST_CHANCE);
    let chances = (chances.0.max(0.0), chances.1.min(1.0));
    let changes = range(plans.iter().map(|plan| plan.changes as f64), LEAST_CHANGES);
    let changes = (changes.0.max(0.0), changes.1);
    let (left, right) = (LEFT + AROUND, width - AROUND);
    let (top, foot) = (AROUND, height - BELOW - AROUND);
    let x = |count: f64| left + (count - changes.0) / (changes.1 - changes.0) * (right - left);
    let y = |chance: f64| foot - (chance - chances.0) / (chances.1 - chances.0) * (foot - top);
    let mut dots: Vec<(f64, f64)> = Vec::new();
    for plan in plans {
        let dot = (x(plan.changes as f64), y(plan.chance));
        dots.push(clear_of(&dots, dot, (left, right), (top, foot)));
    }
    Some(PlanChoice {
        dots,
        origin: (LEFT, height - BELOW),
        chances: [chances.0, chances.1].map(|chance| (chance, y(chance))),
        changes: [changes.0, changes.1].map(|count| (count, x(count))),
    })
}

/// From the least to the most, and at least so wide.
fn range(values: impl Iterator<Item = f64>, least: f64) -> (f64, f64) {
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let missing = (least - (high - low)).max(0.0);
    (low - missing / 2.0, high + missing / 2.0)
}

/// The free place nearest to where a dot belongs, on rings around it.
fn clear_of(
    others: &[(f64, f64)],
    (x, y): (f64, f64),
    (left, right): (f64, f64),
    (top, foot): (f64, f64),
) -> (f64, f64) {
    const STEPS: u32 = 16;
    let apart = 2.0 * RADIUS;
    let is_free = |&(x, y): &(f64, f64)| {
        let is_inside = (left..=right).contains(&x) && (top..=foot).contains(&y);
        is_inside
            && others
                .iter()
                .all(|other| (x - other.0).hypot(y - other.1) >= apart)
    };
    let ring = |reach: f64| {
        (0..STEPS).map(move |step| {
            let turn = f64::from(step) / f64::from(STEPS) * core::f64::consts::TAU;
            (x + reach * turn.cos(), y + reach * turn.sin())
        })
    };
    let rings = (1..=40).flat_map(|count| ring(f64::from(count) * RADIUS / 2.0));
    core::iter::once((x, y))
        .chain(rings)
        .find(is_free)
        .unwrap_or((x, y))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plan(chance: f64, changes: usize) -> Candidate {
        Candidate { chance, changes }
    }

    #[test]
    fn likelier_is_higher_and_more_work_farther_right() {
        let chart = plan_choice(&[plan(0.9, 12), plan(0.5, 30)]).expect("two to choose from");
        let [best, other] = chart.dots[..] else {
            panic!("two dots")
        };
        assert!(best.1 < other.1 && best.0 < other.0);
        assert_eq!(plan_choice(&[plan(0.9, 12)]), None);
    }

    #[test]
    fn alike_plans_stand_beside_each_other_within_the_chart() {
        let chart = plan_choice(&[plan(0.34, 19); 9]).expect("nine to choose from");
        for (index, a) in chart.dots.iter().enumerate() {
            assert!((RADIUS..=SIZE.0 - RADIUS).contains(&a.0), "{a:?}");
            assert!((RADIUS..=SIZE.1 - RADIUS).contains(&a.1), "{a:?}");
            for b in &chart.dots[..index] {
                assert!((a.0 - b.0).hypot(a.1 - b.1) > 2.0 * RADIUS - 1e-9);
            }
        }
    }

    #[test]
    fn axes_keep_to_what_can_be() {
        let chart = plan_choice(&[plan(0.0, 0), plan(1.0, 1)]).expect("two to choose from");
        assert_eq!(chart.chances.map(|(chance, _)| chance), [0.0, 1.0]);
        assert!(chart.changes[0].0 >= 0.0);
    }
}
