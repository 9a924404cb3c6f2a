//! Every view of the page and the way to it, the sizes it is held in, and the looks. What is promised of all of them, and
//! the pictures of all of them, go through this list: a new view is a new line here.

use serde_json::json;
use taperwright::braid::recipe::StepKind;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::share::link;

use super::axe::evaluate;
use super::book;
use super::cdp::Size;
use super::days::{begun, today};
use super::dressing::{self, field};
use super::harness::until;
use super::kept;
use super::page::Page;
use super::settings::edited;
use super::swatches::measured;

/// A tablet either way up, and a phone.
pub(super) const SIZES: [Size; 3] = [(1180, 820), (820, 1180), (390, 844)];

/// Forgets lines and books, in both places where they are kept; the look stays.
const FORGET: &str = "
    new Promise((done, failed) => {
        const kinds = ['line/', 'steps/', 'open', 'workshop/', 'bin/', 'exported'];
        for (const key of Object.keys(localStorage)) {
            if (kinds.some((kind) => key.startsWith(`taperwright/${kind}`))) localStorage.removeItem(key);
        }
        const request = indexedDB.open('taperwright');
        request.onerror = failed;
        request.onsuccess = () => {
            const database = request.result;
            const clearing = database.transaction('states', 'readwrite');
            clearing.objectStore('states').clear();
            clearing.oncomplete = () => { database.close(); done(true); };
            clearing.onerror = failed;
        };
    })";

/// What the colours of the page come from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Look {
    /// The device is set to light, and no look is chosen.
    Light,
    /// The device is set to dark, and no look is chosen.
    Dark,
    /// The look for a bright workshop is chosen.
    Bright,
}

/// Chooses a look for the open page as the page itself does, by an attribute; an empty one is none.
const CHOOSE: &str = "
    const [look] = arguments;
    if (look) document.documentElement.dataset.look = look;
    else delete document.documentElement.dataset.look;";

impl Look {
    /// Its word in names of pictures.
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
            Self::Bright => "bright",
        }
    }

    /// Sets device and page to it, and waits until the page is drawn so.
    pub(super) async fn set(self, page: &Page) {
        let (scheme, chosen) = match self {
            Self::Light => ("light", ""),
            Self::Dark => ("dark", ""),
            Self::Bright => ("light", "bright"),
        };
        let feature = json!({"name": "prefers-color-scheme", "value": scheme});
        let media = json!({"features": [feature]});
        page.session.cdp("Emulation.setEmulatedMedia", &media);
        page.run(CHOOSE, vec![json!(chosen)]).await;
        page.until_drawn().await;
    }
}

/// A state of the page that somebody may meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum View {
    /// As a first visitor finds it.
    Bench,
    /// Something was typed that is no size.
    WrongValue,
    /// Everything that unfolds is unfolded.
    Unfolded,
    /// The link of the line is shown.
    Share,
    /// A change in the schedule is about to be pinned.
    PinEditor,
    /// Thread plans were found.
    Found,
    /// The card on screen.
    Card,
    /// A line came by link.
    Preview,
    /// A link was cut off.
    Message,
    /// Ready drawings to begin a new line from.
    Starts,
    /// Another line lies behind the own one.
    Compared,
    /// A word is explained.
    Word,
    /// The chart looks at a part of the line, and points are drawn to whole threads.
    Closer,
    /// The line is in dressing; a step is open, and something is wrong with it.
    Dressing,
    /// The dressing plan on paper, with days.
    DressingSheet,
    /// The bench book, with a number that cannot be.
    Book,
    /// The bench book, with a line made.
    MadeLine,
    /// A finished line's tag.
    Tag,
    /// A step at the machine, and something that went otherwise.
    AtMachine,
    /// Everything kept here, with a line's operations unfolded and another just put into the bin.
    MyLines,
}

impl View {
    /// All of them.
    pub(super) const ALL: [Self; 20] = [
        Self::Bench,
        Self::WrongValue,
        Self::Unfolded,
        Self::Share,
        Self::PinEditor,
        Self::Found,
        Self::Card,
        Self::Preview,
        Self::Message,
        Self::Starts,
        Self::Compared,
        Self::Word,
        Self::Closer,
        Self::Dressing,
        Self::DressingSheet,
        Self::Book,
        Self::MadeLine,
        Self::Tag,
        Self::AtMachine,
        Self::MyLines,
    ];

    /// Its word in names of pictures.
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Bench => "bench",
            Self::WrongValue => "wrong-value",
            Self::Unfolded => "unfolded",
            Self::Share => "share",
            Self::PinEditor => "pin-editor",
            Self::Found => "finder",
            Self::Card => "card",
            Self::Preview => "preview",
            Self::Message => "message",
            Self::Starts => "starts",
            Self::Compared => "compared",
            Self::Word => "word",
            Self::Closer => "closer",
            Self::Dressing => "dressing",
            Self::DressingSheet => "dressing-sheet",
            Self::Book => "book",
            Self::MadeLine => "made-line",
            Self::Tag => "tag",
            Self::AtMachine => "at-machine",
            Self::MyLines => "my-lines",
        }
    }

    /// What stands after the site's address.
    fn address(self) -> String {
        match self {
            Self::Preview => foreign_link(),
            Self::Message => {
                let link = foreign_link();
                link[..link.len() - 5].to_owned()
            }
            _ => String::new(),
        }
    }

    /// Opens the page again, with nothing kept from another view, and brings it there.
    pub(super) async fn open(self, page: &Page) {
        evaluate(page, FORGET);
        // A page that is open only hears of another fragment.
        let left = page.session.client.goto("about:blank").await;
        left.expect("the page is left");
        page.go(&self.address()).await;
        self.arrange(page).await;
        page.until_there(self.sign()).await;
    }

    async fn arrange(self, page: &Page) {
        match self {
            Self::Bench | Self::Preview | Self::Message => page.until_still().await,
            Self::WrongValue => page.enter("point-size", "thick").await,
            Self::Unfolded => page.unfold_all().await,
            Self::Share => page.press("share").await,
            Self::PinEditor => page.press_at("li[data-event=add] [data-action=pin]").await,
            Self::Found => {
                page.press("find-plan").await;
                page.until_there("li[data-found]").await;
                page.until_there("[data-search=done]").await;
            }
            Self::Card => page.press("card").await,
            Self::Starts => page.press("new-line").await,
            Self::Compared => page.enter("compare-link", &foreign_link()).await,
            Self::Word => page.press_at(".readout button[data-term]").await,
            Self::Closer => {
                page.unfold("snap-threads").await;
                page.press("snap-threads").await;
                page.press("zoom-in").await;
                page.press("zoom-in").await;
            }
            Self::Dressing => {
                dressing::unfold(page, StepKind::OilVacuum).await;
                page.enter_at(&field(StepKind::OilVacuum, "step-mbar"), "300")
                    .await;
                page.until_there("[data-step=oil-vacuum] .warnings").await;
                begun(page, today(page).await.plus(-4)).await;
                dressing::unfold(page, StepKind::Inspect).await;
                page.press_at(&field(StepKind::Inspect, "tick")).await;
            }
            Self::DressingSheet => {
                begun(page, today(page).await).await;
                page.press("dressing-sheet").await;
            }
            Self::Book => {
                book::open(page).await;
                measured(page).await;
                page.enter("swatch-angle", "70").await;
            }
            Self::AtMachine => {
                page.go_to("braid").await;
                page.press("run-begin").await;
                page.press("run-done").await;
                page.until_there("[data-action=circuit]").await;
                page.unfold("mishaps").await;
                page.enter("mishap-skipped", "0.8").await;
            }
            Self::MyLines => kept::with_all_shown(page).await,
            Self::MadeLine | Self::Tag => {
                book::open(page).await;
                page.press("new-record").await;
                page.enter("line-head", "1").await;
                page.until_there(".measure.doubted").await;
                if self == Self::Tag {
                    page.press("tag").await;
                }
            }
        }
    }

    /// What the view is about, where that is not at the top of the page.
    pub(super) fn subject(self) -> Option<&'static str> {
        match self {
            Self::WrongValue => Some("[data-action=point-size]"),
            Self::Unfolded => Some("details[open]"),
            Self::PinEditor => Some("[data-action=pin-place]"),
            Self::Found => Some("li[data-found]"),
            Self::Compared => Some("[data-compared]"),
            Self::Dressing => Some("[data-step=oil-vacuum] summary"),
            Self::Book => Some("[data-action=swatch-angle]"),
            Self::MadeLine => Some(".made-lines details"),
            _ => None,
        }
    }

    /// What is there when the view is.
    fn sign(self) -> &'static str {
        match self {
            Self::Bench => "[data-point]",
            Self::WrongValue => "[data-action=point-size][aria-invalid=true]",
            Self::Unfolded => "details[open]",
            Self::Share => "[data-action=copy-link]",
            Self::PinEditor => "[data-action=pin-place]",
            Self::Found => "li[data-found]",
            Self::Card => ".card-desk.shown",
            Self::Preview => "[data-action=keep-copy]",
            Self::Message => ".message",
            Self::Starts => "dialog[open]",
            Self::Compared => "[data-ghost=outline]",
            Self::Word => "[data-term]:popover-open",
            Self::Closer => ".guides line",
            Self::Dressing => ".strip rect.done",
            Self::DressingSheet => ".dressing-sheet-desk.shown tr[data-step]",
            Self::Book => ".swatches .measure.doubted",
            Self::MadeLine => ".made-lines .measure.doubted",
            Self::Tag => ".tag-desk.shown .tag",
            Self::AtMachine => ".proposal",
            Self::MyLines => "[data-action=take-back]",
        }
    }
}

/// A link from somebody else.
fn foreign_link() -> String {
    let thicker = edited(demo(), Edit::ScaleSizes(1.05));
    let design = edited(thicker, Edit::Name("Line of a friend".to_owned()));
    format!(
        "#{}",
        link::encode(&design).expect("the example makes a link")
    )
}

impl Page {
    /// Unfolds whatever can be.
    async fn unfold_all(&self) {
        let script =
            "document.querySelectorAll('details').forEach((fold) => { fold.open = true; });";
        self.run(script, vec![]).await;
    }

    /// Gives the page a size, and waits until its drawing has taken to it.
    pub(super) async fn take_size(&self, size: Size) {
        self.session.resize(size);
        until("the window has its size", async || {
            let now: Size = self.ask("return [innerWidth, innerHeight];", vec![]).await;
            (now == size).then_some(())
        })
        .await;
        self.until_still().await;
    }

    /// Waits until the drawing rests.
    async fn until_still(&self) {
        self.point(0).await;
    }
}
