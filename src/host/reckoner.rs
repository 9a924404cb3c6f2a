//! `NumPy`, over which the tests reckon whole plans a second time. It comes from the machine, not from this project.

use super::Outcome;
use super::debian::Needed;
use super::project::{Project, answer};

const NEEDED: Needed = Needed {
    programs: &[("numpy", "python3-numpy")],
    by: "The tests of whole plans",
    patience: "under a minute",
    elsewhere: "elsewhere install Python 3 with NumPy, so that `python3 -c \"import numpy\"` has nothing to complain of.",
};

/// Debian's own Python first: its packages belong to that one, and another may stand before it on the search path.
const PYTHONS: [&str; 2] = ["/usr/bin/python3", "python3"];

/// Makes sure that plans can be reckoned a second time: installs on Debian as root, says what to type elsewhere.
pub(crate) fn ensure(project: &Project) -> Outcome {
    NEEDED.ensure_by(project, |module| is_known(project, module))
}

/// Whether a Python of this machine has a module.
fn is_known(project: &Project, module: &str) -> bool {
    let question = format!("import {module}");
    let mut pythons = PYTHONS.iter();
    pythons.any(|python| answer(project.command(python).args(["-c", &question])).is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_module_is_known_that_every_python_has() {
        let folder = tempfile::tempdir().unwrap();
        let project = Project::at(folder.path());
        assert!(is_known(&project, "json"));
        assert!(!is_known(&project, "no_module_has_this_name"));
    }

    #[test]
    fn what_is_missing_is_named_by_its_package() {
        let missing = NEEDED.missing(|_| false);
        assert_eq!(missing, ["python3-numpy"]);
        assert!(
            NEEDED
                .advice(&missing)
                .contains("apt-get install python3-numpy\n")
        );
    }
}
