//! Working hours stand on the wall clock, waits run on real time: daylight saving, midnight, the date line.

use chrono::{TimeDelta, TimeZone, Timelike, Utc};
use chrono_tz::{Africa, America, Asia, Australia, Europe, Pacific, Tz};
use coatwalk::job::outlook::coldest_hour;
use coatwalk::job::plan::{Days, Doing, Wait, Week};
use coatwalk::job::stage::Stage;

use super::*;

fn local(zone: Tz, text: &str) -> DateTime<Utc> {
    let naive = chrono::NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").unwrap();
    zone.from_local_datetime(&naive).single().unwrap().with_timezone(&Utc)
}

fn wall(at: DateTime<Utc>, zone: Tz) -> String {
    at.with_timezone(&zone).format("%Y-%m-%d %H:%M").to_string()
}

/// Work never leaves 08:00 to 16:00 on the wall, on either side of a change, in seven zones.
#[test]
fn work_stays_in_the_hours_of_the_wall_clock() {
    let starts = [
        // The Saturday before a Sunday of 23 hours, and of 25.
        (Europe::Berlin, "2026-03-28 08:00"),
        (Europe::Berlin, "2026-10-24 08:00"),
        (America::New_York, "2026-03-07 08:00"),
        (America::New_York, "2026-10-31 08:00"),
        // A change of half an hour; a zone of half an hour without any; a change at midnight.
        (Australia::Lord_Howe, "2026-10-03 08:00"),
        (Asia::Kolkata, "2026-10-03 08:00"),
        (America::Santiago, "2026-09-05 08:00"),
    ];
    for (zone, start) in starts {
        let plan = fresh(&setup(), local(zone, start), &zone);
        for b in plan.blocks.iter().filter(|b| b.doing == Doing::Work) {
            let (from, to) = (b.start.with_timezone(&zone), b.end.with_timezone(&zone));
            let minutes = |t: chrono::NaiveTime| 60 * t.hour() + t.minute();
            assert!(minutes(from.time()) >= 480 && minutes(to.time()) <= 960, "{zone} {b:?}");
            assert_eq!(from.date_naive(), to.date_naive(), "{zone}");
        }
        // The next morning begins at eight on the wall, whatever the night was.
        let mask = plan.work_on(Stage::Mask).next().unwrap().start.with_timezone(&zone);
        assert_eq!((mask.hour(), mask.minute()), (8, 0), "{zone}");
    }
}

/// The night from Saturday to Sunday is an hour short: the wall says 09:00 when 24 hours are over.
#[test]
fn waits_run_on_real_time_over_a_23_hour_day() {
    let zone = Europe::Berlin;
    let plan = fresh(&setup(), local(zone, "2026-03-28 08:00"), &zone);
    let patch = plan.wait(Wait::TestPatch).unwrap();
    assert_eq!(patch.end - patch.start, TimeDelta::hours(24));
    assert_eq!(
        (wall(patch.start, zone).as_str(), wall(patch.end, zone).as_str()),
        ("2026-03-28 08:25", "2026-03-29 09:25")
    );
    // 48 h of air out begun on the Saturday end at one hour more on the wall; in autumn at one hour less.
    for (start, shift) in [("2026-03-27 08:00", 1), ("2026-10-23 08:00", -1)] {
        let plan = fresh(&setup(), local(zone, start), &zone);
        let (coated, refit) = (plan.coated.unwrap(), plan.earliest_refit.unwrap());
        assert_eq!(refit - coated, TimeDelta::hours(48));
        let on_the_wall = refit.with_timezone(&zone).naive_local() - coated.with_timezone(&zone).naive_local();
        assert_eq!(on_the_wall, TimeDelta::hours(48 + shift), "{start}");
    }
}

/// Around the clock, days of 23 and 25 hours are that long and touch each other.
#[test]
fn days_around_the_clock_leave_no_gap_and_no_overlap() {
    let week = Week { from_min: 0, hours: 24.0, ..Week::default() };
    let cases = [
        (Europe::Berlin, "2026-03-28 00:00", [24, 23, 24]),
        (Europe::Berlin, "2026-10-24 00:00", [24, 25, 24]),
        (America::New_York, "2026-03-07 00:00", [24, 23, 24]),
        // Midnight itself is left out on the Sunday.
        (America::Santiago, "2026-09-05 00:00", [24, 23, 24]),
        (Africa::Cairo, "2026-04-23 00:00", [24, 23, 24]),
        (Asia::Kolkata, "2026-03-28 00:00", [24, 24, 24]),
    ];
    for (zone, start, hours) in cases {
        let days = Days::new(week, &zone);
        let from = local(zone, start);
        let placed = days.place(from, TimeDelta::hours(hours.iter().sum()), false);
        let lengths: Vec<i64> = placed.iter().map(|s| (s.1 - s.0).num_hours()).collect();
        assert_eq!(lengths, hours, "{zone} {start}");
        assert!(placed.windows(2).all(|w| w[0].1 == w[1].0), "{zone}: {placed:?}");
    }
}

/// Hours that begin inside the hour that is left out begin with the next one there is.
#[test]
fn a_time_left_out_becomes_the_next_one_there_is() {
    let zone = Europe::Berlin;
    let week = Week { from_min: 150, hours: 4.0, ..Week::default() };
    let days = Days::new(week, &zone);
    let start = days.next_start(local(zone, "2026-03-28 12:00"));
    assert_eq!(wall(start, zone), "2026-03-29 03:00");
    // Of the hour that comes twice, the first.
    let twice = days.next_start(local(zone, "2026-10-24 12:00"));
    assert_eq!(twice, at("2026-10-25T00:30:00Z"));
}

/// Apia went from 29 to 31 December 2011.
#[test]
fn a_day_that_the_calendar_leaves_out_has_no_hours() {
    let zone = Pacific::Apia;
    let days = Days::new(Week::default(), &zone);
    let placed = days.place(local(zone, "2011-12-29 15:00"), TimeDelta::hours(3), false);
    let starts: Vec<String> = placed.iter().map(|s| wall(s.0, zone)).collect();
    assert_eq!(starts, ["2011-12-29 15:00", "2011-12-31 08:00"]);
}

#[test]
fn the_coldest_hour_is_the_coming_one() {
    let zone = America::New_York;
    let evening = local(zone, "2026-10-31 20:00");
    assert_eq!(wall(coldest_hour(evening, &zone), zone), "2026-11-01 05:30");
    let before = local(zone, "2026-11-02 05:00");
    assert_eq!(wall(coldest_hour(before, &zone), zone), "2026-11-02 05:30");
    let after = local(zone, "2026-11-02 05:40");
    assert_eq!(wall(coldest_hour(after, &zone), zone), "2026-11-03 05:30");
}
