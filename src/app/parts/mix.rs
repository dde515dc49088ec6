//! The bucket: water to concentrate in words and as a picture, logged with one tap.
//!
//! May use: [`dilution`]. Must not: reckon itself.

use crate::app::parts::live::{live, memo, tap};
use leptos::prelude::*;

use super::ask::{Units, number, read, wrong};
use super::field::{Draft, Field};
use crate::app::session::use_session;
use crate::job::entry::{What, tidy};
use crate::job::guide::start_mix;
use crate::job::stage::Stage;
use crate::sums::dilution::{self, Mix, MixRatio};
use crate::sums::range;
use crate::units::{LITRE, MILLILITRE, round_parts};

/// The mix of a stage.
#[component]
pub fn MixHere(stage: Stage) -> impl IntoView {
    let session = use_session();
    let (product, water, concentrate) = start_mix(stage);
    let units = memo(move || Units::of(session));
    let key = stage.slug();
    let pail = Draft::new(format!("mix/pail/{key}"), "");
    let (w, c) = (
        Draft::new(format!("mix/w/{key}"), water.to_string()),
        Draft::new(format!("mix/c/{key}"), concentrate.to_string()),
    );
    let asked = RwSignal::new(false);
    let fill = move || read(pail, units.get().volume(), range::Field::FillVolume, units.get());
    let mix = memo(move || {
        let ratio = MixRatio::parts(
            number(w, range::Field::WaterParts).ok().flatten()?,
            number(c, range::Field::ConcentrateParts).ok().flatten()?,
        )
        .ok()?;
        dilution::to_fill(ratio, fill().ok().flatten()?).ok()
    });
    let log = move |_| {
        asked.set(true);
        if let Some(m) = mix.get_untracked() {
            session.write(What::Mixed {
                stage,
                product: product.into(),
                water_parts: tidy(m.ratio.water_parts()),
                concentrate_parts: tidy(m.ratio.concentrate_parts()),
                water_ml: MILLILITRE.get(m.water).round(),
                concentrate_ml: MILLILITRE.get(m.concentrate).round(),
            });
        }
    };
    let logged = move || {
        session.job(|j| {
            let all: Vec<_> = j.mixes.iter().filter(|m| m.stage == stage).collect();
            (all.len(), all.iter().map(|m| m.water_ml + m.concentrate_ml).sum::<f64>())
        })
    };
    view! {
        <section class="mix" data-id="mix">
            <h2>{format!("Mix the {product}")}</h2>
            <div class="two-fields">
                <Field label="Parts of water" id="mix-water" draft=w number=true error=wrong(move || number(w, range::Field::WaterParts), asked)/>
                <Field
                    label="of concentrate"
                    id="mix-concentrate"
                    draft=c
                    number=true
                    error=wrong(move || number(c, range::Field::ConcentrateParts), asked)
                />
            </div>
            <Field
                label="Fill the bucket to"
                id="mix-pail"
                draft=pail
                number=true
                unit=Signal::derive(move || Some(units.get().volume().symbol().to_string()))
                error=wrong(fill, asked)
                hint="Or with its own unit: 2 us gal, 1.5 imp gal"
            />
            {live(move || mix.get().map(|m| view! { <MixShown mix=m units=units.get()/> }))}
            <p class="quiet">"The start ratio is a default. Your product's sheet wins. Gloves and goggles; water first."</p>
            <button type="button" class="work" data-id="mix-log" on:click=tap(log)>"Mixed: put it in the record"</button>
            {live(move || {
                let (n, ml) = logged();
                (n > 0)
                    .then(|| {
                        let unit = units.get().volume();
                        view! {
                            <p data-id="mix-logged">
                                {format!("{n} {} mixed, {} in all.", if n == 1 { "bucket" } else { "buckets" }, unit.print(MILLILITRE.of(ml)))}
                            </p>
                        }
                    })
            })}
        </section>
    }
}

/// A mix in words, with water and concentrate stacked as they stand in the bucket.
#[component]
pub fn MixShown(mix: Mix, units: Units) -> impl IntoView {
    let unit = units.volume();
    // In litres the jug reads to 10 mL; the two figures still add up to the whole.
    let parts = |a, b| {
        let step = unit.def().step;
        let rounded = round_parts(&[unit.get(a), unit.get(b)], step);
        (unit.print_to(unit.of(rounded[0]), step), unit.print_to(unit.of(rounded[1]), step))
    };
    let (water, concentrate) = parts(mix.water, mix.concentrate);
    let share = (mix.concentrate_percent / 100.0).clamp(0.02, 0.98);
    let (top, full) = (20.0, 120.0);
    let cut = top + full * share;
    let litres = LITRE.get(mix.total);
    view! {
        <div class="answer" data-id="mix-answer">
            <svg class="bucket" viewBox="0 0 110 160" aria-hidden="true">
                <path class="concentrate" d=format!("M{} {top}H{}L{} {cut}H{}Z", 10, 100, 100.0 - share * 10.0, 10.0 + share * 10.0)/>
                <path class="water" d=format!("M{} {cut}H{}L90 {b}H20Z", 10.0 + share * 10.0, 100.0 - share * 10.0, b = top + full)/>
                <path class="rim" d="M6 12L20 144H90L104 12"/>
            </svg>
            <div>
                <p class="figure-large" data-id="mix-water-answer">{water.clone()}" water"</p>
                <p class="figure-large" data-id="mix-concentrate-answer">{concentrate.clone()}" concentrate"</p>
                <p>{mix.ratio.words()}", "{format!("{:.1} % by volume", mix.concentrate_percent)}</p>
                <p class="reader">{format!("{litres:.2} litres in all")}</p>
            </div>
        </div>
    }
}
