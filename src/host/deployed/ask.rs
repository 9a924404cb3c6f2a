//! One question to a host, and its answer as it came: nothing is followed or unpacked on the way.

use super::super::Outcome;
use super::super::worker::{FOLDER, PAGE};
use axum::http::HeaderMap;
use std::io::Read;
use std::time::Duration;
use ureq::Agent;
use url::{Host as Name, Url};

/// The longest answer that is read, packed or unpacked, in bytes: many times the whole site.
const MOST: u64 = 1 << 26;
/// The longest time for one answer. A slow line brings the program within it.
const PATIENCE: Duration = Duration::from_mins(2);
const BUFFER: usize = 1 << 16;

/// A site by the address of its folder.
pub(super) struct Host {
    agent: Agent,
    folder: Url,
}

impl Host {
    /// The site at an address, with or without the name of the page.
    ///
    /// # Errors
    /// When this is no address of the web.
    pub(super) fn at(address: &str) -> Outcome<Self> {
        let wrong = || {
            format!(
                "“{address}” is no address of a site. Write it whole, such as https://example.org/lines/."
            )
        };
        let mut folder = Url::parse(address).map_err(|_| wrong())?;
        if !["http", "https"].contains(&folder.scheme()) || !folder.has_host() {
            return Err(wrong());
        }
        folder.set_query(None);
        folder.set_fragment(None);
        let path = folder.path().to_owned();
        let path = path.strip_suffix(PAGE).unwrap_or(&path);
        let end = if path.ends_with('/') { "" } else { "/" };
        folder.set_path(&format!("{path}{end}"));
        let config = Agent::config_builder()
            .max_redirects(0)
            .http_status_as_error(false)
            .timeout_global(Some(PATIENCE));
        // What is asked of this machine goes through no proxy.
        let config = if is_here(&folder) {
            config.proxy(None)
        } else {
            config
        };
        let agent = config.build().new_agent();
        Ok(Self { agent, folder })
    }

    /// The address of the folder.
    pub(super) fn folder(&self) -> &str {
        self.folder.as_str()
    }

    /// Whether browsers allow it what they allow on secure pages only.
    /// Source: W3C Secure Contexts, section 3.1.
    pub(super) fn is_secure(&self) -> bool {
        self.folder.scheme() == "https" || is_here(&self.folder)
    }

    /// Where an answer leads, as a whole address.
    pub(super) fn target(&self, answer: &Answer) -> Option<String> {
        let to = answer.header("location")?;
        self.folder.join(&to).ok().map(String::from)
    }

    /// Asks for a file of the site as a browser that reads these packings.
    ///
    /// # Errors
    /// Why there is no answer.
    pub(super) fn ask(&self, name: &str, packings: &str) -> Outcome<Answer> {
        let name = if name == FOLDER { "" } else { name };
        let address = self.folder.join(name).map_err(|error| error.to_string())?;
        let asked = self.agent.get(address.as_str());
        let mut answer = asked
            .header("accept-encoding", packings)
            .call()
            .map_err(|error| error.to_string())?;
        let sent = answer.body_mut().with_config().limit(MOST).read_to_vec();
        Ok(Answer {
            status: answer.status().as_u16(),
            sent: sent.map_err(|error| error.to_string())?,
            headers: answer.headers().clone(),
        })
    }
}

/// Whether an address is on this machine.
fn is_here(address: &Url) -> bool {
    match address.host() {
        Some(Name::Domain(name)) => name == "localhost" || name.ends_with(".localhost"),
        Some(Name::Ipv4(number)) => number.is_loopback(),
        Some(Name::Ipv6(number)) => number.is_loopback(),
        None => false,
    }
}

/// What a host answered.
pub(super) struct Answer {
    pub(super) status: u16,
    /// The body, packed where the host packs.
    pub(super) sent: Vec<u8>,
    headers: HeaderMap,
}

impl Answer {
    /// The value of a header; of one that comes several times all of them.
    pub(super) fn header(&self, name: &str) -> Option<String> {
        let values = self.headers.get_all(name).iter();
        let values: Vec<&str> = values.filter_map(|value| value.to_str().ok()).collect();
        (!values.is_empty()).then(|| values.join(", "))
    }

    /// How the body is packed, in small letters; empty where it is not.
    pub(super) fn packing(&self) -> String {
        let packing = self.header("content-encoding").unwrap_or_default();
        let packing = packing.trim().to_lowercase();
        if packing == "identity" {
            String::new()
        } else {
            packing
        }
    }

    /// The body without its packing.
    ///
    /// # Errors
    /// Why it cannot be unpacked.
    pub(super) fn content(&self) -> Outcome<Vec<u8>> {
        let packed = self.sent.as_slice();
        let mut content = Vec::new();
        let packing = self.packing();
        let read = match packing.as_str() {
            "" => return Ok(self.sent.clone()),
            "br" => brotli::Decompressor::new(packed, BUFFER)
                .take(MOST)
                .read_to_end(&mut content),
            "gzip" | "x-gzip" => flate2::read::MultiGzDecoder::new(packed)
                .take(MOST)
                .read_to_end(&mut content),
            other => return Err(format!("is packed as “{other}”, which was not asked for")),
        };
        read.map(|_| content).map_err(|_| {
            format!("says that it is packed as {packing}, but it is not, or not whole")
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_is_that_of_the_folder() {
        for (address, folder) in [
            ("https://example.org", "https://example.org/"),
            (
                "https://example.org/lines?a=b#c",
                "https://example.org/lines/",
            ),
            (
                "http://example.org/lines/index.html",
                "http://example.org/lines/",
            ),
        ] {
            assert_eq!(Host::at(address).unwrap().folder(), folder);
        }
        for address in [
            "",
            "example.org",
            "file:///dist/",
            "localhost:8080",
            "http://",
        ] {
            assert!(Host::at(address).is_err(), "{address}");
        }
    }

    #[test]
    fn pages_of_this_machine_are_secure() {
        for (address, is_secure) in [
            ("http://example.org", false),
            ("https://example.org", true),
            ("http://localhost:8080", true),
            ("http://127.0.0.1", true),
            ("http://[::1]:1", true),
        ] {
            assert_eq!(
                Host::at(address).unwrap().is_secure(),
                is_secure,
                "{address}"
            );
        }
    }
}
