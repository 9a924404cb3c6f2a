//! Setting up the machine: every bobbin is put on once, every carrier is threaded or idle, and ticks stay.

use std::collections::BTreeSet;

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::braid::track::Carrier;
use taperwright::design::Design;
use taperwright::plan::Plan;
use taperwright::plan::run::{Run, Setup, SetupRow};

use crate::likely::{pinned, unpinned};
use crate::lines::cases;

fn line() -> impl Strategy<Value = Design> {
    prop_oneof![unpinned().boxed(), pinned().boxed()]
}

proptest! {
    #![proptest_config(cases(150))]

    /// The bobbins that begin and those that enter later are all there are, and none is both; the same holds of carriers that
    /// begin and idle ones. A bobbin waits beside the machine where its carrier has one already.
    #[test]
    fn every_bobbin_and_every_carrier_stands_in_one_list(design in line()) {
        let plan = Plan::of(&design);
        let setup = Setup::of(&design, &plan);
        let first: BTreeSet<(Carrier, u32)> = setup.first.iter().copied().collect();
        let later: BTreeSet<(Carrier, u32)> = setup.later.iter().map(|it| (it.carrier, it.ends)).collect();
        prop_assert_eq!((first.len(), later.len()), (setup.first.len(), setup.later.len()));
        prop_assert!(first.is_disjoint(&later));
        let all: BTreeSet<(Carrier, u32)> = plan.bobbins.iter().map(|it| (it.carrier, it.ends)).collect();
        prop_assert_eq!(first.union(&later).copied().collect::<BTreeSet<_>>(), all);

        let begin: BTreeSet<Carrier> = setup.first.iter().map(|it| it.0).collect();
        let idle: BTreeSet<Carrier> = setup.idle.iter().copied().collect();
        prop_assert!(begin.is_disjoint(&idle));
        prop_assert_eq!(begin.len() + idle.len(), design.track().all().count());

        let mut taken = begin.clone();
        for bobbin in &setup.later {
            prop_assert_eq!(bobbin.waits, !taken.insert(bobbin.carrier));
            prop_assert!(bobbin.enters > Length::ZERO);
        }
        for pair in setup.later.windows(2) {
            prop_assert!(pair[0].enters <= pair[1].enters);
        }
    }

    /// Rows stand in the order of the work, each once, and a row is absent just where it does not apply.
    #[test]
    fn rows_stand_in_their_order(design in line()) {
        let setup = Setup::of(&design, &Plan::of(&design));
        let rows: Vec<SetupRow> = setup.rows().collect();
        prop_assert!(rows.windows(2).all(|pair| pair[0] < pair[1]));
        let has = |row| rows.contains(&row);
        prop_assert_eq!(has(SetupRow::LaterBobbins), !setup.later.is_empty());
        prop_assert_eq!(has(SetupRow::IdleWeights), !setup.idle.is_empty());
        prop_assert_eq!(has(SetupRow::LeadIn), design.lead_in() > Length::ZERO);
        prop_assert_eq!(setup.open_rows(&Run::default()), rows.len());
    }

    /// Whatever is ticked and unticked in turn, the last word on each row holds, and survives a file.
    #[test]
    fn ticks_survive(taps in proptest::collection::vec((0_usize..SetupRow::ALL.len(), any::<bool>()), 0..30)) {
        let mut run = Run::default();
        let mut wanted = BTreeSet::new();
        for (index, ticked) in taps {
            let row = SetupRow::ALL[index];
            run = run.set_up(row, ticked);
            if ticked { wanted.insert(row); } else { wanted.remove(&row); }
        }
        prop_assert_eq!(&run.setup, &wanted.into_iter().collect::<Vec<_>>());
        let text = serde_json::to_string(&run).expect("a run has a form in JSON");
        prop_assert_eq!(serde_json::from_str::<Run>(&text).ok(), Some(run));
    }
}
