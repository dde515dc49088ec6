//! The backup against the world: another ZIP library, `unzip`, `sha256sum`, sizes beyond 32 bits, and files made wrong.
#![cfg(not(target_arch = "wasm32"))]

#[path = "backup/make.rs"]
mod make;
#[path = "backup/open.rs"]
mod open;
#[path = "backup/refused.rs"]
mod refused;

use std::collections::BTreeSet;
use std::io::{Cursor, Read, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::Command;

use coatwalk::job::log::Log;
use coatwalk::job::moment;
use coatwalk::share::backup::check::{Seal, Sealer};
use coatwalk::share::backup::write::{Writer, lines};
use coatwalk::share::backup::{BadFile, MEDIA_MOST_BYTES, Media, Role};
use coatwalk::share::backup::{inside, read};
use coatwalk::share::merge::{Conflict, Incoming, Known, Line, Preview, conflicts, preview, products};
use coatwalk::share::tally::{Tally, reminder};
use make::{JPEG, README, in_job, job, part, sample};
use open::{Source, items, open};
use uuid::Uuid;

fn made() -> chrono::DateTime<chrono::Utc> {
    moment::read("2026-10-05T12:34:56.000Z").unwrap()
}

fn id(n: u128) -> Uuid {
    Uuid::from_u128(0x019a_0000_0000_7000_8000_0000_0000_0000 + n)
}

/// A backup of the sample job, as the app writes it.
fn ours() -> Vec<u8> {
    let photo = Role::Media { job: job(), id: id(1), media: Media::Jpeg };
    let (mut w, mut out) = Writer::new(made(), &[(job(), "Sample trailer\n(invented)")]).unwrap();
    out.extend(w.text(Role::Products, "{\"id\":\"019a0000-0009-7000-8000-000000000009\"}\n").unwrap());
    out.extend(w.text(Role::Log { job: job() }, sample()).unwrap());
    out.extend(w.before(photo, &Seal::of(JPEG)).unwrap());
    out.extend_from_slice(JPEG);
    out.extend(w.end().unwrap());
    out
}

#[test]
fn what_goes_in_comes_out() {
    let found = open(&ours(), false).unwrap();
    let names: Vec<String> = found.files.iter().map(|(f, _)| f.item.name.clone()).collect();
    let photo = in_job("photos/019a0000-0000-7000-8000-000000000001.jpg");
    assert_eq!(names, ["README.txt", "products.jsonl", &in_job("job.jsonl"), &photo]);
    assert_eq!(found.files[3].1, JPEG);
    let listed: String = found.files.iter().map(|(f, bytes)| make::digest_line(&f.item.name, bytes)).collect();
    assert_eq!(String::from_utf8(found.manifest).unwrap().len(), listed.len(), "every file is in the list");
    let (its_job, log) = &found.logs[0];
    assert_eq!(*its_job, job());
    assert_eq!(lines(log.lines.iter().map(|l| &l.raw)), sample(), "the very bytes of the store");
    assert_eq!(log.unread, []);
    let readme = String::from_utf8(found.files[0].1.clone()).unwrap();
    assert!(readme.starts_with("Coatwalk backup, format 1\nMade 2026-10-05T12:34:56.000Z (UTC)\n"), "{readme}");
    assert!(readme.ends_with(&format!("\njob-{}  Sample trailer (invented)\n", job())), "{readme}");
    assert!(readme.lines().all(|l| l.len() <= 100), "{readme}");
}

#[test]
fn an_empty_phone_has_a_backup_too() {
    let (w, mut out) = Writer::new(made(), &[]).unwrap();
    out.extend(w.end().unwrap());
    assert_eq!(open(&out, false).unwrap().files.len(), 1);
}

#[test]
fn the_writer_refuses_what_the_reader_would() {
    let (mut w, _) = Writer::new(made(), &[]).unwrap();
    let log = Role::Log { job: job() };
    w.text(log, "").unwrap();
    assert_eq!(w.text(log, ""), Err(BadFile::Twice(log.name())));
    let photo = Role::Media { job: job(), id: id(1), media: Media::Png };
    let large = Seal { len: MEDIA_MOST_BYTES + 1, crc: 0, sha256: [0; 32] };
    assert_eq!(w.before(photo, &large), Err(BadFile::TooLarge { name: photo.name(), most_bytes: MEDIA_MOST_BYTES }));
}

#[test]
fn a_seal_made_in_pieces_is_the_same() {
    let mut sealer = Sealer::default();
    sample().as_bytes().chunks(7).for_each(|c| sealer.feed(c));
    assert_eq!(sealer.end(), Seal::of(sample().as_bytes()));
}

/// Another library reads ours: names, bytes, and the date.
#[test]
fn the_zip_crate_opens_ours() {
    let mut theirs = zip::ZipArchive::new(Cursor::new(ours())).unwrap();
    let ours = open(&ours(), false).unwrap();
    assert_eq!(theirs.len(), ours.files.len() + 1);
    for (file, bytes) in &ours.files {
        let mut got = theirs.by_name(&file.item.name).unwrap();
        let when = got.last_modified().unwrap();
        assert_eq!((when.year(), when.month(), when.day()), (2026, 10, 5));
        assert_eq!((when.hour(), when.minute(), when.second()), (12, 34, 56));
        assert_eq!(got.unix_mode(), Some(0o100_644));
        let mut out = Vec::new();
        got.read_to_end(&mut out).unwrap();
        assert_eq!(&out, bytes);
    }
}

/// The good one written by another library, stored or packed.
fn by_zip_crate(method: zip::CompressionMethod, folders: bool) -> Vec<u8> {
    let options = zip::write::SimpleFileOptions::default().compression_method(method);
    let mut w = zip::ZipWriter::new(Cursor::new(Vec::new()));
    if folders {
        w.add_directory(format!("job-{}", job()), options).unwrap();
        w.add_directory(format!("job-{}/photos", job()), options).unwrap();
    }
    for p in make::good() {
        w.start_file(String::from_utf8(p.name).unwrap(), options).unwrap();
        w.write_all(&p.bytes).unwrap();
    }
    w.finish().unwrap().into_inner()
}

#[test]
fn ours_opens_the_zip_crates() {
    let want: Vec<_> = open(&make::zip(&make::good()), false).unwrap().files.into_iter().map(|f| f.1).collect();
    for folders in [false, true] {
        let stored = by_zip_crate(zip::CompressionMethod::Stored, folders);
        let got: Vec<_> = open(&stored, false).unwrap().files.into_iter().map(|f| f.1).collect();
        assert_eq!(got, want);
        let packed = by_zip_crate(zip::CompressionMethod::Deflated, folders);
        let got: Vec<_> = open(&packed, true).unwrap().files.into_iter().map(|f| f.1).collect();
        assert_eq!(got, want);
        assert_eq!(open(&packed, false).err(), Some(BadFile::Packed("README.txt".into())));
    }
}

/// A ZIP written to a pipe has its lengths behind the data, and in the directory.
#[test]
fn lengths_behind_the_data_are_taken_from_the_directory() {
    let options = zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Deflated);
    let mut w = zip::ZipWriter::new_stream(Vec::new());
    for p in make::good() {
        w.start_file(String::from_utf8(p.name).unwrap(), options).unwrap();
        w.write_all(&p.bytes).unwrap();
    }
    let bytes = w.finish().unwrap().into_inner();
    assert_eq!(bytes[6] & 8, 8, "the flag for it is set");
    assert_eq!(open(&bytes, true).unwrap().files.len(), 4);
}

#[test]
fn a_comment_and_extra_fields_do_no_harm() {
    let mut parts = make::good();
    parts[1].extra = vec![0x55, 0x54, 5, 0, 1, 0, 0, 0, 0];
    let mut bytes = make::zip(&parts);
    let comment = [b"kept on the shelf PK\x05\x06 ".as_slice(), &[b'.'; 60_000]].concat();
    let at = bytes.len() - 2;
    bytes[at..].copy_from_slice(&(comment.len() as u16).to_le_bytes());
    bytes.extend_from_slice(&comment);
    assert_eq!(open(&bytes, false).unwrap().files.len(), 4);
}

/// A folder that is gone with the test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let path = std::env::temp_dir().join(format!("coatwalk-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Folder(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn run(dir: &Path, command: &str, args: &[&str]) -> String {
    let out = Command::new(command).args(args).current_dir(dir).output().unwrap_or_else(|e| panic!("{command}: {e}"));
    let words = String::from_utf8_lossy(&out.stdout).into_owned() + &String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{command}: {words}");
    words
}

/// The way `README.txt` tells: unpack and compare, with what every Debian has (`unzip` may be missing: then Python's).
#[test]
fn it_can_be_unpacked_and_compared_without_the_app() {
    let dir = Folder::new("unpacked");
    std::fs::write(dir.0.join("backup.zip"), ours()).unwrap();
    if Command::new("unzip").arg("-v").output().is_ok() {
        assert!(run(&dir.0, "unzip", &["-t", "backup.zip"]).contains("No errors detected"));
        run(&dir.0, "unzip", &["-q", "backup.zip"]);
    } else {
        run(&dir.0, "python3", &["-m", "zipfile", "-t", "backup.zip"]);
        run(&dir.0, "python3", &["-m", "zipfile", "-e", "backup.zip", "."]);
    }
    let said = run(&dir.0, "sha256sum", &["-c", "--strict", "manifest.sha256"]);
    assert_eq!(said.lines().filter(|l| l.ends_with(": OK")).count(), 4, "{said}");
    let log = std::fs::read_to_string(dir.0.join(in_job("job.jsonl"))).unwrap();
    assert_eq!(Log::from_lines(log.lines()).job().name, "Sample trailer (invented)");
}

/// A file of terabytes that is nowhere: what was written, and zeros between.
struct Sparse {
    pieces: Vec<(u64, Vec<u8>)>,
    len: u64,
}

impl Sparse {
    fn put(&mut self, piece: Vec<u8>, then: u64) {
        let len = piece.len() as u64;
        self.pieces.push((self.len, piece));
        self.len += len + then;
    }

    fn fill(&self, range: Range<u64>) -> Vec<u8> {
        let mut out = vec![0; (range.end - range.start) as usize];
        let first = self.pieces.partition_point(|(at, p)| at + p.len() as u64 <= range.start);
        for (at, piece) in self.pieces[first..].iter().take_while(|(at, _)| *at < range.end) {
            let (from, to) = (range.start.max(*at), range.end.min(at + piece.len() as u64));
            out[(from - range.start) as usize..(to - range.start) as usize]
                .copy_from_slice(&piece[(from - at) as usize..(to - at) as usize]);
        }
        out
    }
}

impl Source for Sparse {
    fn len(&self) -> u64 {
        self.len
    }

    fn slice(&self, range: Range<u64>) -> Vec<u8> {
        self.fill(range.start.min(self.len)..range.end.min(self.len))
    }
}

impl Read for SparseReader<'_> {
    fn read(&mut self, buf: &mut [u8]) -> std::io::Result<usize> {
        let bytes = self.0.slice(self.1..self.1 + buf.len() as u64);
        buf[..bytes.len()].copy_from_slice(&bytes);
        self.1 += bytes.len() as u64;
        Ok(bytes.len())
    }
}

impl std::io::Seek for SparseReader<'_> {
    fn seek(&mut self, to: std::io::SeekFrom) -> std::io::Result<u64> {
        self.1 = match to {
            std::io::SeekFrom::Start(n) => n,
            std::io::SeekFrom::End(n) => self.0.len.saturating_add_signed(n),
            std::io::SeekFrom::Current(n) => self.1.saturating_add_signed(n),
        };
        Ok(self.1)
    }
}

struct SparseReader<'a>(&'a Sparse, u64);

/// `count` photos of `len` declared bytes, written and found again by ours and by another library.
fn far(count: u128, len: u64) -> Sparse {
    let (mut w, start) = Writer::new(made(), &[]).unwrap();
    let mut file = Sparse { pieces: vec![], len: 0 };
    file.put(start, 0);
    for n in 0..count {
        let photo = Role::Media { job: job(), id: id(n), media: Media::Jpeg };
        file.put(w.before(photo, &Seal { len, crc: 7, sha256: [7; 32] }).unwrap(), len);
    }
    file.put(w.end().unwrap(), 0);
    file
}

#[test]
fn more_than_4_gib_and_more_than_65535_files() {
    for (count, len) in [(120, MEDIA_MOST_BYTES), (70_000, 10), (70_000, MEDIA_MOST_BYTES)] {
        let file = far(count, len);
        let items = items(&file).unwrap();
        assert_eq!(items.len() as u128, count + 2, "with README.txt and the list of digests");
        let mut zip = zip::ZipArchive::new(SparseReader(&file, 0)).unwrap();
        assert_eq!(zip.len() as u128, count + 2);
        for item in [&items[1], &items[items.len() / 2], &items[items.len() - 2]] {
            let range = read::data_range(&file.slice(item.header_range()), item).unwrap();
            assert_eq!(range.end - range.start, len);
            assert_eq!(zip.by_name(&item.name).unwrap().data_start(), Some(range.start));
        }
        assert!(count > 65_535 || file.len > 4 << 30);
    }
}

/// Around the places where the short fields are full.
#[test]
fn just_under_at_and_over_the_short_fields() {
    // With README.txt and the list: 65,534, 65,535 and 65,536 files.
    for count in [65_532, 65_533, 65_534] {
        let file = far(count, 0);
        assert_eq!(items(&file).unwrap().len() as u128, count + 2);
        assert_eq!(zip::ZipArchive::new(SparseReader(&file, 0)).unwrap().len() as u128, count + 2);
        let long = file.slice(file.len - 42..file.len - 38) == b"PK\x06\x07";
        assert_eq!(long, count + 2 >= 65_535, "the longer end is there when needed");
    }
    // The last photo's place just under and just over 4 GiB.
    let photos = |last: u64| {
        let (mut w, start) = Writer::new(made(), &[]).unwrap();
        let mut file = Sparse { pieces: vec![], len: 0 };
        file.put(start, 0);
        let mut n = 0;
        while file.len < last {
            let photo = Role::Media { job: job(), id: id(n), media: Media::Jpeg };
            let header = 30 + photo.name().len() as u64;
            let len = MEDIA_MOST_BYTES.min(last.saturating_sub(file.len + header));
            file.put(w.before(photo, &Seal { len, crc: 7, sha256: [7; 32] }).unwrap(), len);
            n += 1;
        }
        file.put(w.end().unwrap(), 0);
        (file, n as usize)
    };
    for last in [u32::MAX as u64 - 20_000, u32::MAX as u64 - 1, u32::MAX as u64, u32::MAX as u64 + 1] {
        let (file, n) = photos(last);
        let ours = items(&file).unwrap();
        assert_eq!(ours.len(), n + 2);
        let mut zip = zip::ZipArchive::new(SparseReader(&file, 0)).unwrap();
        assert_eq!(ours.last().unwrap().header_range().start, zip.by_name("manifest.sha256").unwrap().header_start());
    }
}

/// A 64-bit place in a hand-made directory, with another extra field before it (APPNOTE.TXT 4.5.3).
#[test]
fn the_64_bit_field_is_found_behind_others() {
    let mut bytes = b"PK\x03\x04\n\0\0\0\0\0\0\0\0\0".to_vec();
    bytes.extend_from_slice(&Seal::of(README).crc.to_le_bytes());
    bytes.extend_from_slice(&[0xff; 8]);
    bytes.extend_from_slice(b"\x0a\0\0\0README.txt");
    bytes.extend_from_slice(README);
    let mut line = b"PK\x01\x02-\0-\0\0\0\0\0\0\0\0\0".to_vec();
    line.extend_from_slice(&Seal::of(README).crc.to_le_bytes());
    line.extend_from_slice(&[0xff; 8]);
    line.extend_from_slice(b"\x0a\0\x21\0\0\0\0\0\0\0\0\0\0\0\xff\xff\xff\xffREADME.txt");
    line.extend_from_slice(b"UT\x01\0x\x01\0\x18\0");
    for n in [README.len() as u64, README.len() as u64, 0] {
        line.extend_from_slice(&n.to_le_bytes());
    }
    let bytes = make::end(bytes, &line, 1, b"");
    let items = items(&bytes).unwrap();
    let range = read::data_range(&bytes.slice(items[0].header_range()), &items[0]).unwrap();
    assert_eq!(bytes.slice(range), README);
}

fn incoming(raw: &str, media: &[Uuid]) -> Incoming {
    let log = inside::log(job(), raw.as_bytes()).unwrap();
    Incoming { lines: log.lines, unread: log.unread, media: media.iter().copied().collect() }
}

#[test]
fn the_preview_tells_new_same_differing_and_unreadable_lines() {
    let photo = sample().lines().find(|l| l.contains("\"photo\"")).unwrap();
    let photo_id = Line::read(photo).unwrap().media.unwrap();
    let ours: Vec<Line> = sample().lines().take(4).map(|l| Line::read(l).unwrap()).collect();
    let edited = sample().lines().nth(1).unwrap().replace("Lashing rings", "Other rings");
    let later = sample().lines().nth(6).unwrap().replace("\"v\":1", "\"v\":9");
    let stray = id(99);
    let file = [sample().lines().next().unwrap(), &edited, &later, photo, "mud"].join("\n");
    let told = preview(&ours, &BTreeSet::new(), &incoming(&file, &[stray]));
    assert_eq!(told.new.iter().map(|l| l.raw.as_str()).collect::<Vec<_>>(), [later.as_str(), photo]);
    assert_eq!(told.same, 1);
    assert_eq!((&told.differs[0].ours, told.differs[0].theirs.raw.as_str()), (&ours[1], edited.as_str()));
    assert_eq!(told.unreadable.iter().map(|u| u.raw.as_str()).collect::<Vec<_>>(), ["mud"]);
    assert_eq!(told.not_understood[0].why, "written by a later version (9 > 1)");
    assert_eq!((told.media_new.len(), &told.media_missing, &told.media_stray), (0, &vec![photo_id], &vec![stray]));
    assert_eq!(
        (told.jobs[0].name.as_str(), told.jobs[0].here, told.jobs[0].new),
        ("Sample trailer (invented)", true, 2)
    );

    let with_photo = incoming(&file, &[photo_id]);
    assert_eq!(preview(&ours, &BTreeSet::new(), &with_photo).media_new, [photo_id]);
    let after: Vec<Line> = ours.into_iter().chain(told.new).collect();
    let again = preview(&after, &[photo_id].into(), &with_photo);
    assert!(again.is_empty() && again.differs.len() == 1, "{again:?}");
}

#[test]
fn the_preview_of_nothing_is_empty() {
    assert_eq!(preview(&[], &BTreeSet::new(), &Incoming::default()), Preview::default());
}

#[test]
fn products_follow_the_same_rule() {
    let line = |n: u128, name: &str| format!("{{\"id\":\"{}\",\"name\":\"{name}\"}}", id(n));
    let (one, two, other) = (line(1, "film"), line(2, "soap"), line(1, "lacquer"));
    let told =
        products(std::slice::from_ref(&one), &[one.clone(), two.clone(), other.clone(), two.clone(), "mud".into()]);
    assert_eq!(told.new, [two]);
    assert_eq!(told.same, 2);
    assert_eq!(told.differs, [(one, other)]);
    assert_eq!(told.unreadable[0].raw, "mud");
}

#[test]
fn what_another_phone_has_fits_a_qr_code() {
    let lines: Vec<Line> = sample().lines().map(|l| Line::read(l).unwrap()).collect();
    let text = Known::of(&lines, &BTreeSet::new()).text();
    // ISO/IEC 18004, from memory: 2331 bytes at level M.
    assert!(text.len() < 2331 / 4, "{text}");
    for (old, new) in [("has 1", "has 2"), ("019a", "019x"), (" 20", " x"), ("\n", "\nwants x\n")] {
        assert!(Known::read(&text.replacen(old, new, 1)).is_err(), "{new}");
    }
}

/// Two phones out of the sample: each with entries of its own, by the names given.
struct Two {
    log: Log,
    ours: BTreeSet<Uuid>,
    theirs: BTreeSet<Uuid>,
}

fn two(ours: &[&str], theirs: &[&str], common: &[&str]) -> Two {
    let start = sample().lines().next().unwrap();
    let entry = |n: usize, rest: &str| {
        format!(
            "{{\"v\":1,\"id\":\"{}\",\"job\":\"{}\",{rest}}}",
            id(0x1_0000_0000_0000_0000_0000 * 0x99 + n as u128),
            job()
        )
    };
    let (mut lines, mut sides) = (vec![start.to_owned()], [BTreeSet::new(), BTreeSet::new()]);
    for (place, rest) in common.iter().chain(ours).chain(theirs).enumerate() {
        let line = entry(place, rest);
        let its_id = Line::read(&line).unwrap().id;
        for (n, side) in sides.iter_mut().enumerate() {
            let (from, to) = if n == 0 { (0, ours.len()) } else { (ours.len(), ours.len() + theirs.len()) };
            if place < common.len() || (from..to).contains(&(place - common.len())) {
                side.insert(its_id);
            }
        }
        lines.push(line);
    }
    let [ours, theirs] = sides;
    let log = Log::from_lines(&lines);
    assert_eq!((log.unread(), &log.job().problems[..]), (&[][..], &[][..]));
    Two { log, ours, theirs }
}

fn words(two: &Two) -> Vec<String> {
    let found: Vec<Conflict> = conflicts(&two.log, &two.ours, &two.theirs);
    found.iter().map(|c| c.words(two.log.job(), |at| at.format("%H:%M").to_string())).collect()
}

fn done(by: &str, at: &str) -> String {
    let frame = "019a0000-0001-7000-8000-000000000001";
    format!(
        "\"at\":\"2026-10-05T{at}:00Z\",\"by\":\"{by}\",\"kind\":\"done\",\"stage\":\"survey\",\"areas\":[\"{frame}\"]"
    )
}

fn reading(by: &str, at: &str, c: f64) -> String {
    format!("\"at\":\"2026-10-05T{at}:00Z\",\"by\":\"{by}\",\"kind\":\"reading\",\"air_c\":{c}")
}

fn bag(by: &str, number: u32, part: &str) -> String {
    let frame = "019a0000-0001-7000-8000-000000000001";
    format!(
        "\"at\":\"2026-10-05T12:00:00Z\",\"by\":\"{by}\",\"kind\":\"bagged\",\"number\":{number},\"part\":\"{part}\",\"area\":\"{frame}\""
    )
}

#[test]
fn a_stage_finished_by_two_people_is_named() {
    let (a, b) = (done("Anna", "12:10"), done("Bela", "12:40"));
    assert_eq!(
        words(&two(&[&a], &[&b], &[])),
        ["Survey on Frame was finished twice: by Anna (12:10) and by Bela (12:40). The later one counts."]
    );
    assert_eq!(words(&two(&[&a], &[&done("Anna", "12:40")], &[])), [""; 0], "one person, two phones");
    assert_eq!(words(&two(&[&done("", "12:10")], &[&done("", "12:40")], &[])).len(), 1, "two without a name");
    assert_eq!(words(&two(&[&a, &b], &[], &[])), [""; 0], "on one phone it was seen");
    assert_eq!(words(&two(&[], &[&b], &[&a])), [""; 0], "both phones had it: settled");
    let both = two(&[&a], &[&b], &[]);
    let id = *both.theirs.first().unwrap();
    let undone = format!("\"at\":\"2026-10-05T13:00:00Z\",\"kind\":\"undone\",\"entry\":\"{id}\"");
    assert_eq!(words(&two(&[&a], &[&b, &undone], &[])), [""; 0], "taken back");
}

#[test]
fn two_readings_of_the_same_air_are_named() {
    let a = reading("Anna", "12:00", 14.5);
    assert_eq!(
        words(&two(&[&a], &[&reading("Bela", "12:10", 12.0)], &[])),
        ["Two readings within 10 minutes: 14.5 °C by Anna (12:00) and 12 °C by Bela (12:10). The later one counts. \
          Measure again if they disagree."]
    );
    assert_eq!(words(&two(&[&a], &[&reading("Bela", "12:11", 12.0)], &[])), [""; 0]);
    assert_eq!(words(&two(&[&a], &[&reading("Anna", "12:01", 12.0)], &[])), [""; 0]);
}

#[test]
fn bags_of_one_number_are_named_and_told_apart() {
    let both = two(&[&bag("", 4, "lamp")], &[&bag("Anna", 4, "guard"), &bag("Anna", 5, "hose")], &[]);
    assert_eq!(words(&both), ["Two bags carry number 4: 4 is lamp, 4 (Anna) is guard. Write that on the bags."]);
    let labels = |two: &Two| two.log.job().bags.iter().map(|b| two.log.job().bag_label(b)).collect::<Vec<_>>();
    assert_eq!(labels(&both), ["4", "4 (Anna)", "5"]);
    assert_eq!(labels(&two(&[&bag("", 4, "lamp")], &[&bag("", 4, "guard")], &[])), ["4a", "4b"]);
    assert_eq!(labels(&two(&[&bag("Anna", 4, "x")], &[&bag("Anna", 4, "y")], &[])), ["4a (Anna)", "4b (Anna)"]);
    assert_eq!(labels(&two(&[&bag("Anna", 4, "x")], &[&bag("Bela", 4, "y")], &[])), ["4 (Anna)", "4 (Bela)"]);
}

#[test]
fn the_test_maker_makes_a_right_one() {
    assert_eq!(open(&make::zip(&make::good()), false).unwrap().files.len(), 4);
    let mut parts = make::good();
    parts[3] = make::deflated(part("products.jsonl", b"{\"id\":1}\n"));
    assert_eq!(open(&make::zip(&parts), true).unwrap().files[1].1, b"{\"id\":1}\n");
}

/// What the reminder says follows the log as it grows, also by entries that another phone wrote earlier.
#[test]
fn the_tally_counts_what_the_last_backup_lacks() {
    let all: Vec<&str> = sample().lines().collect();
    let photo = all.iter().find_map(|l| Line::read(l).ok()?.media).unwrap();
    let held = BTreeSet::from([photo]);
    let now = Tally::of(&all, &held);
    assert_eq!((now.entries, now.photos), (all.len(), 1));
    assert!(now.photo_bytes > 0, "the entry says how large its photo is");
    // The lines that came in late are the oldest ones.
    let then = Tally::of(&all[3..], &BTreeSet::new());
    assert_eq!(reminder(now, Some(then)).unwrap(), "3 entries and 1 photo are newer than the last backup.");
    assert_eq!(Tally::of(&all, &BTreeSet::new()).photos, 0, "a photo that is not here does not count");
}

/// The preview in words: the first sentence is what is new.
#[test]
fn the_preview_is_told_in_words() {
    let lines: Vec<Line> = sample().lines().map(|l| Line::read(l).unwrap()).collect();
    let count = lines.len();
    let unread = vec![Line::read("mud").unwrap_err()];
    let theirs = Incoming { lines: lines.clone(), unread, media: BTreeSet::from([id(77)]) };
    let told = preview(&lines[..2], &BTreeSet::new(), &theirs).words();
    assert_eq!(
        told,
        [
            format!("{} new entries.", count - 2),
            "2 entries are here already.".into(),
            "1 line can't be read: it stays out.".into(),
            "2 photos or voice notes are neither here nor in the file.".into(),
            "1 photo or voice note belongs to no entry: it stays out.".into(),
        ]
    );
    assert_eq!(preview(&lines, &BTreeSet::new(), &theirs).words()[0], "Nothing new.");
}
