//! Moments as they stand in the log: UTC, RFC 3339, to the millisecond: "2026-10-05T12:00:00.000Z".
//!
//! May use: chrono's types. Must not: reach for a clock. By hand, because chrono's own reader brings its whole pattern
//! language along: several kilobytes of a phone's download for one fixed pattern.

use chrono::{DateTime, Datelike, NaiveDate, Timelike, Utc};

/// A moment in words.
///
/// ```
/// use coatwalk::job::moment;
/// let at = moment::read("2026-10-05T12:00:00.250Z").unwrap();
/// assert_eq!(moment::write(at), "2026-10-05T12:00:00.250Z");
/// assert_eq!(moment::read("2026-10-05T12:00:00Z"), moment::read("2026-10-05T12:00:00.000Z"));
/// assert_eq!(moment::read("5 October"), None);
/// ```
pub fn write(at: DateTime<Utc>) -> String {
    let (d, t) = (at.date_naive(), at.time());
    let millis = t.nanosecond() / 1_000_000;
    format!(
        "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{millis:03}Z",
        d.year(),
        d.month(),
        d.day(),
        t.hour(),
        t.minute(),
        t.second()
    )
}

/// A moment from words; none when they are not of this pattern, or no moment (30 February).
pub fn read(words: &str) -> Option<DateTime<Utc>> {
    let bytes = words.as_bytes();
    let marks = [(4, b'-'), (7, b'-'), (10, b'T'), (13, b':'), (16, b':')];
    if bytes.len() < 20 || bytes.last() != Some(&b'Z') || marks.iter().any(|(i, m)| bytes[*i] != *m) {
        return None;
    }
    let number = |from: usize, to: usize| {
        bytes.get(from..to)?.iter().try_fold(0u32, |n, b| b.is_ascii_digit().then(|| n * 10 + u32::from(b - b'0')))
    };
    let millis = match &bytes[19..bytes.len() - 1] {
        [] => 0,
        [b'.', part @ ..] if (1..=9).contains(&part.len()) => {
            number(20, 20 + part.len().min(3))? * 10u32.pow(3 - part.len().min(3) as u32)
        }
        _ => return None,
    };
    let date = NaiveDate::from_ymd_opt(number(0, 4)? as i32, number(5, 7)?, number(8, 10)?)?;
    let at = date.and_hms_milli_opt(number(11, 13)?, number(14, 16)?, number(17, 19)?, millis)?;
    Some(at.and_utc())
}

/// Days as they stand in the log: "2026-10-05".
pub mod day {
    use chrono::{Datelike, NaiveDate};
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    /// A day in words.
    ///
    /// ```
    /// use coatwalk::job::moment::day;
    /// let date = day::read("2028-02-29").unwrap();
    /// assert_eq!(day::write(date), "2028-02-29");
    /// assert_eq!(day::read("2027-02-29"), None);
    /// ```
    pub fn write(date: NaiveDate) -> String {
        format!("{:04}-{:02}-{:02}", date.year(), date.month(), date.day())
    }

    /// A day from words; none when they are not of this pattern, or no day.
    pub fn read(words: &str) -> Option<NaiveDate> {
        // The pattern of a moment, so its reader will do.
        (words.len() == 10).then(|| super::read(&format!("{words}T00:00:00Z")))?.map(|at| at.date_naive())
    }

    /// For `#[serde(with = "day")]` on a day that may be missing.
    pub(crate) fn serialize<S: Serializer>(date: &Option<NaiveDate>, to: S) -> Result<S::Ok, S::Error> {
        match date {
            Some(date) => to.serialize_some(&write(*date)),
            None => to.serialize_none(),
        }
    }

    /// For `#[serde(with = "day")]` on a day that may be missing.
    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<NaiveDate>, D::Error> {
        let words = Option::<String>::deserialize(from)?;
        let read = |w: String| read(&w).ok_or_else(|| D::Error::custom("not a day such as 2026-10-05"));
        words.map(read).transpose()
    }
}
