//! The two programs that tests need: the project's own server, which ends with its test, and the driver of the browsers, which
//! ends with the process of all tests. Both end however those end.

use std::fs;
use std::io::{self, BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::Instant;

use super::harness::{PATIENCE, PAUSE, REMEDY, program};

/// The project's own server on a free port.
pub(super) struct Server {
    process: Child,
    /// The site's address, without the slash at its end.
    pub(super) origin: String,
}

impl Server {
    pub(super) fn start() -> Self {
        Self::start_in(Path::new(env!("CARGO_MANIFEST_DIR")), 0)
    }

    /// Serves the site of another project folder, at this port; 0 takes any.
    pub(super) fn start_in(project: &Path, port: u16) -> Self {
        let mut process = Command::new(env!("CARGO_BIN_EXE_taperwright"))
            .args(["--no-build", "--port", &port.to_string()])
            .current_dir(project)
            // Where the program looks first.
            .env("CARGO_MANIFEST_DIR", project)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program built with this test starts");
        let (line, _) = first_line(&mut process, |line| line.contains("http://"));
        let address = line.split_whitespace().find(|word| word.contains("://"));
        let origin = address.unwrap_or_else(|| {
            panic!(
                "The site is not served. {}{REMEDY}",
                complaint(&mut process)
            )
        });
        Self {
            origin: origin.trim_end_matches('/').to_owned(),
            process,
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        end(&mut self.process);
    }
}

/// The browser's driver on a free port, with a folder for what its browsers keep.
pub(super) struct Driver {
    guard: Child,
    /// Where it listens.
    pub(super) port: u16,
    folder: PathBuf,
    // The driver goes on talking; a closed pipe would end it.
    _talk: BufReader<ChildStdout>,
}

/// Starts the driver and waits for the end of its own input, which comes with the end of this process, however that ends.
/// Then it ends the driver and every process that names the folder, and removes the folder. The brackets keep the search
/// from finding itself.
const GUARD: &str = r#"
    "$DRIVER" --port=0 &
    cat > /dev/null
    kill -KILL $!
    while named=$(grep -lsa "[/]${FOLDER#/}" /proc/[0-9]*/cmdline); do
        for process in $named; do
            process=${process#/proc/}
            kill -KILL "${process%/cmdline}"
        done
    done
    rm -rf "$FOLDER""#;

/// A driver picks a port that is free and may find it taken a moment later, since other programs start at the same time; it
/// then ends without a word. So it is started again, a few times.
const STARTS: u32 = 5;

impl Driver {
    pub(super) fn start() -> Self {
        let started = (0..STARTS).find_map(|_| Self::try_start());
        started.unwrap_or_else(|| panic!("`chromedriver` did not say where it listens. {REMEDY}"))
    }

    fn try_start() -> Option<Self> {
        let folder = tempfile::tempdir().expect("a folder for profiles can be made");
        let folder = folder.keep();
        let mut guard = Command::new(program("sh"))
            .args(["-c", GUARD])
            .env("DRIVER", program("chromedriver"))
            .env("FOLDER", &folder)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a program that was found starts");
        let (line, talk) = first_line(&mut guard, |line| line.contains("successfully on port"));
        let port = line.trim().trim_end_matches('.').rsplit(' ').next();
        let port = port.and_then(|port| port.parse().ok());
        let Some(port) = port else {
            dismiss(&mut guard);
            return None;
        };
        Some(Self {
            guard,
            port,
            folder,
            _talk: talk,
        })
    }

    /// A new folder for the files of one more browser. It is removed with the driver.
    pub(super) fn new_folder(&self) -> PathBuf {
        let folder = tempfile::tempdir_in(&self.folder);
        folder.expect("a folder for a browser can be made").keep()
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        dismiss(&mut self.guard);
    }
}

/// Closes the input of the guard, which then ends what it guards.
fn dismiss(guard: &mut Child) {
    drop(guard.stdin.take());
    drop(guard.wait());
}

/// The first line that is looked for, or an empty one when the program ends without it.
fn first_line(
    process: &mut Child,
    wanted: impl Fn(&str) -> bool,
) -> (String, BufReader<ChildStdout>) {
    let mut talk = BufReader::new(process.stdout.take().expect("its output is piped"));
    loop {
        let mut line = String::new();
        let read = talk.read_line(&mut line).unwrap_or(0);
        if read == 0 || wanted(&line) {
            return (line, talk);
        }
    }
}

/// What a program that gave up said about it.
fn complaint(process: &mut Child) -> String {
    let mut said = String::new();
    if let Some(mut pipe) = process.stderr.take() {
        drop(pipe.read_to_string(&mut said));
    }
    end(process);
    said
}

/// A process that has already ended needs no ending.
fn end(process: &mut Child) {
    drop(process.kill());
    drop(process.wait());
}

/// Kills every process that was started with this profile, without warning, and waits until none of them is left.
pub(super) fn kill_all_with(profile: &Path) {
    let wanted = profile.to_string_lossy().into_owned();
    let deadline = Instant::now() + PATIENCE;
    loop {
        let found = processes_with(&wanted);
        if found.is_empty() {
            return;
        }
        assert!(Instant::now() < deadline, "the browser outlives its death");
        let numbers = found.iter().map(String::as_str);
        // One that has ended meanwhile is one less to end.
        drop(
            Command::new("kill")
                .arg("-KILL")
                .args(numbers)
                .stderr(Stdio::null())
                .status(),
        );
        std::thread::sleep(PAUSE);
    }
}

/// Numbers of the living processes whose command names something.
fn processes_with(wanted: &str) -> Vec<String> {
    let processes = fs::read_dir("/proc").expect("a system that lists its processes");
    let number = |entry: io::Result<fs::DirEntry>| {
        let name = entry.ok()?.file_name().into_string().ok()?;
        let command = fs::read(format!("/proc/{name}/cmdline")).ok()?;
        String::from_utf8_lossy(&command)
            .contains(wanted)
            .then_some(name)
    };
    processes.filter_map(number).collect()
}
