//! Fields for the settings that are plain numbers.

use leptos::prelude::*;

use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::page::view::bench::bench;
use crate::page::view::field::NumberField;
use crate::page::view::terms::explained;
use crate::paper::terms::Term;

/// Values a maker rarely touches, one tap away.
#[component]
pub(super) fn Finer(children: Children) -> impl IntoView {
    view! {
        <details class="finer">
            <summary>"More values"</summary>
            <div class="fields">{children()}</div>
        </details>
    }
}

#[component]
pub(super) fn Numbers(of: Vec<Setting>) -> impl IntoView {
    of.into_iter()
        .map(|setting| view! { <Number setting /> })
        .collect_view()
}

/// The field of one number.
#[component]
pub(crate) fn Number(setting: Setting) -> impl IntoView {
    let bench = bench();
    let rule = setting.rule();
    view! {
        <NumberField
            label=rule.name
            action=setting.key()
            word=Term::of_setting(setting).map(explained)
            ground=setting.ground()
            value=Signal::derive(move || bench.settled.with(|design| design.setting(setting)))
            unit=Signal::stored(rule.unit)
            decimals=4
            commit=move |value| bench.commit(Edit::Set(setting, value))
        />
    }
}
