//! Every view of the page and the way to it, the sizes it is held in, and the looks. What is promised of all of them, and
//! the pictures of all of them, go through this list: a new view is a new line here.

use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::share::link;

use super::axe::evaluate;
use super::cdp::Size;
use super::harness::until;
use super::page::Page;
use super::settings::edited;

/// A large tablet either way up, a small one either way up, and a phone.
pub(super) const SIZES: [Size; 5] = [
    (1180, 820),
    (820, 1180),
    (1024, 768),
    (768, 1024),
    (390, 844),
];

/// Forgets lines and books, in both places where they are kept; the look stays.
const FORGET: &str = "
    new Promise((done, failed) => {
        const kinds = ['line/', 'steps/', 'open', 'workshop/', 'measured/', 'bin/', 'exported'];
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

/// A state of the page that somebody may meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum View {
    /// As a first visitor finds it.
    Draw,
    /// The schedule with the stairs, the machine and the braid.
    Threads,
    /// What to ply and to wind.
    Wind,
    /// A line that is not begun.
    Braid,
    /// The steps of dressing.
    Dress,
    /// The bench book, with nothing in it.
    Weigh,
    /// The same, with the example book open.
    ExampleBook,
    /// The menu is open.
    Menu,
    /// All figures.
    Figures,
    /// All settings, and everything that unfolds is unfolded.
    Workshop,
    /// What a new maker is asked first, one of it answered.
    Questions,
    /// The drawing in numbers.
    Numbers,
    /// The search for plans, before it is begun.
    Plans,
    /// Thread plans were found.
    Found,
    /// A measured line, before anything is known of it.
    Measure,
    /// A measured line with its taper, a row that was not understood, and the copy to braid.
    Measured,
    /// The sheet that measures from a photo, before there is one.
    Photo,
    /// A photo measured, a handle chosen, a rule laid over it.
    PhotoMeasured,
    /// A copy with its original behind it.
    Copied,
    /// What a new line asks for.
    NewLine,
    /// What a new line makes, once all is chosen.
    NewLineChosen,
    /// The link of the line is shown.
    Share,
    /// The card on screen.
    Card,
    /// Everything kept here, with a line's operations unfolded and another just put into the bin.
    MyLines,
    /// The list of words, one of them opened.
    Words,
    /// Cautions and limits.
    Cautions,
    /// Something was typed that is no size.
    WrongValue,
    /// A line came by link.
    Preview,
    /// A link was cut off.
    Message,
    /// The chart looks at a part of the line, and points are drawn to whole threads.
    Closer,
    /// Another line lies behind the own one.
    Compared,
    /// The same, in numbers.
    CompareTables,
    /// How the line turns over, beside another.
    Turnover,
    /// Arrows on the handles show what would make it gentler.
    PointArrows,
    /// A word is explained.
    Word,
    /// A change in the schedule is about to be pinned.
    PinEditor,
    /// A step at the machine, and something that went otherwise.
    AtMachine,
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
}

impl View {
    /// All of them.
    pub(super) const ALL: [Self; 42] = [
        Self::Draw,
        Self::Threads,
        Self::Wind,
        Self::Braid,
        Self::Dress,
        Self::Weigh,
        Self::ExampleBook,
        Self::Menu,
        Self::Figures,
        Self::Workshop,
        Self::Questions,
        Self::Numbers,
        Self::Plans,
        Self::Found,
        Self::Measure,
        Self::Measured,
        Self::Photo,
        Self::PhotoMeasured,
        Self::Copied,
        Self::NewLine,
        Self::NewLineChosen,
        Self::Share,
        Self::Card,
        Self::MyLines,
        Self::Words,
        Self::Cautions,
        Self::WrongValue,
        Self::Preview,
        Self::Message,
        Self::Closer,
        Self::Compared,
        Self::CompareTables,
        Self::Turnover,
        Self::PointArrows,
        Self::Word,
        Self::PinEditor,
        Self::AtMachine,
        Self::Dressing,
        Self::DressingSheet,
        Self::Book,
        Self::MadeLine,
        Self::Tag,
    ];

    /// Its word in names of pictures.
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Draw => "draw",
            Self::Threads => "threads",
            Self::Wind => "wind",
            Self::Braid => "braid",
            Self::Dress => "dress",
            Self::Weigh => "weigh",
            Self::ExampleBook => "example-book",
            Self::Menu => "menu",
            Self::Figures => "figures",
            Self::Workshop => "workshop",
            Self::Questions => "questions",
            Self::Numbers => "numbers",
            Self::Plans => "plans",
            Self::Found => "plans-found",
            Self::Measure => "measure",
            Self::Measured => "measured",
            Self::Photo => "photo",
            Self::PhotoMeasured => "photo-measured",
            Self::Copied => "copied",
            Self::NewLine => "new-line",
            Self::NewLineChosen => "new-line-chosen",
            Self::Share => "share",
            Self::Card => "card",
            Self::MyLines => "my-lines",
            Self::Words => "words",
            Self::Cautions => "cautions",
            Self::WrongValue => "wrong-value",
            Self::Preview => "preview",
            Self::Message => "message",
            Self::Closer => "closer",
            Self::Compared => "compared",
            Self::CompareTables => "compare-tables",
            Self::Turnover => "turnover",
            Self::PointArrows => "point-arrows",
            Self::Word => "word",
            Self::PinEditor => "pin-editor",
            Self::AtMachine => "at-machine",
            Self::Dressing => "dressing",
            Self::DressingSheet => "dressing-sheet",
            Self::Book => "book",
            Self::MadeLine => "made-line",
            Self::Tag => "tag",
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
            _ => format!("#{}", self.place()),
        }
    }

    /// Where it is.
    fn place(self) -> &'static str {
        match self {
            Self::Threads | Self::Plans | Self::Found | Self::PinEditor => "threads",
            Self::Wind => "wind",
            Self::Braid | Self::AtMachine => "braid",
            Self::Dress | Self::Dressing | Self::DressingSheet => "dress",
            Self::Weigh | Self::ExampleBook | Self::Book | Self::MadeLine | Self::Tag => "weigh",
            _ => "draw",
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

    /// What the view is about, where that is not at the top of the page.
    pub(super) fn subject(self) -> Option<&'static str> {
        match self {
            Self::PinEditor => Some("[data-action=pin-place]"),
            Self::Found => Some("li[data-found]"),
            Self::NewLineChosen => Some("[data-action=start-begin]"),
            Self::Dressing => Some("[data-step=oil-vacuum] summary"),
            Self::Book => Some("[data-action=swatch-angle]"),
            Self::ExampleBook => Some("[data-example-book]"),
            Self::MadeLine => Some(".made-lines details"),
            Self::AtMachine => Some(".proposal"),
            _ => None,
        }
    }

    /// What is there when the view is.
    fn sign(self) -> &'static str {
        match self {
            Self::Draw => "[data-point]",
            Self::Threads => "[data-event]",
            Self::Wind => "[data-bobbin]",
            Self::Braid => "[data-action=run-begin]",
            Self::Dress => "[data-step]",
            Self::Weigh => "[data-action=workshop-name]",
            Self::ExampleBook => "[data-example-book]",
            Self::Menu => ".menu:popover-open",
            Self::Figures => ".over.shown [data-figure=length]",
            Self::Workshop => ".over.shown details[open]",
            Self::Questions => ".over.shown [data-question=dressing][data-known=true]",
            Self::Numbers => ".over.shown [data-row]",
            Self::Plans => ".over.shown [data-action=find-plan]",
            Self::WrongValue => "[data-action=point-size][aria-invalid=true]",
            Self::Share => ".over.shown [data-action=copy-link]",
            Self::PinEditor => "[data-action=pin-place]",
            Self::Found => ".over.shown li[data-found]",
            Self::Card => ".card-desk.shown [data-sheet]",
            Self::Preview => "[data-action=keep-copy]",
            Self::Message => ".message",
            Self::Measure => ".over.shown [data-action=reading-diameter]",
            Self::Measured => ".over.shown [data-copy=copy]",
            Self::Photo => ".over.shown [data-action=photo]",
            Self::PhotoMeasured => ".over.shown [data-photo=diameter]",
            Self::Copied => "[data-ghost=original]",
            Self::NewLine => ".over.shown [data-action=start]",
            Self::NewLineChosen => ".over.shown [data-action=start-begin]:enabled",
            Self::Words => "details[data-word][open]",
            Self::Cautions => ".over.shown .cautions",
            Self::Compared => "[data-ghost=outline]",
            Self::CompareTables => ".over.shown [data-compared]",
            Self::Turnover => ".over.shown [data-turnover]",
            Self::PointArrows => "[data-shape-guide]",
            Self::Word => "[data-term]:popover-open",
            Self::Closer => ".guides line",
            Self::Dressing => "[data-standing=done]",
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
pub(super) fn foreign_link() -> String {
    let thicker = edited(demo(), Edit::ScaleSizes(1.05));
    let design = edited(thicker, Edit::Name("Line of a friend".to_owned()));
    format!(
        "#{}",
        link::encode(&design).expect("the example makes a link")
    )
}

impl Page {
    /// Gives the page a size, and waits until its drawing has taken to it.
    pub(super) async fn take_size(&self, size: Size) {
        self.resize_to(size).await;
        self.until_still().await;
    }

    /// Gives the page a size, whatever it shows.
    pub(super) async fn resize_to(&self, size: Size) {
        self.session.resize(size);
        until("the window has its size", async || {
            let now: Size = self.ask("return [innerWidth, innerHeight];", vec![]).await;
            (now == size).then_some(())
        })
        .await;
        self.until_drawn().await;
    }

    /// Waits until the drawing rests.
    pub(super) async fn until_still(&self) {
        self.point(0).await;
    }
}
