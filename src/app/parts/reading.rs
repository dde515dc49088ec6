//! A reading of air and steel, and what it says.
//!
//! May use: [`crate::job::air`]. Must not: judge itself.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use super::ask::{Units, number, read, wrong};
use super::field::{Draft, Field};
use crate::app::clocks::local;
use crate::app::session::use_session;
use crate::job::air;
use crate::job::entry::{What, tidy};
use crate::sums::range;
use crate::units::{CELSIUS, CELSIUS_DIFFERENCE};

/// Air, humidity and the coldest steel; or only the shed's temperature.
#[component]
pub fn ReadingHere(
    /// Ask for humidity and steel too.
    steel: bool,
) -> impl IntoView {
    let session = use_session();
    let units = memo(move || Units::of(session));
    let (a, h, s) = (Draft::new("reading/air", ""), Draft::new("reading/rh", ""), Draft::new("reading/steel", ""));
    let asked = RwSignal::new(false);
    let temperature = Signal::derive(move || Some(units.get().temperature().symbol().to_string()));
    let air_c = move || {
        let u = units.get();
        read(a, u.temperature(), range::Field::AirTemperature, u)
    };
    let steel_c = move || {
        let u = units.get();
        read(s, u.temperature(), range::Field::SteelTemperature, u)
    };
    let rh = move || number(h, range::Field::RelativeHumidity);
    let tenth = |t| (CELSIUS.get(t) * 10.0_f64).round() / 10.0;
    let keep = move |_| {
        asked.set(true);
        let Ok(Some(air)) = air_c() else { return };
        let (rh_pct, steel_at) = match (steel, rh(), steel_c()) {
            (false, ..) => (None, None),
            (true, Ok(Some(rh)), Ok(Some(s))) => (Some(tidy(rh)), Some(tenth(s))),
            _ => return,
        };
        session.write_with(
            What::Reading { air_c: tenth(air), rh_pct, steel_c: steel_at, product_c: None },
            None,
            move |_| {
                [a, h, s].iter().for_each(|d| d.clear());
                asked.set(false);
            },
        );
    };
    view! {
        <section class="reading" data-id="reading">
            <h2>{if steel { "Air and steel" } else { "How warm is the shed?" }}</h2>
            <LastReading/>
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
                            error=wrong(steel_c, asked)
                            hint="Counterweight, axle, low frame. Infrared guns lie on bare and plated metal: touch probe."
                        />
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
            let unit = Units::of(session).temperature();
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
                                <p class="figure-large">{format!("{:+.1} °C", CELSIUS_DIFFERENCE.get(v.margin.gap))}</p>
                                <p>"steel above dew point, 3 °C needed"</p>
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
