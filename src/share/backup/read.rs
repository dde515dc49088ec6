//! Reads a backup piece by piece. The browser fetches each piece (its reads are async, these functions are not):
//!
//! 1. [`start`] on the first four bytes, [`end_of_directory`] on [`tail_range`],
//! 2. [`directory`] on the range found there,
//! 3. `README.txt` and the list of digests ([`super::inside::the`]), each through its [`Checker`](super::check::Checker),
//! 4. [`super::inside::files`]: only now it is known what each file is and what its bytes must be,
//! 5. each file: [`data_range`] on [`Item::header_range`]; its bytes through a `Checker`; a log then through
//!    [`super::inside::log`].
//!
//! A packed item ([`Item::packed`], made by another tool) is unpacked by the browser ("deflate-raw") between its range
//! and the checker; where it can't, [`Item::must_be_stored`] says so. A picture counts only after its checker's end.
//!
//! Must not: trust a length. Nothing is set aside for a length that a file only claims.

use std::collections::BTreeSet;
use std::ops::Range;

use super::{BadFile, DIRECTORY_MOST_BYTES, ITEMS_MOST, NAME_MOST_BYTES, zip};

/// The ZIP's list of its files: where it stands and how many it names.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Directory {
    /// Its place.
    pub range: Range<u64>,
    /// So many files and folders.
    pub count: u64,
}

/// One file as the directory names it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Item {
    /// Its name.
    pub name: String,
    /// Its length, unpacked.
    pub len: u64,
    /// Its length as it stands in the ZIP.
    pub packed_len: u64,
    /// Packed with deflate.
    pub packed: bool,
    /// CRC-32 of its unpacked bytes.
    pub crc: u32,
    /// From its header to the next item's: nothing of it may reach beyond.
    room: Range<u64>,
}

impl Item {
    /// Its own header, for [`data_range`].
    pub fn header_range(&self) -> Range<u64> {
        self.room.start..self.room.start + (zip::LOCAL_BYTES + self.name.len()) as u64
    }

    /// For a browser that can't unpack.
    ///
    /// # Errors
    /// [`BadFile::Packed`].
    pub fn must_be_stored(&self) -> Result<(), BadFile> {
        if self.packed { Err(BadFile::Packed(self.name.clone())) } else { Ok(()) }
    }
}

/// Does it begin as a ZIP? Four bytes are enough.
///
/// # Errors
/// [`BadFile::NotZip`].
pub fn start(head: &[u8]) -> Result<(), BadFile> {
    match head.get(..4).and_then(|b| u32_at(b, 0)) {
        Some(zip::LOCAL | zip::END) => Ok(()),
        _ => Err(BadFile::NotZip),
    }
}

/// The last bytes of a file, where a ZIP's end can stand: a comment of 64 kB and the end's own records.
pub fn tail_range(file_len: u64) -> Range<u64> {
    const MOST: u64 = (u16::MAX as usize + zip::END_BYTES + zip::LOCATOR64_BYTES + zip::END64_BYTES) as u64;
    file_len.saturating_sub(MOST)..file_len
}

/// Finds the directory from the file's last bytes.
///
/// # Errors
/// [`BadFile::Truncated`] when no end is there, [`BadFile::Damaged`] when it does not fit the file,
/// [`BadFile::TooMany`].
pub fn end_of_directory(tail: &[u8], file_len: u64) -> Result<Directory, BadFile> {
    let damaged = BadFile::Damaged;
    // The end's comment, mostly empty, reaches to the end of the file.
    let is_end = |at: &usize| {
        u32_at(tail, *at) == Some(zip::END)
            && u16_at(tail, at + 20).is_some_and(|comment| at + zip::END_BYTES + usize::from(comment) == tail.len())
    };
    let last = tail.len().checked_sub(zip::END_BYTES).ok_or(BadFile::Truncated)?;
    let at = (0..=last).rev().find(is_end).ok_or(BadFile::Truncated)?;
    let tail_start = file_len.checked_sub(tail.len() as u64).ok_or(damaged("its length"))?;

    let short = |field: usize| u16_at(tail, at + field).unwrap_or_default();
    let long = |field: usize| u32_at(tail, at + field).unwrap_or_default();
    let one_disk = [short(4), short(6)].iter().all(|n| [0, zip::FULL16].contains(n));
    let (mut count, mut len, mut start) = (u64::from(short(10)), u64::from(long(12)), u64::from(long(16)));
    let (mut same_count, mut end) = (u64::from(short(8)) == count, at);
    if let Some(locator) = at.checked_sub(zip::LOCATOR64_BYTES).filter(|l| u32_at(tail, *l) == Some(zip::LOCATOR64)) {
        // The longer record stands right before its locator. A short field that is not full must say the same.
        let no_record = damaged("its 64-bit end");
        end = locator.checked_sub(zip::END64_BYTES).ok_or(no_record.clone())?;
        let at64 = |field: usize| u64_at(tail, end + field).unwrap_or_default();
        let (count64, len64, start64) = (at64(32), at64(40), at64(48));
        let agrees = (count == count64 || short(10) == zip::FULL16)
            && (len == len64 || long(12) == zip::FULL32)
            && (start == start64 || long(16) == zip::FULL32);
        let found =
            u32_at(tail, end) == Some(zip::END64) && u64_at(tail, locator + 8) == Some(tail_start + end as u64);
        if !found || !agrees {
            return Err(no_record);
        }
        same_count = at64(24) == count64;
        (count, len, start) = (count64, len64, start64);
    }
    if !one_disk || !same_count {
        return Err(damaged("it is cut into several files"));
    }
    if count > ITEMS_MOST || len > DIRECTORY_MOST_BYTES {
        return Err(BadFile::TooMany);
    }
    if start.checked_add(len) != Some(tail_start + end as u64) {
        return Err(damaged("its list of files is not where it should be"));
    }
    Ok(Directory { range: start..start + len, count })
}

/// Reads the directory.
///
/// # Errors
/// [`BadFile::Damaged`], [`Name`](BadFile::Name), [`Twice`](BadFile::Twice), [`Locked`](BadFile::Locked),
/// [`Packed`](BadFile::Packed), [`Lies`](BadFile::Lies), [`Overlap`](BadFile::Overlap).
pub fn directory(bytes: &[u8], found: &Directory) -> Result<Vec<Item>, BadFile> {
    let (mut items, mut names, mut at) = (Vec::new(), BTreeSet::new(), 0);
    for _ in 0..found.count {
        let (item, next) = one_item(bytes, at, found.range.start)?;
        // Some systems do not tell large letters from small ones.
        if !names.insert(item.name.to_ascii_lowercase()) {
            return Err(BadFile::Twice(item.name));
        }
        items.push(item);
        at = next;
    }
    if at != bytes.len() {
        return Err(BadFile::Damaged("its list of files"));
    }
    items.sort_by_key(|i| i.room.start);
    for n in 1..items.len() {
        let next = items[n].room.start;
        if items[n - 1].room.end > next {
            return Err(BadFile::Overlap(items[n].name.clone()));
        }
        items[n - 1].room.end = next;
    }
    if let Some(last) = items.last_mut() {
        last.room.end = found.range.start;
    }
    // Other tools write the folders too.
    items.retain(|i| !i.name.ends_with('/'));
    Ok(items)
}

/// The item whose line begins at `at`, and where the next one begins. Its room reaches as far as it claims.
fn one_item(bytes: &[u8], at: usize, files_end: u64) -> Result<(Item, usize), BadFile> {
    const BROKEN: BadFile = BadFile::Damaged("its list of files");
    let line = bytes.get(at..).unwrap_or_default();
    if u32_at(line, 0) != Some(zip::CENTRAL) || line.len() < zip::CENTRAL_BYTES {
        return Err(BROKEN);
    }
    let short = |field: usize| u16_at(line, field).unwrap_or_default();
    let long = |field: usize| u32_at(line, field).unwrap_or_default();
    let name_end = zip::CENTRAL_BYTES + usize::from(short(28));
    let extra_end = name_end + usize::from(short(30));
    let line_end = extra_end + usize::from(short(32));
    let raw_name = line.get(zip::CENTRAL_BYTES..name_end).ok_or(BROKEN)?;
    let extra = line.get(name_end..extra_end).ok_or(BROKEN)?;
    line.get(..line_end).ok_or(BROKEN)?;

    let name = sound_name(raw_name)?;
    let [len, packed_len, place] = wide([long(24), long(20), long(42)], extra).ok_or(BROKEN)?;
    if short(8) & zip::LOCKED != 0 {
        return Err(BadFile::Locked(name));
    }
    let packed = match short(10) {
        zip::STORED => false,
        zip::DEFLATED => true,
        _ => return Err(BadFile::Packed(name)),
    };
    // Deflate makes at most 1032 of one byte (zlib's "Technical Details"); a few bytes more for an empty block.
    let possible = if packed { len <= packed_len.saturating_mul(1032).saturating_add(64) } else { len == packed_len };
    let folder = name.ends_with('/');
    let head = (zip::LOCAL_BYTES + name.len()) as u64;
    let room_end = place.checked_add(head).and_then(|n| n.checked_add(packed_len)).filter(|end| *end <= files_end);
    match room_end {
        Some(end) if possible && !(folder && len > 0) => {
            Ok((Item { name, len, packed_len, packed, crc: long(16), room: place..end }, at + line_end))
        }
        _ => Err(BadFile::Lies(name)),
    }
}

/// Lengths and place: where the short field is full, from the 64-bit field, in this order (4.5.3).
fn wide(fields: [u32; 3], mut extra: &[u8]) -> Option<[u64; 3]> {
    let mut out = fields.map(u64::from);
    if !fields.contains(&zip::FULL32) {
        return Some(out);
    }
    loop {
        let (id, len) = (u16_at(extra, 0)?, usize::from(u16_at(extra, 2)?));
        let field = extra.get(4..4 + len)?;
        if id == zip::EXTRA64 {
            let mut at = 0;
            for (n, short) in fields.into_iter().enumerate() {
                if short == zip::FULL32 {
                    out[n] = u64_at(field, at)?;
                    at += 8;
                }
            }
            return Some(out);
        }
        extra = extra.get(4 + len..)?;
    }
}

/// A name that stays in its folder on every system. A folder's name ends in "/".
fn sound_name(raw: &[u8]) -> Result<String, BadFile> {
    let name = String::from_utf8_lossy(raw);
    let bad_sign = |c: char| c.is_control() || matches!(c, '\\' | ':' | char::REPLACEMENT_CHARACTER);
    let path = name.strip_suffix('/').unwrap_or(&name);
    let bad_step = path.split('/').any(|step| matches!(step, "" | "." | ".."));
    if raw.len() > NAME_MOST_BYTES || bad_step || name.chars().any(bad_sign) {
        return Err(BadFile::Name(name.chars().take(NAME_MOST_BYTES).collect()));
    }
    Ok(name.into_owned())
}

/// Where an item's bytes stand, from its own header ([`Item::header_range`]).
///
/// # Errors
/// [`BadFile::Damaged`] when the header is another item's, [`Locked`](BadFile::Locked),
/// [`Overlap`](BadFile::Overlap) when the bytes reach into the next item.
pub fn data_range(header: &[u8], item: &Item) -> Result<Range<u64>, BadFile> {
    const BROKEN: BadFile = BadFile::Damaged("a file's own header does not match the list of files");
    let short = |field: usize| u16_at(header, field).unwrap_or_default();
    let long = |field: usize| u32_at(header, field).unwrap_or_default();
    let name = header.get(zip::LOCAL_BYTES..).ok_or(BROKEN)?;
    let method = if item.packed { zip::DEFLATED } else { zip::STORED };
    let flags = short(6);
    if flags & zip::LOCKED != 0 {
        return Err(BadFile::Locked(item.name.clone()));
    }
    // Lengths may stand behind the data or in the 64-bit field; where they stand here they must be the same.
    let same = |field: usize, value: u64| u64::from(long(field)) == value || long(field) == zip::FULL32;
    let told = flags & zip::LATER != 0 || (long(14) == item.crc && same(18, item.packed_len) && same(22, item.len));
    if u32_at(header, 0) != Some(zip::LOCAL)
        || usize::from(short(26)) != item.name.len()
        || name != item.name.as_bytes()
        || short(8) != method
        || !told
    {
        return Err(BROKEN);
    }
    let start = item.header_range().end + u64::from(short(28));
    match start.checked_add(item.packed_len) {
        Some(end) if end <= item.room.end => Ok(start..end),
        _ => Err(BadFile::Overlap(item.name.clone())),
    }
}

fn u16_at(b: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_le_bytes(b.get(at..at.checked_add(2)?)?.try_into().ok()?))
}

fn u32_at(b: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_le_bytes(b.get(at..at.checked_add(4)?)?.try_into().ok()?))
}

fn u64_at(b: &[u8], at: usize) -> Option<u64> {
    Some(u64::from_le_bytes(b.get(at..at.checked_add(8)?)?.try_into().ok()?))
}
