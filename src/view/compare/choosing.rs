//! Which line is laid behind: one kept in this browser, or one that came as a link.

use leptos::prelude::*;

use crate::design::Design;
use crate::share::link;
use crate::shelf::{Entry, LineNumber};
use crate::view::bench::{Bench, Ghost, Standing, bench, kept_line, kept_lines};
use crate::view::field::TextField;

/// The other lines of this browser that can be read.
fn others(open: &Standing) -> Vec<Entry> {
    let open = match open {
        Standing::Kept(number) => Some(*number),
        Standing::Unkept { number, .. } => *number,
        Standing::New | Standing::Preview => None,
    };
    let mut lines = kept_lines();
    lines.retain(|line| Some(line.number) != open && line.name.is_some());
    lines
}

/// The lines kept here, other than the open one.
#[component]
pub(super) fn KeptLine() -> impl IntoView {
    let bench = bench();
    // Every line is read for its title, so only when one is kept or laid out.
    let lines = Memo::new(move |_| bench.standing.with(others));
    let laid = Memo::new(move |_| {
        let number = |ghost: &Ghost| ghost.number;
        bench.ghost.with(|ghost| ghost.as_ref().and_then(number))
    });
    let option = move |kept: Entry| {
        let title = kept.title::<Design>().unwrap_or_default().to_owned();
        let number = kept.number;
        let is_laid = move || laid.get() == Some(number);
        view! { <option value=number.to_string() prop:selected=is_laid>{title}</option> }
    };
    view! {
        <Show
            when=move || lines.with(|lines| !lines.is_empty())
            fallback=|| view! { <p class="hint">"No other line is kept in this browser yet."</p> }
        >
            <div class="field">
                <span class="label">"One of my lines"</span>
                <span class="entry">
                    <select
                        aria-label="One of my lines"
                        data-action="compare-line"
                        on:change:target=move |event| lay_kept(bench, &event.target().value())
                    >
                        <option value="" disabled=true prop:selected=move || laid.get().is_none()>"choose"</option>
                        {move || lines.get().into_iter().map(option).collect_view()}
                    </select>
                </span>
            </div>
        </Show>
    }
}

fn lay_kept(bench: Bench, number: &str) {
    let number: Option<LineNumber> = number.parse().ok();
    match number.and_then(kept_line) {
        Some(design) => bench.ghost.set(Some(Ghost::of(design, number))),
        None => bench.say("That line cannot be read any more.".to_owned()),
    }
}

/// A link to paste.
#[component]
pub(super) fn LinkField() -> impl IntoView {
    let bench = bench();
    let lay = move |text: String| {
        if text.trim().is_empty() {
            return Ok(());
        }
        let design = linked(&text)?;
        bench.ghost.set(Some(Ghost::of(design, None)));
        Ok(())
    };
    view! {
        <TextField
            label="Or paste a link to a line"
            // Emptied once it is understood: from then on the tables say which line it was.
            value=Signal::stored(String::new())
            commit=lay
            action="compare-link"
        />
    }
}

/// The design in a link, or in what stands behind its `#`; else what is wrong with it.
fn linked(text: &str) -> Result<Design, String> {
    let fragment = text.rsplit_once('#').map_or(text, |(_, behind)| behind);
    match link::decode(fragment.trim()) {
        Some(design) => design.map_err(|error| error.to_string()),
        None => Err(format!(
            "There is no line in this. Paste the whole link, up to its end; it has “#{}” in it.",
            link::PREFIX
        )),
    }
}
