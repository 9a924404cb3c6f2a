//! Finding a thread plan.

use core::time::Duration;

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::plan_chart::PlanChart;
use super::reach_class::{ReachClass, from_target};
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use super::terms::TermLine;
use crate::base::units::show::Units;
use crate::braid::threads::{Build, Supply};
use crate::design::Design;
use crate::edit::Edit;
use crate::edit::finder::{Finder, ThreadPlan};
use crate::paper::terms::Term;
use crate::paper::words;
use crate::plan::prediction::chance_percent;

/// Plans tried between two frames of the page: some milliseconds of work.
const PLANS_AT_A_TIME: usize = 2;

/// The search for plans. It goes on, and what it found stays, while its sheet is closed.
#[derive(Clone, Copy)]
pub(crate) struct PlanSearch {
    search: RwSignal<Option<Finder>, LocalStorage>,
    going: RwSignal<bool>,
}

impl PlanSearch {
    /// None begun yet.
    pub(super) fn none() -> Self {
        Self {
            search: RwSignal::new_local(None),
            going: RwSignal::new(false),
        }
    }
}

/// The sheet.
#[component]
pub(crate) fn PlansSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Plans><Plans /></Sheet> }
}

/// Both tools.
#[component]
fn Plans() -> impl IntoView {
    view! {
        <section class="finder" aria-label="Find a thread plan, match a class">
            <Search />
            <h3>"Reach a class"</h3>
            <TermLine of=&[Term::Class, Term::Band, Term::Grain] />
            <ReachClass />
        </section>
    }
}

#[component]
fn Search() -> impl IntoView {
    let bench = bench();
    let PlanSearch { search, going } = expect_context();
    // What was found is about the line as it was: another line, or a change, hides it, also one made while this was closed.
    let drop_stale = move |design: &Design| {
        // A plan that is taken changes the supply only: the others stay to choose from.
        let is_stale = |finder: &Finder| !is_same_drawing(finder.design(), design);
        if search.with_untracked(|search| search.as_ref().is_some_and(is_stale)) {
            search.set(None);
        }
    };
    bench.settled.with_untracked(drop_stale);
    Effect::watch(
        move || bench.settled.get(),
        move |design, _, _| drop_stale(design),
        false,
    );
    let begin = move |_| {
        search.set(Some(bench.settled.with_untracked(Finder::new)));
        if !going.get_untracked() {
            going.set(true);
            go_on(search, going);
        }
    };
    let listed = move |apart: bool| {
        let of = move |finder: &Finder| -> Vec<ThreadPlan> {
            if apart {
                finder.apart().cloned().collect()
            } else {
                finder.best().cloned().collect()
            }
        };
        Memo::new(move |_| search.with(|search| search.as_ref().map(of).unwrap_or_default()))
    };
    let (found, apart) = (listed(false), listed(true));
    let is_done_without = move || {
        let is_done = search.with(Option::is_some) && !going.get();
        is_done && found.with(Vec::is_empty)
    };
    let is_best = move || {
        let own = bench.settled.with(Design::supply);
        let best = found.with(|found| found.first().map(|best| best.supply));
        !going.get() && best == Some(own)
    };
    let rows = move |found: Vec<ThreadPlan>, is_numbered: bool| {
        let row = |(index, found)| {
            let number = is_numbered.then_some(index + 1);
            view! { <ThreadPlanRow number found bench /> }
        };
        found.into_iter().enumerate().map(row).collect_view()
    };
    view! {
        <p class="hint">"Tries every thread that can be plied, for the line as it is drawn."</p>
        <p>
            <button data-action="find-plan" class:main=move || search.with(Option::is_none) on:click=begin>
                {move || if search.with(Option::is_none) { "Find a thread plan" } else { "Search again" }}
            </button>
            <span role="status" class="hint" data-search=move || if going.get() { "going" } else { "done" }>
                {move || going.get().then_some(" searching …")}
            </span>
        </p>
        <Show when=is_done_without>
            <p data-found-none>"No plan meets all conditions with your gears and your yarn."</p>
        </Show>
        <Show when=is_best>
            <p><b>"Your plan is the best found."</b></p>
        </Show>
        <PlanChart of=found />
        <ol class="found">{move || rows(found.get(), true)}</ol>
        <details class="finer">
            <summary>"How plans are ranked"</summary>
            <p class="ground">
                "First by the chance of the class, to the whole percent. Plans with the same chance are ranked by one score; lower is better. It adds the grains off the target of the class, and 3 for each percent of diameter error. Each change of thread or gear adds 0.3. A second kind of thread adds 4, a warning of bobbins or pins adds 5."
            </p>
            <TermLine of=&[Term::ThreadPlan, Term::End, Term::Ply] />
        </details>
        <Show when=move || apart.with(|apart| !apart.is_empty())>
            <h3>"Not recommended"</h3>
            <ul class="found">{move || rows(apart.get(), false)}</ul>
        </Show>
    }
}

/// Whether two designs differ in their threads at most.
fn is_same_drawing(one: &Design, other: &Design) -> bool {
    Edit::Supply(one.supply())
        .apply(other)
        .is_ok_and(|other| other == *one)
}

/// Tries a few more plans, then lets the page draw; ends when nothing is left or the search was cancelled.
fn go_on(search: RwSignal<Option<Finder>, LocalStorage>, going: RwSignal<bool>) {
    let step = move || {
        let more = search.try_update(|search| {
            search
                .as_mut()
                .is_some_and(|finder| finder.step(PLANS_AT_A_TIME))
        });
        if more == Some(true) {
            go_on(search, going);
        } else {
            going.set(false);
        }
    };
    set_timeout(step, Duration::ZERO);
}

#[component]
fn ThreadPlanRow(
    /// Its number in the chart.
    number: Option<usize>,
    found: ThreadPlan,
    bench: Bench,
) -> impl IntoView {
    let supply = found.supply;
    let (is_recommended, demerit, chance) = (found.is_recommended(), found.demerit, found.chance);
    let number = number.map(|number| format!("{number}. "));
    let operation = supply_words(&found);
    let is_own = move || bench.settled.with(|design| design.supply() == supply);
    let take = move |_| {
        bench.commit_and_compare(Edit::Supply(supply));
    };
    view! {
        <li
            data-found=move || is_own().to_string()
            data-demerit=demerit
            data-chance=chance
            data-recommended=is_recommended.to_string()
        >
            <span class="operation">{number}{operation}</span>
            <span class="state">{move || found_words(&found, bench.units.get())}</span>
            <button data-action="take-plan" disabled=is_own on:click=take>
                {move || if is_own() { "in use" } else { "Use this plan" }}
            </button>
        </li>
    }
}

/// `8 to 14 threads of 14 ends`.
fn supply_words(found: &ThreadPlan) -> String {
    let Supply { light, heavy, .. } = found.supply;
    let (fewest, most) = found.threads;
    match found.supply.build {
        Build::MoreThreads => format!("{fewest} to {most} threads of {light} ends"),
        Build::HeavierThreads => format!("{most} threads, from {light} to {heavy} ends"),
        Build::Both => {
            format!("{fewest} to {most} threads of {light} ends, then swapped to {heavy}")
        }
    }
}

fn found_words(found: &ThreadPlan, units: Units) -> String {
    let off = match (found.class, found.class_error) {
        (Some(class), Some(error)) => format!(
            "{} chance of class {class}, planned {} its target",
            chance_percent(found.chance.unwrap_or_default()),
            from_target(error)
        ),
        _ => "no class".to_owned(),
    };
    let warning = match found.warnings {
        0 => "",
        _ => "; warning: bobbins or pins",
    };
    let unmet = found.unmet.iter().map(|one| words::unmet(one, units));
    let unmet = unmet
        .map(|why| format!("; {why}"))
        .collect::<Vec<_>>()
        .concat();
    format!(
        "{off}; diameter error {:.1} %; {} thread changes, {} gear changes; {} of thread to ply{warning}{unmet}",
        found.diameter_error * 100.0,
        found.thread_changes,
        found.gear_changes,
        if found.kinds == 1 {
            "one kind".to_owned()
        } else {
            format!("{} kinds", found.kinds)
        }
    )
}
