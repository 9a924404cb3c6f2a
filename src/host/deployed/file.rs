//! What can be wrong with the answer for one file.

use super::super::headers::MediaType;
use super::super::packed;
use super::super::worker::{FOLDER, PAGE};
use super::ask::{Answer, Host};
use super::head;
use super::report::{Grade, Report};
use flate2::{Compression, write::GzEncoder};
use std::io::Write as _;

/// What a browser of today asks for.
const BROWSER: &str = "br, gzip";
/// What other programs and older browsers ask for.
const OTHERS: [&str; 2] = ["gzip", "identity"];
/// Hosts may leave files up to this many bytes unpacked: they come in one packet in any case.
const SMALL: usize = 1400;

/// Fetches a file and adds what is wrong with the answer. Its content, where it is the file at all.
pub(super) fn fetch(host: &Host, name: &str, report: &mut Report) -> Option<Vec<u8>> {
    let answer = match host.ask(name, BROWSER) {
        Ok(answer) => answer,
        Err(error) => {
            report.add(Grade::Error, name, format!("There is no answer: {error}."));
            return None;
        }
    };
    let mut fault = |grade, what: String| report.add(grade, name, what);
    if answer.status != 200 {
        fault(Grade::Error, status(host, &answer));
        return None;
    }
    let content = match answer.content() {
        Ok(content) => content,
        Err(what) => {
            fault(
                Grade::Error,
                format!("It {what}. Upload it again, or turn off packing on the host."),
            );
            return None;
        }
    };
    if is_page_in_place(name, &content) {
        fault(
            Grade::Error,
            "The host sends a web page in place of this file. The file is missing there: upload all of dist/ again.".into(),
        );
        return None;
    }
    let faults = head::faults(name, &answer);
    for (grade, what) in faults
        .into_iter()
        .chain(packing_faults(name, &answer, &content))
    {
        fault(grade, what);
    }
    if is_packable(name) {
        for packing in OTHERS {
            if let Some(what) = other_copy(host, name, packing, &content) {
                fault(Grade::Error, what);
            }
        }
    }
    Some(content)
}

fn status(host: &Host, answer: &Answer) -> String {
    let status = answer.status;
    match host.target(answer) {
        Some(to) if (300..400).contains(&status) => format!(
            "The host leads on to {to} (status {status}). It must send the file itself: remove this rule from the host."
        ),
        _ => format!(
            "The host answers with status {status} in place of 200. Upload all of dist/ again."
        ),
    }
}

/// Hosts that send a page for every address they do not know say that all is well.
fn is_page_in_place(name: &str, content: &[u8]) -> bool {
    let text = content.trim_ascii_start();
    let text = text.strip_prefix("\u{feff}".as_bytes()).unwrap_or(text);
    let begins = |start: &str| {
        text.get(..start.len())
            .is_some_and(|begin| begin.eq_ignore_ascii_case(start.as_bytes()))
    };
    match MediaType::of(name).map(|media| media.name) {
        Some("text/html") => false,
        Some("image/svg+xml") => begins("<!doctype html") || begins("<html"),
        _ => begins("<"),
    }
}

fn is_packable(name: &str) -> bool {
    let name = if name == FOLDER { PAGE } else { name };
    name.rsplit_once('.')
        .is_some_and(|(_, ending)| packed::becomes_smaller(ending))
}

fn packing_faults(name: &str, answer: &Answer, content: &[u8]) -> Option<(Grade, String)> {
    if answer.packing().is_empty() {
        if !is_packable(name) || content.len() <= SMALL {
            return None;
        }
        let (plain, packed) = (content.len(), gzip_size(content));
        let what = format!(
            "It is sent unpacked: {plain} bytes; gzip makes {packed} of them. Turn on compression on the host."
        );
        return Some((Grade::Warning, what));
    }
    let vary = answer.header("vary").unwrap_or_default().to_lowercase();
    let is_said = vary
        .split(',')
        .any(|name| ["accept-encoding", "*"].contains(&name.trim()));
    (!is_said).then(|| {
        let what = "It is packed without the header “vary: accept-encoding”. Send it, or proxies mix up the copies.";
        (Grade::Warning, what.into())
    })
}

fn gzip_size(content: &[u8]) -> usize {
    let mut packer = GzEncoder::new(Vec::new(), Compression::default());
    let packed = packer.write_all(content).and_then(|()| packer.finish());
    packed.map_or(content.len(), |packed| packed.len())
}

/// What is wrong with the copy for others than browsers of today.
fn other_copy(host: &Host, name: &str, packing: &str, content: &[u8]) -> Option<String> {
    let is_right = host
        .ask(name, packing)
        .and_then(|answer| Ok(answer.status == 200 && answer.content()? == content));
    let who = if packing == "gzip" {
        "that read gzip only"
    } else {
        "that read no packing"
    };
    match is_right {
        Ok(true) => None,
        Ok(false) => Some(format!(
            "Browsers {who} get another file. Upload it again with its copies .br and .gz."
        )),
        Err(error) => Some(format!(
            "Browsers {who} get no file: {error}. Upload it again with its copies."
        )),
    }
}
