//! Designs a maker might braid: threads, gears and drawing fit each other, so that levels and wheels really change. Machine,
//! build, train, spacing, tails, guide and pins vary.

use proptest::prelude::*;
use taperwright::base::choice::Choice as _;
use taperwright::base::units::Length;
use taperwright::braid::threads::{Build, Level};
use taperwright::design::pin::DraftPin;
use taperwright::design::settings::{DIAMETER, Setting};
use taperwright::design::{Design, Draft};
use taperwright::plan::layout::Ground;
use taperwright::plan::{Action, Event, Plan};

use crate::designs::{parsed, point, usual};
use crate::lines::{Gears, Machine, full_machine, gears, small_machine};

/// A place on the drawing: how far behind the one before, in metres, and how far up the levels, 0 to 1 and a bit beyond.
type Spot = (f64, f64);

/// A wish for a pin: which event of the line it is about, how far it is moved as a share of the line, and a number to
/// choose by.
type PinWish = (usize, f64, u32);

/// The settings that shape a layout, each over what a workshop may have.
fn shaping() -> impl Strategy<Value = Vec<(Setting, f64)>> {
    let tenths = |setting, range: core::ops::RangeInclusive<u32>| {
        range.prop_map(move |value| (setting, f64::from(value) / 10.0))
    };
    let price = proptest::sample::select(vec![0.0, 0.15, 0.15, 5.0]);
    (
        tenths(Setting::LeastSpacing, 10..=1500),
        prop_oneof![1 => Just((Setting::BuriedTail, 0.0)), 3 => tenths(Setting::BuriedTail, 1..=2000)],
        tenths(Setting::GuideRadius, 80..=600),
        tenths(Setting::TargetAngle, 350..=550),
        tenths(Setting::LabelHigh, 200..=240),
        price.prop_map(|price| (Setting::GearChangePrice, price)),
    )
        .prop_map(|(a, b, c, d, e, f)| vec![a, b, c, d, e, f])
}

/// The draft of a workshop whose middle level lies at the target angle with the middle one of its choices of wheels.
fn workshop(
    machine: &Machine,
    build: Build,
    gears: &Gears,
    ends: (u32, u32),
    shaping: &[(Setting, f64)],
) -> Draft {
    let mut draft = usual().draft().clone();
    machine.put_into(&mut draft);
    gears.put_into(&mut draft);
    draft.build = build;
    draft
        .settings
        .set(Setting::EndsPerThread, f64::from(ends.0));
    draft
        .settings
        .set(Setting::HeavierEnds, f64::from(ends.0 + ends.1));
    for &(setting, value) in shaping {
        draft.settings.set(setting, value);
    }
    let ground = Ground::of(&parsed(draft.clone()));
    let load = ground.loads[ground.loads.len() / 2];
    let lay = ground
        .process
        .braiding
        .at_angle(load, ground.process.target)
        .lay;
    let ratio = ground.choices[ground.choices.len() / 2].ratio();
    let rule = Setting::MachineConstant.rule();
    let constant = (lay.millimetres() / ratio).clamp(rule.low, rule.high);
    draft.settings.set(Setting::MachineConstant, constant);
    draft
}

/// The workshop with a drawing between its levels.
fn drawn(mut draft: Draft, spots: &[Spot]) -> Draft {
    let staircase = Ground::of(&parsed(draft.clone())).staircase;
    let (least, most) = (staircase.least() - 0.4, staircase.most() + 0.4);
    let mut at = 0.0;
    let drawn = |(index, &(step, up)): (usize, &Spot)| {
        at += if index == 0 { 0.0 } else { step };
        let size = staircase
            .diameter(least + up * (most - least))
            .millimetres();
        point(at, size.clamp(DIAMETER.low, DIAMETER.high))
    };
    draft.points = spots.iter().enumerate().map(drawn).collect();
    draft
}

fn spots() -> impl Strategy<Value = Vec<Spot>> {
    let step = prop_oneof![1 => 1_u32..=20, 4 => 20_u32..=300].prop_map(|cm| f64::from(cm) / 100.0);
    let up =
        prop_oneof![6 => 0_u32..=8, 1 => 9_u32..=9].prop_map(|eighths| f64::from(eighths) / 8.0);
    proptest::collection::vec((step, up), 2..=10)
}

/// A likely design without pins.
pub(crate) fn unpinned() -> impl Strategy<Value = Design> {
    let machine = prop_oneof![full_machine().boxed(), small_machine().boxed()];
    let ends = (2_u32..=24, 1_u32..=16);
    let wheels = gears(20_u32..=60).boxed();
    let parts = (
        machine,
        proptest::sample::select(Build::ALL),
        wheels,
        ends,
        shaping().boxed(),
        spots().boxed(),
    );
    parts.prop_map(|(machine, build, gears, ends, shaping, spots)| {
        parsed(drawn(
            workshop(&machine, build, &gears, ends, &shaping),
            &spots,
        ))
    })
}

/// A pin of the level, carrier or wheels of an event, a little elsewhere or of another kind than the plan has it.
fn pin_of(event: &Event, design: &Design, length: Length, (_, share, pick): PinWish) -> DraftPin {
    let at_m = (event.at.metres() + share * length.metres()).clamp(0.0, length.metres());
    let Level { threads, heavy } = event.level;
    match (event.change(), pick % 3) {
        (Some((lower, rising)), 0) => DraftPin::Place {
            threads: lower.threads,
            heavy: lower.heavy,
            rising,
            at_m,
        },
        (Some((lower, _)), 1) => {
            let all: Vec<_> = design.track().all().collect();
            let carrier = all[pick as usize % all.len()];
            if matches!(event.action, Action::Swap { .. }) {
                return DraftPin::Swap {
                    heavy: lower.heavy,
                    direction: carrier.direction,
                    number: carrier.number,
                };
            }
            DraftPin::Carrier {
                threads: lower.threads,
                direction: carrier.direction,
                number: carrier.number,
            }
        }
        _ => {
            let choices = design.take_off().choices();
            let wheels = choices[pick as usize % choices.len()];
            let (driver, driven) = (wheels.driver, wheels.driven);
            DraftPin::Wheels {
                threads,
                heavy,
                at_m: event.at.metres(),
                driver,
                driven,
            }
        }
    }
}

/// A likely design with pins of things its line really has.
pub(crate) fn pinned() -> impl Strategy<Value = Design> {
    let wish = (0_usize..60, -0.02_f64..0.02, 0_u32..1000);
    (unpinned(), proptest::collection::vec(wish, 1..=5)).prop_map(|(design, wishes)| {
        let plan = Plan::of(&design);
        let ways = plan
            .events
            .iter()
            .filter(|event| !matches!(event.action, Action::End(_)));
        let events: Vec<&Event> = ways.collect();
        let mut draft = design.draft().clone();
        let pins = wishes
            .iter()
            .map(|&wish| pin_of(events[wish.0 % events.len()], &design, plan.length, wish));
        draft.pins = pins.collect();
        parsed(draft)
    })
}

/// A likely design, with or without pins.
pub(crate) fn likely() -> impl Strategy<Value = Design> {
    prop_oneof![unpinned().boxed(), pinned().boxed()]
}
