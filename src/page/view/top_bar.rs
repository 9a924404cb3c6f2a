//! The bar above every place: the line's name, its class, sharing, the card, and the menu.

use leptos::prelude::*;

use super::bench::{StorageState, bench};
use super::class_button::ClassButton;
use super::icon::{Glyph, Icon};
use super::later::{self, Part};
use super::menu::MENU;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;

/// The bar.
#[component]
pub(crate) fn TopBar() -> impl IntoView {
    view! {
        <header class="top-bar">
            <LineName />
            <ClassButton />
            <div class="top-actions">
                <SheetButton kind=SheetKind::Share class="plain" label="Share this line"><Glyph icon=Icon::Share /></SheetButton>
                <SheetButton kind=SheetKind::Card class="plain" label="Print the card"><Glyph icon=Icon::Print /></SheetButton>
                <button class="plain" aria-label="Menu" data-action="menu" popovertarget=MENU><Glyph icon=Icon::More /></button>
            </div>
            {move || later::shown(Part::Menu)}
        </header>
    }
}

/// The name of the line and where it is kept. It opens the list of lines.
#[component]
fn LineName() -> impl IntoView {
    let bench = bench();
    let title = move || bench.settled.with(|design| design.title().to_owned());
    let length = move || {
        let length = bench.settled_plan.with(|plan| plan.length);
        bench.units.get().show_yarn(length, 1)
    };
    let standing = move || bench.storage_state.with(StorageState::words);
    view! {
        <h1 class="line-name">
            <SheetButton kind=SheetKind::Lines>
                <span class="name">{title}</span>
                <span class="quiet">{length}<span class="standing">" · "{standing}</span></span>
                <Glyph icon=Icon::Down />
            </SheetButton>
        </h1>
    }
}
