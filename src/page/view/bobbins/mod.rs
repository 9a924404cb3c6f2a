//! What to ply, and what to wind on each bobbin, ticked when it is wound.

mod left_thread;
mod ticks;
mod tile;
mod weigh_or_time;

use leptos::prelude::*;

use super::bench::bench;
use super::rows::Rows;
use super::saving::save;
use super::terms::TermLine;
use crate::keep::share::table;
use crate::paper::terms::Term;
use crate::paper::words;
use crate::plan::bobbins::Plying;
use left_thread::LeftThread;
use ticks::Ticks;
use tile::Tile;
use weigh_or_time::WeighOrTime;

/// The plying, and the bobbins in the order in which they enter.
#[component]
pub(crate) fn Bobbins() -> impl IntoView {
    let bench = bench();
    let ticks = Ticks::open(bench);
    let keys = Memo::new(move |_| {
        bench.plan.with(|plan| {
            let bobbins = plan.bobbins.iter().enumerate();
            bobbins
                .map(|(index, bobbin)| (index, bobbin.carrier, bobbin.ends))
                .collect::<Vec<_>>()
        })
    });
    let is_empty = Memo::new(move |_| keys.with(Vec::is_empty));
    view! {
        <section class="bobbins" aria-label="Bobbins">
            <Show when=move || !is_empty.get() fallback=|| view! { <NothingToWind /> }>
                <Head ticks />
                <LeftThread ticks />
                <p class="hint">
                    "Tap a bobbin when it is wound. They are in the order in which they are added. Lead-in, tails and your allowance are included."
                </p>
                <ol class="bobbin-tiles">
                    <For each=move || keys.get() key=|key| *key let:key>
                        <Tile index=key.0 ticks />
                    </For>
                </ol>
                <WeighOrTime ticks />
                <TermLine of=&[
                    Term::Ply,
                    Term::End,
                    Term::Thread,
                    Term::Directions,
                    Term::LeadIn,
                ] />
            </Show>
        </section>
    }
}

#[component]
fn NothingToWind() -> impl IntoView {
    view! {
        <div class="card">
            <h2>"Nothing to wind yet"</h2>
            <p class="hint">"Each thread of the line gets a bobbin here. Draw a line first."</p>
        </div>
    }
}

/// What to ply in one sentence, how much is wound, and the shopping list.
#[component]
fn Head(ticks: Ticks) -> impl IntoView {
    let bench = bench();
    let label = Memo::new(move |_| bench.drawn(words::yarn_label));
    let to_ply = move || {
        bench
            .plan
            .with(|plan| words::to_ply(plan, &label.get(), bench.units.get()))
    };
    let to_buy = move || {
        bench
            .plan
            .with(|plan| words::to_buy(plan, bench.units.get()))
    };
    let wound = move || {
        let all = bench.plan.with(|plan| plan.bobbins.len());
        words::wound_count(ticks.count.get(), all)
    };
    let minutes = move || {
        ticks
            .minutes_left()
            .map(|minutes| format!(" {}", words::minutes_left(minutes)))
    };
    // Of one kind the sentence above says all.
    let kinds = Memo::new(move |_| bench.plan.with(|plan| plan.plying.clone()));
    let save_list = move |_| {
        let units = bench.units.get_untracked();
        let plan = bench.settled_plan.read_untracked();
        let (name, text) = bench.settled.with_untracked(|design| {
            (
                table::bobbins_name(design),
                table::bobbins(design, &plan, units).csv(),
            )
        });
        save(bench, &name, &text, "text/csv;charset=utf-8");
    };
    view! {
        <div class="card to-ply">
            <div class="to-ply-head">
                <div>
                    <h2>{to_ply}</h2>
                    <p class="hint">{to_buy}" "<span data-wound-count=move || ticks.count.get()>{wound}</span><span data-minutes-left>{minutes}</span></p>
                </div>
                <div class="step-buttons">
                    <TickButtons ticks />
                    <button data-action="save-bobbins" title="Save a table for a spreadsheet (CSV)" on:click=save_list>
                        "Save shopping list"
                    </button>
                </div>
            </div>
            <ul class="plies" class:alone=move || kinds.with(|kinds| kinds.len() == 1)><Rows of=kinds row=ply /></ul>
        </div>
    }
}

/// All ticks away, and back again.
#[component]
fn TickButtons(ticks: Ticks) -> impl IntoView {
    view! {
        <Show when=move || ticks.can_restore()>
            <button data-action="restore-ticks" on:click=move |_| ticks.restore()>"Restore the ticks"</button>
        </Show>
        <Show when=move || ticks.any()>
            <button data-action="untick-all" on:click=move |_| ticks.untick_all()>"Untick all"</button>
        </Show>
    }
}

fn ply(kind: Memo<Plying>) -> AnyView {
    let units = bench().units;
    view! {
        <li
            data-plying=move || kind.read().ends
            data-length=move || kind.read().thread.metres()
            data-yarn=move || kind.read().yarn.metres()
            data-mass=move || kind.read().mass.kilograms()
        >
            {move || words::plied(&kind.read(), units.get())}
        </li>
    }
    .into_any()
}
