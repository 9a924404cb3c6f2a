//! The page: Leptos components, one folder or file for each thing seen. They read the plan and compute nothing; a
//! design changes only through [`bench::Bench`].

#![expect(
    unreachable_pub,
    reason = "the component macro makes what it wraps public"
)]

mod bench;
mod bobbins;
mod card;
mod cautions;
mod chart;
mod field;
mod figures;
mod header;
mod messages;
mod point;
mod schedule;
mod settings;
mod verdict;
mod words;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use bench::Bench;

/// Puts the page into the element `page` of the document, in place of what stood there.
pub fn mount() {
    console_error_panic_hook::set_once();
    let Some(page) = document().get_element_by_id("page") else {
        return;
    };
    page.set_text_content(None);
    mount_to(page.unchecked_into(), Page).forget();
}

/// Everything on the page.
#[component]
fn Page() -> impl IntoView {
    let bench = Bench::open();
    provide_context(bench);
    view! {
        <div class="bench" class:behind=move || bench.card_open.get()>
            <header::Header />
            <messages::Messages />
            <div class="work">
                <section class="drawing" aria-label="Drawing of the taper">
                    <chart::Chart />
                    <point::PointBar />
                </section>
                <div class="reading">
                    <verdict::VerdictBlock />
                    <figures::Figures />
                    <messages::Notices />
                    <schedule::Schedule />
                    <bobbins::Bobbins />
                    <settings::SettingsPanel />
                    <cautions::Cautions />
                </div>
            </div>
        </div>
        <card::Card />
    }
}
