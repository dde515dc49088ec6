//! A reading of air and steel, and what it says.
//!
//! May use: [`crate::job::air`]. Must not: judge itself.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use super::ask::{Typed, Units, number, read, wrong};
use super::field::{Draft, Field};
use crate::app::clocks::local;
use crate::app::session::use_session;
use crate::job::air;
use crate::job::entry::{What, tidy};
use crate::sums::air::coldest;
use crate::sums::range;
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE, Measure, Quantity, Temperature, TemperatureInterval};

/// Air, humidity and the coldest steel; or only the shed's temperature.
#[component]
pub fn ReadingHere(
    /// Ask for humidity and steel too.
    steel: bool,
    /// The last reading stands elsewhere on the screen.
    #[prop(optional)]
    alone: bool,
) -> impl IntoView {
    let session = use_session();
    let units = memo(move || Units::of(session));
    let (a, h, s) = (Draft::new("reading/air", ""), Draft::new("reading/rh", ""), Draft::new("reading/steel", ""));
    let (s2, s3, p) =
        (Draft::new("reading/steel-2", ""), Draft::new("reading/steel-3", ""), Draft::new("reading/product", ""));
    let asked = RwSignal::new(false);
    let temperature = Signal::derive(move || Some(units.get().temperature().symbol().to_string()));
    let air_c = move || {
        let u = units.get();
        read(a, u.temperature(), range::Field::AirTemperature, u)
    };
    let degrees = move |draft, field| {
        let u = units.get();
        read(draft, u.temperature(), field, u)
    };
    let spot = move |draft| degrees(draft, range::Field::SteelTemperature);
    // One spot or three: the coldest is taken.
    let steel_c = move || -> Typed<Temperature> {
        let spots = [spot(s)?, spot(s2)?, spot(s3)?];
        Ok(coldest(&spots.into_iter().flatten().collect::<Vec<_>>()).ok())
    };
    let product_c = move || degrees(p, range::Field::ProductTemperature);
    let taken = move || {
        let several = [s, s2, s3].iter().filter(|d| !d.get().trim().is_empty()).count() > 1;
        let coldest = steel_c().ok().flatten().filter(|_| several)?;
        Some(format!("Coldest of the spots: {} is kept.", units.get().temperature().print(coldest)))
    };
    let rh = move || number(h, range::Field::RelativeHumidity);
    // The first field answers for itself, and for all three when none is filled in.
    let first = move || spot(s).and_then(|own| own.map_or_else(|| Ok(steel_c().ok().flatten()), |t| Ok(Some(t))));
    let silent = RwSignal::new(false);
    let tenth = |t| (CELSIUS.get(t) * 10.0_f64).round() / 10.0;
    let keep = move |_| {
        asked.set(true);
        let Ok(Some(air)) = air_c() else { return };
        let (rh_pct, steel_at, product_at) = match (steel, rh(), steel_c(), product_c()) {
            (false, ..) => (None, None, None),
            (true, Ok(Some(rh)), Ok(Some(s)), Ok(p)) => (Some(tidy(rh)), Some(tenth(s)), p.map(tenth)),
            _ => return,
        };
        session.write_with(
            What::Reading { air_c: tenth(air), rh_pct, steel_c: steel_at, product_c: product_at },
            None,
            move |_| {
                [a, h, s, s2, s3, p].iter().for_each(|d| d.clear());
                asked.set(false);
            },
        );
    };
    view! {
        <section class="reading" data-id="reading">
            <h2>{if steel { "Air and steel" } else { "How warm is the shed?" }}</h2>
            {(!alone).then(|| view! { <LastReading/> })}
            <div class="two-fields">
                <Field label="Air" id="reading-air" draft=a number=true unit=temperature error=wrong(air_c, asked)/>
                {steel
                    .then(|| view! { <Field label="Humidity" id="reading-rh" draft=h number=true unit=Some("% RH".to_string()) error=wrong(rh, asked)/> })}
            </div>
            {steel
                .then(|| {
                    view! {
                        <Field
                            label="Steel, the coldest of three spots"
                            id="reading-steel"
                            draft=s
                            number=true
                            unit=temperature
                            error=wrong(first, asked)
                            hint="Counterweight, axle, low frame. Infrared guns lie on bare and plated metal: touch probe."
                        />
                        {live(move || taken().map(|w| view! { <p data-id="reading-coldest"><strong>{w}</strong></p> }))}
                        <details class="more" data-id="reading-more">
                            <summary>"Two more spots, and the product"</summary>
                            <div class="two-fields">
                                <Field label="Second spot" id="reading-steel-2" draft=s2 number=true unit=temperature error=wrong(move || spot(s2), silent)/>
                                <Field label="Third spot" id="reading-steel-3" draft=s3 number=true unit=temperature error=wrong(move || spot(s3), silent)/>
                            </div>
                            <Field label="Product in its can, if read" id="reading-product" draft=p number=true unit=temperature error=wrong(product_c, silent)/>
                        </details>
                    }
                })}
            <button type="button" class="work" data-id="reading-keep" on:click=tap(keep)>"Keep the reading"</button>
        </section>
    }
}

/// The last reading and what it says.
#[component]
pub fn LastReading() -> impl IntoView {
    let session = use_session();
    let last = memo(move || session.job(|j| j.last_reading().cloned()));
    let against = move || session.job(|j| air::against_film(j, session.now.get()));
    live(move || {
        last.get().map(|r| {
            let units = Units::of(session);
            let unit = units.temperature();
            let apart = move |t: TemperatureInterval| Measure::Warmer.unit(units.set).print(t.si());
            let verdict = air::judge(&r);
            let figures = match (r.steel_c, &verdict) {
                (Some(s), Some(v)) => format!(
                    "Air {}, {} % RH, dew point {}, steel {}.",
                    unit.print(CELSIUS.of(r.air_c)),
                    r.rh_pct.unwrap_or_default(),
                    unit.print(v.margin.dew_point),
                    unit.print(CELSIUS.of(s)),
                ),
                _ => format!("Air {}.", unit.print(CELSIUS.of(r.air_c))),
            };
            view! {
                <div class="answer column" data-id="reading-last">
                    <p class="quiet">"Last reading, "{local(r.stamp.at)}</p>
                    {verdict
                        .map(|v| {
                            view! {
                                <p class="figure-large">{if v.margin.gap.si() < 0.0 { "" } else { "+" }}{apart(v.margin.gap)}</p>
                                <p>"steel above dew point, give or take "{apart(v.margin.doubt)}"; "{apart(CELSIUS_DIFFERENCE.of(3.0))}" needed"</p>
                            }
                        })}
                    <p>{figures}</p>
                    {live(move || {
                        r.steel_c
                            .and_then(|_| against())
                            .map(|w| view! { <p class="why"><strong>"Against coating now: "</strong>{w}"."</p> })
                    })}
                </div>
            }
        })
    })
}
