//! Cutting a plank or a piece: the plan drawn to scale, how many come out and how they stand, what each
//! costs; then what really came off the saw, with its marks, and whether it sprang.

mod record;
mod strips;

use crate::app::App;
use crate::drawings::{StripDrawn, end_of_strips, plan_drawn};
use crate::held::Part;
use crate::parts::{Choice, Frame, NumberField, live, told_figure};
use crate::route::Route;
use crate::screens::figures::{counted, money};
use crate::screens::piece_told;
use crate::screens::pile::missing;
use leptos::prelude::*;
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};
use stillwood_core::neck::{
    CuttingPlan, Stock, Strip, StripCut, StripWorth, cost_per_part, plan_cuts,
};
use stillwood_core::plank::{RingClass, turned_on_edge};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::quantity::{Length, in_mm, mm, show};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{PieceFigure, PieceKind, explain_plan};
use stillwood_core::verdict::Spec;

/// Cuts fall on tenths of a millimetre.
const STEP: f64 = 0.1;

/// Which rings are worth a cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
enum Wanted {
    Any,
    NotFlat,
    Quartered,
}

/// What is typed about the cut.
#[derive(Clone, Copy)]
struct Typed {
    kind: RwSignal<PieceKind>,
    wanted: RwSignal<Wanted>,
    length: RwSignal<String>,
    piece_width: RwSignal<String>,
    thickness: RwSignal<String>,
    planing: RwSignal<String>,
    kerf: RwSignal<String>,
    end_trim: RwSignal<String>,
    edge_trim: RwSignal<String>,
}

impl Typed {
    /// Its fields, to be kept while they are half typed.
    fn parts(self) -> Vec<Part> {
        vec![
            Part::of("kind", self.kind),
            Part::of("wanted", self.wanted),
            Part::text("length", self.length),
            Part::text("width of a piece", self.piece_width),
            Part::text("thickness of a laminate", self.thickness),
            Part::text("planing", self.planing),
            Part::text("kerf", self.kerf),
            Part::text("end trim", self.end_trim),
            Part::text("edge trim", self.edge_trim),
        ]
    }

    /// What a strip takes of the width.
    fn across(self) -> RwSignal<String> {
        match self.kind.get() {
            PieceKind::Laminate => self.thickness,
            _ => self.piece_width,
        }
    }
}

/// The plan, and what it was made of.
#[derive(Debug, Clone, PartialEq)]
struct Planned {
    kind: PieceKind,
    stock: Stock,
    thickness: Option<Length>,
    cut: StripCut,
    plan: CuttingPlan,
}

/// The screen.
pub(crate) fn cut_screen(id: Id) -> AnyView {
    let app = expect_context::<App>();
    let Some((mark, at_hand)) =
        app.book_now(|state| state.piece(id).map(|p| (p.mark.clone(), p.is_at_hand())))
    else {
        return missing("No such wood");
    };
    let body = if at_hand {
        body(app, id)
    } else {
        view! { <p class="note">"It is no longer here to be cut: cut, glued, thrown out or used."</p> }.into_any()
    };
    view! { <Frame title=format!("Cut {mark}") back=Route::Wood(id) class="wide">{body}</Frame> }
        .into_any()
}

/// What the maker's spec says to begin with: a plank is sawn to what the verdict reckons the slab in, a piece
/// that was cut from a plank is ripped.
fn begin(app: App, id: Id) -> Typed {
    let units = app.units.get_untracked();
    let (of_plank, spec) = app.book_now(|state| {
        let piece = state.piece(id);
        let of_plank = piece.is_none_or(|piece| piece.work.kind == PieceKind::Plank);
        let visit = piece.and_then(|piece| state.visit_of(piece));
        (of_plank, visit.map(|visit| visit.opened.spec.clone()))
    });
    let strips_first = spec.as_ref().is_some_and(Spec::rips_strips_first);
    let kind = match of_plank && !strips_first {
        true => PieceKind::Piece,
        false => PieceKind::Laminate,
    };
    let text = |value: Option<f64>, otherwise: f64| {
        RwSignal::new(show::length(value.unwrap_or(otherwise), units))
    };
    let spec = spec.as_ref();
    Typed {
        kind: RwSignal::new(kind),
        wanted: RwSignal::new(Wanted::Any),
        length: text(spec.map(|s| s.part.length_mm), 950.0),
        piece_width: text(spec.map(|s| s.piece_width_mm()), 80.0),
        thickness: text(spec.map(|s| s.across_mm()), 16.0),
        planing: text(spec.map(|s| s.planing_mm), 1.5),
        kerf: text(spec.map(|s| s.kerf_mm), 3.0),
        end_trim: text(spec.filter(|_| of_plank).map(|s| s.end_trim_mm), 0.0),
        edge_trim: text(spec.filter(|_| of_plank).map(|s| s.edge_trim_mm / 2.0), 0.0),
    }
}

fn size(text: RwSignal<String>, units: Units) -> Result<Length, String> {
    let understood = text.with(|text| read::gap(text, units));
    understood
        .map(|understood| mm(understood.value))
        .map_err(|why| why.to_string())
}

/// What is wrong with what is typed, below its field.
fn wrong(app: App, text: RwSignal<String>) -> Signal<String> {
    Signal::derive(move || size(text, app.units.get()).err().unwrap_or_default())
}

fn planned(app: App, id: Id, typed: Typed) -> Result<Planned, String> {
    let units = app.units.get();
    let worth = |wanted: bool| f64::from(u8::from(wanted));
    let (kind, wanted) = (typed.kind.get(), typed.wanted.get());
    let ripped = kind == PieceKind::Laminate;
    let worth = StripWorth {
        quartersawn: 1.0,
        rift: worth(!ripped || wanted != Wanted::Quartered),
        flatsawn: worth(!ripped || wanted == Wanted::Any),
        unknown: 1.0,
    };
    let cut = StripCut {
        length: size(typed.length, units)?,
        thickness: size(typed.across(), units)?,
        planing: size(typed.planing, units)?,
        kerf: size(typed.kerf, units)?,
        end_trim: size(typed.end_trim, units)?,
        edge_trim: size(typed.edge_trim, units)?,
        step: mm(STEP),
    };
    app.state(|state| {
        let piece = state.piece(id).ok_or("It is not in this record.")?;
        let stock = queries::stock_to_cut(state, piece)
            .ok_or("Its length and width have to be known before it is laid out.")?;
        let rings = |offset| Some(queries::rings_in(state, piece, offset)?.angle);
        let plan = plan_cuts(&stock, &cut, &rings, &worth).map_err(|why| why.to_string())?;
        Ok(Planned {
            kind,
            stock,
            cut,
            thickness: queries::size_of(state, piece).thicknesses.least(),
            plan,
        })
    })
}

/// How a strip stands: a laminate turned on edge, a piece as it lies.
fn stands(strip: &Strip, kind: PieceKind) -> Option<RingClass> {
    if kind == PieceKind::Laminate {
        return strip.class;
    }
    RingClass::of(turned_on_edge(&mut TraceOff, strip.ring_angle?).ok()?).ok()
}

fn body(app: App, id: Id) -> AnyView {
    let typed = begin(app, id);
    let plan = Memo::new(move |_| planned(app, id, typed));
    let field = move |name: &'static str, text: RwSignal<String>| {
        view! { <NumberField name=name value=text error=wrong(app, text) /> }
    };
    let ripped = move || typed.kind.get() == PieceKind::Laminate;
    let across = move || {
        if ripped() {
            field("Thickness of a laminate, planed", typed.thickness).into_any()
        } else {
            field("Width of a piece, planed", typed.piece_width).into_any()
        }
    };
    let rings = move || {
        ripped().then(|| {
            view! {
                <Choice
                    name="Rings worth a cut, as the strip stands on edge" value=typed.wanted
                    of=vec![
                        (Wanted::Any, "any"),
                        (Wanted::NotFlat, "quartered and rift"),
                        (Wanted::Quartered, "quartered only"),
                    ]
                />
            }
        })
    };
    view! {
        <div class="two">
            <div>
                <Choice
                    name="Cut to" value=typed.kind
                    of=vec![(PieceKind::Piece, "pieces"), (PieceKind::Laminate, "laminates")]
                />
                <div class="pair">
                    {field("Length, with allowance", typed.length)}
                    {live(across)}
                    {field("Planing off each face", typed.planing)}
                    {field("Kerf", typed.kerf)}
                    {field("Trim off each end", typed.end_trim)}
                    {field("Trim off each edge", typed.edge_trim)}
                </div>
                {live(rings)}
            </div>
            <section aria-label="The plan" id="plan">
                {live(move || plan.with(|plan| drawn(app, id, plan)))}
            </section>
        </div>
        {record::came_off(app, id, typed, plan)}
    }
    .into_any()
}

fn drawn(app: App, id: Id, planned: &Result<Planned, String>) -> AnyView {
    let planned = match planned {
        Ok(planned) => planned,
        Err(why) => return view! { <p class="note doubt">{why.clone()}</p> }.into_any(),
    };
    let rows = planned.plan.rows.iter();
    let strips: Vec<StripDrawn> = rows
        .flat_map(|row| {
            row.strips.iter().map(move |strip| StripDrawn {
                along: (in_mm(row.along.from), in_mm(row.along.to)),
                across: (in_mm(strip.across.from), in_mm(strip.across.to)),
                // A flat piece is no worse for it: it is ripped and turned.
                class: match stands(strip, planned.kind)
                    .filter(|_| planned.kind == PieceKind::Laminate)
                {
                    Some(RingClass::Quartersawn) => "quartered",
                    Some(RingClass::Rift) => "rift",
                    Some(RingClass::Flatsawn) => "flat",
                    None => "part",
                },
            })
        })
        .collect();
    let patches = planned.stock.patches.iter();
    let faults: Vec<(f64, f64)> = patches
        .map(|patch| (in_mm(patch.along.from), in_mm(patch.along.to)))
        .collect();
    let (length, width) = (in_mm(planned.stock.length), in_mm(planned.stock.width));
    let end = planned
        .thickness
        .filter(|_| planned.kind == PieceKind::Laminate)
        .map(|thickness| end_of_strips((width, in_mm(thickness)), &strips));
    let count = planned.plan.strips() as u32;
    let cost = app
        .state(|state| queries::wood_cost(state, id))
        .and_then(|(whole, currency)| {
            let each: Decimal = cost_per_part(whole, count)?;
            let tell = piece_told(app, id, PieceFigure::CostEach(count));
            Some(told_figure(
                "Wood for each".to_owned(),
                money(each, &currency),
                tell,
            ))
        });
    let asked = planned.clone();
    let tell = move || Some(explain_plan(&asked.stock, &asked.cut, &asked.plan));
    let out = told_figure("What comes out".to_owned(), comes_out(planned), tell);
    view! {
        <p class="note" id="comes-out">
            <strong>{out}</strong>
            {cost.map(|cost| view! { " Wood for each: " {cost} })}
        </p>
        {plan_drawn((length, width), &strips, &faults, in_rows(&planned.plan))}
        {end}
    }
    .into_any()
}

fn comes_out(planned: &Planned) -> String {
    let (one, several) = match planned.kind {
        PieceKind::Laminate => ("laminate", "laminates"),
        _ => ("piece", "pieces"),
    };
    let count = planned.plan.strips();
    if count == 0 {
        return format!("No {one} of that size comes out.");
    }
    let strips = || planned.plan.rows.iter().flat_map(|row| &row.strips);
    let of = |class| {
        let alike = |strip: &&Strip| stands(strip, planned.kind) == class;
        strips().filter(alike).count()
    };
    let classes = [
        (Some(RingClass::Quartersawn), "quartersawn"),
        (Some(RingClass::Rift), "rift"),
        (Some(RingClass::Flatsawn), "flatsawn"),
        (None, "rings not known"),
    ];
    let parts: Vec<String> = classes
        .into_iter()
        .map(|(class, name)| (of(class), name))
        .filter(|(count, _)| *count > 0)
        .map(|(count, name)| format!("{count} {name}"))
        .collect();
    format!("{}: {}.", counted(count, one, several), parts.join(", "))
}

fn in_rows(plan: &CuttingPlan) -> String {
    let rows: Vec<String> = plan
        .rows
        .iter()
        .map(|row| row.strips.len().to_string())
        .collect();
    match rows.len() {
        0 => "No cut falls in it.".to_owned(),
        1 => format!("{} side by side.", rows.join("")),
        n => format!("{n} lengths: {} side by side.", rows.join(", ")),
    }
}
