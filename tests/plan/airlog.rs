//! The readings over a job as they are drawn, and the coming night, on a made-up night and in several zones.

use chrono::{TimeDelta, TimeZone};
use chrono_tz::{America, Asia, Australia, Europe, Tz};
use coatwalk::job::airlog::{self, AirLog, curve, standing};
use coatwalk::job::clock::CureRule;
use coatwalk::job::fold::{Reading, Stamp};
use coatwalk::job::outlook::{Film, Tonight, tonight};
use coatwalk::job::stage::Stage;
use coatwalk::sums::air::{self, Air, Limits};
use coatwalk::units::{CELSIUS, UnitSet};

use super::*;

fn reading(when: DateTime<Utc>, air_c: f64, rh: f64, steel_c: f64) -> Reading {
    let stamp = Stamp { entry: Uuid::nil(), at: when, by: String::new() };
    Reading { stamp, air_c, rh_pct: Some(rh), steel_c: Some(steel_c), product_c: None }
}

fn of(readings: Vec<Reading>) -> Job {
    Job { readings, ..Job::default() }
}

fn local(zone: Tz, text: &str) -> DateTime<Utc> {
    let naive = chrono::NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").unwrap();
    zone.from_local_datetime(&naive).single().unwrap().with_timezone(&Utc)
}

/// Twelve readings over two days: a fine day, a damp morning, drying out by noon.
fn two_days(zone: Tz) -> Vec<Reading> {
    [
        ("2026-10-05 08:00", 9.0, 88.0, 7.0),
        ("2026-10-05 10:00", 12.0, 75.0, 9.5),
        ("2026-10-05 12:00", 16.0, 60.0, 13.0),
        ("2026-10-05 14:00", 18.0, 52.0, 16.0),
        ("2026-10-05 16:00", 17.0, 55.0, 16.5),
        ("2026-10-05 19:00", 12.0, 75.0, 13.0),
        ("2026-10-06 07:00", 5.0, 95.0, 4.5),
        ("2026-10-06 08:30", 8.0, 92.0, 5.0),
        ("2026-10-06 10:00", 12.0, 80.0, 8.0),
        ("2026-10-06 11:30", 15.0, 62.0, 12.0),
        ("2026-10-06 13:00", 17.0, 55.0, 15.0),
        ("2026-10-06 14:30", 18.0, 50.0, 16.5),
    ]
    .map(|(when, air, rh, steel)| reading(local(zone, when), air, rh, steel))
    .to_vec()
}

const ZONES: [Tz; 4] = [Europe::Berlin, America::New_York, Asia::Kolkata, Australia::Lord_Howe];

fn night(log: &[Reading], low: f64, zone: Tz) -> Tonight {
    let now = log.last().unwrap().stamp.at + TimeDelta::minutes(10);
    let film = Film::ToSpray(TimeDelta::minutes(155));
    tonight(log, low, film, &CureRule::default(), now, UnitSet::Metric, &zone).unwrap()
}

#[test]
fn nothing_read_draws_nothing_and_one_reading_draws_six_hours() {
    let now = at("2026-10-05T12:00:00Z");
    assert_eq!(curve(&of(vec![]), None, now), None);
    let one = curve(&of(vec![reading(now, 15.0, 60.0, 14.0)]), None, now).unwrap();
    assert_eq!((one.count(), one.to - one.from), (1, TimeDelta::hours(6)));
    assert!(one.too_small.is_empty() && one.now == Some(now));
    let absurd = curve(&of(vec![reading(now, 4000.0, 60.0, 14.0)]), None, now);
    assert_eq!(absurd, None, "such an air is drawn nowhere");
    let bare = Reading { rh_pct: None, ..reading(now, 15.0, 60.0, 14.0) };
    assert_eq!(curve(&of(vec![bare]), None, now).unwrap().runs[0][0].steel, None);
}

/// An unread night is no line; the damp morning is marked until the gap is back, reckoned here by hand.
#[test]
fn the_lines_break_in_an_unread_night_and_too_small_gaps_are_marked() {
    for zone in ZONES {
        let log = two_days(zone);
        let now = log[11].stamp.at + TimeDelta::minutes(10);
        let drawn = curve(&of(log.clone()), None, now).unwrap();
        assert_eq!(drawn.runs.iter().map(Vec::len).collect::<Vec<_>>(), [6, 6], "{zone}");
        let over = |r: &Reading| {
            let dew = air::frost_point(Air::new(CELSIUS.of(r.air_c), r.rh_pct.unwrap())).unwrap();
            let dew = dew.max(air::dew_point(Air::new(CELSIUS.of(r.air_c), r.rh_pct.unwrap())).unwrap());
            r.steel_c.unwrap() - CELSIUS.get(dew) - 3.0
        };
        let cross = |a: &Reading, b: &Reading| {
            let part = over(a) / (over(a) - over(b));
            a.stamp.at + TimeDelta::seconds(((b.stamp.at - a.stamp.at).num_seconds() as f64 * part) as i64)
        };
        let small: Vec<bool> = log.iter().map(|r| over(r) < 0.0).collect();
        assert!(small[0] && !small[3] && small[6] && small[7] && !small[11], "the made-up days: {small:?}");
        assert_eq!(drawn.too_small[0].0, log[0].stamp.at);
        let first_end = (0..6).find(|i| !small[*i]).unwrap();
        let by_hand = cross(&log[first_end - 1], &log[first_end]);
        assert!((drawn.too_small[0].1 - by_hand).num_seconds().abs() < 2);
        let morning = drawn.too_small.iter().find(|s| s.0 == log[6].stamp.at).unwrap();
        let dry_again = (6..12).find(|i| !small[*i]).unwrap();
        assert!((morning.1 - cross(&log[dry_again - 1], &log[dry_again])).num_seconds().abs() < 2);
    }
}

#[test]
fn the_forecast_runs_from_the_last_reading_to_the_coldest_hour_of_the_place() {
    for zone in ZONES {
        let log = two_days(zone);
        let told = night(&log, 2.0, zone);
        let now = log[11].stamp.at + TimeDelta::minutes(10);
        let drawn = curve(&of(log.clone()), Some(&told.night), now).unwrap();
        assert_eq!(drawn.ahead.first().unwrap().at, log[11].stamp.at, "{zone}");
        assert_eq!(drawn.to, local(zone, "2026-10-07 05:30"), "{zone}");
        assert!((drawn.ahead.last().unwrap().air_c - 2.0).abs() < 1e-9);
        // The stretch ahead begins when the words say that the gap closes.
        let closes = told.night.closes.unwrap();
        let begins = drawn.too_small.last().unwrap().0;
        assert!((begins - closes).num_seconds().abs() < 120, "{zone}: {begins} for {closes}");
        assert!(drawn.ahead.len() < 30);
        let again: Vec<_> = drawn.ahead.windows(2).filter(|w| w[1].at <= w[0].at).collect();
        assert!(again.is_empty());
    }
}

fn words_of(log: &AirLog, most: i64, zone: Tz) -> Vec<String> {
    log.ticks(most, &zone).into_iter().map(|t| t.words).collect()
}

#[test]
fn the_axis_has_days_and_hours_of_the_place_also_when_the_clocks_change() {
    let drawn = |zone: Tz, from: &str, to: &str| {
        let log = vec![reading(local(zone, from), 9.0, 60.0, 8.0), reading(local(zone, to), 9.0, 60.0, 8.0)];
        curve(&of(log), None, local(zone, to)).unwrap()
    };
    let day = drawn(Europe::Berlin, "2026-10-05 08:00", "2026-10-05 19:00");
    assert_eq!(words_of(&day, 4, Europe::Berlin), ["09:00", "12:00", "15:00", "18:00"]);
    assert_eq!(
        words_of(&day, 4, America::New_York),
        ["03:00", "06:00", "09:00", "12:00"],
        "the same in another place"
    );
    assert_eq!(words_of(&day, 4, Asia::Kolkata), ["12:00", "15:00", "18:00", "21:00"]);
    // Summer time ends and begins; Lord Howe changes by half an hour.
    let days = |zone, from, to| words_of(&drawn(zone, from, to), 4, zone);
    assert_eq!(days(Europe::Berlin, "2026-10-24 08:00", "2026-10-26 10:00"), ["Sun 25", "Mon 26"]);
    assert_eq!(days(America::New_York, "2026-03-07 08:00", "2026-03-09 10:00"), ["Sun 8", "Mon 9"]);
    assert_eq!(days(Australia::Lord_Howe, "2026-10-03 08:00", "2026-10-05 10:00"), ["Sun 4", "Mon 5"]);
    // Midnight itself is left out in Santiago on 6 September 2026.
    let gone = drawn(America::Santiago, "2026-09-05 08:00", "2026-09-06 10:00").ticks(4, &America::Santiago);
    assert!(gone.windows(2).all(|w| w[0].at < w[1].at) && !gone.is_empty());
    for tick in day.ticks(4, &Europe::Berlin) {
        assert!(tick.at >= day.from && tick.at <= day.to);
    }
}

#[test]
fn old_readings_are_left_to_the_list_and_a_clock_that_went_back_is_put_in_order() {
    let now = at("2026-10-15T12:00:00Z");
    let log = vec![
        reading(at("2026-10-01T12:00:00Z"), 9.0, 60.0, 8.0),
        reading(at("2026-10-15T11:00:00Z"), 9.0, 60.0, 8.0),
        reading(at("2026-10-15T09:00:00Z"), 7.0, 60.0, 6.0),
    ];
    let drawn = curve(&of(log), None, now).unwrap();
    assert_eq!((drawn.older, drawn.count()), (1, 2));
    assert_eq!(drawn.runs[0].iter().map(|p| p.air_c).collect::<Vec<_>>(), [7.0, 9.0]);
}

#[test]
fn the_passes_stand_where_they_were_logged() {
    let mut job = coatwalk::job::log::Log::from_lines(Vec::<String>::new()).job().clone();
    let area = AreaId(Uuid::from_u128(7));
    let entry = |id: u128, when: &str, what: What| Entry {
        v: VERSION,
        id: Uuid::from_u128(id),
        job: Uuid::from_u128(1),
        at: at(when),
        by: String::new(),
        what,
    };
    let seeds = vec![AreaSeed { id: area, name: "Frame".into(), of: String::new() }];
    let opened = What::Opened { name: "x".into(), machine: "trailer".into(), seeds, demo: false };
    job.apply(&entry(1, "2026-10-05T07:00:00Z", opened));
    let read = What::Reading { air_c: 15.0, rh_pct: Some(50.0), steel_c: Some(14.0), product_c: None };
    job.apply(&entry(2, "2026-10-05T08:00:00Z", read));
    job.apply(&entry(3, "2026-10-05T10:00:00Z", What::Done { stage: Stage::FirstPass, areas: vec![area] }));
    let drawn = curve(&job, None, at("2026-10-05T11:00:00Z")).unwrap();
    let marks: Vec<_> = drawn.passes.iter().map(|p| (p.stage, p.from, p.to)).collect();
    assert_eq!(marks, [(Stage::FirstPass, at("2026-10-05T10:00:00Z"), at("2026-10-05T10:00:00Z"))]);
}

#[test]
fn the_last_reading_says_its_gap_its_doubt_its_age_and_whether_it_counts() {
    let taken = at("2026-10-05T12:00:00Z");
    let say = |r: &Reading, min: i64, units| {
        standing(r, &Limits::default(), taken + TimeDelta::minutes(min), units, &Europe::Berlin)
    };
    // A gap over 5 °C holds for two hours, a smaller one for half an hour.
    let wide = reading(taken, 18.0, 50.0, 16.0);
    assert_eq!(
        say(&wide, 25, UnitSet::Metric).counts,
        "Read 25 min ago. It counts before the passes until 16:00, 2 h in all."
    );
    assert_eq!(say(&wide, 121, UnitSet::Metric).title, "Read again");
    let near = reading(taken, 15.0, 70.0, 13.5);
    let told = say(&near, 31, UnitSet::Metric);
    assert_eq!(told.counts, "Read 31 min ago: too old for the passes. It counted for 30 min.");
    // Dew point of 15 °C and 70 %: 9.6 °C; by hand.
    assert_eq!(told.gap.unwrap(), "Steel 3.9 °C above dew point, give or take 1.1 °C");
    assert_eq!(say(&near, 5, UnitSet::Us).gap.unwrap(), "Steel 7.1 °F above dew point, give or take 2 °F");
    let damp = say(&reading(taken, 10.0, 90.0, 9.0), 5, UnitSet::Metric);
    assert_eq!(damp.title, "Not yet");
    assert_eq!(damp.against, ["3 °C above is needed.", "Air is at 90 % RH, 85 % is the most."]);
    let frost = say(&reading(taken, -2.0, 70.0, -3.0), 5, UnitSet::Metric);
    assert!(frost.gap.as_ref().unwrap().contains("frost point"), "{frost:?}");
    let wet = say(&reading(taken, 15.0, 95.0, 9.0), 5, UnitSet::Metric);
    assert!(wet.title == "The steel gets wet" && wet.gap.unwrap().contains("under dew point"));
    let bare = Reading { steel_c: None, ..wide };
    assert!(say(&bare, 5, UnitSet::Metric).counts.contains("does not count"));
}

/// Touch-dry is slower in the cold: the start is earlier by as much, in three zones.
#[test]
fn the_night_is_answered_in_the_time_of_the_place_and_touch_dry_is_slower_in_the_cold() {
    for zone in [Europe::Berlin, America::New_York, Asia::Kolkata] {
        let noon = reading(local(zone, "2026-10-05 08:00"), 19.0, 38.0, 18.0);
        let told = night(std::slice::from_ref(&noon), 6.0, zone);
        // Midway between 18 and 6 °C is 12 °C: 4 h at 20 °C take 4·2^0.8 h.
        let dry_min = 4.0 * 60.0 * 2.0f64.powf(0.8);
        let (start, closes) = (told.night.start_by.unwrap(), told.night.closes.unwrap());
        let before = (closes - start).num_seconds() as f64 / 60.0;
        assert!((before - 155.0 - dry_min).abs() <= 1.0, "{zone}: {before}");
        let wall = start.with_timezone(&zone).format("Start by %H:").to_string();
        assert!(told.title.starts_with(&wall), "{zone}: {} for {wall}", told.title);
        assert!(told.words.iter().any(|w| w.contains("at 12 °C, midway")), "{:?}", told.words);
    }
}

#[test]
fn an_old_reading_a_missing_one_and_an_absurd_low_are_answered_in_words() {
    let zone = Europe::Berlin;
    let noon = reading(at("2026-10-05T10:00:00Z"), 18.0, 45.0, 17.0);
    let ask = |log: &[Reading], low: f64, film: Film, hours: i64| {
        let now = noon.stamp.at + TimeDelta::hours(hours);
        tonight(log, low, film, &CureRule::default(), now, UnitSet::Us, &zone)
    };
    let film = Film::ToSpray(TimeDelta::minutes(155));
    assert!(ask(&[], 4.0, film, 1).unwrap_err().starts_with("Take a reading"));
    assert_eq!(
        ask(std::slice::from_ref(&noon), 4.0, film, 14).unwrap_err(),
        "The last reading is 14 h old: take a new one, the night is reckoned from it."
    );
    assert!(ask(std::slice::from_ref(&noon), -300.0, film, 1).unwrap_err().starts_with("Air temperature must be"));
    assert!(ask(std::slice::from_ref(&noon), f64::NAN, film, 1).is_err());
    let us = ask(std::slice::from_ref(&noon), 4.0, film, 1).unwrap();
    assert!(us.words.iter().any(|w| w.contains("under 5.4 °F")), "{:?}", us.words);
    // The film is on: no start is asked for, only whether it dries in time.
    let dry = noon.stamp.at + TimeDelta::hours(17);
    let on = ask(std::slice::from_ref(&noon), 4.0, Film::On(Some(dry)), 1).unwrap();
    assert!(on.title.starts_with("The gap closes about "), "{}", on.title);
    assert!(on.night.start_by.is_none() && !on.words.iter().any(|w| w.starts_with("Start by")), "{:?}", on.words);
    assert!(on.words.iter().any(|w| w.contains("after the gap closes")), "{:?}", on.words);
    assert_eq!(airlog::whole(120), "2 h");
}
