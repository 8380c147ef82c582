//! How long wood lasts: the share still in over the months, in steps, with the band in which it lies and a tick for
//! each piece that was good when last seen.

use maud::{Markup, html};

/// The share from one failure on.
#[derive(Debug, Clone, Copy)]
pub struct StepDrawn {
    /// When, in months.
    pub at: f64,
    /// The share that outlasts it, 0 to 1.
    pub share: f64,
    /// The band, where there is one.
    pub band: Option<(f64, f64)>,
}

/// What is drawn.
#[derive(Debug, Clone)]
pub struct LastingDrawn {
    /// The steps, in order of time.
    pub steps: Vec<StepDrawn>,
    /// When each of the others was last seen good, in months.
    pub good: Vec<f64>,
}

const LEFT: f64 = 48.0;
const WIDE: f64 = 300.0;
const TOP: f64 = 12.0;
const HIGH: f64 = 150.0;

fn y(share: f64) -> f64 {
    TOP + (1.0 - share) * HIGH
}

impl LastingDrawn {
    /// The end of the scale, in months.
    fn until(&self) -> f64 {
        let times = self.steps.iter().map(|step| step.at);
        times.chain(self.good.iter().copied()).fold(1.0, f64::max)
    }

    fn x(&self, months: f64) -> f64 {
        LEFT + months / self.until() * WIDE
    }

    fn share_at(&self, months: f64) -> f64 {
        let last = self.steps.iter().rfind(|step| step.at <= months);
        last.map_or(1.0, |step| step.share)
    }

    /// The line: level to each failure, then down.
    fn line(&self) -> String {
        let mut line = format!("M{LEFT:.1} {TOP:.1}");
        for step in &self.steps {
            line.push_str(&format!("H{:.1}V{:.1}", self.x(step.at), y(step.share)));
        }
        line.push_str(&format!("H{:.1}", self.x(self.until())));
        line
    }

    /// The band: along its upper edge and back along its lower one.
    fn band(&self) -> Option<String> {
        let mut above = String::new();
        let mut below = Vec::new();
        for (n, step) in self.steps.iter().enumerate() {
            let Some((low, high)) = step.band else { break };
            let ends = self.steps.get(n + 1).map_or(self.until(), |next| next.at);
            let (from, to) = (self.x(step.at), self.x(ends));
            above.push_str(&format!("{from:.1},{:.1} {to:.1},{:.1} ", y(high), y(high)));
            below.push(format!("{to:.1},{:.1} {from:.1},{:.1}", y(low), y(low)));
        }
        below.reverse();
        (!below.is_empty()).then(|| format!("{above}{}", below.join(" ")))
    }

    /// Months along the foot, so far apart that their numbers stand free.
    fn months(&self) -> Vec<f64> {
        let apart = [1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 60.0];
        let step = apart
            .into_iter()
            .find(|step| self.until() / step <= 8.0)
            .unwrap_or(120.0);
        let mut ticks = Vec::new();
        let mut at = 0.0;
        while at <= self.until() {
            ticks.push(at);
            at += step;
        }
        ticks
    }
}

/// The drawing, with what it says for those who can't see it.
pub fn lasting_drawn(drawn: &LastingDrawn, said: &str, months: &str) -> Markup {
    let foot = TOP + HIGH;
    html! {
        svg.chart viewBox={ "0 0 360 " (foot + 42.0) } role="img" aria-label=(said) {
            @if let Some(points) = drawn.band() { polygon.band points=(points) {} }
            @for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                line.faint x1=(LEFT) x2=(LEFT + WIDE) y1=(y(share)) y2=(y(share)) {}
                text x=(LEFT - 6.0) y=(y(share) + 4.5) text-anchor="end" { (format!("{:.0} %", share * 100.0)) }
            }
            @for at in drawn.months() {
                line.tick x1=(drawn.x(at)) x2=(drawn.x(at)) y1=(foot) y2=(foot + 4.0) {}
                text x=(drawn.x(at)) y=(foot + 19.0) text-anchor="middle" { (format!("{at:.0}")) }
            }
            text x=(LEFT + WIDE) y=(foot + 36.0) text-anchor="end" { (months) }
            path.curve d=(drawn.line()) {}
            @for at in &drawn.good {
                @let middle = y(drawn.share_at(*at));
                line.tick x1=(drawn.x(*at)) x2=(drawn.x(*at)) y1=(middle - 5.0) y2=(middle + 5.0) {}
            }
        }
    }
}

/// A share on a scale of 0 to 100 %, with the line that holds the true one; dashed and hollow where that says little.
pub fn share_bar(share: Option<(f64, f64, f64)>, few: bool, said: &str) -> Markup {
    let x = |share: f64| 8.0 + share * 324.0;
    html! {
        svg.chart.share-bar viewBox="0 0 340 22" role="img" aria-label=(said) {
            line.faint x1=(x(0.0)) x2=(x(1.0)) y1="11" y2="11" {}
            @for at in [0.0, 0.25, 0.5, 0.75, 1.0] { line.faint x1=(x(at)) x2=(x(at)) y1="5" y2="17" {} }
            @if let Some((low, share, high)) = share {
                line.within.few[few] x1=(x(low)) x2=(x(high)) y1="11" y2="11" {}
                circle.dot.few[few] cx=(x(share)) cy="11" r="6" {}
            }
        }
    }
}

/// The scale of such bars, to stand over them.
pub fn share_scale() -> Markup {
    html! {
        svg.chart.share-bar viewBox="0 0 340 18" aria-hidden="true" {
            @for (at, words, anchor) in [(8.0, "0 %", "start"), (170.0, "50 %", "middle"), (332.0, "100 %", "end")] {
                text x=(at) y="14" text-anchor=(anchor) { (words) }
            }
        }
    }
}
