//! Sharing a line: its link, as a code to scan, as text to copy, and through the device.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::bench::bench;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use crate::keep::share::link;
use crate::page::browser::web_share::{self, ShareOutcome};
use crate::page::browser::{address, clipboard};
use crate::paper::code::Code;

/// The link of the design after the last finished change, or why there is none.
#[component]
pub(crate) fn ShareSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Share><SharedLink /></Sheet> }
}

#[component]
fn SharedLink() -> impl IntoView {
    let bench = bench();
    let link = Memo::new(move |_| {
        let fragment = bench.settled.with(link::encode);
        fragment.map(|fragment| address::with_fragment(&fragment))
    });
    let shown = move || match link.get() {
        Ok(link) => view! { <Link link /> }.into_any(),
        Err(error) => view! { <p role="alert">{error.to_string()}</p> }.into_any(),
    };
    view! { <div class="shared">{shown}</div> }
}

/// A link to scan, to copy, to share, to read, or to open.
#[component]
fn Link(link: String) -> impl IntoView {
    let status = RwSignal::new("");
    let code = match Code::of(&link) {
        Ok(code) => view! { <QrCode code /> }.into_any(),
        Err(said) => view! { <p class="to-scan">{said.to_string()}</p> }.into_any(),
    };
    let text = link.clone();
    let copy = move |_| {
        let text = text.clone();
        spawn_local(async move {
            let done = clipboard::copy(&text).await;
            status.set(if done {
                "Copied."
            } else {
                "The browser did not copy. Select the link and copy it yourself."
            });
        });
    };
    view! {
        {code}
        <label class="link">
            <span>"This link contains the whole design. Nothing is stored on a server."</span>
            <input type="text" readonly=true data-action="link" value=link.clone() />
        </label>
        <div class="buttons">
            <button class="main" data-action="copy-link" on:click=copy>"Copy link"</button>
            <ShareButton link=link.clone() status />
            <a class="button" data-action="open-link" href=link target="_blank" rel="noopener">"Open this link"</a>
        </div>
        <p role="status">{status}</p>
    }
}

/// The link as a code, large enough for the camera of a fellow maker.
#[component]
fn QrCode(code: Code) -> impl IntoView {
    let whole = code.whole().to_string();
    let squares = whole.clone();
    let edge = format!("-{}", crate::paper::code::QUIET);
    view! {
        <figure class="to-scan">
            <svg class="code" data-code="link" style=("--squares", squares) viewBox=code.view_box() role="img" aria-label="Code of the link, for a camera">
                <rect x=edge.clone() y=edge width=whole.clone() height=whole />
                <path d=code.path() />
            </svg>
            <figcaption>"Point another device’s camera here to open this line there."</figcaption>
        </figure>
    }
}

/// Shares the link through the device, where the browser can.
#[component]
fn ShareButton(link: String, status: RwSignal<&'static str>) -> impl IntoView {
    let bench = bench();
    let pass = move |_| {
        let link = link.clone();
        let title = bench
            .settled
            .with_untracked(|design| design.title().to_owned());
        spawn_local(async move {
            let passed = web_share::share(&title, &link).await;
            status.set(match passed {
                ShareOutcome::Done => "",
                ShareOutcome::Refused => "The device did not send it. Copy the link instead.",
            });
        });
    };
    web_share::is_available().then(|| {
        view! { <button data-action="pass-on" on:click=pass>"Send …"</button> }
    })
}
