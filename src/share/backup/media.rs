//! The pictures and sounds a backup may hold, told by their first bytes and not by what they claim to be.

/// A sort of picture or sound.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[allow(missing_docs)] // the names say it
pub enum Media {
    Jpeg,
    Png,
    Webp,
    Webm,
    Ogg,
    M4a,
    Wav,
}

use Media::*;

impl Media {
    /// All of them.
    pub const ALL: [Media; 7] = [Jpeg, Png, Webp, Webm, Ogg, M4a, Wav];
    /// So many first bytes tell one from another.
    pub const HEAD_BYTES: usize = 12;

    /// The end of the file's name, and its type.
    fn row(self) -> (&'static str, &'static str) {
        match self {
            Jpeg => ("jpg", "image/jpeg"),
            Png => ("png", "image/png"),
            Webp => ("webp", "image/webp"),
            Webm => ("webm", "audio/webm"),
            Ogg => ("ogg", "audio/ogg"),
            M4a => ("m4a", "audio/mp4"),
            Wav => ("wav", "audio/wav"),
        }
    }

    /// The end of the file's name.
    pub fn ext(self) -> &'static str {
        self.row().0
    }

    /// The type, for a Blob.
    pub fn mime(self) -> &'static str {
        self.row().1
    }

    /// A picture, not a sound.
    pub fn is_picture(self) -> bool {
        matches!(self, Jpeg | Png | Webp)
    }

    /// The folder it lies in.
    pub fn folder(self) -> &'static str {
        if self.is_picture() { "photos" } else { "sounds" }
    }

    /// By the end of a name.
    pub fn of_ext(ext: &str) -> Option<Media> {
        Media::ALL.into_iter().find(|m| m.ext() == ext)
    }

    /// By the first bytes; none when it is neither a picture nor a sound of ours.
    ///
    /// ```
    /// use coatwalk::share::backup::Media;
    /// assert_eq!(Media::of_bytes(&[0xff, 0xd8, 0xff, 0xe0]), Some(Media::Jpeg));
    /// assert_eq!(Media::of_bytes(b"<svg onload="), None);
    /// ```
    pub fn of_bytes(head: &[u8]) -> Option<Media> {
        // JPEG: ISO/IEC 10918-1 (SOI, then a marker). PNG: W3C PNG, section 5.2. WebP: RFC 9649. WebM: RFC 8794 (the
        // EBML mark). Ogg: RFC 3533. MP4: ISO/IEC 14496-12 (ftyp). WAV: RIFF, as WebP.
        let riff = |form: &[u8]| head.starts_with(b"RIFF") && head.get(8..12) == Some(form);
        Media::ALL.into_iter().find(|media| match media {
            Jpeg => head.starts_with(&[0xff, 0xd8, 0xff]),
            Png => head.starts_with(b"\x89PNG\r\n\x1a\n"),
            Webp => riff(b"WEBP"),
            Webm => head.starts_with(&[0x1a, 0x45, 0xdf, 0xa3]),
            Ogg => head.starts_with(b"OggS"),
            M4a => head.get(4..8) == Some(b"ftyp"),
            Wav => riff(b"WAVE"),
        })
    }
}
