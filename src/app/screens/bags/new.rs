//! Filling a bag: the number to write on it, the part, where it sits, the fasteners.
//!
//! May use: the job. Must not: give numbers out; the job does.

use crate::app::parts::live::{list, live, memo, said, tap};
use leptos::prelude::*;

use uuid::Uuid;

use crate::app::parts::choice::choice;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::head::Head;
use crate::app::parts::kept::{PhotoButton, Shown};
use crate::app::parts::stepper::stepper;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::app::shell::go;
use crate::job::entry::{AreaId, Fastener, Fixing, What, tidy};
use crate::job::kinds::kind;
use crate::job::stage::Stage;
use crate::job::thread_steps;
use crate::units::{self, MILLIMETRE};

/// Most of one sort in a bag: above it a finger slipped.
const MOST_FASTENERS: f64 = 500.0;
/// Longest fastener, mm.
const LONGEST_MM: f64 = 1000.0;
const LONGEST_TEXT: usize = 80;
/// Most plugs on one part: above it a finger slipped.
const MOST_PLUGS: u32 = 99;

/// Opens the form for a part that is already known: what stood half typed in these two fields gives way.
pub fn fill_in(area: AreaId, part: &str) {
    Draft::new("bag/area", "").set(area.0.to_string());
    Draft::new("bag/part", "").set(part.to_owned());
    go(Route::NewBag);
}

/// What is asked behind the fold, and the plugs: kept as words, as any half-typed field.
#[derive(Clone, Copy)]
struct More {
    screwed: Draft,
    plugs: Draft,
    coat: Draft,
    joint: Draft,
    behind: Draft,
}

impl More {
    fn new() -> More {
        let draft = |what: &str| Draft::new(format!("bag/{what}"), "");
        More {
            screwed: draft("screwed"),
            plugs: draft("plugs"),
            coat: draft("coat"),
            joint: draft("joint"),
            behind: draft("behind"),
        }
    }

    fn plugs(self) -> u32 {
        self.plugs.get().parse().unwrap_or(0)
    }

    fn joint(self) -> Fixing {
        let word = self.joint.get();
        Fixing::ALL.into_iter().find(|f| f.word() == word).unwrap_or_default()
    }

    /// The bags in front of it, as far as they are there.
    fn behind(self, there: &[Uuid]) -> Vec<Uuid> {
        let typed = self.behind.get();
        there.iter().copied().filter(|id| typed.contains(&id.to_string())).collect()
    }

    fn turn(self, bag: Uuid, there: &[Uuid]) {
        let mut all = self.behind(there);
        match all.iter().position(|id| *id == bag) {
            Some(place) => drop(all.remove(place)),
            None => all.push(bag),
        }
        self.behind.set(all.iter().map(Uuid::to_string).collect::<Vec<_>>().join(" "));
    }

    fn clear(self) {
        [self.screwed, self.plugs, self.coat, self.joint, self.behind].iter().for_each(|d| d.clear());
    }
}

/// An answer of two, kept as "" or "yes".
fn yes(draft: Draft) -> bool {
    draft.get() == "yes"
}

fn set_yes(draft: Draft, on: bool) {
    draft.set(if on { "yes".into() } else { String::new() });
}

/// One line of the form: size, length, count.
#[derive(Clone, Copy)]
struct Line {
    size: Draft,
    length: Draft,
    count: Draft,
}

impl Line {
    fn new(i: usize) -> Line {
        let draft = |what: &str| Draft::new(format!("bag/{what}/{i}"), "");
        Line { size: draft("size"), length: draft("length"), count: draft("count") }
    }

    fn empty(self) -> bool {
        [self.size, self.length, self.count].iter().all(|d| d.get().trim().is_empty())
    }

    fn clear(self) {
        [self.size, self.length, self.count].iter().for_each(|d| d.clear());
    }

    /// The fastener, or which field is wrong and what would be right.
    fn read(self) -> Result<Fastener, (&'static str, String)> {
        let size = self.size.get().trim().to_owned();
        if size.is_empty() {
            return Err(("size", "Give its size or a name: M10, 3/8, clip.".into()));
        }
        let count = self.count.get();
        let count = count.trim().parse::<u32>().ok().filter(|n| (1..=MOST_FASTENERS as u32).contains(n));
        let count = count.ok_or(("count", format!("A whole number from 1 to {MOST_FASTENERS}.")))?;
        let length = self.length.get();
        let length_mm = if length.trim().is_empty() {
            None
        } else {
            let typed = units::parse(&length, MILLIMETRE, None).map_err(|e| ("length", format!("{e}.")))?;
            let mm = MILLIMETRE.get(typed.quantity());
            let fits = (1.0..=LONGEST_MM).contains(&mm);
            Some(fits.then_some(tidy(mm)).ok_or(("length", format!("A length from 1 to {LONGEST_MM} mm.")))?)
        };
        Ok(Fastener { size, length_mm, count })
    }
}

/// The photos taken on this form, as ids: each is kept with the area at once, and with the part when the bag is filled.
fn taken(draft: Draft) -> Vec<Uuid> {
    draft.get().split(' ').filter_map(|id| Uuid::parse_str(id).ok()).collect()
}

/// The words of [`Fixing::ALL`], in its order.
const JOINTS: &[&str] = &["Plain fixing", "Manual only", "New locking part"];

/// The form.
#[component]
pub fn NewBag() -> impl IntoView {
    let session = use_session();
    let number = memo(move || session.job(|j| j.next_bag()));
    let areas = memo(move || {
        session.job(|j| j.areas().filter(|a| !a.loose()).map(|a| (a.id, a.name.clone())).collect::<Vec<_>>())
    });
    let area = Draft::new("bag/area", "");
    let picked = move || areas.with(|all| all.iter().find(|(id, _)| id.0.to_string() == area.get()).map(|a| a.0));
    let part = Draft::new("bag/part", "");
    let put = Draft::new("bag/put", "");
    let photos = Draft::new("bag/photos", "");
    let heard = Callback::new(move |id: Uuid| photos.set(format!("{} {id}", photos.peek())));
    let more = More::new();
    // What came off the same area before and is still off: it may lie in front of this one.
    let before = memo(move || {
        let area = picked();
        session.job(|j| {
            let here = j.bags.iter().filter(|b| b.back.is_none() && Some(b.area) == area);
            here.map(|b| (b.id, j.bag_label(b), b.part.clone())).collect::<Vec<_>>()
        })
    });
    let there = move || before.with(|all| all.iter().map(|b| b.0).collect::<Vec<_>>());
    let lines = RwSignal::new((0..5).map(Line::new).collect::<Vec<_>>());
    let shown = RwSignal::new(1usize);
    let asked = RwSignal::new(false);
    let usual = move || {
        let of = picked().and_then(|id| session.job(|j| j.area(id).map(|a| a.of.clone())));
        let machine = session.job(|j| j.machine.clone());
        of.and_then(|of| kind(&machine)?.area(&of)).map(|a| a.parts).unwrap_or_default()
    };
    let part_error = Signal::derive(move || {
        let p = part.get();
        if p.chars().count() > LONGEST_TEXT {
            return Some(format!("At most {LONGEST_TEXT} characters, please."));
        }
        (asked.get() && p.trim().is_empty()).then(|| "Say which part: its fasteners go in this bag.".to_string())
    });
    let fill = move |_| {
        asked.set(true);
        let read: Result<Box<[_]>, _> = lines
            .get_untracked()
            .into_iter()
            .take(shown.get_untracked())
            .filter(|l| !l.empty())
            .map(Line::read)
            .collect();
        let (Some(area_id), Ok(fasteners), None) = (picked(), read, part_error.get_untracked()) else { return };
        let what = What::Bagged {
            number: number.get_untracked(),
            part: part.peek().trim().to_owned(),
            area: area_id,
            put: put.peek().trim().to_owned(),
            fasteners,
            plugs: untrack(|| (more.plugs() > 0).then(|| more.plugs())),
            screwed: untrack(|| yes(more.screwed)),
            behind: Box::new(untrack(|| more.behind(&there()))),
            coat: untrack(|| yes(more.coat)),
            joint: untrack(|| more.joint()),
            photos: Box::new(untrack(|| taken(photos))),
        };
        session.write_with(what, None, move |id| {
            [part, put, photos].iter().for_each(|d| d.clear());
            more.clear();
            lines.get_untracked().into_iter().for_each(Line::clear);
            go(Route::Bag(id));
        });
    };
    view! {
        <Head title="Fill a bag" back=Route::Bags back_word="Bags"/>
        {live(move || match yes(more.screwed) {
            false => view! { <p class="bag-number" data-id="bag-number"><span class="quiet">"Write on it"</span>{number.get()}</p> }.into_any(),
            true => view! { <p data-id="bag-number">"No bag: the screws stay in their holes. Its number is "<strong>{number.get()}</strong>"."</p> }.into_any(),
        })}
        <fieldset>
            <legend>"Where does the part sit?"</legend>
            <div class="chips">
                {list(move || areas.get(), |a| a.clone(), move |a| view! { <AreaChip id=a.0 name=a.1.clone() area/> }.into_any())}
            </div>
            {live(move || {
                (asked.get() && picked().is_none())
                    .then(|| view! { <p class="bad" data-id="field-error">"Tap the area where the part sits."</p> })
            })}
        </fieldset>
        {live(move || {
            let all = usual();
            (!all.is_empty())
                .then(|| {
                    view! {
                        <div class="chips" data-id="usual-parts">
                            {all
                                .iter()
                                .map(|p| view! { <button type="button" on:click=tap(move |_| part.set(p.to_string()))>{*p}</button> })
                                .collect_view()}
                        </div>
                    }
                })
        })}
        <Field label="Part" id="bag-part" draft=part error=part_error hint="For example: left lamp"/>
        {live(move || {
            picked().map(|a| view! {
                <PhotoButton stage=Stage::TakeOff area=Some(a) heard=Some(heard)/>
                <p class="quiet">"Before it comes off. It is kept with the part."</p>
            })
        })}
        <ul class="kept" data-id="before-photos">
            {list(move || taken(photos), |id| *id, |id| view! { <li><Shown photo=id/></li> }.into_any())}
        </ul>
        <h2>"Fasteners"</h2>
        {choice("Where do they go?", &["Into a bag", "Back in, finger-tight"], move || Some(usize::from(yes(more.screwed))), move |i| set_yes(more.screwed, i == 1))}
        {live(move || {
            lines
                .get()
                .into_iter()
                .take(shown.get())
                .enumerate()
                .map(|(i, l)| view! { <FastenerLine i l asked/> })
                .collect_view()
        })}
        {live(move || {
            (shown.get() < 5)
                .then(|| view! { <button type="button" data-id="more-fasteners" on:click=tap(move |_| shown.update(|n| *n += 1))>"Another sort"</button> })
        })}
        {stepper(
            "Plugs opened",
            "bag-plugs",
            move || more.plugs().to_string(),
            move || (more.plugs() == 0, more.plugs() >= MOST_PLUGS),
            move |by| more.plugs.set(untrack(|| more.plugs()).saturating_add_signed(by).min(MOST_PLUGS).to_string()),
        )}
        <Field label="Where did you put the part down?" id="bag-put" draft=put hint="For example: left shelf, on cardboard"/>
        <details class="more" data-id="bag-more">
            <summary>"Film, what is in front, special joints"</summary>
            {choice("Coat its edges and both faces while it is off?", &["No", "Yes"], move || Some(usize::from(yes(more.coat))), move |i| set_yes(more.coat, i == 1))}
            {live(move || {
                let all = before.get();
                (!all.is_empty()).then(|| view! {
                    <fieldset data-id="bag-behind">
                        <legend>"Does it sit behind one of these?"</legend>
                        <div class="chips">
                            {all.into_iter().map(|(id, label, name)| {
                                let pressed = said(move || more.behind(&there()).contains(&id).to_string());
                                let turn = move |_| untrack(|| more.turn(id, &there()));
                                view! { <button type="button" class="chip" data-behind=label.clone() aria-pressed=pressed on:click=tap(turn)>{format!("{label} {name}")}</button> }
                            }).collect_view()}
                        </div>
                    </fieldset>
                })
            })}
            {choice("Its joint", JOINTS, move || Some(more.joint() as usize), move |i| more.joint.set(Fixing::ALL[i].word().into()))}
            {live(move || match more.joint() {
                Fixing::Plain => view! { <p class="quiet">"Plain panel fixings. Film goes on the threads at refit."</p> }.into_any(),
                other => view! { <p class="caution" data-id="joint-meant">{format!("Meant: {}.", thread_steps::meant(other))}</p> }.into_any(),
            })}
        </details>
        <div class="main-action"><button type="button" class="main" data-id="bag-fill" on:click=tap(fill)>"Bag is filled"</button></div>
    }
}

#[component]
fn AreaChip(id: AreaId, name: String, area: Draft) -> impl IntoView {
    let on = move || area.get() == id.0.to_string();
    view! {
        <button
            type="button"
            class="chip"
            data-area=id.0.to_string()
            aria-pressed=said(move || on().to_string())
            on:click=tap(move |_| area.set(id.0.to_string()))
        >
            {name}
        </button>
    }
}

#[component]
fn FastenerLine(i: usize, l: Line, asked: RwSignal<bool>) -> impl IntoView {
    let error = move |field: &'static str| {
        Signal::derive(move || {
            if l.empty() {
                return None;
            }
            match l.read() {
                // A field not reached yet is no mistake, until the bag is called filled.
                Err((f, why)) if f == field && (asked.get() || typed_in(l, field)) => Some(why),
                _ => None,
            }
        })
    };
    view! {
        <div class="fastener">
            <Field label="Size" id=format!("bag-size-{i}") draft=l.size error=error("size") hint="M10, 3/8, clip"/>
            <Field label="Length" id=format!("bag-length-{i}") draft=l.length error=error("length") unit="mm" number=true/>
            <Field label="Count" id=format!("bag-count-{i}") draft=l.count error=error("count") number=true/>
        </div>
    }
}

fn typed_in(l: Line, field: &str) -> bool {
    let d = match field {
        "size" => l.size,
        "length" => l.length,
        _ => l.count,
    };
    !d.get().trim().is_empty()
}
