//! Setting up the machine: one list with pictures and ticks that stay, in step 1 and before the line is started. A tick there
//! starts the line.

mod measure;
mod pictures;
mod push;
mod row_words;

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::clock_panel::ClockPanel;
use super::counter::Counter;
use super::session::{Session, session};
use super::step_words::AT_REST;
use super::taps::Taps;
use crate::page::browser::focus::{find, focus};
use crate::page::view::book::{MachineNote, MachineNoteField, open_book};
use crate::page::view::icon::{Glyph, Icon};
use crate::plan::run::{Setup, SetupRow};

/// How the machine is set up: for the line in the book, or where there is none, for the drawing.
fn setup_of(session: Session) -> Memo<Setup> {
    Memo::new(move |_| {
        let of_line = session.with_planned(Setup::of);
        of_line.unwrap_or_else(|| {
            let bench = session.bench;
            bench
                .settled
                .with(|design| bench.settled_plan.with(|plan| Setup::of(design, plan)))
        })
    })
}

/// The list.
#[component]
pub(super) fn SetupList() -> impl IntoView {
    let setup = setup_of(session());
    let rows = Memo::new(move |_| setup.with(|setup| setup.rows().collect::<Vec<_>>()));
    let stop = move || setup.with(|setup| setup.lead_in.map(|_| AT_REST));
    view! {
        <h2>"Setting up the machine"</h2>
        <ol class="do setup">
            <li>
                <p class="stop-first">{AT_REST}</p>
                <p class="hint">"Setting up is by rules of thumb, no source. Your machine’s own manual comes first."</p>
            </li>
            <For each=move || rows.get() key=|row| *row let:row>
                <Row row setup />
            </For>
            <li>
                <p class="stop-first">{stop}</p>
                <p class="operation">"Mark the tip"</p>
                <p class="more">"It is where the threads meet now. Lengths count from there."</p>
            </li>
        </ol>
    }
}

/// One thing to do: its tick, its picture, and what it needs.
#[component]
fn Row(row: SetupRow, setup: Memo<Setup>) -> impl IntoView {
    let session = session();
    let units = session.bench.units;
    let is_ticked = Memo::new(move |_| {
        session
            .run
            .with(|run| run.as_ref().is_some_and(|run| run.setup.contains(&row)))
    });
    let words = move || setup.with(|setup| row_words::operation(row, setup, units.get()));
    let taps = Taps::new();
    let press = move |event: MouseEvent| {
        // A finger that trembles taps twice. Where the first tap starts the line, what stands above goes, and the second may hit
        // another row.
        let starts = session.start_taps;
        if taps.take(&event) && starts.is_new(&event) {
            if session.run.with_untracked(Option::is_none) {
                starts.take(&event);
            }
            tick(session, row, !is_ticked.get_untracked());
        }
    };
    view! {
        <li class="setup-row" data-setup=row.key()>
            <button class="huge" data-action="setup" aria-pressed=move || is_ticked.get().to_string() on:click=press>
                <span class="tick-box" aria-hidden="true"><Glyph icon=Icon::Tick /></span>
                <span>{words}</span>
            </button>
            <div class="setup-picture">{move || setup.with(|setup| pictures::picture(row, setup))}</div>
            <div class="setup-needs">
                <Needs row setup />
                {parts(row, setup)}
            </div>
        </li>
    }
}

/// What a row needs, in words.
#[component]
fn Needs(row: SetupRow, setup: Memo<Setup>) -> impl IntoView {
    let (units, open_book) = (session().bench.units, open_book());
    let words = Memo::new(move |_| {
        let workshop = open_book.workshop.read();
        setup.with(|setup| row_words::needs(row, setup, &workshop.machine_notes, units.get()))
    });
    move || {
        words
            .get()
            .into_iter()
            .map(|words| view! { <p class="more">{words}</p> })
            .collect_view()
    }
}

/// What a row has to enter or to press.
fn parts(row: SetupRow, setup: Memo<Setup>) -> AnyView {
    match row {
        SetupRow::FirstBobbins => note(MachineNote::FirstMark),
        SetupRow::LaterBobbins => note(MachineNote::LaterMark),
        SetupRow::Tension => note(MachineNote::Tension),
        SetupRow::LeadIn => view! { <LeadInCounter setup /> }.into_any(),
        SetupRow::Push => view! { <push::PushTest /> }.into_any(),
        SetupRow::Measure => view! { <measure::Measured /> }.into_any(),
        SetupRow::Guide | SetupRow::Thread | SetupRow::IdleWeights | SetupRow::Gear => {
            ().into_any()
        }
    }
}

fn note(of: MachineNote) -> AnyView {
    view! { <MachineNoteField of /> }.into_any()
}

/// The circuits of the lead-in, counted once the line is started.
#[component]
fn LeadInCounter(setup: Memo<Setup>) -> impl IntoView {
    let session = session();
    let has_begun = Memo::new(move |_| session.run.with(Option::is_some));
    let wanted = Signal::derive(move || {
        setup.with(|setup| setup.lead_in.map_or(0.0, |lead_in| lead_in.circuits))
    });
    view! {
        <ClockPanel />
        <Show when=move || has_begun.get()><Counter wanted /></Show>
    }
}

/// How many rows are not ticked, said beside the button that ticks the step all the same.
#[component]
pub(super) fn OpenRows() -> impl IntoView {
    let session = session();
    let setup = setup_of(session);
    let open = Memo::new(move |_| {
        session.run.with(|run| {
            let run = run.as_ref().filter(|_| session.is_start())?;
            Some(setup.with(|setup| setup.open_rows(run))).filter(|&open| open > 0)
        })
    });
    move || {
        open.get().map(|open| {
            let words = match open {
                1 => "1 row of setting up is not ticked.".to_owned(),
                open => format!("{open} rows of setting up are not ticked."),
            };
            view! { <p class="open-rows">{words}</p> }
        })
    }
}

/// Ticks a row, or takes its tick away. Where the line is not started, that starts it.
fn tick(session: Session, row: SetupRow, ticked: bool) {
    if session.run.with_untracked(Option::is_none) {
        hold_in_place(row);
        session.begin();
    }
    session.current_line.change(|record| {
        record.run = record.run.take().map(|run| run.set_up(row, ticked));
    });
}

/// What stands above the list changes when the line is started: the row pressed stays where it is as far as the page can be
/// scrolled, and its button keeps the focus.
fn hold_in_place(row: SetupRow) {
    let selector = format!("[data-setup='{}'] [data-action=setup]", row.key());
    let Some(before) = find(&selector).map(|button| button.get_bounding_client_rect().top()) else {
        return;
    };
    request_animation_frame(move || {
        let Some(button) = find(&selector) else {
            return;
        };
        let moved = button.get_bounding_client_rect().top() - before;
        if let Ok(Some(place)) = button.closest(".place-shown") {
            // Whole pixels, far within the range of both.
            #[allow(clippy::cast_possible_truncation)]
            place.set_scroll_top(place.scroll_top() + moved.round() as i32);
        }
        focus(&button);
    });
}
