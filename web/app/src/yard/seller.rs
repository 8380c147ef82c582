//! What the seller may see: marks, sizes, volume, price, totals. No notes, no verdicts, no limits, no budget; and
//! nothing leads on from here but the way back.

use super::amounts::{money, size, volume};
use super::tally::{rounded_once, terms};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::task_head;
use crate::words::{count, fill, wood_names};
use maud::{Markup, html};
use stillwood_core::record::{Id, PlankFigure, PlankTallied, Total, Visit, VisitTally, queries};

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let visit = super::named::visit_here(model, id)?;
    let tally = queries::tally_of(model.state(), id)?;
    let day = super::named::day_of(model, visit.recorded.on);
    let page = Page::new(visit.opened.yard.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, &visit.opened.yard, &day, html! {})
        })
        .with(model, "body", "main", |ui| body(ui, visit, &tally));
    Some(page)
}

fn body(ui: &Ui<'_>, visit: &Visit, tally: &VisitTally) -> Markup {
    let words = &ui.w.planks;
    let currency = &visit.opened.currency;
    let asked = |name: &str, shown: &str, total: Total| {
        figure(ui, name, shown, Asked::VisitTotal(visit.id, total))
    };
    let sum = &tally.tally;
    html! {
        p.row.seller-total {
            span { (count(tally.planks.len() as u64, ui.w.common.planks_one, ui.w.common.planks_other)) }
            strong.large { (asked(words.to_pay, &money(sum.money.gross, currency), Total::Gross)) }
        }
        dl.facts {
            dt { (words.volume) } dd { (asked(words.volume, &volume(sum.board_feet), Total::ByTheRule)) }
            dt { (ui.w.bill.without_tax_label) } dd { (asked(ui.w.bill.without_tax_label, &money(sum.money.net, currency), Total::Net)) }
            dt { (ui.w.bill.tax) } dd { (asked(ui.w.bill.tax, &money(sum.money.tax, currency), Total::Tax)) }
        }
        (rounded_once(ui, tally, currency))
        @if sum.without_price + sum.without_footage > 0 { p { (ui.w.bill.not_in_totals) } }
        ul.list { @for plank in &tally.planks { li.item { (line(ui, plank, currency)) } } }
        @let terms = terms(ui, visit, |pile| wood_names::shown(&pile.opened.species.text));
        @if !terms.is_empty() { h2 { (ui.w.bill.rule_and_price) } }
        ul.notes {
            @for (wood, rule, price) in terms {
                li { strong { (wood) } ": " (rule) @if let Some(price) = price { "; " (price) } "." }
            }
        }
    }
}

fn line(ui: &Ui<'_>, plank: &PlankTallied, currency: &str) -> Markup {
    let words = &ui.w.planks;
    let asked = |what: &str, shown: &str| {
        let name = fill(
            ui.w.bill.of_mark,
            &[("what", &what), ("mark", &plank.line.mark)],
        );
        figure(
            ui,
            &name,
            shown,
            Asked::Plank(plank.piece, PlankFigure::Bill),
        )
    };
    html! {
        span.what {
            strong { (plank.line.mark) }
            span.below { (size(&plank.line, ui.model.units())) }
        }
        span.at-end {
            @match &plank.tallied.money {
                Ok(paid) => {
                    strong { (asked(ui.w.bill.with_tax, &money(paid.gross, currency))) }
                    span.below { (asked(ui.w.bill.without_tax, &fill(ui.w.bill.net, &[("money", &money(paid.net, currency))]))) }
                },
                Err(_) => span.open { "–" },
            }
            span.below {
                @match &plank.tallied.board_feet { Ok(feet) => (asked(words.volume, &volume(*feet))), Err(_) => "–" }
            }
        }
    }
}
