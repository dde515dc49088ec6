//! What a product's data sheet says: a field for each figure its use has, empty while it is left to the default.
//!
//! May use: the figures a use asks for. Must not: know one of them.

use leptos::prelude::*;

use super::Typing;
use crate::app::parts::figure::{Figure, figure};
use crate::app::parts::live::live;
use crate::app::session::use_session;
use crate::job::product::{Asked, Part, Product, Sheet, Spot};

/// The low and the high end of a range.
type Ends = (Option<f64>, Option<f64>);

/// The parts of the sheet that the use has.
pub fn sheet(typing: Typing, product: &Product) -> AnyView {
    let part = |part: Part| {
        let asked: Vec<&'static Asked> = Sheet::asked(product.used_as).filter(|a| a.part == part).collect();
        (!asked.is_empty()).then(|| {
            view! {
                <section data-id=format!("part-{}", part.title().to_ascii_lowercase().replace(' ', "-"))>
                    <h2>{part.title()}</h2>
                    {asked.into_iter().map(|a| row(typing, product, a)).collect_view()}
                </section>
            }
        })
    };
    Part::ALL.into_iter().map(part).collect_view().into_any()
}

fn row(typing: Typing, product: &Product, asked: &'static Asked) -> AnyView {
    let set = use_session().prefs.with_untracked(|p| p.units);
    let own = product.sheet.figure(asked.name).filter(|f| !f.default);
    let field = |id: String, label: String, hint: String| Figure {
        id,
        label,
        field: asked.field(),
        measure: asked.measure,
        hint,
    };
    let keep = move || move || typing.keep();
    let likely = field(asked.name.into(), asked.label.into(), asked.hint(product.used_as, set));
    let take = move |v: Option<f64>| typing.change(|p| p.own(asked.name, v));
    let spread = Sheet::generic(product.used_as).figure(asked.name).is_some_and(|g| g.low.is_some());
    let ends: Ends = own.map_or((None, None), |f| (f.low, f.high));
    let is_own = move || typing.with(|p| p.sheet.figure(asked.name).is_some_and(|f| !f.default));
    let mix = asked.name == "concentrate_parts";
    let ranged = spread.then(|| {
        let known = RwSignal::new(ends);
        let put = move |change: fn(&mut Ends, Option<f64>)| {
            move |v: Option<f64>| {
                known.update(|k| change(k, v));
                let (low, high) = known.get_untracked();
                typing.change(|p| p.range(asked.name, low, high));
            }
        };
        let low = field(format!("{}-low", asked.name), "Between".into(), String::new());
        let high = field(format!("{}-high", asked.name), "and".into(), String::new());
        view! {
            <details class="more goods-range" data-id=format!("{}-range", asked.name) open=ends != (None, None)>
                <summary>"Give a range"</summary>
                {live(move || {
                    (!is_own()).then(|| view! { <p class="why">"Type the figure itself first: the default has its own range."</p> })
                })}
                <div class="two-fields">
                    {figure(low, ends.0, put(|k, v| k.0 = v), keep())}
                    {figure(high, ends.1, put(|k, v| k.1 = v), keep())}
                </div>
                <p class="quiet">"One job in ten lies under the first, one in ten over the second."</p>
            </details>
        }
    });
    view! {
        {figure(likely, own.map(|f| f.likely), take, keep())}
        {typing.fault(Spot::Figure(asked.name))}
        {mix.then(|| live(move || typing.with(|p| p.mix().map(|m| view! { <p class="figure" data-id="mix-words">{m.words()}</p> }))))}
        {ranged}
    }
    .into_any()
}
