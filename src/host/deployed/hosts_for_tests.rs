//! A small finished site on our own server, and hosts that send it differently.

use super::super::headers;
use super::super::{packed, serve, worker};
use super::check::examine;
use super::report::{Grade, Report};
use axum::Router;
use axum::body::Body;
use axum::extract::Request;
use axum::http::{HeaderName, HeaderValue, StatusCode};
use axum::middleware::{self, Next};
use axum::response::Response;
use std::ffi::OsString;
use std::fs;
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use std::sync::LazyLock;
use tempfile::TempDir;

pub(super) const SCRIPT: &str = "boot-0123456789abcdef.js";
pub(super) const PROGRAM: &str = "page-0123456789abcdef_bg.wasm";
pub(super) const PICTURE: &str = "icon-192.png";
pub(super) const DRAWING: &str = "icon-0123456789abcdef.svg";
pub(super) const MANIFEST: &str = "taperwright.webmanifest";
const HTML: &str = "<!DOCTYPE html><p>Nothing is here.</p>";

/// Names and contents of a finished site with a file of every kind, none of them small. Packing takes long, so it is done once.
static FILES: LazyLock<Vec<(OsString, Vec<u8>)>> = LazyLock::new(|| {
    let folder = tempfile::tempdir().unwrap();
    let dist = folder.path();
    let page = "<!DOCTYPE html><meta name=\"build\" content=\"unfinished\">".to_owned();
    fs::write(dist.join("index.html"), page + &text()).unwrap();
    for name in [
        SCRIPT,
        PROGRAM,
        PICTURE,
        MANIFEST,
        "style-0123456789abcdef.css",
        DRAWING,
        "letters.woff2",
        "letters.license.txt",
    ] {
        fs::write(dist.join(name), format!("{name} {}", text())).unwrap();
    }
    finish(dist);
    let files = fs::read_dir(dist).unwrap().map(|file| {
        let file = file.unwrap();
        (file.file_name(), fs::read(file.path()).unwrap())
    });
    files.collect()
});

/// A finished site in a folder of its own.
pub(super) fn build() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, content) in FILES.iter() {
        fs::write(folder.path().join(name), content).unwrap();
    }
    folder
}

pub(super) fn text() -> String {
    "a line, a line, a line ".repeat(100)
}

/// What the build does after trunk.
pub(super) fn finish(dist: &Path) {
    worker::finish(dist).unwrap();
    headers::leave(dist).unwrap();
    packed::leave(dist).unwrap();
}

/// Serves a site until the test ends: its address.
pub(super) fn address(site: Router) -> String {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap();
    let port = listener.local_addr().unwrap().port();
    // The thread ends with the test program; nothing waits for it.
    std::thread::spawn(move || {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .unwrap();
        listener.set_nonblocking(true).unwrap();
        runtime.block_on(async {
            let listener = tokio::net::TcpListener::from_std(listener).unwrap();
            axum::serve(listener, site).await.unwrap();
        });
    });
    format!("http://{}:{port}/", Ipv4Addr::LOCALHOST)
}

/// A host that changes its answers, each by its path.
pub(super) fn address_of(dist: &Path, change: fn(&str, Response) -> Response) -> String {
    let change = move |request: Request, next: Next| async move {
        let path = request.uri().path().to_owned();
        change(&path, next.run(request).await)
    };
    address(serve::site(dist).layer(middleware::from_fn(change)))
}

/// What is found on a site of ours whose host changes answers.
pub(super) fn found(change: fn(&str, Response) -> Response) -> Report {
    let site = build();
    examine(site.path(), &address_of(site.path(), change)).unwrap()
}

/// What is found on a site of ours after its files were changed.
pub(super) fn found_after(change: impl FnOnce(&Path)) -> Report {
    let site = build();
    change(site.path());
    examine(
        &site.path().join("absent"),
        &address(serve::site(site.path())),
    )
    .unwrap()
}

/// That these lines are found and no others.
#[track_caller]
pub(super) fn says(report: &Report, expected: &[(Grade, &str, &str)]) {
    let lines: Vec<String> = report.findings().iter().map(ToString::to_string).collect();
    assert_eq!(lines.len(), expected.len(), "{lines:#?}");
    for (grade, file, part) in expected {
        let is_it = |finding: &&super::report::Finding| {
            let is_on = finding.files.iter().any(|other| other == file);
            finding.grade == *grade && is_on && finding.what.contains(part)
        };
        assert!(
            report.findings().iter().any(is_it),
            "no {grade:?} on {file}, {part}: {lines:#?}"
        );
    }
}

pub(super) fn set(mut response: Response, name: &'static str, value: &'static str) -> Response {
    let name = HeaderName::from_static(name);
    response
        .headers_mut()
        .insert(name, HeaderValue::from_static(value));
    response
}

pub(super) fn without(mut response: Response, name: &str) -> Response {
    response.headers_mut().remove(name);
    response
}

pub(super) fn with_status(mut response: Response, status: StatusCode) -> Response {
    *response.status_mut() = status;
    response
}

pub(super) fn html() -> Response {
    set(Response::new(Body::from(HTML)), "content-type", "text/html")
}
