//! What stands on a product's label: name, batch, days; of a neutraliser, its kind and what to mind.
//!
//! May use: the fields. Must not: judge what is typed; the product says what is wrong.

use chrono::NaiveDate;
use leptos::prelude::*;

use super::Typing;
use crate::app::parts::field::{Draft, Field};
use crate::app::parts::live::{live, said, tap};
use crate::job::moment::day;
use crate::job::product::{Chemistry, Product, Use};

/// Name, batch, opened, use by; then the kind of a neutraliser.
pub fn label(typing: Typing, product: &Product) -> AnyView {
    let name = if product.is_named() { product.name.as_str() } else { "" };
    let dates = move || {
        let today = typing.planning.today.get();
        let wrong: Vec<_> = typing.with(|p| p.dated(today)).into_iter().filter(|d| d.wrong).collect();
        wrong.into_iter().map(|d| view! { <p class="why" data-id="dated">{d.words}"."</p> }).collect_view()
    };
    view! {
        {words(typing, "product-name", "Name, as on the can", name, |p, w| p.name = w)}
        {words(typing, "product-batch", "Batch number", &product.batch, |p, w| p.batch = w)}
        {date(typing, "product-opened", "Opened", product.opened, |p, d| p.opened = d)}
        {date(typing, "product-expires", "Use by", product.expires, |p, d| p.expires = d)}
        {live(dates)}
        {(product.used_as == Use::Neutraliser).then(|| kind(typing))}
    }
    .into_any()
}

/// The longest name or batch, characters.
const LONGEST: usize = 80;

fn words(
    typing: Typing,
    id: &'static str,
    label: &'static str,
    start: &str,
    set: fn(&mut Product, String),
) -> AnyView {
    let draft = Draft::new(format!("{}/{id}", typing.id), start);
    let known = RwSignal::new(start.to_owned());
    let settle = move |text: String| {
        let text: String = text.trim().chars().take(LONGEST).collect();
        if known.get_untracked() != text {
            known.set(text.clone());
            typing.change(|p| set(p, text));
        }
    };
    Effect::new(move || settle(draft.get()));
    let leave = move |_| {
        // Gone with its screen: what was typed is taken by then.
        if known.try_get_untracked().is_some() {
            settle(draft.peek());
            draft.settle();
        }
        typing.keep();
    };
    view! { <div on:change=leave><Field label=label id=id draft/></div> }.into_any()
}

fn date(
    typing: Typing,
    id: &'static str,
    label: &'static str,
    start: Option<NaiveDate>,
    set: fn(&mut Product, Option<NaiveDate>),
) -> AnyView {
    let put = move |text: String| {
        typing.change(|p| set(p, day::read(&text)));
        typing.keep();
    };
    view! {
        <div class="field">
            <label for=id>{label}</label>
            <div class="field-row">
                <input
                    id=id
                    data-id=id
                    type="date"
                    class="goods-date"
                    value=start.map(day::write).unwrap_or_default()
                    on:change=move |e| put(event_target_value(&e))
                />
            </div>
        </div>
    }
    .into_any()
}

/// Acid or alkaline, rinsed or left on, and what follows.
fn kind(typing: Typing) -> AnyView {
    let acid = move |p: &Product| p.chemistry != Some(Chemistry::Alkaline);
    view! {
        {choice(typing, "Kind", ["acid", "alkaline"], ["Acid", "Alkaline"], acid, |p, acid| {
            p.chemistry = Some(if acid { Chemistry::Acid } else { Chemistry::Alkaline });
        })}
        {choice(typing, "Afterwards", ["rinsed", "left-on"], ["Rinsed off", "Left on"], |p| !p.left_on, |p, rinsed| {
            p.left_on = !rinsed;
        })}
        <section class="cautions" data-id="product-minds">
            <ul>{live(move || typing.with(Product::minds).into_iter().map(|c| view! { <li>{c}</li> }).collect_view())}</ul>
        </section>
    }
    .into_any()
}

/// One of two.
fn choice(
    typing: Typing,
    legend: &'static str,
    ids: [&'static str; 2],
    words: [&'static str; 2],
    first: impl Fn(&Product) -> bool + Copy + Send + Sync + 'static,
    set: fn(&mut Product, bool),
) -> AnyView {
    let chip = move |i: usize| {
        let pick = move |_| {
            typing.change(|p| set(p, i == 0));
            typing.keep();
        };
        let on = said(move || (typing.with(first) == (i == 0)).to_string());
        view! { <button type="button" class="chip" data-id=ids[i] aria-pressed=on on:click=tap(pick)>{words[i]}</button> }
    };
    view! { <fieldset><legend>{legend}</legend><div class="chips">{chip(0)} {chip(1)}</div></fieldset> }.into_any()
}
