//! Random valid drafts: every setting over its whole range with its ends, every fibre, build and train, machines fully and
//! partly mounted, gears that fit, pins, drawings.

use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use taperwright::base::choice::Choice as _;
use taperwright::base::rule::Rule;
use taperwright::braid::recipe::{DraftStep, Heat, StepKind};
use taperwright::braid::takeoff::TEETH;
use taperwright::braid::takeoff::Train;
use taperwright::braid::threads::Build;
use taperwright::braid::track::{Direction, MOST_CARRIERS, Pattern, Track};
use taperwright::braid::yarn::{Condition, Fibre};
use taperwright::design::machine::Mounted;
use taperwright::design::parameters::DraftLearned;
use taperwright::design::pin::DraftPin;
use taperwright::design::refusal::LEAST_SPACING;
use taperwright::design::settings::{DIAMETER, POSITION, Setting, Settings};
use taperwright::design::{Design, Draft, DraftPoint};

use crate::designs::{parsed, usual};

/// Few enough cases that the whole suite takes seconds; the same ones every time, so that a failure can be repeated.
pub(crate) fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(0x7A9E),
        ..ProptestConfig::default()
    }
}

/// A value on a rule's grid, both ends of the range often.
fn value(rule: Rule) -> impl Strategy<Value = f64> {
    let (low, high) = (rule.quanta(rule.low), rule.quanta(rule.high));
    prop_oneof![1 => Just(low), 1 => Just(high), 3 => low..=high]
        .prop_map(move |quanta| rule.value(quanta))
}

/// A machine as a draft describes it, and how many threads are taken from it.
#[derive(Clone, Debug)]
pub(crate) struct Machine {
    pattern: Pattern,
    horn_gears: u32,
    mounted: Mounted,
    fewest: u32,
    most: u32,
}

impl Machine {
    fn track(&self) -> Option<Track> {
        let every = u64::MAX >> (64 - self.horn_gears * self.pattern.slots() / 4);
        let bits = |places: &[u32]| places.iter().fold(0, |set, place| set | 1_u64 << place);
        let set = |places: &[u32]| {
            if places.is_empty() {
                every
            } else {
                bits(places)
            }
        };
        let ways = [&self.mounted.clockwise, &self.mounted.counter_clockwise];
        Track::with_mounted(
            self.horn_gears,
            self.pattern.slots(),
            ways.map(|places| set(places)),
        )
        .ok()
    }

    pub(crate) fn put_into(&self, draft: &mut Draft) {
        draft.pattern = self.pattern;
        draft.mounted = self.mounted.clone();
        draft
            .settings
            .set(Setting::HornGears, f64::from(self.horn_gears));
        draft
            .settings
            .set(Setting::FewestThreads, f64::from(self.fewest));
        draft
            .settings
            .set(Setting::MostThreads, f64::from(self.most));
    }
}

/// Every ring there is, by its places both ways.
fn rings(places: core::ops::RangeInclusive<u32>) -> Vec<(Pattern, u32)> {
    let horn_gears = |&pattern: &Pattern| (2..=64).step_by(2).map(move |gears| (pattern, gears));
    let all = Pattern::ALL.iter().flat_map(horn_gears);
    let exists =
        |&(pattern, gears): &(Pattern, u32)| places.contains(&(gears * pattern.slots() / 2));
    all.filter(exists).collect()
}

/// Some places of a direction, each once, or none, which stands for all of them.
fn places(each_way: u32, are_all_allowed: bool) -> impl Strategy<Value = Vec<u32>> {
    let most = each_way.min(MOST_CARRIERS - 2);
    let all: Vec<u32> = (0..each_way).collect();
    let some = proptest::sample::subsequence(all, 2..=most as usize);
    prop_oneof![u32::from(are_all_allowed) => Just(Vec::new()), 3 => some]
}

/// So few threads of those a machine can run that every drawing meets both ends.
fn threads(machine: Machine) -> impl Strategy<Value = Machine> {
    let most_there_are = machine.track().map_or(3, Track::most_threads);
    (3..=most_there_are).prop_flat_map(move |most| {
        let machine = machine.clone();
        (3..=most).prop_map(move |fewest| Machine {
            fewest,
            most,
            ..machine.clone()
        })
    })
}

/// Every ring that may have a carrier on each place, mounted so.
pub(crate) fn full_machine() -> impl Strategy<Value = Machine> {
    let ring = |(pattern, horn_gears)| Machine {
        pattern,
        horn_gears,
        mounted: Mounted::default(),
        fewest: 3,
        most: 3,
    };
    proptest::sample::select(rings(4..=MOST_CARRIERS))
        .prop_map(ring)
        .prop_flat_map(threads)
}

/// Every ring there is with carriers on some of its places; the directions may differ in number.
fn part_machine(range: core::ops::RangeInclusive<u32>) -> impl Strategy<Value = Machine> {
    let mounted = |(pattern, horn_gears): (Pattern, u32)| {
        let each_way = horn_gears * pattern.slots() / 4;
        let ways = (places(each_way, true), places(each_way, true));
        ways.prop_map(move |(clockwise, counter_clockwise)| Machine {
            pattern,
            horn_gears,
            mounted: Mounted {
                clockwise,
                counter_clockwise,
            },
            fewest: 3,
            most: 3,
        })
    };
    let exists = |machine: &Machine| machine.track().is_some();
    let ring = proptest::sample::select(rings(range)).prop_flat_map(mounted);
    ring.prop_filter("too many carriers", exists)
        .prop_flat_map(threads)
}

/// Rings of at most 32 places, partly mounted.
pub(crate) fn small_machine() -> impl Strategy<Value = Machine> {
    part_machine(4..=32)
}

/// Any machine, fully or partly mounted.
pub(crate) fn machine() -> impl Strategy<Value = Machine> {
    prop_oneof![3 => full_machine().boxed(), 3 => small_machine().boxed(), 1 => part_machine(4..=128).boxed()]
}

/// A train with gears that can be fitted to it, and the sum of a pair.
#[derive(Clone, Debug)]
pub(crate) struct Gears {
    train: Train,
    teeth: Vec<u32>,
    sum: u32,
}

impl Gears {
    pub(crate) fn put_into(&self, draft: &mut Draft) {
        draft.train = self.train;
        draft.gears = self.teeth.iter().map(|&teeth| TEETH.value(teeth)).collect();
        draft.settings.set(Setting::PairSum, f64::from(self.sum));
    }
}

/// Gears that make at least one pair where the train takes pairs; the sum is that of the first two.
pub(crate) fn gears(teeth: impl Strategy<Value = u32>) -> impl Strategy<Value = Gears> {
    let owned = proptest::collection::vec(teeth, 2..=20);
    (proptest::sample::select(Train::ALL), owned).prop_map(|(train, mut teeth)| {
        let sum = teeth[0] + teeth[1];
        if !train.is_pair() && sum % 3 == 0 {
            teeth.truncate(1);
        }
        Gears { train, teeth, sum }
    })
}

fn any_teeth() -> impl Strategy<Value = u32> {
    value(TEETH).prop_map(|teeth| TEETH.quanta(teeth))
}

/// Pins of every kind, of levels, carriers, places and gears that a line may have or not.
fn any_pins() -> impl Strategy<Value = Vec<DraftPin>> {
    let threads = || prop_oneof![4 => 3_u32..=20, 1 => 0..=MOST_CARRIERS];
    let heavy = || prop_oneof![2 => Just(0_u32), 1 => 0..=16_u32];
    let place = (threads(), heavy(), any::<bool>(), value(POSITION)).prop_map(
        |(threads, heavy, rising, at_m)| DraftPin::Place {
            threads,
            heavy,
            rising,
            at_m,
        },
    );
    let carrier = (
        threads(),
        proptest::sample::select(Direction::ALL),
        0..=MOST_CARRIERS,
    )
        .prop_map(|(threads, direction, number)| DraftPin::Carrier {
            threads,
            direction,
            number,
        });
    let swap = (
        0..=20_u32,
        proptest::sample::select(Direction::ALL),
        0..=MOST_CARRIERS,
    )
        .prop_map(|(heavy, direction, number)| DraftPin::Swap {
            heavy,
            direction,
            number,
        });
    let wheels = (
        threads(),
        heavy(),
        value(POSITION),
        any_teeth(),
        any_teeth(),
    )
        .prop_map(|(threads, heavy, at_m, driver, driven)| DraftPin::Wheels {
            threads,
            heavy,
            at_m,
            driver,
            driven,
        });
    let pin = prop_oneof![place.boxed(), carrier.boxed(), swap.boxed(), wheels.boxed()];
    proptest::collection::vec(pin, 0..=6)
}

/// Every setting somewhere in its range, those that must fit each other so that they do.
fn settings(build: Build) -> impl Strategy<Value = Settings> {
    // On the heap, all of it: as one value on the stack it would be too large for a test's thread.
    let values: Vec<_> = Setting::ALL
        .iter()
        .map(|setting| value(setting.rule()).boxed())
        .collect();
    values.prop_map(move |values| {
        let mut settings = Settings::default();
        for (setting, value) in Setting::ALL.into_iter().zip(values) {
            settings.set(setting, value);
        }
        in_order(&mut settings, Setting::LabelLow, Setting::LabelHigh);
        in_order(
            &mut settings,
            Setting::FibreFraction,
            Setting::ThreadPacking,
        );
        in_order(&mut settings, Setting::BobbinBarrel, Setting::BobbinFull);
        apart(
            &mut settings,
            Setting::BobbinBarrel,
            Setting::BobbinFull,
            0.1,
        );
        if build != Build::MoreThreads {
            in_order(&mut settings, Setting::EndsPerThread, Setting::HeavierEnds);
            apart(
                &mut settings,
                Setting::EndsPerThread,
                Setting::HeavierEnds,
                1.0,
            );
        }
        settings
    })
}

/// The smaller of two values first.
fn in_order(settings: &mut Settings, low: Setting, high: Setting) {
    let values = [low, high].map(|setting| settings.get(setting));
    settings.set(low, values[0].min(values[1]).min(low.rule().high));
    settings.set(high, values[0].max(values[1]).max(high.rule().low));
}

/// Where two values are alike, the smaller one a step less, or the larger one a step more.
fn apart(settings: &mut Settings, low: Setting, high: Setting, step: f64) {
    let (small, large) = (settings.get(low), settings.get(high));
    if small < large {
        return;
    }
    if small > low.rule().low {
        settings.set(low, low.rule().value(low.rule().quanta(large - step)));
    } else {
        settings.set(high, high.rule().value(high.rule().quanta(small + step)));
    }
}

/// A drawing of 2 to 60 points; steps from the least allowed to a sixtieth of the longest line.
pub(crate) fn points(
    diameter: impl Strategy<Value = f64>,
) -> impl Strategy<Value = Vec<DraftPoint>> {
    let least = POSITION.quanta(LEAST_SPACING);
    let step = prop_oneof![1 => Just(least), 4 => least..=POSITION.quanta(POSITION.high / 60.0)];
    proptest::collection::vec((step, diameter), 2..=60).prop_map(|steps| {
        let mut at = 0;
        let point = |(index, (step, diameter_mm)): (usize, (u32, f64))| {
            at += if index == 0 { 0 } else { step };
            DraftPoint {
                at_m: POSITION.value(at),
                diameter_mm,
            }
        };
        steps.into_iter().enumerate().map(point).collect()
    })
}

/// Diameters the usual workshop can braid in 8 to 16 threads, 25 µm apart so that neighbours are often equal.
pub(crate) fn usual_diameter() -> impl Strategy<Value = f64> {
    (30_u32..=43).prop_map(|step| f64::from(step) * 0.025)
}

fn texts() -> impl Strategy<Value = (String, String)> {
    ("[a-zA-Zäß✓ -]{0,20}", "[a-z0-9 ,;\n]{0,60}")
}

/// What is chosen from lists: fibre, condition, build, name and notes.
fn words() -> impl Strategy<Value = (Fibre, Condition, Build, (String, String))> {
    (
        proptest::sample::select(Fibre::ALL),
        proptest::sample::select(Condition::ALL),
        proptest::sample::select(Build::ALL),
        texts(),
    )
}

/// Any dressing steps, each with values its kind may have.
fn recipe() -> impl Strategy<Value = Vec<DraftStep>> {
    let step = (
        proptest::sample::select(StepKind::ALL),
        proptest::sample::select(Heat::ALL),
        proptest::array::uniform5(0.0..=1.0),
    );
    let step = step.prop_map(|(kind, heat, shares): (StepKind, Heat, [f64; 5])| {
        let mut step = DraftStep::usual(kind);
        if kind == StepKind::Warm {
            step.heat = heat;
        }
        for (&value, share) in kind.takes().iter().zip(shares) {
            let rule = value.rule();
            let number = rule.low + share * (rule.high - rule.low);
            step.set(value, rule.value(rule.quanta(number)));
        }
        step
    });
    proptest::collection::vec(step, 0..=16)
}

/// What may have been learnt, often nothing.
fn learned() -> impl Strategy<Value = Option<DraftLearned>> {
    let some = (
        proptest::array::uniform7(0_u32..=100_000),
        proptest::collection::vec(-100_i8..=100, 21),
        0_u32..=500,
        0_u32..=40,
    );
    let some = some.prop_map(|(spreads, correlations, scatter, measured)| DraftLearned {
        spreads: spreads.map(|count| f64::from(count) / 1e4),
        correlations_percent: core::array::from_fn(|k| f64::from(correlations[k])),
        scatter_percent: f64::from(scatter) / 100.0,
        swatches: measured,
        lines: measured / 2,
    });
    proptest::option::of(some)
}

/// Any valid draft.
pub(crate) fn draft() -> impl Strategy<Value = Draft> {
    let drawing = points(value(DIAMETER)).boxed();
    let parts = (
        machine().boxed(),
        words().boxed(),
        gears(any_teeth()).boxed(),
        any_pins().boxed(),
        drawing,
        (recipe(), learned(), "[a-zA-Z ,]{0,20}").boxed(),
    );
    parts.prop_flat_map(|(machine, words, gears, pins, points, dressed)| {
        let (fibre, condition, build, (name, notes)) = words;
        settings(build).prop_map(move |settings| {
            let (mut recipe, learned, workshop) = dressed.clone();
            // Nothing can be left in a jar that is not in the air around it.
            for step in &mut recipe {
                step.mbar = step.mbar.min(settings.get(Setting::AirPressure).floor());
            }
            let mut draft = Draft {
                recipe,
                learned,
                workshop,
                name: name.clone(),
                notes: notes.clone(),
                settings,
                fibre,
                condition,
                build,
                pins: pins.clone(),
                points: points.clone(),
                ..usual().draft().clone()
            };
            machine.put_into(&mut draft);
            gears.put_into(&mut draft);
            draft
        })
    })
}

/// Any valid design.
pub(crate) fn any_design() -> impl Strategy<Value = Design> {
    draft().prop_map(parsed)
}

/// A design of the usual workshop with a random drawing, such as a maker might braid.
pub(crate) fn usual_design() -> impl Strategy<Value = Design> {
    points(usual_diameter()).prop_map(|points| {
        let mut draft = usual().draft().clone();
        draft.points = points;
        parsed(draft)
    })
}

/// So many values of a strategy, the same ones every time.
pub(crate) fn some_of<T: core::fmt::Debug>(
    strategy: &impl Strategy<Value = T>,
    count: usize,
) -> Vec<T> {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let mut next = || {
        strategy
            .new_tree(&mut runner)
            .expect("the strategy never gives up")
            .current()
    };
    (0..count).map(|_| next()).collect()
}
