//! All fields of a plank, in the order of the tape.

use super::faults::{Faults, NoteField, OwnWood};
use super::questions::CrossWarnings;
use crate::app::App;
use crate::drawings::{EndGrain, RingsDrawn};
use crate::entering::{Entering, Weighs};
use crate::parts::{
    CollectAny, MeasureCell, MeasureOrEye, drawn_rings, focus_on, live, pith_words,
};
use leptos::prelude::*;
use stillwood_core::plank::{DefectFound, Field, Readings, mean_of_stations};
use stillwood_core::quantity::in_mm;
use stillwood_core::record::SpeciesNamed;
use stillwood_core::verdict::Sheet;

/// The order of the thumb: the fields that are always shown, in the order of the tape.
fn order(weighs: Weighs) -> Vec<Field> {
    let mut fields = vec![
        Field::Length,
        Field::WidthNear,
        Field::WidthMiddle,
        Field::WidthFar,
        Field::ThicknessNear,
    ];
    fields.extend(
        weighs
            .fields()
            .iter()
            .filter(|field| **field != Field::WeightOverhang),
    );
    fields.extend([
        Field::Bow,
        Field::Crook,
        Field::Twist,
        Field::Cup,
        Field::GrainFace,
        Field::GrainEdge,
        Field::RingAngle,
        Field::Moisture,
        Field::WoodTemperature,
    ]);
    fields
}

/// The first field in the order of the thumb that is still empty.
pub(super) fn first_empty(entering: Entering) -> Option<Field> {
    let empty = |field: &Field| untrack(|| entering.value(*field)).text.is_empty();
    order(entering.weighs.get_untracked())
        .into_iter()
        .find(empty)
}

/// Moves the thumb to the next field that is still empty; at the end the keypad goes.
pub(super) fn step_on(entering: Entering, now: Field) {
    let fields = order(entering.weighs.get_untracked());
    let after = fields
        .iter()
        .position(|field| *field == now)
        .map_or(0, |at| at + 1);
    let empty = |field: &Field| untrack(|| entering.value(*field)).text.is_empty();
    match fields.into_iter().skip(after).find(empty) {
        Some(field) => {
            entering.active.set(Some(field));
            focus_on(field);
        }
        None => entering.active.set(None),
    }
}

/// All fields.
#[component]
pub(super) fn Fields(
    named: Memo<SpeciesNamed>,
    settled: RwSignal<Option<Sheet>>,
    read: Memo<Option<(Readings, Vec<DefectFound>)>>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let entering = app.entering;
    let next = Callback::new(move |field| step_on(entering, field));
    let way = move |way: Weighs, name: &'static str| {
        view! {
            <button
                type="button" class="chip"
                aria-pressed=move || (entering.weighs.get() == way).to_string()
                on:click=move |_| entering.weigh(way)
            >
                {name}
            </button>
        }
    };
    let weights = move || {
        let fields = entering.weighs.get().fields();
        fields
            .iter()
            .map(|field| view! { <MeasureCell field=*field next=next /> })
            .collect_any()
    };
    let known = Signal::derive(move || app.wood_of(&named.get()));
    let wood = move || {
        let text = named.get().text;
        known.get().map_or(
            format!("{text}: not in the table, so nothing is judged that needs its data"),
            |wood| match app.is_own(wood.id()) {
                true => format!("{text} (your data)"),
                false => format!("{text} ({})", wood.scientific_name()),
            },
        )
    };
    view! {
        <p class="small">{live(wood)}</p>
        <div class="measures">
            <MeasureCell field=Field::Length next=next />
            <MeasureCell field=Field::WidthNear next=next />
            <MeasureCell field=Field::WidthMiddle next=next />
            <MeasureCell field=Field::WidthFar next=next />
            <MeasureCell field=Field::ThicknessNear next=next />
        </div>
        <div class="chips" role="group" aria-label="How it is weighed">
            {way(Weighs::Whole, "weigh whole")}
            {way(Weighs::Ends, "end by end")}
            {way(Weighs::Balance, "no scale")}
        </div>
        <div class="measures">{live(weights)}</div>
        <div class="measures">
            <MeasureOrEye field=Field::Bow next=next />
            <MeasureOrEye field=Field::Crook next=next />
            <MeasureOrEye field=Field::Twist next=next />
            <MeasureOrEye field=Field::Cup next=next />
            <MeasureOrEye field=Field::GrainFace next=next />
            <MeasureOrEye field=Field::GrainEdge next=next />
            <MeasureOrEye field=Field::RingAngle next=next />
        </div>
        <RingPicture settled=settled />
        <div class="measures halves">
            <MeasureCell field=Field::Moisture next=next />
            <MeasureCell field=Field::WoodTemperature next=next />
        </div>
        <details>
            <summary>"Kink, short string, winding sticks, more places"</summary>
            <div class="measures halves">
                <MeasureCell field=Field::BowKink next=next />
                <MeasureCell field=Field::BowOver next=next />
                <MeasureCell field=Field::CrookKink next=next />
                <MeasureCell field=Field::CrookOver next=next />
                <MeasureCell field=Field::TwistStick next=next />
                <MeasureCell field=Field::CupOver next=next />
                <MeasureCell field=Field::ThicknessMiddle next=next />
                <MeasureCell field=Field::ThicknessFar next=next />
                <MeasureCell field=Field::WidthWithWane class="whole" next=next />
                <MeasureCell field=Field::RingChord next=next />
                <MeasureCell field=Field::RingDip next=next />
                <MeasureCell field=Field::PithOffset next=next />
            </div>
        </details>
        <CrossWarnings wood=known read=read />
        <Faults />
        <OwnWood />
        <NoteField />
    }
}

/// The end grain, on which the ring angle can be drawn.
#[component]
fn RingPicture(settled: RwSignal<Option<Sheet>>) -> impl IntoView {
    let app = expect_context::<App>();
    let entering = app.entering;
    let end = Memo::new(move |_| {
        let sheet = settled.get()?;
        let width = mean_of_stations(&sheet.plank.widths).map(in_mm)?;
        let thickness = sheet.plank.thicknesses.least().map(in_mm)?;
        Some((width.round(), thickness.round()))
    });
    let rings = Memo::new(move |_| {
        settled
            .get()
            .and_then(|sheet| sheet.plank.rings.as_ref().map(drawn_rings))
            .unwrap_or(RingsDrawn::Unknown)
    });
    let said = Memo::new(move |_| {
        let seen = settled
            .get()
            .and_then(|sheet| Some((sheet.rings?, sheet.plank.rings?)));
        let units = app.units.get();
        seen.map_or_else(
            || "End grain: rings not looked at.".to_owned(),
            |(rings, read)| {
                let pith = pith_words(&read, units);
                format!("End grain: {}{pith}.", rings.class.name())
            },
        )
    });
    let drag =
        Callback::new(move |angle: f64| entering.put(Field::RingAngle, format!("{angle:.0}")));
    live(move || {
        end.get().map(|(width, thickness)| {
            view! { <EndGrain width=width thickness=thickness rings=rings said=said drag=drag /> }
        })
    })
}
