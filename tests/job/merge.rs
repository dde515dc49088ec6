//! Two phones' logs merged as files: over random logs, cut in two, in any order and any number of times.

use std::collections::{BTreeMap, BTreeSet};

use coatwalk::share::merge::{Incoming, Known, Line, conflicts, lacking, lacking_media, preview};

use super::*;

/// A phone: lines by job and id, as the store keeps them. A line is added, never put in another's place.
#[derive(Clone, Default, PartialEq, Debug)]
struct Phone(BTreeMap<(Uuid, Uuid), Line>);

impl Phone {
    fn lines(&self) -> Vec<Line> {
        self.0.values().cloned().collect()
    }

    fn take_in(&mut self, theirs: Vec<Line>) -> usize {
        let told = preview(&self.lines(), &BTreeSet::new(), &Incoming { lines: theirs, ..Incoming::default() });
        assert_eq!(told.differs, []);
        let new = told.new.len();
        for line in told.new {
            assert_eq!(self.0.insert((line.job, line.id), line), None, "nothing is overwritten");
        }
        new
    }

    fn log(&self) -> Log {
        Log::from_lines(self.0.values().map(|l| &l.raw))
    }

    /// The whole state and the lines, as bytes.
    fn bytes(&self) -> String {
        format!("{:?}{:?}", self.log().job(), self.0)
    }
}

/// A log with time going on between its entries: days in all, and sometimes a clock that goes back.
fn long_log(whats: Vec<What>) -> Vec<Line> {
    let mut hand = Hand::new();
    let first = hand.n;
    for (n, what) in whats.into_iter().enumerate() {
        hand.now += TimeDelta::minutes(if n % 5 == 4 { -30 } else { 200 });
        let mut e = hand.entry(what);
        e.by = ["", "Anna", "Bela"][n % 3].into();
        hand.log.add(e);
    }
    // Ids count hours instead of milliseconds, also where an entry names another.
    let far: Vec<_> = (first + 1..=hand.n).map(|n| (id(n), id(first + (n - first) * 3 * 3_600_000))).collect();
    let apart = |raw: String| far.iter().fold(raw, |raw, (old, new)| raw.replace(&old.to_string(), &new.to_string()));
    hand.log.entries().map(|e| Line::read(&apart(e.line())).unwrap()).collect()
}

fn part_of(all: &[Line], cut: &[u8], wanted: impl Fn(u8) -> bool) -> Phone {
    let kept = all.iter().enumerate().filter(|(i, _)| wanted(cut[i % cut.len()]));
    Phone(kept.map(|(_, l)| ((l.job, l.id), l.clone())).collect())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    /// Two parts of one log (some entries on both phones), brought together in any order, some pieces again and again,
    /// give the same lines, the same state and the same bytes of it.
    #[test]
    fn brought_together_in_any_order_any_number_of_times(
        whats in prop::collection::vec(any_what(), 0..50),
        cut in prop::collection::vec(0u8..3, 50),
        shuffled in prop::collection::vec(any::<prop::sample::Index>(), 0..120),
    ) {
        let all = long_log(whats);
        let whole = part_of(&all, &cut, |_| true);
        let (one, two) = (part_of(&all, &cut, |c| c != 1), part_of(&all, &cut, |c| c != 0));
        let (mut a, mut b) = (one.clone(), two.clone());
        // The open log takes the others' in at once: the same state as read anew from all lines.
        let mut open = one.log();
        open.take_in(two.log());
        prop_assert_eq!(format!("{:?}", open.job()), format!("{:?}", whole.log().job()));
        a.take_in(two.lines());
        b.take_in(one.lines());
        prop_assert_eq!(a.take_in(two.lines()), 0, "a second time nothing is new");
        prop_assert_eq!(a.take_in(b.lines()), 0);
        // A third phone gets it line by line, in any order, lines twice.
        let mut c = Phone::default();
        for at in &shuffled {
            c.take_in(vec![at.get(&all).clone()]);
        }
        c.take_in(b.lines().into_iter().rev().collect());
        for phone in [&a, &b, &c] {
            prop_assert_eq!(phone, &whole);
            prop_assert_eq!(phone.bytes(), whole.bytes());
        }
        // What was on both phones is settled.
        let ids = one.0.keys().map(|k| k.1).collect::<BTreeSet<_>>();
        prop_assert_eq!(conflicts(&a.log(), &ids, &ids), vec![]);
    }

    /// What is sent for "this is what I have" is never too little, and nothing when nothing is missing.
    #[test]
    fn what_they_lack_is_sent(
        whats in prop::collection::vec(any_what(), 0..50),
        cut in prop::collection::vec(0u8..4, 50),
    ) {
        let all = long_log(whats);
        let (one, mut two) = (part_of(&all, &cut, |c| c & 1 == 0 || c == 3), part_of(&all, &cut, |c| c > 0));
        let known = Known::read(&Known::of(&two.lines(), &BTreeSet::new()).text()).unwrap();
        let ours = one.lines();
        let sent: Vec<Line> = lacking(&ours, &known).into_iter().cloned().collect();
        for line in &ours {
            prop_assert!(two.0.contains_key(&(line.job, line.id)) || sent.contains(line), "too little");
        }
        two.take_in(sent);
        for line in &ours {
            prop_assert_eq!(two.0.get(&(line.job, line.id)), Some(line));
        }
        let mut one = one;
        let known = Known::of(&one.lines(), &BTreeSet::new());
        one.take_in(lacking(&two.lines(), &known).into_iter().cloned().collect());
        prop_assert_eq!(&one, &two);
        let known = Known::of(&one.lines(), &BTreeSet::new());
        prop_assert_eq!(lacking(&two.lines(), &known).len(), 0, "both have all: nothing to send");
    }
}

#[test]
fn pictures_go_with_their_lines_and_when_they_are_missed() {
    let photo = |n| What::Photo {
        stage: Stage::Survey,
        area: None,
        bag: None,
        photo: id(n),
        mime: "image/jpeg".into(),
        bytes: 1,
        width_px: 1,
        height_px: 1,
    };
    let lines = long_log(vec![photo(501), photo(502), photo(503)]);
    let all = BTreeSet::from([id(501), id(502), id(503)]);
    let nothing = lacking_media(&lines, &all, &Known::default());
    assert_eq!(nothing, all);
    let missed = Known::of(&lines, &BTreeSet::from([id(502), id(900)]));
    assert_eq!(lacking_media(&lines, &all, &missed), BTreeSet::from([id(502)]), "and none that we do not have");
}

#[test]
fn an_edited_line_is_sent_and_named() {
    let lines = long_log(vec![What::Note { stage: Stage::Dry, area: None, text: "dry".into() }]);
    let mut edited = lines.clone();
    edited[1] = Line::read(&lines[1].raw.replace("\"dry\"}", "\"wet\"}")).unwrap();
    assert_ne!(edited[1], lines[1]);
    let sent = lacking(&edited, &Known::of(&lines, &BTreeSet::new())).into_iter().cloned().collect();
    let told = preview(&lines, &BTreeSet::new(), &Incoming { lines: sent, ..Incoming::default() });
    assert_eq!((told.new.len(), told.differs.len()), (0, 1));
}
