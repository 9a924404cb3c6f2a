//! The programs that the browser tests start. They come from the machine, not from this project.

use super::Outcome;
use super::debian::Needed;
use super::project::Project;

/// The browser, the program that drives it, the reader of printed PDFs, and the second reader of tables.
const NEEDED: Needed = Needed {
    programs: &[
        ("chromium", "chromium"),
        ("chromedriver", "chromium-driver"),
        ("pdftotext", "poppler-utils"),
        ("python3", "python3"),
    ],
    by: "The browser tests",
    patience: "one to three minutes",
    elsewhere: "elsewhere install Chromium, its chromedriver, poppler (for pdftotext) and Python 3, so that `chromium`, \
                `chromedriver`, `pdftotext` and `python3` start from the command line.",
};

/// Makes sure that the browser tests can run: installs on Debian as root, says what to type elsewhere.
pub(crate) fn ensure(project: &Project) -> Outcome {
    NEEDED.ensure(project)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_missing_is_asked_for() {
        assert_eq!(NEEDED.missing(|_| true), Vec::<&str>::new());
        assert_eq!(
            NEEDED.missing(|program| program == "chromium"),
            ["chromium-driver", "poppler-utils", "python3"]
        );
    }

    #[test]
    fn the_advice_can_be_typed_as_it_stands() {
        let advice = NEEDED.advice(&["chromium", "poppler-utils"]);
        assert!(advice.contains("apt-get install chromium poppler-utils\n"));
    }
}
