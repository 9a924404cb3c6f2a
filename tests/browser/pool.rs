//! Browsers that tests borrow one after the other. Starting one takes longer than most tests do.
//!
//! What keeps two borrowers apart: every test has an origin of its own, since its server listens at a port of its own; and a
//! browser that comes back gets a new window in place of all it had, so that sizes, looks, throttles and scripts set for
//! a window are gone, while storage, permissions, downloads and notes are cleared. A browser that does not come back in this
//! way, because its test failed, is closed and never lent again.

use std::sync::{LazyLock, Mutex, MutexGuard, PoisonError};
use std::thread::available_parallelism;

use super::cdp::Session;
use super::programs::Driver;

/// Works for all tests: a browser's connection outlives the test that opened it.
pub(super) static RUNTIME: LazyLock<tokio::runtime::Runtime> = LazyLock::new(|| {
    tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime starts")
});

/// Steers all browsers, and ends them when this process ends.
static DRIVER: LazyLock<Driver> = LazyLock::new(Driver::start);

/// Browsers that nobody uses.
static IDLE: Mutex<Vec<Session>> = Mutex::new(Vec::new());

/// The port of the driver.
pub(super) fn driver() -> u16 {
    DRIVER.port
}

/// A browser that shows no trace of an earlier borrower.
pub(super) async fn borrow() -> Session {
    let idle = lock().pop();
    if let Some(session) = idle {
        return session;
    }
    let mut session = own(&[]).await;
    session.is_shared = true;
    session
}

/// A browser that is closed after use: for a test that kills it, measures it, or starts it with switches of its own.
pub(super) async fn own(flags: &[String]) -> Session {
    Session::begin_with(driver(), DRIVER.new_folder(), flags).await
}

/// Takes a borrowed browser back, which was used at this origin. One for each core is kept.
pub(super) async fn give_back(session: Session, origin: &str) {
    session.clean(origin).await;
    if let Some(surplus) = keep(session) {
        surplus.close().await;
    }
}

/// Keeps a browser, or returns it where enough are kept.
fn keep(session: Session) -> Option<Session> {
    let cores = available_parallelism().map_or(1, usize::from);
    let mut idle = lock();
    if idle.len() >= cores {
        return Some(session);
    }
    idle.push(session);
    None
}

fn lock() -> MutexGuard<'static, Vec<Session>> {
    IDLE.lock().unwrap_or_else(PoisonError::into_inner)
}
