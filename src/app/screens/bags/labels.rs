//! Labels: which bags, which sheet, where on it they begin; then print.
//!
//! May use: `share::label`, `share::sheet`. Must not: draw a label. On paper only the pages are seen (`style/bags.css`).

use leptos::prelude::*;
use uuid::Uuid;

use crate::app::parts::choice::choice;
use crate::app::parts::field::Draft;
use crate::app::parts::head::Head;
use crate::app::parts::live::{list, live, memo, said, tap};
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::device::window;
use crate::job::entry::{LABELS, What};
use crate::job::fold::{Bag, Job};
use crate::share::label::{Label, PageSvg, pages};
use crate::share::sheet::{Paper, SHEETS, Sheet};
use crate::units::UnitSet;

/// Where the sheet is kept among the choices of the phone.
const KEPT: &str = "labels/sheet";

/// Which bags get a label.
#[derive(Clone, Copy, PartialEq)]
enum Which {
    All,
    New,
    Some,
}

impl Which {
    const ALL: [Which; 3] = [Which::New, Which::All, Which::Some];
    const WORDS: &[&str] = &["Not printed yet", "All", "Some"];

    fn takes(self, job: &Job, bag: &Bag, picked: &[Uuid]) -> bool {
        match self {
            Which::All => true,
            Which::New => bag.back.is_none() && !job.listed.contains(&(LABELS.to_owned(), bag.id.to_string())),
            Which::Some => picked.contains(&bag.id),
        }
    }
}

/// The screen, and the paper.
#[component]
pub fn Labels() -> impl IntoView {
    let session = use_session();
    let which = RwSignal::new(Which::New);
    let picked = RwSignal::new(Vec::<Uuid>::new());
    let first = Draft::new("labels/first", "0");
    let usual = if session.prefs.with_untracked(|p| p.units == UnitSet::Us) { Paper::Letter } else { Paper::A4 };
    let chosen = memo(move || {
        let kept = session.prefs.with(|p| p.kept.get(KEPT).cloned());
        let place = SHEETS.iter().position(|s| Some(s.name) == kept.as_deref());
        place.or_else(|| SHEETS.iter().position(|s| s.sheet.paper == usual)).unwrap_or(0)
    });
    let sheet = move || SHEETS[chosen.get()].sheet;
    let used = memo(move || first.get().parse().unwrap_or(0).min(sheet().count() - 1));
    let bags = memo(move || {
        let (which, picked) = (which.get(), picked.get());
        session.job(|j| j.bags.iter().filter(|b| which.takes(j, b, &picked)).map(|b| b.id).collect::<Vec<_>>())
    });
    let page = window().location().href().unwrap_or_default();
    let drawn = memo(move || {
        let labels: Vec<Label> = session.job(|j| {
            let chosen = bags.get();
            j.bags.iter().filter(|b| chosen.contains(&b.id)).map(|b| Label::of(j, b, &page)).collect()
        });
        pages(&sheet(), &labels, used.get())
    });
    let printed = move |_| {
        for bag in bags.get_untracked() {
            session.write(What::Listed { list: LABELS.into(), item: bag.to_string(), on: true });
        }
        // The next label starts where these end.
        first.set(((used.get_untracked() + bags.with_untracked(Vec::len)) % untrack(sheet).count()).to_string());
    };
    let printing = RwSignal::new(false);
    let print = move |_| {
        printing.set(true);
        let _ = window().print();
    };
    view! {
        <div class="off-paper">
            <Head title="Labels" back=Route::Bags back_word="Bags"/>
            <section class="answer column" data-id="labels-answer">
                {live(move || {
                    let (n, sheets) = (bags.with(Vec::len), drawn.with(|d| d.as_ref().map_or(0, Vec::len)));
                    let word = |n: usize, what: &str| format!("{n} {what}{}", if n == 1 { "" } else { "s" });
                    view! { <p class="figure-large">{format!("{} on {}", word(n, "label"), word(sheets, "sheet"))}</p> }
                })}
            </section>
            {choice(
                "Which bags?",
                Which::WORDS,
                move || Which::ALL.iter().position(|w| *w == which.get()),
                move |i| which.set(Which::ALL[i]),
            )}
            {live(move || (which.get() == Which::Some).then(|| view! { <Picks picked/> }))}
            <fieldset>
                <legend>"The sheet in the printer"</legend>
                <div class="chips label-sheets">
                    {SHEETS
                        .iter()
                        .enumerate()
                        .map(|(i, s)| {
                            let pick = move |_| session.choose(|p| drop(p.kept.insert(KEPT.into(), s.name.into())));
                            view! {
                                <button type="button" class="chip" data-sheet=i.to_string() aria-pressed=said(move || (chosen.get() == i).to_string()) on:click=tap(pick)>
                                    {s.name}
                                </button>
                            }
                        })
                        .collect_view()}
                </div>
            </fieldset>
            {live(move || cells(sheet(), used, first, bags.with(Vec::len)))}
            <ul class="label-hints">
                <li>"In the print window: actual size or 100 %, no margins, no headers. Try one sheet on plain paper and hold it against the labels."</li>
                <li>"The code opens its bag in Coatwalk, with no signal. It names the bag only; nothing of the job is in it."</li>
            </ul>
            {live(move || drawn.with(|d| d.as_ref().err().map(|why| view! { <p class="bad" role="alert" data-id="labels-error">{why.clone()}</p> })))}
            {live(move || printing.get().then(|| view! { <button type="button" class="work" data-id="labels-printed" on:click=tap(printed)>"They are printed well: mark them"</button> }))}
            {live(move || match bags.with(Vec::is_empty) {
                true => view! { <p data-id="labels-none">"No bag is chosen. Take “All” to print again."</p> }.into_any(),
                false => view! { <div class="main-action"><button type="button" class="main" data-id="labels-print" on:click=tap(print)>"Print"</button></div> }.into_any(),
            })}
        </div>
        <div class="label-pages" data-id="label-pages">
            {live(move || drawn.with(|d| d.as_deref().unwrap_or_default().iter().map(paper).collect_view()))}
        </div>
    }
}

/// One page. Its words are escaped by `share::label`.
fn paper(page: &PageSvg) -> AnyView {
    view! { <div class="label-page" data-paper=page.paper.name() inner_html=page.svg.clone()></div> }.into_any()
}

/// The sheet as a grid: a tap says which label is the first one still there.
fn cells(sheet: Sheet, used: Memo<usize>, first: Draft, labels: usize) -> AnyView {
    let all: Vec<AnyView> = (0..sheet.count())
        .map(|i| {
            let state = said(move || match i.checked_sub(used.get()) {
                None => "gone",
                Some(n) if n < labels => "taken",
                Some(_) => "free",
            });
            view! {
                <button type="button" class="cell" data-cell=i.to_string() data-state=state aria-pressed=said(move || (used.get() == i).to_string()) on:click=tap(move |_| first.set(i.to_string()))>
                    {i + 1}
                </button>
            }
            .into_any()
        })
        .collect();
    view! {
        <fieldset>
            <legend>"Tap the first label that is still on it"</legend>
            <div class="cells" data-id="cells" data-columns=sheet.columns.to_string()>{all}</div>
        </fieldset>
    }
    .into_any()
}

/// Bags to pick.
#[component]
fn Picks(picked: RwSignal<Vec<Uuid>>) -> impl IntoView {
    let session = use_session();
    let all =
        move || session.job(|j| j.bags.iter().map(|b| (b.id, j.bag_label(b), b.part.clone())).collect::<Vec<_>>());
    let chip = move |(id, label, part): (Uuid, String, String)| {
        let turn = move |_| {
            picked.update(|p| match p.iter().position(|b| *b == id) {
                Some(place) => drop(p.remove(place)),
                None => p.push(id),
            })
        };
        view! {
            <button type="button" class="chip" data-pick=label.clone() aria-pressed=said(move || picked.with(|p| p.contains(&id)).to_string()) on:click=tap(turn)>
                {format!("{label} {part}")}
            </button>
        }
        .into_any()
    };
    view! { <div class="chips" data-id="label-picks">{list(all, |b| b.0, chip)}</div> }
}
