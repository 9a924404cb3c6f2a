//! What each figure of the table says of a plan, where it is more than a number and its unit.

use super::{Value, verdict_title};
use crate::base::units::show::{self, Units};
use crate::base::units::{Angle, Density, Force, Length, Mass};
use crate::plan::Plan;

pub(super) fn too_short() -> Value {
    Value {
        si: None,
        text: "line too short".to_owned(),
    }
}

pub(super) fn worst_angle(plan: &Plan) -> Value {
    let worst = plan.worst_angle;
    Value::angle(
        worst.angle,
        format!(
            "{} ({:.1}° off)",
            show::angle(worst.angle),
            worst.off.degrees()
        ),
    )
}

pub(super) fn crossings(plan: &Plan, units: Units) -> Value {
    let per_metre = plan.belly.braid.crossings_per_metre();
    Value {
        si: Some(per_metre),
        text: format!("{} along one rib", units.show_crossings(per_metre)),
    }
}

pub(super) fn cover(plan: &Plan) -> Value {
    let cover = plan.belly.braid.cover();
    let text = if cover >= 1.0 {
        "full, threads touch".to_owned()
    } else {
        format!("{:.0} %", cover * 100.0)
    };
    Value {
        si: Some(cover),
        text,
    }
}

pub(super) fn long(length: Length, units: Units) -> Value {
    Value {
        si: Some(length.metres()),
        text: units.show_yarn(length, 0),
    }
}

pub(super) fn yarn_mass(plan: &Plan) -> Value {
    let yarn = plan.yarn;
    Value {
        si: Some(yarn.mass.kilograms()),
        text: format!(
            "{} ({} to buy)",
            show::grams(yarn.mass),
            show::grams(yarn.bought)
        ),
    }
}

pub(super) fn fullest(plan: &Plan) -> Value {
    let masses = plan.bobbins.iter().map(|bobbin| bobbin.mass);
    let fullest = masses.fold(Mass::ZERO, Mass::max);
    let small = plan
        .bobbins
        .iter()
        .filter(|bobbin| bobbin.runs_out.is_some())
        .count();
    let text = match small {
        0 => format!("{}, fits", show::grams(fullest)),
        _ => format!("{}, does not fit", show::grams(fullest)),
    };
    Value {
        si: Some(fullest.kilograms()),
        text,
    }
}

pub(super) fn rear_head(plan: &Plan) -> Value {
    match plan.rear_head {
        Some(rear) => Value {
            si: Some(rear.mass.kilograms()),
            text: format!(
                "{}, {}",
                show::mass(rear.mass),
                verdict_title(&rear.verdict).to_lowercase()
            ),
        },
        None => Value {
            si: None,
            text: "no tip there".to_owned(),
        },
    }
}

pub(super) fn percent(share: f64, decimals: usize) -> Value {
    Value {
        si: Some(share),
        text: format!("{:.decimals$} %", share * 100.0),
    }
}

/// Water, for sinking and floating, g/cm³.
const WATER: f64 = 1.0;

pub(super) fn density(density: Density, heavier: &str, lighter: &str) -> Value {
    let grams = density.grams_per_cubic_centimetre();
    let says = if grams > WATER { heavier } else { lighter };
    Value {
        si: Some(density.kilograms_per_cubic_metre()),
        text: format!("{grams:.2} g/cm³, {says}"),
    }
}

pub(super) fn force(force: Force, plan: &Plan, units: Units) -> Value {
    Value {
        si: Some(force.newtons()),
        text: format!(
            "{} at {}",
            units.show_force(force),
            units.show_position(plan.strength.at)
        ),
    }
}

pub(super) fn one_gear(plan: &Plan, _: Units) -> Value {
    let (wheels, line) = (plan.layout.one_throughout, &plan.one_gear);
    let target = line.process().target;
    let ends = line
        .stretches()
        .iter()
        .flat_map(|stretch| [stretch.from(), stretch.to()].map(|at| stretch.angle_at(at)));
    let worst = ends.fold(Angle::ZERO, |worst, angle| {
        worst.max((angle - target).abs())
    });
    Value {
        si: Some(worst.radians()),
        text: format!("gear {wheels}: up to {:.1}° off", worst.degrees()),
    }
}

pub(super) fn circuits(plan: &Plan) -> Value {
    let workload = plan.workload;
    let turns = workload.circuits * workload.handle_turns;
    let text = if turns > 0.0 {
        format!("{:.0}, {turns:.0} handle turns", workload.circuits)
    } else {
        format!("{:.0}", workload.circuits)
    };
    Value {
        si: Some(workload.circuits),
        text,
    }
}

pub(super) fn time(plan: &Plan) -> Value {
    Value {
        si: Some(plan.workload.minutes * 60.0),
        text: show::minutes(plan.workload.minutes),
    }
}

pub(super) fn count(count: usize) -> f64 {
    count as f64
}
