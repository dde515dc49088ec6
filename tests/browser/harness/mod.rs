//! A phone, a host that serves the app, and the few steps a test is told in.

// A step stays in the list though no test takes it at the moment.
#![allow(dead_code)]

mod host;
mod phone;
mod process;
mod steps;

use std::future::Future;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

pub use host::{Host, Serve};
pub use phone::{Engine, Phone};

/// How long a step may take before it counts as failed. Generous: the machine may be busy; nothing waits longer than needed.
pub const PATIENCE: Duration = Duration::from_secs(30);

/// The project's folder.
pub fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A file beside these tests.
pub fn beside(name: &str) -> PathBuf {
    project().join("tests/browser").join(name)
}

/// The build under test.
pub fn dist() -> PathBuf {
    let dir = std::env::var_os("COATWALK_DIST").map_or_else(|| project().join("dist"), PathBuf::from);
    assert!(dir.join("index.html").is_file(), "no build in {}: run `make dist` first", dir.display());
    dir
}

/// Folder for one test's files; gone when dropped.
pub struct Folder(PathBuf);

impl Folder {
    pub fn new(name: &str) -> Self {
        let unique = SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_nanos();
        let path = std::env::temp_dir().join(format!("coatwalk-{name}-{}-{unique}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A browser that was just killed may still be closing its files.
        for _ in 0..20 {
            if std::fs::remove_dir_all(&self.0).is_ok() {
                return;
            }
            std::thread::sleep(Duration::from_millis(100));
        }
    }
}

/// Copies a folder with everything in it.
pub fn copy_folder(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy_folder(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

/// Small, repeatable random numbers (splitmix64): a failing run can be repeated with its printed seed.
pub struct Chance(u64);

impl Chance {
    /// From `SEED`, or from the clock; prints which.
    pub fn new(what: &str) -> Self {
        let seed = match std::env::var("SEED") {
            Ok(text) => text.parse().expect("SEED is a whole number"),
            Err(_) => SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_nanos() as u64,
        };
        println!("  {what}: SEED={seed}");
        Self(seed)
    }

    /// A whole number from `low` up to but not including `high`.
    pub fn between(&mut self, low: u64, high: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        low + (z ^ (z >> 31)) % (high - low)
    }
}

/// Runs one test in one engine, alone (two browsers at once make times and kills unreliable), and prints how long it took.
pub fn run<F>(engine: Engine, name: &str, test: impl FnOnce(Engine) -> F)
where
    F: Future<Output = ()>,
{
    static ALONE: std::sync::Mutex<()> = std::sync::Mutex::new(());
    let _alone = ALONE.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
    if !engine.asked_for() {
        println!("  {engine}: {name}: left out, ENGINES does not name it");
        return;
    }
    let start = Instant::now();
    tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .unwrap()
        .block_on(test(engine));
    println!("  {engine}: {name}: {:.1} s", start.elapsed().as_secs_f32());
}

/// Makes one `#[test]` per engine from `async fn name(engine: Engine)`.
macro_rules! in_every_engine {
    ($($name:ident),+ $(,)?) => {
        in_every_engine!(@ chromium Chromium $($name)+);
        in_every_engine!(@ firefox Firefox $($name)+);
        in_every_engine!(@ webkit WebKit $($name)+);
    };
    (@ $module:ident $engine:ident $($name:ident)+) => {
        mod $module {
            $(#[test]
            fn $name() {
                crate::harness::run(crate::harness::Engine::$engine, stringify!($name), super::$name);
            })+
        }
    };
}
pub(crate) use in_every_engine;
