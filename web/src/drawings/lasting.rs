//! How long wood lasts: the share still in over the months, in steps, with the band in which it lies and a
//! tick for each piece that was good when last seen.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// The share from one failure on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct StepDrawn {
    /// When, in months.
    pub(crate) at: f64,
    /// The share that outlasts it, 0 to 1.
    pub(crate) share: f64,
    /// The band, where there is one.
    pub(crate) band: Option<(f64, f64)>,
}

/// What is drawn.
#[derive(Debug, Clone)]
pub(crate) struct LastingDrawn {
    /// The steps, in order of time.
    pub(crate) steps: Vec<StepDrawn>,
    /// When each of the others was last seen good, in months.
    pub(crate) good: Vec<f64>,
}

const LEFT: f64 = 52.0;
const WIDE: f64 = 292.0;
const TOP: f64 = 12.0;
const HIGH: f64 = 150.0;

/// The drawing, with what it says for those who can't see it.
pub(crate) fn lasting_drawn(drawn: &LastingDrawn, said: String) -> AnyView {
    let times = drawn.steps.iter().map(|step| step.at);
    let until = times.chain(drawn.good.iter().copied()).fold(1.0, f64::max);
    let x = move |months: f64| LEFT + months / until * WIDE;
    let y = |share: f64| TOP + (1.0 - share) * HIGH;
    let share_at = |months: f64| {
        let last = drawn.steps.iter().rfind(|step| step.at <= months);
        last.map_or(1.0, |step| step.share)
    };
    let mut line = format!("M{LEFT:.1} {TOP:.1}");
    for step in &drawn.steps {
        line.push_str(&format!("H{:.1}V{:.1}", x(step.at), y(step.share)));
    }
    line.push_str(&format!("H{:.1}", x(until)));
    let ticks = drawn.good.iter().map(|at| {
        let middle = y(share_at(*at));
        view! { <line class="thin" x1=x(*at) x2=x(*at) y1=middle - 5.0 y2=middle + 5.0 /> }
    });
    view! {
        <figure>
            <svg
                class="drawing" viewBox=format!("0 0 360 {:.0}", TOP + HIGH + 42.0) role="img" aria-label=said
            >
                {band(drawn, until, &x, &y)}
                {shares(&y)}
                {months(until, &x)}
                <path class="curve" d=line />
                {ticks.collect_any()}
            </svg>
        </figure>
    }
    .into_any()
}

/// The band: along its upper edge and back along its lower one.
fn band(
    drawn: &LastingDrawn,
    until: f64,
    x: &dyn Fn(f64) -> f64,
    y: &dyn Fn(f64) -> f64,
) -> Option<AnyView> {
    let mut above = String::new();
    let mut below = Vec::new();
    for (n, step) in drawn.steps.iter().enumerate() {
        let (low, high) = step.band?;
        let ends = drawn.steps.get(n + 1).map_or(until, |next| next.at);
        let (from, to) = (x(step.at), x(ends));
        above.push_str(&format!("{from:.1},{:.1} {to:.1},{:.1} ", y(high), y(high)));
        below.push(format!("{to:.1},{:.1} {from:.1},{:.1}", y(low), y(low)));
        if drawn
            .steps
            .get(n + 1)
            .is_some_and(|next| next.band.is_none())
        {
            break;
        }
    }
    below.reverse();
    let points = format!("{above}{}", below.join(" "));
    (!below.is_empty()).then(|| view! { <polygon class="window" points=points /> }.into_any())
}

fn shares(y: &dyn Fn(f64) -> f64) -> AnyView {
    let line = |share: f64| {
        let at = y(share);
        view! {
            <line class="faint" x1=LEFT x2=LEFT + WIDE y1=at y2=at />
            <text x=LEFT - 6.0 y=at + 4.5 text-anchor="end">{format!("{:.0} %", share * 100.0)}</text>
        }
    };
    [0.0, 0.25, 0.5, 0.75, 1.0]
        .into_iter()
        .map(line)
        .collect_any()
}

/// Months along the foot: so many apart that their numbers stand free.
fn months(until: f64, x: &dyn Fn(f64) -> f64) -> AnyView {
    let apart = [1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 60.0];
    let step = apart.into_iter().find(|step| until / step <= 8.0);
    let step = step.unwrap_or(120.0);
    let foot = TOP + HIGH;
    let count = (until / step) as usize;
    let tick = |n: usize| {
        let months = n as f64 * step;
        view! {
            <line class="thin" x1=x(months) x2=x(months) y1=foot y2=foot + 4.0 />
            <text x=x(months) y=foot + 18.0 text-anchor="middle">{format!("{months:.0}")}</text>
        }
    };
    view! {
        {(0..=count).map(tick).collect_any()}
        <text x=LEFT + WIDE y=foot + 35.0 text-anchor="end">"months"</text>
    }
    .into_any()
}
