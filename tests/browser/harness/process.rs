//! Child processes: started so that they can be found again, ended without leaving any behind.

use std::io::{BufRead, BufReader};
use std::net::{TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// A port nothing listens on at this moment.
pub fn free_port() -> u16 {
    TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port()
}

/// Starts a program; a missing one is named together with the way to get it.
pub fn start(command: &mut Command) -> Child {
    let program = command.get_program().to_string_lossy().into_owned();
    command.stdin(Stdio::null()).spawn().unwrap_or_else(|error| {
        panic!("{program} does not start ({error}); `make doctor` says what is missing and how to get it")
    })
}

/// The first line a child prints.
pub fn first_line(child: &mut Child) -> String {
    let mut line = String::new();
    BufReader::new(child.stdout.take().expect("stdout is piped")).read_line(&mut line).unwrap();
    line.trim().to_owned()
}

/// Waits until something listens on the port.
pub fn wait_for_port(port: u16, patience: Duration) {
    let start = Instant::now();
    while TcpStream::connect(("127.0.0.1", port)).is_err() {
        assert!(start.elapsed() < patience, "nothing listens on port {port} after {patience:?}");
        std::thread::sleep(Duration::from_millis(20));
    }
}

/// The children of a process and all of theirs, from /proc.
pub fn descendants(root: u32) -> Vec<u32> {
    let mut parents = Vec::new();
    for entry in std::fs::read_dir("/proc").unwrap().flatten() {
        let Ok(pid) = entry.file_name().to_string_lossy().parse::<u32>() else { continue };
        // "pid (name) state parent …"; the name may hold anything, so read on from its last bracket.
        let Ok(stat) = std::fs::read_to_string(entry.path().join("stat")) else { continue };
        let Some((_, rest)) = stat.rsplit_once(')') else { continue };
        if let Some(parent) = rest.split_whitespace().nth(1).and_then(|word| word.parse::<u32>().ok()) {
            parents.push((pid, parent));
        }
    }
    let mut found = vec![root];
    let mut next = 0;
    while next < found.len() {
        let parent = found[next];
        found.extend(parents.iter().filter(|(_, p)| *p == parent).map(|(pid, _)| *pid));
        next += 1;
    }
    found.remove(0);
    found
}

fn alive(pid: u32) -> bool {
    std::fs::read_to_string(format!("/proc/{pid}/stat"))
        .is_ok_and(|stat| !stat.rsplit_once(')').is_some_and(|(_, rest)| rest.trim_start().starts_with(['Z', 'X'])))
}

/// SIGKILL to all of them in one go; returns when none is left.
pub fn kill_all(pids: &[u32]) {
    if pids.is_empty() {
        return;
    }
    let words = pids.iter().map(u32::to_string);
    let _ = Command::new("kill").arg("-9").args(words).stderr(Stdio::null()).status();
    let start = Instant::now();
    while pids.iter().any(|pid| alive(*pid)) {
        assert!(start.elapsed() < Duration::from_secs(10), "processes {pids:?} survive SIGKILL");
        std::thread::sleep(Duration::from_millis(5));
    }
}

/// A child that does not outlive its owner, nor do its children.
pub struct Owned(pub Child);

impl Owned {
    pub fn end(&mut self) {
        let below = descendants(self.0.id());
        let _ = self.0.kill();
        let _ = self.0.wait();
        kill_all(&below);
    }
}

impl Drop for Owned {
    fn drop(&mut self) {
        self.end();
    }
}
