//! The same plan by a script over `NumPy`, written from the formulas. It gets a design as plain SI numbers and shares no line of
//! code with the core.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use serde::Deserialize;
use taperwright::design::Design;

pub(crate) mod compare;
mod plain;

use plain::plain;

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

/// What the script calculates: masses in kilograms, lengths in metres, angles in radians.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Calculated {
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
    /// Threads between each two stops, tip first.
    pub(crate) threads: Vec<u32>,
    /// Those of them that are heavier.
    pub(crate) heavy: Vec<u32>,
    /// Where threads are changed.
    pub(crate) stops: Vec<f64>,
    /// Driver and driven between each two stops.
    pub(crate) wheels: Vec<(u32, u32)>,
    /// Where the wheels for the part after each stop are fitted.
    pub(crate) wheels_at: Vec<f64>,
    /// Angle in the steady state between each two stops, no tail buried.
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
}

/// The plan by `NumPy`.
///
/// # Errors
/// Why there is none.
pub(crate) fn numpy(design: &Design) -> Result<Calculated, String> {
    let said = run(
        Command::new(python()?).arg(script("plan.py")),
        &plain(design)?.to_string(),
    )?;
    serde_json::from_str(&said).map_err(|error| format!("plan.py said something else: {error}"))
}

/// A Python with `NumPy`: Debian's own first, since its packages belong to that one.
fn python() -> Result<&'static str, String> {
    let has_numpy = |python: &&str| {
        let asked = Command::new(python).args(["-c", "import numpy"]).output();
        asked.is_ok_and(|answer| answer.status.success())
    };
    let found = ["/usr/bin/python3", "python3"].into_iter().find(has_numpy);
    found.ok_or_else(|| "NumPy is not installed; type: cargo run -- prepare".to_owned())
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
    // A program that stops early does not read on; its message matters more.
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
