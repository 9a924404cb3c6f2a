//! What the first use does not need comes in a second file of the program: the bench book, every place but Draw, the menu and
//! all sheets. It is asked for once the first picture is drawn. Until it is here, what stands in it says so; where it does not
//! come, that is said with a button to try again, and nothing else of the page changes.
//!
//! The published page is built with the flag `split`, and the workshop cuts the program at [`part`] (`src/host/split.rs`).
//! Without the flag, as in the development loop, all of it is one file and is here at once.

use core::pin::pin;
use core::task::{Context, Poll, Waker};

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_split_helpers::SplitLoaderError;
#[cfg(split)]
use wasm_split_helpers::wasm_split;

use super::bench::bench;
use super::deferred::TaskQueue;
use super::sheet::Sheet;
use super::{
    at_machine, bobbins, book, current_line, dressing, finder, in_progress, measured, menu, photo,
    run_clock, sheets, threads, turnover,
};
use crate::page::browser::updates;
use crate::page::places::Place;

/// What is in the second file.
#[derive(Clone, Copy)]
pub(super) enum Part {
    /// What the other parts share; nothing to see.
    Shared,
    /// A place, built when it is shown.
    Place(Place),
    /// The menu.
    Menu,
    /// What is said of a line at the machine.
    LineInProgress,
    /// All sheets. Each is empty until it is opened.
    Sheets,
}

/// How far the second file is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Arrival {
    Coming,
    Here,
    Failed,
}

/// The second file of this page.
#[derive(Clone, Copy)]
pub(super) struct Later {
    arrival: RwSignal<Arrival>,
    tasks: TaskQueue,
    /// Who owns what its parts share: the page.
    owner: StoredValue<Option<Owner>>,
}

impl Later {
    /// Not asked for yet. The page counts as whole only once it is here, or has failed.
    pub(super) fn new(tasks: TaskQueue) -> Self {
        tasks.hold();
        Self {
            arrival: RwSignal::new(Arrival::Coming),
            tasks,
            owner: StoredValue::new(Owner::current()),
        }
    }

    /// Asks for it; where it does not come whole, once more.
    pub(super) fn load(self) {
        self.arrival.set(Arrival::Coming);
        spawn_local(async move {
            let mut is_here = load().await.is_ok();
            if !is_here {
                updates::ask_the_host();
                is_here = load().await.is_ok();
            }
            if let (true, Some(owner)) = (is_here, self.owner.get_value()) {
                owner.with(|| part_now(Part::Shared));
            }
            self.arrival.set(if is_here {
                Arrival::Here
            } else {
                Arrival::Failed
            });
            self.tasks.release();
        });
    }

    /// Runs the caller again when the second file is here, or did not come.
    pub(super) fn track(self) {
        self.arrival.track();
    }
}

/// A part of the second file; until that is here, words about it.
pub(super) fn shown(wanted: Part) -> AnyView {
    let later = expect_context::<Later>();
    if later.arrival.get() != Arrival::Here {
        return match wanted {
            Part::Place(_) => view! { <Waiting /> }.into_any(),
            Part::Sheets => view! { <WaitingSheet /> }.into_any(),
            Part::Shared | Part::Menu | Part::LineInProgress => ().into_any(),
        };
    }
    part_now(wanted)
}

/// A part of the second file. That is here, so its future is ready at once.
fn part_now(wanted: Part) -> AnyView {
    let coming = pin!(part(wanted));
    match coming.poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(Ok(view)) => view,
        Poll::Ready(Err(_)) | Poll::Pending => ().into_any(),
    }
}

/// The sheet that is wanted before it can be built.
#[component]
fn WaitingSheet() -> impl IntoView {
    let bench = bench();
    move || {
        let wanted = bench.sheet.get();
        wanted.map(|kind| view! { <Sheet kind><Waiting /></Sheet> })
    }
}

/// Says that it is coming, or that it failed.
#[component]
fn Waiting() -> impl IntoView {
    let later = expect_context::<Later>();
    let is_coming = move || later.arrival.get() != Arrival::Failed;
    view! {
        <div class="waiting" role="status">
            <Show when=is_coming fallback=|| view! { <Missing /> }><p>"Loading…"</p></Show>
        </div>
    }
}

/// Says that it did not come, where it did not.
#[component]
pub(super) fn Missing() -> impl IntoView {
    let later = expect_context::<Later>();
    view! {
        <Show when=move || later.arrival.get() == Arrival::Failed>
            <p class="message" role="alert">
                <span>"A part of this page did not load. Your work is safe. Check your connection."</span>
                <button class="main" data-action="try-again" on:click=move |_| later.load()>"Try again"</button>
            </p>
        </Show>
    }
}

#[cfg(split)]
#[wasm_split(later, fallible, preload(load))]
fn part(wanted: Part) -> Result<AnyView, SplitLoaderError> {
    Ok(build(wanted))
}

#[cfg(not(split))]
fn part(wanted: Part) -> impl Future<Output = Result<AnyView, SplitLoaderError>> {
    core::future::ready(Ok(build(wanted)))
}

#[cfg(not(split))]
fn load() -> impl Future<Output = Result<(), SplitLoaderError>> {
    core::future::ready(Ok(()))
}

/// Builds a part. What is reached from here alone stands in the second file.
fn build(wanted: Part) -> AnyView {
    match wanted {
        Part::Shared => {
            share();
            ().into_any()
        }
        Part::Menu => view! { <menu::Menu /> }.into_any(),
        Part::LineInProgress => view! { <in_progress::LineInProgress /> }.into_any(),
        Part::Place(Place::Draw) => ().into_any(),
        Part::Place(Place::Threads) => view! { <threads::Threads /> }.into_any(),
        Part::Place(Place::Wind) => view! { <bobbins::Bobbins /> }.into_any(),
        Part::Place(Place::Braid) => view! { <at_machine::AtMachine /> }.into_any(),
        Part::Place(Place::Dress) => view! { <dressing::Dressing /> }.into_any(),
        Part::Place(Place::Weigh) => view! { <book::Book /> }.into_any(),
        Part::Sheets => view! { <sheets::Sheets /> }.into_any(),
    }
}

/// What outlives the places: the open book, the ticks at the machine, the search for plans.
fn share() {
    let bench = bench();
    let open_book = book::OpenBook::open(bench);
    provide_context(open_book);
    provide_context(measured::OpenMeasured::open(bench));
    provide_context(photo::PhotoLink::new(bench, open_book));
    let current_line = current_line::CurrentLine::open(bench, open_book);
    provide_context(current_line);
    provide_context(run_clock::RunClocks::open(bench, current_line));
    provide_context(dressing::Days::open(bench, open_book));
    provide_context(at_machine::LineTicks::default());
    provide_context(finder::PlanSearch::none());
    provide_context(turnover::CastState::open(bench));
}
