//! Waiting for states, and programs of this machine. What tests rely on in the page is listed in `tests/browser/harness.rs`.

use std::env;
use std::path::{Path, PathBuf};
use std::pin::Pin;
use std::time::{Duration, Instant};

use super::pool;

/// Longest wait for a state to come about; ample for a busy machine, and never waited out when all is well.
pub(super) const PATIENCE: Duration = Duration::from_secs(30);
/// Pause between two looks.
pub(super) const PAUSE: Duration = Duration::from_millis(15);
/// What to type when something is missing.
pub(super) const REMEDY: &str =
    "`cargo run -- test` installs what is missing and builds the site first.";

/// Runs something to its end, or panics when that takes longer.
pub(super) fn within(longest: Duration, whole: Pin<Box<dyn Future<Output = ()> + '_>>) {
    let in_time = pool::RUNTIME.block_on(async { tokio::time::timeout(longest, whole).await });
    assert!(in_time.is_ok(), "not finished after {longest:?}");
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

/// A program of this project or of this machine.
pub(super) fn program(name: &str) -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR")).join(".tools/bin");
    let path = env::var_os("PATH").unwrap_or_default();
    let file = format!("{name}{}", env::consts::EXE_SUFFIX);
    let found = std::iter::once(own)
        .chain(env::split_paths(&path))
        .map(|folder| folder.join(&file))
        .find(|file| file.is_file());
    found.unwrap_or_else(|| panic!("`{name}` is not on this machine. {REMEDY}"))
}
