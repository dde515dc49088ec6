//! A date leaves as a calendar file (RFC 5545): the phone's own calendar rings when the app sleeps.
//!
//! May use: chrono's types. Must not: reach for a clock or for random numbers; stamp, id and sequence are arguments.
//!
//! By hand, a few lines: the `icalendar` crate switches on chrono's `clock` and uuid's random ids for the whole build, also
//! natively, where that must not compile; and it needs the clock and an id of chance itself when an event brings none.

use chrono::{DateTime, Datelike, Days, NaiveDate, TimeDelta, Timelike, Utc};
use uuid::Uuid;

/// Eight in the morning of an all-day event, as an alarm: such an event starts at midnight where the phone is.
pub const MORNING: i64 = -8 * 60;

/// Longest line in octets, its end not counted (RFC 5545, 3.1).
const LINE_OCTETS: usize = 75;

/// One date for the calendar.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Event {
    /// The same for the same thing each time: see [`uid`].
    pub uid: String,
    /// Goes up each time the date moves: a calendar then replaces the event of the same `uid`.
    pub sequence: u32,
    /// When the file was made.
    pub stamp: DateTime<Utc>,
    /// When it is.
    pub when: When,
    /// How long a moment lasts, minutes; 0 is the moment alone. A day lasts its day, whatever stands here.
    pub lasts_min: u32,
    /// One line.
    pub title: String,
    /// The rest; may have lines.
    pub text: String,
    /// Alarms, minutes before the start. 0 is at the start, below 0 after it: [`MORNING`] for days.
    pub alarm_min_before: Vec<i64>,
    /// Comes again.
    pub repeat: Option<Repeat>,
}

/// When an event is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum When {
    /// A moment, as the end of a clock. Written in UTC; the calendar shows it in its own zone.
    At(DateTime<Utc>),
    /// A whole day, wherever the phone is.
    Day(NaiveDate),
}

/// How an event comes again. Meant for days: a moment keeps its hour in UTC, so summer time moves it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Repeat {
    /// By what.
    pub by: By,
    /// Every so many: 3 with [`By::Month`] is each quarter. 0 counts as 1.
    pub every: u32,
    /// How often in all, the first one counted; without end when none.
    pub times: Option<u32>,
}

/// What a repeat counts in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum By {
    Week,
    Month,
    Year,
}

/// An id that stays: the job's, and what the date is in it.
///
/// ```
/// # use coatwalk::share::calendar::uid;
/// let job = uuid::Uuid::from_u128(7);
/// assert_eq!(uid(job, "air-out"), "00000000-0000-0000-0000-000000000007-air-out");
/// ```
pub fn uid(job: Uuid, clock: &str) -> String {
    format!("{job}-{clock}")
}

/// The events as a calendar file, `text/calendar`. Give it one at least: the standard knows no empty calendar.
///
/// Source: RFC 5545; each line of the file names its section in `tests/calendar.rs`.
///
/// ```
/// use coatwalk::share::calendar::{Event, When, ics};
/// let at = chrono::DateTime::from_timestamp(1_791_201_600, 0).unwrap();
/// let refit = Event {
///     uid: "job-air-out".into(),
///     sequence: 0,
///     stamp: at,
///     when: When::At(at),
///     lasts_min: 0,
///     title: "Refit".into(),
///     text: "Shed; trestles, too".into(),
///     alarm_min_before: vec![15],
///     repeat: None,
/// };
/// let file = ics(&[refit]);
/// assert!(file.contains("DTSTART:20261005T120000Z\r\n"));
/// assert!(file.contains("DESCRIPTION:Shed\\; trestles\\, too\r\n"));
/// assert!(file.contains("TRIGGER:-PT15M\r\n"));
/// ```
pub fn ics(events: &[Event]) -> String {
    let mut file = File(String::new());
    file.line("BEGIN:VCALENDAR");
    file.line("VERSION:2.0");
    file.line("PRODID:-//Coatwalk//Coatwalk//EN");
    file.line("METHOD:PUBLISH");
    for event in events {
        file.event(event);
    }
    file.line("END:VCALENDAR");
    file.0
}

struct File(String);

impl File {
    /// One line, folded where it is too long.
    fn line(&mut self, line: &str) {
        let (mut rest, mut room) = (line, LINE_OCTETS);
        while rest.len() > room {
            let (now, later) = rest.split_at(fold_at(rest, room));
            self.0.push_str(now);
            self.0.push_str("\r\n ");
            (rest, room) = (later, LINE_OCTETS - 1);
        }
        self.0.push_str(rest);
        self.0.push_str("\r\n");
    }

    fn text(&mut self, name: &str, text: &str) {
        self.line(&format!("{name}:{}", escaped(text)));
    }

    fn event(&mut self, e: &Event) {
        self.line("BEGIN:VEVENT");
        self.text("UID", &e.uid);
        self.line(&format!("DTSTAMP:{}", moment(e.stamp)));
        self.line(&format!("SEQUENCE:{}", e.sequence));
        match e.when {
            When::At(at) => {
                self.line(&format!("DTSTART:{}", moment(at)));
                // An end must be later than its start.
                let end = at.checked_add_signed(TimeDelta::minutes(e.lasts_min.into())).filter(|end| *end > at);
                if let Some(end) = end {
                    self.line(&format!("DTEND:{}", moment(end)));
                }
            }
            When::Day(day) => {
                self.line(&format!("DTSTART;VALUE=DATE:{}", date(day)));
                // The end is the first day that no longer belongs to it.
                if let Some(next) = day.checked_add_days(Days::new(1)) {
                    self.line(&format!("DTEND;VALUE=DATE:{}", date(next)));
                }
            }
        }
        if let Some(repeat) = e.repeat {
            self.line(&rule(repeat, e.when));
        }
        self.text("SUMMARY", &e.title);
        if !e.text.is_empty() {
            self.text("DESCRIPTION", &e.text);
        }
        // A reminder keeps nobody's day busy.
        self.line("TRANSP:TRANSPARENT");
        for minutes in &e.alarm_min_before {
            self.line("BEGIN:VALARM");
            self.line("ACTION:DISPLAY");
            self.text("DESCRIPTION", &e.title);
            self.line(&trigger(*minutes));
            self.line("END:VALARM");
        }
        self.line("END:VEVENT");
    }
}

/// Where to fold: never inside a character; not beside a blank either, as some readers drop blanks at the ends of lines.
fn fold_at(line: &str, room: usize) -> usize {
    let mut places = (1..=room).rev().filter(|i| line.is_char_boundary(*i));
    let longest = places.clone().next().unwrap_or(room);
    let blank = |i: &usize| line[..*i].ends_with(char::is_whitespace) || line[*i..].starts_with(char::is_whitespace);
    places.find(|i| !blank(i)).unwrap_or(longest)
}

fn trigger(minutes_before: i64) -> String {
    match minutes_before {
        0 => "TRIGGER:PT0S".into(),
        before if before > 0 => format!("TRIGGER:-PT{before}M"),
        after => format!("TRIGGER:PT{}M", after.unsigned_abs()),
    }
}

/// The rule of a repeat. A month without the day would be left out (RFC 5545, 3.3.10): its last day takes the place, as the
/// last one that exists of 28 up to the day asked for.
fn rule(repeat: Repeat, when: When) -> String {
    let day = match when {
        When::At(at) => at.date_naive(),
        When::Day(day) => day,
    };
    let freq = match repeat.by {
        By::Week => "WEEKLY",
        By::Month => "MONTHLY",
        By::Year => "YEARLY",
    };
    let mut rule = format!("RRULE:FREQ={freq}");
    if repeat.every > 1 {
        rule += &format!(";INTERVAL={}", repeat.every);
    }
    let leap_day = day.month() == 2 && day.day() == 29;
    if repeat.by == By::Year && leap_day {
        rule += ";BYMONTH=2";
    }
    if repeat.by == By::Month && day.day() > 28 || repeat.by == By::Year && leap_day {
        let days: Vec<String> = (28..=day.day()).map(|d| d.to_string()).collect();
        rule += &format!(";BYMONTHDAY={};BYSETPOS=-1", days.join(","));
    }
    if let Some(times) = repeat.times {
        rule += &format!(";COUNT={}", times.max(1));
    }
    rule
}

fn date(day: NaiveDate) -> String {
    format!("{:04}{:02}{:02}", day.year(), day.month(), day.day())
}

fn moment(at: DateTime<Utc>) -> String {
    format!("{}T{:02}{:02}{:02}Z", date(at.date_naive()), at.hour(), at.minute(), at.second())
}

/// A value of type TEXT (RFC 5545, 3.3.11). Control characters have no place in one.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.replace("\r\n", "\n").chars() {
        match c {
            '\\' | ';' | ',' => out.extend(['\\', c]),
            '\n' | '\r' => out.push_str("\\n"),
            c if c.is_control() && c != '\t' => {}
            c => out.push(c),
        }
    }
    out
}
