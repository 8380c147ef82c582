//! A plank being measured: the drawing is the form. Its dimension lines are the fields; below stand how the plank
//! stands so far, what is typed in, and the keypad.

use super::drawn::{Views, end_said, not_to_scale};
use super::entering::Entering;
use super::verdict::{PlankSoFar, money_of, reading_of};
use super::{Action, reasons};
use crate::action::Action as Any;
use crate::drawings::{PlankDrawn, edge_view, end_view, face_view};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, keypad, ring, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, fill, show, spoken_name, wood_names};
use maud::{Markup, html};
use stillwood_core::plank::{
    Field, Plank, RingsBy, Seen, Understood, Warning, WeighedBy, describe, eye_steps, retyped,
};
use stillwood_core::quantity::{Length, in_mm};
use stillwood_core::record::{DraftReadings, Id, queries};
use stillwood_core::wood::Species;

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let entering = model.yard.entering.as_ref().filter(|one| one.piece == id)?;
    if entering.rejecting.is_some() {
        return Some(reasons::rejecting(model, entering));
    }
    if model.yard.defects {
        return Some(super::defects::view(model, entering));
    }
    let read = entering.readings(model);
    let plank = describe(&read.readings, &read.defects);
    let named = entering.named(model);
    let wood = queries::wood_of(model.state(), &named);
    let mark = &entering.draft.mark;
    let page = Page::new(mark.clone(), Layout::Measure)
        .with(model, "head", "header", |ui| {
            task_head(
                ui,
                mark,
                &wood_names::shown(&named.text),
                head_keys(ui, entering),
            )
        })
        .with(model, "drawing", "main", |ui| {
            drawing(ui, entering, &read, &plank, wood.as_ref())
        })
        .with(model, "standing", "section", |ui| {
            standing(ui, entering, &read)
        })
        .with(model, "active-field", "section", |ui| {
            active(ui, entering, &read)
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

/// How a field's value stands on the drawing: as it is, by eye, or not looked at; with a question mark where it, or it
/// beside others, is odd.
fn dimension(ui: &Ui<'_>, entering: &Entering, field: Field, name: &str, is_asked: bool) -> Markup {
    let value = entering.value(field);
    let understood = entering.understood(ui.model, field);
    let is_active = entering.active == Some(field);
    let (class, text) = match &understood {
        Understood::Empty => ("open", format!("{name} ?")),
        Understood::Unreadable(_) => ("unread", value.text.clone()),
        Understood::Read { shown, .. } if value.seen == Seen::ByEye => {
            ("by-eye", format!("{name} ≈ {}", shown.spoken()))
        }
        Understood::Read { shown, .. } => ("measured", labelled(field, name, &shown.spoken())),
    };
    let asked = is_asked || understood.warning().is_some();
    html! {
        button class={ "dimension " (class) } type="button" id=[is_active.then_some("active")]
            aria-pressed=(is_active.to_string()) aria-label={ (field.label().spoken()) ": " (text) }
            data-press=(ui.press(Action::Activate(field)))
        {
            span class=(if asked { "value asked" } else { "value" }) { (text) }
        }
    }
}

/// A size or the weight stands on the drawing by itself; whatever its place does not tell has its name.
fn labelled(field: Field, name: &str, shown: &str) -> String {
    let plain = || shown.replacen(" mm", "", 1);
    match field {
        Field::Length
        | Field::WidthNear
        | Field::WidthMiddle
        | Field::WidthFar
        | Field::ThicknessNear => plain(),
        Field::Bow | Field::Crook | Field::Twist | Field::Cup => format!("{name} {}", plain()),
        Field::WeightWhole | Field::WoodTemperature => shown.to_owned(),
        _ => format!("{name} {shown}"),
    }
}

fn drawing(
    ui: &Ui<'_>,
    entering: &Entering,
    read: &DraftReadings,
    plank: &Plank,
    wood: Option<&Species>,
) -> Markup {
    let words = &ui.w.yard;
    let drawn = PlankDrawn {
        plank,
        colour: wood.map_or(crate::drawings::UNDYED, Species::colour),
        parts: None,
        weakest: None,
    };
    let asked = entering.warnings(ui.model, read);
    let field = |field: Field, name: &str| {
        let is_asked = asked.iter().any(|one| one.field == field);
        dimension(ui, entering, field, name, is_asked)
    };
    let grain = words.grain;
    html! {
        div.views {
            (ui.part("length", html! { div.line.along.length #length { (field(Field::Length, words.length)) } }))
            (ui.part("thickness", html! { div.line.thickness #thickness { (field(Field::ThicknessNear, words.thickness)) } }))
            (ui.part("face-view", html! { div.face #face-view role="img" aria-label=(said(ui, entering, plank)) { (face_view(&drawn)) } }))
            (ui.part("on-face", html! { div.line.face.on-wood #on-face {
                (field(Field::Crook, words.crook)) (field(Field::GrainFace, grain))
            } }))
            (ui.part("near-view", html! { div.near #near-view role="img" aria-label=(end_said(ui, &drawn)) { (end_view(&drawn)) } }))
            (ui.part("widths", html! { div.line.widths #widths {
                (field(Field::WidthNear, words.width_near)) (field(Field::WidthMiddle, words.width_middle))
                (field(Field::WidthFar, words.width_far))
            } }))
            (ui.part("rings", html! { div.line.rings-read #rings {
                @for one in entering.rings.fields() { (field(*one, rings_name(ui, *one))) }
            } }))
            (ui.part("edge-view", html! { div.edge #edge-view role="img" aria-label=(words.edge_view) { (edge_view(&drawn)) } }))
            (ui.part("on-edge", html! { div.line.edge.on-wood #on-edge {
                (field(Field::Bow, words.bow)) (field(Field::GrainEdge, grain))
            } }))
            (ui.part("twist", html! { div.line.twist #twist { (field(Field::Twist, words.twist)) } }))
            (ui.part("weights", html! { div.line.weights #weights {
                @for one in entering.weighs.fields() { (field(*one, weight_name(ui, *one))) }
                (field(Field::Moisture, words.moisture)) (field(Field::WoodTemperature, words.temperature))
            } }))
            (ui.part("cup", html! { div.line.cup #cup { (field(Field::Cup, words.cup)) } }))
        }
        (ui.part("drawn-at", html! { p.scale #drawn-at { (words.bare_numbers) " " (not_to_scale(ui, &drawn, Views::All)) } }))
        details.more open[entering.more] {
            summary data-press=(ui.press(Action::More)) { (words.more_fields) }
            div.chips { @for one in MORE { (field(one, spoken_name(one.label()))) } }
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
    let fields = WeighedBy::ALL
        .iter()
        .flat_map(|way| way.fields().iter().copied());
    fields.collect()
}

fn rings_name<'a>(ui: &'a Ui<'_>, field: Field) -> &'a str {
    match field {
        Field::RingAngle => ui.w.yard.rings,
        Field::RingChord => ui.w.yard.ring_chord,
        Field::RingDip => ui.w.yard.ring_dip,
        other => spoken_name(other.label()),
    }
}

fn weight_name<'a>(ui: &'a Ui<'_>, field: Field) -> &'a str {
    match field {
        Field::WeightWhole => ui.w.yard.weight,
        Field::WeightFirst => ui.w.yard.end_1,
        Field::WeightSecond => ui.w.yard.end_2,
        Field::WeightOverhang => ui.w.yard.overhang,
        other => spoken_name(other.label()),
    }
}

/// The drawing in words.
fn said(ui: &Ui<'_>, entering: &Entering, plank: &Plank) -> String {
    let in_mm = |length: Option<Length>| length.map(in_mm);
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
fn standing(ui: &Ui<'_>, entering: &Entering, read: &DraftReadings) -> Markup {
    let words = &ui.w.yard;
    let PlankSoFar {
        segments,
        looked,
        all,
        news,
        sheet,
        ..
    } = reading_of(ui.model, entering, read);
    let charged = entering.charged(ui.model, &sheet);
    html! {
        button.standing type="button" data-press=(ui.press(Route::Verdict(entering.piece))) {
            (ring(&segments))
            span.said {
                span.go { (words.to_verdict) }
                " "
                @if looked == 0 { (words.nothing_looked_at) } @else {
                    (fill(words.looked_at, &[("n", &looked), ("all", &all)]))
                }
                @if let Some((judged, news)) = &news { span class={ "news " (judged.class()) } { (news) } }
            }
            span.comes-to { (money_of(ui, entering, charged.as_ref(), sheet.held.as_ref())) }
            (icon(Icon::Forward))
        }
    }
}

/// What is typed in, large, with what was understood; steps of the eye; a question.
fn active(ui: &Ui<'_>, entering: &Entering, read: &DraftReadings) -> Markup {
    let Some(field) = entering.active else {
        return html! {};
    };
    let value = entering.value(field);
    let understood = entering.understood(ui.model, field);
    let steps = eye_steps(field);
    let asked = entering.asking.then(|| {
        let alone = understood.warning().cloned();
        alone.or_else(|| entering.question(ui.model, read, field))
    });
    let asked = asked.flatten();
    // Both lines stand there whatever they hold: a key changes texts alone.
    let (class, first, second) = match &understood {
        Understood::Empty => ("", field.meaning().spoken(), String::new()),
        Understood::Unreadable(why) if entering.asking => ("bad", why.spoken(), String::new()),
        Understood::Unreadable(_) => ("", field.meaning().spoken(), String::new()),
        Understood::Read { shown, other, .. } => ("", shown.spoken(), other.spoken()),
    };
    let is_open = value.text.is_empty();
    let typed = as_typed(&value.text, value.seen);
    html! {
        (ui.part("reading", html! {
            div.reading #reading role="region" aria-label=(field.label().spoken()) {
                p.name { (field.label().spoken()) }
                p.typed { span class=(if is_open { "open" } else { "" }) { (if is_open { "–" } else { &typed }) } }
                p.understood aria-live="polite" { span class=(class) { (first) } " " span.other { (second) " " } }
            }
        }))
        (ui.part("asked", html! { div #asked { @if let Some(warning) = &asked { (question(ui, warning)) } } }))
        (ui.part("by-hand-or-eye", html! { div #by-hand-or-eye {
            // A question has the room: another way is chosen once it is answered.
            @if asked.is_none() { (ways(ui, entering, field)) }
            @if !steps.is_empty() {
                div.chips.steps role="group" aria-label=(ui.w.yard.by_eye) {
                    @for words in steps.iter().map(|step| step.typed) {
                        button.chip type="button" aria-pressed=((value.seen == Seen::ByEye && value.text == words).to_string())
                            data-press=(ui.press(Action::Step(words))) { (words.spoken()) }
                    }
                }
            }
        } }))
    }
}

/// What was typed; a step of the eye in the language that is spoken.
fn as_typed(text: &str, seen: Seen) -> String {
    match seen {
        Seen::ByEye => text.spoken(),
        Seen::Measured => text.to_owned(),
    }
}

/// The ways in which a plank is weighed, or its rings are read, where one of their fields is typed in: beside the
/// keys, where the thumb is.
fn ways(ui: &Ui<'_>, entering: &Entering, field: Field) -> Markup {
    let words = &ui.w.yard;
    let one = |name: &str, chosen: bool, press: String| {
        html! {
            button.chip type="button" role="radio" aria-checked=(chosen.to_string()) data-press=(press) { (name) }
        }
    };
    let weighs =
        |way: WeighedBy, name| one(name, entering.weighs == way, ui.press(Action::Weigh(way)));
    let rings = |way: RingsBy, name| {
        one(
            name,
            entering.rings == way,
            ui.press(Action::ReadRings(way)),
        )
    };
    html! {
        @if all_weights().contains(&field) {
            div.chips.steps role="radiogroup" aria-label=(words.how_weighed) {
                (weighs(WeighedBy::Whole, words.weigh_whole))
                (weighs(WeighedBy::Ends, words.weigh_ends))
                (weighs(WeighedBy::Balance, words.weigh_balance))
            }
        }
        @if RING_FIELDS.contains(&field) {
            div.chips.steps role="radiogroup" aria-label=(words.how_rings_read) {
                (rings(RingsBy::Angle, words.rings_by_angle))
                (rings(RingsBy::ChordAndDip, words.rings_by_chord))
            }
        }
    }
}

/// The fields by which rings are read.
const RING_FIELDS: [Field; 3] = [Field::RingAngle, Field::RingChord, Field::RingDip];

fn question(ui: &Ui<'_>, warning: &Warning) -> Markup {
    html! {
        div.notice.doubt role="status" {
            p { (warning.question.spoken()) }
            div.keys {
                @for offer in &warning.offers {
                    button.key type="button" data-press=(ui.press(Action::Offer(offer.text.clone()))) { (offer.label.spoken()) }
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
    // As the key would put it, with its unit.
    let last = entering.last.get(&field).map(|taken| {
        let text = retyped(field, taken);
        as_typed(&text, taken.seen)
    });
    keypad(ui, field, last.as_deref(), |key| {
        ui.press(Action::Press(key))
    })
}
