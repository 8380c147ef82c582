//! A small line of one figure against its limits: what it was at each check, oldest at the left.

use crate::parts::Judged;
use maud::{Markup, html};

const WIDE: f64 = 130.0;
const HIGH: f64 = 40.0;
/// The share of half the height at which the limit is drawn.
const LIMIT_AT: f64 = 0.72;

/// The line. `limit` is what it may not go beyond, either way; without values it is dashed.
pub fn spark(values: &[f64], limit: Option<f64>, judged: Judged) -> Markup {
    let largest = values
        .iter()
        .fold(0.0_f64, |largest, value| largest.max(value.abs()));
    let reach = match limit {
        Some(limit) => (limit / LIMIT_AT).max(largest * 1.1),
        None => largest * 1.2,
    };
    let reach = if reach > 0.0 { reach } else { 1.0 };
    let y = |value: f64| HIGH / 2.0 - value / reach * HIGH / 2.0;
    let step = (WIDE - 16.0) / (values.len().max(2) - 1) as f64;
    let x = |at: usize| 8.0 + at as f64 * step;
    let points: Vec<String> = values
        .iter()
        .enumerate()
        .map(|(at, value)| format!("{:.1},{:.1}", x(at), y(*value)))
        .collect();
    html! {
        svg class={ "spark " (judged.class()) } viewBox="0 0 130 40" aria-hidden="true" {
            @if let Some(limit) = limit {
                @let (top, bottom) = (y(limit), y(-limit));
                rect.band x="0" y=(format!("{top:.1}")) width="130" height=(format!("{:.1}", bottom - top)) {}
                path.limit d=(format!("M0 {top:.1}H130M0 {bottom:.1}H130")) {}
            }
            path.middle class=[values.is_empty().then_some("dashed")] d="M0 20H130" {}
            @if values.len() > 1 { polyline.line points=(points.join(" ")) fill="none" {} }
            @for (at, value) in values.iter().enumerate() {
                circle.dot cx=(format!("{:.1}", x(at))) cy=(format!("{:.1}", y(*value))) r="3.5" {}
            }
        }
    }
}
