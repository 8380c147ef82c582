//! A spec: sizes, counts, and the maker's own targets and limits. All of it may be changed.

use crate::app::App;
use crate::parts::{Choice, Frame, NumberField, TextField, Tick};
use crate::record::Deed;
use crate::route::{Route, go};
use crate::screens::pile::missing;
use leptos::prelude::*;
use stillwood_core::notebook::Happening;
use stillwood_core::plank::DefectKind;
use stillwood_core::quantity::show;
use stillwood_core::verdict::{Criterion, Form, Laid, Order, Quality, Spec};
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

/// A number typed with comma or point.
fn typed(text: RwSignal<String>) -> Option<f64> {
    let value: f64 = text.get().trim().replace(',', ".").parse().ok()?;
    value.is_finite().then_some(value)
}

fn number(value: f64) -> RwSignal<String> {
    RwSignal::new(show::number(value, 3).replace('−', "-"))
}

fn wrong(text: RwSignal<String>) -> Signal<String> {
    Signal::derive(move || {
        if typed(text).is_none() {
            "Not a number.".into()
        } else {
            String::new()
        }
    })
}

/// One criterion while it is changed: its numbers as text, slopes as the run of 1 in n.
#[derive(Clone, Copy)]
struct Edited {
    quality: Quality,
    on: RwSignal<bool>,
    shape: Shape,
    numbers: [RwSignal<String>; 4],
}

#[derive(Clone, Copy, PartialEq)]
enum Shape {
    AtMost,
    AtLeast,
    Within,
}

impl Edited {
    fn new(quality: Quality, form: Form, on: bool) -> Self {
        let shown = |value: f64| match quality {
            Quality::GrainSlope if value > 0.0 => number(1.0 / value),
            _ => number(value),
        };
        let (shape, values) = match form {
            Form::AtMost { target, limit } => (Shape::AtMost, [target, limit, 0.0, 0.0]),
            Form::AtLeast { target, limit } => (Shape::AtLeast, [target, limit, 0.0, 0.0]),
            Form::Within {
                low_limit,
                low_target,
                high_target,
                high_limit,
            } => (
                Shape::Within,
                [low_limit, low_target, high_target, high_limit],
            ),
        };
        Self {
            quality,
            on: RwSignal::new(on),
            shape,
            numbers: values.map(shown),
        }
    }

    fn form(self) -> Option<Form> {
        let value = |at: usize| {
            let value = typed(self.numbers[at])?;
            match self.quality {
                Quality::GrainSlope if value > 0.0 => Some(1.0 / value),
                _ => Some(value),
            }
        };
        let form = match self.shape {
            Shape::AtMost => Form::AtMost {
                target: value(0)?,
                limit: value(1)?,
            },
            Shape::AtLeast => Form::AtLeast {
                target: value(0)?,
                limit: value(1)?,
            },
            Shape::Within => Form::Within {
                low_limit: value(0)?,
                low_target: value(1)?,
                high_target: value(2)?,
                high_limit: value(3)?,
            },
        };
        form.is_sound().then_some(form)
    }
}

/// A form to start from for a quality that the spec does not have.
fn start_form(spec: &Spec, quality: Quality) -> Form {
    let supplied = Spec::supplied();
    let known = supplied.iter().find_map(|spec| spec.criterion(quality));
    spec.criterion(quality).or(known).map_or(
        Form::AtLeast {
            target: 60.0,
            limit: 45.0,
        },
        |criterion| criterion.form,
    )
}

fn unit(quality: Quality) -> &'static str {
    match quality {
        Quality::Straightness | Quality::Crook => "mm",
        Quality::Density => "kg/m³",
        Quality::GrainSlope => "as n of 1 in n",
        Quality::RingAngle => "degrees",
        Quality::Moisture => "%",
        Quality::Size => "parts",
    }
}

/// The form.
#[component]
pub(crate) fn SpecForm(
    /// The visit.
    id: Uuid,
) -> impl IntoView {
    let app = expect_context::<App>();
    let Some((entry, visit, on)) = app.book_now(|book| {
        book.visit(id).map(|v| {
            (
                v.recorded.entry,
                v.opened.clone(),
                v.recorded.on.to_string(),
            )
        })
    }) else {
        return missing("No such visit");
    };
    let spec = visit.spec.clone();
    let name = RwSignal::new(spec.name.clone());
    let length = number(spec.part.length_mm);
    let width = number(spec.part.width_mm);
    let thickness = number(spec.part.thickness_mm);
    let laid = RwSignal::new(spec.laid);
    let order = RwSignal::new(spec.order);
    let per_blank = number(f64::from(spec.parts_per_blank));
    let wanted = number(f64::from(spec.blanks_wanted));
    let kerf = number(spec.kerf_mm);
    let planing = number(spec.planing_mm);
    let end_trim = number(spec.end_trim_mm);
    let edge_trim = number(spec.edge_trim_mm);
    let come_through = number(spec.expected_yield * 100.0);
    let criteria = Quality::ALL
        .iter()
        .map(|quality| {
            let on = spec.criterion(*quality).is_some();
            Edited::new(*quality, start_form(&spec, *quality), on)
        })
        .collect::<Vec<_>>();
    let criteria = StoredValue::new(criteria);
    let fatal = RwSignal::new(spec.fatal.clone());
    let trouble = RwSignal::new(String::new());
    let changed = move || {
        let whole = |text| {
            typed(text)
                .filter(|v| *v >= 0.0 && *v < 1e6)
                .map(|v| v.round() as u32)
        };
        let size = |text| typed(text).filter(|v| *v > 0.0);
        let least = |text| typed(text).filter(|v| *v >= 0.0);
        let mut next = spec.clone();
        next.name = name.get();
        next.part.length_mm = size(length)?;
        next.part.width_mm = size(width)?;
        next.part.thickness_mm = size(thickness)?;
        next.laid = laid.get();
        next.order = order.get();
        next.parts_per_blank = whole(per_blank).filter(|n| *n > 0)?;
        next.blanks_wanted = whole(wanted)?;
        next.kerf_mm = least(kerf)?;
        next.planing_mm = least(planing)?;
        next.end_trim_mm = least(end_trim)?;
        next.edge_trim_mm = least(edge_trim)?;
        next.expected_yield = typed(come_through).filter(|v| *v > 0.0 && *v <= 100.0)? / 100.0;
        next.criteria = Vec::new();
        for edited in criteria.get_value() {
            if edited.on.get() {
                let form = edited.form()?;
                next.criteria.push(Criterion {
                    quality: edited.quality,
                    form,
                });
            }
        }
        next.fatal = fatal.get();
        Some(next)
    };
    let visit = StoredValue::new(visit);
    let save = move |_| {
        let Some(spec) = untrack(&changed) else {
            trouble.set(
                "Something is not a number, or a limit is on the wrong side of its target.".into(),
            );
            return;
        };
        let mut opened = visit.get_value();
        opened.spec = spec;
        let deed = Deed::instead_of(id, Happening::VisitOpened(Box::new(opened)), vec![entry])
            .on(on.clone());
        spawn_local(async move {
            if app.write(vec![deed], None).await.is_empty() {
                return;
            }
            go(Route::Visit(id));
        });
    };
    let fault = move |kind: &DefectKind| {
        let kind = *kind;
        let toggle = move |_| {
            fatal.update(|fatal| match fatal.iter().position(|one| *one == kind) {
                Some(at) => {
                    fatal.remove(at);
                }
                None => fatal.push(kind),
            });
        };
        view! {
            <button
                type="button" class="chip" title=kind.definition()
                aria-pressed=move || fatal.with(|f| f.contains(&kind)).to_string() on:click=toggle
            >
                {kind.name()}
            </button>
        }
    };
    view! {
        <Frame title="Sizes and limits" back=Route::Visit(id) class="with-decide">
            <p class="small">
                "All of it is yours to change. The limits supplied are common practice, no source."
            </p>
            <TextField name="Name" value=name />
            <h2>"The part that is wanted"</h2>
            <div class="pair">
                <NumberField name="Length, mm" value=length error=wrong(length) />
                <NumberField name="Width, mm" value=width error=wrong(width) />
                <NumberField name="Thickness, mm" value=thickness error=wrong(thickness) />
                <NumberField name="Parts in a blank" value=per_blank error=wrong(per_blank) />
            </div>
            <Choice
                name="It lies in the plank" value=laid
                of=vec![(Laid::Flat, "flat"), (Laid::OnEdge, "ripped and turned on edge")]
            />
            <div class="pair">
                <NumberField name="Blanks wanted" value=wanted error=wrong(wanted) />
                <NumberField name="Come through, %" value=come_through error=wrong(come_through) />
                <NumberField name="Saw cut, mm" value=kerf error=wrong(kerf) />
                <NumberField name="Planed off a face, mm" value=planing error=wrong(planing) />
                <NumberField name="Cut off an end, mm" value=end_trim error=wrong(end_trim) />
                <NumberField name="Lost at the edges, mm" value=edge_trim error=wrong(edge_trim) />
            </div>
            <h2>"Criteria"</h2>
            {criteria.get_value().into_iter().map(|edited| view! { <CriterionFields edited=edited /> }).collect_view()}
            <h2>"Faults that refuse a plank"</h2>
            <div class="chips">{DefectKind::ALL.iter().map(fault).collect_view()}</div>
            <h2>"Order of the planks that pass"</h2>
            <Choice
                name="Order" value=order
                of=vec![(Order::Score, "by score"), (Order::CostPerPart, "by cost of an expected part")]
            />
            {move || {
                let why = trouble.get();
                (!why.is_empty()).then(|| view! { <p class="note bad" role="alert">{why}</p> })
            }}
            <div class="decide">
                <div class="row">
                    <button class="primary" id="save-spec" on:click=save>"Save"</button>
                </div>
            </div>
        </Frame>
    }
    .into_any()
}

#[component]
fn CriterionFields(edited: Edited) -> impl IntoView {
    let names: &[&'static str] = match edited.shape {
        Shape::AtMost => &["good to", "refused above"],
        Shape::AtLeast => &["good from", "refused below"],
        Shape::Within => &["refused below", "good from", "good to", "refused above"],
    };
    let names: &[&'static str] = match edited.quality {
        Quality::GrainSlope => &["good from 1 in", "refused below 1 in"],
        _ => names,
    };
    let fields = names
        .iter()
        .zip(edited.numbers)
        .map(|(name, text)| {
            let id = format!("{:?}-{name}", edited.quality).replace(' ', "-");
            view! {
                <div class="field">
                    <label for=id.clone()><span class="name">{*name}</span></label>
                    <input
                        id=id type="text" inputmode="decimal" autocomplete="off"
                        aria-invalid=move || typed(text).is_none().to_string()
                        prop:value=move || text.get()
                        on:input=move |event| text.set(event_target_value(&event))
                    />
                </div>
            }
        })
        .collect_view();
    let unsound = move || {
        (edited.on.get() && edited.form().is_none())
            .then(|| view! { <p class="note bad">"A number is missing, or a limit is on the wrong side of its target."</p> })
    };
    view! {
        <fieldset class="card">
            <legend class="visually-hidden">{edited.quality.name()}</legend>
            <Tick name=edited.quality.name() value=edited.on />
            <small>" "{unit(edited.quality)}</small>
            <div class="pair" hidden=move || !edited.on.get()>{fields}</div>
            {unsound}
        </fieldset>
    }
}
