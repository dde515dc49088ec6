//! What is inside a backup once its directory is read: the format, what each file is, its digest, its lines.
//!
//! Must not: take a file that is not in the list of digests, or a list that names a file too many.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::read::Item;
use super::write::README_START;
use super::{BadFile, FORMAT, LINE_MOST_BYTES, NAME_MOST_BYTES, Role};
use crate::job::entry::Unread;
use crate::share::merge::Line;

/// A file with all that is known of it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct File {
    /// Where it stands.
    pub item: Item,
    /// What it is.
    pub role: Role,
    /// The digest its bytes must have.
    pub sha256: [u8; 32],
}

/// `README.txt` or the list of digests among the items.
///
/// # Errors
/// [`BadFile::NotOurs`], [`BadFile::NoManifest`].
pub fn the(role: Role, items: &[Item]) -> Result<&Item, BadFile> {
    let missing = if role == Role::Manifest { BadFile::NoManifest } else { BadFile::NotOurs };
    let name = role.name();
    items.iter().find(|i| i.name == name).ok_or(missing)
}

/// The format that `README.txt` names.
///
/// # Errors
/// [`BadFile::NotOurs`], [`BadFile::Later`].
pub fn format(readme: &[u8]) -> Result<u32, BadFile> {
    let line = readme.split(|b| *b == b'\n').next().unwrap_or_default();
    let number = std::str::from_utf8(line).ok().and_then(|l| l.strip_prefix(README_START));
    match number.and_then(|n| n.trim_end().parse().ok()) {
        None | Some(0) => Err(BadFile::NotOurs),
        Some(later) if later > FORMAT => Err(BadFile::Later(later)),
        Some(format) => Ok(format),
    }
}

/// What each file is and what its bytes must be. Give it the bytes of `README.txt` and of the list of digests. The
/// list of digests itself is not among them; `README.txt` comes first, logs before their pictures.
///
/// # Errors
/// As [`format()`]; then [`BadFile::BadManifest`], [`Unlisted`](BadFile::Unlisted), [`Absent`](BadFile::Absent),
/// [`Stranger`](BadFile::Stranger), [`TooLarge`](BadFile::TooLarge).
pub fn files(items: Vec<Item>, readme: &[u8], manifest: &[u8]) -> Result<Vec<File>, BadFile> {
    format(readme)?;
    let mut digests = digests(manifest)?;
    let mut files = Vec::with_capacity(items.len());
    for item in items {
        let role = Role::of(&item.name);
        if role == Some(Role::Manifest) {
            continue;
        }
        let Some(sha256) = digests.remove(item.name.as_str()) else { return Err(BadFile::Unlisted(item.name)) };
        let Some(role) = role else { return Err(BadFile::Stranger(item.name)) };
        if item.len > role.most_bytes() {
            return Err(BadFile::TooLarge { name: item.name, most_bytes: role.most_bytes() });
        }
        files.push(File { item, role, sha256 });
    }
    match digests.pop_first() {
        Some((name, _)) => Err(BadFile::Absent(name.chars().take(NAME_MOST_BYTES).collect())),
        None => {
            files.sort_by_key(|f| f.role);
            Ok(files)
        }
    }
}

/// The list of digests as `sha256sum` writes it: 64 hexadecimal digits, two spaces, the name.
fn digests(manifest: &[u8]) -> Result<BTreeMap<&str, [u8; 32]>, BadFile> {
    let text = std::str::from_utf8(manifest).map_err(|_| BadFile::NotText(Role::Manifest.name()))?;
    let mut digests = BTreeMap::new();
    for (n, line) in text.lines().enumerate() {
        let bad = BadFile::BadManifest { line: n + 1 };
        let (hex, name) = line.split_once("  ").ok_or(bad.clone())?;
        let sha256 = unhex(hex).ok_or(bad)?;
        if digests.insert(name, sha256).is_some() {
            return Err(BadFile::Twice(name.chars().take(NAME_MOST_BYTES).collect()));
        }
    }
    Ok(digests)
}

/// Small letters only, as `sha256sum` writes them.
pub(crate) fn unhex<const N: usize>(hex: &str) -> Option<[u8; N]> {
    let digit = |b: u8| match b {
        b'0'..=b'9' => Some(b - b'0'),
        b'a'..=b'f' => Some(b - b'a' + 10),
        _ => None,
    };
    let mut out = [0; N];
    let pairs = hex.as_bytes().chunks_exact(2);
    if hex.len() != 2 * N {
        return None;
    }
    for (byte, pair) in out.iter_mut().zip(pairs) {
        *byte = digit(pair[0])? << 4 | digit(pair[1])?;
    }
    Some(out)
}

/// A job's log from a file: lines that can be kept, and lines that can't, as they came.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct LogRead {
    /// Lines with an id.
    pub lines: Vec<Line>,
    /// Lines without one, or of another job.
    pub unread: Vec<Unread>,
}

/// Reads a log after its checker was content.
///
/// # Errors
/// [`BadFile::NotText`], [`BadFile::LongLine`].
pub fn log(job: Uuid, bytes: &[u8]) -> Result<LogRead, BadFile> {
    let mut read = LogRead::default();
    for raw in text_lines(Role::Log { job }, bytes)? {
        match Line::read(raw) {
            Ok(line) if line.job == job => read.lines.push(line),
            Ok(_) => read.unread.push(Unread { raw: raw.into(), why: "a line of another job".into() }),
            Err(unread) => read.unread.push(unread),
        }
    }
    Ok(read)
}

/// The lines of a text file; empty ones are left out.
///
/// # Errors
/// [`BadFile::NotText`], [`BadFile::LongLine`].
pub fn text_lines(role: Role, bytes: &[u8]) -> Result<Vec<&str>, BadFile> {
    let text = std::str::from_utf8(bytes).map_err(|_| BadFile::NotText(role.name()))?;
    let mut lines = Vec::new();
    for (n, line) in text.split('\n').enumerate() {
        if line.len() > LINE_MOST_BYTES {
            return Err(BadFile::LongLine { name: role.name(), line: n + 1 });
        }
        if !line.is_empty() {
            lines.push(line);
        }
    }
    Ok(lines)
}
