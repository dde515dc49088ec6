//! Every reason for which a file is refused, each reached by a file made for it, with its words.

use std::collections::BTreeSet;

use coatwalk::share::backup::check::Checker;
use coatwalk::share::backup::read::{self, Directory};
use coatwalk::share::backup::{BadFile, ITEMS_MOST, LINE_MOST_BYTES, MANIFEST_MOST_BYTES, Role};

use crate::make::{self, JPEG, Part, README, backup, deflated, digest_line, good, in_job, part, photo_name, zip};
use crate::open::{items, open};

fn refusal(bytes: &[u8]) -> BadFile {
    open(&bytes.to_vec(), true).err().expect("it was taken")
}

/// The good one, one part changed.
fn changed(name: &str, change: impl Fn(&mut Part)) -> Vec<u8> {
    let mut parts = good();
    let part = parts.iter_mut().find(|p| p.name == name.as_bytes()).unwrap();
    change(part);
    zip(&parts)
}

/// The good one with its list of digests written anew.
fn with_manifest(change: impl Fn(String) -> String) -> Vec<u8> {
    changed("manifest.sha256", |p| {
        *p = part("manifest.sha256", change(String::from_utf8(p.bytes.clone()).unwrap()).as_bytes());
    })
}

/// The good one with a part more at its end.
fn with_part(extra: Part) -> Vec<u8> {
    let mut parts = good();
    parts.push(extra);
    zip(&parts)
}

/// Every file that is refused: what it is, the file, the refusal, its words.
fn rows() -> Vec<(&'static str, Vec<u8>, BadFile, String)> {
    use BadFile::*;
    let whole = zip(&good());
    let photo = photo_name();
    let log = in_job("job.jsonl");
    let tail_gone = whole[..whole.len() - 30].to_vec();
    let mut shifted = b"PK\x03\x04 something before".to_vec();
    shifted.extend_from_slice(&whole);
    let mut many_disks = whole.clone();
    let disk = many_disks.len() - 22 + 4;
    many_disks[disk] = 1;
    let mut too_many = whole.clone();
    let end = too_many.len() - 22;
    too_many[end + 12..end + 16].copy_from_slice(&u32::MAX.wrapping_sub(1).to_le_bytes());
    let q = |name: &str, rest: &str| format!("“{name}”{rest} Nothing was taken in.");
    let bad_name = |name: &str, shown: &str| {
        let words = format!(
            "A file in this backup is called “{shown}”. No backup of ours has such a name. Nothing was taken in."
        );
        (with_part(part(name, b"x")), Name(name.into()), words)
    };
    let later = |first: &[u8]| {
        zip(&[part("README.txt", first), part("of-tomorrow/x.bin", b"?"), part("manifest.sha256", b"in another way")])
    };
    let far_longer = "x".repeat(200);
    let mut rows = vec![
        ("a picture", JPEG.to_vec(), NotZip, "This is not a backup: it is no ZIP file. Nothing was taken in.".into()),
        ("nothing", vec![], NotZip, "This is not a backup: it is no ZIP file. Nothing was taken in.".into()),
        (
            "cut off",
            tail_gone,
            Truncated,
            "The end of this backup is missing. Copy it over again, whole. Nothing was taken in.".into(),
        ),
        (
            "something before it",
            shifted,
            Damaged("its list of files is not where it should be"),
            "This backup is damaged: its list of files is not where it should be. Copy it over again. Nothing was \
             taken in."
                .into(),
        ),
        (
            "the second of two disks",
            many_disks,
            Damaged("it is cut into several files"),
            "This backup is damaged: it is cut into several files. Copy it over again. Nothing was taken in.".into(),
        ),
        (
            "no README",
            zip(&[part("notes.txt", b"x")]),
            NotOurs,
            "This ZIP is not a Coatwalk backup. Nothing was taken in.".into(),
        ),
        (
            "another README",
            zip(&[part("README.txt", b"Hello\n")]),
            NotOurs,
            "This ZIP is not a Coatwalk backup. Nothing was taken in.".into(),
        ),
        (
            "of a later format",
            later(b"Coatwalk backup, format 2\n"),
            Later(2),
            "A later Coatwalk wrote this (format 2; this one reads up to 1). Update first. Nothing was taken in."
                .into(),
        ),
        (
            "a directory of 4 GB",
            too_many,
            TooMany,
            "This backup has more than 200000 files. Nothing was taken in.".into(),
        ),
        (
            "two of one name",
            with_part(part(&photo, JPEG)),
            Twice(photo.clone()),
            format!("This backup has two files “{}…”. Nothing was taken in.", &photo[..80]),
        ),
        (
            "two names that differ by a capital",
            with_part(part("readme.TXT", README)),
            Twice("readme.TXT".into()),
            "This backup has two files “readme.TXT”. Nothing was taken in.".into(),
        ),
        (
            "one name twice in the list",
            with_manifest(|m| m.clone() + m.lines().next().unwrap() + "\n"),
            Twice("README.txt".into()),
            "This backup has two files “README.txt”. Nothing was taken in.".into(),
        ),
        (
            "two files at one place",
            changed("products.jsonl", |p| p.place = Some(0)),
            Overlap("products.jsonl".into()),
            "In this backup “products.jsonl” shares bytes with another file. Nothing was taken in.".into(),
        ),
        (
            "a header that pushes its bytes into the next file",
            {
                let mut bytes = whole.clone();
                bytes[28] = 200;
                bytes
            },
            Overlap("README.txt".into()),
            "In this backup “README.txt” shares bytes with another file. Nothing was taken in.".into(),
        ),
        (
            "encrypted",
            changed("products.jsonl", |p| p.flags = 1),
            Locked("products.jsonl".into()),
            q("products.jsonl", " is locked with a password. Unlock the backup first."),
        ),
        (
            "packed in an unknown way",
            changed("products.jsonl", |p| p.method = 12),
            Packed("products.jsonl".into()),
            q("products.jsonl", " is packed in a way this phone can't open. Pack the backup again as “stored”."),
        ),
        (
            "10 GB claimed of 9 bytes",
            changed("products.jsonl", |p| (p.len, p.packed_len) = (4_000_000_000, 4_000_000_000)),
            Lies("products.jsonl".into()),
            q("products.jsonl", " is not as long as the backup says."),
        ),
        (
            "packed, and unpacked too small for it to be true",
            changed("products.jsonl", |p| (p.len, p.method) = (100_000, 8)),
            Lies("products.jsonl".into()),
            q("products.jsonl", " is not as long as the backup says."),
        ),
        (
            "a bomb: far more comes out than it says",
            changed("products.jsonl", |p| {
                *p = Part { len: 1000, ..deflated(part("products.jsonl", &vec![b'\n'; 30_000_000])) }
            }),
            Lies("products.jsonl".into()),
            q("products.jsonl", " is not as long as the backup says."),
        ),
        (
            "less comes out than it says",
            changed("products.jsonl", |p| *p = Part { len: 12, ..deflated(p.clone()) }),
            Lies("products.jsonl".into()),
            q("products.jsonl", " is not as long as the backup says."),
        ),
        (
            "a list of digests that would not fit",
            changed("manifest.sha256", |p| {
                *p = Part { len: 50_000_000, packed_len: 60_000, ..deflated(part("manifest.sha256", &noise(60_000))) }
            }),
            TooLarge { name: "manifest.sha256".into(), most_bytes: MANIFEST_MOST_BYTES },
            q("manifest.sha256", " is larger than 40 MB."),
        ),
        (
            "no list of digests",
            zip(&good().into_iter().filter(|p| p.name != b"manifest.sha256").collect::<Vec<_>>()),
            NoManifest,
            "The list of digests (manifest.sha256) is missing from this backup. Nothing was taken in.".into(),
        ),
        (
            "a list of digests with another line",
            with_manifest(|m| m + "ABC  x\n"),
            BadManifest { line: 5 },
            "Line 5 of the list of digests (manifest.sha256) can't be read. Nothing was taken in.".into(),
        ),
        (
            "a file too many",
            with_part(part("job.exe", b"MZ")),
            Unlisted("job.exe".into()),
            q("job.exe", " is not in the list of digests."),
        ),
        (
            "a file too few",
            with_manifest(|m| m + &digest_line("gone.jpg", JPEG)),
            Absent("gone.jpg".into()),
            q("gone.jpg", " is in the list of digests, but not in the backup."),
        ),
        (
            "a file of no sort of ours",
            zip(&backup(&[("job.exe", b"MZ")])),
            Stranger("job.exe".into()),
            q("job.exe", " is no file that a backup has."),
        ),
        (
            "a log under a capital job",
            zip(&backup(&[(&log.to_uppercase(), b"")])),
            Stranger(log.to_uppercase()),
            q(&log.to_uppercase(), " is no file that a backup has."),
        ),
        (
            "a flipped bit",
            changed("products.jsonl", |p| p.bytes[1] ^= 1),
            WrongCrc("products.jsonl".into()),
            q("products.jsonl", " is damaged: its check sum is another one. Copy it over again."),
        ),
        (
            "an edited file",
            changed("products.jsonl", |p| *p = part("products.jsonl", b"{\"id\":2}\n")),
            WrongDigest("products.jsonl".into()),
            q("products.jsonl", " was changed after the backup was made."),
        ),
        (
            "an edited list of digests",
            with_manifest(|m| {
                let at = m.find("  products").unwrap() - 1;
                let last = if m.as_bytes()[at] == b'0' { "1" } else { "0" };
                m[..at].to_owned() + last + &m[at + 1..]
            }),
            WrongDigest("products.jsonl".into()),
            q("products.jsonl", " was changed after the backup was made."),
        ),
        (
            "a log that is not UTF-8",
            zip(&backup(&[(&log, b"{\"v\":1}\n\xff\xfe\n")])),
            NotText(log.clone()),
            q(&log, " is not text."),
        ),
        (
            "a line of more than 1 MB",
            zip(&backup(&[(&log, ["{}\n", &"x".repeat(LINE_MOST_BYTES + 1)].concat().as_bytes())])),
            LongLine { name: log.clone(), line: 2 },
            format!("Line 2 of “{log}” is longer than 1 MB. Nothing was taken in."),
        ),
        (
            "a page for a picture",
            zip(&backup(&[(&photo, b"<html onload=alert(1)>")])),
            NotAPicture(photo.clone()),
            format!("“{}…” is not the picture its name says. Nothing was taken in.", &photo[..80]),
        ),
        (
            "no picture at all",
            zip(&backup(&[(&photo, b"")])),
            NotAPicture(photo.clone()),
            format!("“{}…” is not the picture its name says. Nothing was taken in.", &photo[..80]),
        ),
        (
            "a picture for a sound",
            zip(&backup(&[(&in_job("sounds/019a0000-0001-7000-8000-000000000001.webm"), JPEG)])),
            NotASound(in_job("sounds/019a0000-0001-7000-8000-000000000001.webm")),
            format!(
                "“{}…” is not the sound its name says. Nothing was taken in.",
                &in_job("sounds/019a0000-0001-7000-8000-000000000001.webm")[..80]
            ),
        ),
    ];
    let names = [
        ("../up.txt", "../up.txt"),
        ("a/../../up.txt", "a/../../up.txt"),
        ("/root.txt", "/root.txt"),
        ("C:/up.txt", "C:/up.txt"),
        ("a\\b.txt", "a\\b.txt"),
        ("a//b.txt", "a//b.txt"),
        ("./a.txt", "./a.txt"),
        ("a\nb.txt", "a\\u{a}b.txt"),
        ("a\0.txt", "a\\u{0}.txt"),
        ("a\u{7f}", "a\\u{7f}"),
        ("", ""),
    ];
    for (name, shown) in names {
        let (bytes, refusal, words) = bad_name(name, shown);
        rows.push(("a name", bytes, refusal, words));
    }
    let (bytes, _, _) = bad_name(&(far_longer.clone() + "y"), "");
    let words = format!(
        "A file in this backup is called “{}…”. No backup of ours has such a name. Nothing was taken in.",
        &far_longer[..80]
    );
    rows.push(("a long name", bytes, Name(far_longer), words));
    rows
}

/// Bytes that do not pack.
fn noise(n: usize) -> Vec<u8> {
    let mut x = 1u64;
    let next = |_| {
        x = x.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        (x >> 56) as u8
    };
    (0..n).map(next).collect()
}

/// The reasons named in `bad.rs`.
fn all_names() -> BTreeSet<String> {
    let code = include_str!("../../src/share/backup/bad.rs");
    let body = &code[code.find("pub enum BadFile {").unwrap()..code.find("impl BadFile").unwrap()];
    let first = |l: &str| l.trim().split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default().to_owned();
    body.lines().skip(1).map(first).filter(|w| w.starts_with(|c: char| c.is_uppercase())).collect()
}

fn name_of(bad: &BadFile) -> String {
    format!("{bad:?}").split(|c: char| !c.is_alphanumeric()).next().unwrap().to_owned()
}

#[test]
fn every_reason_is_reached_and_has_its_words() {
    let mut reached = BTreeSet::new();
    for (what, bytes, bad, words) in rows() {
        let found = refusal(&bytes);
        assert_eq!(found, bad, "{what}");
        assert_eq!(found.words(), words, "{what}");
        reached.insert(name_of(&found));
    }
    assert_eq!(reached, all_names());
}

#[test]
fn a_name_that_is_not_utf8_is_refused() {
    let bytes = with_part(Part { name: b"a\xff.txt".to_vec(), ..part("", b"x") });
    assert_eq!(refusal(&bytes), BadFile::Name("a\u{fffd}.txt".into()));
}

#[test]
fn too_many_files_are_refused_before_the_list_is_read() {
    let tail = make::end(vec![], &[], 0, b"");
    assert_eq!(read::end_of_directory(&tail, tail.len() as u64), Ok(Directory { range: 0..0, count: 0 }));
    // The 64-bit end of APPNOTE.TXT 4.3.14: 200,001 files.
    let mut far = b"PK\x06\x06".to_vec();
    far.extend_from_slice(&44u64.to_le_bytes());
    far.extend_from_slice(&[45, 0, 45, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
    for n in [ITEMS_MOST + 1, ITEMS_MOST + 1, 0, 0] {
        far.extend_from_slice(&n.to_le_bytes());
    }
    far.extend_from_slice(b"PK\x06\x07\0\0\0\0\0\0\0\0\0\0\0\0\x01\0\0\0PK\x05\x06\0\0\0\0");
    far.extend_from_slice(&[0xff; 12]);
    far.extend_from_slice(&[0, 0]);
    assert_eq!(read::end_of_directory(&far, far.len() as u64), Err(BadFile::TooMany));
}

#[test]
fn hostile_text_is_text() {
    let evil = "</script><img src=x onerror=alert(1)>\u{202e}gpj.exe ${x} '; DROP TABLE 😀";
    let opened = make::sample().lines().next().unwrap();
    let line = opened.replace("Sample trailer (invented)", &evil.replace('"', "\\\""));
    let file = zip(&backup(&[(&in_job("job.jsonl"), (line.clone() + "\nmud\n{\"id\":\"x\"}\n").as_bytes())]));
    let found = open(&file, true).unwrap();
    let (_, log) = &found.logs[0];
    assert_eq!(log.lines[0].raw, line);
    assert_eq!(log.unread.iter().map(|u| u.raw.as_str()).collect::<Vec<_>>(), ["mud", "{\"id\":\"x\"}"]);
    assert_eq!(
        BadFile::NotText(evil.into()).words(),
        "“</script><img src=x onerror=alert(1)>\\u{202e}gpj.exe ${x} '; DROP TABLE 😀” is not text. Nothing was taken in."
    );
}

#[test]
fn a_line_of_another_job_stays_out() {
    let other = "019a9999-0000-7000-8000-000000000000";
    let line = make::sample().lines().nth(1).unwrap().replace("019a0000-0000-7000-8000-000000000000", other);
    let found = open(&zip(&backup(&[(&in_job("job.jsonl"), line.as_bytes())])), true).unwrap();
    assert_eq!(found.logs[0].1.lines, []);
    assert_eq!(found.logs[0].1.unread[0].why, "a line of another job");
}

/// A bomb is stopped while it unpacks, not weighed afterwards.
#[test]
fn the_first_byte_too_many_is_refused() {
    let items = items(&zip(&good())).unwrap();
    let mut checker = Checker::before_manifest(&items[0], Role::Readme).unwrap();
    assert_eq!(checker.feed(README), Ok(()));
    assert_eq!(checker.feed(&[]), Ok(()));
    assert_eq!(checker.feed(b"x"), Err(BadFile::Lies("README.txt".into())));
}
