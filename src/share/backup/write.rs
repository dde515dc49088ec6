//! Writes a backup in pieces: what goes before each file, and what goes at the end. The files' own bytes stay where
//! they are; the browser strings both together (`new Blob([piece, photo, piece, …])`) without holding them.
//!
//! The files are stored, not packed: pictures do not get smaller, and a stored ZIP needs no packer on the phone.
//! ZIP after PKWARE APPNOTE.TXT 6.3.10; its 64-bit fields (4.3.14, 4.3.15, 4.5.3) from 65,535 files or 4 GiB on.

use std::collections::BTreeSet;

use chrono::{DateTime, Datelike, Timelike, Utc};
use uuid::Uuid;

use super::check::Seal;
use super::{BadFile, FORMAT, ITEMS_MOST, Role, zip};
use crate::job::moment;

/// A backup on its way out.
///
/// ```
/// use coatwalk::share::backup::{Media, Role, check::Seal, write::Writer};
/// let made = coatwalk::job::moment::read("2026-10-05T12:00:00Z").unwrap();
/// let job = uuid::Uuid::from_u128(1);
/// let photo = [0xff, 0xd8, 0xff, 0xe0];
/// let (mut w, start) = Writer::new(made, &[(job, "Grey trailer")]).unwrap();
/// let log = w.text(Role::Log { job }, "{}\n").unwrap();
/// let before = w.before(Role::Media { job, id: job, media: Media::Jpeg }, &Seal::of(&photo)).unwrap();
/// let end = w.end().unwrap();
/// let file = [start, log, before, photo.to_vec(), end].concat();
/// assert!(file.starts_with(b"PK\x03\x04"));
/// ```
#[derive(Clone, Debug)]
pub struct Writer {
    time: u16,
    date: u16,
    /// Bytes so far, those of the files included.
    at: u64,
    count: u64,
    directory: Vec<u8>,
    manifest: String,
    names: BTreeSet<String>,
}

impl Writer {
    /// Begins with `README.txt`; the first bytes of the file come back. `jobs` are named in it.
    ///
    /// # Errors
    /// [`BadFile::TooLarge`] with thousands of jobs.
    pub fn new(made: DateTime<Utc>, jobs: &[(Uuid, &str)]) -> Result<(Writer, Vec<u8>), BadFile> {
        let (date, time) = dos(made);
        let (directory, manifest, names) = Default::default();
        let mut writer = Writer { time, date, at: 0, count: 0, directory, manifest, names };
        let start = writer.text(Role::Readme, &readme(made, jobs))?;
        Ok((writer, start))
    }

    /// The bytes that go before a file of which only the seal is known; its own bytes go right behind them.
    ///
    /// # Errors
    /// What the reader would refuse: [`BadFile::TooLarge`], [`BadFile::Twice`], [`BadFile::TooMany`].
    pub fn before(&mut self, role: Role, seal: &Seal) -> Result<Vec<u8>, BadFile> {
        let name = role.name();
        if seal.len > role.most_bytes() {
            return Err(BadFile::TooLarge { name, most_bytes: role.most_bytes() });
        }
        // The list of digests takes the last place.
        if self.count + u64::from(role != Role::Manifest) >= ITEMS_MOST {
            return Err(BadFile::TooMany);
        }
        if !self.names.insert(name.clone()) {
            return Err(BadFile::Twice(name));
        }
        if role != Role::Manifest {
            let hex: String = seal.sha256.iter().map(|b| format!("{b:02x}")).collect();
            self.manifest += &format!("{hex}  {name}\n");
        }
        let header = self.header(&name, seal);
        self.at += header.len() as u64 + seal.len;
        self.count += 1;
        Ok(header)
    }

    /// A file that stands in memory: what goes before it, and its bytes.
    ///
    /// # Errors
    /// As [`Writer::before`].
    pub fn text(&mut self, role: Role, text: &str) -> Result<Vec<u8>, BadFile> {
        let mut bytes = self.before(role, &Seal::of(text.as_bytes()))?;
        bytes.extend_from_slice(text.as_bytes());
        Ok(bytes)
    }

    /// The list of digests and the ZIP's directory: the last bytes.
    ///
    /// # Errors
    /// As [`Writer::before`].
    pub fn end(mut self) -> Result<Vec<u8>, BadFile> {
        let manifest = std::mem::take(&mut self.manifest);
        let mut out = self.text(Role::Manifest, &manifest)?;
        let (start, len, count) = (self.at, self.directory.len() as u64, self.count);
        out.append(&mut self.directory);
        let short = |n: u64| u16::try_from(n).unwrap_or(zip::FULL16);
        let long = |n: u64| u32::try_from(n).unwrap_or(zip::FULL32);
        if count >= u64::from(zip::FULL16) || start >= u64::from(zip::FULL32) {
            // Version 4.5 made it and is needed; one disk.
            out.put32(zip::END64).put64(zip::END64_BYTES as u64 - 12).put16(45).put16(45).put32(0).put32(0);
            out.put64(count).put64(count).put64(len).put64(start);
            out.put32(zip::LOCATOR64).put32(0).put64(start + len).put32(1);
        }
        out.put32(zip::END).put16(0).put16(0).put16(short(count)).put16(short(count));
        out.put32(long(len)).put32(long(start)).put16(0);
        Ok(out)
    }

    /// The file's own header; its line for the directory is kept.
    fn header(&mut self, name: &str, seal: &Seal) -> Vec<u8> {
        // No file reaches 4 GiB (`Role::most_bytes`), but its place may be beyond.
        let far = self.at >= u64::from(zip::FULL32);
        let len = seal.len as u32;
        let same = |out: &mut Vec<u8>, needs: u16, time: u16, date: u16| {
            out.put16(needs).put16(zip::UTF8).put16(zip::STORED).put16(time).put16(date);
            out.put32(seal.crc).put32(len).put32(len).put16(name.len() as u16);
        };
        let mut local = Vec::with_capacity(zip::LOCAL_BYTES + name.len());
        local.put32(zip::LOCAL);
        same(&mut local, 10, self.time, self.date);
        local.put16(0).extend_from_slice(name.as_bytes());

        let needs = if far { 45 } else { 10 };
        // Made by version 4.5 on Unix, for the rights: an ordinary file, read by all.
        self.directory.put32(zip::CENTRAL).put16(3 << 8 | 45);
        same(&mut self.directory, needs, self.time, self.date);
        self.directory.put16(if far { 12 } else { 0 }).put16(0).put16(0).put16(0).put32(0o100_644 << 16);
        self.directory.put32(if far { zip::FULL32 } else { self.at as u32 }).extend_from_slice(name.as_bytes());
        if far {
            self.directory.put16(zip::EXTRA64).put16(8).put64(self.at);
        }
        local
    }
}

/// A log, or the shelf of products, as it stands in the file.
pub fn lines<S: AsRef<str>>(lines: impl IntoIterator<Item = S>) -> String {
    let mut text = String::new();
    for line in lines {
        text += line.as_ref();
        text.push('\n');
    }
    text
}

/// Numbers as ZIP writes them, lowest byte first.
trait Put {
    fn put16(&mut self, n: u16) -> &mut Self;
    fn put32(&mut self, n: u32) -> &mut Self;
    fn put64(&mut self, n: u64) -> &mut Self;
}

impl Put for Vec<u8> {
    fn put16(&mut self, n: u16) -> &mut Self {
        self.extend_from_slice(&n.to_le_bytes());
        self
    }

    fn put32(&mut self, n: u32) -> &mut Self {
        self.extend_from_slice(&n.to_le_bytes());
        self
    }

    fn put64(&mut self, n: u64) -> &mut Self {
        self.extend_from_slice(&n.to_le_bytes());
        self
    }
}

/// Date and time as ZIP writes them (4.4.6): from 1980, to two seconds. UTC, as a pure room knows no other.
fn dos(at: DateTime<Utc>) -> (u16, u16) {
    let year = at.year().clamp(1980, 2107) as u32 - 1980;
    let date = year << 9 | at.month() << 5 | at.day();
    let time = at.hour() << 11 | at.minute() << 5 | (at.second() / 2);
    (date as u16, time as u16)
}

/// What a person finds who opens the file without the app. The first line carries the format.
fn readme(made: DateTime<Utc>, jobs: &[(Uuid, &str)]) -> String {
    let mut text = format!(
        "{README_START}{FORMAT}\n\
         Made {} (UTC)\n\
         \n\
         This is a copy of what Coatwalk keeps on a phone: the record of washing and coating a\n\
         farm machine. To bring it back, open it in Coatwalk: Record, then Bring in.\n\
         \n\
         It can be read without Coatwalk:\n\
         \n\
         job-.../job.jsonl   the record of one job. Plain text, one entry a line, oldest first.\n\
         \x20                   Each line is JSON: \"at\" is the time (UTC), \"by\" who wrote it, \"kind\"\n\
         \x20                   what happened. Names of numbers end in their unit (air_c, water_ml).\n\
         job-.../photos/     pictures. A line of kind \"photo\" names its file under \"photo\".\n\
         job-.../sounds/     spoken notes, named under \"sound\".\n\
         products.jsonl      the shelf of products, one a line.\n\
         manifest.sha256     the SHA-256 digest of every file. To compare: sha256sum -c manifest.sha256\n\
         \n\
         The app refuses a changed file. To look at it, unpack a copy and leave this one as it is.\n",
        moment::write(made)
    );
    if !jobs.is_empty() {
        text += "\nJobs in this file:\n\n";
    }
    for (job, name) in jobs {
        let name: String = name.chars().map(|c| if c.is_control() { ' ' } else { c }).take(200).collect();
        text += &format!("job-{job}  {name}\n");
    }
    text
}

/// How `README.txt` begins; the format's number comes right behind it.
pub(super) const README_START: &str = "Coatwalk backup, format ";
