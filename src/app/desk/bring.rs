//! Takes a backup in: every byte is checked first, then it is told what would happen, and only then it is written.
//!
//! May use: the store, the reader of `share::backup`, `share::merge`. Must not: write before [`Found`] was shown,
//! overwrite, or keep bytes that were not checked.

use std::collections::{BTreeMap, BTreeSet};

use js_sys::{ArrayBuffer, Uint8Array};
use uuid::Uuid;
use web_sys::Blob;

use crate::device::bytes::{self, Unpack};
use crate::job::head::Head;
use crate::job::log::Log;
use crate::share::backup::check::Checker;
use crate::share::backup::inside::{self, File};
use crate::share::backup::read::{self, Item};
use crate::share::backup::{BadFile, Role};
use crate::share::merge::{self, Conflict, Incoming, Line, Preview, Products};
use crate::store::many::Batch;
use crate::store::{Picture, Store};

/// A transaction takes in so many lines or bytes of pictures at most: what is lost when the phone dies in between.
const LINES_AT_ONCE: usize = 400;
const BYTES_AT_ONCE: u32 = 8_000_000;

/// How far it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Step {
    /// File so many of so many is checked.
    Checking(usize, usize),
    /// So many entries of so many are written.
    Writing(usize, usize),
}

/// A backup that was checked, and what would come of it.
pub struct Found {
    file: Blob,
    media: BTreeMap<Uuid, File>,
    /// Lines of each job that the file has.
    theirs: BTreeMap<Uuid, BTreeSet<Uuid>>,
    ours: BTreeMap<Uuid, BTreeSet<Uuid>>,
    pub preview: Preview,
    pub products: Products,
}

impl Found {
    /// Bringing it in would change nothing.
    pub fn is_empty(&self) -> bool {
        self.preview.is_empty() && self.products.new.is_empty()
    }
}

/// What came of it.
#[derive(Default)]
pub struct Outcome {
    pub entries: usize,
    pub photos: usize,
    pub products: usize,
    /// What two people did at once, with the job it happened in.
    pub conflicts: Vec<(Conflict, Log)>,
    /// Jobs that the list now has.
    pub jobs: Vec<Head>,
}

/// Checks the whole file, and compares it with what is here. Writes nothing.
///
/// # Errors
/// Words for the screen: why the file is refused, or why the store could not be read.
pub async fn check(store: &Store, file: Blob, progress: impl Fn(Step)) -> Result<Found, String> {
    let items = items(&file).await?;
    let mut early = Vec::new();
    for role in [Role::Readme, Role::Manifest] {
        let item = inside::the(role, &items).map_err(|e| e.words())?;
        let checker = Checker::before_manifest(item, role).map_err(|e| e.words())?;
        early.push(bytes::whole(&checked(&file, item, checker).await?));
        if role == Role::Readme {
            inside::format(&early[0]).map_err(|e| e.words())?;
        }
    }
    let files = inside::files(items, &early[0], &early[1]).map_err(|e| e.words())?;
    let (mut incoming, mut media, mut shelf) = (Incoming::default(), BTreeMap::new(), Vec::new());
    let count = files.len();
    for (n, found) in files.into_iter().enumerate() {
        progress(Step::Checking(n + 1, count));
        let kept = checked(&file, &found.item, Checker::new(&found)).await?;
        match found.role {
            Role::Log { job } => {
                let log = inside::log(job, &bytes::whole(&kept)).map_err(|e| e.words())?;
                incoming.lines.extend(log.lines);
                incoming.unread.extend(log.unread);
            }
            Role::Products => {
                let text = bytes::whole(&kept);
                let lines = inside::text_lines(found.role, &text).map_err(|e| e.words())?;
                shelf.extend(lines.into_iter().map(str::to_owned));
            }
            Role::Media { id, .. } => {
                media.insert(id, found);
            }
            Role::Readme | Role::Manifest => {}
        }
    }
    incoming.media = media.keys().copied().collect();
    let mut theirs: BTreeMap<Uuid, BTreeSet<Uuid>> = BTreeMap::new();
    for line in &incoming.lines {
        theirs.entry(line.job).or_default().insert(line.id);
    }
    let (mut here, mut ours) = (Vec::new(), BTreeMap::new());
    for job in theirs.keys() {
        let lines = store.lines(*job).await.map_err(|e| e.words())?;
        let lines: Vec<Line> = lines.iter().filter_map(|l| Line::read(l).ok()).collect();
        ours.insert(*job, lines.iter().map(|l| l.id).collect());
        here.extend(lines);
    }
    let our_media = store.pictures().await.map_err(|e| e.words())?;
    let our_shelf = store.shelf().await.map_err(|e| e.words())?;
    Ok(Found {
        preview: merge::preview(&here, &our_media, &incoming),
        products: merge::products(&our_shelf, &shelf),
        file,
        media,
        theirs,
        ours,
    })
}

/// Writes what is new. What is here already stays; done twice, it changes nothing.
///
/// # Errors
/// Words for the screen. What was written before stays, and the same file brings in the rest.
pub async fn bring(store: &Store, found: &Found, progress: impl Fn(Step)) -> Result<Outcome, String> {
    let (mut outcome, mut batch, mut held) = (Outcome::default(), Batch::default(), 0);
    let preview = &found.preview;
    let mut wanted: BTreeSet<Uuid> = preview.media_new.iter().copied().collect();
    // Pictures that belong to entries which are here already.
    let new: BTreeSet<Uuid> = preview.new.iter().filter_map(|l| l.media).collect();
    let late: Vec<Uuid> = wanted.difference(&new).copied().collect();
    let total = preview.new.len() + late.len();
    let heads = heads(store, preview).await?;
    let rows = late.into_iter().map(|media| (None, Some(media)));
    let rows = preview.new.iter().map(|l| (Some(l), l.media)).chain(rows);
    for (n, (line, media)) in rows.enumerate() {
        progress(Step::Writing(n, total));
        // A picture comes in with the entry that names it: one is never here without the other.
        if let Some(id) = media.filter(|m| wanted.remove(m)) {
            let (job, picture) = picture(found, id).await?;
            held += picture.bytes.byte_length();
            batch.pictures.push((job, picture));
        }
        if let Some(line) = line {
            batch.lines.push((line.job, line.id, line.raw.clone()));
            if !batch.heads.iter().any(|h| h.job == line.job) {
                batch.heads.extend(heads.get(&line.job).cloned());
            }
        }
        if held >= BYTES_AT_ONCE || batch.lines.len() >= LINES_AT_ONCE {
            take_in(store, std::mem::take(&mut batch), &mut outcome).await?;
            held = 0;
        }
    }
    batch.products = found.products.new.iter().filter_map(|l| Some((merge::product_id(l)?, l.clone()))).collect();
    outcome.products = batch.products.len();
    take_in(store, batch, &mut outcome).await?;
    progress(Step::Writing(total, total));
    for (job, theirs) in &found.theirs {
        let log = Log::from_lines(store.lines(*job).await.map_err(|e| e.words())?);
        outcome.jobs.extend(Head::of(log.job()));
        let ours = &found.ours[job];
        // A job that was not here can't have been worked on here.
        if !ours.is_empty() {
            let settled = merge::conflicts(&log, ours, theirs);
            outcome.conflicts.extend(settled.into_iter().map(|c| (c, log.clone())));
        }
    }
    Ok(outcome)
}

async fn take_in(store: &Store, batch: Batch, outcome: &mut Outcome) -> Result<(), String> {
    let (entries, photos) = store.take_in(batch).await.map_err(|e| {
        format!(
            "{} {} entries and {} photos came in before; they stay. Bring the same file in again for the rest.",
            e.words(),
            outcome.entries,
            outcome.photos
        )
    })?;
    outcome.entries += entries;
    outcome.photos += photos;
    Ok(())
}

/// The lines for the list of jobs, as they will be when all is in.
async fn heads(store: &Store, preview: &Preview) -> Result<BTreeMap<Uuid, Head>, String> {
    let mut heads = BTreeMap::new();
    for job in preview.jobs.iter().filter(|j| j.new > 0) {
        let mut log = Log::from_lines(store.lines(job.job).await.map_err(|e| e.words())?);
        let new = preview.new.iter().filter(|l| l.job == job.job).map(|l| &l.raw);
        log.take_in(Log::from_lines(new));
        heads.extend(Head::of(log.job()).map(|h| (job.job, h)));
    }
    Ok(heads)
}

/// A picture out of the file, checked once more: the file may be another one by now.
async fn picture(found: &Found, id: Uuid) -> Result<(Uuid, Picture), String> {
    let file = found.media.get(&id).ok_or("A photo is not in the file any more.")?;
    let bytes = checked(&found.file, &file.item, Checker::new(file)).await?;
    match file.role {
        Role::Media { job, media, .. } => Ok((job, Picture { id, mime: media.mime().into(), bytes })),
        _ => Err("This is no photo.".into()),
    }
}

async fn items(file: &Blob) -> Result<Vec<Item>, String> {
    let len = file.size() as u64;
    let at = async |range| bytes::slice(file, range).await.map(|b| bytes::whole(&b));
    read::start(&at(0..4).await?).map_err(|e| e.words())?;
    let found = read::end_of_directory(&at(read::tail_range(len)).await?, len).map_err(|e| e.words())?;
    read::directory(&at(found.range.clone()).await?, &found).map_err(|e| e.words())
}

/// A file's bytes, once they are what the backup says.
async fn checked(file: &Blob, item: &Item, mut checker: Checker) -> Result<ArrayBuffer, String> {
    if !bytes::unpacks() {
        item.must_be_stored().map_err(|e| e.words())?;
    }
    let header = bytes::whole(&bytes::slice(file, item.header_range()).await?);
    let range = read::data_range(&header, item).map_err(|e| e.words())?;
    let out = match item.packed {
        false => {
            let out = bytes::slice(file, range).await?;
            bytes::pieces(&out, |piece| checker.feed(piece)).map_err(|e| e.words())?;
            out
        }
        true => {
            let packed = file.slice_with_f64_and_f64(range.start as f64, range.end as f64);
            let packed = packed.map_err(|_| "The phone can't read this file any more. Choose it again.")?;
            // Its length is held to the limit of its sort by now, and no byte beyond it is taken.
            let mut all = Vec::with_capacity(item.len as usize);
            let done = bytes::unpack(&packed, |piece| {
                checker.feed(piece)?;
                all.extend_from_slice(piece);
                Ok(())
            });
            done.await.map_err(|e| match e {
                Unpack::Broken => BadFile::Damaged("a packed file can't be unpacked").words(),
                Unpack::Refused(e) => BadFile::words(&e),
            })?;
            Uint8Array::from(all.as_slice()).buffer()
        }
    };
    checker.end().map_err(|e| e.words())?;
    Ok(out)
}
