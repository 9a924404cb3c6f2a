//! What can be wrong with the head of an answer: the type, the cache rule, the headers of every file.

use super::super::headers::{Cache, FOR_ALL, MediaType};
use super::super::worker::{FOLDER, LIST, WORKER};
use super::ask::Answer;
use super::report::Grade;

/// From here on a file counts as kept for long, in seconds: 30 days.
const LONG: u64 = 30 * 24 * 60 * 60;

/// All that is wrong with the head of the answer for a file.
pub(super) fn faults(name: &str, answer: &Answer) -> Vec<(Grade, String)> {
    let mut faults = type_faults(name, answer);
    faults.extend(cache_fault(name, answer));
    faults.extend(header_faults(answer));
    faults
}

fn type_faults(name: &str, answer: &Answer) -> Vec<(Grade, String)> {
    let Some(media) = MediaType::of(name) else {
        return Vec::new();
    };
    let right = media.name;
    let grade = if media.is_needed {
        Grade::Error
    } else {
        Grade::Warning
    };
    let Some(sent) = answer.header("content-type") else {
        return vec![(
            grade,
            format!("It comes without a type. Set its content-type to {right}."),
        )];
    };
    let mut parts = sent.split(';').map(str::trim);
    let kind = parts.next().unwrap_or_default();
    let mut faults = Vec::new();
    if !media.admits(kind) {
        faults.push((
            grade,
            format!("It comes as “{kind}”. Set its content-type to {right}."),
        ));
    }
    let letters = parts.find_map(|part| {
        let (key, value) = part.split_once('=')?;
        key.eq_ignore_ascii_case("charset")
            .then(|| value.trim_matches('"').to_lowercase())
    });
    if let Some(letters) = letters.filter(|letters| !["utf-8", "utf8"].contains(&letters.as_str()))
    {
        faults.push((
            grade,
            format!("Its letters are declared as {letters}. Set charset=utf-8 on the host."),
        ));
    }
    faults
}

/// The cache rule, where it keeps a file too long or not long enough.
fn cache_fault(name: &str, answer: &Answer) -> Option<(Grade, String)> {
    let wanted = Cache::of(name);
    let value = wanted.value();
    let sent = answer
        .header("cache-control")
        .unwrap_or_default()
        .to_lowercase();
    let mut parts = sent.split(',').map(str::trim);
    let age: Option<u64> = parts.clone().find_map(|part| {
        let age = part.strip_prefix("max-age=")?;
        age.trim_matches('"').parse().ok()
    });
    let asks = age == Some(0) || parts.any(|part| part == "no-cache" || part == "no-store");
    if wanted == Cache::Forever {
        let is_long = !asks && age.is_some_and(|age| age >= LONG);
        return (!is_long).then(|| {
            let what = format!("Its content never changes, but browsers ask for it again. Send “cache-control: {value}”.");
            (Grade::Warning, what)
        });
    }
    if asks {
        return None;
    }
    let Some(age) = age else {
        let what = format!(
            "Nothing says how long browsers may keep it, so they guess. Send “cache-control: {value}”."
        );
        return Some((Grade::Warning, what));
    };
    let grade = if [FOLDER, LIST, WORKER].contains(&name) {
        Grade::Error
    } else {
        Grade::Warning
    };
    let what = format!(
        "Browsers may keep it for {age} s and miss a new build. Send “cache-control: {value}”."
    );
    Some((grade, what))
}

fn header_faults(answer: &Answer) -> Vec<(Grade, String)> {
    let faults = FOR_ALL.into_iter().filter_map(|(name, value)| {
        let what = match answer.header(name) {
            None => format!("The header {name} is missing. Send “{name}: {value}”."),
            Some(sent) if !is_same(&sent, value) => {
                format!("The header {name} is “{sent}”. Send “{name}: {value}”.")
            }
            Some(_) => return None,
        };
        Some((Grade::Warning, what))
    });
    faults.collect()
}

/// Whether two values say the same: the order of the parts of a policy does not matter, nor do spaces.
fn is_same(sent: &str, value: &str) -> bool {
    let parts = |text: &str| {
        let parts = text.split(';').map(|part| {
            part.split_whitespace()
                .collect::<Vec<_>>()
                .join(" ")
                .to_lowercase()
        });
        let mut parts: Vec<String> = parts.filter(|part| !part.is_empty()).collect();
        parts.sort();
        parts
    };
    parts(sent) == parts(value)
}
