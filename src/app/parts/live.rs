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
