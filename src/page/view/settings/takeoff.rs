//! The take-off: the train, the gears owned, the machine constant, and the angle they are to give.

use leptos::prelude::*;

use super::constant::ConstantFinder;
use super::numbers::Numbers;
use crate::braid::takeoff::Train;
use crate::design::gears;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::page::view::bench::bench;
use crate::page::view::field::{ChoiceField, TextField};
use crate::page::view::terms::explained;
use crate::paper::terms::Term;

/// Gears and angle.
#[component]
pub(super) fn TakeOff() -> impl IntoView {
    let bench = bench();
    let train = Memo::new(move |_| bench.settled.with(|design| design.draft().train));
    let list_gears = move |text: String| {
        let owned = bench
            .settled
            .with_untracked(|design| design.draft().gears.clone());
        let teeth = gears::read(&text, &owned).map_err(|unread| unread.to_string())?;
        bench.commit(Edit::Gears(teeth))
    };
    view! {
        <fieldset>
            <legend>"Take-off and angle"</legend>
            <ChoiceField
                label="how change gears are fitted"
                action="train"
                word=Some(explained(Term::Train))
                ground="Either one change gear and a fixed gear, one driving the other. Or two change gears on fixed centres, whose teeth always have the same sum. Or any two of your gears. A gear is used once unless you own it twice."
                value=Signal::derive(move || train.get())
                commit=move |train| bench.commit(Edit::Train(train))
            />
            <TextField
                label="change gears you own, by teeth"
                action="gears"
                word=Some(explained(Term::ChangeGear))
                ground="Teeth of every change gear, with commas between. 15–30 means every tooth from 15 to 30. “all but 21 and 23” removes these from the present list. List a gear twice if you own it twice."
                value=Signal::derive(move || bench.settled.with(|design| gears::show(&design.draft().gears)))
                commit=list_gears
            />
            <Show when=move || !train.get().is_pair()>
                <Numbers of=vec![Setting::PartnerTeeth] />
            </Show>
            <Show when=move || train.get() == Train::FixedCentres>
                <Numbers of=vec![Setting::PairSum] />
            </Show>
            <Numbers of=vec![
                Setting::MachineConstant,
                Setting::TargetAngle,
                Setting::AngleTolerance,
                Setting::GearChangePrice,
            ] />
            <ConstantFinder />
        </fieldset>
    }
}
