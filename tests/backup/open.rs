//! Opens a backup the way the browser will: piece by piece, each piece fetched by its range, nothing held whole but one
//! file. `flate2` stands in for the browser's unpacker.

use std::io::Read;
use std::ops::Range;

use coatwalk::share::backup::check::Checker;
use coatwalk::share::backup::inside::{self, File, LogRead};
use coatwalk::share::backup::read::{self, Item};
use coatwalk::share::backup::{BadFile, Role};
use uuid::Uuid;

/// A file that can be read anywhere.
pub trait Source {
    fn len(&self) -> u64;
    /// Fewer bytes than asked for at the end of the file, as `Blob.slice` gives.
    fn slice(&self, range: Range<u64>) -> Vec<u8>;
}

impl Source for Vec<u8> {
    fn len(&self) -> u64 {
        self.as_slice().len() as u64
    }

    fn slice(&self, range: Range<u64>) -> Vec<u8> {
        let len = self.as_slice().len() as u64;
        self[range.start.min(len) as usize..range.end.min(len) as usize].to_vec()
    }
}

/// What was in it.
pub struct Opened {
    pub files: Vec<(File, Vec<u8>)>,
    pub logs: Vec<(Uuid, LogRead)>,
    pub manifest: Vec<u8>,
}

/// The files' list alone.
pub fn items(source: &dyn Source) -> Result<Vec<Item>, BadFile> {
    read::start(&source.slice(0..4))?;
    let found = read::end_of_directory(&source.slice(read::tail_range(source.len())), source.len())?;
    read::directory(&source.slice(found.range.clone()), &found)
}

/// Everything. `unpacks` is false for a browser that can't.
pub fn open(source: &dyn Source, unpacks: bool) -> Result<Opened, BadFile> {
    let items = items(source)?;
    let mut early = Vec::new();
    for role in [Role::Readme, Role::Manifest] {
        let item = inside::the(role, &items)?;
        early.push(bytes(source, item, Checker::before_manifest(item, role)?, unpacks)?);
        if role == Role::Readme {
            inside::format(&early[0])?;
        }
    }
    let [readme, manifest] = <[_; 2]>::try_from(early).unwrap();
    let (mut files, mut logs) = (Vec::new(), Vec::new());
    for file in inside::files(items, &readme, &manifest)? {
        let bytes = bytes(source, &file.item, Checker::new(&file), unpacks)?;
        match file.role {
            Role::Log { job } => logs.push((job, inside::log(job, &bytes)?)),
            Role::Products => _ = inside::text_lines(file.role, &bytes)?,
            _ => {}
        }
        files.push((file, bytes));
    }
    Ok(Opened { files, logs, manifest })
}

fn bytes(source: &dyn Source, item: &Item, mut checker: Checker, unpacks: bool) -> Result<Vec<u8>, BadFile> {
    const PIECE: u64 = 64 * 1024;
    if !unpacks {
        item.must_be_stored()?;
    }
    let range = read::data_range(&source.slice(item.header_range()), item)?;
    // Its length is held to the limit of its sort by now.
    let mut out = Vec::with_capacity(item.len as usize);
    let mut take = |piece: &[u8]| {
        checker.feed(piece)?;
        out.extend_from_slice(piece);
        Ok::<_, BadFile>(())
    };
    if item.packed {
        let packed = source.slice(range);
        let mut unpacker = flate2::read::DeflateDecoder::new(packed.as_slice());
        let mut piece = [0; 4096];
        loop {
            match unpacker.read(&mut piece) {
                Ok(0) => break,
                Ok(n) => take(&piece[..n])?,
                Err(_) => return Err(BadFile::Damaged("a packed file can't be unpacked")),
            }
        }
    } else {
        let mut at = range.start;
        while at < range.end {
            take(&source.slice(at..range.end.min(at + PIECE)))?;
            at += PIECE;
        }
    }
    checker.end()?;
    Ok(out)
}
