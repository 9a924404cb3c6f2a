//! The menu: what is not about one place. It is a popover of the platform, which Escape and a tap elsewhere close.

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::book::open_book;
use super::kept::import_backup;
use super::look::LookChoice;
use super::measured::{OpenReadings, open_measured};
use super::open_file::OpenFile;
use super::saving::save_line;
use super::sheet_kind::SheetKind;
use super::updates::OfflineLine;
use crate::base::choice::Choice as _;
use crate::base::units::show::Units;
use crate::keep::dropped::{self, DropError, Dropped};
use crate::keep::share::file::{self, FileError};
use crate::keep::shelf::backup;

/// The element that is the menu.
pub(crate) const MENU: &str = "menu";

/// What opens a sheet, in the order shown, with its words; the first two stand in the bar too where that has room.
const SHEETS: [(SheetKind, &str); 13] = [
    (SheetKind::Share, "Share this line"),
    (SheetKind::Card, "Print the card"),
    (SheetKind::NewLine, "New line"),
    (SheetKind::Lines, "My lines"),
    (SheetKind::Measured, "Copy a line you own"),
    (SheetKind::Photo, "Measure a braid from a photo"),
    (SheetKind::Questions, "Your workshop in a few questions"),
    (SheetKind::Workshop, "Workshop: machine and yarn"),
    (SheetKind::Numbers, "Type all points"),
    (SheetKind::Compare, "Compare with another line"),
    (SheetKind::Turnover, "How it turns over"),
    (SheetKind::Words, "Words of the trade"),
    (SheetKind::Cautions, "Safety, and what is calculated"),
];

/// The menu.
#[component]
pub(crate) fn Menu() -> impl IntoView {
    let bench = bench();
    let sheet = move |(kind, words): (SheetKind, &'static str)| {
        let is_in_bar = matches!(kind, SheetKind::Share | SheetKind::Card);
        view! {
            <button
                class:narrow-only=is_in_bar
                data-action=kind.key()
                aria-haspopup="dialog"
                popovertarget=MENU
                popovertargetaction="hide"
                on:click=move |_| bench.sheet.set(Some(kind))
            >
                {words}
            </button>
        }
    };
    view! {
        <div class="menu" id=MENU popover="auto" role="group" aria-label="Menu">
            {SHEETS.map(sheet).into_iter().collect_view()}
            <OpenLine />
            <OpenReadings />
            <button data-action="save-file" popovertarget=MENU popovertargetaction="hide" on:click=move |_| save_file(bench)>
                "Save this line as a file"
            </button>
            <UnitChoice />
            <LookChoice />
            <OfflineLine />
        </div>
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

/// Opens a file: a design as a line beside the others, a measured line, or a backup to restore.
#[component]
fn OpenLine() -> impl IntoView {
    let (bench, open_book, measured) = (bench(), open_book(), open_measured());
    let take = move |text: Option<String>| {
        if let Some(text) = text.as_deref().filter(|text| backup::is_one(text)) {
            return bench.say(import_backup(open_book, text));
        }
        let Some(text) = text else {
            return bench.say(FileError::TooLarge.to_string());
        };
        match dropped::read(&text) {
            Ok(Dropped::Line(design)) => bench.take_in(*design),
            Ok(Dropped::Measured(line)) => measured.take_in(*line),
            Err(DropError::Measured(said)) => bench.say(said.to_string()),
            // What is no line is said as of a design, which most files are.
            _ => match file::read(&text) {
                Ok(design) => bench.take_in(design),
                Err(said) => bench.say(said.to_string()),
            },
        }
    };
    view! {
        <OpenFile
            label="Open a file"
            action="open-file"
            largest=backup::LARGEST
            take=Callback::new(take)
            tell=Callback::new(move |said| bench.say(said))
        />
    }
}

fn save_file(bench: Bench) {
    if bench
        .settled
        .with_untracked(|design| save_line(bench, design))
    {
        bench.filed();
    }
}
