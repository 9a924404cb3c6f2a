//! One browser for each engine, which its jobs use one after the other: WebKit's driver allows no second, and starting one takes
//! longer than most jobs do. A browser whose job failed is closed and never used again.

use std::cell::{Cell, RefCell};
use std::sync::{LazyLock, Mutex, PoisonError};

use super::engine::Engine;
use super::page::Page;
use super::session::Session;
use super::shed::{Shed, in_a_shed};

/// Works for all jobs: a browser's connection outlives the job that opened it.
pub(super) static RUNTIME: LazyLock<tokio::runtime::Runtime> = LazyLock::new(|| {
    tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime starts")
});

static WEBKIT: Mutex<Option<Session>> = Mutex::new(None);
static FIREFOX: Mutex<Option<Session>> = Mutex::new(None);

thread_local! {
    /// The engine of the job that this thread runs, and its browser while nobody has borrowed it.
    static ENGINE: Cell<Engine> = const { Cell::new(Engine::WebKit) };
    static BROWSER: RefCell<Option<Session>> = const { RefCell::new(None) };
}

/// Runs a job in an engine, for somebody who comes to a site of their own for the first time. In the end the page must be whole.
pub(super) fn run(engine: Engine, job: impl AsyncFnOnce(&mut Shed, &Page)) {
    let browser = match engine {
        Engine::WebKit => &WEBKIT,
        Engine::Firefox => &FIREFOX,
    };
    // Others wait here until this job is done.
    let mut browser = browser.lock().unwrap_or_else(PoisonError::into_inner);
    ENGINE.set(engine);
    BROWSER.set(browser.take());
    in_a_shed(async |shed| {
        let page = shed.visitor().await;
        job(shed, &page).await;
        assert_eq!(page.matching(".broken, [data-unstyled]").await, 0);
        page.leave().await;
    });
    *browser = BROWSER.take();
}

/// The browser of this job's engine.
pub(super) async fn borrow() -> Session {
    match BROWSER.take() {
        Some(session) => session,
        None => Session::begin(ENGINE.get()).await,
    }
}

/// A browser of one's own is none of the standard.
#[expect(clippy::unused_async, reason = "the shed waits for its browsers")]
pub(super) async fn own(_switches: &[String]) -> Session {
    unimplemented!("jobs in several engines share one browser")
}

/// Takes a borrowed browser back.
pub(super) async fn give_back(session: Session, _origin: &str) {
    session.clean().await;
    BROWSER.set(Some(session));
}

/// Makes of each job a test in either engine. Jobs come first in the names, so that both engines work at the same time.
macro_rules! in_both_engines {
    ($($job:ident),+ $(,)?) => { $(
        mod $job {
            use super::super::engine::Engine;
            use super::super::pool;

            #[test]
            fn webkit() {
                pool::run(Engine::WebKit, super::$job);
            }

            #[test]
            fn firefox() {
                pool::run(Engine::Firefox, super::$job);
            }
        }
    )+ };
}
pub(super) use in_both_engines;
