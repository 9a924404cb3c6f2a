//! The take-off: the train, the gears owned, the machine constant, and the angle they are to give.

use leptos::prelude::*;

use super::chosen::ChosenField;
use super::constant::ConstantFinder;
use super::numbers::Numbers;
use crate::braid::takeoff::Train;
use crate::design::chosen::Chosen;
use crate::design::settings::Setting;
use crate::page::view::bench::bench;

/// Gears and angle.
#[component]
pub(super) fn TakeOff() -> impl IntoView {
    let bench = bench();
    let train = Memo::new(move |_| bench.settled.with(|design| design.draft().train));
    view! {
        <fieldset>
            <legend>"Take-off and angle"</legend>
            <ChosenField of=Chosen::Train />
            <ChosenField of=Chosen::Gears />
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
