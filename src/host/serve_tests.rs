//! The server, asked over a real connection on a port that the system chose.

use super::super::headers::POLICY;
use super::*;
use std::fs;
use std::io::Read;
use std::net::TcpStream;
use tempfile::TempDir;

/// A folder with a site in it and a secret beside it, served until the test ends.
struct Served {
    port: u16,
    _folder: TempDir,
}

impl Served {
    fn start() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let dist = folder.path().join("dist");
        fs::create_dir(&dist).unwrap();
        for name in [
            "index.html",
            "worker.js",
            "icon-192.png",
            "taperwright.webmanifest",
            "tokens-0123456789abcdef.css",
            "page-0123456789abcdef_bg.wasm",
        ] {
            fs::write(dist.join(name), "content").unwrap();
        }
        fs::write(dist.join("page-0123456789abcdef_bg.wasm.br"), "brotli").unwrap();
        fs::write(dist.join("page-0123456789abcdef_bg.wasm.gz"), "gzip").unwrap();
        fs::write(folder.path().join("secret.txt"), "secret").unwrap();
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap();
        let port = listener.local_addr().unwrap().port();
        // The thread ends with the test program; nothing waits for it.
        std::thread::spawn(move || run_forever(listener, site(&dist)));
        Self {
            port,
            _folder: folder,
        }
    }

    /// The whole answer, its head in lower case.
    fn get(&self, path: &str) -> String {
        self.get_with(path, "")
    }

    /// The same, asked for with one more line of the head.
    fn get_with(&self, path: &str, line: &str) -> String {
        self.ask("GET", path, line)
    }

    fn ask(&self, method: &str, path: &str, line: &str) -> String {
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).unwrap();
        write!(
            stream,
            "{method} {path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n{line}\r\n"
        )
        .unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }
}

fn run_forever(listener: TcpListener, site: Router) {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .unwrap();
    listener.set_nonblocking(true).unwrap();
    runtime.block_on(async {
        let listener = tokio::net::TcpListener::from_std(listener).unwrap();
        axum::serve(listener, site).await.unwrap();
    });
}

#[track_caller]
fn has(answer: &str, header: &str) {
    assert!(
        answer.contains(&format!("\r\n{header}\r\n")),
        "no `{header}` in:\n{answer}"
    );
}

#[test]
fn webassembly_is_served_as_such_and_kept_for_good() {
    let answer = Served::start().get("/page-0123456789abcdef_bg.wasm");
    assert!(answer.starts_with("HTTP/1.1 200 "));
    has(&answer, "content-type: application/wasm");
    has(
        &answer,
        "cache-control: public, max-age=31536000, immutable",
    );
}

/// Content negotiation as in RFC 9110: section 12.5.3 (Accept-Encoding), 9.3.2 (HEAD), 14.2 (Range, over the packed bytes).
#[test]
fn packed_copies_go_to_browsers_that_read_them() {
    let served = Served::start();
    let path = "/page-0123456789abcdef_bg.wasm";
    for (accepted, encoding, length) in [
        ("gzip, deflate, br, zstd", Some("br"), 6),
        ("gzip, br;q=0", Some("gzip"), 4),
        ("identity", None, 7),
    ] {
        let accepted = format!("Accept-Encoding: {accepted}\r\n");
        for method in ["GET", "HEAD"] {
            let answer = served.ask(method, path, &accepted);
            assert!(answer.starts_with("HTTP/1.1 200 "), "{answer}");
            match encoding {
                Some(encoding) => has(&answer, &format!("content-encoding: {encoding}")),
                None => assert!(!answer.contains("content-encoding"), "{answer}"),
            }
            has(&answer, "content-type: application/wasm");
            has(&answer, "vary: accept-encoding");
            has(&answer, &format!("content-length: {length}"));
            assert_eq!(answer.ends_with("\r\n\r\n"), method == "HEAD", "{answer}");
        }
    }
    let range = "Accept-Encoding: br\r\nRange: bytes=1-3\r\n";
    let answer = served.get_with(path, range);
    assert!(
        answer.starts_with("HTTP/1.1 206 ") && answer.ends_with("\r\n\r\nrot"),
        "{answer}"
    );
    has(&answer, "content-range: bytes 1-3/6");
}

#[test]
fn the_root_is_the_page_and_is_asked_for_again() {
    let served = Served::start();
    for path in ["/", "/index.html", "/icon-192.png"] {
        let answer = served.get(path);
        assert!(answer.starts_with("HTTP/1.1 200 "), "{path}");
        has(&answer, "cache-control: no-cache");
    }
    has(&served.get("/"), "content-type: text/html");
}

/// The same second, or an older build put back: what the browser has of the page is not taken for the one that is there. A file
/// with a hash in its name is.
#[test]
fn the_page_is_sent_whole_however_new_the_copy_is() {
    let since = "If-Modified-Since: Fri, 01 Jan 2100 00:00:00 GMT\r\n";
    let served = Served::start();
    for (path, status) in [
        ("/", "200"),
        ("/icon-192.png", "200"),
        ("/tokens-0123456789abcdef.css", "304"),
    ] {
        let answer = served.get_with(path, since);
        assert!(
            answer.starts_with(&format!("HTTP/1.1 {status} ")),
            "{path}: {answer}"
        );
    }
}

/// Types by the standards: of manifests W3C Web Application Manifest, of scripts RFC 9239, of pictures RFC 2083.
#[test]
fn worker_and_manifest_are_served_as_such() {
    let served = Served::start();
    let worker = served.get("/worker.js");
    has(&worker, "content-type: text/javascript");
    has(&worker, "cache-control: no-store");
    let manifest = served.get("/taperwright.webmanifest");
    has(&manifest, "content-type: application/manifest+json");
    has(&manifest, "cache-control: no-cache");
    has(&served.get("/icon-192.png"), "content-type: image/png");
}

#[test]
fn every_answer_carries_the_policy() {
    let served = Served::start();
    for path in ["/", "/tokens-0123456789abcdef.css", "/absent"] {
        let answer = served.get(path);
        has(&answer, &format!("content-security-policy: {POLICY}"));
        has(&answer, "x-content-type-options: nosniff");
        has(&answer, "referrer-policy: no-referrer");
    }
}

#[test]
fn an_absent_file_is_not_kept() {
    let answer = Served::start().get("/gone-0123456789abcdef.css");
    assert!(answer.starts_with("HTTP/1.1 404 "));
    has(&answer, "cache-control: no-cache");
}

#[test]
fn nothing_outside_the_site_is_served() {
    let served = Served::start();
    for path in [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/..%2fsecret.txt",
        "/x/../../secret.txt",
        "/..%5csecret.txt",
    ] {
        let answer = served.get(path);
        assert!(answer.starts_with("HTTP/1.1 4"), "{path}: {answer}");
        assert!(!answer.contains("secret"), "{path}");
    }
}

#[test]
fn a_taken_port_leads_to_the_next() {
    let taken = |port: u16| {
        if port < 8083 {
            Err(ErrorKind::AddrInUse.into())
        } else {
            Ok(port)
        }
    };
    assert_eq!(first_free(8080, taken), Ok(8083));
    assert_eq!(first_free(0, Ok), Ok(0));
}

#[test]
fn a_port_that_may_not_be_used_is_named() {
    let refused = first_free(80, |_| {
        io::Result::<()>::Err(ErrorKind::PermissionDenied.into())
    });
    assert!(refused.unwrap_err().contains("Port 80 "));
    let all_taken = first_free(65_530, |_| {
        io::Result::<()>::Err(ErrorKind::AddrInUse.into())
    });
    assert!(all_taken.unwrap_err().contains("65530"));
}
