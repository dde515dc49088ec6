//! Makes a backup: what goes in, and the file, piece by piece.
//!
//! May use: the store, the writer of `share::backup`, Blobs. Must not: hold more than one picture at a time, or show anything.

use std::collections::BTreeSet;

use chrono::{DateTime, Utc};
use uuid::Uuid;
use web_sys::Blob;

use crate::device::bytes;
use crate::job::log::Log;
use crate::share::backup::check::{Seal, Sealer};
use crate::share::backup::write::{Writer, lines};
use crate::share::backup::{BadFile, Media, Role};
use crate::share::merge::{Known, Line, lacking, lacking_media};
use crate::share::tally::Tally;
use crate::store::{Store, StoreError};

/// Its type, for the share sheet and the downloads.
pub const MIME: &str = "application/zip";

/// One job as it goes into a backup.
pub struct Part {
    pub job: Uuid,
    /// The name it was opened with.
    pub name: String,
    /// The very lines of the store.
    pub lines: Vec<String>,
    /// Pictures and sounds that they name and that are here.
    pub media: BTreeSet<Uuid>,
    /// Those that they name and that are not here.
    pub missing: BTreeSet<Uuid>,
}

impl Part {
    /// What it holds.
    pub fn tally(&self) -> Tally {
        Tally::of(&self.lines, &self.media)
    }
}

/// Reads what a backup of these jobs has; of all on the phone when none is named.
pub async fn parts(store: &Store, only: Option<Uuid>) -> Result<Vec<Part>, StoreError> {
    let held = store.pictures().await?;
    let jobs = match only {
        Some(job) => BTreeSet::from([job]),
        None => store.jobs().await?,
    };
    let mut parts = Vec::new();
    for job in jobs {
        let lines = store.lines(job).await?;
        let named: BTreeSet<Uuid> = lines.iter().filter_map(|l| Line::read(l).ok()?.media).collect();
        parts.push(Part {
            job,
            name: Log::from_lines(&lines).job().name.clone(),
            lines,
            media: named.intersection(&held).copied().collect(),
            missing: named.difference(&held).copied().collect(),
        });
    }
    Ok(parts)
}

/// What another phone lacks of these.
pub fn lacking_parts(parts: Vec<Part>, known: &Known) -> Vec<Part> {
    let fewer = parts.into_iter().map(|part| {
        let ours: Vec<Line> = part.lines.iter().filter_map(|l| Line::read(l).ok()).collect();
        let lines = lacking(&ours, known).into_iter().map(|l| l.raw.clone()).collect();
        Part { lines, media: lacking_media(&ours, &part.media, known), ..part }
    });
    fewer.filter(|p| !p.lines.is_empty() || !p.media.is_empty()).collect()
}

/// What this phone has, for another one.
pub fn known(parts: &[Part]) -> Known {
    let lines: Vec<Line> = parts.iter().flat_map(|p| &p.lines).filter_map(|l| Line::read(l).ok()).collect();
    Known::of(&lines, &parts.iter().flat_map(|p| &p.missing).copied().collect())
}

/// A backup that is made.
#[derive(Clone)]
pub struct Made {
    pub blob: Blob,
    /// What each job in it holds.
    pub jobs: Vec<(Uuid, Tally)>,
    /// Pictures that the log names and that could not go in.
    pub missing: usize,
}

/// Makes the file. `progress` hears how many pictures are in, of how many.
///
/// # Errors
/// Words for the screen.
pub async fn make(
    store: &Store,
    parts: &[Part],
    shelf: &[String],
    at: DateTime<Utc>,
    progress: impl Fn(usize, usize),
) -> Result<Made, String> {
    let names: Vec<(Uuid, &str)> = parts.iter().map(|p| (p.job, p.name.as_str())).collect();
    let photos = parts.iter().map(|p| p.media.len()).sum();
    let (mut writer, start) = Writer::new(at, &names).map_err(refused)?;
    let mut blobs = vec![bytes::held(&start)?];
    if !shelf.is_empty() {
        blobs.push(bytes::held(&writer.text(Role::Products, &lines(shelf)).map_err(refused)?)?);
    }
    let (mut done, mut jobs) = (0, Vec::new());
    let mut missing = parts.iter().map(|p| p.missing.len()).sum();
    progress(0, photos);
    for part in parts {
        let log = writer.text(Role::Log { job: part.job }, &lines(&part.lines)).map_err(refused)?;
        blobs.push(bytes::held(&log)?);
        let mut in_it = BTreeSet::new();
        for id in &part.media {
            match picture(store, &mut writer, part.job, *id).await? {
                Some(pair) => {
                    blobs.extend(pair);
                    in_it.insert(*id);
                }
                None => missing += 1,
            }
            done += 1;
            progress(done, photos);
        }
        jobs.push((part.job, Tally::of(&part.lines, &in_it)));
    }
    blobs.push(bytes::held(&writer.end().map_err(refused)?)?);
    Ok(Made { blob: bytes::joined(&blobs, MIME)?, jobs, missing })
}

/// What goes before a picture, and the picture; nothing when it is none that a backup may have.
async fn picture(store: &Store, writer: &mut Writer, job: Uuid, id: Uuid) -> Result<Option<[Blob; 2]>, String> {
    let Some((_, kept)) = store.picture(id).await.map_err(|e| e.words())? else { return Ok(None) };
    let (mut sealer, mut head) = (Sealer::new(), Vec::new());
    let sealed: Result<(), ()> = bytes::pieces(&kept, |piece| {
        if head.is_empty() {
            head.extend_from_slice(&piece[..piece.len().min(Media::HEAD_BYTES)]);
        }
        sealer.feed(piece);
        Ok(())
    });
    let Some(media) = sealed.ok().and_then(|()| Media::of_bytes(&head)) else { return Ok(None) };
    let seal: Seal = sealer.end();
    match writer.before(Role::Media { job, id, media }, &seal) {
        Ok(before) => Ok(Some([bytes::held(&before)?, bytes::held_buffer(&kept)?])),
        Err(BadFile::TooLarge { .. }) => Ok(None),
        Err(e) => Err(refused(e)),
    }
}

/// The writer refuses what its reader would; no screen can bring that about but by sheer size.
fn refused(why: BadFile) -> String {
    let words = why.words();
    format!("The backup was not made. {}", words.trim_end_matches(" Nothing was taken in."))
}
