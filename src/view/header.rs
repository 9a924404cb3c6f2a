//! The head of the page: the line's name, and what can be done with it as a whole.

use leptos::prelude::*;

use super::bench::{Bench, Standing, bench, kept_lines};
use super::field::TextField;
use super::open_file::OpenFile;
use super::overlay::Sheet;
use super::saving::save;
use super::shared::SharedLink;
use super::starts::NewLine;
use crate::choice::Choice;
use crate::design::Design;
use crate::edit::Edit;
use crate::share::file::{self, FileError};
use crate::shelf::{self, Entry};
use crate::units::show::Units;

/// Title, actions, units.
#[component]
pub(crate) fn Header() -> impl IntoView {
    let bench = bench();
    let sharing = RwSignal::new(false);
    view! {
        <header class="head">
            <h1 class="mark">"Taperwright"</h1>
            <div class="title">
                <TextField
                    label="Name of the line"
                    value=Signal::derive(move || bench.settled.with(|design| design.draft().name.clone()))
                    commit=move |name: String| bench.commit(Edit::Name(name))
                />
                <p class="standing">{move || standing_words(&bench.standing.get())}</p>
            </div>
            <nav class="actions" aria-label="This line">
                <LineChoice />
                <UnitChoice />
                <NewLine />
                <OpenLine />
                <button data-action="save-file" on:click=move |_| save_file(bench)>"Save file"</button>
                <button data-action="share" aria-expanded=move || sharing.get().to_string() on:click=move |_| sharing.set(true)>"Share"</button>
                <button data-action="book" on:click=move |_| bench.sheet.set(Some(Sheet::Book))>"Book"</button>
                <button data-action="at-machine" on:click=move |_| bench.sheet.set(Some(Sheet::Machine))>"Braid"</button>
                <button data-action="card" class="main" on:click=move |_| bench.sheet.set(Some(Sheet::Card))>"Card"</button>
            </nav>
            <Show when=move || sharing.get()>
                <SharedLink sharing />
            </Show>
        </header>
    }
}

fn standing_words(standing: &Standing) -> &'static str {
    match standing {
        Standing::New => "Example; kept at your first change",
        Standing::Kept(_) => "Kept in this browser only",
        Standing::Unkept { .. } => "Not kept: save it as a file before you leave",
        Standing::Preview => "Came by link, not kept yet",
    }
}

/// The lines in this browser, once there are two to choose from.
#[component]
fn LineChoice() -> impl IntoView {
    let bench = bench();
    // Every line is read for its title, so only when one is kept or laid out, or this one's title changes.
    let title = Memo::new(move |_| bench.settled.with(|design| design.title().to_owned()));
    let lines = Memo::new(move |_| {
        title.track();
        bench.standing.track();
        kept_lines()
    });
    let open = move || match bench.standing.get() {
        Standing::Kept(number) => number.to_string(),
        Standing::New | Standing::Preview | Standing::Unkept { .. } => String::new(),
    };
    let fetch = move |number: String| {
        if let Ok(number) = number.parse() {
            bench.fetch(number);
        }
    };
    let option = |kept: Entry| {
        view! { <option value=kept.number.to_string()>{title_of(&kept)}</option> }
    };
    view! {
        <Show when=move || lines.with(|lines| lines.len() > 1)>
            <label class="choice">
                <span>"My lines"</span>
                <select data-action="line" prop:value=open on:change:target=move |event| fetch(event.target().value())>
                    <option value="" disabled=true>"choose"</option>
                    {move || lines.get().into_iter().map(option).collect_view()}
                </select>
            </label>
        </Show>
    }
}

fn title_of(line: &Entry) -> String {
    match (line.title::<Design>(), line.standing) {
        (Some(title), _) => title.to_owned(),
        (None, shelf::Standing::Newer) => format!("Line {}, of a newer version", line.number),
        (None, _) => format!("Line {}, unreadable", line.number),
    }
}

#[component]
fn UnitChoice() -> impl IntoView {
    let bench = bench();
    let button = move |units: Units| {
        let is_on = move || bench.units.get() == units;
        view! {
            <button
                data-action=units.key()
                aria-pressed=move || is_on().to_string()
                on:click=move |_| bench.set_units(units)
            >
                {units.name()}
            </button>
        }
    };
    view! {
        <div class="units" role="group" aria-label="Units">
            {Units::ALL.iter().map(|&units| button(units)).collect_view()}
        </div>
    }
}

/// Opens a design file as a line beside the others.
#[component]
fn OpenLine() -> impl IntoView {
    let bench = bench();
    let take = move |text: Option<String>| {
        let read = text.map_or(Err(FileError::TooLarge), |text| file::read(&text));
        match read {
            Ok(design) => bench.take_in(design),
            Err(said) => bench.say(said.to_string()),
        }
    };
    view! {
        <OpenFile
            label="Open file"
            action="open-file"
            largest=file::LARGEST
            take=Callback::new(take)
            tell=Callback::new(move |said| bench.say(said))
        />
    }
}

fn save_file(bench: Bench) {
    let (name, text) = bench
        .settled
        .with_untracked(|design| (file::name(design), file::write(design)));
    if save(bench, &name, &text, "application/json") {
        bench.filed();
    }
}
