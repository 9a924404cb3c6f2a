//! The development loop: trunk builds the page quickly after every edit, and the open page reloads itself.
//!
//! Everything is compiled in a folder of its own, so that the loop and `cargo test` do not wait for each other. This page has no
//! worker, which would put a copy of the page in the way. The program that reads photographs is compiled once, at the start: after a
//! change of it, start the loop again.

use super::project::Project;
use super::{Outcome, photo, serve, site, tools};
use axum::Router;
use axum::http::header::CONTENT_TYPE;
use axum::response::Html;
use axum::routing::get;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Child;
use tower_http::services::ServeDir;

/// The page's policy forbids scripts within the page, so this one is a file.
const SCRIPT: &str = include_str!("reload.js");
const TAG: &str = "<script type=\"module\" src=\"reload.js\"></script>";
/// Shown until the first build is there.
const WAITING: &str = "<!DOCTYPE html><title>Taperwright</title><p>The page is being built.</p>";

/// No optimisation and no lines for a debugger: that builds fastest.
const PROFILE: [(&str, &str); 2] = [
    ("CARGO_PROFILE_DEV_OPT_LEVEL", "0"),
    ("CARGO_PROFILE_DEV_DEBUG", "0"),
];

/// Serves the page and builds it again after every edit, until Ctrl-C.
pub(crate) fn run(project: &Project, port: u16) -> Outcome {
    tools::ensure(project)?;
    let target = project.target().join("serve");
    let dist = target.join("site");
    let photo = photo::beside_the_loop(project, &target, &PROFILE)?;
    let mut trunk = project.command(project.tool("trunk"));
    trunk
        .args(["watch", "--log", site::TRUNK_LOG, "--dist"])
        .arg(&dist);
    trunk.env("CARGO_TARGET_DIR", &target).envs(PROFILE);
    trunk.env_remove("NO_COLOR");
    let trunk = trunk.spawn();
    let _ends_with_us = Watch(trunk.map_err(|error| format!("trunk does not start: {error}."))?);
    serve::serve(page(&dist, &photo), port)
}

struct Watch(Child);

impl Drop for Watch {
    fn drop(&mut self) {
        // Ctrl-C has usually ended it already.
        drop(self.0.kill());
        drop(self.0.wait());
    }
}

/// What trunk leaves, and the program that reads photographs, in a folder of its own: trunk empties its own at each build.
fn page(dist: &Path, photo: &Path) -> Router {
    let file = dist.join("index.html");
    let script = ([(CONTENT_TYPE, "text/javascript")], SCRIPT);
    let page = get(async move || Html(with_script(&file)));
    serve::guarded(
        Router::new()
            .route("/", page.clone())
            .route("/index.html", page)
            .route("/reload.js", get(async move || script))
            .fallback_service(ServeDir::new(dist).fallback(ServeDir::new(photo))),
    )
}

/// The page as trunk left it, with the script that reloads it.
fn with_script(file: &PathBuf) -> String {
    let page = fs::read_to_string(file).unwrap_or_else(|_| WAITING.to_owned());
    page + TAG
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_reloads_itself_before_and_after_the_first_build() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("index.html");
        let waiting = with_script(&file);
        assert!(waiting.contains("being built") && waiting.ends_with(TAG));
        fs::write(&file, "<p>built</p>").unwrap();
        assert_eq!(with_script(&file), format!("<p>built</p>{TAG}"));
    }
}
