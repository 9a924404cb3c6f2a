//! A site of which the host sends files or headers wrong, in one way at a time.

use super::super::headers::FOR_ALL;
use super::super::worker::{LIST, WORKER};
use super::hosts_for_tests::*;
use super::report::Grade;
use axum::body::Body;
use axum::http::StatusCode;
use axum::response::Response;
use std::fs;

#[test]
fn an_absent_file_is_found() {
    let report = found_after(|dist| fs::remove_file(dist.join(PICTURE)).unwrap());
    says(&report, &[(Grade::Error, PICTURE, "status 404")]);
}

#[test]
fn wrong_types_are_found() {
    let report = found(|path, answer| match path.trim_start_matches('/') {
        PROGRAM => set(answer, "content-type", "application/octet-stream"),
        SCRIPT => without(answer, "content-type"),
        MANIFEST => set(answer, "content-type", "text/plain"),
        "" => set(answer, "content-type", "text/html; charset=ISO-8859-1"),
        _ => answer,
    });
    let expected = [
        (
            Grade::Error,
            PROGRAM,
            "Set its content-type to application/wasm",
        ),
        (Grade::Error, SCRIPT, "comes without a type"),
        (Grade::Warning, MANIFEST, "comes as “text/plain”"),
        (Grade::Error, "the page", "declared as iso-8859-1"),
    ];
    says(&report, &expected);
}

#[test]
fn damaged_files_are_found_and_told_from_a_page() {
    let report = found(|path, answer| match path.trim_start_matches('/') {
        PICTURE => set(
            Response::new(Body::from("half")),
            "content-type",
            "image/png",
        ),
        _ => answer,
    });
    // Of the changed answer no header is right but its type.
    assert!(
        report
            .findings()
            .iter()
            .any(|finding| finding.files == [PICTURE] && finding.what.contains("not the file"))
    );
    assert_eq!(report.count(Grade::Error), 1);
    let report = found(|path, answer| {
        if path.ends_with(PROGRAM) {
            html()
        } else {
            answer
        }
    });
    says(
        &report,
        &[(Grade::Error, PROGRAM, "a web page in place of this file")],
    );
    let report = found(|path, answer| {
        if path.ends_with(DRAWING) {
            html()
        } else {
            answer
        }
    });
    says(&report, &[(Grade::Error, DRAWING, "a web page in place")]);
    let report = found(|path, answer| if path.ends_with(LIST) { html() } else { answer });
    says(
        &report,
        &[(Grade::Error, LIST, "a web page in place of this file")],
    );
}

#[test]
fn old_packed_copies_are_found() {
    let report = found_after(|dist| {
        let copy = dist.join(format!("{SCRIPT}.gz"));
        fs::copy(dist.join(format!("{PROGRAM}.gz")), copy).unwrap();
    });
    says(
        &report,
        &[(Grade::Error, SCRIPT, "that read gzip only get another file")],
    );
    let report =
        found_after(|dist| fs::write(dist.join(format!("{SCRIPT}.br")), "no Brotli").unwrap());
    says(
        &report,
        &[(Grade::Error, SCRIPT, "packed as br, but it is not")],
    );
}

#[test]
fn missing_compression_is_found_with_sizes() {
    let report = found_after(|dist| {
        for ending in ["br", "gz"] {
            fs::remove_file(dist.join(format!("{PROGRAM}.{ending}"))).unwrap();
        }
    });
    let bytes = PROGRAM.len() + 1 + text().len();
    says(
        &report,
        &[(
            Grade::Warning,
            PROGRAM,
            &format!("unpacked: {bytes} bytes; gzip makes "),
        )],
    );
    let report = found(|_, answer| without(answer, "vary"));
    says(
        &report,
        &[(Grade::Warning, "the page", "vary: accept-encoding")],
    );
}

#[test]
fn missing_and_other_headers_are_found_once_for_all_files() {
    let report = found(|_, answer| {
        let answer = FOR_ALL
            .into_iter()
            .fold(answer, |answer, (name, _)| without(answer, name));
        set(answer, "referrer-policy", "origin")
    });
    let expected = [
        (
            Grade::Warning,
            "the page",
            "content-security-policy is missing",
        ),
        (Grade::Warning, WORKER, "x-content-type-options is missing"),
        (Grade::Warning, PICTURE, "referrer-policy is “origin”"),
    ];
    says(&report, &expected);
}

#[test]
fn the_order_within_a_policy_does_not_matter() {
    let report = found(|_, answer| {
        let policy = FOR_ALL[0].1;
        let turned: Vec<&str> = policy.split("; ").collect();
        let turned = turned.into_iter().rev().collect::<Vec<_>>().join(" ;") + ";";
        set(answer, FOR_ALL[0].0, turned.leak())
    });
    says(&report, &[]);
}

#[test]
fn wrong_cache_rules_are_found() {
    let report = found(|path, answer| match path.trim_start_matches('/') {
        "" | LIST | WORKER | PICTURE => set(answer, "cache-control", "public, max-age=600"),
        MANIFEST => without(answer, "cache-control"),
        SCRIPT => set(answer, "cache-control", "max-age=600"),
        PROGRAM => set(answer, "cache-control", "no-cache"),
        _ => answer,
    });
    let expected = [
        (Grade::Error, "the page", "keep it for 600 s"),
        (Grade::Error, LIST, "“cache-control: no-cache”"),
        (Grade::Error, WORKER, "“cache-control: no-store”"),
        (Grade::Warning, PICTURE, "keep it for 600 s"),
        (Grade::Warning, MANIFEST, "they guess"),
        (Grade::Warning, SCRIPT, "max-age=31536000"),
    ];
    // The page and the list have one line, as have the two that are kept too short.
    assert_eq!(report.findings().len(), expected.len() - 1);
    for (grade, file, part) in expected {
        let is_it = |finding: &&super::report::Finding| {
            finding.grade == grade
                && finding.files.iter().any(|other| other == file)
                && finding.what.contains(part)
        };
        assert!(report.findings().iter().any(is_it), "{file}: {report:#?}");
    }
    let report = found(|_, answer| {
        let is_asked = answer.headers()["cache-control"] == "no-cache";
        if is_asked {
            set(answer, "cache-control", "max-age=0, must-revalidate")
        } else {
            answer
        }
    });
    says(&report, &[]);
}

#[test]
fn detours_are_found() {
    let report = found(|path, answer| {
        if path.ends_with(WORKER) {
            return set(
                with_status(answer, StatusCode::FOUND),
                "location",
                "/other.js",
            );
        }
        answer
    });
    says(&report, &[(Grade::Error, WORKER, "/other.js (status 302)")]);
    let report = found(|path, answer| {
        if path == "/" {
            return set(
                with_status(answer, StatusCode::FOUND),
                "location",
                "index.html",
            );
        }
        answer
    });
    says(
        &report,
        &[(Grade::Error, "the page", "/index.html (status 302)")],
    );
}
