//! What a phone has, in a few hundred bytes (they fit a QR code), so that the other one sends only what it lacks.
//!
//! One digest a job and day, over that day's lines. A day whose digest differs is sent whole: the receiver makes a
//! union, so a line too many does no harm, and a line too few can't happen short of two SHA-256 digests that agree in
//! their first 128 bits.

use std::collections::{BTreeMap, BTreeSet};

use sha2::{Digest, Sha256};
use uuid::Uuid;

use super::Line;
use crate::share::backup::inside::unhex;

const START: &str = "coatwalk has 1";
const DAY_MS: u64 = 24 * 60 * 60 * 1000;
/// More lines than this no phone sends: a hundred jobs of a hundred days.
const LINES_MOST: usize = 10_000;

type Print = [u8; 16];

/// A summary of the lines on a phone, and the pictures and sounds it misses.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Known {
    days: BTreeMap<(Uuid, u64), Print>,
    wants: BTreeSet<Uuid>,
}

impl Known {
    /// Of a phone's lines; `wants` are pictures and sounds that they name and the phone does not have
    /// ([`Preview::media_missing`](super::Preview::media_missing)).
    pub fn of(lines: &[Line], wants: &BTreeSet<Uuid>) -> Known {
        Known {
            days: days(lines).into_iter().map(|(day, lines)| (day, print(&lines))).collect(),
            wants: wants.clone(),
        }
    }

    /// As text, for a file or a QR code.
    pub fn text(&self) -> String {
        let mut text = format!("{START}\n");
        for ((job, day), print) in &self.days {
            let hex: String = print.iter().map(|b| format!("{b:02x}")).collect();
            text += &format!("{job} {day} {hex}\n");
        }
        for id in &self.wants {
            text += &format!("wants {id}\n");
        }
        text
    }

    /// From text.
    ///
    /// # Errors
    /// Words for the screen.
    ///
    /// ```
    /// use coatwalk::share::merge::Known;
    /// assert_eq!(Known::read(&Known::default().text()), Ok(Known::default()));
    /// assert!(Known::read("mud").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Known, String> {
        const NO: &str = "This is not what another phone has. Show the code on the other phone again.";
        let mut lines = text.lines();
        let mut known = Known::default();
        if lines.next() != Some(START) || text.lines().count() > LINES_MOST {
            return Err(NO.into());
        }
        for line in lines {
            let parts: Vec<&str> = line.split(' ').collect();
            let taken = match parts[..] {
                ["wants", id] => Uuid::try_parse(id).ok().map(|id| known.wants.insert(id)).is_some(),
                [job, day, print] => match (Uuid::try_parse(job), day.parse(), unhex(print)) {
                    (Ok(job), Ok(day), Some(print)) => known.days.insert((job, day), print).is_none(),
                    _ => false,
                },
                _ => false,
            };
            if !taken {
                return Err(NO.into());
            }
        }
        Ok(known)
    }
}

/// The lines of `ours` that a phone with `known` may lack: all of a day that is not the same there.
pub fn lacking<'a>(ours: &'a [Line], known: &Known) -> Vec<&'a Line> {
    let days = days(ours).into_iter().filter(|(day, lines)| known.days.get(day) != Some(&print(lines)));
    days.flat_map(|(_, lines)| lines).collect()
}

/// The pictures and sounds to send with [`lacking`]: those its lines name, and those the other phone misses.
pub fn lacking_media(ours: &[Line], our_media: &BTreeSet<Uuid>, known: &Known) -> BTreeSet<Uuid> {
    let named = lacking(ours, known).into_iter().filter_map(|l| l.media);
    named.chain(known.wants.iter().copied()).filter(|m| our_media.contains(m)).collect()
}

/// Lines by job and by the day in their id (UUID version 7: milliseconds in the first six bytes), in order.
fn days(lines: &[Line]) -> BTreeMap<(Uuid, u64), Vec<&Line>> {
    let mut days = BTreeMap::<_, Vec<_>>::new();
    for line in lines {
        days.entry((line.job, (line.id.as_u128() >> 80) as u64 / DAY_MS)).or_default().push(line);
    }
    for lines in days.values_mut() {
        lines.sort_by(|a, b| (a.id, &a.raw).cmp(&(b.id, &b.raw)));
        lines.dedup();
    }
    days
}

/// Over the lines themselves, not their ids alone: so a line that differs is sent, and named on the other side.
fn print(lines: &[&Line]) -> Print {
    let mut sha = Sha256::new();
    for line in lines {
        sha.update(&line.raw);
        sha.update("\n");
    }
    let mut print = Print::default();
    print.copy_from_slice(&sha.finalize()[..16]);
    print
}
