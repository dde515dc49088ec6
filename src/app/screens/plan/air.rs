//! Air and night: what the last reading says, a new one, all of them as a picture, the coming night.
//!
//! May use: [`crate::job::airlog`], [`crate::job::outlook`], parts. Must not: reckon or judge.

use chrono::Local;
use leptos::prelude::*;

use crate::app::clocks::local;
use crate::app::desk::planning::{day, use_planning};
use crate::app::parts::airplot::air_plot;
use crate::app::parts::ask::Units;
use crate::app::parts::figure::{Figure, figure};
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo};
use crate::app::parts::reading::ReadingHere;
use crate::app::route::Route;
use crate::app::session::{Session, use_session};
use crate::job::air::{Asked, judge};
use crate::job::airlog::{self, Standing};
use crate::job::clock::CureRule;
use crate::job::fold::Reading;
use crate::job::outlook::{self, Film, Tonight};
use crate::job::product::{Product, Use};
use crate::job::stage::Stage;
use crate::sums::range;
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, Measure, Quantity, UnitSet};

/// Air and night.
#[component]
pub fn AirScreen() -> impl IntoView {
    let session = use_session();
    let planning = use_planning();
    let units = memo(move || Units::of(session).set);
    // To the minute: a picture that moved every second would never stand still.
    let minute = memo(move || session.now.get().timestamp() / 60);
    let now = move || {
        minute.track();
        session.now.get_untracked()
    };
    let standing = memo(move || {
        session.job(|j| {
            let film = if j.count(Stage::FirstPass).open > 0 { Use::AerosolFilm } else { Use::LiquidFilm };
            let limits = Asked::of(j.product(film)).limits;
            j.last_reading().map(|r| airlog::standing(r, &limits, now(), units.get(), &Local))
        })
    });
    let tonight = memo(move || -> Option<Result<Tonight, String>> {
        let low = planning.setup.with(|s| s.night_low_c)?;
        let (film, _) = planning.products.with(|p| Product::chosen(p, Use::LiquidFilm, day(now())));
        let (rule, needs) = (CureRule::of(&film), planning.plan.with(Film::of));
        Some(session.job(|j| outlook::tonight(&j.readings, low, needs, &rule, now(), units.get(), &Local)))
    });
    let drawn = memo(move || {
        tonight.with(|t| {
            let night = t.as_ref().and_then(|t| t.as_ref().ok()).map(|t| &t.night);
            session.job(|j| airlog::curve(j, night, now()))
        })
    });
    let low = planning.setup.with_untracked(|s| s.night_low_c);
    view! {
        <Head title="Air and night" back=Route::Plan back_word="Plan"/>
        {live(move || standing.get().map_or_else(nothing_read, verdict))}
        <details class="more" data-id="new-reading" open=standing.with_untracked(Option::is_none)>
            <summary>"New reading"</summary>
            <ReadingHere steel=true alone=true/>
        </details>
        <section data-id="air-plot">
            {live(move || {
                drawn.with(|d| {
                    d.as_ref()
                        .map(|log| {
                            let apart = |c: f64| Measure::Warmer.unit(units.get()).print(CELSIUS_DIFFERENCE.of(c).si());
                            let older = match log.older {
                                0 => None,
                                n => Some(format!("{n} older readings stand in the list.")),
                            };
                            view! {
                                <h2>"Over the job"</h2>
                                <p class="over">{Measure::Temperature.unit(units.get()).symbol}</p>
                                {air_plot(log, units.get())}
                                <p class="quiet" data-id="plot-words">
                                    "The band over the dew point is "{apart(log.needed_c)}" high: in it, and at a cross, steel is too close. \
                                    Dotted is reckoned. Lines break off where nobody read for 6 h. "
                                    {older}
                                </p>
                            }
                        })
                })
            })}
        </section>
        <h2>"Tonight"</h2>
        <section data-id="night" aria-live="polite">{live(move || tonight.get().map(night_words))}</section>
        {figure(
            Figure {
                id: "night-low".into(),
                label: "Expected low tonight, where the machine stands".into(),
                field: range::Field::AirTemperature,
                measure: Some(Measure::Temperature),
                hint: "From the forecast. It is taken to come about 05:30.".into(),
            },
            low,
            move |c| planning.change(|s| s.night_low_c = c),
            move || planning.keep(),
        )}
        <section class="cautions">
            <ul>
                <li>"A reading advises, it certifies nothing. Your product's data sheet wins."</li>
                <li>"A flame heater is out and cold before any can is opened. It adds water and carbon monoxide to the air."</li>
            </ul>
            <p class="quiet">
                "3 °C (5.4 °F) above the dew point: ISO 8502-4 guidance. How long a reading counts, and the straight line down to the \
                low: common practice, no source."
            </p>
        </section>
        {live(move || readings(session, units.get()))}
    }
}

fn nothing_read() -> AnyView {
    view! {
        <div class="answer column" data-id="air-verdict">
            <p class="figure-large">"No reading yet"</p>
            <p>"Read air, humidity and the coldest steel: below."</p>
        </div>
    }
    .into_any()
}

fn verdict(s: Standing) -> AnyView {
    let against = s.against.into_iter().map(|w| view! { <li>{w}</li> }).collect_view();
    view! {
        <div class="answer column" data-id="air-verdict" data-fresh=s.fresh.then_some("yes")>
            <p class="figure-large">{s.title}</p>
            {s.gap.map(|g| view! { <p data-id="air-gap"><strong>{g}"."</strong></p> })}
            <ul class="plain">{against}</ul>
            <p data-id="air-counts">{s.counts}</p>
        </div>
    }
    .into_any()
}

fn night_words(tonight: Result<Tonight, String>) -> AnyView {
    match tonight {
        Err(why) => view! { <p class="why" data-id="night-why">{why}</p> }.into_any(),
        Ok(t) => {
            let lines = t.words.into_iter().map(|w| view! { <p>{w}</p> }).collect_view();
            view! {
                <div class="answer column">
                    <p class="figure-large" data-id="night-title">{t.title}</p>
                    {lines}
                </div>
            }
            .into_any()
        }
    }
}

/// All readings, the last one first.
fn readings(session: Session, units: UnitSet) -> Option<AnyView> {
    let all = session.job(|j| j.readings.clone());
    let first = all.first()?.stamp.entry;
    let lines = all.iter().rev().map(|r| line(r, units)).collect_view();
    Some(
        view! {
            <h2>{format!("Readings: {}", all.len())}</h2>
            <ul class="air-list" data-id="air-list" data-first=first.to_string()>{lines}</ul>
        }
        .into_any(),
    )
}

fn line(r: &Reading, units: UnitSet) -> AnyView {
    let warm = |c: f64| Measure::Temperature.unit(units).print(CELSIUS.of(c).si());
    let verdict = judge(r);
    let gap = verdict.as_ref().map(|v| {
        let gap = Measure::Warmer.unit(units).print(v.margin.gap.si());
        format!("{}{gap}", if v.margin.gap.si() < 0.0 { "" } else { "+" })
    });
    let close = verdict.as_ref().is_some_and(|v| !v.go());
    let mut figures = vec![format!("air {}", warm(r.air_c))];
    figures.extend(r.rh_pct.map(|rh| format!("{rh} % RH")));
    figures.extend(r.steel_c.map(|c| format!("steel {}", warm(c))));
    figures.extend(verdict.as_ref().map(|v| {
        let c = CELSIUS.get(v.margin.against);
        format!("{} {}", airlog::point_name(c), warm(c))
    }));
    figures.extend(r.product_c.map(|c| format!("product {}", warm(c))));
    let by = (!r.stamp.by.is_empty()).then(|| format!(", {}", r.stamp.by));
    view! {
        <li data-close=close.then_some("yes")>
            <p class="air-when"><span>{local(r.stamp.at)}{by}</span> <strong>{gap}</strong></p>
            <p>{figures.join(", ")}{close.then_some(". Not yet.")}</p>
        </li>
    }
    .into_any()
}
