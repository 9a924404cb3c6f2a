//! The check of a whole site: that all its files are there, and of one build.

use super::super::Outcome;
use super::super::listed::{List, number_of_page, number_of_worker};
use super::super::worker::{FOLDER, LIST, WORKER, sha256};
use super::ask::Host;
use super::file;
use super::report::{Grade, Report};
use std::fs;
use std::path::Path;

/// A file that no build has, of a kind that a page would load.
const ABSENT: &str = "absent-0123456789abcdef.js";
/// As many steps to the page as browsers follow without complaint.
const STEPS: usize = 5;

/// Fetches the site at an address and prints what is wrong with it, line by line. The folder is where a build of one's own is.
///
/// # Errors
/// When there is no site to check, or something keeps it from working.
pub(crate) fn check(dist: &Path, address: &str) -> Outcome {
    let report = examine(dist, address)?;
    for finding in report.findings() {
        println!("{finding}");
    }
    let [errors, warnings] =
        [(Grade::Error, "error"), (Grade::Warning, "warning")].map(|(grade, word)| {
            let count = report.count(grade);
            let end = if count == 1 { "" } else { "s" };
            format!("{count} {word}{end}")
        });
    if report.count(Grade::Error) > 0 {
        return Err(format!(
            "{errors} and {warnings}. Each line above says what to do."
        ));
    }
    println!("The site works. {errors} and {warnings}.");
    Ok(())
}

/// All that is wrong with the site at an address.
///
/// # Errors
/// When there is no site to check.
pub(super) fn examine(dist: &Path, address: &str) -> Outcome<Report> {
    let mut report = Report::default();
    let host = arrive(address, &mut report)?;
    if !host.is_secure() {
        let what = "It comes over HTTP. Browsers allow offline use and the clipboard over HTTPS only: turn it on.";
        report.add(Grade::Warning, FOLDER, what);
    }
    let list = file::fetch(&host, LIST, &mut report);
    let list = list.and_then(|text| match List::parse(&text) {
        Ok(list) => Some(list),
        Err(error) => {
            let what = format!("It is no list of a build: {error}. Upload all of dist/ again.");
            report.add(Grade::Error, LIST, what);
            None
        }
    });
    let page = file::fetch(&host, FOLDER, &mut report);
    let worker = file::fetch(&host, WORKER, &mut report);
    let text = |content: &Option<Vec<u8>>| {
        content
            .as_ref()
            .map(|text| String::from_utf8_lossy(text).into_owned())
    };
    let list = list.as_ref();
    if let Some(page_text) = text(&page) {
        let is_same = of_build(FOLDER, number_of_page(&page_text), list, &mut report);
        if let (true, Some(list), Some(content)) = (is_same, list, page) {
            compare(list, FOLDER, &content, &mut report);
        }
    }
    if let Some(worker) = text(&worker) {
        of_build(WORKER, number_of_worker(&worker), list, &mut report);
    }
    if let Some(list) = list {
        for name in list.files.keys().filter(|name| *name != FOLDER) {
            if let Some(content) = file::fetch(&host, name, &mut report) {
                compare(list, name, &content, &mut report);
            }
        }
        compare_with_own(dist, list, &mut report);
    }
    ask_for_absent(&host, &mut report);
    Ok(report)
}

/// Follows the address to where the page is.
fn arrive(address: &str, report: &mut Report) -> Outcome<Host> {
    let mut host = Host::at(address)?;
    for _ in 0..STEPS {
        let answer = host.ask(FOLDER, "identity").map_err(|error| {
            let folder = host.folder();
            format!("{folder} does not answer: {error}. Check the address and the connection.")
        })?;
        let is_elsewhere = (300..400).contains(&answer.status);
        let Some(to) = host.target(&answer).filter(|_| is_elsewhere) else {
            return Ok(host);
        };
        let next = Host::at(&to)?;
        if next.folder() == host.folder() {
            // The folder leads to the page in it by name: said with the page itself.
            return Ok(host);
        }
        let what = format!(
            "{} leads on to {}, which is checked here.",
            host.folder(),
            next.folder()
        );
        report.add(Grade::Note, FOLDER, what);
        host = next;
    }
    Err(format!(
        "{address} leads on and on, and to no page. Remove these rules from the host."
    ))
}

/// Whether a file names the build of the list.
fn of_build(name: &str, number: Option<&str>, list: Option<&List>, report: &mut Report) -> bool {
    let Some(number) = number else {
        let what = "It names no build, so it is no file of Taperwright. Check the address, or upload all of dist/.";
        report.add(Grade::Error, name, what);
        return false;
    };
    let Some(List { build, .. }) = list else {
        return true;
    };
    if number != build {
        let what = format!(
            "It is of build {number}, but {LIST} is of {build}. The upload stopped half way, or the host still has old copies. \
             Upload all of dist/ again and clear the caches of the host."
        );
        report.add(Grade::Error, name, what);
    }
    number == build
}

fn compare(list: &List, name: &str, content: &[u8], report: &mut Report) {
    if list
        .files
        .get(name)
        .is_some_and(|sum| *sum == sha256(content))
    {
        return;
    }
    let what = format!(
        "It is not the file that {LIST} lists. Upload it again. If that does not help, the host changes files: turn that off."
    );
    report.add(Grade::Error, name, what);
}

/// A build of one's own that was not uploaded is easily forgotten.
fn compare_with_own(dist: &Path, list: &List, report: &mut Report) {
    let own = fs::read(dist.join(LIST)).ok();
    let own = own.and_then(|text| List::parse(&text).ok());
    if let Some(own) = own.filter(|own| own.build != list.build) {
        let what = format!(
            "The host has build {}, dist/ here has build {}.",
            list.build, own.build
        );
        report.add(Grade::Note, LIST, what);
    }
}

fn ask_for_absent(host: &Host, report: &mut Report) {
    let Ok(answer) = host.ask(ABSENT, "identity") else {
        return;
    };
    if answer.status < 400 {
        let what = format!(
            "No such file is there, but the host answers with status {}. So browsers take a page for a missing file. \
             Let the host answer with 404: turn off its fallback for single-page programs.",
            answer.status
        );
        report.add(Grade::Warning, ABSENT, what);
    }
}
