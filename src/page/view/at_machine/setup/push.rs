//! Pushing the first centimetres of the braid together: what it does says how tight it is. Common practice, no source.

use leptos::prelude::*;

/// What the braid does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Answer {
    OpensUp,
    Stiff,
    Right,
}

impl Answer {
    const ALL: [Self; 3] = [Self::OpensUp, Self::Stiff, Self::Right];

    const fn key(self) -> &'static str {
        match self {
            Self::OpensUp => "open",
            Self::Right => "right",
            Self::Stiff => "stiff",
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Self::OpensUp => "It opens up",
            Self::Right => "Neither of these",
            Self::Stiff => "It is stiff",
        }
    }

    /// What then helps.
    const fn remedy(self) -> &'static str {
        match self {
            Self::OpensUp => "Too loose. Put more weight or stronger springs on the carriers.",
            Self::Right => "Neither too loose nor too tight. Leave the carriers as they are.",
            Self::Stiff => "Too tight. Put less weight or weaker springs on the carriers.",
        }
    }

    /// The braid between the fingers, from the side.
    const fn path(self) -> &'static str {
        match self {
            Self::OpensUp => {
                "M4 24h10C26 0 36 0 48 24S70 48 82 24h10M14 24C26 48 36 48 48 24S70 0 82 24"
            }
            Self::Right => {
                "M4 16h88M4 32h88M14 16l16 16M30 16L14 32M40 16l16 16M56 16L40 32M66 16l16 16M82 16L66 32"
            }
            Self::Stiff => {
                "M4 19h88v10H4ZM14 19l6 10M26 19l6 10M38 19l6 10M50 19l6 10M62 19l6 10M74 19l6 10"
            }
        }
    }
}

/// The three answers, and what helps. The answer is shown, not stored.
#[component]
pub(super) fn PushTest() -> impl IntoView {
    let chosen = RwSignal::new(None::<Answer>);
    let button = |answer: Answer| {
        let is_chosen = move || (chosen.get() == Some(answer)).to_string();
        view! {
            <button data-action="push" data-push=answer.key() aria-pressed=is_chosen on:click=move |_| chosen.set(Some(answer))>
                <svg class="sketch" viewBox="0 0 96 48" aria-hidden="true"><path d=answer.path() /></svg>
                {answer.name()}
            </button>
        }
    };
    let remedy = move || chosen.get().map(Answer::remedy);
    view! {
        <div class="big-buttons push-answers">{Answer::ALL.map(button).into_iter().collect_view()}</div>
        <p class="push-remedy" role="status">{remedy}</p>
        <p class="hint">"Rule of thumb, no source."</p>
    }
}
