//! The yard's own bill, typed in beside ours: a total, or line by line. What is typed is kept until it is compared.

use super::amounts::{feet, money, money_either_way, number, signed};
use super::frame::key;
use crate::action::Action as Any;
use crate::effect::{AfterRecorded, Effect};
use crate::explain::{Asked, figure};
use crate::form::{FORM, field_id};
use crate::model::{HalfTyped, Model, Texts};
use crate::page::Ui;
use crate::parts::{Typed, typed as typed_field};
use crate::tell::{keep, say};
use crate::words::{Spoken, fill, show};
use maud::{Markup, html};
use rust_decimal::Decimal;
use std::collections::BTreeMap;
use stillwood_core::quantity::Derivation;
use stillwood_core::record::commands::yard_tally::{self, YardUnit};
use stillwood_core::record::{
    CustomsTried, Id, MoneyLeft, PlankFigure, Total, VisitTally, YardAgainstOurs, queries,
};
use stillwood_core::trade::{BillExplanation, Conclusion, Habit, PricesAre};

/// How many billing rules are listed.
const LISTED: usize = 5;

/// What only the bill knows.
#[derive(Debug, Default)]
pub struct Local {
    /// What is wrong, by the names of the fields.
    errors: BTreeMap<String, String>,
    /// What its lines are counted in.
    unit: Option<YardUnit>,
}

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Compare what is typed with ours.
    Compare(Id),
    /// Its lines are counted in this.
    CountIn(YardUnit),
}

impl From<Action> for Any {
    fn from(action: Action) -> Self {
        Any::Yard(super::Action::Bill(action))
    }
}

fn kept_as(visit: Id) -> String {
    format!("bill/{visit}")
}

/// What is typed and not yet compared, by the names of the fields.
fn texts(model: &Model, visit: Id) -> Texts {
    let known = model.forms.get(&kept_as(visit));
    known.map(|known| known.texts.clone()).unwrap_or_default()
}

/// Something typed.
pub fn typed(model: &mut Model, visit: Id, name: &str, text: String) -> Vec<Effect> {
    model.yard.bill.errors.remove(name);
    let mut texts = texts(model, visit);
    texts.insert(name.to_owned(), text);
    let half_typed = HalfTyped {
        at: model.route.address(),
        words: model.words().bill.yards_bill.to_owned(),
        units: model.units(),
        texts,
    };
    let key = kept_as(visit);
    let effects = keep(format!("{FORM}{key}"), &half_typed);
    model.forms.insert(key, half_typed);
    effects
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::CountIn(unit) => {
            model.yard.bill.unit = Some(unit);
            Vec::new()
        }
        Action::Compare(visit) => compare(model, visit),
    }
}

fn total_name(unit: YardUnit) -> String {
    format!("total-{}", unit.key())
}

/// What the names of all lines in a unit begin with.
fn lines_name(unit: YardUnit) -> String {
    format!("line-{}-", unit.key())
}

fn line_name(unit: YardUnit, piece: Id) -> String {
    format!("{}{piece}", lines_name(unit))
}

/// What was typed in a field, where something was; what is wrong with it is noted at the field.
fn read(
    texts: &Texts,
    errors: &mut BTreeMap<String, String>,
    (unit, name): (YardUnit, &str),
) -> Option<Option<Decimal>> {
    match unit.read(texts.get(name)?) {
        Ok(value) => Some(value),
        Err(why) => {
            errors.insert(name.to_owned(), why.to_string());
            None
        }
    }
}

/// The unit that the lines are shown in.
fn unit_shown(model: &Model) -> YardUnit {
    model.yard.bill.unit.unwrap_or(YardUnit::BoardFeet)
}

/// The names of all fields in the order of the screen, those of lines with their unit: the totals, the lines as they are
/// shown, then those in the other units.
fn in_order(model: &Model, visit: Id) -> Vec<(String, Option<YardUnit>)> {
    let shown = unit_shown(model);
    let others = YardUnit::ALL.into_iter().filter(|unit| *unit != shown);
    let planks = queries::taken_on(model.state(), visit);
    let planks: Vec<Id> = planks.into_iter().map(|plank| plank.id).collect();
    let lines = [shown].into_iter().chain(others).flat_map(|unit| {
        let name = move |id: &Id| (line_name(unit, *id), Some(unit));
        planks.iter().map(name)
    });
    let totals = YardUnit::ALL.map(|unit| (total_name(unit), None));
    totals.into_iter().chain(lines).collect()
}

fn compare(model: &mut Model, visit: Id) -> Vec<Effect> {
    let texts = texts(model, visit);
    let mut errors = BTreeMap::new();
    let state = model.state();
    let mut events = Vec::new();
    let known = state.visit(visit);
    let known = known.and_then(|visit| visit.yard_total.clone());
    let (_, mut total) = known.unwrap_or_default();
    for unit in YardUnit::ALL {
        if let Some(value) = read(&texts, &mut errors, (unit, &total_name(unit))) {
            *unit.of(&mut total) = value;
        }
    }
    events.extend(yard_tally::total(state, visit, total));
    for plank in queries::taken_on(state, visit) {
        let (_, mut line) = plank.yard_line.clone().unwrap_or_default();
        for unit in YardUnit::ALL {
            if let Some(value) = read(&texts, &mut errors, (unit, &line_name(unit, plank.id))) {
                *unit.of(&mut line) = value;
            }
        }
        events.extend(yard_tally::line(state, plank.id, line));
    }
    let mut shown = in_order(model, visit).into_iter();
    let first = shown.find(|(name, _)| errors.contains_key(name));
    model.yard.bill.errors = errors;
    if let Some((name, unit_of_line)) = first {
        // The lines stand there in one unit at a time: in that of the one that can't be read.
        model.yard.bill.unit = unit_of_line.or(model.yard.bill.unit);
        return vec![Effect::Focus(field_id(&name))];
    }
    let words = &model.words().bill;
    if events.is_empty() {
        let mut effects = say(model, words.bill_as_before);
        model.forms.remove(&kept_as(visit));
        effects.push(Effect::RemoveDraft(format!("{FORM}{}", kept_as(visit))));
        return effects;
    }
    vec![
        Effect::Record {
            events,
            after: AfterRecorded {
                said: words.bill_noted.to_owned(),
                form: Some(kept_as(visit)),
                ..AfterRecorded::default()
            },
        },
        Effect::ScrollTo("gap".to_owned()),
    ]
}

fn unit_name(ui: &Ui<'_>, unit: YardUnit, currency: &str) -> String {
    let words = &ui.w.bill;
    match unit {
        YardUnit::BoardFeet => words.board_feet.to_owned(),
        YardUnit::CubicMetres => words.cubic_metres.to_owned(),
        YardUnit::Money if currency.is_empty() => words.money.to_owned(),
        YardUnit::Money => currency.to_owned(),
    }
}

fn field(
    ui: &Ui<'_>,
    texts: &Texts,
    (unit, name): (YardUnit, &str),
    label: &str,
    known: Option<Decimal>,
) -> Markup {
    let known = known.map_or_else(String::new, |value| {
        show::in_field(unit.kind(), &value.to_string())
    });
    let text = texts.get(name).cloned().unwrap_or(known);
    let wrong = ui.model.yard.bill.errors.get(name);
    typed_field(&Typed {
        name,
        label,
        value: &text,
        error: &wrong.map_or_else(String::new, |why| why.spoken()),
        number: true,
        ..Typed::default()
    })
}

fn tax(ui: &Ui<'_>, prices: PricesAre) -> &'static str {
    match prices {
        PricesAre::Net => ui.w.bill.without_tax,
        PricesAre::Gross => ui.w.bill.with_tax,
    }
}

fn known(of: Option<Derivation>, shown: &str, name: &str, ui: &Ui<'_>) -> Markup {
    match of {
        Some(derivation) => figure(ui, name, shown, Asked::Known(Box::new(derivation))),
        None => html! { (shown) },
    }
}

/// Whether a line in a unit can't be read.
fn line_is_wrong(ui: &Ui<'_>, unit: YardUnit) -> bool {
    let mut wrong = ui.model.yard.bill.errors.keys();
    wrong.any(|name| name.starts_with(&lines_name(unit)))
}

/// The yard's bill: its total, the gap, the rules that fit; then its lines.
pub fn view(ui: &Ui<'_>, visit: Id, tally: &VisitTally) -> Markup {
    let words = &ui.w.bill;
    let state = ui.model.state();
    let Some(of) = state.visit(visit) else {
        return html! {};
    };
    let currency = &of.opened.currency;
    let said = of
        .yard_total
        .as_ref()
        .map(|(_, total)| total.clone())
        .unwrap_or_default();
    let against = queries::yard_against(state, visit, tally);
    let texts = texts(ui.model, visit);
    let unit = unit_shown(ui.model);
    html! {
        section aria-label=(words.yards_bill) {
            h2 { (words.yards_bill) }
            p.below { (fill(words.bill_money_is, &[("tax", &tax(ui, of.prices_are()))])) }
            div.pair.thirds {
                @for unit in YardUnit::ALL {
                    (field(ui, &texts, (unit, &total_name(unit)), &unit_name(ui, unit, currency), *unit.of(&mut said.clone())))
                }
            }
            button.key.main.whole type="button" data-press=(ui.press(Action::Compare(visit))) { (words.compare) }
            @if let Some(against) = &against { (total_gap(ui, visit, against, currency)) }
            details open[line_is_wrong(ui, unit)] {
                summary { (words.its_lines) }
                p.below { (words.ask_for_lines) }
                div.chips role="radiogroup" aria-label=(words.lines_in) {
                    @for one in YardUnit::ALL {
                        button.chip type="button" role="radio" aria-checked=((one == unit).to_string())
                            data-press=(ui.press(Action::CountIn(one))) { (unit_name(ui, one, currency)) }
                    }
                }
                div.pair {
                    @for plank in &tally.planks {
                        @let line = state.piece(plank.piece).and_then(|piece| piece.yard_line.clone());
                        @let known = line.and_then(|(_, mut line)| *unit.of(&mut line));
                        @let label = format!("{}, {}", plank.line.mark, unit_name(ui, unit, currency));
                        (field(ui, &texts, (unit, &line_name(unit, plank.piece)), &label, known))
                    }
                }
                (key(ui, words.compare_lines, Action::Compare(visit)))
            }
            @if let Some(against) = &against { (line_gaps(ui, against, currency)) }
        }
    }
}

fn total_gap(ui: &Ui<'_>, visit: Id, against: &YardAgainstOurs, currency: &str) -> Markup {
    let words = &ui.w.bill;
    let Some(total) = &against.total else {
        return html! {};
    };
    let in_money = |value| money(value, currency);
    html! {
        div.card #gap aria-live="polite" {
            @if let Some(gap) = total.money {
                p.row {
                    span { (fill(words.gap_in_money, &[("tax", &tax(ui, against.prices_are))])) }
                    strong.large { (known(total.explain_money(currency), &signed(gap, in_money), words.gap_money, ui)) }
                }
            }
            @if let Some(gap) = total.difference {
                p.row {
                    span { (if total.from_money { words.gap_from_money } else { words.gap }) }
                    strong { (known(total.explain_volume(), &signed(gap, feet), words.gap, ui)) }
                }
                p.below {
                    (fill(words.theirs, &[("feet", &total.theirs.map(feet).unwrap_or_default())])) " "
                    (words.ours_inline) " " (figure(ui, words.ours, &feet(total.ours), Asked::VisitTotal(visit, Total::ByTheRule))) "."
                }
            }
            @if let Some(left) = &against.money_left { (no_footage(ui, against.prices_are, left, currency)) }
            @match &total.customs {
                // Lines tell more than their total.
                Some(_) if !against.by_lines.is_empty() => {},
                Some(customs) => (rules_that_fit(ui, customs)),
                None => @if total.theirs.is_some() { p { (words.several_rules) } },
            }
        }
    }
}

/// What of the gap in money is no footage.
fn no_footage(ui: &Ui<'_>, prices: PricesAre, of: &MoneyLeft, currency: &str) -> Markup {
    let words = &ui.w.bill;
    let sentence = match (of.is_tax, prices) {
        (true, PricesAre::Net) => words.money_is_tax,
        (true, PricesAre::Gross) => words.money_is_tax_off,
        (false, _) => words.money_left,
    };
    let shown = money_either_way(of.left, currency);
    html! { p.notice.doubt { (fill(sentence, &[("money", &shown)])) } }
}

/// The gaps plank by plank, and the rules that explain the lines.
fn line_gaps(ui: &Ui<'_>, against: &YardAgainstOurs, currency: &str) -> Markup {
    let words = &ui.w.bill;
    if against.planks.is_empty() {
        return html! {};
    }
    let several = against.by_lines.len() > 1;
    let none = || html! { span.open { "–" } };
    // The unit stands once, in the heading: a phone has no room for it in every line.
    let column =
        |name: &str, unit: &str| html! { th.n scope="col" { (name) span.below { (unit) } } };
    html! {
        h3 { (fill(words.gap_by_line, &[("tax", &tax(ui, against.prices_are))])) }
        div.across tabindex="0" role="region" aria-label=(words.gap_by_plank) {
            table.gaps {
                thead {
                    tr {
                        th scope="col" { (words.mark) }
                        (column(words.ours, "bd ft"))
                        (column(words.theirs_short, "bd ft"))
                        (column(words.gap, "bd ft"))
                        (column(words.money, currency))
                    }
                }
                tbody {
                    @for gap in &against.planks {
                        @let name = |what: &str| fill(words.of_mark, &[("what", &what), ("mark", &gap.mark)]);
                        tr {
                            th scope="row" { (gap.mark) }
                            td.n {
                                @match gap.ours {
                                    Some(ours) => (figure(ui, &name(words.ours), &number(ours), Asked::Plank(gap.piece, PlankFigure::Bill))),
                                    None => (none()),
                                }
                            }
                            td.n { @match gap.theirs { Some(theirs) => (number(theirs)), None => (none()) } }
                            td.n {
                                @match gap.difference {
                                    Some(value) => (known(gap.explain_volume(), &signed(value, number), &name(words.gap), ui)),
                                    None => (none()),
                                }
                            }
                            td.n {
                                @match gap.money {
                                    Some(value) => (known(gap.explain_money(currency), &signed(value, number), &name(words.gap_money), ui)),
                                    None => (none()),
                                }
                            }
                        }
                    }
                }
            }
        }
        @if !against.without_line.is_empty() {
            p.below { (fill(words.not_on_lines, &[("marks", &against.without_line.join(", "))])) }
        }
        @for customs in &against.by_lines {
            @if several { p.below { (fill(words.agreed, &[("rule", &customs.agreed.in_words().spoken())])) } }
            (rules_that_fit(ui, customs))
        }
    }
}

/// What the billing rules that were tried say. It never says that a yard cheats.
fn rules_that_fit(ui: &Ui<'_>, customs: &CustomsTried) -> Markup {
    let words = &ui.w.bill;
    let found = &customs.found;
    let (class, said) = match found.conclusion {
        Conclusion::Agrees => ("good", words.agrees),
        Conclusion::NearlyAgrees => ("good", words.nearly_agrees),
        Conclusion::Explained if found.all_fit() => ("", words.explained),
        Conclusion::Explained => ("", words.nearly_explained),
        Conclusion::CannotTellFromTotal if found.all_fit() => ("doubt", words.total_cannot_tell),
        Conclusion::CannotTellFromTotal => ("doubt", words.total_cannot_nearly_tell),
        Conclusion::CannotTell if found.all_fit() => ("doubt", words.cannot_tell),
        Conclusion::CannotTell => ("doubt", words.cannot_nearly_tell),
        Conclusion::Unexplained => ("doubt", words.unexplained),
        Conclusion::NotComparable => ("doubt", words.not_comparable),
    };
    let more = found.told.len().saturating_sub(LISTED);
    html! {
        div class={ "notice " (class) } {
            p { (fill(said, &[("n", &found.told.len())])) }
            @if !found.told.is_empty() {
                ol.ranked { @for one in found.told.iter().take(LISTED) { li { (explained(ui, one)) } } }
            }
            @if more > 0 { p { (fill(words.more_rules, &[("n", &more)])) } }
        }
    }
}

fn explained(ui: &Ui<'_>, one: &BillExplanation) -> Markup {
    let words = &ui.w.bill;
    let habits: Vec<String> = one
        .habits
        .iter()
        .map(|habit| Habit::in_words(*habit).spoken())
        .collect();
    let rule = match habits.is_empty() {
        true => words.the_agreed_rule.to_owned(),
        false => habits.join(words.and),
    };
    let left = match one.fits {
        true => String::new(),
        false => fill(words.leaves, &[("feet", &feet(one.left))]),
    };
    let shown = format!("{rule}: {}{left}", feet(one.board_feet));
    figure(
        ui,
        words.what_it_gives,
        &shown,
        Asked::Known(Box::new(one.working())),
    )
}
