//! What is wound: no thread is made or lost between winding, braiding and the next line, and one bobbin that was timed teaches
//! the others.

use proptest::prelude::*;
use taperwright::base::units::{Length, Mass};
use taperwright::keep::book::machine_notes::MachineNotes;
use taperwright::plan::Plan;
use taperwright::plan::bobbins::Bobbin;
use taperwright::plan::left_over::{LEAST_LEFT, left_on};
use taperwright::plan::weighed_bobbin::{WeighedBobbin, WeighedVerdict};
use taperwright::plan::winder::{TimedBobbin, Winder};
use taperwright::plan::wound::{Wound, WoundState, weight_in_milligrams};

use crate::likely::unpinned;
use crate::lines::cases;

/// Half the step in which thread is ticked.
const HALF_STEP: f64 = 0.05 + 1e-9;

/// Bobbins ticked or weighed: each by its own share of the plan, none where the share is below a tenth.
fn wound(bobbins: &[Bobbin], shares: &[f64]) -> Wound {
    let mut wound = Wound::default();
    for (bobbin, share) in bobbins.iter().zip(shares.iter().cycle()) {
        if (0.9..1.1).contains(share) {
            wound.toggle(bobbin, bobbins);
        } else if *share >= 0.1 {
            wound.weigh(bobbin, bobbins, weight_in_milligrams(bobbin.mass * *share));
        }
    }
    wound
}

proptest! {
    #![proptest_config(cases(40))]

    /// Wound is used and left, and nothing is less than nothing.
    #[test]
    fn what_was_wound_is_used_or_left(design in unpinned(), shares in prop::collection::vec(0.0_f64..1.6, 5)) {
        let plan = Plan::of(&design);
        let wound = wound(&plan.bobbins, &shares);
        let braided = plan.unadjusted().bobbins(&design);
        prop_assert_eq!(&braided, &plan.bobbins, "braided as planned, it takes what was planned");
        let left = left_on(&braided, &wound);
        prop_assert_eq!(left.len(), wound.ticks().len());
        for one in &left {
            let sum = one.used + one.left - one.wound;
            prop_assert!(sum.abs().metres() < 1e-9, "{:?}", one);
            prop_assert!(one.used >= Length::ZERO && one.left >= Length::ZERO, "{:?}", one);
        }
    }

    /// Wound as planned, each leaves its allowance, to the step of a tick.
    #[test]
    fn bobbins_wound_as_planned_leave_their_allowance(design in unpinned()) {
        let plan = Plan::of(&design);
        let wound = wound(&plan.bobbins, &[1.0]);
        prop_assert_eq!(wound.count(&plan.bobbins), plan.bobbins.len());
        for (one, bobbin) in left_on(&plan.bobbins, &wound).iter().zip(&plan.bobbins) {
            let allowance = design.thread_allowance() * f64::from(bobbin.engagements);
            // Where there is no allowance, rounding down leaves nothing.
            let off = one.left - allowance;
            prop_assert!(off.abs().metres() <= HALF_STEP, "{:?}: {:?}", one, allowance);
        }
    }

    /// Noted and used again, it is the same thread, and is then noted no more.
    #[test]
    fn thread_left_is_at_one_place_only(design in unpinned(), shares in prop::collection::vec(0.0_f64..1.6, 5)) {
        let plan = Plan::of(&design);
        let left = left_on(&plan.bobbins, &wound(&plan.bobbins, &shares));
        let mut notes = MachineNotes::default();
        notes.note_left(&left);
        let mut next = Wound::default();
        notes.use_left(&plan.bobbins, &mut next);
        prop_assert!(notes.left_over.is_empty());
        for one in &left {
            let of_it = |it: &&Bobbin| (it.carrier, it.ends) == (one.carrier, one.ends);
            let bobbin = plan.bobbins.iter().find(of_it).expect("it is of this line");
            let on = next.thread_on(bobbin).unwrap_or(Length::ZERO);
            let noted = if one.left >= LEAST_LEFT { one.left } else { Length::ZERO };
            prop_assert!((on - noted).abs().metres() <= HALF_STEP, "{:?}: {:?}", one, on);
        }
    }

    /// A weight is enough or too short; what is too short runs out on the line, and what is missing makes it whole.
    #[test]
    fn a_weight_is_judged_as_the_plan_has_it(design in unpinned(), share in 0.05_f64..1.5) {
        let plan = Plan::of(&design);
        for bobbin in &plan.bobbins {
            let weighed = WeighedBobbin::of(bobbin, bobbin.mass * share).expect("it is planned");
            let empty = plan.runs_out_with(&design, bobbin, weighed.by_weight);
            match weighed.verdict {
                WeighedVerdict::TooShort(short) => {
                    let whole = weighed.by_weight + short - bobbin.length;
                    prop_assert!(whole.abs().metres() < 1e-9);
                    let empty = empty.expect("it runs out");
                    prop_assert!(bobbin.enters <= empty && empty <= plan.length);
                }
                WeighedVerdict::AsPlanned => prop_assert!((0.98..=1.02).contains(&share)),
                WeighedVerdict::More => {
                    prop_assert!(share > 1.0);
                    prop_assert_eq!(empty, None);
                }
            }
        }
    }

    /// The bobbin that was timed gives back its own figures; more thread takes longer, and never fewer turns.
    #[test]
    fn a_winder_gives_back_what_it_was_taught(design in unpinned(), minutes in 0.1_f64..60.0, turns in 1.0_f64..5000.0) {
        let plan = Plan::of(&design);
        let thread = design.thread();
        let first = plan.bobbins[0];
        let timed = TimedBobbin {
            thread: first.length,
            linear_density: first.linear_density(),
            minutes: Some(minutes),
            turns: Some(turns),
        };
        let winder = Winder::of(timed, design.bobbin(), thread.fibre_density).expect("it teaches");
        let nothing = Wound::default();
        let work = winder.work_of(&first, &plan.bobbins, &nothing).expect("it is known");
        let is = |value: Option<f64>, wanted: f64| value.is_some_and(|it| (it / wanted - 1.0).abs() < 1e-9);
        prop_assert!(is(work.minutes, minutes) && is(work.turns, turns), "{:?}", work);
        let more = winder.work(first.linear_density(), Length::ZERO, first.length * 2.0).expect("it is known");
        prop_assert!(is(more.minutes, 2.0 * minutes));
        let ratio = more.turns.unwrap_or_default() / turns;
        prop_assert!(1.0 < ratio && ratio < 2.0, "{}", ratio);
        // The time for all is the sum of the tiles, and none is left once all are wound.
        let all: f64 = plan.bobbins.iter().filter_map(|it| winder.work_of(it, &plan.bobbins, &nothing)?.minutes).sum();
        prop_assert!(is(winder.minutes_left(&plan.bobbins, &nothing), all));
        prop_assert_eq!(winder.minutes_left(&plan.bobbins, &wound(&plan.bobbins, &[1.0])), None);
    }

    /// Any weight above zero that a bobbin can have is noted to the milligram; all others are refused.
    #[test]
    fn a_weight_is_noted_to_the_milligram(grams in -1.0_f64..20_000.0) {
        match weight_in_milligrams(Mass::from_grams(grams)) {
            Some(mg) => prop_assert!((f64::from(mg) - 1e3 * grams).abs() <= 0.5 + 1e-6),
            None => prop_assert!(!(0.000_6..=9_999.999).contains(&grams)),
        }
    }

    /// A tick by weight is wound exactly where the weight is not too short.
    #[test]
    fn a_bobbin_is_wound_where_its_weight_is_enough(design in unpinned(), share in 0.5_f64..1.5) {
        let plan = Plan::of(&design);
        let bobbin = &plan.bobbins[0];
        let mut wound = Wound::default();
        wound.weigh(bobbin, &plan.bobbins, weight_in_milligrams(bobbin.mass * share));
        if let Some(weighed) = wound.weighed(bobbin) {
            let is_short = matches!(weighed.verdict, WeighedVerdict::TooShort(_));
            let is_wound = wound.state(bobbin, &plan.bobbins) == WoundState::Wound;
            prop_assert_eq!(is_wound, !is_short);
        }
    }
}
