//! A picture of an answer, drawn from its strokes and words.
//!
//! May use: [`Drawing`]. Must not: work anything out.

use leptos::prelude::*;
use leptos::svg;

use crate::sheets::{Drawing, Mark};

/// The picture; its width is that of the column.
pub fn picture(d: &Drawing) -> AnyView {
    let marks: Vec<AnyView> = d
        .marks
        .iter()
        .map(|mark| match mark {
            Mark::Path(look, d) => svg::path().attr("class", *look).attr("d", d.clone()).into_any(),
            Mark::Words(look, hang, x, y, words) => svg::text()
                .attr("class", *look)
                .attr("text-anchor", *hang)
                .attr("x", x.to_string())
                .attr("y", y.to_string())
                .child(words.clone())
                .into_any(),
        })
        .collect();
    view! {
        <svg class="picture" data-id="picture" viewBox=format!("0 0 328 {}", d.height) role="img" aria-label=d.words.clone()>
            {marks}
        </svg>
    }
    .into_any()
}
