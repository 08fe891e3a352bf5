//! A window on a preview, without a browser: it asks for pages and hears what changes.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

/// How long an answer or an event may take before a test gives up: far beyond what it does take on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

/// A window on a preview.
#[derive(Debug)]
pub struct Window {
    host: String,
    events: BufReader<TcpStream>,
}

/// What a preview answered.
#[derive(Debug)]
pub struct Answer {
    /// The status.
    pub status: u16,
    /// The lines of the head, in small letters.
    pub head: String,
    /// What follows it.
    pub body: Vec<u8>,
}

impl Answer {
    /// The body as text.
    ///
    /// # Panics
    /// Where it is none.
    #[must_use]
    pub fn text(&self) -> &str {
        std::str::from_utf8(&self.body).expect("text")
    }
}

impl Window {
    /// Opens a window on the preview at an address, and hears what is shown now.
    ///
    /// # Panics
    /// Where it cannot be reached.
    #[must_use]
    pub fn open(address: &str) -> Self {
        let host = address.trim_start_matches("http://").trim_end_matches('/').to_owned();
        let stream = send(&host, &format!("GET /watch/events HTTP/1.1\r\nHost: {host}\r\n\r\n"));
        let mut window = Self { host, events: BufReader::new(stream) };
        window.hear();
        window
    }

    /// Waits for the next event: the versions of the site and of all that is shown.
    ///
    /// # Panics
    /// Where none comes.
    pub fn hear(&mut self) -> String {
        loop {
            let mut line = String::new();
            assert_ne!(self.events.read_line(&mut line).expect("event"), 0, "the preview has ended");
            if let Some(versions) = line.strip_prefix("data: ") {
                return versions.trim().to_owned();
            }
        }
    }

    /// Waits until the frame says something.
    ///
    /// # Panics
    /// Where it never does.
    pub fn hear_of(&mut self, text: &str) {
        while !self.get("/").text().contains(text) {
            self.hear();
        }
    }

    /// Asks for a page.
    ///
    /// # Panics
    /// Where no answer comes.
    #[must_use]
    pub fn get(&self, path: &str) -> Answer {
        self.ask(&format!("GET {path} HTTP/1.1\r\nHost: {}", self.host))
    }

    /// Asks with a head of one's own, without its last line.
    ///
    /// # Panics
    /// Where no answer comes.
    #[must_use]
    pub fn ask(&self, head: &str) -> Answer {
        let mut answer = Vec::new();
        send(&self.host, &format!("{head}\r\nConnection: close\r\n\r\n")).read_to_end(&mut answer).expect("answer");
        let end = answer.windows(4).position(|bytes| bytes == b"\r\n\r\n").expect("head");
        let head = String::from_utf8_lossy(&answer[..end]).to_lowercase();
        let status = head.split(' ').nth(1).and_then(|status| status.parse().ok()).expect("status");
        Answer { status, head, body: answer.split_off(end + 4) }
    }
}

fn send(host: &str, request: &str) -> TcpStream {
    let mut stream = TcpStream::connect(host).expect("preview");
    stream.set_read_timeout(Some(PATIENCE)).expect("timeout");
    stream.write_all(request.as_bytes()).expect("request");
    stream
}
