//! Machines over years: the aftercare's days, its calendar read back, the bin, touch-ups, history.
#![cfg(not(target_arch = "wasm32"))]

use chrono::{DateTime, FixedOffset, TimeDelta, Utc};
use coatwalk::job::aftercare::{self, Due, Exposure, Sort};
use coatwalk::job::bin::{Bin, KEPT_DAYS, may_go};
use coatwalk::job::entry::{AreaId, AreaSeed, Entry, VERSION, What};
use coatwalk::job::fold::Cell;
use coatwalk::job::gate;
use coatwalk::job::head::Head;
use coatwalk::job::history::{Took, by_machine, due};
use coatwalk::job::log::Log;
use coatwalk::job::product::{Product, Size, Use};
use coatwalk::job::stage::Stage;
use coatwalk::job::touch_up;
use coatwalk::share::calendar::ics;
use coatwalk::share::care;
use ical::parser::Component;
use uuid::Uuid;

fn at(words: &str) -> DateTime<Utc> {
    words.parse().unwrap()
}

fn id(n: u64) -> Uuid {
    uuid::Builder::from_unix_timestamp_millis(1_790_000_000_000 + n, &[5; 10]).into_uuid()
}

const JOB: u64 = 900;

fn area() -> AreaId {
    AreaId(id(1))
}

/// A log by hand: whats with the moment of each.
fn log_of(job: u64, whats: Vec<(&str, What)>) -> Log {
    let mut log = Log::default();
    for (n, (when, what)) in whats.into_iter().enumerate() {
        let id = id(10_000 * job + n as u64);
        log.add(Entry { v: VERSION, id, job: self::id(job), at: at(when), by: String::new(), what });
    }
    assert_eq!(log.job().problems, []);
    log
}

fn opened(name: &str) -> What {
    let seeds = vec![
        AreaSeed { id: area(), of: String::new(), name: "Left".into() },
        AreaSeed { id: AreaId(id(2)), of: String::new(), name: "Right".into() },
    ];
    What::Opened { name: name.into(), machine: "trailer".into(), seeds, demo: false }
}

fn coated(stage: Stage) -> What {
    What::Done { stage, areas: vec![area()] }
}

fn looked(sort: Sort) -> What {
    What::Looked { sort: sort.word().into(), areas: vec![], note: String::new() }
}

fn exposure(e: Exposure, renew_months: Option<u32>) -> What {
    What::Exposure { word: e.word().into(), no_wash_days: None, no_hot_days: None, renew_months }
}

const FILM: &str = "2026-10-05T12:00:00Z";

fn told(log: &Log, now: &str) -> Vec<String> {
    aftercare::due(log.job(), at(now)).iter().map(Due::words).collect()
}

/// The days asked for: 7 without washing, 28 without hot wash, a look each month, renewal in 6 to 24 months (from memory;
/// the look: common practice, no source). Counted here on a calendar, not by the code under test.
#[test]
fn the_days_count_from_the_real_film() {
    let log = log_of(JOB, vec![("2026-10-01T08:00:00Z", opened("Grey trailer")), (FILM, coated(Stage::SecondPass))]);
    let days = |log: &Log| -> Vec<String> {
        aftercare::rows(log.job()).iter().map(|r| r.at.map_or("-".into(), |a| a.date_naive().to_string())).collect()
    };
    assert_eq!(days(&log), ["2026-10-12", "2026-11-02", "-", "2026-11-05", "2027-04-05", "2027-10-05"]);
    assert_eq!(
        told(&log, "2026-10-06T06:00:00Z")[0..2],
        ["No washing: for 6 days more", "No hot wash, no degreaser: for 27 days more"]
    );
    let later = told(&log, "2026-11-10T06:00:00Z");
    assert_eq!(later[0], "Look at edges and bolt heads: overdue by 5 days");
    assert!(!later.iter().any(|w| w.contains("wash")), "a wait that is over is gone: {later:?}");
    assert_eq!(told(&log, "2026-11-05T06:00:00Z")[0], "Look at edges and bolt heads: due today");

    for (e, want) in [
        (Exposure::Shed, ["-", "2026-11-05", "2027-10-05", "2028-10-05"]),
        (Exposure::Salt, ["2026-10-12", "2026-10-19", "2027-01-05", "2027-04-05"]),
    ] {
        let log = log_of(
            JOB,
            vec![
                ("2026-10-01T08:00:00Z", opened("Grey trailer")),
                ("2026-10-02T08:00:00Z", exposure(e, None)),
                (FILM, coated(Stage::SecondPass)),
            ],
        );
        assert_eq!(days(&log)[2..], want, "{e:?}");
    }
}

#[test]
fn no_film_no_aftercare_and_the_first_pass_will_do() {
    let bare = vec![("2026-10-01T08:00:00Z", opened("Grey trailer"))];
    assert_eq!(aftercare::rows(log_of(JOB, bare.clone()).job()), []);
    let once = [bare, vec![(FILM, coated(Stage::FirstPass))]].concat();
    assert_eq!(aftercare::film_on(log_of(JOB, once).job()), Some(at(FILM)));
}

/// Done late, the next one counts from the day it was done. A look from before this film counts for nothing.
#[test]
fn a_look_moves_the_next_and_only_its_own() {
    let start = vec![
        ("2026-10-01T08:00:00Z", opened("Grey trailer")),
        ("2026-10-03T08:00:00Z", looked(Sort::Look)),
        (FILM, coated(Stage::SecondPass)),
    ];
    let row = |log: &Log, s: Sort| aftercare::rows(log.job()).into_iter().find(|r| r.sort == s).unwrap();
    let before = log_of(JOB, start.clone());
    assert_eq!(row(&before, Sort::Look).last, None);
    let after = log_of(JOB, [start, vec![("2026-11-20T09:00:00Z", looked(Sort::Look))]].concat());
    assert_eq!(row(&after, Sort::Look).at, Some(at("2026-12-20T09:00:00Z")));
    assert_eq!(row(&after, Sort::Renew).at, row(&before, Sort::Renew).at);
}

#[test]
fn the_products_own_sheet_wins_and_nonsense_does_not() {
    let with = |months| {
        log_of(
            JOB,
            vec![
                ("2026-10-01T08:00:00Z", opened("Grey trailer")),
                ("2026-10-02T08:00:00Z", exposure(Exposure::Shed, Some(months))),
                (FILM, coated(Stage::SecondPass)),
            ],
        )
    };
    let renew = |log: &Log| aftercare::rows(log.job()).pop().unwrap();
    let own = renew(&with(18));
    assert_eq!((own.at, own.basis), (Some(at("2028-04-05T12:00:00Z")), "From your product's sheet"));
    for nonsense in [0, 4_000_000_000] {
        let row = renew(&with(nonsense));
        assert_eq!(row.at, Some(at("2028-10-05T12:00:00Z")), "{nonsense}");
        assert!(row.basis.starts_with("Default, from memory"));
    }
}

/// Half past midnight east of Greenwich is a day later than in UTC.
#[test]
fn days_are_those_of_the_wall() {
    let log = log_of(JOB, vec![("2026-10-01T08:00:00Z", opened("Grey trailer")), (FILM, coated(Stage::SecondPass))]);
    let east = FixedOffset::east_opt(2 * 3600).unwrap();
    let now = at("2026-11-04T22:30:00Z");
    let look = |due: Vec<Due>| due.into_iter().find(|d| d.sort == Sort::Look).unwrap().late_days;
    assert_eq!(look(aftercare::due(log.job(), now)), -1);
    assert_eq!(look(aftercare::due(log.job(), now.with_timezone(&east))), 0);
}

/// Read back by a reader that did not write it (crate `ical`); UID and SEQUENCE as RFC 5545, 3.8.4.7 and 3.8.7.4 want them.
#[test]
fn the_calendar_repeats_and_an_update_replaces() {
    let start = vec![
        ("2026-10-01T08:00:00Z", opened("Grey trailer")),
        ("2026-10-02T08:00:00Z", exposure(Exposure::Salt, Some(24))),
        (FILM, coated(Stage::SecondPass)),
    ];
    let events = |log: &Log| {
        let file = ics(&care::events(log, at("2026-10-06T00:00:00Z"), &Utc));
        let mut all: Vec<_> = ical::IcalParser::new(file.as_bytes()).map(Result::unwrap).collect();
        all.remove(0).events
    };
    let value = |e: &ical::parser::ical::component::IcalEvent, name: &str| {
        e.get_property(name).and_then(|p| p.value.clone()).unwrap_or_default()
    };
    let before = events(&log_of(JOB, start.clone()));
    let rows: Vec<(String, String)> = before.iter().map(|e| (value(e, "DTSTART"), value(e, "RRULE"))).collect();
    let want = [
        ("20261012", ""),
        ("20261102", ""),
        ("20261012", "FREQ=WEEKLY"),
        ("20261019", "FREQ=WEEKLY;INTERVAL=2"),
        ("20270105", "FREQ=MONTHLY;INTERVAL=3"),
        ("20281005", "FREQ=YEARLY;INTERVAL=2"),
    ];
    assert_eq!(rows, want.map(|(a, b)| (a.to_owned(), b.to_owned())));
    assert!(before.iter().all(|e| e.alarms.len() == 1));
    let after = events(&log_of(JOB, [start, vec![("2026-10-20T09:00:00Z", looked(Sort::Look))]].concat()));
    for (b, a) in before.iter().zip(&after) {
        assert_eq!(value(b, "UID"), value(a, "UID"));
        assert!(value(a, "SEQUENCE").parse::<u32>().unwrap() > value(b, "SEQUENCE").parse().unwrap());
    }
    assert_eq!(value(&after[3], "DTSTART"), "20261103");
    let uids: std::collections::BTreeSet<_> = after.iter().map(|e| value(e, "UID")).collect();
    assert_eq!(uids.len(), after.len());
}

#[test]
fn the_bin_counts_thirty_days_and_the_head_knows() {
    let start = vec![("2026-10-01T08:00:00Z", opened("Grey trailer")), (FILM, coated(Stage::SecondPass))];
    let binned = log_of(JOB, [start.clone(), vec![("2026-10-10T10:00:00Z", What::Binned { on: true })]].concat());
    let head = Head::of(binned.job()).unwrap();
    assert_eq!(Head::read(&head.line()), Some(head.clone()));
    assert_eq!(aftercare::due(binned.job(), at("2027-10-10T10:00:00Z")), []);
    assert_eq!(head.due(at("2027-10-10T10:00:00Z")), []);
    let left = |days: i64| {
        let now = at("2026-10-10T10:00:00Z") + TimeDelta::days(days);
        Bin::of(&head, now.timestamp_millis()).unwrap()
    };
    assert_eq!(left(0).words(), "30 days left");
    assert_eq!(left(29).words(), "1 day left");
    assert!(!left(KEPT_DAYS - 1).over() && left(KEPT_DAYS).over());
    assert_eq!(left(-400).days_left, KEPT_DAYS, "a clock that went back takes nothing");
    let out = [
        start,
        vec![
            ("2026-10-10T10:00:00Z", What::Binned { on: true }),
            ("2026-10-11T10:00:00Z", What::Binned { on: false }),
        ],
    ];
    assert_eq!(Bin::of(&Head::of(log_of(JOB, out.concat()).job()).unwrap(), i64::MAX), None);
}

/// The list of jobs tells the same from its copy as the log does.
#[test]
fn a_head_is_due_as_its_job() {
    let log = log_of(JOB, vec![("2026-10-01T08:00:00Z", opened("Grey trailer")), (FILM, coated(Stage::SecondPass))]);
    let head = Head::read(&Head::of(log.job()).unwrap().line()).unwrap();
    for day in 0..800 {
        let now = at(FILM) + TimeDelta::days(day);
        assert_eq!(head.due(now), aftercare::due(log.job(), now), "{now}");
    }
    // A line from before this was kept still opens.
    let old = r#"{"job":"019a0000-0000-7000-8000-000000000000","machine":"trailer","name":"Old"}"#;
    assert_eq!(Head::read(old).unwrap().care, []);
}

#[test]
fn a_touch_up_has_only_its_stages_and_keeps_every_safety_point() {
    let first =
        log_of(JOB, vec![("2026-10-01T08:00:00Z", opened("Grey trailer")), (FILM, coated(Stage::SecondPass))]);
    // Asked to leave out everything: what a film can't do without stays.
    let mut n = 500;
    let ids = || {
        n += 1;
        id(n)
    };
    let whats = touch_up::entries(first.job(), &[area()], &Stage::ALL, ids).unwrap();
    let second = log_of(JOB + 1, whats.into_iter().map(|w| ("2027-05-01T08:00:00Z", w)).collect());
    let job = second.job();
    assert_eq!((job.areas().count(), job.same_as), (1, first.job().id));
    let area = job.areas().next().unwrap();
    for stage in Stage::ALL {
        match area.cell(stage) {
            Cell::Skipped(_, why) => assert_eq!(why, touch_up::NOT_NEEDED),
            cell => assert!(touch_up::ALWAYS.contains(&stage) && *cell == Cell::Open, "{stage:?}"),
        }
    }
    // The safety points of a stage that remains hold it up as in any job.
    let held = |log: &Log, stage| gate::holds(log.job(), stage, &[log.job().areas().next().unwrap().id], at(FILM));
    for stage in touch_up::ALWAYS {
        let safety = |log: &Log| -> Vec<String> {
            let all = held(log, stage).into_iter().filter(|h| h.weight == gate::Weight::Safety);
            all.map(|h| h.because).collect()
        };
        assert_eq!(safety(&second), safety(&first), "{stage:?}");
    }
    assert_eq!(touch_up::entries(first.job(), &[], &[], || id(1)), None);
}

#[test]
fn jobs_of_a_machine_stand_together() {
    let head = |job, name: &str, same_as: Option<u64>| {
        let mut whats = vec![("2026-10-01T08:00:00Z", opened(name))];
        whats.extend(same_as.map(|n| ("2026-10-01T08:00:00Z", What::SameMachine { as_job: id(n) })));
        Head::of(log_of(job, whats).job()).unwrap()
    };
    let heads = [
        head(1, "Grey trailer", None),
        head(2, "Red one", None),
        head(3, " grey TRAILER", None),
        head(4, "Touch-up, spring", Some(3)),
        head(5, "Lost", Some(77)),
    ];
    let groups: Vec<Vec<Uuid>> =
        by_machine(&heads).into_iter().map(|g| g.into_iter().map(|h| h.job).collect()).collect();
    assert_eq!(groups, [vec![id(1), id(3), id(4)], vec![id(2)], vec![id(5)]]);
}

/// Sums by hand: 4 L out of the pail of 5 L for 100 is 80; two hours with two pairs of hands are four.
#[test]
fn history_adds_up_and_names_what_has_no_price() {
    let mut film = Product::generic(Use::LiquidFilm, id(50));
    film.sizes = vec![Size { size_ml: 1000.0, price: Some(30.0) }, Size { size_ml: 5000.0, price: Some(100.0) }];
    let used = |item: &str, amount| What::Used {
        stage: Stage::SecondPass,
        item: item.into(),
        amount,
        product_id: None,
        note: String::new(),
    };
    let log = log_of(
        JOB,
        vec![
            ("2026-10-01T08:00:00Z", opened("Grey trailer")),
            ("2026-10-01T08:00:00Z", What::Product { snapshot: Box::new(film) }),
            (FILM, coated(Stage::SecondPass)),
            (FILM, used("film_liquid", 4.0)),
            (FILM, used("rags", 10.0)),
            (FILM, What::Worked { stage: Stage::SecondPass, minutes: 120.0, hands: 2 }),
        ],
    );
    let took = Took::of(log.job());
    assert_eq!((took.stages, took.film_l, took.money, took.unpriced), (1, 4.0, Some(80.0), 1));
    assert_eq!((took.minutes, took.hand_minutes), (120.0, 240.0));
    let both = took.clone().and(Took::default()).and(took);
    assert_eq!((both.film_l, both.money, both.unpriced), (8.0, Some(160.0), 2));
}

/// A touch-up puts the look off for the whole machine, and renews nothing: the film that was not coated again is as old as before.
#[test]
fn a_machine_is_due_once_over_its_jobs() {
    let whole = log_of(1, vec![("2026-10-01T08:00:00Z", opened("Grey trailer")), (FILM, coated(Stage::SecondPass))]);
    let mut n = 500;
    let ids = || {
        n += 1;
        id(n)
    };
    let whats = touch_up::entries(whole.job(), &[area()], &touch_up::LEFT_OUT, ids).unwrap();
    let part = AreaId(id(501));
    let mut short: Vec<_> = whats.into_iter().map(|w| ("2027-05-01T08:00:00Z", w)).collect();
    short.push(("2027-05-02T08:00:00Z", What::Done { stage: Stage::SecondPass, areas: vec![part] }));
    let short = log_of(2, short);
    assert!(touch_up::is(short.job()) && !touch_up::is(whole.job()));
    let heads = [Head::of(whole.job()).unwrap(), Head::of(short.job()).unwrap()];
    let all = due(&heads, at("2027-05-20T08:00:00Z"));
    assert_eq!((all.len(), all[0].job, all[0].jobs.len()), (1, id(2), 2));
    let told: Vec<String> = all[0].due.iter().map(Due::words).collect();
    assert_eq!(
        told,
        [
            "No hot wash, no degreaser: for 10 days more",
            "Look at edges and bolt heads: in 13 days",
            "Renew the film: in 138 days",
            "Touch up worn places: in 166 days",
        ],
        "nearest first; outdoors no day is set for rinsing"
    );
    // In the bin, the touch-up no longer speaks for the machine.
    let binned = Head { binned_ms: Some(0), ..heads[1].clone() };
    let all = due(&[heads[0].clone(), binned], at("2027-05-20T08:00:00Z"));
    assert_eq!(all[0].due[0].words(), "Look at edges and bolt heads: overdue by 196 days");
}

#[test]
fn what_is_due_in_a_few_words() {
    let of = |sort, late_days| Due { sort, at: at(FILM), late_days };
    let line = |all: &[Due]| aftercare::line(all);
    assert_eq!(line(&[of(Sort::Look, -1), of(Sort::NoWash, 3)]), None);
    assert_eq!(line(&[of(Sort::Look, 0)]).unwrap(), "1 look is due");
    assert_eq!(line(&[of(Sort::Look, 0), of(Sort::Look, 9)]).unwrap(), "2 looks are due");
    assert_eq!(line(&[of(Sort::Look, 0), of(Sort::Renew, 9)]).unwrap(), "2 points are due");
}

#[test]
fn a_look_names_what_a_touch_up_begins_with() {
    let worn = |areas| What::Looked { sort: Sort::Look.word().into(), areas, note: String::new() };
    let start = vec![
        ("2026-10-01T08:00:00Z", opened("Grey trailer")),
        (FILM, coated(Stage::SecondPass)),
        ("2026-11-05T08:00:00Z", worn(vec![area(), AreaId(id(77))])),
    ];
    assert_eq!(touch_up::wanted(log_of(JOB, start.clone()).job()), [area()], "an area that is not there is none");
    let done = [start, vec![("2026-11-06T08:00:00Z", looked(Sort::TouchUp))]].concat();
    assert_eq!(touch_up::wanted(log_of(JOB, done).job()), []);
}

#[test]
fn into_the_bin_only_with_a_backup_or_a_word() {
    let head = Head::of(log_of(JOB, vec![(FILM, opened("Grey trailer"))]).job()).unwrap();
    assert!(!may_go(&head, false, "") && !may_go(&head, false, "grey"));
    assert!(may_go(&head, true, "") && may_go(&head, false, " DELETE ") && may_go(&head, false, "grey trailer"));
    let nameless = Head { name: String::new(), ..head.clone() };
    assert!(!may_go(&nameless, false, " "), "no name is no word");
    assert!(may_go(&Head { demo: true, ..head }, false, ""));
}
