//! Makes ZIP files by hand, right ones and wrong ones, without our writer: every field can be set.

use coatwalk::share::backup::check::Seal;
use uuid::Uuid;

pub const README: &[u8] = b"Coatwalk backup, format 1\nan invented one\n";
pub const JPEG: &[u8] = &[0xff, 0xd8, 0xff, 0xe0, 0, 16, b'J', b'F', b'I', b'F', 0, 1, 2, 3];

pub fn job() -> Uuid {
    Uuid::try_parse("019a0000-0000-7000-8000-000000000000").unwrap()
}

/// The name of a file in the job's folder.
pub fn in_job(file: &str) -> String {
    format!("job-{}/{file}", job())
}

pub fn photo_name() -> String {
    in_job("photos/019a0000-0001-7000-8000-000000000001.jpg")
}

/// The invented sample log that every version must read.
pub fn sample() -> &'static str {
    include_str!("../samples/v1.jsonl")
}

/// One file, with all that its headers say of it.
#[derive(Clone)]
pub struct Part {
    pub name: Vec<u8>,
    pub bytes: Vec<u8>,
    pub len: u32,
    pub packed_len: u32,
    pub crc: u32,
    pub method: u16,
    pub flags: u16,
    /// The directory says another place than the true one.
    pub place: Option<u32>,
    /// Bytes of the extra field in its own header.
    pub extra: Vec<u8>,
}

pub fn part(name: &str, bytes: &[u8]) -> Part {
    let (name, bytes, len) = (name.into(), bytes.to_vec(), bytes.len() as u32);
    let crc = Seal::of(&bytes).crc;
    Part { name, bytes, len, packed_len: len, crc, method: 0, flags: 0, place: None, extra: vec![] }
}

/// As `sha256sum` writes it.
pub fn digest_line(name: &str, bytes: &[u8]) -> String {
    let hex: String = Seal::of(bytes).sha256.iter().map(|b| format!("{b:02x}")).collect();
    format!("{hex}  {name}\n")
}

/// A right backup: `README.txt`, the files, the list of digests.
pub fn backup(files: &[(&str, &[u8])]) -> Vec<Part> {
    let all: Vec<(&str, &[u8])> = [("README.txt", README)].into_iter().chain(files.iter().copied()).collect();
    let manifest: String = all.iter().map(|(name, bytes)| digest_line(name, bytes)).collect();
    all.iter().map(|(n, b)| part(n, b)).chain([part("manifest.sha256", manifest.as_bytes())]).collect()
}

/// A right backup of one job with one photo and a shelf.
pub fn good() -> Vec<Part> {
    let (log, photo) = (in_job("job.jsonl"), photo_name());
    backup(&[(&log, sample().as_bytes()), (&photo, JPEG), ("products.jsonl", b"{\"id\":1}\n")])
}

/// Packed with deflate, all else the same.
pub fn deflated(mut part: Part) -> Part {
    use std::io::Write;
    let mut packer = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::default());
    packer.write_all(&part.bytes).unwrap();
    part.bytes = packer.finish().unwrap();
    part.packed_len = part.bytes.len() as u32;
    part.method = 8;
    part
}

pub fn zip(parts: &[Part]) -> Vec<u8> {
    let (mut out, mut directory) = (Vec::new(), Vec::new());
    for p in parts {
        let place = p.place.unwrap_or(out.len() as u32);
        let both = |to: &mut Vec<u8>| {
            for n in [20, p.flags, p.method, 0, 0] {
                to.extend_from_slice(&n.to_le_bytes());
            }
            for n in [p.crc, p.packed_len, p.len] {
                to.extend_from_slice(&n.to_le_bytes());
            }
            to.extend_from_slice(&(p.name.len() as u16).to_le_bytes());
        };
        out.extend_from_slice(b"PK\x03\x04");
        both(&mut out);
        out.extend_from_slice(&(p.extra.len() as u16).to_le_bytes());
        out.extend_from_slice(&p.name);
        out.extend_from_slice(&p.extra);
        out.extend_from_slice(&p.bytes);
        directory.extend_from_slice(b"PK\x01\x02\x14\x00");
        both(&mut directory);
        directory.extend_from_slice(&[0; 12]);
        directory.extend_from_slice(&place.to_le_bytes());
        directory.extend_from_slice(&p.name);
    }
    end(out, &directory, parts.len() as u16, b"")
}

/// Appends the directory and the end.
pub fn end(mut out: Vec<u8>, directory: &[u8], count: u16, comment: &[u8]) -> Vec<u8> {
    let start = out.len() as u32;
    out.extend_from_slice(directory);
    out.extend_from_slice(b"PK\x05\x06\0\0\0\0");
    for n in [count, count] {
        out.extend_from_slice(&n.to_le_bytes());
    }
    for n in [directory.len() as u32, start] {
        out.extend_from_slice(&n.to_le_bytes());
    }
    out.extend_from_slice(&(comment.len() as u16).to_le_bytes());
    out.extend_from_slice(comment);
    out
}
