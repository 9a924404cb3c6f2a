//! The same plan by what a maker would use instead: a script over `NumPy`, and a workbook in an office suite.
//!
//! Both lie in `tests/against`, are written afresh from the formulas, and get a design as plain SI numbers. Programs that hold
//! `Plan::of` to them, or time them beside it, include this file by `#[path]`.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use serde::Deserialize;
use taperwright::design::Design;

#[path = "against/compare.rs"]
pub(crate) mod compare;
#[path = "against/plain.rs"]
pub(crate) mod plain;

use plain::plain;

/// What script and workbook end in: masses in kilograms, lengths in metres, angles in radians.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Results {
    /// First 30 ft, dressed; nothing of a line too short.
    pub(crate) head_mass: Option<f64>,
    /// The class, where there is one.
    pub(crate) class: Option<u8>,
    /// The whole line, dressed.
    pub(crate) total_mass: f64,
    /// Every part of the line.
    pub(crate) parts: Vec<PartMass>,
    /// The angle in the middle of the belly.
    pub(crate) belly_angle: f64,
    /// Thread on each bobbin.
    pub(crate) bobbins: Bobbins,
}

/// A part of the line by its everyday name: tip, front, belly, rear, end.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct PartMass {
    /// Its name.
    pub(crate) part: String,
    /// Its mass, dressed.
    pub(crate) mass: f64,
}

/// Thread on each bobbin, shortest first.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Bobbins {
    /// Of the standard thread.
    pub(crate) light: Vec<f64>,
    /// Of the heavier one.
    pub(crate) heavy: Vec<f64>,
}

/// What the script reckoned.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Reckoned {
    /// What it ends in.
    #[serde(flatten)]
    pub(crate) results: Results,
    /// Threads on every tread, tip first.
    pub(crate) threads: Vec<u32>,
    /// Those of them that are heavier.
    pub(crate) heavy: Vec<u32>,
    /// Where threads are changed.
    pub(crate) stops: Vec<f64>,
    /// Driver and driven of every tread.
    pub(crate) wheels: Vec<(u32, u32)>,
    /// Where the wheels of the tread behind each stop are fitted.
    pub(crate) wheels_at: Vec<f64>,
    /// Angle at rest on every tread, no tail buried.
    pub(crate) angle: Vec<f64>,
    /// Bare diameter there.
    pub(crate) diameter: Vec<f64>,
    /// Diameter of the thread's path there.
    pub(crate) path: Vec<f64>,
    /// Lay there.
    pub(crate) lay: Vec<f64>,
    /// First 30 ft, bare.
    pub(crate) head_bare_mass: Option<f64>,
    /// The whole line, bare.
    pub(crate) bare_mass: f64,
    /// Seconds each plan took, start and reading left out.
    #[serde(default)]
    pub(crate) seconds: Vec<f64>,
}

/// What the workbook says of the line as drawn, and what it takes to change one control point by a thousandth.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Recalculated {
    /// What it ends in.
    #[serde(flatten)]
    pub(crate) results: Results,
    /// Where threads are changed, one place for each.
    pub(crate) places: Vec<f64>,
    /// First 30 ft after the last change, to show that it was reckoned anew.
    pub(crate) head_mass_changed: Option<f64>,
    /// Seconds of each change, class and head mass read back.
    pub(crate) seconds: Vec<f64>,
    /// Seconds to start the office suite, to open the workbook and to read everything.
    pub(crate) start_seconds: f64,
    /// Seconds of the whole run, start and end counted in.
    pub(crate) whole_seconds: f64,
}

/// The plan by `NumPy`, reckoned and timed so many times.
///
/// # Errors
/// Why it could not be had, in words for whoever may install it.
pub(crate) fn numpy(design: &Design, repeat: u32) -> Result<Reckoned, String> {
    let python = python_with("numpy", "python3-numpy")?;
    let said = run(
        Command::new(python)
            .arg(script("plan.py"))
            .args(["--repeat", &repeat.to_string()]),
        &plain(design)?.to_string(),
    )?;
    serde_json::from_str(&said).map_err(|error| format!("plan.py said something else: {error}"))
}

/// The plan by a workbook, with one control point changed and everything reckoned anew so many times.
///
/// # Errors
/// Why it could not be had, in words for whoever may install it.
pub(crate) fn workbook(design: &Design, repeat: u32) -> Result<Recalculated, String> {
    let python = python_with("uno", "python3-uno libreoffice-calc")?;
    let text = plain(design)?.to_string();
    let folder = std::env::temp_dir().join(format!("taperwright-workbook-{}", std::process::id()));
    std::fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
    let sheet = folder.join("plan.fods");
    let made = run(
        Command::new(python).arg(script("sheet.py")).arg(&sheet),
        &text,
    );
    let said = made.and_then(|_| {
        let mut command = Command::new(python);
        command.arg(script("recalculate.py")).arg(&sheet);
        run(command.args(["--repeat", &repeat.to_string()]), "")
    });
    // Left behind it would do no harm; the answer is what counts.
    drop(std::fs::remove_dir_all(&folder));
    serde_json::from_str(&said?)
        .map_err(|error| format!("recalculate.py said something else: {error}"))
}

/// A Python that knows this module: Debian's own first, since its packages belong to that one.
fn python_with(module: &str, packages: &str) -> Result<&'static str, String> {
    let knows = |python: &&str| {
        let asked = Command::new(python)
            .args(["-c", &format!("import {module}")])
            .output();
        asked.is_ok_and(|answer| answer.status.success())
    };
    let found = ["/usr/bin/python3", "python3"].into_iter().find(knows);
    found.ok_or_else(|| {
        format!("not installed; on Debian and its relatives type: sudo apt-get install {packages}")
    })
}

fn script(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("tests/against")
        .join(name)
}

/// What a program prints that is given this text.
fn run(command: &mut Command, text: &str) -> Result<String, String> {
    let pipes = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut child = pipes.spawn().map_err(|error| error.to_string())?;
    let mut input = child.stdin.take().ok_or("there is no way in")?;
    // One that stops early closes its ear; what it then says is better worth telling.
    drop(input.write_all(text.as_bytes()));
    drop(input);
    let output = child
        .wait_with_output()
        .map_err(|error| error.to_string())?;
    if output.status.success() {
        String::from_utf8(output.stdout).map_err(|error| error.to_string())
    } else {
        Err(String::from_utf8_lossy(&output.stderr).into_owned())
    }
}
