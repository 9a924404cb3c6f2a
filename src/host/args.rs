//! What the person asked for.

/// The port tried first when none is named.
const DEFAULT_PORT: u16 = 8080;

/// The whole manual of the program.
pub(crate) const HELP: &str = "\
Taperwright's workshop. Tools that are missing are installed into .tools/ on first use.

  cargo run                   build the site if anything changed, and open it at http://127.0.0.1:8080/
      -- --port N             start looking for a free port at N; 0 takes any
      -- --no-build           open the site as it was last built
  cargo run -- build          build the site into dist/, ready for any static host, and show its sizes
  cargo run -- measure        measure how fast all of it is, and print one table: some ten minutes on a quiet machine
  cargo run -- pictures       leave pictures of every view in target/screens: three sizes, light and dark
  cargo run -- test [FILTER]  run every check; FILTER goes to `cargo test` and narrows the tests only
  cargo run -- --help         show this text";

/// One command with everything it needs.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Command {
    /// Build unless told otherwise, then serve.
    Open { port: u16, build: bool },
    /// Build and show sizes.
    Build,
    /// Measure everything, and print it as a table.
    Measure,
    /// Take pictures of every view.
    Pictures,
    /// Run every check; the filter narrows the tests of `cargo test` only.
    Test { filter: Vec<String> },
    /// Show the manual.
    Help,
}

impl Command {
    /// Reads the arguments that follow the program's name.
    pub(crate) fn parse(args: impl Iterator<Item = String>) -> Result<Self, String> {
        let args: Vec<String> = args.collect();
        let words: Vec<&str> = args.iter().map(String::as_str).collect();
        match words.as_slice() {
            ["test", filter @ ..] if !asks_for_help(filter) => Ok(Self::Test {
                filter: owned(filter),
            }),
            ["build"] => Ok(Self::Build),
            ["measure"] => Ok(Self::Measure),
            ["pictures"] => Ok(Self::Pictures),
            words if asks_for_help(words) => Ok(Self::Help),
            [command @ ("build" | "measure" | "pictures"), extra, ..] => Err(format!(
                "`{command}` takes no arguments, but got `{extra}`."
            )),
            options => Self::parse_open(options),
        }
    }

    fn parse_open(mut options: &[&str]) -> Result<Self, String> {
        let (mut port, mut build) = (DEFAULT_PORT, true);
        loop {
            options = match options {
                [] => return Ok(Self::Open { port, build }),
                ["--no-build", rest @ ..] => {
                    build = false;
                    rest
                }
                ["--port"] => return Err("`--port` needs a number after it.".into()),
                ["--port", number, rest @ ..] => {
                    port = parse_port(number)?;
                    rest
                }
                [unknown, ..] => {
                    return Err(format!("`{unknown}` is not a command of this program."));
                }
            }
        }
    }
}

fn asks_for_help(words: &[&str]) -> bool {
    let before_separator = words.iter().take_while(|word| **word != "--");
    before_separator
        .into_iter()
        .enumerate()
        .any(|(place, word)| match *word {
            "--help" | "-h" => true,
            "help" => place == 0 && words.len() == 1,
            _ => false,
        })
}

fn owned(words: &[&str]) -> Vec<String> {
    words.iter().map(ToString::to_string).collect()
}

fn parse_port(text: &str) -> Result<u16, String> {
    text.parse()
        .map_err(|_| format!("`{text}` is not a port: a whole number from 0 to 65535 is."))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn parsed(line: &str) -> Command {
        Command::parse(line.split_whitespace().map(String::from)).expect(line)
    }

    #[track_caller]
    fn refused(line: &str) -> String {
        Command::parse(line.split_whitespace().map(String::from)).expect_err(line)
    }

    #[test]
    fn no_argument_builds_and_opens_at_the_usual_port() {
        assert_eq!(
            parsed(""),
            Command::Open {
                port: 8080,
                build: true
            }
        );
    }

    #[test]
    fn options_of_opening_come_in_any_order() {
        let expected = Command::Open {
            port: 0,
            build: false,
        };
        assert_eq!(parsed("--port 0 --no-build"), expected);
        assert_eq!(parsed("--no-build --port 0"), expected);
    }

    #[test]
    fn commands_without_options_are_known() {
        assert_eq!(parsed("build"), Command::Build);
        assert_eq!(parsed("pictures"), Command::Pictures);
        assert_eq!(parsed("measure"), Command::Measure);
    }

    #[test]
    fn words_after_test_become_its_filter() {
        assert_eq!(parsed("test"), Command::Test { filter: vec![] });
        let filter = vec!["browser".into(), "--".into(), "--help".into()];
        assert_eq!(parsed("test browser -- --help"), Command::Test { filter });
    }

    #[test]
    fn help_is_found_wherever_it_is_asked_for() {
        for line in [
            "--help",
            "-h",
            "help",
            "build --help",
            "pictures --help",
            "test -h",
            "--port 1 --help",
        ] {
            assert_eq!(parsed(line), Command::Help, "{line}");
        }
    }

    #[test]
    fn a_refusal_names_the_word_it_stumbled_over() {
        assert!(refused("sing").contains("`sing`"));
        assert!(refused("build twice").contains("`twice`"));
        assert!(refused("pictures bench").contains("`bench`"));
        assert!(refused("measure twice").contains("`twice`"));
        assert!(refused("--port 65536").contains("`65536`"));
        assert!(refused("--port").contains("`--port`"));
    }
}
