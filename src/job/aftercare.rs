//! What is due after the film: waits that end, looks that come again, the renewal. Reckoned from the days on which the film
//! really went on and on which things were done.
//!
//! May use: the job, chrono's types. Must not: reach for a clock; now and its zone are arguments. Call a film whole.

use chrono::{DateTime, Days, Months, TimeZone, Utc};

use super::fold::{Cell, Job};
use super::stage::Stage;
use super::touch_up;
use crate::sums::range::{Field, check};

/// How hard the machine's life is: the choice that sets how often.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Exposure {
    Shed,
    #[default]
    Outdoors,
    Salt,
}

impl Exposure {
    /// All of them.
    pub const ALL: [Exposure; 3] = [Exposure::Shed, Exposure::Outdoors, Exposure::Salt];

    /// As the screen names them, in the same order.
    pub const TITLES: [&str; 3] = ["Shed, dry field work", "Outdoors", "Salt, manure, fertiliser"];

    /// Its word in the log. Never change one.
    pub fn word(self) -> &'static str {
        ["shed", "outdoors", "salt"][self as usize]
    }

    /// As the screen names it.
    pub fn title(self) -> &'static str {
        Exposure::TITLES[self as usize]
    }

    /// By its word.
    pub fn of(word: &str) -> Option<Exposure> {
        Exposure::ALL.into_iter().find(|e| e.word() == word)
    }

    /// Of a job; Outdoors when nobody said.
    pub fn of_job(job: &Job) -> Exposure {
        job.care.as_ref().and_then(|c| Exposure::of(&c.word)).unwrap_or_default()
    }
}

/// A line of the schedule.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Sort {
    NoWash,
    NoHotWash,
    Rinse,
    Look,
    TouchUp,
    Renew,
}

impl Sort {
    /// All of them, in the order of their first day.
    pub const ALL: [Sort; 6] = [Sort::NoWash, Sort::NoHotWash, Sort::Rinse, Sort::Look, Sort::TouchUp, Sort::Renew];

    /// Its word in the log and in addresses. Never change one.
    pub fn word(self) -> &'static str {
        ["no-wash", "no-hot-wash", "rinse", "look", "touch-up", "renew"][self as usize]
    }

    /// What it is.
    pub fn title(self) -> &'static str {
        [
            "No washing",
            "No hot wash, no degreaser",
            "Rinse with cold water",
            "Look at edges and bolt heads",
            "Touch up worn places",
            "Renew the film",
        ][self as usize]
    }

    /// By its word.
    pub fn of(word: &str) -> Option<Sort> {
        Sort::ALL.into_iter().find(|s| s.word() == word)
    }

    /// A wait that ends by itself; anything else is done.
    pub fn waits(self) -> bool {
        matches!(self, Sort::NoWash | Sort::NoHotWash)
    }

    /// Nearer words for it.
    pub fn more(self) -> &'static str {
        [
            "The film is still soft. Rain is no washing.",
            "Heat and degreaser take a young film off.",
            "After fertiliser, manure or salt, the same day.",
            "Dry off, torch, underneath too. Scratches and rust: touch up.",
            "Clean, dry, then film. Where it is new, no washing begins again.",
            "Wash and coat again, at the latest then.",
        ][self as usize]
    }
}

/// How long.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Span {
    Days(u32),
    Months(u32),
}

impl Span {
    /// "7 days", "1 month".
    pub fn words(self) -> String {
        let (n, one) = match self {
            Span::Days(n) => (n, "day"),
            Span::Months(n) => (n, "month"),
        };
        format!("{n} {one}{}", if n == 1 { "" } else { "s" })
    }

    /// "every 7 days", "every month".
    pub fn each(self) -> String {
        let words = self.words();
        format!("every {}", words.strip_prefix("1 ").unwrap_or(&words))
    }

    /// So much later; the same hour, the last day of a month that is too short.
    pub fn after(self, at: DateTime<Utc>) -> DateTime<Utc> {
        match self {
            Span::Days(n) => at.checked_add_days(Days::new(n.into())),
            Span::Months(n) => at.checked_add_months(Months::new(n)),
        }
        .unwrap_or(at)
    }
}

/// One line of the schedule of a job.
#[derive(Clone, PartialEq, Debug)]
pub struct Row {
    pub sort: Sort,
    /// How long it waits, or how often it comes; none when no day is set: each time it is needed.
    pub every: Option<Span>,
    /// Where that comes from.
    pub basis: &'static str,
    /// When it was last done.
    pub last: Option<DateTime<Utc>>,
    /// When the wait ends, or when it is to be done next.
    pub at: Option<DateTime<Utc>>,
}

const MEMORY: &str = "Default, from memory; the product's sheet wins";
const COMMON: &str = "Default, common practice, no source";
const OWN: &str = "From your product's sheet";

/// How long or how often, and its basis.
fn every(job: &Job, sort: Sort) -> (Option<Span>, &'static str) {
    let care = job.care.as_ref();
    // A number that makes no sense is none.
    let own = |n: Option<u32>, field| n.filter(|n| check(field, f64::from(*n)).is_ok());
    let days = |n: Option<u32>, instead| match own(n, Field::CareDays) {
        Some(n) => (Some(Span::Days(n)), OWN),
        None => (Some(Span::Days(instead)), MEMORY),
    };
    let hard = Exposure::of_job(job);
    let by = |spans: [Option<Span>; 3]| spans[hard as usize];
    use Span::{Days, Months};
    match sort {
        Sort::NoWash => days(care.and_then(|c| c.no_wash_days), 7),
        Sort::NoHotWash => days(care.and_then(|c| c.no_hot_days), 28),
        Sort::Rinse => (by([None, None, Some(Days(7))]), COMMON),
        Sort::Look => (by([Some(Months(1)), Some(Months(1)), Some(Days(14))]), COMMON),
        Sort::TouchUp => (by([Some(Months(12)), Some(Months(6)), Some(Months(3))]), COMMON),
        Sort::Renew => match own(care.and_then(|c| c.renew_months), Field::CareMonths) {
            Some(n) => (Some(Months(n)), OWN),
            None => (by([Some(Months(24)), Some(Months(12)), Some(Months(6))]), MEMORY),
        },
    }
}

/// When the last film went on: the second pass, or the first where there was no second. None while there is no film.
pub fn film_on(job: &Job) -> Option<DateTime<Utc>> {
    let on = |stage: Stage| {
        let at = job.areas().filter_map(move |a| match a.cell(stage) {
            Cell::Done(stamp) => Some(stamp.at),
            _ => None,
        });
        at.max()
    };
    on(Stage::SecondPass).or_else(|| on(Stage::FirstPass))
}

/// The schedule, every line in the order of [`Sort::ALL`]; empty while there is no film. A touch-up renews nothing: that
/// line stays with the job that coated the whole machine.
pub fn rows(job: &Job) -> Vec<Row> {
    let Some(film) = film_on(job) else { return Vec::new() };
    let done = |sort: Sort| {
        let mine = job.looked.iter().filter(|l| l.sort == sort.word() && l.stamp.at >= film);
        mine.map(|l| l.stamp.at).max()
    };
    // Nothing is washed before washing may begin.
    let wash = every(job, Sort::NoWash).0.map_or(film, |s| s.after(film));
    let row = |sort: Sort| {
        let (every, basis) = every(job, sort);
        let last = done(sort);
        let at = every.map(|span| match (sort, last) {
            (Sort::Rinse, None) => wash,
            _ => span.after(last.unwrap_or(film)),
        });
        Row { sort, every, basis, last, at }
    };
    let part = touch_up::is(job);
    Sort::ALL.into_iter().filter(|s| !(part && *s == Sort::Renew)).map(row).collect()
}

/// A day of the aftercare, as it stands to now.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Due {
    pub sort: Sort,
    pub at: DateTime<Utc>,
    /// Days past it: above 0 overdue, 0 today, below 0 still to come.
    pub late_days: i64,
}

impl Due {
    /// Something is to be done today or is overdue.
    pub fn is_due(&self) -> bool {
        !self.sort.waits() && self.late_days >= 0
    }

    /// In words: "Look at edges and bolt heads: overdue by 5 days".
    pub fn words(&self) -> String {
        format!("{}: {}", self.sort.title(), self.when())
    }

    /// When, in words: "overdue by 5 days".
    pub fn when(&self) -> String {
        let days = Span::Days(self.late_days.unsigned_abs() as u32).words();
        match self.late_days {
            _ if self.sort.waits() => format!("for {days} more"),
            0 => "due today".into(),
            1.. => format!("overdue by {days}"),
            _ => format!("in {days}"),
        }
    }
}

/// How much is due, in a few words: "2 looks are due". None when nothing is.
pub fn line<'a>(all: impl IntoIterator<Item = &'a Due>) -> Option<String> {
    let due: Vec<&Due> = all.into_iter().filter(|d| d.is_due()).collect();
    let what = if due.iter().all(|d| d.sort == Sort::Look) { "look" } else { "point" };
    match due.len() {
        0 => None,
        1 => Some(format!("1 {what} is due")),
        n => Some(format!("{n} {what}s are due")),
    }
}

impl Row {
    /// How it stands to now; none for what is done each time it is needed.
    pub fn stands<Z: TimeZone>(&self, now: DateTime<Z>) -> Option<Due> {
        let at = self.at?;
        let day = at.with_timezone(&now.timezone()).date_naive();
        Some(Due { sort: self.sort, at, late_days: (now.date_naive() - day).num_days() })
    }

    /// When it is due or until when it lasts, in words.
    pub fn when<Z: TimeZone>(&self, now: DateTime<Z>) -> String {
        match self.stands(now) {
            None => "each time it is needed".into(),
            Some(due) if self.sort.waits() && due.late_days >= 0 => "over".into(),
            Some(due) => due.when(),
        }
    }
}

/// What is due, what is waited for, and what comes next, most overdue first. A wait that is over is not listed; nothing is,
/// for a job in the bin.
///
/// Days are those of the zone that `now` is told in.
pub fn due<Z: TimeZone>(job: &Job, now: DateTime<Z>) -> Vec<Due> {
    if job.binned.is_some() {
        return Vec::new();
    }
    stand(rows(job).into_iter().filter_map(|r| Some((r.sort, r.at?))), now)
}

/// The same from days kept elsewhere.
pub fn stand<Z: TimeZone>(days: impl IntoIterator<Item = (Sort, DateTime<Utc>)>, now: DateTime<Z>) -> Vec<Due> {
    let zone = now.timezone();
    let today = now.date_naive();
    let late = |at: DateTime<Utc>| (today - at.with_timezone(&zone).date_naive()).num_days();
    let all = days.into_iter().map(|(sort, at)| Due { sort, at, late_days: late(at) });
    let mut all: Vec<Due> = all.filter(|d| !d.sort.waits() || d.late_days < 0).collect();
    all.sort_by_key(|d| (std::cmp::Reverse(d.late_days), d.sort));
    all
}

/// The note of a look: what was typed, and the areas that were not looked at.
///
/// ```
/// use coatwalk::job::aftercare::look_note;
/// assert_eq!(look_note("step edge", &["Roof".into()]), "step edge. Not looked at: Roof");
/// assert_eq!(look_note("", &[]), "");
/// ```
pub fn look_note(typed: &str, unseen: &[String]) -> String {
    let mut parts = Vec::new();
    if !typed.is_empty() {
        parts.push(typed.trim_end_matches('.').to_owned());
    }
    if !unseen.is_empty() {
        parts.push(format!("Not looked at: {}", unseen.join(", ")));
    }
    parts.join(". ")
}
