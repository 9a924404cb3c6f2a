//! The site on this machine only, with the headers that a public host should send as well.

use super::Outcome;
use super::headers::{Cache, FOR_ALL};
use axum::Router;
use axum::extract::Request;
use axum::http::header::{CACHE_CONTROL, IF_MODIFIED_SINCE, VARY};
use axum::http::{HeaderMap, HeaderName, HeaderValue};
use axum::middleware::{self, Next};
use axum::response::Response;
use std::io::{self, ErrorKind, Write};
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use tower_http::services::ServeDir;

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
    let cache = Cache::of(request.uri().path());
    if cache != Cache::Forever {
        // Times of files have whole seconds, and a build that was put back has older ones than the build it follows: what is
        // asked for again is sent again.
        request.headers_mut().remove(IF_MODIFIED_SINCE);
    }
    let mut response = next.run(request).await;
    let missing = response.status().is_client_error() || response.status().is_server_error();
    add_headers(
        response.headers_mut(),
        if missing { Cache::AskAgain } else { cache },
    );
    response
}

fn add_headers(headers: &mut HeaderMap, cache: Cache) {
    for (name, value) in FOR_ALL {
        headers.insert(
            HeaderName::from_static(name),
            HeaderValue::from_static(value),
        );
    }
    headers.insert(CACHE_CONTROL, HeaderValue::from_static(cache.value()));
    headers.insert(VARY, HeaderValue::from_static("accept-encoding"));
}

#[cfg(test)]
#[path = "serve_tests.rs"]
mod tests;
