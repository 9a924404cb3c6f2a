//! A desk for one test: a server of its own, and for every visitor a browser that keeps nothing yet.
//!
//! # What tests rely on in the page
//!
//! Attributes whose names begin with `data-`, never classes of style or words where an attribute will do. Numbers are in SI
//! base units; a value that does not exist is an empty text. Names in brackets are further attributes of the same element.
//!
//! | attribute | element |
//! |---|---|
//! | `place` | on the document: the place shown, `draw` … `weigh`; on a button of the bar: where it leads |
//! | `shows` | the element that the place shown is built in, and that scrolls |
//! | `intro`, `warnings` | the first hint; how many warnings the class button counts |
//! | `made`, `start`, `class`, `source` | a new line: whether the choices make a `line`, `nothing`, or are `unasked` or `coming`; its shapes, classes, and machines with their yarn |
//! | `question` (`known`), `effect` | what a new maker is asked, and whether it has another value than the default; the weight `before` the answers and `now` |
//! | `figure` (`si`) | a figure; its key is that of its row in `paper::figures` |
//! | `here` (`si`) | a figure of the place under the cursor or of the chosen point: `at`, `drawn`, `diameter`, `threads`, `gear`, `angle`, `crossings` |
//! | `point` | the target around a control point; its centre is the point |
//! | `slider`, `slider-point` | the sliders of a point: `at`, `size` |
//! | `held-point` | the handle of a point that a hand holds: the page does not scroll then |
//! | `held`, `wish` | words that say why a point does not follow; the mark where it is wished to be |
//! | `event` (`at`, `carrier`, `ends`, `gear`, `circuits`, `pinned`) | a row of the schedule: `start`, `add`, `drop`, `swap`, `gear`, `end`; carriers count from 0, `cw0` or `ccw0`; `gear` is `22`, or driver and driven as in `22/38` |
//! | `bobbin` (`ends`, `length`, `mass`, `runs-out`), `plying` (`length`, `yarn`, `mass`) | rows of bobbins and of plying |
//! | `wound-count`, `weighed` | how many bobbins are wound; a line weighed, in the chart beside its plan |
//! | `section` (`mass`, `off`) | a part of the line; `off` is the share above the drawing |
//! | `picture`, `map-carrier` (`state`, `ends`, `next`), `gauge` (`si`) | pictures of the machine, marks of carriers on the track, the fan of braid angles |
//! | `setup` | rows of setting up the machine, by their key |
//! | `clock` (`si`), `clock-state`, `running` | `next-stop`: seconds to the next stop, empty where unknown; `stopped`, `running`, `soon`, `due`, `unknown`; whether the machine is said to run |
//! | `away`, `early`, `count-differs`, `silent`, `unspoken` | a question about a time when nobody looked, about a step ticked early; what differs from the count; sound or voice refused |
//! | `run-carrier` (`state`, `next`), `run-number` | carriers on the map at the machine, and the numbers beside them |
//! | `found` (`demerit`), `search`, `matched` | thread plans found, whether the search is `going` or `done`, what matching a class says |
//! | `pin` (`kept`), `constant` | pins; the machine's constant |
//! | `ghost`, `compared` (`mine`, `other`), `compared-station` (`at`), `quantity` | curves and rows of the line compared |
//! | `step` (`mass`), `step-index`, `standing`, `first`, `last` | steps of the dressing or at the machine; in `.days` how a step stands and its ISO days |
//! | `state` (`mass`, `head`) | rows of the line `bare`, `oiled`, `finished` |
//! | `parameter` (`value`, `spread`), `prediction`, `stage` | what the bench book knows, and lines made |
//! | `term`, `word` | words that a tap explains and their notes; rows of the list of words |
//! | `row` | a point in the table of points, around its controls |
//! | `sheet`, `code`, `dropping` | sheets of the card from 1; the code to scan; the hint while a file is dragged over the page |
//! | `broken`, `said`, `told` | the program broke; what it said; what became of a button there |
//! | `offline` | on the document: `coming`, `ready`, `newer`, `taken`, or nothing |
//! | `whole` | all parts of the page are built and follow the last finished change |
//! | `action` | a control; a field of a setting has the key of the setting, every other control a name by its words; what opens a sheet has its key, `place` is a button of the bar |
//!
//! `<meta name="build">` holds the number of the build.

use std::cell::RefCell;
use std::env;
use std::path::PathBuf;
use std::pin::Pin;
use std::rc::Rc;
use std::time::{Duration, Instant};

use super::cdp::Session;
use super::page::Page;
use super::pool;
use super::programs::{Server, kill_all_with};

/// Longest wait for a state to come about; ample for a busy machine, and never waited out when all is well.
pub(super) const PATIENCE: Duration = Duration::from_secs(20);
/// Pause between two looks.
pub(super) const PAUSE: Duration = Duration::from_millis(15);
/// Longest time for a whole test, on a machine that is busy with much else.
pub(super) const WHOLE_TEST: Duration = Duration::from_mins(10);
/// What to type when something is missing.
pub(super) const REMEDY: &str =
    "`cargo run -- test` installs what is missing and builds the site first.";

/// A server, and the pages opened so far.
pub(super) struct Desk {
    server: Server,
    pages: RefCell<Vec<Rc<Page>>>,
}

/// Runs a test at a desk of its own, and afterwards asks every page it opened for trouble.
pub(super) fn at_a_desk(test: impl AsyncFnOnce(&Desk)) {
    at_a_desk_for(WHOLE_TEST, test);
}

/// The same with a longest time of its own, for a test as long as somebody asks for.
pub(super) fn at_a_desk_for(longest: Duration, test: impl AsyncFnOnce(&Desk)) {
    let desk = Desk::open();
    within(longest, Box::pin(test(&desk)));
    within(WHOLE_TEST, Box::pin(desk.close()));
}

/// Runs something to its end, or panics when that takes longer. The future comes in a box so that what runs it is compiled
/// once and not for every test.
pub(super) fn within(longest: Duration, whole: Pin<Box<dyn Future<Output = ()> + '_>>) {
    let in_time = pool::RUNTIME.block_on(async { tokio::time::timeout(longest, whole).await });
    assert!(in_time.is_ok(), "not finished after {longest:?}");
}

/// Runs a test on the page as a first visitor sees it.
pub(super) fn on_the_page(test: impl AsyncFnOnce(&Page)) {
    at_a_desk(async |desk| test(&*desk.visitor().await).await);
}

/// Looks again and again until there is something to see.
pub(super) async fn until<T>(what: &str, mut look: impl AsyncFnMut() -> Option<T>) -> T {
    let deadline = Instant::now() + PATIENCE;
    loop {
        if let Some(seen) = look().await {
            return seen;
        }
        assert!(Instant::now() < deadline, "in vain waited until {what}");
        tokio::time::sleep(PAUSE).await;
    }
}

/// A program of this machine.
pub(super) fn program(name: &str) -> PathBuf {
    let path = env::var_os("PATH").unwrap_or_default();
    let file = format!("{name}{}", env::consts::EXE_SUFFIX);
    let found = env::split_paths(&path)
        .map(|folder| folder.join(&file))
        .find(|file| file.is_file());
    found.unwrap_or_else(|| panic!("`{name}` is not on this machine. {REMEDY}"))
}

impl Desk {
    fn open() -> Self {
        Self {
            server: Server::start(),
            pages: RefCell::default(),
        }
    }

    /// Somebody who comes to the page for the first time, with a browser that keeps nothing.
    pub(super) async fn visitor(&self) -> Rc<Page> {
        self.visitor_by("").await
    }

    /// The same, coming by a link; what follows the site's address is given.
    pub(super) async fn visitor_by(&self, rest: &str) -> Rc<Page> {
        let page = Rc::new(self.troublemaker(rest).await);
        self.pages.borrow_mut().push(Rc::clone(&page));
        page
    }

    /// The same, but nobody asks this page for trouble in the end: it makes some on purpose.
    pub(super) async fn troublemaker(&self, rest: &str) -> Page {
        Page::open(pool::borrow().await, self.server.origin.clone(), rest).await
    }

    /// The same, in a browser that no other test uses: it is measured, or it is going to die.
    pub(super) async fn hermit(&self) -> Page {
        Page::open(pool::own(&[]).await, self.server.origin.clone(), "").await
    }

    /// The browser of a page killed on the spot, as by an empty battery, and opened again on what it left on the disk.
    pub(super) async fn after_sudden_death(&self, page: Page) -> Page {
        let folder = page.session.downloads().to_owned();
        kill_all_with(&folder);
        drop(page);
        let session = Session::begin(pool::driver(), folder).await;
        Page::open(session, self.server.origin.clone(), "").await
    }

    async fn close(&self) {
        for page in self.pages.take() {
            page.assert_untroubled();
            let page = Rc::into_inner(page).expect("the test holds no page any more");
            page.leave().await;
        }
    }
}
