//! The few requests to the browser's driver that go beyond the standard. They are local and small, so they
//! may block.

use std::io::{self, BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpStream};
use std::time::Duration;

/// Longest wait for an answer; the driver is on this machine.
const PATIENCE: Duration = Duration::from_mins(1);

/// Posts to a port of this machine and reads the answer's body.
pub(super) fn post(port: u16, path: &str, body: &str) -> io::Result<String> {
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port))?;
    stream.set_read_timeout(Some(PATIENCE))?;
    let length = body.len();
    let message = format!(
        "POST {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\
         Content-Type: application/json; charset=utf-8\r\nContent-Length: {length}\r\n\r\n{body}"
    );
    stream.write_all(message.as_bytes())?;
    answer(BufReader::new(stream))
}

/// The body, as long as its header says.
fn answer(mut stream: impl BufRead) -> io::Result<String> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        let read = stream.read_line(&mut line)?;
        if read == 0 || line.trim().is_empty() {
            break;
        }
        if let Some((name, value)) = line.split_once(':')
            && name.eq_ignore_ascii_case("content-length")
        {
            length = value.trim().parse().map_err(io::Error::other)?;
        }
    }
    let mut body = String::new();
    stream.take(length).read_to_string(&mut body)?;
    Ok(body)
}
