//! Tally and bill of a visit: what is to pay first, the yard's bill and the gap, then the planks. What else adds up, by
//! what it is charged, and what is still to buy fold away.

use super::amounts::{money, money_either_way, size, volume};
use super::frame::{facts, head_key, inner, key};
use super::{bill, named, needed};
use crate::action::Action as Any;
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, toast};
use crate::route::Route;
use crate::words::{Spoken, count, fill, show};
use maud::{Markup, html};
use rust_decimal::Decimal;
use stillwood_core::quantity::in_kg;
use stillwood_core::record::{
    Id, Pile, PlankFigure, PlankTallied, Total, Visit, VisitTally, queries,
};
use stillwood_core::trade::PricesAre;
use stillwood_core::verdict::Number;

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let visit = named::visit_here(model, id)?;
    let tally = queries::tally_of(model.state(), id)?;
    let words = &model.words().planks;
    let page = inner(
        model,
        Layout::Place,
        words.tally_and_bill,
        &visit.opened.yard,
        |ui| head_key(ui, words.print, Icon::Print, Any::Print),
    );
    let page = page
        .with(model, "body", "main", |ui| {
            html! {
                div.halves {
                    div { (totals(ui, visit, &tally)) (rules(ui, visit)) }
                    div { (bill::view(ui, id, &tally)) }
                }
                (planks(ui, visit, &tally))
                (needed::drawn(ui, id, |needed| needed::line(ui, id, needed)))
            }
        })
        .with(model, "toast", "div", toast);
    Some(page)
}

fn totals(ui: &Ui<'_>, visit: &Visit, tally: &VisitTally) -> Markup {
    let words = &ui.w.planks;
    let opened = &visit.opened;
    let currency = &opened.currency;
    let asked = |name: &str, shown: &str, total: Total| {
        figure(ui, name, shown, Asked::VisitTotal(visit.id, total))
    };
    let told = |name: &str, shown: String, total: Total| {
        let figure = asked(name, &shown, total);
        (name.to_owned(), figure)
    };
    let feet = volume(tally.tally.board_feet);
    let mut first = vec![told(words.volume_by_rule, feet, Total::ByTheRule)];
    if let Some(each) = tally.cost_per_part {
        let each = money(each, currency);
        first.push(told(words.wood_for_a_part, each, Total::CostPerPart));
    }
    let parts: u32 = tally.planks.iter().filter_map(|plank| plank.parts).sum();
    let (feet, price) = (tally.tally.without_footage, tally.tally.without_price);
    html! {
        section.card.totals aria-label=(ui.w.bill.totals) {
            p.row {
                span {
                    (count(tally.planks.len() as u64, words.bought_one, words.bought_other)) br;
                    span.below { (count(u64::from(parts), ui.w.common.parts_one, ui.w.common.parts_other)) }
                }
                span.at-end {
                    strong.large { (asked(words.to_pay, &money(tally.tally.money.gross, currency), Total::Gross)) }
                    span.below { (ui.w.bill.to_pay_with_tax) }
                }
            }
            (facts(first))
            @if tally.not_weighed > 0 { p.below { (count(tally.not_weighed as u64, ui.w.bill.not_weighed_one, ui.w.bill.not_weighed_other)) } }
            @if feet + price > 0 {
                p.notice.doubt { (fill(ui.w.bill.left_out, &[("feet", &feet), ("price", &price)])) }
            }
            (budget(ui, visit, tally))
            (folded(ui, ui.w.bill.other_totals, &html! {
                (facts(other_totals(ui, visit, tally, &told)))
                (rounded_once(ui, tally, currency))
                @if !opened.discount_percent.is_zero() {
                    p.below { (fill(ui.w.bill.discount_off, &[("percent", &show::decimal(&opened.discount_percent.normalize().to_string()))])) }
                }
            }))
        }
        @let sellers_view = if ui.model.shell.wide { words.sellers_view } else { ui.w.bill.turn_the_phone };
        div.keys { (key(ui, sellers_view, Route::Seller(visit.id))) }
    }
}

/// What folds away on the screen and stands open on paper.
fn folded(ui: &Ui<'_>, name: &str, inside: &Markup) -> Markup {
    html! {
        @if ui.model.shell.printing { h3 { (name) } (inside) }
        @else { details { summary { (name) } (inside) } }
    }
}

/// What else adds up: the measured volume, the weight, the money without its tax, the tax, what a good blank takes.
fn other_totals(
    ui: &Ui<'_>,
    visit: &Visit,
    tally: &VisitTally,
    told: &impl Fn(&str, String, Total) -> (String, Markup),
) -> Vec<(String, Markup)> {
    let (words, opened) = (&ui.w.planks, &visit.opened);
    let currency = &opened.currency;
    let percent = show::decimal(&opened.tax_percent.normalize().to_string());
    let tax = fill(ui.w.bill.tax_of, &[("percent", &percent)]);
    let measured = volume(tally.exact_board_feet);
    let weight = show::mass(in_kg(tally.mass), ui.model.units());
    let paid = &tally.tally.money;
    let mut of = vec![
        told(words.volume_measured, measured, Total::Exact),
        told(words.weight, weight, Total::Mass),
        told(
            ui.w.bill.without_tax_label,
            money(paid.net, currency),
            Total::Net,
        ),
        told(&tax, money(paid.tax, currency), Total::Tax),
    ];
    if let Some(each) = tally.cost_per_good_blank {
        let each = money(each, currency);
        of.push(told(words.wood_for_a_blank, each, Total::CostPerGoodBlank));
    }
    of
}

/// That the lines come to another sum than the total, where they do.
pub fn rounded_once(ui: &Ui<'_>, tally: &VisitTally, currency: &str) -> Markup {
    html! {
        @if let Some(lines) = tally.tally.lines_add_up_to() {
            p.below { (fill(ui.w.bill.rounded_once, &[("money", &money(lines, currency))])) }
        }
    }
}

/// What is left of the budget, by our tally, and by the yard's own bill where that is another sum. The worse of the two
/// colours it.
fn budget(ui: &Ui<'_>, visit: &Visit, tally: &VisitTally) -> Markup {
    let Some(left) = tally.budget_left else {
        return html! {};
    };
    let currency = &visit.opened.currency;
    let against = queries::yard_against(ui.model.state(), visit.id, tally);
    let by_bill = against.and_then(|against| against.budget_left);
    let by_bill = by_bill.filter(|theirs| *theirs != left);
    let over = |left: Decimal| left.is_sign_negative();
    let name = if over(left) {
        ui.w.bill.over_budget
    } else {
        ui.w.bill.budget_left
    };
    let asked = Asked::VisitTotal(visit.id, Total::BudgetLeft);
    html! {
        p class=(if over(left) || by_bill.is_some_and(over) { "notice bad" } else { "notice good" }) {
            (name) " " strong { (figure(ui, name, &money_either_way(left, currency), asked)) }
            @if let Some(budget) = visit.opened.budget { " " (fill(ui.w.bill.of_budget, &[("budget", &money(budget, currency))])) }
            @if let Some(theirs) = by_bill {
                br;
                (fill(if over(theirs) { ui.w.bill.over_by_bill } else { ui.w.bill.left_by_bill }, &[("money", &money_either_way(theirs, currency))]))
            }
        }
    }
}

/// What each pile is charged by: its name, rule and price.
pub fn terms<'a>(
    ui: &Ui<'a>,
    visit: &Visit,
    name: impl Fn(&Pile) -> String,
) -> Vec<(String, String, Option<String>)> {
    let tax = match visit.prices_are() {
        PricesAre::Net => ui.w.bill.without_tax,
        PricesAre::Gross => ui.w.bill.with_tax,
    };
    let piles = ui
        .model
        .state()
        .piles_of(visit.id)
        .filter(|pile| !pile.withdrawn);
    let one = |pile: &Pile| {
        let terms = visit.terms_for(pile);
        let price = terms.price.map(|(price, basis)| {
            let price = show::price(price, &visit.opened.currency);
            fill(
                ui.w.bill.price_per,
                &[
                    ("price", &price),
                    ("per", &basis.per().spoken()),
                    ("tax", &tax),
                ],
            )
        });
        (name(pile), terms.rule.in_words().spoken(), price)
    };
    piles.map(one).collect()
}

fn rules(ui: &Ui<'_>, visit: &Visit) -> Markup {
    let inside = html! {
        ul.notes {
            @for (pile, rule, price) in terms(ui, visit, named::pile_title) {
                li { strong { (pile) } ": " (rule) "; " (price.unwrap_or_else(|| ui.w.bill.no_price.to_owned())) "." }
            }
        }
    };
    folded(ui, ui.w.bill.rule_and_price, &inside)
}

fn planks(ui: &Ui<'_>, visit: &Visit, tally: &VisitTally) -> Markup {
    html! {
        h2 { (ui.w.bill.planks_bought) }
        @if tally.planks.is_empty() { p.below { (ui.w.bill.none_bought) } }
        @else { ul.list { @for plank in &tally.planks { li { (plank_line(ui, plank, &visit.opened.currency)) } } } }
    }
}

fn plank_line(ui: &Ui<'_>, plank: &PlankTallied, currency: &str) -> Markup {
    let words = &ui.w.planks;
    let asked = |what: &str, shown: &str, of: PlankFigure| {
        let name = fill(
            ui.w.bill.of_mark,
            &[("what", &what), ("mark", &plank.line.mark)],
        );
        figure(ui, &name, shown, Asked::Plank(plank.piece, of))
    };
    html! {
        div.item.with-figure {
            a.what href=(Route::Plank(plank.piece).address()) data-press=(ui.press(Route::Plank(plank.piece))) {
                strong { (plank.line.mark) }
                span.below { (size(&plank.line, ui.model.units())) }
            }
            span.at-end {
                @match &plank.tallied.money {
                    Ok(paid) => strong { (asked(words.cost_with_tax, &money(paid.gross, currency), PlankFigure::Bill)) },
                    Err(why) => span.below { (why.spoken()) },
                }
                span.below {
                    @match &plank.tallied.board_feet {
                        Ok(feet) => (asked(words.volume_by_rule, &volume(*feet), PlankFigure::Bill)),
                        Err(why) => (why.spoken()),
                    }
                }
            }
            p.below.whole {
                @if let Some(exact) = plank.exact_board_feet {
                    (ui.w.bill.as_measured) " " (asked(words.volume_measured, &super::amounts::feet(exact), PlankFigure::Exact))
                }
                @match (plank.parts, plank.cost_per_part) {
                    (Some(parts), Some(each)) => {
                        " · " (count(u64::from(parts), ui.w.common.parts_one, ui.w.common.parts_other)) ", "
                        (asked(words.wood_for_a_part, &fill(ui.w.bill.each, &[("money", &money(each, currency))]), PlankFigure::CostPerPart))
                    },
                    (Some(0), None) => { " · " (ui.w.bill.holds_none) },
                    (Some(parts), None) => {
                        " · " (asked(ui.w.yard.holds, &count(u64::from(parts), ui.w.common.parts_one, ui.w.common.parts_other), PlankFigure::Sheet(Number::Held)))
                    },
                    (None, _) => {},
                }
            }
        }
    }
}
