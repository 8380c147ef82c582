//! Shares that came through: for each group a dot, and the line in which the true share lies.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// A group in the drawing.
#[derive(Debug, Clone)]
pub(crate) struct ShareDrawn {
    /// Its name.
    pub(crate) name: String,
    /// Low end, share, high end, 0 to 1; `None` where nothing is decided.
    pub(crate) share: Option<(f64, f64, f64)>,
}

/// The drawing.
pub(crate) fn shares_drawn(groups: &[ShareDrawn]) -> AnyView {
    let x = |share: f64| 20.0 + share * 320.0;
    let bottom = groups.len() as f64 * 42.0 + 6.0;
    let one = |(n, group): (usize, &ShareDrawn)| {
        let y = n as f64 * 42.0 + 32.0;
        let name: String = group.name.chars().take(40).collect();
        let drawn = group.share.map(|(low, share, high)| {
            view! {
                <line class="span" x1=x(low) x2=x(high) y1=y y2=y />
                <circle class="dot" cx=x(share) cy=y r="6" />
            }
        });
        view! {
            <text class="over" x="20" y=y - 12.0>{name}</text>
            {drawn}
        }
    };
    let ticks = [0.0, 0.25, 0.5, 0.75, 1.0].into_iter().map(|share| {
        let words = format!("{:.0} %", share * 100.0);
        let anchor = if share == 1.0 {
            "end"
        } else if share == 0.0 {
            "start"
        } else {
            "middle"
        };
        view! {
            <line class="thin" x1=x(share) x2=x(share) y1="6" y2=bottom />
            <text x=x(share) y=bottom + 16.0 text-anchor=anchor>{words}</text>
        }
    });
    let said: Vec<String> = groups
        .iter()
        .map(|group| match group.share {
            Some((low, share, high)) => format!(
                "{} {:.0} %, between {:.0} and {:.0} %",
                group.name,
                share * 100.0,
                low * 100.0,
                high * 100.0
            ),
            None => format!("{} nothing decided", group.name),
        })
        .collect();
    view! {
        <figure>
            <svg
                class="drawing" viewBox=format!("0 0 360 {:.0}", bottom + 24.0) role="img"
                aria-label=format!("Shares that came through: {}", said.join("; "))
            >
                {ticks.collect_any()}
                {groups.iter().enumerate().map(one).collect_any()}
            </svg>
        </figure>
    }
    .into_any()
}
