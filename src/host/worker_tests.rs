//! The worker as it is written into small sites.

use super::headers;
use super::listed::{List, number_of_page, number_of_worker};
use super::worker::{HEADERS, WORKER, finish, sha256};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// The page as written, and as the build leaves it.
const PAGES: [&str; 2] = [
    "<meta name=\"build\" content=\"unfinished\">\n<meta name=\"x\" content=\"y\">",
    "<meta content=unfinished name=build><meta content=y name=x>",
];

fn site(page: &str) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("index.html"), page).unwrap();
    fs::write(folder.path().join("a-0123456789abcdef.css"), "a").unwrap();
    fs::create_dir(folder.path().join("inside")).unwrap();
    fs::write(folder.path().join("inside/b.js"), "b").unwrap();
    folder
}

fn read(folder: &Path, name: &str) -> String {
    fs::read_to_string(folder.join(name)).unwrap()
}

/// The number that the worker names.
fn number(folder: &Path) -> String {
    finish(folder).unwrap();
    let worker = read(folder, WORKER);
    let number = worker.strip_prefix("const BUILD = \"").unwrap();
    number.split('"').next().unwrap().to_owned()
}

#[test]
fn page_and_worker_name_the_same_build_and_every_file() {
    for page in PAGES {
        let site = site(page);
        let number = number(site.path());
        assert_eq!(number.len(), 16);
        assert_eq!(
            read(site.path(), "index.html"),
            page.replace("unfinished", &number)
        );
        let list = serde_json::from_str::<Value>(&read(site.path(), "build.json")).unwrap();
        // Sums as `sha256sum` gives them.
        let files = json!({
            "a-0123456789abcdef.css": "ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb",
            "inside/b.js": "3e23e8160039594a33894f6564e1b1348bbd7a0088d42c4acb73eeaed59c009d",
            "./": sha256(read(site.path(), "index.html").as_bytes()),
        });
        assert_eq!(list, json!({"build": number, "files": files}));
    }
}

#[test]
fn a_second_time_it_changes_nothing() {
    let site = site(PAGES[1]);
    let (first, worker) = (number(site.path()), read(site.path(), WORKER));
    assert_eq!(number(site.path()), first);
    assert_eq!(read(site.path(), WORKER), worker);
}

#[test]
fn packed_copies_are_no_files_of_their_own() {
    let site = site(PAGES[1]);
    let (first, list) = (number(site.path()), read(site.path(), "build.json"));
    for name in [
        "index.html.br",
        "index.html.gz",
        "inside/b.js.br",
        "worker.js.gz",
    ] {
        fs::write(site.path().join(name), "packed").unwrap();
    }
    assert_eq!(number(site.path()), first);
    assert_eq!(read(site.path(), "build.json"), list);
}

#[test]
fn what_a_host_should_send_is_no_file_of_the_build() {
    let site = site(PAGES[1]);
    let (first, list) = (number(site.path()), read(site.path(), "build.json"));
    headers::leave(site.path()).unwrap();
    let rules = read(site.path(), HEADERS);
    for path in [
        "/",
        "/index.html",
        "/inside/b.js",
        "/build.json",
        "/worker.js",
    ] {
        assert!(rules.contains(&format!("\n{path}\n  ")), "{path}");
    }
    assert_eq!(number(site.path()), first);
    assert_eq!(read(site.path(), "build.json"), list);
    headers::leave(site.path()).unwrap();
    assert_eq!(read(site.path(), HEADERS), rules);
}

#[test]
fn numbers_and_files_are_read_back() {
    let site = site(PAGES[0]);
    let number = number(site.path());
    let list = List::parse(read(site.path(), "build.json").as_bytes()).unwrap();
    assert_eq!(list.build, number);
    assert_eq!(list.files.len(), 3);
    let page = read(site.path(), "index.html");
    assert_eq!(number_of_page(&page), Some(number.as_str()));
    let worker = read(site.path(), WORKER);
    assert_eq!(number_of_worker(&worker), Some(number.as_str()));
    for name in ["../a", "/a", "a//b", "http://a/b", ".", ""] {
        let list = json!({"build": "1", "files": {name: ""}}).to_string();
        assert!(List::parse(list.as_bytes()).is_err(), "{name}");
    }
}

#[test]
fn another_site_is_another_build() {
    let first = number(site(PAGES[1]).path());
    assert_eq!(number(site(PAGES[1]).path()), first);
    let changes: [fn(&Path); 4] = [
        |folder| fs::write(folder.join("inside/b.js"), "c").unwrap(),
        |folder| fs::rename(folder.join("inside/b.js"), folder.join("inside/c.js")).unwrap(),
        |folder| fs::write(folder.join("new"), "").unwrap(),
        |folder| fs::write(folder.join("index.html"), format!("{} ", PAGES[1])).unwrap(),
    ];
    for (place, change) in changes.iter().enumerate() {
        let site = site(PAGES[1]);
        change(site.path());
        assert_ne!(number(site.path()), first, "change {place}");
    }
}

#[test]
fn a_site_that_cannot_be_finished_is_refused() {
    let strange = site(PAGES[0]);
    fs::write(strange.path().join("a \"b\".css"), "").unwrap();
    let said = finish(strange.path()).unwrap_err().to_string();
    assert!(said.contains("a \"b\".css"), "{said}");
    let said = finish(site("<p>no place</p>").path()).unwrap_err();
    assert!(said.to_string().contains("no place for"), "{said}");
    assert!(finish(&strange.path().join("absent")).is_err());
}
