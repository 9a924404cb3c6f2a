//! A new line from a ready drawing: a sheet.

use leptos::html::P;
use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::line_picture::{frame, line_picture};
use super::scroll::scroll_to_nearest;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use crate::base::choice::Choice as _;
use crate::braid::taper::Taper;
use crate::braid::weight::{CLASSES, Class};
use crate::edit::starts::Start;
use crate::paper::chart::outline::{Frame, outline};

/// The state of the dialog.
#[derive(Clone, Copy)]
struct NewLineDialog {
    bench: Bench,
    /// Whether the line is for the maker's own machine.
    on_mine: RwSignal<bool>,
    /// The class wanted; none for the one that each drawing is made for.
    class: RwSignal<Option<Class>>,
    /// The drawing that was refused, and why.
    refused: RwSignal<Option<(Start, String)>>,
}

impl NewLineDialog {
    /// Puts the line on the bench, or shows beside its drawing why not.
    fn begin(self, start: Start) {
        let (on_mine, wanted) = (self.on_mine.get_untracked(), self.class.get_untracked());
        let own = self.bench.settled.get_untracked();
        let line = match (on_mine, wanted) {
            (true, class) => start.on(&own, class.unwrap_or(start.class())),
            (false, Some(class)) => start.on(&start.design(), class),
            (false, None) => Ok(start.design()),
        };
        match line {
            Ok(design) => {
                self.bench.sheet.set(None);
                let ends = [&own, &design].map(|design| design.supply().light);
                self.bench.take_in(design);
                if on_mine && ends[0] != ends[1] {
                    self.bench.say(other_ends(ends));
                }
            }
            Err(why) => self.refused.set(Some((start, why.to_string()))),
        }
    }
}

/// The sheet.
#[component]
pub(crate) fn NewLineSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::NewLine><NewLine /></Sheet> }
}

#[component]
fn NewLine() -> impl IntoView {
    let dialog = NewLineDialog {
        bench: bench(),
        on_mine: RwSignal::new(true),
        class: RwSignal::new(None),
        refused: RwSignal::new(None),
    };
    view! { <StartList dialog /> }
}

#[component]
fn StartList(dialog: NewLineDialog) -> impl IntoView {
    let tapers: Vec<Taper> = Start::ALL
        .iter()
        .map(|start| start.design().taper())
        .collect();
    let frame = frame(&tapers);
    let starts = Start::ALL.iter().copied().zip(tapers);
    let cards = starts.map(|(start, taper)| view! { <StartItem dialog start taper frame /> });
    view! {
        <label class="starts-where">
            <input
                type="checkbox"
                data-action="start-on-mine"
                aria-describedby="starts-where"
                prop:checked=move || dialog.on_mine.get()
                on:change:target=move |event| { dialog.on_mine.set(event.target().checked()); dialog.refused.set(None); }
            />
            "on my machine, with my yarn"
        </label>
        <p class="hint" id="starts-where">{move || where_words(dialog.on_mine.get())}</p>
        <ClassChoice dialog />
        <ul class="starts-list">{cards.collect_view()}</ul>
        <p class="hint">"The line open now stays as it is. Lengths and sizes here are invented: change them as you like. All five are drawn
            to one scale, much thicker than they are."</p>
    }
}

/// Which class the new line is to have.
#[component]
fn ClassChoice(dialog: NewLineDialog) -> impl IntoView {
    let choose = move |text: String| {
        let found = text.parse().ok().and_then(Class::of_number);
        dialog.class.set(found);
        dialog.refused.set(None);
    };
    let option = move |class: &Class| {
        let number = class.number;
        let is_chosen = move || {
            dialog
                .class
                .get()
                .is_some_and(|chosen| chosen.number == number)
        };
        view! { <option value=number.to_string() selected=is_chosen>{format!("class {number}")}</option> }
    };
    view! {
        <label class="field starts-class">
            <span class="label">"class"</span>
            <select data-action="start-class" on:change:target=move |event| choose(event.target().value())>
                <option value="" selected=move || dialog.class.get().is_none()>"as each is drawn"</option>
                {CLASSES.iter().map(option).collect_view()}
            </select>
        </label>
    }
}

/// What is said when a line begins with other ends than the maker set.
fn other_ends([own, new]: [u32; 2]) -> String {
    format!(
        "This line begins with {new} ends to a thread. Your {own} do not make it well with your gears. You can change the ends \
         under Settings."
    )
}

fn where_words(on_mine: bool) -> &'static str {
    if on_mine {
        "Machine, yarn, gears and dressing are taken from the line open now. The drawing is made thicker or thinner until it \
         weighs what its class asks for. Your ends to a thread are kept if they make it well."
    } else {
        "The line opens in the workshop of the example: an invented machine with sixteen carriers, and silk."
    }
}

/// One drawing to begin from.
#[component]
fn StartItem(dialog: NewLineDialog, start: Start, taper: Taper, frame: Frame) -> impl IntoView {
    let length = taper.length();
    let facts = move || {
        let length = dialog.bench.units.get().show_yarn(length, 1);
        let class = dialog.class.get().unwrap_or(start.class());
        format!("{length} long, class {}", class.number)
    };
    let refused = move || {
        let refused = dialog.refused.get();
        refused.filter(|(which, _)| *which == start)
    };
    let said = move || refused().map(|(_, why)| view! { <Said why /> });
    view! {
        <li>
            {line_picture(outline(&taper, &frame))}
            <div class="facts">
                <h3>{start.name()}</h3>
                <p>{facts}</p>
            </div>
            <p>{start.sentence()}</p>
            <button
                data-action="start"
                data-start=start.key()
                aria-label=format!("Start from this: {}", start.name())
                on:click=move |_| dialog.begin(start)
            >
                "Start from this"
            </button>
            {said}
        </li>
    }
}

/// Why a drawing was refused. On a small screen it may be below the edge, so it is scrolled into view.
#[component]
fn Said(why: String) -> impl IntoView {
    let words = NodeRef::<P>::new();
    words.on_load(|words| scroll_to_nearest(&words));
    view! { <p class="said" role="alert" node_ref=words>{why}</p> }
}
