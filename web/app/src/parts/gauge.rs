//! A gauge of one criterion: its limits, its good range, and the value with its ±.

use super::Judged;
use maud::{Markup, html};
use stillwood_core::verdict::Form;

/// What a gauge shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gauge {
    /// Target and limit.
    pub form: Form,
    /// The value and half the width of its interval; none where it was not looked at.
    pub value: Option<(f64, f64)>,
    /// How it stands.
    pub judged: Judged,
}

/// The room at each end, in hundredths of the width: a sign at the end is drawn whole.
const BESIDE: f64 = 2.0;

impl Gauge {
    /// The ends of the scale: room for limits, targets and the value with its ±.
    fn scale(&self) -> (f64, f64) {
        let mut marks = match self.form {
            Form::AtMost { target, limit } | Form::AtLeast { target, limit } => {
                let beside = (limit - target).abs();
                vec![
                    target - beside,
                    target + beside,
                    limit - beside,
                    limit + beside,
                ]
            }
            Form::Within {
                low_limit,
                high_limit,
                ..
            } => {
                let beside = (high_limit - low_limit) * 0.25;
                vec![low_limit - beside, high_limit + beside]
            }
        };
        if let Some((value, within)) = self.value {
            marks.extend([value - within, value + within]);
        }
        let low = marks.iter().copied().fold(f64::INFINITY, f64::min);
        let high = marks.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        (low, if high > low { high } else { low + 1.0 })
    }

    /// The good range on the scale.
    fn good(&self, (low, high): (f64, f64)) -> (f64, f64) {
        match self.form {
            Form::AtMost { target, .. } => (low, target),
            Form::AtLeast { target, .. } => (target, high),
            Form::Within {
                low_target,
                high_target,
                ..
            } => (low_target, high_target),
        }
    }

    /// Its limits.
    fn limits(&self) -> Vec<f64> {
        match self.form {
            Form::AtMost { limit, .. } | Form::AtLeast { limit, .. } => vec![limit],
            Form::Within {
                low_limit,
                high_limit,
                ..
            } => vec![low_limit, high_limit],
        }
    }
}

/// The gauge. What it says is said beside it in words. Places along it are shares of its width, so that it may be as
/// wide as the screen and its signs stay round.
pub fn gauge(gauge: &Gauge) -> Markup {
    let scale = gauge.scale();
    let (low, high) = scale;
    let x = |value: f64| {
        let along = ((value - low) / (high - low)).clamp(0.0, 1.0);
        format!("{:.2}%", BESIDE + along * (100.0 - 2.0 * BESIDE))
    };
    let (good_from, good_to) = gauge.good(scale);
    let judged = gauge.judged.class();
    html! {
        svg class={ "gauge " (judged) } aria-hidden="true" {
            line.scale x1=(x(low)) x2=(x(high)) y1="12" y2="12" {}
            line.range x1=(x(good_from)) x2=(x(good_to)) y1="12" y2="12" {}
            @for limit in gauge.limits() { line.limit x1=(x(limit)) x2=(x(limit)) y1="5" y2="19" {} }
            @if let Some((value, within)) = gauge.value {
                line.within x1=(x(value - within)) x2=(x(value + within)) y1="12" y2="12" {}
                svg.at x=(x(value)) overflow="visible" {
                    @match gauge.judged {
                        Judged::Bad => path.value d="M-6 6l12 12m0 -12l-12 12" {},
                        Judged::Doubt => {
                            circle.value.hollow cx="0" cy="12" r="6" {}
                            path.value d="M0 6a6 6 0 0 1 0 12z" {}
                        }
                        _ => circle.value cx="0" cy="12" r="6" {},
                    }
                }
            }
        }
    }
}

/// A value with its ± beside a range that is usual: it judges nothing, so it has no limits and no colour of judgement.
pub fn usual_gauge((from, to): (f64, f64), (value, within): (f64, f64)) -> Markup {
    let beside = (to - from) * 0.25;
    let low = (from - beside).min(value - within);
    let high = (to + beside).max(value + within);
    let x = |value: f64| {
        let along = (value - low) / (high - low);
        format!("{:.2}%", BESIDE + along * (100.0 - 2.0 * BESIDE))
    };
    html! {
        svg.gauge.usual aria-hidden="true" {
            line.scale x1=(x(low)) x2=(x(high)) y1="12" y2="12" {}
            line.range x1=(x(from)) x2=(x(to)) y1="12" y2="12" {}
            line.within x1=(x(value - within)) x2=(x(value + within)) y1="12" y2="12" {}
            svg.at x=(x(value)) overflow="visible" { circle.value cx="0" cy="12" r="6" {} }
        }
    }
}
