//! Why a file is refused: a name for each reason, and words for the screen.

use super::{FORMAT, ITEMS_MOST, LINE_MOST_BYTES};

/// Why a backup can't be used. Names of files are kept as they came; [`BadFile::words`] makes them fit for a screen.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum BadFile {
    /// It does not begin as a ZIP.
    NotZip,
    /// A ZIP whose end is missing, or a file in it that is shorter than it says.
    Truncated,
    /// A ZIP whose parts do not fit together; the words say where.
    Damaged(&'static str),
    /// A ZIP, but not a backup of ours.
    NotOurs,
    /// Written in a later format.
    Later(u32),
    /// More files than a backup may have.
    TooMany,
    /// A name that leads out of the folder, or has signs that no name of ours has.
    Name(String),
    /// Two files of one name.
    Twice(String),
    /// Two files share bytes.
    Overlap(String),
    /// Encrypted.
    Locked(String),
    /// Packed in a way that can't be opened here.
    Packed(String),
    /// More or fewer bytes than it says.
    Lies(String),
    /// Larger than a file of its sort may be.
    TooLarge { name: String, most_bytes: u64 },
    /// The list of digests is missing.
    NoManifest,
    /// A line of the list of digests can't be read.
    BadManifest { line: usize },
    /// In the file, not in its list.
    Unlisted(String),
    /// In the list, not in the file.
    Absent(String),
    /// In both, but of no sort that this format knows.
    Stranger(String),
    /// Its bytes do not match the ZIP's own check.
    WrongCrc(String),
    /// Its bytes do not match the list of digests: the file or the list was changed.
    WrongDigest(String),
    /// Not text.
    NotText(String),
    /// A line too long to be an entry.
    LongLine { name: String, line: usize },
    /// Its first bytes are no picture, or another sort than its name says.
    NotAPicture(String),
    /// The same for a sound.
    NotASound(String),
}

impl BadFile {
    /// In words for the screen.
    ///
    /// ```
    /// use coatwalk::share::backup::BadFile;
    /// assert_eq!(BadFile::Name("../a\u{202e}b".into()).words(),
    ///     "A file in this backup is called “../a\\u{202e}b”. No backup of ours has such a name. Nothing was taken in.");
    /// ```
    pub fn words(&self) -> String {
        use BadFile::*;
        let words = match self {
            NotZip => "This is not a backup: it is no ZIP file.".into(),
            Truncated => "The end of this backup is missing. Copy it over again, whole.".into(),
            Damaged(what) => format!("This backup is damaged: {what}. Copy it over again."),
            NotOurs => "This ZIP is not a Coatwalk backup.".into(),
            Later(format) => {
                format!("A later Coatwalk wrote this (format {format}; this one reads up to {FORMAT}). Update first.")
            }
            TooMany => format!("This backup has more than {ITEMS_MOST} files."),
            Name(name) => {
                format!("A file in this backup is called {}. No backup of ours has such a name.", shown(name))
            }
            Twice(name) => format!("This backup has two files {}.", shown(name)),
            Overlap(name) => format!("In this backup {} shares bytes with another file.", shown(name)),
            Locked(name) => format!("{} is locked with a password. Unlock the backup first.", shown(name)),
            Packed(name) => {
                format!(
                    "{} is packed in a way this phone can't open. Pack the backup again as “stored”.",
                    shown(name)
                )
            }
            Lies(name) => format!("{} is not as long as the backup says.", shown(name)),
            TooLarge { name, most_bytes } => {
                format!("{} is larger than {} MB.", shown(name), *most_bytes as f64 / 1e6)
            }
            NoManifest => "The list of digests (manifest.sha256) is missing from this backup.".into(),
            BadManifest { line } => format!("Line {line} of the list of digests (manifest.sha256) can't be read."),
            Unlisted(name) => format!("{} is not in the list of digests.", shown(name)),
            Absent(name) => format!("{} is in the list of digests, but not in the backup.", shown(name)),
            Stranger(name) => format!("{} is no file that a backup has.", shown(name)),
            WrongCrc(name) => {
                format!("{} is damaged: its check sum is another one. Copy it over again.", shown(name))
            }
            WrongDigest(name) => format!("{} was changed after the backup was made.", shown(name)),
            NotText(name) => format!("{} is not text.", shown(name)),
            LongLine { name, line } => {
                format!("Line {line} of {} is longer than {} MB.", shown(name), LINE_MOST_BYTES as f64 / 1e6)
            }
            NotAPicture(name) => format!("{} is not the picture its name says.", shown(name)),
            NotASound(name) => format!("{} is not the sound its name says.", shown(name)),
        };
        words + " Nothing was taken in."
    }
}

/// A name from outside, in quotes: cut short, and with every sign that could hide or turn text written out.
pub(crate) fn shown(name: &str) -> String {
    const MOST: usize = 80;
    let mut out = String::from("“");
    for (n, c) in name.chars().enumerate() {
        match c {
            _ if n == MOST => {
                out.push('…');
                break;
            }
            // Controls, and the signs that join, hide or turn text (Unicode general category Cf, those in use).
            c if c.is_control()
                || matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}') =>
            {
                out.extend(c.escape_unicode());
            }
            c => out.push(c),
        }
    }
    out + "”"
}
