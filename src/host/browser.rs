//! The programs that the browser tests start. They come from the machine, not from this project.

use super::Outcome;
use super::debian::Needed;
use super::project::Project;

/// The browser, the program that drives it, and the reader of printed PDFs.
const NEEDED: Needed = Needed {
    programs: &[
        ("chromium", "chromium"),
        ("chromedriver", "chromium-driver"),
        ("pdftotext", "poppler-utils"),
    ],
    by: "The browser tests",
    patience: "one to three minutes",
    elsewhere: "elsewhere install Chromium, its chromedriver and poppler (for pdftotext), so that `chromium`, \
                `chromedriver` and `pdftotext` start from the command line.",
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
            ["chromium-driver", "poppler-utils"]
        );
    }

    #[test]
    fn the_advice_can_be_typed_as_it_stands() {
        let advice = NEEDED.advice(&["chromium", "poppler-utils"]);
        assert!(advice.contains("apt-get install chromium poppler-utils\n"));
    }
}
