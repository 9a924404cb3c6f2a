//! Sites that are not whole, not of one build or not where they are looked for; and one with nothing wrong.

use super::super::worker::{LIST, WORKER};
use super::super::{packed, serve};
use super::check::{check, examine};
use super::hosts_for_tests::*;
use super::report::Grade;
use axum::Router;
use axum::http::StatusCode;
use std::fs;
use std::path::Path;

#[test]
fn a_good_site_has_no_findings() {
    let site = build();
    let address = address(serve::site(site.path()));
    says(&examine(site.path(), &address).unwrap(), &[]);
    assert_eq!(check(site.path(), &format!("{address}index.html")), Ok(()));
}

#[test]
fn an_error_fails_and_a_warning_does_not() {
    let site = build();
    let slow = address_of(site.path(), |_, answer| without(answer, "referrer-policy"));
    assert_eq!(check(site.path(), &slow), Ok(()));
    fs::remove_file(site.path().join(PICTURE)).unwrap();
    let failed = check(site.path(), &address(serve::site(site.path()))).unwrap_err();
    assert!(failed.starts_with("1 error and 0 warnings."), "{failed}");
    let nowhere = check(site.path(), "http://127.0.0.1:1/").unwrap_err();
    assert!(
        nowhere.contains("http://127.0.0.1:1/ does not answer"),
        "{nowhere}"
    );
}

#[test]
fn a_page_that_the_host_changes_is_found() {
    let report = found_after(|dist| {
        let page = fs::read_to_string(dist.join("index.html")).unwrap();
        fs::write(dist.join("index.html"), page + "<script>").unwrap();
        fs::remove_file(dist.join("index.html.br")).unwrap();
        fs::remove_file(dist.join("index.html.gz")).unwrap();
    });
    let expected = [
        (Grade::Error, "the page", "the host changes files"),
        (Grade::Warning, "the page", "It is sent unpacked"),
    ];
    says(&report, &expected);
}

#[test]
fn the_address_may_lead_on_to_the_site() {
    let site = build();
    let within = Router::new().nest_service("/lines", serve::site(site.path()));
    let route = axum::routing::get(async || (StatusCode::FOUND, [("location", "/lines/")]));
    let address = address(within.route("/", route));
    let report = examine(site.path(), &address).unwrap();
    says(
        &report,
        &[(Grade::Note, "the page", "/lines/, which is checked here")],
    );
    let circle = address_of(site.path(), |path, answer| {
        let to = if path == "/" { "/a/" } else { "/" };
        set(with_status(answer, StatusCode::FOUND), "location", to)
    });
    let refused = examine(site.path(), &circle).unwrap_err();
    assert!(refused.contains("leads on and on"), "{refused}");
}

/// Puts one file of another build, with its copies, into a site.
fn mix(dist: &Path, name: &str) {
    let other = build();
    fs::write(other.path().join("new.png"), "new").unwrap();
    finish(other.path());
    for name in [name.to_owned(), format!("{name}.br"), format!("{name}.gz")] {
        fs::copy(other.path().join(&name), dist.join(&name)).unwrap();
    }
}

#[test]
fn a_mixture_of_builds_is_found() {
    let report = found_after(|dist| mix(dist, "index.html"));
    says(
        &report,
        &[(Grade::Error, "the page", "The upload stopped half way")],
    );
    let report = found_after(|dist| mix(dist, WORKER));
    says(
        &report,
        &[(Grade::Error, WORKER, "The upload stopped half way")],
    );
    let report = found_after(|dist| {
        for copy in [WORKER, "worker.js.br", "worker.js.gz"] {
            fs::copy(dist.join(copy.replace(WORKER, SCRIPT)), dist.join(copy)).unwrap();
        }
    });
    says(&report, &[(Grade::Error, WORKER, "names no build")]);
}

#[test]
fn an_older_site_than_the_own_is_noted() {
    let (site, own) = (build(), build());
    fs::write(own.path().join("new.png"), "new").unwrap();
    finish(own.path());
    let report = examine(own.path(), &address(serve::site(site.path()))).unwrap();
    says(&report, &[(Grade::Note, LIST, "dist/ here has build")]);
}

#[test]
fn a_list_that_names_other_places_is_refused() {
    let report = found_after(|dist| {
        let list = fs::read_to_string(dist.join(LIST)).unwrap();
        fs::write(dist.join(LIST), list.replace(PICTURE, "../../secret.png")).unwrap();
        packed::leave(dist).unwrap();
    });
    says(&report, &[(Grade::Error, LIST, "../../secret.png")]);
}

#[test]
fn a_page_for_every_address_is_found() {
    let report = found(|_, answer| {
        if answer.status() == StatusCode::NOT_FOUND {
            html()
        } else {
            answer
        }
    });
    says(
        &report,
        &[(
            Grade::Warning,
            "absent-0123456789abcdef.js",
            "fallback for single-page programs",
        )],
    );
}
