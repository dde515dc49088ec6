//! Backups that were tampered with, by the hundred thousand: no panic, little memory, and nothing is taken whose bytes
//! are not those of its list of digests. `FUZZ=1000000 cargo test --test backup_fuzz` for more.
#![cfg(not(target_arch = "wasm32"))]

#[path = "backup/make.rs"]
#[allow(dead_code)]
mod make;
#[path = "backup/open.rs"]
mod open;

use std::alloc::{GlobalAlloc, Layout, System};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read};
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};

use coatwalk::job::log::Log;
use coatwalk::share::backup::BadFile;
use coatwalk::share::merge::{Incoming, Known, preview};
use make::{JPEG, Part, README, digest_line, in_job, part, photo_name};
use open::{Opened, open};
use sha2::{Digest, Sha256};

/// More than this no file may take, however large it says it is.
const MEMORY_MOST: usize = 64 << 20;

/// The system's allocator, with a count of what is held and of the most that was.
struct Counted;

static HELD: AtomicUsize = AtomicUsize::new(0);
static PEAK: AtomicUsize = AtomicUsize::new(0);

// SAFETY: everything is handed on to the system's allocator as it came; the counters are only numbers.
unsafe impl GlobalAlloc for Counted {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        let held = HELD.fetch_add(layout.size(), Relaxed) + layout.size();
        PEAK.fetch_max(held, Relaxed);
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, at: *mut u8, layout: Layout) {
        HELD.fetch_sub(layout.size(), Relaxed);
        unsafe { System.dealloc(at, layout) }
    }
}

#[global_allocator]
static COUNTED: Counted = Counted;

/// The most that was held at once while this ran, bytes.
fn peak<T>(run: impl FnOnce() -> T) -> (T, usize) {
    let before = HELD.load(Relaxed);
    PEAK.store(before, Relaxed);
    let out = run();
    (out, PEAK.load(Relaxed) - before)
}

/// A small generator of its own (splitmix64), so that a failing file comes again.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n.max(1) as u64) as usize
    }

    fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.below(from.len())]
    }
}

fn corpus() -> Vec<Vec<u8>> {
    let dir = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus");
    let mut files: Vec<_> = std::fs::read_dir(dir).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    let zips = files.into_iter().filter(|f| f.extension().is_some_and(|e| e == "zip"));
    zips.map(|f| std::fs::read(f).unwrap()).collect()
}

const NUMBERS: [u64; 16] =
    [0, 1, 2, 7, 8, 22, 29, 30, 46, 255, 0x7fff, 0xffff, 0x7fff_ffff, 0xffff_ffff, 10_000_000_000, u64::MAX];

/// One change to the bytes.
fn hurt(bytes: &mut Vec<u8>, others: &[Vec<u8>], dice: &mut Dice) {
    if bytes.is_empty() {
        return;
    }
    let at = dice.below(bytes.len());
    let len = 1 + dice.below(40);
    match dice.below(9) {
        0 | 1 => bytes[at] ^= 1 << dice.below(8),
        2 => bytes[at] = *dice.pick(&[0, 1, 0x7f, 0x80, 0xff, b'/', b'\\', b'\n', b'"', b'.']),
        3 => bytes.truncate(at),
        4 => _ = bytes.drain(at..(at + len).min(bytes.len())),
        5 => {
            let again = bytes[at..(at + len).min(bytes.len())].to_vec();
            let to = dice.below(bytes.len());
            bytes.splice(to..to, again);
        }
        6 => {
            let other = dice.pick(others);
            let from = dice.below(other.len());
            let to = (from + dice.below(400)).min(other.len());
            let end = (at + dice.below(400)).min(bytes.len());
            bytes.splice(at..end, other[from..to].iter().copied());
        }
        // A length, a place or a count in one of the headers, in 2, 4 or 8 bytes.
        _ => {
            let heads: Vec<usize> = (0..bytes.len()).filter(|i| bytes[*i..].starts_with(b"PK")).collect();
            if heads.is_empty() {
                return;
            }
            let field = *dice.pick(&heads) + 4 + 2 * dice.below(26);
            let old = bytes.get(field..field + 4).map_or(0, |b| u32::from_le_bytes(b.try_into().unwrap()));
            let new = match dice.below(3) {
                0 => u64::from(old).wrapping_add(1),
                1 => u64::from(old).wrapping_sub(1),
                _ => *dice.pick(&NUMBERS),
            };
            let wide = *dice.pick(&[2, 4, 4, 8]);
            for (i, b) in new.to_le_bytes().iter().take(wide).enumerate() {
                if let Some(place) = bytes.get_mut(field + i) {
                    *place = *b;
                }
            }
        }
    }
}

/// A backup put together anew from tampered pieces, with right lengths and CRC, so that what lies deeper is reached:
/// digests, names, lines. One in two has digests to match.
fn made_wrong(others: &[Vec<u8>], dice: &mut Dice) -> Vec<u8> {
    let log: String = make::sample().lines().filter(|_| dice.below(6) == 0).map(|l| l.to_owned() + "\n").collect();
    let mut files: Vec<(Vec<u8>, Vec<u8>)> = vec![
        (b"README.txt".to_vec(), README.to_vec()),
        (in_job("job.jsonl").into(), log.into_bytes()),
        (photo_name().into(), JPEG.to_vec()),
        (b"products.jsonl".to_vec(), b"{\"id\":\"019a0000-0009-7000-8000-000000000009\"}\n".to_vec()),
    ];
    let mut manifest: Vec<u8> = Vec::new();
    let (which, early) = (dice.below(6), dice.below(2) == 0);
    for (n, (name, bytes)) in files.iter_mut().enumerate() {
        let right = digest_line(&String::from_utf8_lossy(name), bytes);
        if which == n {
            for _ in 0..=dice.below(3) {
                hurt(bytes, others, dice);
            }
        }
        if which == 4 && dice.below(3) == 0 {
            hurt(name, others, dice);
            name.truncate(300);
        }
        let now = digest_line(&String::from_utf8_lossy(name), bytes);
        manifest.extend_from_slice(if early { right.as_bytes() } else { now.as_bytes() });
    }
    if which == 5 {
        hurt(&mut manifest, others, dice);
    }
    files.push((b"manifest.sha256".to_vec(), manifest));
    let parts: Vec<Part> = files
        .into_iter()
        .map(|(name, bytes)| Part { name, ..part("", &bytes) })
        .map(|p| if dice.below(40) == 0 { make::deflated(p) } else { p })
        .collect();
    make::zip(&parts)
}

/// What was taken is what the list of digests says, file by file, nothing more and nothing less; and another library
/// finds the same bytes under the same names.
fn held_to_its_manifest(bytes: &[u8], opened: &Opened) {
    let manifest = std::str::from_utf8(&opened.manifest).unwrap();
    let listed: BTreeMap<&str, &str> = manifest.lines().map(|l| (&l[66..], &l[..64])).collect();
    assert_eq!((listed.len(), manifest.lines().count()), (opened.files.len(), opened.files.len()));
    for (file, bytes) in &opened.files {
        let hex: String = Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect();
        assert_eq!(listed[file.item.name.as_str()], hex);
    }
    let Ok(mut theirs) = zip::ZipArchive::new(Cursor::new(bytes)) else { return };
    for (file, bytes) in &opened.files {
        let mut out = Vec::new();
        if let Ok(mut entry) = theirs.by_name(&file.item.name)
            && entry.read_to_end(&mut out).is_ok()
        {
            assert_eq!(&out, bytes, "{}", file.item.name);
        }
    }
}

/// Says which file it was.
struct Say(u64);

impl Drop for Say {
    fn drop(&mut self) {
        if std::thread::panicking() {
            eprintln!("it was number {}", self.0);
        }
    }
}

/// Everything that is done with a file before a person says yes. True when it was taken.
fn try_one(bytes: &Vec<u8>) -> Result<(), BadFile> {
    let opened = match open(bytes, true) {
        Ok(opened) => opened,
        Err(bad) => {
            let words = bad.words();
            assert!(words.ends_with("Nothing was taken in.") && !words.contains(char::is_control), "{words:?}");
            return Err(bad);
        }
    };
    held_to_its_manifest(bytes, &opened);
    for (_, log) in opened.logs {
        let theirs = Incoming { lines: log.lines, unread: log.unread, media: BTreeSet::new() };
        let told = preview(&[], &BTreeSet::new(), &theirs);
        let known = Known::of(&told.new, &BTreeSet::new());
        assert_eq!(Known::read(&known.text()), Ok(known));
        Log::from_lines(told.new.iter().map(|l| &l.raw));
    }
    Ok(())
}

/// Files that say they are large, or unpack to far more than they are.
fn bombs() {
    let zeros = make::deflated(part("products.jsonl", &vec![b'\n'; 40_000_000]));
    let lies = Part { len: 100, ..zeros.clone() };
    let in_the_list = Part { name: b"manifest.sha256".to_vec(), ..zeros.clone() };
    let honest_but_large = Part { name: b"README.txt".to_vec(), ..zeros };
    let claims = Part { len: 0xffff_fff0, packed_len: 0xffff_fff0, ..part("README.txt", README) };
    let with = |p: Part| {
        let mut parts = make::good();
        let place = parts.iter().position(|q| q.name == p.name).unwrap();
        parts[place] = p;
        make::zip(&parts)
    };
    for bomb in [lies, in_the_list, honest_but_large, claims].map(with) {
        let (refused, most) = peak(|| open(&bomb, true).err());
        assert!(refused.is_some());
        assert!(most < MEMORY_MOST, "{most} bytes for {refused:?}");
    }
}

#[test]
fn tampered_backups_do_no_harm() {
    bombs();
    let corpus = corpus();
    assert!(corpus.len() >= 6 && corpus.iter().map(Vec::len).sum::<usize>() < 100_000);
    for (n, file) in corpus.iter().enumerate() {
        try_one(file).unwrap_or_else(|bad| panic!("number {n} of the corpus: {bad:?}"));
    }
    let count = std::env::var("FUZZ").ok().and_then(|n| n.parse().ok()).unwrap_or(100_000);
    let (mut most, mut taken) = (0, 0);
    let mut refused = BTreeMap::<String, u64>::new();
    for n in 0..count {
        let _say = Say(n);
        let mut dice = Dice(n.wrapping_mul(0xd6e8_feb8_6659_fd93));
        let anew = dice.below(3) == 0;
        let mut bytes = if anew { made_wrong(&corpus, &mut dice) } else { dice.pick(&corpus).clone() };
        // What was put together wrong has its fault already.
        for _ in 0..if anew { dice.below(8) / 7 } else { 1 + dice.below(3) } {
            hurt(&mut bytes, &corpus, &mut dice);
        }
        let (result, memory) = peak(|| try_one(&bytes));
        assert!(memory < MEMORY_MOST, "{memory} bytes");
        most = most.max(memory);
        match result {
            Ok(()) => taken += 1,
            Err(bad) => {
                let name = format!("{bad:?}").split(|c: char| !c.is_alphanumeric()).next().unwrap().to_owned();
                *refused.entry(name).or_default() += 1;
            }
        }
    }
    println!("{count} files, {taken} taken, at most {most} bytes of memory; refused: {refused:#?}");
    // The loop is worth its time only when it reaches deep: nearly every reason, and files that are still right.
    assert!(taken > count / 100 && refused.len() >= 18, "{taken} taken; {refused:?}");
}
