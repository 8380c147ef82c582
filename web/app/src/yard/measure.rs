//! A plank being measured: the drawing is the form. Its dimension lines are the fields; below stand how the plank
//! stands so far, what is typed in, and the keypad.

use super::entering::{Entering, Weighs, defects_of, readings_of, understood_of};
use super::verdict::{PlankSoFar, money_of, reading_of};
use super::{Action, reasons};
use crate::action::Action as Any;
use crate::drawings::{PlankDrawn, edge_view, end_view, face_view};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, keypad, ring, task_head, toast};
use crate::route::Route;
use crate::words::fill;
use maud::{Markup, html};
use stillwood_core::plank::{
    Field, Plank, Seen, Understood, Warning, describe, eye_steps, warnings,
};
use stillwood_core::quantity::show;
use stillwood_core::record::{Id, queries};
use stillwood_core::wood::Species;

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let entering = model.yard.entering.as_ref().filter(|one| one.piece == id)?;
    if entering.rejecting.is_some() {
        return Some(rejecting(model, entering));
    }
    if model.yard.defects {
        return Some(super::defects::view(model, entering));
    }
    let units = model.units();
    let (readings, _) = readings_of(&entering.draft, units);
    let plank = describe(&readings, &defects_of(&entering.draft, units));
    let named = entering.named(model);
    let wood = queries::wood_of(model.state(), &named);
    let mark = &entering.draft.mark;
    let page = Page::new(mark.clone(), Layout::Measure)
        .with(model, "head", "header", |ui| {
            task_head(ui, mark, &named.text, head_keys(ui, entering))
        })
        .with(model, "drawing", "main", |ui| {
            drawing(ui, entering, &plank, wood.as_ref())
        })
        .with(model, "standing", "section", |ui| standing(ui, entering))
        .with(model, "active-field", "section", |ui| {
            active(ui, entering, wood.as_ref())
        })
        .with(model, "toast", "div", toast)
        .with(model, "keypad", "footer", |ui| keys(ui, entering));
    Some(page)
}

fn head_keys(ui: &Ui<'_>, entering: &Entering) -> Markup {
    let words = &ui.w.yard;
    let discard = Any::Ask {
        question: fill(words.discard_ask, &[("mark", &entering.draft.mark)]),
        yes: words.discard.to_owned(),
        action: Box::new(Any::Yard(Action::Discard)),
    };
    html! {
        button.key.quiet type="button" data-press=(ui.press(Route::Mark(entering.piece))) aria-label=(words.chalk_this) {
            (icon(Icon::Label))
        }
        button.key.quiet type="button" data-press=(ui.press(discard)) aria-label=(words.discard) {
            (icon(Icon::Delete))
        }
    }
}

/// How a field's value stands on the drawing: as it is, by eye, or not looked at.
fn dimension(ui: &Ui<'_>, entering: &Entering, field: Field, name: &str) -> Markup {
    let value = entering.value(field);
    let understood = understood_of(field, &value, ui.model.units());
    let is_active = entering.active == Some(field);
    let (class, text) = match &understood {
        Understood::Empty => ("open", format!("{name} ?")),
        Understood::Unreadable(_) => ("unread", value.text.clone()),
        Understood::Read { shown, .. } if value.seen == Seen::ByEye => {
            ("by-eye", format!("{name} ≈ {shown}"))
        }
        Understood::Read { shown, .. } => ("measured", labelled(field, name, shown)),
    };
    let asked = understood.warning().is_some();
    html! {
        button class={ "dimension " (class) } type="button" id=[is_active.then_some("active")]
            aria-pressed=(is_active.to_string()) aria-label={ (field.label()) ": " (text) }
            data-press=(ui.press(Action::Activate(field)))
        {
            (text)
            @if asked { span.question aria-hidden="true" { "?" } }
        }
    }
}

/// A size stands on the drawing by itself; whatever its place does not tell has its name.
fn labelled(field: Field, name: &str, shown: &str) -> String {
    let plain = shown.trim_end_matches("mm").trim_end().to_owned();
    match field {
        Field::Length
        | Field::WidthNear
        | Field::WidthMiddle
        | Field::WidthFar
        | Field::ThicknessNear => plain,
        Field::Bow | Field::Crook | Field::Twist | Field::Cup => format!("{name} {plain}"),
        Field::WeightWhole | Field::Moisture | Field::WoodTemperature => shown.to_owned(),
        _ => format!("{name} {shown}"),
    }
}

fn drawing(ui: &Ui<'_>, entering: &Entering, plank: &Plank, wood: Option<&Species>) -> Markup {
    let words = &ui.w.yard;
    let drawn = PlankDrawn {
        plank,
        colour: wood.map_or("#d8c7a6", Species::colour),
        parts: None,
        weakest: None,
    };
    let field = |field: Field, name: &str| dimension(ui, entering, field, name);
    let [near, middle, far] = [words.width_near, words.width_middle, words.width_far];
    let exaggerated = plank
        .bow
        .map(|bow| drawn.exaggerated(stillwood_core::quantity::in_mm(bow.gap)));
    html! {
        div.views {
            div.line.over.along { (field(Field::Length, words.length)) }
            div.line.side { (field(Field::ThicknessNear, words.thickness)) }
            div.face role="img" aria-label=(said(ui, entering, plank)) { (face_view(&drawn)) }
            div.near role="img" aria-label=(words.end_view) { (end_view(&drawn)) }
            div.line.three {
                (field(Field::WidthNear, near)) (field(Field::WidthMiddle, middle)) (field(Field::WidthFar, far))
            }
            div.line.side { (field(Field::RingAngle, words.rings)) }
            div.line.over {
                (field(Field::Bow, words.bow)) (field(Field::GrainEdge, words.grain_edge)) (field(Field::GrainFace, words.grain_face))
            }
            div.line.side { @for one in entering.weighs.fields() { (field(*one, weight_name(ui, *one))) } }
            div.edge role="img" aria-label=(words.edge_view) { (edge_view(&drawn)) }
            div.line.side { (field(Field::Moisture, words.moisture)) }
            div.line.over {
                (field(Field::Crook, words.crook)) (field(Field::Twist, words.twist)) (field(Field::Cup, words.cup))
                (field(Field::WoodTemperature, words.temperature))
            }
        }
        p.scale {
            (fill(words.drawn_short, &[("by", &show::number(drawn.shortened(), 0))]))
            @if let Some(times) = exaggerated.filter(|times| *times > 1.05) {
                " " (fill(words.drawn_larger, &[("by", &show::number(times, 0))]))
            }
        }
        @if entering.active.is_some_and(|field| all_weights().contains(&field)) {
            div.chips role="radiogroup" aria-label=(words.how_weighed) {
                @for (way, name) in [(Weighs::Whole, words.weigh_whole), (Weighs::Ends, words.weigh_ends), (Weighs::Balance, words.weigh_balance)] {
                    button.chip type="button" role="radio" aria-checked=((entering.weighs == way).to_string())
                        data-press=(ui.press(Action::Weigh(way))) { (name) }
                }
            }
        }
        details.more open[entering.more] {
            summary data-press=(ui.press(Action::More)) { (words.more_fields) }
            div.chips { @for one in MORE { (field(one, one.label())) } }
        }
        button.chip type="button" data-press=(ui.press(super::defects::Action::Show(true))) {
            (fill(ui.w.planks.defects_n, &[("n", &entering.draft.defects.len())]))
        }
        label.note { span { (words.note) } input id="note" name="note" value=(entering.draft.note) autocomplete="off" {} }
    }
}

/// The fields that are seldom needed.
const MORE: [Field; 12] = [
    Field::BowKink,
    Field::BowOver,
    Field::CrookKink,
    Field::CrookOver,
    Field::TwistStick,
    Field::CupOver,
    Field::ThicknessMiddle,
    Field::ThicknessFar,
    Field::WidthWithWane,
    Field::RingChord,
    Field::RingDip,
    Field::PithOffset,
];

fn all_weights() -> Vec<Field> {
    let fields = Weighs::ALL
        .iter()
        .flat_map(|way| way.fields().iter().copied());
    fields.collect()
}

fn weight_name<'a>(ui: &'a Ui<'_>, field: Field) -> &'a str {
    match field {
        Field::WeightWhole => ui.w.yard.weight,
        other => other.label(),
    }
}

/// The drawing in words.
fn said(ui: &Ui<'_>, entering: &Entering, plank: &Plank) -> String {
    let in_mm = |length: Option<stillwood_core::quantity::Length>| {
        length.map(stillwood_core::quantity::in_mm)
    };
    let sizes = show::sizes(
        [
            in_mm(plank.length),
            in_mm(plank.widths.least()),
            in_mm(plank.thicknesses.least()),
        ],
        ui.model.units(),
    );
    let values: [(&str, &dyn std::fmt::Display); 2] =
        [("mark", &entering.draft.mark), ("sizes", &sizes)];
    fill(ui.w.yard.drawing_of, &values)
}

/// How the plank stands so far, and what it comes to.
fn standing(ui: &Ui<'_>, entering: &Entering) -> Markup {
    let words = &ui.w.yard;
    let PlankSoFar {
        segments,
        looked,
        all,
        news,
        sheet,
        ..
    } = reading_of(ui.model, entering);
    let charged = entering.charged(ui.model, &sheet);
    html! {
        button.standing type="button" data-press=(ui.press(Route::Verdict(entering.piece))) {
            (ring(&segments))
            span.said {
                span.hidden { (words.to_verdict) ": " }
                @if looked == 0 { (words.nothing_looked_at) } @else {
                    (fill(words.looked_at, &[("n", &looked), ("all", &all)]))
                }
                @if let Some((judged, news)) = &news { " · " span class=(judged.class()) { (news) } }
            }
            span.comes-to { (money_of(ui, entering, charged.as_ref(), sheet.held.as_ref())) }
        }
    }
}

/// What is typed in, large, with what was understood; steps of the eye; a question.
fn active(ui: &Ui<'_>, entering: &Entering, wood: Option<&Species>) -> Markup {
    let Some(field) = entering.active else {
        return html! {};
    };
    let units = ui.model.units();
    let value = entering.value(field);
    let understood = understood_of(field, &value, units);
    let steps = eye_steps(field);
    html! {
        div.reading role="region" aria-label=(field.label()) {
            p.name { (field.label()) }
            p.typed { @if value.text.is_empty() { span.open { "–" } } @else { (value.text) } }
            p.understood aria-live="polite" {
                @match &understood {
                    Understood::Empty => (field.meaning()),
                    Understood::Unreadable(why) => span.bad { (why) },
                    Understood::Read { shown, other, .. } => { (shown) br; (other) },
                }
            }
        }
        @if let Some(warning) = understood.warning() { (question(ui, warning)) }
        @else if let Some(warning) = together(ui, entering, field, wood) { (question(ui, &warning)) }
        @if !steps.is_empty() {
            div.chips.steps role="group" aria-label=(ui.w.yard.by_eye) {
                @for words in steps.iter().map(|step| step.typed) {
                    button.chip type="button" aria-pressed=((value.seen == Seen::ByEye && value.text == words).to_string())
                        data-press=(ui.press(Action::Step(words))) { (words) }
                }
            }
        }
    }
}

/// A question that the other fields raise about this one.
fn together(
    ui: &Ui<'_>,
    entering: &Entering,
    field: Field,
    wood: Option<&Species>,
) -> Option<Warning> {
    let units = ui.model.units();
    let (readings, _) = readings_of(&entering.draft, units);
    let lightest = wood
        .and_then(Species::usual_density_at_12)
        .map(|usual| usual.low);
    let asked = warnings(&readings, lightest, units).into_iter();
    asked
        .filter(|one| one.field == field)
        .map(|one| one.warning)
        .next()
}

fn question(ui: &Ui<'_>, warning: &Warning) -> Markup {
    html! {
        div.notice.doubt role="status" {
            p { (warning.question) }
            div.keys {
                @for offer in &warning.offers {
                    button.key type="button" data-press=(ui.press(Action::Offer(offer.text.clone()))) { (offer.label) }
                }
                button.key type="button" data-press=(ui.press(Action::Confirm)) { (ui.w.yard.kept_as_typed) }
            }
        }
    }
}

fn keys(ui: &Ui<'_>, entering: &Entering) -> Markup {
    let Some(field) = entering.active else {
        return html! {
            button.key.main.big.wide type="button" data-press=(ui.press(Route::Verdict(entering.piece))) {
                (ui.w.yard.to_verdict)
            }
        };
    };
    let last = entering.last.get(&field).map(|taken| taken.typed.as_str());
    keypad(ui, field, last, |key| ui.press(Action::Press(key)))
}

/// Choosing why it is rejected.
fn rejecting(model: &Model, entering: &Entering) -> Page {
    let chosen = entering.rejecting.clone().unwrap_or_default();
    Page::new(entering.draft.mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| {
            html! {
                button.key.quiet.back type="button" data-press=(ui.press(Action::NotRejecting)) aria-label=(ui.w.common.back) {
                    (icon(Icon::Back))
                }
                div.titles { h1 #title tabindex="-1" { (entering.draft.mark) } p.below { (ui.w.yard.why_rejected) } }
            }
        })
        .with(model, "body", "main", |ui| reasons::all_reasons(ui, &chosen))
        .with(model, "foot", "footer", |ui| {
            let words = &ui.w.yard;
            let name = match chosen.first() {
                Some(reason) => fill(words.reject_for, &[("reason", &reason.name())]),
                None => words.reject.to_owned(),
            };
            html! {
                button.key.no.big.wide type="button" data-press=(ui.press(Action::RejectNow)) { (name) }
            }
        })
}
