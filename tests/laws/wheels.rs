//! Wheels: what can be fitted, and that no other assignment is cheaper.

use proptest::prelude::*;
use taperwright::base::units::{Angle, Length};
use taperwright::braid::gearing::{Gearing, Interval};
use taperwright::braid::geometry::{Braiding, Load};
use taperwright::braid::takeoff::{TakeOff, Train, Wheels};

use crate::designs::usual;
use crate::lines::{Gears, cases, gears};

/// A small question for the gearing: a take-off, loads, intervals and a price.
#[derive(Clone, Debug)]
struct Question {
    take_off: TakeOff,
    choices: Vec<Wheels>,
    braiding: Braiding,
    loads: Vec<Load>,
    intervals: Vec<Interval>,
    price: f64,
}

/// Degrees squared times metres and prices; then the steps between the lays, as differences of their logarithms.
type Cost = (f64, f64);

const TARGET: f64 = 45.0;

impl Question {
    fn choose(&self) -> Vec<Wheels> {
        let gearing = Gearing {
            take_off: &self.take_off,
            choices: &self.choices,
            braiding: &self.braiding,
            loads: &self.loads,
            target: Angle::from_degrees(TARGET),
            price: Length::from_metres(self.price),
        };
        gearing.choose(&gearing.options(&self.intervals), &self.intervals)
    }

    /// What an assignment costs; endless where it does not honour a pin.
    fn cost(&self, wheels: &[Wheels]) -> Cost {
        let of_tread = |(interval, &wheels): (&Interval, &Wheels)| {
            let angle = self
                .braiding
                .at_lay(self.loads[interval.load], self.take_off.lay(wheels))
                .angle;
            let honours = interval.pinned.is_none_or(|pinned| pinned == wheels);
            let error = (angle.degrees() - TARGET).powi(2) * interval.length.metres();
            if honours { error } else { f64::INFINITY }
        };
        let errors: f64 = self.intervals.iter().zip(wheels).map(of_tread).sum();
        let changes = wheels.windows(2).filter(|pair| pair[0] != pair[1]);
        let steps = wheels
            .windows(2)
            .map(|pair| (pair[1].ratio() / pair[0].ratio()).ln().abs());
        (errors + self.price * changes.count() as f64, steps.sum())
    }

    /// Every assignment there is.
    fn all(&self) -> Vec<Vec<Wheels>> {
        self.intervals.iter().fold(vec![Vec::new()], |all, _| {
            let longer = |one: &Vec<Wheels>| {
                let one = one.clone();
                self.choices
                    .iter()
                    .map(move |&wheels| [&one[..], &[wheels]].concat())
            };
            all.iter().flat_map(longer).collect()
        })
    }

    /// The least cost of all assignments, and the least steps of those that cost no more.
    fn best(&self) -> Cost {
        let costs: Vec<Cost> = self.all().iter().map(|wheels| self.cost(wheels)).collect();
        let least = costs
            .iter()
            .map(|cost| cost.0)
            .fold(f64::INFINITY, f64::min);
        let alike = costs.iter().filter(|cost| cost.0 <= least + ALIKE);
        (
            least,
            alike.map(|cost| cost.1).fold(f64::INFINITY, f64::min),
        )
    }
}

/// Differences of cost smaller than rounding are none.
const ALIKE: f64 = 1e-8;

/// A take-off of such gears; the lay at 45° of twelve threads lies in the middle of what it draws.
fn take_off(gears: &Gears, braiding: &Braiding) -> TakeOff {
    let mut draft = usual().draft().clone();
    gears.put_into(&mut draft);
    let mut take_off = crate::designs::parsed(draft).take_off();
    let choices = take_off.choices();
    let lay = braiding.at_angle(12, Angle::from_degrees(TARGET)).lay;
    take_off.constant = lay / choices[choices.len() / 2].ratio();
    take_off
}

/// A load, a length in decimetres, none among them, and which choice is pinned, of twenty of which few exist.
fn interval() -> impl Strategy<Value = (usize, u32, usize)> {
    (
        0_usize..4,
        prop_oneof![1 => Just(0_u32), 5 => 1_u32..60],
        0_usize..20,
    )
}

fn question() -> impl Strategy<Value = Question> {
    let price = proptest::sample::select(vec![0.0, 0.15, 1.0, 20.0, 1e6]);
    let teeth = gears(20_u32..=60);
    (teeth, proptest::collection::vec(interval(), 1..=5), price).prop_map(
        |(gears, intervals, price)| {
            let braiding = usual().braiding();
            let take_off = take_off(&gears, &braiding);
            let mut choices = take_off.choices();
            choices.truncate(6);
            let interval = |&(load, decimetres, pinned): &(usize, u32, usize)| Interval {
                load,
                length: Length::from_metres(f64::from(decimetres) / 10.0),
                pinned: choices.get(pinned).copied().filter(|_| load == 0),
            };
            Question {
                intervals: intervals.iter().map(interval).collect(),
                loads: [8_u32, 10, 13, 16].map(Load::from).to_vec(),
                take_off,
                choices,
                braiding,
                price,
            }
        },
    )
}

proptest! {
    #![proptest_config(cases(400))]

    /// Held against every assignment there is: none costs less, and none that costs as much has smaller steps. Pins are
    /// honoured, since not to honour one costs endlessly much.
    #[test]
    fn no_assignment_of_wheels_is_better(question in question()) {
        let chosen = question.choose();
        prop_assert_eq!(chosen.len(), question.intervals.len());
        let (cost, steps) = question.cost(&chosen);
        let (least, smallest) = question.best();
        prop_assert!(cost <= least + ALIKE, "{} costs {}, {} would do", price(&question), cost, least);
        prop_assert!(steps <= smallest + 1e-9, "steps of {}, {} would do: {:?}", steps, smallest, chosen);
    }

    /// Wheels are owned, also twice where a pair takes one twice; pairs on fixed centres sum up; the shortest lay stands
    /// first, none twice.
    #[test]
    fn what_can_be_fitted_is_owned(gears in gears(8_u32..=200)) {
        let mut draft = usual().draft().clone();
        gears.put_into(&mut draft);
        let take_off = crate::designs::parsed(draft).take_off();
        let owned = |teeth: u32| take_off.gears.iter().filter(|&&gear| gear == teeth).count();
        let choices = take_off.choices();
        prop_assert!(!choices.is_empty());
        for wheels in &choices {
            let Wheels { driver, driven, train } = *wheels;
            prop_assert_eq!(train, take_off.train);
            match train {
                Train::Driver => prop_assert!(owned(driver) > 0 && driven == take_off.partner),
                Train::Driven => prop_assert!(owned(driven) > 0 && driver == take_off.partner),
                Train::FixedCentres | Train::FreePair => {
                    let needed = if driver == driven { 2 } else { 1 };
                    prop_assert!(owned(driver) >= needed && owned(driven) >= needed, "{} of {:?}", wheels, take_off.gears);
                }
            }
            if train == Train::FixedCentres {
                prop_assert_eq!(driver + driven, take_off.pair_sum);
            }
        }
        prop_assert!(choices.windows(2).all(|pair| pair[0].ratio() < pair[1].ratio()));
    }

    /// No pair that could be fitted is missing but for one that draws alike.
    #[test]
    fn every_pair_owned_can_be_fitted(gears in gears(20_u32..=60)) {
        let mut draft = usual().draft().clone();
        gears.put_into(&mut draft);
        let take_off = crate::designs::parsed(draft).take_off();
        let choices = take_off.choices();
        for (one, &driver) in take_off.gears.iter().enumerate() {
            for (other, &driven) in take_off.gears.iter().enumerate().filter(|&(other, _)| other != one) {
                let fits = match take_off.train {
                    Train::FreePair => true,
                    Train::FixedCentres => driver + driven == take_off.pair_sum,
                    Train::Driver | Train::Driven => false,
                };
                let ratio = f64::from(driver) / f64::from(driven);
                prop_assert!(!fits || choices.iter().any(|wheels| wheels.ratio() == ratio), "{} and {}", one, other);
            }
        }
    }
}

fn price(question: &Question) -> String {
    format!(
        "{} intervals at a price of {}",
        question.intervals.len(),
        question.price
    )
}

/// For nothing wheels are changed wherever that helps; for a fortune never, unless a pin asks for it.
#[test]
fn the_price_decides_how_often_wheels_are_changed() {
    let (mut free, mut dear) = (0, 0);
    for question in crate::lines::some_of(&question(), 60) {
        let mut question = question;
        question
            .intervals
            .iter_mut()
            .for_each(|interval| interval.pinned = None);
        let mut changes = |price: f64| {
            question.price = price;
            question
                .choose()
                .windows(2)
                .filter(|pair| pair[0] != pair[1])
                .count()
        };
        free += changes(0.0);
        dear += changes(1e6);
    }
    assert!(
        free > 30 && dear == 0,
        "{free} changes for nothing, {dear} for a fortune"
    );
}
