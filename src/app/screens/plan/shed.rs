//! The shed: vapour of the planned spray, time to clear it, warming the steel, and the waits that come of it.
//!
//! May use: [`crate::job::shed`], the planning, parts. Must not: reckon, or say more than an average.

use leptos::prelude::*;

use crate::app::desk::planning::{Planning, day, use_planning};
use crate::app::parts::ask::{Units, sentence};
use crate::app::parts::figure::{Figure, figure, short};
use crate::app::parts::head::Head;
use crate::app::parts::live::{live, memo, said, tap};
use crate::app::parts::picture::picture;
use crate::app::route::Route;
use crate::app::session::use_session;
use crate::job::air::Asked;
use crate::job::airlog::whole;
use crate::job::product::{Product, Use};
use crate::job::shed::{AIR_OVER_STEEL_C, Doors, Heating, Shed, Spray, WarmUp, Warming, of_limit};
use crate::sheets::{Curve, FromAbove, Level, Line, from_above};
use crate::sums::SumError;
use crate::sums::range::Field;
use crate::units::{LITRE, MINUTE, Measure, Quantity, UnitSet};

/// A choice with its words.
type Choices<T> = [(T, &'static str, &'static str)];

const DOORS: &Choices<Doors> = &[
    (Doors::BothEndsOpen, "both-ends", "Open both ends"),
    (Doors::OneOpen, "one", "One open"),
    (Doors::Shut, "shut", "Shut"),
];
const HEATING: &Choices<Heating> = &[
    (Heating::None, "none", "None"),
    (Heating::FromOutside, "outside", "From outside"),
    (Heating::Electric, "electric", "Electric"),
    (Heating::Flame, "flame", "With a flame"),
];
/// Heat through the walls (from memory).
const WALLS: &Choices<f64> =
    &[(5.0, "sheet", "Sheet metal"), (2.5, "boards", "Boards"), (0.6, "insulated", "Insulated")];

/// Temperatures typed for the warm-up, in °C; what is left out comes from the last reading.
#[derive(Clone, Copy, PartialEq, Default)]
struct Typed {
    steel: Option<f64>,
    outside: Option<f64>,
    air: Option<f64>,
    wanted: Option<f64>,
}

/// The shed.
#[component]
pub fn ShedScreen() -> impl IntoView {
    let session = use_session();
    let planning = use_planning();
    let units = memo(move || Units::of(session).set);
    let the_shed = memo(move || planning.setup.with(|s| s.shed.clone()));
    let today = memo(move || day(session.now.get()));
    let film = memo(move || planning.products.with(|p| Product::chosen(p, Use::LiquidFilm, today.get()).0));
    let pass = memo(move || {
        planning.list.with(|l| planning.plan.with(|p| film.with(|film| Spray::planned(l, &p.work, film))))
    });
    view! {
        <Head title="Shed" back=Route::Plan back_word="Plan"/>
        {live(move || pass.with(|p| the_shed.with(|s| vapour(s, p.as_ref(), units.get()))))}
        <section class="cautions" data-id="shed-cautions">
            <ul>
                <li>"An average only. At the gun, low down and in pits the vapour is over its limit anyway, and mist burns below the flash point."</li>
                <li>"Flames and heaters out, phone out, doors open, mask on. It is no health limit."</li>
                <li>"An unvented flame, a petrol washer or an engine indoors makes carbon monoxide."</li>
            </ul>
            <p class="quiet">
                "Limits differ by place: 25 % (29 CFR 1910.94), 20 % (California Title 8, 5153), 10 % (29 CFR 1910.146, and where alarms are \
                set), from memory. Data sheet and local fire rules go first."
            </p>
        </section>
        <h2>"The shed"</h2>
        {live(move || the_shed.with(|s| plan_picture(s, units.get())))}
        {size(planning)}
        <h3>"Doors while spraying and airing out"</h3>
        {choices(DOORS, "doors", move |d| planning.setup.with(|s| s.shed.doors == d), move |d| planning.choose(|s| s.shed.doors = d))}
        {figure(
            asked("fan", "Fan rated for vapour", Field::Airflow, Some(Measure::Airflow), "Left empty: none. An ordinary fan is a spark."),
            planning.setup.with_untracked(|s| s.shed.fan_m3_h),
            move |v| planning.change(|s| s.shed.fan_m3_h = v),
            move || planning.keep(),
        )}
        <Warm planning/>
    }
}

fn asked(id: &str, label: &str, field: Field, measure: Option<Measure>, hint: &str) -> Figure {
    Figure { id: format!("shed-{id}"), label: label.into(), field, measure, hint: hint.into() }
}

/// Length, width and height.
fn size(planning: Planning) -> AnyView {
    let usual = Shed::default();
    let start = planning.setup.with_untracked(|s| s.shed.clone());
    let own = |v: f64, usual: f64| (v != usual).then_some(v);
    let side = move |id: &str, label: &str, start: f64, usual: f64, set: fn(&mut Shed, f64)| {
        figure(
            asked(id, label, Field::PartLength, Some(Measure::Size), ""),
            Some(own(start, usual).unwrap_or(usual)),
            move |v| planning.change(|s| set(&mut s.shed, v.unwrap_or(usual))),
            move || planning.keep(),
        )
    };
    view! {
        <div class="shed-sides">
            {side("length", "Length", start.length_m, usual.length_m, |s, v| s.length_m = v)}
            {side("width", "Width", start.width_m, usual.width_m, |s, v| s.width_m = v)}
            {side("height", "Height", start.height_m, usual.height_m, |s, v| s.height_m = v)}
        </div>
        <p class="quiet">"12 × 8 × 4.5 m (39 × 26 × 15 ft) is a default: measure yours inside, height in the middle."</p>
    }
    .into_any()
}

/// Buttons of which one is chosen.
fn choices<T: Copy + Send + Sync + 'static>(
    all: &'static Choices<T>,
    id: &'static str,
    is: impl Fn(T) -> bool + Copy + Send + Sync + 'static,
    choose: impl Fn(T) + Copy + Send + Sync + 'static,
) -> AnyView {
    let buttons = all
        .iter()
        .map(|(value, slug, words)| {
            let value = *value;
            let pressed = said(move || if is(value) { "true" } else { "false" });
            view! {
                <button type="button" class="chip" data-id=format!("{id}-{slug}") aria-pressed=pressed on:click=tap(move |_| choose(value))>
                    {*words}
                </button>
            }
        })
        .collect_view();
    view! { <div class="chips" role="group">{buttons}</div> }.into_any()
}

/// The answer on vapour, with its course.
fn vapour(shed: &Shed, pass: Option<&Spray>, units: UnitSet) -> AnyView {
    let Some(pass) = pass else {
        return view! {
            <div class="answer column" data-id="shed-answer">
                <p class="figure-large">"Nothing to spray yet"</p>
                <p>"Give the machine its size, and the film its vapour figures: then the shed is reckoned."</p>
            </div>
        }
        .into_any();
    };
    let answer = match shed.vapour(pass) {
        Ok(answer) => answer,
        Err(e) => return refused(&e, units, "shed-answer"),
    };
    let mut lines = answer.lines(shed.doors, units);
    // The cautions stand below in full.
    lines.pop();
    let over = answer.peak_pct_of_lel.likely >= 10.0 || shed.doors != Doors::BothEndsOpen;
    let peak = answer.peak_pct_of_lel;
    let ways = shed.other_ways(pass, units).unwrap_or_default();
    let ways = (!ways.is_empty()).then(|| {
        let lines = ways
            .into_iter()
            .map(|w| view! { <li>{w.words}": about "{of_limit(w.peak_pct_of_lel)}"."</li> })
            .collect_view();
        view! {
            <h2>"What would change it"</h2>
            <ul class="plain" data-id="shed-ways">{lines}</ul>
        }
    });
    let last = answer.course.points.last().map_or(0.0, |p| MINUTE.get(p.0));
    let curve = Curve {
        lines: vec![Line {
            points: answer.course.points.iter().map(|p| (MINUTE.get(p.0), p.1)).collect(),
            words: "",
        }],
        face: "stop",
        levels: vec![
            Level { at: 25.0, words: "25 % of LEL".into() },
            Level { at: 10.0, words: "10 %, alarms".into() },
        ],
        moment: Some((pass.over_min, "last stroke".into())),
        ends: ("first stroke".into(), whole(last.round() as i64)),
        at_least: (0.0, 28.0),
        words: "Vapour in the shed over time, on average, as a share of the lower explosive limit".into(),
    };
    let litres = Measure::Volume.unit(units).print(LITRE.of(pass.litres).si());
    view! {
        <div class="answer column" data-id="shed-answer">
            <p class="figure-large">{format!("About {} of LEL", of_limit(peak.likely))}</p>
            <p>{format!("{} to {}, by wind and mixing. LEL: the lower explosive limit. On average; at the gun it is over it.", of_limit(peak.low), of_limit(peak.high))}</p>
            {lines.into_iter().skip(1).enumerate().map(|(i, w)| view! { <p class=if i == 0 && over { "why" } else { "" }>{w}</p> }).collect_view()}
        </div>
        {picture(&curve.draw())}
        <p class="quiet" data-id="shed-pass">
            {format!("Second pass as planned: {litres} in {}, {} L of vapour from a litre, LEL {} %. Cans of the first pass add propellant: not counted.",
                whole(pass.over_min.round() as i64), short(pass.vapour_l_per_l), short(pass.lel_pct))}
        </p>
        {ways}
    }
    .into_any()
}

fn refused(e: &SumError, units: UnitSet, id: &'static str) -> AnyView {
    view! {
        <div class="answer column" data-id=id>
            <p class="figure-large">"No answer yet"</p>
            <p class="why">{sentence(&crate::sheets::error_words(e, units))}</p>
        </div>
    }
    .into_any()
}

/// The shed from above.
fn plan_picture(shed: &Shed, units: UnitSet) -> AnyView {
    let metres = |v: f64| Measure::Size.unit(units).print(crate::units::METRE.of(v).si());
    let (open, air) = match shed.doors {
        Doors::Shut => (0, "hardly any air passes"),
        Doors::OneOpen => (1, "air in and out by one door"),
        Doors::BothEndsOpen => (2, "air passes from end to end"),
    };
    picture(&from_above(&FromAbove {
        ratio: shed.length_m / shed.width_m,
        open,
        fan: shed.fan_m3_h.is_some_and(|f| f > 0.0),
        sides: (metres(shed.length_m), metres(shed.width_m)),
        air: air.into(),
    }))
}

/// What the warm-up is reckoned from; none without any temperature of the steel.
fn warming(
    typed: Typed,
    read: Option<(f64, Option<f64>)>,
    least_c: f64,
    night_low: Option<f64>,
    kg: f64,
) -> Option<Warming> {
    let steel_c = typed.steel.or(read.map(|r| r.0))?;
    let steel_wanted_c = typed.wanted.or(read.and_then(|r| r.1)).unwrap_or(least_c);
    let outside_c = typed.outside.or(night_low).unwrap_or(steel_c);
    let air_c = typed.air.unwrap_or(steel_wanted_c + AIR_OVER_STEEL_C);
    Some(Warming { outside_c, air_c, steel_c, steel_wanted_c, steel_kg: kg, fan: false })
}

#[component]
fn Warm(planning: Planning) -> impl IntoView {
    let session = use_session();
    let units = memo(move || Units::of(session).set);
    let typed = RwSignal::new(Typed::default());
    let blown = RwSignal::new(false);
    let limits = memo(move || session.job(|j| Asked::of(j.product(Use::LiquidFilm)).limits));
    let asked_of_it = memo(move || {
        let least = crate::units::CELSIUS.get(limits.get().steel_least);
        let read = session.job(|j| {
            let r = j.readings.iter().rev().find(|r| r.steel_c.is_some())?;
            Some((r.steel_c?, Warming::wanted_c(r, &limits.get())))
        });
        let kg = planning.plan.with(|p| p.figures.steel_kg);
        let low = planning.setup.with(|s| s.night_low_c);
        warming(typed.get(), read, least, low, kg).map(|w| Warming { fan: blown.get(), ..w })
    });
    let the_shed = memo(move || planning.setup.with(|s| s.shed.clone()));
    let up = memo(move || asked_of_it.get().map(|w| (w, the_shed.with(|s| s.warm_up(&w)))));
    let degrees = |id: &str, label: &str, hint: &str, set: fn(&mut Typed, Option<f64>)| {
        figure(
            asked(id, label, Field::AirTemperature, Some(Measure::Temperature), hint),
            None,
            move |v| typed.update(|t| set(t, v)),
            || (),
        )
    };
    view! {
        <h2>"Warming the steel"</h2>
        {live(move || match up.get() {
            None => {
                view! {
                    <div class="answer column" data-id="warm-answer">
                        <p>"No steel has been read yet. Read it under Air and night, or type it below."</p>
                    </div>
                }
                    .into_any()
            }
            Some((w, _)) if w.steel_c >= w.steel_wanted_c => {
                let warm = |c: f64| Measure::Temperature.unit(units.get()).print(crate::units::CELSIUS.of(c).si());
                view! {
                    <div class="answer column" data-id="warm-answer">
                        <p class="figure-large">"No warm-up"</p>
                        <p>{format!("Steel at {} is at or over the {} it must come to. Read again before the pass.", warm(w.steel_c), warm(w.steel_wanted_c))}</p>
                    </div>
                }
                    .into_any()
            }
            Some((_, Err(e))) => refused(&e, units.get(), "warm-answer"),
            Some((w, Ok(up))) => warm_answer(&the_shed.get(), &w, &up, units.get()),
        })}
        {live(move || {
            let off = the_shed.with(|s| s.heating.off_before_min());
            let (warm_up, heater_off) = match up.get() {
                Some((w, Ok(up))) if w.steel_c < w.steel_wanted_c => up.waits_min(),
                Some((w, _)) if w.steel_c >= w.steel_wanted_c => (0.0, off),
                _ => return None,
            };
            let there = planning.setup.with(|s| s.warm_up_min == warm_up && s.heater_off_min == heater_off);
            let or_none = |min: f64| if min > 0.0 { whole(min as i64) } else { "none".into() };
            let (first, second) = (or_none(warm_up), or_none(heater_off));
            Some(
                match there {
                    true => view! { <p data-id="waits-kept"><strong>{format!("In the plan: warm-up {first}, heater out and cold {second}.")}</strong></p> }.into_any(),
                    false => {
                        let put = move |_| planning.choose(|s| (s.warm_up_min, s.heater_off_min) = (warm_up, heater_off));
                        view! {
                            <p>{format!("Warm-up: {first}. Then heater out and cold: {second}.")}</p>
                            <button type="button" class="work" data-id="put-waits" on:click=tap(put)>"Put these waits in the plan"</button>
                        }
                            .into_any()
                    }
                },
            )
        })}
        <h3>"What warms it"</h3>
        {choices(HEATING, "heating", move |h| planning.setup.with(|s| s.shed.heating == h), move |h| planning.choose(|s| s.shed.heating = h))}
        {figure(
            asked("kw", "Your heater", Field::HeaterPower, Some(Measure::Power), "Its plate says. Left empty: not known."),
            planning.setup.with_untracked(|s| s.shed.heater_kw),
            move |v| planning.change(|s| s.shed.heater_kw = v),
            move || planning.keep(),
        )}
        <div class="chips">
            <button
                type="button"
                class="chip"
                data-id="blown"
                aria-pressed=said(move || if blown.get() { "true" } else { "false" })
                on:click=tap(move |_| blown.update(|b| *b = !*b))
            >
                "Warm air blows on the steel"
            </button>
        </div>
        <h3>"Walls and roof"</h3>
        {choices(WALLS, "walls", move |w| planning.setup.with(|s| s.shed.shell_w_m2_k == w), move |w| planning.choose(|s| s.shed.shell_w_m2_k = w))}
        <details class="more" data-id="warm-more">
            <summary>"Other temperatures"</summary>
            {degrees("steel", "Steel now, coldest spot", "Left empty: the last reading.", |t, v| t.steel = v)}
            {degrees("wanted", "Steel must come to", "Left empty: 3 °C (5.4 °F) above the dew point read, and what the film's sheet asks.", |t, v| t.wanted = v)}
            {degrees("held", "Air held at", "Left empty: 6 °C (11 °F) over that, common practice, no source.", |t, v| t.air = v)}
            {degrees("outside", "Outside", "Left empty: the night low, else as cold as the steel.", |t, v| t.outside = v)}
        </details>
        <p class="quiet">"Steel 20 mm thick, warmed from both faces, doors shut. Heat transfer, oil and tyres: from memory, with their range."</p>
    }
}

fn warm_answer(shed: &Shed, w: &Warming, up: &WarmUp, units: UnitSet) -> AnyView {
    let warm = |c: f64| Measure::Temperature.unit(units).print(crate::units::CELSIUS.of(c).si());
    let fan = (!w.fan).then(|| shed.warm_up(&Warming { fan: true, ..*w }).ok()).flatten();
    let fan =
        fan.map(|f| format!("With a fan heater blowing on it: about {}.", whole(f.time_min.likely.ceil() as i64)));
    view! {
        <div class="answer column" data-id="warm-answer">
            <p class="figure-large">{format!("About {}", whole(up.time_min.likely.ceil() as i64))}</p>
            <p>{format!("Steel from {} to {}.", warm(w.steel_c), warm(w.steel_wanted_c))}</p>
            {up.lines(shed, w, units).into_iter().map(|l| view! { <p>{l}</p> }).collect_view()}
            <p>{fan}</p>
        </div>
    }
    .into_any()
}
