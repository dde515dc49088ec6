//! Parts of a view that change.
//!
//! A closure put into a view as it is makes the compiler build all that drives it anew for each closure: kilobytes a
//! piece. Boxed here first, they share one.

use leptos::prelude::*;

/// A piece of a view that follows the signals it reads.
pub fn live<V: IntoAny + 'static>(piece: impl Fn() -> V + Send + 'static) -> AnyView {
    let boxed: Box<dyn Fn() -> AnyView + Send> = Box::new(move || piece().into_any());
    boxed.into_any()
}

/// A word of an attribute that follows the signals it reads.
pub fn said<V: Into<String>>(word: impl Fn() -> V + Send + 'static) -> Box<dyn Fn() -> String + Send> {
    Box::new(move || word().into())
}

/// An attribute that is there or not, as the signals it reads say.
pub fn mark(
    there: impl Fn() -> bool + Send + 'static,
    word: &'static str,
) -> Box<dyn Fn() -> Option<&'static str> + Send> {
    Box::new(move || there().then_some(word))
}

/// What a tap on a button does.
pub fn tap(mut act: impl FnMut(()) + 'static) -> Box<dyn FnMut(leptos::ev::MouseEvent)> {
    Box::new(move |_| act(()))
}

/// A value kept in step with the signals it is reckoned from; it changes only when the result does.
pub fn memo<T: PartialEq + Send + Sync + 'static>(reckon: impl Fn() -> T + Send + Sync + 'static) -> Memo<T> {
    let boxed: Box<dyn Fn() -> T + Send + Sync> = Box::new(reckon);
    Memo::new(move |_| boxed())
}

/// A list that follows its rows: those with a key seen before stay as they are on the screen.
pub fn list<T: Send + 'static, K: std::hash::Hash>(
    each: impl Fn() -> Vec<T> + Send + Sync + 'static,
    key: impl Fn(&T) -> K + Send + Sync + 'static,
    row: impl Fn(T) -> AnyView + Send + Sync + 'static,
) -> AnyView {
    let row = std::sync::Arc::new(row);
    rows(Box::new(move || {
        each()
            .into_iter()
            .map(|t| {
                let mut hash = std::hash::DefaultHasher::new();
                std::hash::Hash::hash(&key(&t), &mut hash);
                let row = row.clone();
                let view: Box<dyn FnOnce() -> AnyView + Send> = Box::new(move || row(t));
                Row { key: std::hash::Hasher::finish(&hash), view }
            })
            .collect()
    }))
}

struct Row {
    key: u64,
    view: Box<dyn FnOnce() -> AnyView + Send>,
}

fn rows(each: Box<dyn Fn() -> Vec<Row> + Send + Sync>) -> AnyView {
    view! { <For each key=|r: &Row| r.key children=|r: Row| (r.view)()/> }.into_any()
}
