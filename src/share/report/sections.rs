//! The chapters of the report.
//!
//! May use: the job and its sums. Must not: judge, leave out what was gone past, or know how it is shown.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::{About, Part, Section};
use crate::job::air;
use crate::job::entry::{AreaId, What};
use crate::job::fold::{Cell, Job, Reading, Stamp};
use crate::job::guide::guide;
use crate::job::hours;
use crate::job::kinds::kind;
use crate::job::log::Log;
use crate::job::machine::{self, Figures};
use crate::job::materials::{self, Inputs, Item, List, Show};
use crate::job::moment::day;
use crate::job::plan::Setup;
use crate::job::product::{Product, Use};
use crate::job::stage::Stage;
use crate::job::timeline::{self, Sort};
use crate::job::{closing, took};
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, LITRE, MICROMETRE, Measure, Quantity, SQUARE_METRE};

/// What the chapters share.
struct Told<'a> {
    log: &'a Log,
    job: &'a Job,
    about: &'a About<'a>,
    figures: Figures,
    list: List,
    show: Show,
    seed: u64,
}

/// All chapters, in order.
pub fn all(log: &Log, about: &About) -> Vec<Section> {
    let job = log.job();
    let (setup, _) = Setup::of(job);
    let figures = setup.machine.figures(&machine::places_of_job(job));
    let work = hours::work(&figures, &setup.how, &[], setup.seed);
    let list = materials::list(&Inputs {
        figures: &figures,
        work: &work,
        how: &setup.how,
        day_hours: setup.week.hours,
        products: &job.products_chosen(),
        supplies: &setup.supplies,
        past: &BTreeMap::new(),
        cover: setup.cover,
        today: about.today,
        seed: setup.seed,
    });
    let told = Told { log, job, about, figures, list, show: Show::of(about.units), seed: setup.seed };
    vec![
        section("what", "What this is", told.what()),
        section("machine", "Machine", told.machine()),
        section("products", "Products", told.products()),
        section("conditions", "Conditions at each pass", told.conditions()),
        section("film", "Film", told.film()),
        section("stages", "Areas and stages", told.stages()),
        section("gone-past", "Left out or gone past", told.gone_past()),
        section("found", "Found on the walk round", told.found()),
        section("made-safe", "Points answered \u{201c}made safe\u{201d}", told.made_safe()),
        section("work", "Hours, materials, cost", told.work()),
        section("photos", "Photos", told.photos()),
        section("aftercare", "Aftercare", told.aftercare()),
        section("cautions", "Cautions", cautions()),
    ]
}

fn section(id: &'static str, title: &'static str, parts: Vec<Part>) -> Section {
    Section { id, title, parts }
}

fn words(text: impl Into<String>) -> Part {
    Part::Words(text.into())
}

/// A list, or a line that says there is nothing.
fn list_or(nothing: &str, lines: Vec<String>) -> Vec<Part> {
    if lines.is_empty() { vec![words(nothing)] } else { vec![Part::List(lines)] }
}

fn heads(all: &[&str]) -> Vec<String> {
    all.iter().map(|h| (*h).to_owned()).collect()
}

impl Told<'_> {
    fn at(&self, stamp: &Stamp) -> String {
        (self.about.when)(stamp.at)
    }

    /// Areas by name; all of them in two words.
    fn areas(&self, ids: &[AreaId]) -> String {
        if ids.len() > 1 && self.job.areas().all(|a| ids.contains(&a.id)) {
            return "whole machine".into();
        }
        ids.iter().map(|id| self.job.area_name(*id)).collect::<Vec<_>>().join(", ")
    }

    fn what(&self) -> Vec<Part> {
        let demo = self.job.demo.then(|| words("This is the invented example. No such job was done."));
        let own = words(
            "What was logged on a phone during the job. It certifies nothing. Times are those of the phone's clock. \
             Default figures and estimates say so.",
        );
        let unread = self.log.unread().len() + self.job.problems.len();
        let unread = (unread > 0).then(|| words(format!("Lines of the log that could not be used: {unread}.")));
        demo.into_iter().chain([own]).chain(unread).collect()
    }

    fn machine(&self) -> Vec<Part> {
        let job = self.job;
        let m2 = |v: f64| self.show.area.print(SQUARE_METRE.of(v));
        let size = self.figures.m2;
        let mut lines = vec![
            format!("Kind: {}", kind(&job.machine).map_or("not known", |k| k.name)),
            format!("Areas: {}", job.areas().count()),
            format!("Surface: about {}, estimate {} to {}", m2(size.likely), m2(size.low), m2(size.high)),
        ];
        lines.extend(job.opened.map(|at| format!("Job opened: {}", (self.about.when)(at))));
        lines.push(match &job.closed {
            Some((stamp, _)) => format!("Job closed: {}", self.at(stamp)),
            None => "Job not closed yet".into(),
        });
        let mut parts = vec![Part::List(lines)];
        let open: Vec<String> = match &job.closed {
            Some((_, left)) => left.iter().map(|l| format!("{}: {}", l.what, l.reason)).collect(),
            None => closing::open_points(job),
        };
        if !open.is_empty() {
            parts.extend([words("Still open:"), Part::List(open)]);
        }
        parts
    }

    fn products(&self) -> Vec<Part> {
        let none = || "not logged".to_owned();
        let rows: Vec<Vec<String>> = self
            .job
            .products
            .iter()
            .map(|p| {
                let (product, out) = (&p.product, if p.out { " (no longer in use)" } else { "" });
                vec![
                    format!("{}{out}", product.called()),
                    product.used_as.title().into(),
                    if product.batch.trim().is_empty() { none() } else { product.batch.clone() },
                    product.opened.map_or_else(none, day::write),
                    product.expires.map_or_else(none, day::write),
                    product.defaults_words(),
                ]
            })
            .collect();
        if rows.is_empty() {
            return vec![words("No product is logged. Without batch and dates the record proves little.")];
        }
        vec![Part::Table(heads(&["Product", "Used as", "Batch", "Opened", "Use by", "Its figures"]), rows)]
    }

    fn conditions(&self) -> Vec<Part> {
        let mut rows = Vec::new();
        for stage in [Stage::FirstPass, Stage::SecondPass] {
            let mut done: BTreeMap<Uuid, (&Stamp, Vec<AreaId>)> = BTreeMap::new();
            for a in self.job.areas() {
                if let Cell::Done(stamp) = a.cell(stage) {
                    done.entry(stamp.entry).or_insert((stamp, vec![])).1.push(a.id);
                }
            }
            for (stamp, areas) in done.into_values() {
                let mut row = vec![stage.title().to_owned(), self.at(stamp), self.areas(&areas)];
                row.extend(self.air_at(stamp));
                rows.push(row);
            }
        }
        let head = heads(&["Pass", "Logged", "Areas", "Reading before it", "Air", "RH", "Steel", "Above dew point"]);
        let mut parts = match rows.is_empty() {
            true => vec![words("No pass is logged.")],
            false => vec![Part::Table(head, rows)],
        };
        parts.extend(self.about.plot.clone().map(Part::Drawing));
        if self.about.plot.is_none() {
            parts.push(words("No readings of the air are logged."));
        }
        parts
    }

    /// The last reading before a moment, in five words.
    fn air_at(&self, stamp: &Stamp) -> Vec<String> {
        let (warm, apart) = (Measure::Temperature.unit(self.about.units), Measure::Warmer.unit(self.about.units));
        let before = self.job.readings.iter().filter(|r| r.stamp.at <= stamp.at).max_by_key(|r| r.stamp.at);
        let none = || "not read".to_owned();
        let Some(r) = before else { return vec![none(); 5] };
        let degrees = |c: f64| warm.print(CELSIUS.of(c).si());
        let gap = |r: &Reading| {
            air::judge(r).map(|v| apart.print(CELSIUS_DIFFERENCE.of(CELSIUS_DIFFERENCE.get(v.margin.gap)).si()))
        };
        vec![
            format!("{} before", air::minutes((stamp.at - r.stamp.at).num_minutes())),
            degrees(r.air_c),
            r.rh_pct.map_or_else(none, |v| format!("{v:.0} %")),
            r.steel_c.map_or_else(none, degrees),
            gap(r).unwrap_or_else(none),
        ]
    }

    fn film(&self) -> Vec<Part> {
        let (film, _) = Product::chosen(&self.job.products_chosen(), Use::LiquidFilm, self.about.today);
        let unit = Measure::Film.unit(self.about.units);
        let um = |v: f64| unit.print(MICROMETRE.of(v).si());
        let mut parts = match took::achieved(self.job, &self.figures, &film, self.seed) {
            None => vec![words("No liquid film is logged as used.")],
            Some(Err(why)) => vec![words(format!("The film can't be reckoned: {why}."))],
            Some(Ok(a)) => {
                let litres = self.show.volume.print(LITRE.of(a.litres));
                let area = self.show.area.print(SQUARE_METRE.of(a.m2.likely));
                let on = if a.passed {
                    "the areas with a second pass"
                } else {
                    "the whole machine: no second pass is done"
                };
                vec![
                    Part::List(vec![
                        format!("Used: {litres} on about {area} ({on})"),
                        format!("That is about {:.0} mL for each m²", 1000.0 * a.litres / a.m2.likely),
                        format!(
                            "Dry film on average: about {}, {} to {}",
                            um(a.um.likely),
                            um(a.um.low),
                            um(a.um.high)
                        ),
                        format!(
                            "Wanted: {}, {} to {}. {}",
                            um(a.wanted.likely),
                            um(a.wanted.low),
                            um(a.wanted.high),
                            a.against()
                        ),
                    ]),
                    words(
                        "Reckoned from litres, solids and loss, not measured. Edges, undersides and boxes have less.",
                    ),
                ]
            }
        };
        let undone = self.log.undone();
        let sums = self.log.entries().filter(|e| !undone.contains(&e.id)).filter_map(|e| match &e.what {
            What::Sum { sum, inputs, result } => {
                Some(format!("{}: {sum}: {result} ({inputs})", (self.about.when)(e.at)))
            }
            _ => None,
        });
        let sums: Vec<String> = sums.collect();
        if !sums.is_empty() {
            parts.extend([words("Sums and readings kept with the job:"), Part::List(sums)]);
        }
        parts
    }

    fn stages(&self) -> Vec<Part> {
        let mut head = vec!["Area".to_owned()];
        head.extend((1..=Stage::ALL.len()).map(|n| n.to_string()));
        let cell = |c: &Cell| match c {
            Cell::Done(_) => "\u{25cf} done",
            Cell::Skipped(..) => "\u{2715} left out",
            Cell::Again(_) => "\u{25d0} again",
            Cell::Open => "\u{25cb} open",
        };
        let rows = self.job.areas().map(|a| {
            let mut row = vec![a.name.clone()];
            row.extend(Stage::ALL.iter().map(|s| cell(a.cell(*s)).to_owned()));
            row
        });
        let names = Stage::ALL.iter().enumerate().map(|(i, s)| format!("{} {}", i + 1, s.title()));
        vec![words(names.collect::<Vec<_>>().join(" · ")), Part::Grid(head, rows.collect())]
    }

    fn gone_past(&self) -> Vec<Part> {
        let undone = self.log.undone();
        let lines = self.log.entries().filter(|e| !undone.contains(&e.id)).filter_map(|e| {
            let at = (self.about.when)(e.at);
            match &e.what {
                What::WentOn { stage, areas, because, reason, .. } => Some(format!(
                    "{at}: went on with {} ({}) although {because}. Reason given: {reason}",
                    stage.title(),
                    self.areas(areas)
                )),
                What::Skipped { stage, areas, reason } => {
                    Some(format!("{at}: {} left out ({}). Reason given: {reason}", stage.title(), self.areas(areas)))
                }
                _ => None,
            }
        });
        list_or("Nothing was left out or gone past.", lines.collect())
    }

    fn found(&self) -> Vec<Part> {
        let line = |f: &crate::job::fold::Found| {
            let dealt = match &f.dealt {
                Some((stamp, how)) if how.is_empty() => format!("dealt with {}", self.at(stamp)),
                Some((stamp, how)) => format!("dealt with {}: {how}", self.at(stamp)),
                None => "not dealt with".into(),
            };
            format!("{}: {}, {dealt}", self.job.area_name(f.area), f.words())
        };
        list_or("No finding is logged.", self.job.found.iter().map(line).collect())
    }

    fn made_safe(&self) -> Vec<Part> {
        let mut lines = timeline::lines(self.log);
        lines.retain(|l| l.sort == Sort::Safety && !l.undone);
        lines.reverse();
        let mut rows: Vec<Vec<String>> = Vec::new();
        for l in &lines {
            let by = if l.by.is_empty() { String::new() } else { format!(", by {}", l.by) };
            let head = [(self.about.when)(l.at) + &by, l.stage.map_or("", Stage::title).to_owned()];
            match rows.last_mut().filter(|r| r[..2] == head) {
                // Answered in one go: one row, a line each.
                Some(row) => row[2] += &format!("\n{}", l.told.rest),
                None => rows.push(head.into_iter().chain([l.told.rest.clone()]).collect()),
            }
        }
        match rows.is_empty() {
            true => vec![words("No point was answered.")],
            false => vec![Part::Table(heads(&["Answered", "Before", "Point"]), rows)],
        }
    }

    fn work(&self) -> Vec<Part> {
        let mut parts = Vec::new();
        let mut by_stage: BTreeMap<Stage, (f64, f64)> = BTreeMap::new();
        for w in &self.job.worked {
            let sum = by_stage.entry(w.stage).or_default();
            sum.0 += w.minutes;
            sum.1 += w.minutes * f64::from(w.hands.max(1));
        }
        let hours = |min: f64| format!("{:.1} h", min / 60.0);
        let mut rows: Vec<Vec<String>> =
            by_stage.iter().map(|(s, (clock, hands))| vec![s.title().into(), hours(*clock), hours(*hands)]).collect();
        if rows.is_empty() {
            parts.push(words("No hours are logged."));
        } else {
            let all = by_stage.values().fold((0.0, 0.0), |a, b| (a.0 + b.0, a.1 + b.1));
            rows.push(vec!["Together".into(), hours(all.0), hours(all.1)]);
            parts.push(Part::Table(heads(&["Stage", "On the clock", "Hours of hands"]), rows));
        }
        let taken = took::taken(self.job, &self.list);
        let (mut cost, mut unpriced, mut rows) = (0.0, Vec::new(), Vec::new());
        for t in &taken {
            let price = self.price(t.item).map(|p| p * t.amount);
            match price {
                Some(p) => cost += p,
                None => unpriced.push(t.item.title()),
            }
            let price = price.map_or("no price given".into(), |p| format!("{p:.2}"));
            rows.push(vec![t.item.title().into(), self.show.size(t.item, t.amount), price]);
        }
        if rows.is_empty() {
            parts.push(words("No materials are logged as used."));
            return parts;
        }
        parts.push(Part::Table(heads(&["Material", "Used", "Cost"]), rows));
        if unpriced.len() < taken.len() {
            let so_far = if unpriced.is_empty() { "" } else { " without those that have no price" };
            parts.push(words(format!("Together {cost:.2}{so_far}, from the user's own prices, by the amount used.")));
        }
        parts
    }

    /// What one measure of a material costs, by the packs it is bought in.
    fn price(&self, item: Item) -> Option<f64> {
        let buy = &self.list.line(item)?.buy;
        let paid: Option<f64> = buy.iter().map(|b| Some(b.price? * f64::from(b.count))).sum();
        let amount: f64 = buy.iter().map(|b| b.amount * f64::from(b.count)).sum();
        paid.filter(|_| amount > 0.0).map(|p| p / amount)
    }

    fn photos(&self) -> Vec<Part> {
        if self.about.photos.is_empty() {
            return vec![words("No photo was chosen.")];
        }
        self.about.photos.iter().cloned().map(Part::Photo).collect()
    }

    fn aftercare(&self) -> Vec<Part> {
        list_or("No dates.", self.about.aftercare.clone())
    }
}

fn cautions() -> Vec<Part> {
    let all = guide(Stage::Aftercare).cautions.iter();
    vec![Part::List(all.map(|c| format!("{} ({})", c.words, c.basis.words())).collect())]
}
