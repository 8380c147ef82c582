//! The quick sort of a pile: No with its reason in two touches, Maybe with its mark.

use super::Action;
use super::mark::to_chalk;
use super::named::{pile_here, pile_title};
use super::reasons::{all_reasons, usual_reasons};
use super::verdict::corrected;
use super::visit::pile_bar;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, count, fill, show};
use maud::{Markup, html};
use stillwood_core::quantity::Conformance;
use stillwood_core::record::{Id, Pile, queries};

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let pile = pile_here(model, id)?;
    // What was undone needs no chalk.
    let is_here = |id: Id| model.state().piece(id).is_some_and(|one| !one.withdrawn);
    if let Some((piece, mark)) = model.yard.to_chalk.as_ref().filter(|(id, _)| is_here(*id)) {
        return Some(chalk(model, *piece, mark));
    }
    let title = pile_title(pile);
    let page = Page::new(title.clone(), Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, &title, &below(ui, pile), keys(ui, id)))
        .with(model, "body", "main", |ui| body(ui, pile))
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| {
            html! {
                button.key.no.sort-key type="button" data-press=(ui.press(Action::No(id))) { (ui.w.yard.no) }
                button.key.main.sort-key.wide type="button" data-press=(ui.press(Action::Maybe(id))) { (ui.w.yard.maybe) }
            }
        });
    Some(page)
}

fn keys(ui: &Ui<'_>, id: Id) -> Markup {
    html! {
        button.key.quiet type="button" data-press=(ui.press(Route::EditPile(id))) aria-label=(ui.w.yard.change_pile) {
            (icon(Icon::Edit))
        }
    }
}

fn below(ui: &Ui<'_>, pile: &Pile) -> String {
    let words = &ui.w.yard;
    let mut parts = Vec::new();
    let visit = ui.model.state().visit(pile.opened.visit);
    if let (Some(price), Some(visit)) = (pile.opened.price, visit) {
        let basis = pile.opened.price_basis.unwrap_or(visit.opened.price_basis);
        let price = show::price(price, &visit.opened.currency);
        parts.push(fill(
            words.per_unit,
            &[("price", &price), ("per", &basis.per().spoken())],
        ));
    }
    parts.extend(moisture_of(ui, pile));
    parts.join(" · ")
}

/// The moisture of a pile, and how it stands: it says the same of each of its planks, so it is told here.
pub fn moisture_of(ui: &Ui<'_>, pile: &Pile) -> Option<String> {
    let words = &ui.w.yard;
    let moisture = pile.opened.moisture.as_ref()?;
    let tools = &ui.model.settings.instruments;
    let stands = queries::moisture_of_pile(ui.model.state(), pile.id, tools);
    let now = stands
        .as_ref()
        .map_or(moisture.value, |one| one.estimate.value);
    let wood = pile.opened.wood_temperature.as_ref();
    let from = wood.and_then(|wood| corrected(ui, moisture.value, now, wood.value));
    let now = show::moisture(now);
    let said = match from {
        Some(from) => fill(
            words.moisture_corrected_of_pile,
            &[("moisture", &now), ("corrected", &from)],
        ),
        None => fill(words.moisture_of_pile, &[("moisture", &now)]),
    };
    Some(match stands.map(|one| one.conformance) {
        Some(Conformance::TooClose) => format!("{said}, {}", words.near_your_limit),
        Some(Conformance::Beyond) => format!("{said}, {}", words.beyond_your_limit),
        Some(Conformance::Inside) | None => said,
    })
}

fn body(ui: &Ui<'_>, pile: &Pile) -> Markup {
    let words = &ui.w.yard;
    let (all, no, maybe) = (pile.looked_at(), pile.passed_over(), pile.maybes());
    let chosen = &ui.model.yard.reasons;
    let hint = match chosen.len() {
        0 => words.press_no_none,
        1 => words.press_no_one,
        _ => words.press_no_several,
    };
    html! {
        p.count { strong { (all) } span { (count(all, words.turned_over_one, words.turned_over_other)) } }
        (pile_bar(all, no, maybe))
        p.row.below {
            span { (fill(words.no_count, &[("n", &no)])) }
            span { (fill(words.maybe_count, &[("n", &maybe)])) }
        }
        h2.small { (words.because_of) }
        @if ui.model.yard.all_reasons { (all_reasons(ui, chosen)) }
        (usual_reasons(ui, &ui.model.yard.reasons_at_hand, chosen))
        p.below { (hint) }
        div.keys.last {
            @if no > 0 {
                button.key.quiet type="button" data-press=(ui.press(Action::DeleteLastNo(pile.id))) {
                    (icon(Icon::Undo)) (words.delete_last_no)
                }
            }
            @if let Some(discarded) = ui.model.yard.discarded.as_ref().filter(|draft| draft.pile == pile.id) {
                button.key type="button" data-press=(ui.press(Action::BringBackTyped)) {
                    (fill(ui.w.planks.bring_back_typed, &[("mark", &discarded.mark)]))
                }
            }
            button.key type="button" data-press=(ui.press(Action::MeasureNew(pile.id))) { (words.measure_now) }
            button.key type="button" data-press=(ui.press(Route::PileSummary(pile.id))) { (words.pile_done) }
        }
    }
}

/// The mark fills the screen, to be chalked.
fn chalk(model: &Model, piece: Id, mark: &str) -> Page {
    Page::new(mark, Layout::Bare)
        .with(model, "body", "main", |ui| to_chalk(ui, mark))
        .with(model, "foot", "footer", |ui| {
            html! {
                button.key type="button" data-press=(ui.press(Route::Measure(piece))) { (ui.w.yard.measure_now) }
                button.key.main.big.wide type="button" data-press=(ui.press(Action::Chalked)) {
                    (ui.w.yard.chalked_next)
                }
            }
        })
}
