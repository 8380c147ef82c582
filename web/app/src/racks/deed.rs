//! Something done with a piece, typed into its form.

use super::matter::matter;
use super::stock::{Stock, waits};
use super::weigh_round::so_far;
use super::{Action, PieceForm};
use crate::form::FormAction;
use crate::model::Model;
use crate::page::{Layout, Page};
use crate::parts::field::{begun, fields};
use crate::parts::{task_head, toast};
use crate::words::Spoken;
use maud::html;
use stillwood_core::order;
use stillwood_core::record::queries;
use stillwood_core::record::{FieldKind, FormField, Id, WORKSHOP_COMMANDS, workshop_command};

/// What the record knows that fits in a field: racks, sticks, rooms.
pub fn offers(model: &Model, field: &FormField) -> Vec<(String, String)> {
    let named = |names: Vec<String>| names.into_iter().map(|name| (name.clone(), name)).collect();
    match (field.key, field.kind) {
        ("Shelf", _) => {
            let stock = Stock::of(model);
            let places = stock.racks().iter().map(|rack| rack.place.clone());
            named(places.filter(|place| !place.is_empty()).collect())
        }
        ("Room", _) => named(queries::rooms(model.state()).keys().cloned().collect()),
        ("Witness stick", FieldKind::Words) => {
            let rooms = queries::rooms(model.state()).keys();
            let sticks = rooms.filter_map(|room| queries::witness_in(model.state(), room));
            named(
                order::set_of(sticks.map(|told| told.stick))
                    .into_iter()
                    .filter(|name| !name.is_empty())
                    .collect(),
            )
        }
        _ => Vec::new(),
    }
}

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let piece = model.state().piece(id)?;
    let (_, deed) = model.racks.deed.filter(|(piece, _)| *piece == id)?;
    let open = model.form.as_ref()?;
    let title = deed.name(model);
    let matter = matter(model, piece, waits(model, piece).as_ref());
    let below = format!("{} · {}", piece.mark, matter.said);
    let of_rack = so_far(model, id);
    let page = Page::new(format!("{title}: {}", piece.mark), Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, title, &below, html! {}))
        .with(model, "body", "main", |ui| {
            html! {
                @if let Some(of_rack) = &of_rack { p { (of_rack) } }
                div.form {
                    (begun(ui, open))
                    (fields(ui, open, &open.id.fields(), &|field| offers(model, field)))
                    @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
                }
                @if deed == PieceForm::Workshop("Throw out") { p.below { (ui.w.racks.discard_hint) } }
            }
        })
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| {
            html! {
                @if of_rack.is_some() {
                    button.key.big type="button" data-press=(ui.press(Action::WeighLater)) { (ui.w.racks.later) }
                }
                button.key.main.big type="button" disabled[open.busy] data-press=(ui.press(FormAction::Save)) { (ui.w.common.save) }
            }
        });
    Some(page)
}

/// Which of a piece's forms are half typed.
pub fn half_typed(model: &Model, piece: Id) -> Vec<PieceForm> {
    let commands = WORKSHOP_COMMANDS.iter();
    let all = commands.map(|one| PieceForm::Workshop(one.key));
    let all = all.chain([PieceForm::FlattenAgain]);
    all.filter(|one| model.forms.contains_key(&one.form(piece).key()))
        .collect()
}

/// Whether something of that stored name can be done with a piece now.
pub fn is_offered(model: &Model, piece: Id, name: &str) -> bool {
    let today = model.now.date();
    let piece = model.state().piece(piece);
    let command = workshop_command(name);
    command
        .zip(piece)
        .is_some_and(|(one, piece)| one.is_offered(piece, today))
}
