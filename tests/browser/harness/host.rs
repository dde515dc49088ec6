//! Serves a build with `tools/serve.mjs`, and can be switched off and on at the same address.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use super::process::{Owned, first_line, free_port, start};
use super::{beside, dist, project};

/// How a build is served.
#[derive(Clone, Default)]
pub struct Serve {
    /// Path the app sits under, such as `/tools/coatwalk`; empty for the root.
    pub prefix: String,
    /// Scripts beside these tests that go into the page before the app starts.
    pub inject: Vec<&'static str>,
    /// Another folder than the build under test.
    pub dir: Option<PathBuf>,
}

pub struct Host {
    /// Address of the app, ending in a slash.
    pub url: String,
    port: u16,
    serve: Serve,
    child: Option<Owned>,
}

impl Host {
    pub fn start(serve: Serve) -> Self {
        let mut host = Self { url: String::new(), port: free_port(), serve, child: None };
        host.restart();
        host
    }

    /// Comes back at the same address: to the browser it is the same origin.
    pub fn restart(&mut self) {
        self.stop();
        let mut command = Command::new("node");
        command.arg(project().join("tools/serve.mjs")).stdout(Stdio::piped());
        command.arg("--dir").arg(self.serve.dir.clone().unwrap_or_else(dist));
        command.arg("--port").arg(self.port.to_string());
        if !self.serve.prefix.is_empty() {
            command.arg("--prefix").arg(&self.serve.prefix);
        }
        for script in &self.serve.inject {
            command.arg("--inject").arg(beside(script));
        }
        let mut child = Owned(start(&mut command));
        let line = first_line(&mut child.0);
        self.url = line
            .split_whitespace()
            .last()
            .filter(|word| word.starts_with("http"))
            .map(str::to_owned)
            .unwrap_or_else(|| panic!("the server said: {line}"));
        self.child = Some(child);
    }

    /// Serves another folder from the next `restart` on.
    pub fn serve_folder(&mut self, dir: &Path) {
        self.serve.dir = Some(dir.to_owned());
    }

    pub fn stop(&mut self) {
        self.child = None;
    }
}
