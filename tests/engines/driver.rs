//! Programs that run beside the tests: a screen that nobody sees, and the driver of an engine. They end with the process of the
//! tests, however that ends, and with them all that they started.

use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};

use super::engine::Engine;
use super::harness::{REMEDY, program};

/// Runs a program as the head of a group of processes, and ends the whole group with the end of its own input, which comes with
/// the end of this process, or when the program ends by itself. Then it removes the folder.
const GUARD: &str = r#"
    exec 3<&0
    setsid "$@" 3<&- &
    program=$!
    { cat <&3 > /dev/null; kill -KILL "-$program"; } &
    wait "$program"
    kill -KILL "-$program"
    rm -rf "$TMPDIR""#;

/// A program under guard.
struct Guarded {
    guard: Child,
    talk: BufReader<ChildStdout>,
}

impl Guarded {
    /// Starts a program that keeps all it has in a folder.
    fn start(program_file: &Path, args: &[String], folder: &Path, display: Option<&str>) -> Self {
        let mut command = Command::new(program("sh"));
        command
            .args(["-c", GUARD, "guard"])
            .arg(program_file)
            .args(args)
            // Nothing of the person's own is read or changed.
            .envs(
                [
                    "HOME",
                    "TMPDIR",
                    "XDG_CACHE_HOME",
                    "XDG_CONFIG_HOME",
                    "XDG_DATA_HOME",
                ]
                .map(|name| (name, folder)),
            )
            .env_remove("DISPLAY")
            .env_remove("WAYLAND_DISPLAY")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null());
        if let Some(display) = display {
            command.env("DISPLAY", display);
        }
        let mut guard = command.spawn().expect("a program that was found starts");
        let talk = BufReader::new(guard.stdout.take().expect("its output is piped"));
        Self { guard, talk }
    }

    fn has_ended(&mut self) -> bool {
        self.guard.try_wait().is_ok_and(|status| status.is_some())
    }
}

impl Drop for Guarded {
    /// Closes the input of the guard, which then ends what it guards.
    fn drop(&mut self) {
        drop(self.guard.stdin.take());
        drop(self.guard.wait());
    }
}

/// A screen in memory.
pub(super) struct Screen {
    _program: Guarded,
    /// Its name, as in `:7`.
    pub(super) display: String,
}

impl Screen {
    pub(super) fn start() -> Self {
        // It picks a number that is free, and writes it down once it can be drawn on.
        let words = "-displayfd 1 -screen 0 1400x1000x24 -nolisten tcp";
        let args: Vec<String> = words.split(' ').map(str::to_owned).collect();
        let mut program = Guarded::start(&program("Xvfb"), &args, &new_folder(), None);
        let mut number = String::new();
        let read = program.talk.read_line(&mut number).unwrap_or(0);
        assert!(read > 0, "`Xvfb` did not start. {REMEDY}");
        let display = format!(":{}", number.trim());
        Self {
            _program: program,
            display,
        }
    }
}

/// The driver of an engine.
pub(super) struct Driver {
    program: Guarded,
    /// Where it listens, once it does.
    pub(super) port: u16,
}

impl Driver {
    /// Starts the driver at a port that is free now. It may be taken a moment later; then the driver ends.
    pub(super) fn start(engine: Engine) -> Self {
        let free = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).expect("a port is free");
        let port = free.local_addr().expect("it has a number").port();
        drop(free);
        let args = [format!("--port={port}")];
        let program = Guarded::start(&engine.driver(), &args, &new_folder(), engine.display());
        Self { program, port }
    }

    /// Whether it gave up.
    pub(super) fn has_ended(&mut self) -> bool {
        self.program.has_ended()
    }
}

fn new_folder() -> PathBuf {
    let folder = tempfile::tempdir().expect("a folder for what a browser keeps can be made");
    folder.keep()
}
