//! The card: sheets to pin above the machine. It shows the settled design, and is drawn when it is opened or printed
//! (`beforeprint`), not at each change: so the browser's own print command finds it too.
//!
//! The paper and the maker's name belong to the reader, not to the line: they are stored in the browser and travel in no link.
//! To a screen reader a sheet is one picture: everything on it is on the page too.

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::book::{OpenBook, open_book};
use super::field::options;
use super::saving::save;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use super::window_events::on_window;
use crate::base::choice::Choice;
use crate::design::Design;
use crate::keep::share::{card_svg, link};
use crate::page::browser::storage::preference;
use crate::page::browser::{address, clock};
use crate::paper::card::{Anchor, Card, CardDetails, Item, MAKER_ROOM, Paint, Paper, Sheet, maker};

/// Key under which the maker's name for the card is kept.
const MAKER_KEY: &str = "taperwright/maker";
/// Key under which the paper is kept.
const PAPER_KEY: &str = "taperwright/paper";

/// What the reader sets for every card.
#[derive(Clone, Copy)]
struct CardChoices {
    maker: RwSignal<String>,
    paper: RwSignal<Paper>,
}

impl CardChoices {
    /// What was set at an earlier visit.
    fn kept() -> Self {
        let kept = |key| preference(key).unwrap_or_default();
        Self {
            maker: RwSignal::new(maker(&kept(MAKER_KEY))),
            paper: RwSignal::new(Paper::from_key(&kept(PAPER_KEY)).unwrap_or_default()),
        }
    }

    /// The card of the settled design.
    fn card(self, bench: Bench, book: OpenBook) -> Card {
        bench
            .settled
            .with(|design| self.card_of(bench, book, design))
    }

    fn card_of(self, bench: Bench, book: OpenBook, design: &Design) -> Card {
        let link = link::encode(design)
            .map(|fragment| address::with_fragment(&fragment))
            .map_err(|error| error.to_string());
        let maker = self.maker.read();
        let tension = book.workshop.with(|workshop| {
            let is_home = design.draft().workshop == workshop.title();
            let note = is_home.then(|| workshop.machine_notes.tension.clone());
            note.unwrap_or_default()
        });
        let beside = CardDetails {
            maker: &maker,
            tension: &tension,
            day: clock::today(),
            link: link.as_deref().map_err(String::as_str),
            units: bench.units.get(),
            paper: self.paper.get(),
        };
        bench
            .settled_plan
            .with(|plan| Card::of(design, plan, beside))
    }
}

/// The card, with its buttons when on screen.
#[component]
pub(crate) fn CardSheet() -> impl IntoView {
    let (bench, book) = (bench(), open_book());
    let choices = CardChoices::kept();
    let printing = RwSignal::new(false);
    on_window(leptos::ev::beforeprint, move |_| printing.set(true));
    on_window(leptos::ev::afterprint, move |_| printing.set(false));
    let is_wanted =
        Memo::new(move |_| printing.get() || SheetKind::Card.is_like(bench.sheet.get()));
    let card = Memo::new(move |_| is_wanted.get().then(|| choices.card(bench, book)));
    let pages = move || {
        card.read().as_ref().map(|card| {
            let all = card.sheets.len();
            let sheets = (1..).zip(&card.sheets);
            sheets
                .map(|(number, sheet)| page(card, sheet, (number, all)))
                .collect_view()
        })
    };
    view! {
        <Sheet kind=SheetKind::Card lasts=true>
            <Choices choices />
            <div class="pages" data-paper=move || choices.paper.get().key()>
                {pages}
            </div>
        </Sheet>
    }
}

/// Who braids, and on what it is printed.
#[component]
fn Choices(choices: CardChoices) -> impl IntoView {
    let bench = bench();
    let name = move |typed: String| {
        let name = maker(&typed);
        bench.keep_preference(MAKER_KEY, &name);
        choices.maker.set(name);
    };
    let choose = move |key: String| {
        if let Some(paper) = Paper::from_key(&key) {
            bench.keep_preference(PAPER_KEY, paper.key());
            choices.paper.set(paper);
        }
    };
    view! {
        <div class="card-choices screen-only">
            <label class="choice">
                <span>"Maker"</span>
                <input
                    data-action="maker"
                    type="text"
                    maxlength=MAKER_ROOM
                    autocomplete="off"
                    prop:value=move || choices.maker.get()
                    on:change:target=move |event| name(event.target().value())
                />
            </label>
            <label class="choice">
                <span>"Paper"</span>
                <select
                    data-action="paper"
                    prop:value=move || choices.paper.get().key()
                    on:change:target=move |event| choose(event.target().value())
                >
                    {options::<Paper>(choices.paper.into())}
                </select>
            </label>
            <SaveCard choices />
        </div>
    }
}

/// Saves the card as a picture.
#[component]
fn SaveCard(
    /// What is set for every card.
    choices: CardChoices,
) -> impl IntoView {
    let (bench, book) = (bench(), open_book());
    let save_it = move |_| {
        let card = untrack(|| choices.card(bench, book));
        let name = bench.settled.with_untracked(card_svg::name);
        save(bench, &name, &card_svg::write(&card), "image/svg+xml");
    };
    view! { <button data-action="save-card" on:click=save_it>"Save card as SVG"</button> }
}

/// One sheet of paper, as it is printed.
fn page(card: &Card, sheet: &Sheet, (number, all): (usize, usize)) -> impl IntoView + use<> {
    let (width, height) = card.paper.size();
    let label = format!("Taper card of {}, sheet {number} of {all}", card.title);
    view! {
        <svg class="page" data-sheet=number viewBox=format!("0 0 {width} {height}") role="img" aria-label=label>
            {sheet.items.iter().map(item).collect_view()}
        </svg>
    }
}

fn item(item: &Item) -> AnyView {
    match item {
        Item::Text {
            at: (x, y),
            anchor,
            set,
            words,
        } => {
            let anchor = (*anchor != Anchor::Start).then(|| anchor.key());
            let weight = set.bold.then_some("650");
            view! {
                <text x=*x y=*y font-size=set.size text-anchor=anchor font-weight=weight class:white=set.white>
                    {words.clone()}
                </text>
            }
            .into_any()
        }
        Item::Path { place, paint, data } => {
            let edge = paint.edge();
            let rendering = (*paint == Paint::Squares).then_some("crispEdges");
            view! {
                <path
                    transform=place.transform()
                    fill=paint.fill()
                    stroke=edge.map(|_| "#000")
                    stroke-width=edge
                    shape-rendering=rendering
                    d=data.clone()
                />
            }
            .into_any()
        }
        Item::Rule {
            from: (x, y),
            to: (to_x, to_y),
            width,
        } => view! { <line x1=*x y1=*y x2=*to_x y2=*to_y stroke-width=*width /> }.into_any(),
        Item::TickBox { at: (x, y), side } => {
            view! { <rect x=*x y=*y width=*side height=*side /> }.into_any()
        }
    }
}
