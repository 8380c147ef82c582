//! The yard's tally against ours: the gap per plank and in money, and which customs of the trade would
//! explain it. It never says that a yard cheats.

use super::Shared;
use crate::app::App;
use crate::parts::{CollectAny, given, live, told_figure};
use crate::screens::figures::{self, feet, signed};
use crate::screens::plank_told;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{CustomsTried, PlankFigure, Total, YardAgainstOurs, YardGap};
use stillwood_core::trade::{Conclusion, Explanation, Habit, PricesAre};

/// How many customs are listed.
const LISTED: usize = 5;

fn against(app: App, shared: Shared) -> Memo<Option<YardAgainstOurs>> {
    Memo::new(move |_| {
        let tally = shared.tally.get()?;
        app.state(|state| queries::yard_against(state, shared.visit, &tally))
    })
}

fn tax(prices: PricesAre) -> &'static str {
    match prices {
        PricesAre::Net => "without tax",
        PricesAre::Gross => "with tax",
    }
}

/// The gap between the totals.
#[component]
pub(super) fn TotalGap(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let found = against(app, shared);
    live(move || {
        let currency = shared.currency.get();
        let found = found.get()?;
        let total = found.total?;
        let in_currency = currency.clone();
        let money = |value| figures::money(value, &in_currency);
        let prices = tax(found.prices_are);
        let volume = total.difference.map(|gap| {
            let theirs = total.theirs.map(feet).unwrap_or_default();
            let from = if total.from_money {
                ", worked out of its money"
            } else {
                ""
            };
            let ours = feet(total.ours);
            let ours = told_figure("Ours".to_owned(), ours, shared.tell(app, Total::ByTheRule));
            let asked = total.clone();
            let gap = told_figure("Gap".to_owned(), signed(gap, feet), move || asked.explain_volume());
            view! { "Its total is " {given(theirs)} {from} "; ours by the agreed rule " {ours} ": " {gap} "." }
        });
        let worth = total.money.map(|gap| {
            let asked = total.clone();
            let tell = move || asked.explain_money(&currency);
            let gap = told_figure("Gap in money".to_owned(), signed(gap, money), tell);
            view! { "In money, " {prices} ": " {gap} "." }
        });
        let customs = match total.customs {
            Some(customs) => Some(said(customs).into_any()),
            None if total.theirs.is_some() => Some(
                view! {
                    <p>"The piles have different rules: the lines can be explained, a total can't."</p>
                }
                .into_any(),
            ),
            None => None,
        };
        Some(view! {
            <div class="card" id="total-gap">
                <p><strong>{volume} " " {worth}</strong></p>
                {customs}
            </div>
        })
    })
}

/// The gaps plank by plank.
#[component]
pub(super) fn LineGaps(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let found = against(app, shared);
    live(move || {
        let currency = shared.currency.get();
        let found = found.get().filter(|found| !found.planks.is_empty())?;
        let prices = tax(found.prices_are);
        let without = match found.without_line.len() {
            0 => None,
            _ => Some(format!(
                "Not on its lines yet: {}.",
                found.without_line.join(", ")
            )),
        };
        let rows = found
            .planks
            .into_iter()
            .map(|gap| row(app, gap, &currency))
            .collect_any();
        let several = found.by_lines.len() > 1;
        let customs = found
            .by_lines
            .into_iter()
            .map(|customs| {
                let rule = several.then(|| {
                    view! { <p class="small">{format!("Agreed: {}", customs.agreed.in_words())}</p> }
                });
                view! { {rule} {said(customs)} }
            })
            .collect_any();
        Some(view! {
            <div class="scroll" tabindex="0" role="region" aria-label="The gap plank by plank">
                <table id="line-gaps">
                    <caption class="small">{format!("Theirs less ours; money {prices}")}</caption>
                    <thead>
                        <tr>
                            <th scope="col">"Mark"</th>
                            <th scope="col" class="n">"Ours"</th>
                            <th scope="col" class="n">"Theirs"</th>
                            <th scope="col" class="n">"Gap"</th>
                            <th scope="col" class="n">"Money"</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
            <p class="small">{without}</p>
            <div id="explained">{customs}</div>
        })
    })
}

fn row(app: App, gap: YardGap, currency: &str) -> AnyView {
    let none = || "–".into_any();
    let name = |what: &str| format!("{what} of {}", gap.mark);
    let (volume, worth) = (gap.clone(), gap.clone());
    let money = gap.money.map_or_else(none, |money| {
        let shown = signed(money, |value| figures::money(value, currency));
        let currency = currency.to_owned();
        told_figure(name("Gap in money"), shown, move || {
            worth.explain_money(&currency)
        })
    });
    let ours = gap.ours.map_or_else(none, |ours| {
        told_figure(
            name("Volume"),
            feet(ours),
            plank_told(app, gap.piece, PlankFigure::Bill),
        )
    });
    let difference = gap.difference.map_or_else(none, |gap| {
        told_figure(name("Gap"), signed(gap, feet), move || {
            volume.explain_volume()
        })
    });
    let theirs = gap.theirs.map_or_else(none, |theirs| given(feet(theirs)));
    view! {
        <tr>
            <th scope="row"><span class="mark-small">{gap.mark}</span></th>
            <td class="n">{ours}</td>
            <td class="n">{theirs}</td>
            <td class="n">{difference}</td>
            <td class="n">{money}</td>
        </tr>
    }
    .into_any()
}

/// What the customs tried say.
fn said(customs: CustomsTried) -> AnyView {
    let found = customs.found;
    let fitting = found.explanations.iter().filter(|e| e.fits).count();
    let (class, words, listed) = match found.conclusion {
        Conclusion::Agrees => (
            "note good",
            "It is what the agreed rule gives.".to_owned(),
            0,
        ),
        Conclusion::NearlyAgrees => (
            "note good",
            "It is what the agreed rule gives, as far as our own measuring can tell.".to_owned(),
            0,
        ),
        Conclusion::Explained => (
            "note",
            "This explains it; nothing else that was tried does as simply:".to_owned(),
            1,
        ),
        Conclusion::CannotTellFromTotal(several) => (
            "note doubt",
            format!(
                "A total alone can't tell: {several} customs give it. Ask for the piece tally, the \
                 lines can tell."
            ),
            fitting.min(LISTED),
        ),
        Conclusion::CannotTell(several) => (
            "note doubt",
            format!("{several} customs explain every line equally well:"),
            several.min(LISTED),
        ),
        Conclusion::Unexplained => (
            "note doubt",
            "None of the customs tried gives it. The nearest:".to_owned(),
            3,
        ),
        Conclusion::NotComparable => (
            "note doubt",
            "It can't be compared: planks of ours have no volume.".to_owned(),
            0,
        ),
    };
    let list = found
        .explanations
        .into_iter()
        .take(listed)
        .map(|one| {
            let words = explained(&one);
            let tell = move || Some(one.working());
            view! { <li>{told_figure("What it gives".to_owned(), words, tell)}</li> }
        })
        .collect_any();
    view! {
        <div class=class>
            <p>{words}</p>
            <ol>{list}</ol>
        </div>
    }
    .into_any()
}

fn explained(one: &Explanation) -> String {
    let habits: Vec<String> = one
        .habits
        .iter()
        .map(|habit| Habit::in_words(*habit))
        .collect();
    let habits = if habits.is_empty() {
        "the agreed rule".to_owned()
    } else {
        habits.join(" and ")
    };
    let left = if one.fits {
        String::new()
    } else {
        format!("; leaves {}", feet(one.left))
    };
    format!("{habits}: {}{left}", feet(one.board_feet))
}
