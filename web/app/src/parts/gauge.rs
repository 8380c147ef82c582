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

/// The width of the drawing, in its own units.
const WIDTH: f64 = 340.0;

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

/// The gauge. What it says is said beside it in words.
pub fn gauge(gauge: &Gauge) -> Markup {
    let scale = gauge.scale();
    let (low, high) = scale;
    let x = |value: f64| {
        let along = ((value - low) / (high - low)).clamp(0.0, 1.0);
        format!("{:.1}", 4.0 + along * (WIDTH - 8.0))
    };
    let (good_from, good_to) = gauge.good(scale);
    let judged = gauge.judged.class();
    html! {
        svg class={ "gauge " (judged) } viewBox="0 0 340 24" preserveAspectRatio="none" aria-hidden="true" {
            path.scale d={ "M4 12H" (WIDTH - 4.0) } {}
            path.range d={ "M" (x(good_from)) " 12H" (x(good_to)) } {}
            @for limit in gauge.limits() { path.limit d={ "M" (x(limit)) " 5V19" } {} }
            @if let Some((value, within)) = gauge.value {
                path.within d={ "M" (x(value - within)) " 12H" (x(value + within)) } {}
                @match gauge.judged {
                    Judged::Bad => path.value d={ "M" (x(value)) " 12m-6 -6l12 12m0 -12l-12 12" } {},
                    Judged::Doubt => {
                        circle.value.hollow cx=(x(value)) cy="12" r="6" {}
                        path.value.half d={ "M" (x(value)) " 6a6 6 0 0 1 0 12z" } {}
                    }
                    _ => circle.value cx=(x(value)) cy="12" r="6" {},
                }
            }
        }
    }
}
