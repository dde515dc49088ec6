//! Calendar files against RFC 5545, read back with a parser that had no part in writing them.
#![cfg(not(target_arch = "wasm32"))]

use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use coatwalk::share::calendar::{By, Event, MORNING, Repeat, When, ics, uid};
use ical::parser::Component;
use ical::parser::ical::component::{IcalCalendar, IcalEvent};
use proptest::prelude::*;

const HOSTILE: &str =
    "Bolts; nuts, caps \\ rods\nEND:VEVENT\r\nBEGIN:VALARM\rDTSTART:19700101T000000Z\u{7}\u{0} \\n 🚜🧴é";

fn at(h: u32, m: u32) -> DateTime<Utc> {
    Utc.with_ymd_and_hms(2026, 10, 5, h, m, 0).unwrap()
}

fn day(y: i32, m: u32, d: u32) -> When {
    When::Day(NaiveDate::from_ymd_opt(y, m, d).unwrap())
}

fn event(when: When) -> Event {
    Event {
        uid: uid(uuid::Uuid::from_u128(0x1234), "air-out"),
        sequence: 0,
        stamp: at(9, 30),
        when,
        lasts_min: 0,
        title: "Film has aired out".into(),
        text: "Look before you refit.".into(),
        alarm_min_before: vec![0],
        repeat: None,
    }
}

fn read(file: &str) -> IcalCalendar {
    let mut all: Vec<_> =
        ical::IcalParser::new(file.as_bytes()).collect::<Result<_, _>>().unwrap_or_else(|e| panic!("{e}\n{file}"));
    assert_eq!(all.len(), 1, "one calendar in one file");
    all.remove(0)
}

fn only(file: &str) -> IcalEvent {
    let mut calendar = read(file);
    assert_eq!(calendar.events.len(), 1);
    calendar.events.remove(0)
}

fn value(of: &impl Component, name: &str) -> Option<String> {
    of.get_property(name).and_then(|p| p.value.clone())
}

/// RFC 5545, 3.3.11: ESCAPED-CHAR = "\\" / "\;" / "\," / "\N" / "\n", and nothing else may follow a backslash.
fn unescaped(text: &str) -> String {
    let mut chars = text.chars();
    let mut out = String::new();
    while let Some(c) = chars.next() {
        match c {
            '\\' => match chars.next() {
                Some('n' | 'N') => out.push('\n'),
                Some(c @ ('\\' | ';' | ',')) => out.push(c),
                other => panic!("a backslash before {other:?}"),
            },
            ';' | ',' => panic!("{c:?} stands bare in {text:?}"),
            c => out.push(c),
        }
    }
    out
}

/// What a text must read as: line ends are one, control characters are gone (TSAFE-CHAR in 3.3.11 has none).
fn meant(text: &str) -> String {
    let lines = text.replace("\r\n", "\n").replace('\r', "\n");
    lines.chars().filter(|c| *c == '\n' || *c == '\t' || !c.is_control()).collect()
}

#[test]
fn a_clock_is_a_moment_in_utc() {
    let mut e = event(When::At(at(12, 0)));
    e.lasts_min = 90;
    let file = ics(&[e]);
    let calendar = read(&file);
    // 3.6: PRODID and VERSION must be there, once.
    assert_eq!(value(&calendar, "VERSION").unwrap(), "2.0");
    assert!(!value(&calendar, "PRODID").unwrap().is_empty());
    assert_eq!(value(&calendar, "METHOD").unwrap(), "PUBLISH");
    let e = &calendar.events[0];
    // 3.3.5, form 2: UTC, with Z. 3.8.7.2: DTSTAMP must be UTC.
    assert_eq!(value(e, "DTSTART").unwrap(), "20261005T120000Z");
    assert_eq!(value(e, "DTEND").unwrap(), "20261005T133000Z");
    assert_eq!(value(e, "DTSTAMP").unwrap(), "20261005T093000Z");
    assert_eq!(value(e, "UID").unwrap(), "00000000-0000-0000-0000-000000001234-air-out");
    assert_eq!(value(e, "SUMMARY").unwrap(), "Film has aired out");
    assert_eq!(value(e, "RRULE"), None);
}

#[test]
fn a_moment_alone_has_no_end() {
    // 3.8.2.2: DTEND must be later than DTSTART, so it is left out (3.6.1: the event then ends where it starts).
    assert_eq!(value(&only(&ics(&[event(When::At(at(12, 0)))])), "DTEND"), None);
}

#[test]
fn a_day_is_a_date_and_ends_before_the_next() {
    let e = only(&ics(&[event(day(2027, 2, 28))]));
    // 3.3.4 and 3.2.20: VALUE=DATE. 3.6.1: DTEND is not part of it.
    for (name, date) in [("DTSTART", "20270228"), ("DTEND", "20270301")] {
        let p = e.get_property(name).unwrap();
        assert_eq!(p.value.as_deref(), Some(date));
        assert_eq!(p.params, Some(vec![("VALUE".into(), vec!["DATE".into()])]));
    }
}

#[test]
fn alarms_ring_where_they_should() {
    let mut e = event(day(2027, 5, 1));
    e.alarm_min_before = vec![0, 15, 1440, MORNING];
    let e = only(&ics(&[e]));
    // 3.6.6: DISPLAY needs ACTION, DESCRIPTION, TRIGGER. 3.8.6.3: a duration from the start, minus is before it.
    let triggers: Vec<_> = e.alarms.iter().map(|a| value(a, "TRIGGER").unwrap()).collect();
    assert_eq!(triggers, ["PT0S", "-PT15M", "-PT1440M", "PT480M"]);
    for alarm in &e.alarms {
        assert_eq!(value(alarm, "ACTION").unwrap(), "DISPLAY");
        assert_eq!(value(alarm, "DESCRIPTION").unwrap(), "Film has aired out");
    }
}

#[test]
fn aftercare_comes_again() {
    let rule = |when, by, every, times| {
        let mut e = event(when);
        e.repeat = Some(Repeat { by, every, times });
        value(&only(&ics(&[e])), "RRULE").unwrap()
    };
    // 3.3.10. FREQ stands first, as older readers want it.
    assert_eq!(rule(day(2027, 3, 15), By::Month, 1, None), "FREQ=MONTHLY");
    assert_eq!(rule(day(2027, 3, 15), By::Month, 3, Some(4)), "FREQ=MONTHLY;INTERVAL=3;COUNT=4");
    assert_eq!(rule(day(2027, 3, 15), By::Year, 1, None), "FREQ=YEARLY");
    assert_eq!(rule(day(2027, 3, 31), By::Week, 2, None), "FREQ=WEEKLY;INTERVAL=2");
    // A 31st must not leave out the months of 30 days.
    assert_eq!(rule(day(2027, 1, 31), By::Month, 1, None), "FREQ=MONTHLY;BYMONTHDAY=28,29,30,31;BYSETPOS=-1");
    assert_eq!(rule(day(2027, 1, 29), By::Month, 1, None), "FREQ=MONTHLY;BYMONTHDAY=28,29;BYSETPOS=-1");
    assert_eq!(rule(day(2028, 2, 29), By::Year, 1, None), "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=28,29;BYSETPOS=-1");
}

#[test]
fn a_moved_date_replaces_its_event() {
    let before = event(When::At(at(12, 0)));
    let moved = Event { sequence: 1, when: When::At(at(18, 0)), ..before.clone() };
    let (before, moved) = (only(&ics(&[before])), only(&ics(&[moved])));
    // 3.8.4.7 and 3.8.7.4: the same UID with a higher SEQUENCE is the later state of one event.
    assert_eq!(value(&before, "UID"), value(&moved, "UID"));
    let sequence = |e| value(e, "SEQUENCE").unwrap().parse::<u32>().unwrap();
    assert!(sequence(&moved) > sequence(&before));
    assert_ne!(value(&before, "DTSTART"), value(&moved, "DTSTART"));
}

#[test]
fn two_clocks_of_a_job_are_two_events() {
    let job = uuid::Uuid::from_u128(1);
    assert_ne!(uid(job, "air-out"), uid(job, "touch-dry"));
    assert_ne!(uid(job, "air-out"), uid(uuid::Uuid::from_u128(2), "air-out"));
    let other = Event { uid: uid(job, "touch-dry"), ..event(When::At(at(8, 0))) };
    assert_eq!(read(&ics(&[event(When::At(at(12, 0))), other])).events.len(), 2);
}

#[test]
fn hostile_words_stay_words() {
    let mut e = event(When::At(at(12, 0)));
    (e.title, e.text) = (HOSTILE.into(), HOSTILE.repeat(3));
    let e = only(&ics(&[e]));
    assert_eq!(unescaped(&value(&e, "SUMMARY").unwrap()), meant(HOSTILE));
    assert_eq!(unescaped(&value(&e, "DESCRIPTION").unwrap()), meant(&HOSTILE.repeat(3)));
    assert_eq!(value(&e, "DTSTART").unwrap(), "20261005T120000Z");
    assert_eq!(e.alarms.len(), 1);
    assert_eq!(unescaped(&value(&e.alarms[0], "DESCRIPTION").unwrap()), meant(HOSTILE));
}

/// 3.1: lines end in CRLF and are no longer than 75 octets; a fold is CRLF and one space, never inside a character.
fn folded_well(file: &str) {
    assert!(file.ends_with("\r\n"));
    for line in file.as_bytes().split(|b| *b == b'\n') {
        let Some(line) = line.strip_suffix(b"\r") else {
            assert!(line.is_empty(), "a line ends without CR");
            continue;
        };
        assert!(line.len() <= 75, "{} octets", line.len());
        assert!(std::str::from_utf8(line).is_ok(), "a character is cut");
        assert!(!line.contains(&b'\r'));
    }
}

#[test]
fn three_hundred_characters_are_folded() {
    for text in ["a".repeat(300), "é".repeat(300), "🚜".repeat(300), "a🚜é漢".repeat(75)] {
        let e = Event { title: text.clone(), ..event(When::At(at(12, 0))) };
        let file = ics(&[e]);
        folded_well(&file);
        assert!(
            file.lines().filter(|l| l.starts_with(' ')).count() >= 8,
            "title and alarm are both too long for a line"
        );
        assert_eq!(unescaped(&value(&only(&file), "SUMMARY").unwrap()), text);
    }
}

proptest! {
    #[test]
    fn any_text_comes_back(title in "\\PC{1,200}", text in any::<String>(), sequence: u32, alarm: i64, lasts_min: u32) {
        // The reader drops blanks at the ends of a value; the standard does not.
        let (title, text) = (format!("[{title}]"), format!("[{text}]"));
        let e = Event {
            title: title.clone(), text: text.clone(), sequence, lasts_min, alarm_min_before: vec![alarm],
            ..event(When::At(at(12, 0)))
        };
        let file = ics(&[e]);
        folded_well(&file);
        let e = only(&file);
        prop_assert_eq!(unescaped(&value(&e, "SUMMARY").unwrap()), meant(&title));
        prop_assert_eq!(unescaped(&value(&e, "DESCRIPTION").unwrap()), meant(&text));
        prop_assert_eq!(value(&e, "SEQUENCE").unwrap(), sequence.to_string());
        prop_assert_eq!(e.alarms.len(), 1);
    }
}
