//! A backup: jobs, pictures, sounds and products in one ZIP that can be read without the app.
//!
//! Written in pieces, so that the pictures never stand in memory together ([`write::Writer`]); read in pieces, so that a
//! file made to do harm is refused before it is held ([`read`], [`check::Checker`]). The format is told in
//! `DEVELOPERS.md`, "Backup format".
//!
//! May use: the job's entries, a CRC, a SHA-256. Must not: know the browser, write anything, or trust a length.

mod bad;
pub mod check;
pub mod inside;
mod media;
pub mod read;
pub mod write;

use uuid::Uuid;

pub use bad::BadFile;
pub use media::Media;

/// The format written, and the newest one read.
pub const FORMAT: u32 = 1;
/// A log or the shelf of products, bytes.
pub const LOG_MOST_BYTES: u64 = 64_000_000;
/// One picture or sound, bytes.
pub const MEDIA_MOST_BYTES: u64 = 40_000_000;
/// `README.txt`, bytes.
pub const README_MOST_BYTES: u64 = 1_000_000;
/// `manifest.sha256`, bytes.
pub const MANIFEST_MOST_BYTES: u64 = 40_000_000;
/// Files and folders in a backup.
pub const ITEMS_MOST: u64 = 200_000;
/// A file's name, bytes.
pub const NAME_MOST_BYTES: usize = 200;
/// One line of JSON, bytes.
pub const LINE_MOST_BYTES: usize = 1_000_000;
/// The ZIP's own list of its files, bytes.
pub const DIRECTORY_MOST_BYTES: u64 = 64_000_000;

/// What a file in a backup is; its name says so.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Role {
    /// What this is, in plain words. Its first line carries the format.
    Readme,
    /// The digest of every other file.
    Manifest,
    /// The phone's shelf of products, one line of JSON each.
    Products,
    /// A job's log, one line of JSON an entry: the very bytes of the store.
    Log { job: Uuid },
    /// A picture or a sound of a job.
    Media { job: Uuid, id: Uuid, media: Media },
}

impl Role {
    /// The file's name.
    ///
    /// ```
    /// use coatwalk::share::backup::Role;
    /// let log = Role::Log { job: uuid::Uuid::nil() };
    /// assert_eq!(log.name(), "job-00000000-0000-0000-0000-000000000000/job.jsonl");
    /// assert_eq!(Role::of(&log.name()), Some(log));
    /// assert_eq!(Role::of("job-1/job.jsonl"), None);
    /// ```
    pub fn name(&self) -> String {
        match self {
            Role::Readme => "README.txt".into(),
            Role::Manifest => "manifest.sha256".into(),
            Role::Products => "products.jsonl".into(),
            Role::Log { job } => format!("job-{job}/job.jsonl"),
            Role::Media { job, id, media } => format!("job-{job}/{}/{id}.{}", media.folder(), media.ext()),
        }
    }

    /// What a file of this name is; none when the format does not know it.
    pub fn of(name: &str) -> Option<Role> {
        let role = match name.strip_prefix("job-") {
            None => [Role::Readme, Role::Manifest, Role::Products].into_iter().find(|r| r.name() == name)?,
            Some(rest) => {
                let (job, file) = rest.split_once('/')?;
                let job = Uuid::try_parse(job).ok()?;
                match file.split_once('/') {
                    None => Role::Log { job },
                    Some((_, file)) => {
                        let (id, ext) = file.split_once('.')?;
                        Role::Media { job, id: Uuid::try_parse(id).ok()?, media: Media::of_ext(ext)? }
                    }
                }
            }
        };
        // One spelling only: a name that reads the same but is written otherwise would be a second file.
        (role.name() == name).then_some(role)
    }

    /// The most bytes it may have.
    pub fn most_bytes(&self) -> u64 {
        match self {
            Role::Readme => README_MOST_BYTES,
            Role::Manifest => MANIFEST_MOST_BYTES,
            Role::Products | Role::Log { .. } => LOG_MOST_BYTES,
            Role::Media { .. } => MEDIA_MOST_BYTES,
        }
    }
}

/// The signatures and lengths of the ZIP format (PKWARE APPNOTE.TXT 6.3.10, sections 4.3.7, 4.3.12, 4.3.14 to 4.3.16).
pub(crate) mod zip {
    pub const LOCAL: u32 = 0x0403_4b50;
    pub const CENTRAL: u32 = 0x0201_4b50;
    pub const END: u32 = 0x0605_4b50;
    pub const END64: u32 = 0x0606_4b50;
    pub const LOCATOR64: u32 = 0x0706_4b50;
    pub const LOCAL_BYTES: usize = 30;
    pub const CENTRAL_BYTES: usize = 46;
    pub const END_BYTES: usize = 22;
    pub const END64_BYTES: usize = 56;
    pub const LOCATOR64_BYTES: usize = 20;
    /// Id of the extra field with lengths beyond 32 bits.
    pub const EXTRA64: u16 = 1;
    pub const STORED: u16 = 0;
    pub const DEFLATED: u16 = 8;
    /// "Look in the 64-bit field."
    pub const FULL32: u32 = u32::MAX;
    pub const FULL16: u16 = u16::MAX;
    /// Flags: encrypted, in any of the format's ways.
    pub const LOCKED: u16 = 1 | 1 << 6 | 1 << 13;
    /// Flag: lengths and CRC stand behind the data.
    pub const LATER: u16 = 1 << 3;
    /// Flag: the name is UTF-8.
    pub const UTF8: u16 = 1 << 11;
}
