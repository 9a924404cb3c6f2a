//! One sheet of style in the place of many: a visitor asks once, and gzip sees all of it together.

use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::{Error, Result};
use std::ops::Range;
use std::path::Path;

/// The page.
const PAGE: &str = "index.html";

/// Joins the sheets that the page names, in its order, and has the page name the one they make. Done again, it changes nothing.
///
/// # Errors
/// When the page or a sheet it names cannot be read, or the new ones cannot be written.
pub(crate) fn join(dist: &Path) -> Result<()> {
    let page = fs::read_to_string(dist.join(PAGE))?;
    let links = links(&page);
    let Some(first) = links.first() else {
        return Ok(());
    };
    let sheet = take(dist, &page, &links)?;
    let name = name(&sheet);
    let link = format!("<link href=./{name} rel=stylesheet>");
    let rest = without(&page[first.end..], first.end, &links[1..]);
    fs::write(dist.join(&name), sheet)?;
    fs::write(
        dist.join(PAGE),
        format!("{}{link}{rest}", &page[..first.start]),
    )
}

/// The contents of all sheets, which go away.
fn take(dist: &Path, page: &str, links: &[Range<usize>]) -> Result<String> {
    let mut sheets = Vec::new();
    for link in links {
        let link = &page[link.clone()];
        let address =
            address(link).ok_or_else(|| Error::other(format!("{link} names no sheet")))?;
        let file = dist.join(address.trim_start_matches("./"));
        sheets.push(fs::read_to_string(&file)?);
        fs::remove_file(file)?;
    }
    Ok(sheets.join("\n"))
}

/// A name that changes with the contents, so that browsers may keep the file for good.
fn name(sheet: &str) -> String {
    let mut hasher = DefaultHasher::new();
    sheet.hash(&mut hasher);
    format!("style-{:016x}.css", hasher.finish())
}

/// Where the links to sheets stand in the page.
fn links(page: &str) -> Vec<Range<usize>> {
    let starts = page.match_indices("<link ").map(|(start, _)| start);
    let ends = starts.filter_map(|start| Some(start..start + page[start..].find('>')? + 1));
    ends.filter(|link| attribute(&page[link.clone()], "rel") == Some("stylesheet"))
        .collect()
}

fn address(link: &str) -> Option<&str> {
    attribute(link, "href")
}

/// The value of an attribute, which the build may have stripped of quotes.
fn attribute<'page>(element: &'page str, name: &str) -> Option<&'page str> {
    let start = element.find(&format!(" {name}="))? + name.len() + 2;
    let value = &element[start..];
    match value.strip_prefix('"') {
        Some(quoted) => quoted.split('"').next(),
        None => value.split([' ', '>']).next(),
    }
}

/// The text, which begins at a place of the page, without these links.
fn without(text: &str, begin: usize, links: &[Range<usize>]) -> String {
    let mut rest = String::new();
    let mut at = 0;
    for link in links {
        rest.push_str(&text[at..link.start - begin]);
        at = link.end - begin;
    }
    rest.push_str(&text[at..]);
    rest
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    const HEAD: &str = "<!doctype html><link href=icon.png rel=icon>";

    fn site(page: &str) -> tempfile::TempDir {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join(PAGE), page).unwrap();
        fs::write(folder.path().join("b-1.css"), "p{color:red}").unwrap();
        fs::write(folder.path().join("a-2.css"), "p{color:blue}").unwrap();
        folder
    }

    fn sheets(folder: &Path) -> Vec<PathBuf> {
        let entries = fs::read_dir(folder).unwrap();
        let files = entries.map(|entry| entry.unwrap().path());
        files
            .filter(|file| file.extension().is_some_and(|end| end == "css"))
            .collect()
    }

    #[test]
    fn the_sheets_become_one_in_the_order_of_the_page() {
        let links = "<link href=./b-1.css rel=stylesheet><meta name=x><link rel=\"stylesheet\" href=\"./a-2.css\">";
        let folder = site(&format!("{HEAD}{links}</head>"));
        join(folder.path()).unwrap();
        let sheets = sheets(folder.path());
        assert_eq!(sheets.len(), 1);
        assert_eq!(
            fs::read_to_string(&sheets[0]).unwrap(),
            "p{color:red}\np{color:blue}"
        );
        let name = sheets[0].file_name().unwrap().to_str().unwrap();
        let page = fs::read_to_string(folder.path().join(PAGE)).unwrap();
        assert_eq!(
            page,
            format!("{HEAD}<link href=./{name} rel=stylesheet><meta name=x></head>")
        );

        join(folder.path()).unwrap();
        assert_eq!(fs::read_to_string(folder.path().join(PAGE)).unwrap(), page);
        assert!(sheets[0].is_file());
    }

    #[test]
    fn a_sheet_that_is_not_there_is_told() {
        let folder = site("<link href=./gone.css rel=stylesheet>");
        assert!(join(folder.path()).is_err());
    }

    #[test]
    fn a_page_without_sheets_stays() {
        let folder = site(HEAD);
        join(folder.path()).unwrap();
        assert_eq!(fs::read_to_string(folder.path().join(PAGE)).unwrap(), HEAD);
    }
}
