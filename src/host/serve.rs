//! The site on this machine only, with the headers that a public host should send as well.

use super::Outcome;
use super::worker::WORKER;
use axum::Router;
use axum::extract::Request;
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, IF_MODIFIED_SINCE, REFERRER_POLICY, VARY,
    X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderMap, HeaderValue};
use axum::middleware::{self, Next};
use axum::response::Response;
use std::io::{self, ErrorKind, Write};
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use tower_http::services::ServeDir;

/// What the page may do: run its own program and styles, and nothing from anywhere else. `index.html` says the same for
/// hosts that send no headers.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
                      img-src 'self' data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; \
                      base-uri 'none'; form-action 'none'";

/// A name with a hash in it never changes its content: a year is the longest that the cache rules provide for.
const FOREVER: &str = "public, max-age=31536000, immutable";
/// All other files are asked for again each time, so that a new build is seen at once.
const ASK_AGAIN: &str = "no-cache";
/// The browser keeps the worker in its own way. A second copy, kept by an older browser or a proxy, could keep an old build for
/// a day.
const NEVER_KEPT: &str = "no-store";

/// Serves a site at the port or the next free one, until Ctrl-C.
pub(crate) fn serve(site: Router, port: u16) -> Outcome {
    let stopped = |error: io::Error| format!("The site cannot be served: {error}.");
    let listener = first_free(port, |port| TcpListener::bind((Ipv4Addr::LOCALHOST, port)))?;
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .map_err(stopped)?;
    runtime
        .block_on(until_closed(listener, site))
        .map_err(stopped)
}

async fn until_closed(listener: TcpListener, site: Router) -> io::Result<()> {
    listener.set_nonblocking(true)?;
    let listener = tokio::net::TcpListener::from_std(listener)?;
    announce(listener.local_addr()?.port())?;
    // A browser keeps connections open that it may never use, so closing does not wait for them.
    tokio::select! {
        ended = axum::serve(listener, site) => ended,
        closed = tokio::signal::ctrl_c() => closed.inspect(|()| eprintln!("\nTaperwright is closed.")),
    }
}

/// The address goes out on its own line at once, for people and for programs that wait for it.
fn announce(port: u16) -> io::Result<()> {
    let mut out = io::stdout().lock();
    writeln!(
        out,
        "Taperwright is open at http://{}:{port}/",
        Ipv4Addr::LOCALHOST
    )?;
    out.flush()?;
    eprintln!("Ctrl-C closes it.");
    Ok(())
}

/// Binds the port, or the next one above that nobody holds. Port 0 lets the system choose.
fn first_free<Bound>(port: u16, mut bind: impl FnMut(u16) -> io::Result<Bound>) -> Outcome<Bound> {
    for candidate in port..=u16::MAX {
        match bind(candidate) {
            Err(error) if error.kind() == ErrorKind::AddrInUse => {
                eprintln!("Port {candidate} is taken.");
            }
            bound => {
                return bound.map_err(|error| format!("Port {candidate} cannot be used: {error}."));
            }
        }
    }
    Err(format!("No port from {port} upwards is free."))
}

/// The finished site in this folder. A browser that reads packed files gets those that the build left.
pub(crate) fn site(dist: &Path) -> Router {
    let files = ServeDir::new(dist).precompressed_br().precompressed_gzip();
    guarded(Router::new().fallback_service(files))
}

/// The site with the headers of every answer.
pub(crate) fn guarded(site: Router) -> Router {
    site.layer(middleware::from_fn(with_headers))
}

async fn with_headers(mut request: Request, next: Next) -> Response {
    let cache = cache_rule(request.uri().path());
    if cache != FOREVER {
        // Times of files have whole seconds, and a build that was put back has older ones than the build it follows: what is
        // asked for again is sent again.
        request.headers_mut().remove(IF_MODIFIED_SINCE);
    }
    let mut response = next.run(request).await;
    let missing = response.status().is_client_error() || response.status().is_server_error();
    add_headers(
        response.headers_mut(),
        if missing { ASK_AGAIN } else { cache },
    );
    response
}

fn add_headers(headers: &mut HeaderMap, cache: &'static str) {
    headers.insert(CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
    headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers.insert(CACHE_CONTROL, HeaderValue::from_static(cache));
    headers.insert(VARY, HeaderValue::from_static("accept-encoding"));
}

fn cache_rule(path: &str) -> &'static str {
    let name = path.rsplit('/').next().unwrap_or_default();
    match name {
        WORKER => NEVER_KEPT,
        name if is_hashed(name) => FOREVER,
        _ => ASK_AGAIN,
    }
}

/// Trunk names hashed files `name-hash.css`, and the program `name-hash_bg.wasm`. The hash is a 64-bit number in
/// hexadecimal without leading zeros; eight digits are enough to tell it from a word.
fn is_hashed(name: &str) -> bool {
    let stem = name.rsplit_once('.').map_or("", |(stem, _)| stem);
    let hash = stem
        .strip_suffix("_bg")
        .unwrap_or(stem)
        .rsplit_once('-')
        .map_or("", |(_, hash)| hash);
    (8..=16).contains(&hash.len()) && hash.bytes().all(|digit| digit.is_ascii_hexdigit())
}

#[cfg(test)]
#[path = "serve_tests.rs"]
mod tests;
