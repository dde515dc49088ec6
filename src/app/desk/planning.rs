//! The plan as the desk's screens share it: what was typed, and what follows from it.
//!
//! typed → [`Planning::change`] → plan and list reckoned at once → screens; left → [`Planning::keep`] → an entry in the log.
//!
//! May use: the session, `job`'s plan, machine, products, materials. Must not: reckon.

use std::cell::RefCell;
use std::collections::BTreeMap;

use chrono::{DateTime, Local, NaiveDate, Timelike, Utc};
use leptos::prelude::*;
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

use crate::app::parts::live::memo;
use crate::app::session::Session;
use crate::job::entry::What;
use crate::job::fold::Job;
use crate::job::log::Log;
use crate::job::machine::Fault;
use crate::job::materials::{self, Item, List};
use crate::job::plan::{self, Choice, Past, Plan, Setup};
use crate::job::product::{Product, Use};
use crate::units::UnitSet;

thread_local! {
    /// What was learnt from a job as it stood at its last entry.
    static LEARNT: RefCell<BTreeMap<(Uuid, i64), Past>> = const { RefCell::new(BTreeMap::new()) };
}

/// The open job's plan. Cheap to copy.
#[derive(Clone, Copy)]
pub struct Planning {
    session: Session,
    /// As typed; [`Planning::keep`] writes it into the log.
    pub setup: RwSignal<Setup>,
    /// What was wrong with the setup as it was read.
    unread: RwSignal<Vec<Fault>>,
    /// The phone's own products, whichever job they were used in.
    pub shelf: RwSignal<Vec<Product>>,
    /// The shelf has been read.
    pub shelf_read: RwSignal<bool>,
    /// The product whose screen is open, as typed so far. Plan and list are reckoned with it, used in this job or not.
    pub typed: RwSignal<Option<Product>>,
    /// What finished jobs took.
    pub past: RwSignal<Past>,
    /// Now, to the minute.
    pub now: Memo<DateTime<Utc>>,
    /// The products chosen in this job, at most one for each use, as logged; the one being typed in place of its use's.
    pub products: Memo<Vec<Product>>,
    /// Work and waits on the clock.
    pub plan: Memo<Plan>,
    /// The day on the wall of this phone.
    pub today: Memo<NaiveDate>,
    /// What to buy.
    pub list: Memo<List>,
}

/// What the list is made from.
#[derive(Clone, Copy)]
struct Inputs {
    setup: RwSignal<Setup>,
    plan: Memo<Plan>,
    products: Memo<Vec<Product>>,
    past: RwSignal<Past>,
    today: Memo<NaiveDate>,
}

impl Inputs {
    /// Reads them, tracked.
    fn with<T>(self, read: impl FnOnce(&materials::Inputs) -> T) -> T {
        let (s, plan) = (self.setup.read(), self.plan.read());
        let (products, past) = (self.products.read(), self.past.read());
        read(&materials::Inputs {
            figures: &plan.figures,
            work: &plan.work,
            how: &s.how,
            day_hours: s.week.hours,
            products: &products,
            supplies: &s.supplies,
            past: &past.items,
            cover: s.cover,
            today: self.today.get(),
            seed: s.seed,
        })
    }
}

impl Planning {
    /// The plan of the job that the session has open, whichever that is.
    pub fn of(session: Session) -> Planning {
        let setup = RwSignal::new(Setup::default());
        let unread = RwSignal::new(Vec::new());
        let logged = memo(move || session.job(|j| (j.id, j.setup.clone())));
        Effect::new(move || {
            // Read, not only tracked: a memo that was never read hears of nothing.
            logged.get();
            let (read, faults) = session.peek(|l| Setup::of(l.job()));
            if setup.with_untracked(|s| *s != read) {
                setup.set(read);
            }
            unread.set(faults);
        });
        let past = RwSignal::new(Past::default());
        let typed = RwSignal::new(None::<Product>);
        let products = memo(move || {
            let mut all = session.job(Job::products_chosen);
            if let Some(product) = typed.get() {
                all.retain(|p| p.used_as != product.used_as);
                all.push(product);
            }
            all
        });
        // To the minute: a plan that moved every second would never stand still.
        let minute = memo(move || {
            let now = session.now.get();
            now.with_second(0).and_then(|t| t.with_nanosecond(0)).unwrap_or(now)
        });
        let now = move || minute.get();
        let plan = memo(move || {
            let (film, _) = products.with(|p| Product::chosen(p, Use::LiquidFilm, day(now())));
            setup.with(|s| {
                session.job(|job| {
                    past.with(|past| {
                        let from = s.begins(job, now(), &Local);
                        plan::plan(s, Some(job), &film, &past.hours, from, &Local)
                    })
                })
            })
        });
        let today = memo(move || day(now()));
        let inputs = Inputs { setup, plan, products, past, today };
        let list = memo(move || inputs.with(materials::list));
        let (shelf, shelf_read) = (RwSignal::new(Vec::new()), RwSignal::new(false));
        Planning { session, setup, unread, shelf, shelf_read, typed, past, now: minute, products, plan, today, list }
    }

    /// When the plan is drawn from.
    pub fn from(self) -> DateTime<Utc> {
        self.setup.with(|s| self.session.job(|job| s.begins(job, self.now.get(), &Local)))
    }

    /// The liquid film with its figures settled.
    pub fn film(self) -> Product {
        self.products.with(|p| Product::chosen(p, Use::LiquidFilm, day(self.now.get())).0)
    }

    /// What could be done otherwise, with its price.
    pub fn choices(self) -> Vec<Choice> {
        let (film, from) = (self.film(), self.from());
        self.plan.with(|plan| {
            self.setup.with(|s| {
                self.past.with(|past| {
                    self.session.job(|job| plan::choices(plan, s, Some(job), &film, &past.hours, from, &Local))
                })
            })
        })
    }

    /// Hands what the list is made from to `read`, tracked.
    pub fn inputs<T>(self, read: impl FnOnce(&materials::Inputs) -> T) -> T {
        let Planning { setup, plan, products, past, today, .. } = self;
        Inputs { setup, plan, products, past, today }.with(read)
    }

    /// How the need of a material is reckoned, in words, tracked.
    pub fn how(self, item: Item, set: UnitSet) -> String {
        self.inputs(|inputs| materials::how(item, inputs, set))
    }

    /// Changes what was typed; everything that follows is drawn anew at once.
    pub fn change(self, change: impl FnOnce(&mut Setup)) {
        self.setup.update(change);
    }

    /// Writes the setup into the log, if it is another one than the log has.
    pub fn keep(self) {
        let what = self.setup.with_untracked(Setup::planned);
        let known = |l: &Log| l.job().setup.as_ref().is_some_and(|s| what == What::Planned { setup: s.clone() });
        if !self.session.peek(known) {
            self.session.write(what);
        }
    }

    /// Changes and keeps in one: for a tap on a choice.
    pub fn choose(self, change: impl FnOnce(&mut Setup)) {
        self.change(change);
        self.keep();
    }

    /// Everything that made no sense, in the plan and on the list.
    pub fn faults(self) -> Vec<Fault> {
        let mut all = self.unread.get();
        all.extend(self.plan.with(|p| p.faults.clone()));
        all.extend(self.list.with(|l| l.faults.clone()));
        all.dedup();
        all
    }

    /// A product by its id: from the phone's shelf, else as this job has it; tracked.
    pub fn product(self, id: Uuid) -> Option<Product> {
        let on_shelf = self.shelf.with(|all| all.iter().find(|p| p.id == id).cloned());
        on_shelf.or_else(|| self.in_job(id))
    }

    /// A product as this job has it, if it is the one chosen for its use; tracked.
    pub fn in_job(self, id: Uuid) -> Option<Product> {
        self.session.job(|j| j.products_chosen().into_iter().find(|p| p.id == id))
    }

    /// Puts a product on the phone's shelf, if the shelf has it otherwise.
    pub fn shelve_product(self, product: Product) {
        let product = product.tidied();
        if self.shelf.with_untracked(|all| all.contains(&product)) {
            return;
        }
        self.shelf.update(|all| match all.iter_mut().find(|p| p.id == product.id) {
            Some(known) => *known = product.clone(),
            None => all.push(product.clone()),
        });
        self.session.shelve(product.id, Some(product.line()));
    }

    /// Puts a product on the phone's shelf, and into this job's log as it now is.
    pub fn put_product(self, product: Product) {
        self.shelve_product(product.clone());
        self.use_product(product);
    }

    /// Uses a product of the shelf in this job, if the log has not just this one in use.
    pub fn use_product(self, product: Product) {
        let product = product.tidied();
        if !self.session.peek(|l| l.job().product(product.used_as) == Some(&product)) {
            self.session.write(What::Product { snapshot: Box::new(product) });
        }
    }

    /// Takes a product off the phone's shelf; jobs that used it keep what they logged.
    pub fn drop_product(self, id: Uuid) {
        self.shelf.update(|all| all.retain(|p| p.id != id));
        self.session.shelve(id, None);
        if self.session.peek(|l| l.job().in_use().any(|p| p.product.id == id)) {
            self.session.write(What::ProductOut { product_id: id });
        }
    }

    /// Reads the shelf.
    pub fn refresh(self) {
        spawn_local(async move {
            let Some(lines) = self.session.shelf_lines().await else { return };
            self.shelf.set(lines.iter().filter_map(|l| Product::read(l)).collect());
            self.shelf_read.set(true);
        });
    }

    /// Reads what other jobs took: those whose line in the list says that they logged it, each only once.
    pub fn learn(self) {
        spawn_local(async move {
            let here = self.session.peek(|l| l.job().id);
            let mut past = Past::default();
            for head in self.session.heads.get_untracked() {
                if Some(head.job) == here || head.demo || head.spent == Some(false) || head.binned_ms.is_some() {
                    continue;
                }
                let known = LEARNT.with_borrow(|all| all.get(&(head.job, head.last_ms)).cloned());
                let learnt = match known {
                    Some(known) => known,
                    None => {
                        let Some(lines) = self.session.other_lines(head.job).await else { continue };
                        // A line of an earlier version did not say; most jobs logged neither, and are not worth folding.
                        let spent = |l: &String| l.contains(r#""kind":"used""#) || l.contains(r#""kind":"worked""#);
                        let learnt = match lines.iter().any(spent) {
                            true => plan::past(std::slice::from_ref(Log::from_lines(lines).job())),
                            false => Past::default(),
                        };
                        LEARNT.with_borrow_mut(|all| all.insert((head.job, head.last_ms), learnt.clone()));
                        learnt
                    }
                };
                past = past.and(&learnt);
            }
            if self.past.with_untracked(|p| *p != past) {
                self.past.set(past);
            }
        });
    }
}

/// The day on the wall of this phone.
pub fn day(at: DateTime<Utc>) -> NaiveDate {
    at.with_timezone(&Local).date_naive()
}

/// The plan of this desk.
pub fn use_planning() -> Planning {
    expect_context::<Planning>()
}
