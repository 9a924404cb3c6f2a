//! The arguments of the program.

use clap::{Arg, ArgAction, ArgMatches, Command as Parser, value_parser};
use std::ffi::OsString;

const ABOUT: &str = "Taperwright's workshop: builds the page if anything changed, and serves it.\n\nMissing tools \
    are installed into .tools/ on first use.";
const TEST: &str =
    "Arguments for `cargo test`, such as a part of a test's name; the other checks run in any case";

const HOST: &str = "The address at which people open the page";

/// Without another command, the site is built if anything changed, and served.
const COMMANDS: [(&str, &str); 8] = [
    (
        "build",
        "Build the site into dist/, ready for any static host, and list its sizes",
    ),
    (
        "serve",
        "Serve a quickly built page, rebuild it after every edit, and reload it in the browser",
    ),
    ("test", "Run every check"),
    (
        "prepare",
        "Install what the tests need and build the site, so that `cargo test` can run alone",
    ),
    (
        "check-host",
        "Fetch a site from its host and say what is wrong with it there",
    ),
    (
        "pictures",
        "Save pictures of every view in target/screens: three sizes, light and dark",
    ),
    (
        "measure",
        "Measure size, speed and memory, and print one table: some minutes on a quiet machine",
    ),
    (
        "endure",
        "Repeat for minutes what the tests do briefly: killed browsers, random edits, damaged files",
    ),
];

/// What the person asked for.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Command {
    Open { port: u16, is_built: bool },
    Build,
    Serve { port: u16 },
    Test { filter: Vec<String> },
    Prepare,
    CheckHost { address: String },
    Pictures,
    Measure,
    Endure,
}

impl Command {
    /// Reads the arguments, of which the first is the program itself.
    ///
    /// # Errors
    /// What is wrong with them, or the help that they ask for.
    pub(crate) fn parse(args: impl IntoIterator<Item = OsString>) -> Result<Self, clap::Error> {
        let matches = parser().try_get_matches_from(args)?;
        let port = |matches: &ArgMatches| matches.get_one("port").copied().unwrap_or_default();
        Ok(match matches.subcommand() {
            Some(("build", _)) => Self::Build,
            Some(("serve", matches)) => Self::Serve {
                port: port(matches),
            },
            Some(("test", matches)) => {
                let filter = matches.get_many("filter").unwrap_or_default();
                Self::Test {
                    filter: filter.cloned().collect(),
                }
            }
            Some(("prepare", _)) => Self::Prepare,
            Some(("check-host", matches)) => Self::CheckHost {
                address: matches.get_one("url").cloned().unwrap_or_default(),
            },
            Some(("pictures", _)) => Self::Pictures,
            Some(("measure", _)) => Self::Measure,
            Some(("endure", _)) => Self::Endure,
            _ => Self::Open {
                port: port(&matches),
                is_built: matches.get_flag("no-build"),
            },
        })
    }
}

fn parser() -> Parser {
    let no_build = Arg::new("no-build")
        .long("no-build")
        .action(ArgAction::SetTrue);
    let filter = Arg::new("filter")
        .num_args(0..)
        .trailing_var_arg(true)
        .allow_hyphen_values(true);
    let url = Arg::new("url").value_name("URL").required(true);
    let commands = COMMANDS.map(|(name, about)| {
        let command = Parser::new(name).about(about);
        match name {
            // Another port than that of the finished site, of which a browser keeps a copy under its port.
            "serve" => command.arg(port("8090")),
            "test" => command.arg(filter.clone().help(TEST)),
            "check-host" => command.arg(url.clone().help(HOST)),
            _ => command,
        }
    });
    Parser::new("taperwright")
        .bin_name("cargo run --")
        .about(ABOUT)
        .arg(port("8080"))
        .arg(no_build.help("Serve the site as it was last built"))
        .subcommands(commands)
        .args_conflicts_with_subcommands(true)
}

fn port(usual: &'static str) -> Arg {
    let port = Arg::new("port")
        .long("port")
        .value_name("N")
        .default_value(usual);
    let port = port.value_parser(value_parser!(u16));
    port.help("Look for a free port from here upwards; 0 takes any")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parse(line: &str) -> Result<Command, clap::Error> {
        let words = ["taperwright"].into_iter().chain(line.split_whitespace());
        Command::parse(words.map(OsString::from))
    }

    #[track_caller]
    fn parsed(line: &str) -> Command {
        parse(line).expect(line)
    }

    #[test]
    fn options_of_the_server_come_in_any_order() {
        let open = |port, is_built| Command::Open { port, is_built };
        assert_eq!(parsed(""), open(8080, false));
        assert_eq!(parsed("--port 0 --no-build"), open(0, true));
        assert_eq!(parsed("--no-build --port 0"), open(0, true));
        assert_eq!(parsed("serve"), Command::Serve { port: 8090 });
        assert_eq!(parsed("serve --port 1"), Command::Serve { port: 1 });
    }

    #[test]
    fn every_command_is_known() {
        for (name, _) in COMMANDS {
            let line = match name {
                "check-host" => "check-host https://example.org/",
                name => name,
            };
            assert!(!matches!(parsed(line), Command::Open { .. }), "{name}");
        }
    }

    #[test]
    fn words_after_test_are_for_cargo() {
        let filter = |words: &[&str]| Command::Test {
            filter: words.iter().map(ToString::to_string).collect(),
        };
        assert_eq!(parsed("test"), filter(&[]));
        assert_eq!(
            parsed("test laws -- --exact"),
            filter(&["laws", "--", "--exact"])
        );
        assert_eq!(parsed("test --test budget"), filter(&["--test", "budget"]));
    }

    #[test]
    fn a_refusal_names_the_word_it_is_about() {
        for (line, word) in [
            ("sing", "'sing'"),
            ("build twice", "'twice'"),
            ("--port 65536", "'65536'"),
            ("--port", "'--port <N>'"),
            ("check-host", "<URL>"),
        ] {
            let refusal = parse(line).expect_err(line).to_string();
            assert!(refusal.contains(word), "{refusal}");
        }
    }
}
