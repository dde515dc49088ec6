//! Length, CRC-32 and SHA-256 of a file, byte by byte as it goes by.

use crc::{CRC_32_ISO_HDLC, Crc};
use sha2::{Digest, Sha256};

use super::inside::File;
use super::read::Item;
use super::{BadFile, Media, Role};

static CRC: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);

/// What is known of a file's bytes once they went by.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Seal {
    /// How many bytes.
    pub len: u64,
    /// CRC-32 as in ZIP.
    pub crc: u32,
    /// SHA-256.
    pub sha256: [u8; 32],
}

impl Seal {
    /// Of bytes held in memory.
    ///
    /// ```
    /// use coatwalk::share::backup::check::Seal;
    /// // The check value of CRC-32/ISO-HDLC in the catalogue of CRC algorithms, and FIPS 180-4's "abc".
    /// assert_eq!(Seal::of(b"123456789").crc, 0xcbf4_3926);
    /// assert_eq!(Seal::of(b"abc").sha256[..4], [0xba, 0x78, 0x16, 0xbf]);
    /// ```
    pub fn of(bytes: &[u8]) -> Seal {
        let mut sealer = Sealer::new();
        sealer.feed(bytes);
        sealer.end()
    }
}

/// Makes a [`Seal`] in pieces. Where the browser's own SHA-256 is quicker, [`Seal`] can be filled with that instead.
#[derive(Clone)]
pub struct Sealer {
    len: u64,
    crc: crc::Digest<'static, u32>,
    sha256: Sha256,
}

impl Sealer {
    /// Before the first byte.
    pub fn new() -> Sealer {
        Sealer { len: 0, crc: CRC.digest(), sha256: Sha256::new() }
    }

    /// The next bytes.
    pub fn feed(&mut self, bytes: &[u8]) {
        self.len += bytes.len() as u64;
        self.crc.update(bytes);
        self.sha256.update(bytes);
    }

    /// After the last byte.
    pub fn end(self) -> Seal {
        Seal { len: self.len, crc: self.crc.finalize(), sha256: self.sha256.finalize().into() }
    }
}

impl Default for Sealer {
    fn default() -> Sealer {
        Sealer::new()
    }
}

/// Holds a file to what the backup says of it while its bytes (unpacked, if they were packed) go by. It keeps none of
/// them; what it was fed counts only after [`Checker::end`] was content.
pub struct Checker {
    name: String,
    len: u64,
    crc: u32,
    sha256: Option<[u8; 32]>,
    media: Option<Media>,
    head: Vec<u8>,
    sealer: Sealer,
}

impl Checker {
    /// For a file whose digest is known.
    pub fn new(file: &File) -> Checker {
        let media = match file.role {
            Role::Media { media, .. } => Some(media),
            _ => None,
        };
        Checker { sha256: Some(file.sha256), media, ..Checker::bare(&file.item) }
    }

    /// For the two files that are read before the digests are known: `README.txt` and the list of digests itself.
    ///
    /// # Errors
    /// [`BadFile::TooLarge`] before the first byte.
    pub fn before_manifest(item: &Item, role: Role) -> Result<Checker, BadFile> {
        match item.len > role.most_bytes() {
            true => Err(BadFile::TooLarge { name: item.name.clone(), most_bytes: role.most_bytes() }),
            false => Ok(Checker::bare(item)),
        }
    }

    fn bare(item: &Item) -> Checker {
        let (name, len, crc) = (item.name.clone(), item.len, item.crc);
        Checker { name, len, crc, sha256: None, media: None, head: Vec::new(), sealer: Sealer::new() }
    }

    /// The next bytes.
    ///
    /// # Errors
    /// [`BadFile::Lies`] as soon as there are more than the backup says: stop unpacking then.
    pub fn feed(&mut self, bytes: &[u8]) -> Result<(), BadFile> {
        if bytes.len() as u64 > self.len - self.sealer.len {
            return Err(BadFile::Lies(self.name.clone()));
        }
        let more = (Media::HEAD_BYTES - self.head.len()).min(bytes.len());
        self.head.extend_from_slice(&bytes[..more]);
        self.sealer.feed(bytes);
        Ok(())
    }

    /// After the last byte.
    ///
    /// # Errors
    /// [`BadFile::Lies`], [`WrongCrc`](BadFile::WrongCrc), [`WrongDigest`](BadFile::WrongDigest),
    /// [`NotAPicture`](BadFile::NotAPicture) or [`NotASound`](BadFile::NotASound).
    pub fn end(self) -> Result<(), BadFile> {
        let seal = self.sealer.end();
        match self.media {
            _ if seal.len != self.len => Err(BadFile::Lies(self.name)),
            _ if seal.crc != self.crc => Err(BadFile::WrongCrc(self.name)),
            _ if self.sha256.is_some_and(|s| s != seal.sha256) => Err(BadFile::WrongDigest(self.name)),
            Some(media) if Media::of_bytes(&self.head) != Some(media) => Err(match media.is_picture() {
                true => BadFile::NotAPicture(self.name),
                false => BadFile::NotASound(self.name),
            }),
            _ => Ok(()),
        }
    }
}
