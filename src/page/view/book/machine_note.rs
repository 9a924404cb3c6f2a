//! A note of the workshop's machine, to read and to change: in the book and where the machine is set up.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::keep::book::machine_notes::MachineNotes;
use crate::page::view::field::TextField;

/// Which note.
#[derive(Clone, Copy)]
pub(crate) enum MachineNote {
    /// How the carriers pull.
    Tension,
    /// What marks the bobbins that begin.
    FirstMark,
    /// What marks those that enter later.
    LaterMark,
}

impl MachineNote {
    /// The note.
    pub(crate) fn of(self, notes: &MachineNotes) -> &str {
        match self {
            Self::Tension => &notes.tension,
            Self::FirstMark => &notes.first_mark,
            Self::LaterMark => &notes.later_mark,
        }
    }

    fn set(self, notes: &mut MachineNotes, to: String) {
        let note = match self {
            Self::Tension => &mut notes.tension,
            Self::FirstMark => &mut notes.first_mark,
            Self::LaterMark => &mut notes.later_mark,
        };
        *note = to;
    }

    const fn label(self) -> &'static str {
        match self {
            Self::Tension => "how your carriers pull: spring, notch or weight",
            Self::FirstMark => "marking of the bobbins that begin",
            Self::LaterMark => "marking of the bobbins that enter later",
        }
    }

    const fn action(self) -> &'static str {
        match self {
            Self::Tension => "tension",
            Self::FirstMark => "first-mark",
            Self::LaterMark => "later-mark",
        }
    }
}

/// The note as a field.
#[component]
pub(crate) fn MachineNoteField(of: MachineNote) -> impl IntoView {
    let open_book = open_book();
    let shown = move || {
        let workshop = open_book.workshop.read();
        of.of(&workshop.machine_notes).to_owned()
    };
    let take =
        move |note: String| open_book.change(|workshop| of.set(&mut workshop.machine_notes, note));
    view! { <TextField label=of.label() action=of.action() value=Signal::derive(shown) commit=take /> }
}
