//! A spec: sizes, counts, and the maker's own targets and limits. All of it may be changed.

use crate::app::App;
use crate::held::{Begun, Part, Wrong};
use crate::parts::{Choice, CollectAny, Frame, NumberField, TextField, Tick, live};
use crate::record::Deed;
use crate::route::{Route, go};
use crate::screens::pile::missing;
use leptos::prelude::*;
use stillwood_core::plank::DefectKind;
use stillwood_core::quantity::show;
use stillwood_core::record::Event;
use stillwood_core::record::Id;
use stillwood_core::verdict::{Criterion, FirstCut, Form, Order, Orientation, Requirement, Spec};

/// A number typed with comma or point.
fn typed(text: RwSignal<String>) -> Option<f64> {
    let value: f64 = text.get().trim().replace(',', ".").parse().ok()?;
    value.is_finite().then_some(value)
}

fn number(value: f64) -> RwSignal<String> {
    RwSignal::new(show::number(value, 3).replace('−', "-"))
}

/// What a number may be.
#[derive(Clone, Copy, PartialEq)]
enum May {
    /// More than nothing.
    Size,
    /// Nothing, or more.
    Loss,
    /// Something in a hundred.
    Share,
    /// How many: one, or more.
    Several,
    /// How many: none, or more.
    Any,
}

/// A number of the spec while it is typed.
#[derive(Clone, Copy)]
struct Number {
    label: &'static str,
    text: RwSignal<String>,
    may: May,
}

impl Number {
    fn new(label: &'static str, value: f64, may: May) -> Self {
        let text = number(value);
        Self { label, text, may }
    }

    /// The number, or what is wrong with it.
    fn read(self) -> Result<f64, &'static str> {
        let value = typed(self.text).ok_or("Not a number.")?;
        match self.may {
            May::Size if value <= 0.0 => Err("It has to be more than 0."),
            May::Loss | May::Any if value < 0.0 => Err("It can't be less than 0."),
            May::Share if value <= 0.0 || value > 100.0 => Err("More than 0, and 100 at most."),
            May::Several if value < 0.5 => Err("One at least."),
            May::Several | May::Any if value >= 1e6 => Err("That is too many."),
            _ => Ok(value),
        }
    }

    fn count(self) -> Result<u32, &'static str> {
        Ok(self.read()?.round() as u32)
    }

    fn field(self, form: Begun) -> AnyView {
        let error = Signal::derive(move || self.read().err().unwrap_or_default().to_owned());
        view! { <NumberField name=self.label value=self.text error=error form=form /> }.into_any()
    }
}

/// One criterion while it is changed: its numbers as text, slopes as the run of 1 in n.
#[derive(Clone, Copy)]
struct Edited {
    criterion: Criterion,
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
    fn new(criterion: Criterion, form: Form, on: bool) -> Self {
        let shown = |value: f64| match criterion {
            Criterion::GrainSlope if value > 0.0 => number(1.0 / value),
            _ => number(value),
        };
        let (shape, values) = Self::values(form);
        Self {
            criterion,
            on: RwSignal::new(on),
            shape,
            numbers: values.map(shown),
        }
    }

    fn values(form: Form) -> (Shape, [f64; 4]) {
        match form {
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
        }
    }

    /// The part needs another thickness of slab: limits that followed from the one before follow.
    fn follow_slab(self, before: f64, now: f64) {
        let Some(form) = untrack(|| self.form()) else {
            return;
        };
        let next = form.following_slab(before, now);
        if next != form {
            for (text, value) in self.numbers.iter().zip(Self::values(next).1) {
                text.set(show::number(value, 3).replace('−', "-"));
            }
        }
    }

    /// What is kept of it while it is half typed.
    fn parts(&self) -> Vec<Part> {
        let name = self.criterion.name();
        let mut parts = vec![Part::of(name, self.on)];
        let numbers = (0..).zip(self.numbers);
        parts.extend(numbers.map(|(n, text): (u8, _)| Part::text(format!("{name} {n}"), text)));
        parts
    }

    fn wrong(self) -> Wrong {
        let why = "a number is missing, or a limit is on the wrong side of its target.";
        Wrong::unread(self.criterion.name(), why)
    }

    fn form(self) -> Option<Form> {
        let value = |at: usize| {
            let value = typed(self.numbers[at])?;
            match self.criterion {
                Criterion::GrainSlope if value > 0.0 => Some(1.0 / value),
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
fn start_form(spec: &Spec, criterion: Criterion) -> Form {
    let supplied = Spec::supplied();
    let known = supplied.iter().find_map(|spec| spec.requirement(criterion));
    spec.requirement(criterion).or(known).map_or(
        Form::AtLeast {
            target: 60.0,
            limit: 45.0,
        },
        |requirement| requirement.form,
    )
}

fn unit(criterion: Criterion) -> &'static str {
    match criterion {
        Criterion::Straightness | Criterion::Crook => "mm",
        Criterion::Density => "kg/m³",
        Criterion::GrainSlope => "as n of 1 in n",
        Criterion::RingAngle => "degrees",
        Criterion::Moisture => "%",
        Criterion::Size => "parts",
    }
}

/// The form.
#[component]
pub(crate) fn SpecForm(
    /// The visit.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    let Some((entry, visit, on)) = app.book_now(|state| {
        state.visit(id).map(|v| {
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
    let (wide, thick) = (spec.part.width_mm, spec.part.thickness_mm);
    let length = Number::new("Length, mm", spec.part.length_mm, May::Size);
    let width = Number::new("Width, mm", wide, May::Size);
    let thickness = Number::new("Thickness, mm", thick, May::Size);
    let laid = RwSignal::new(spec.orientation);
    let piece_first = RwSignal::new(spec.first_cut != FirstCut::Part);
    let piece_width = Number::new(
        "Width of a piece, planed, mm",
        spec.piece_width_mm(),
        May::Size,
    );
    let order = RwSignal::new(spec.order);
    let (per_blank, wanted) = (
        f64::from(spec.parts_per_blank),
        f64::from(spec.blanks_wanted),
    );
    let per_blank = Number::new("Parts in a blank", per_blank, May::Several);
    let wanted = Number::new("Blanks wanted", wanted, May::Any);
    let come_through = Number::new("Come through, %", spec.expected_yield * 100.0, May::Share);
    let kerf = Number::new("Saw cut, mm", spec.kerf_mm, May::Loss);
    let planing = Number::new("Planed off a face, mm", spec.planing_mm, May::Loss);
    let end_trim = Number::new("Cut off an end, mm", spec.end_trim_mm, May::Loss);
    let edge_trim = Number::new("Lost at the edges, mm", spec.edge_trim_mm, May::Loss);
    let part = [length, width, thickness, per_blank];
    let work = [wanted, come_through, kerf, planing, end_trim, edge_trim];
    let criteria = Criterion::ALL
        .iter()
        .map(|criterion| {
            let on = spec.requirement(*criterion).is_some();
            Edited::new(*criterion, start_form(&spec, *criterion), on)
        })
        .collect::<Vec<_>>();
    let criteria = StoredValue::new(criteria);
    let needed = move || {
        typed(match laid.get() {
            Orientation::Flat => thickness.text,
            Orientation::OnEdge => width.text,
        })
    };
    Effect::new(move |before: Option<Option<f64>>| {
        let (before, now) = (before.flatten(), needed());
        if let (Some(before), Some(now)) = (before, now) {
            for edited in criteria.get_value() {
                if edited.criterion == Criterion::Straightness {
                    edited.follow_slab(before, now);
                }
            }
        }
        now.or(before)
    });
    let fatal = RwSignal::new(spec.fatal.clone());
    let begun = {
        let numbers = part.iter().chain(&work);
        let numbers = numbers.map(|number| Part::text(number.label, number.text));
        let mut parts: Vec<Part> = numbers.collect();
        parts.push(Part::text("Name", name));
        parts.push(Part::of("laid", laid));
        parts.push(Part::of("a piece first", piece_first));
        parts.push(Part::text(piece_width.label, piece_width.text));
        parts.push(Part::of("order", order));
        parts.push(Part::of("fatal", fatal));
        criteria.with_value(|all| parts.extend(all.iter().flat_map(Edited::parts)));
        let words = format!("sizes and limits of {}", spec.name);
        Begun::open(app, format!("spec/{id}"), words, parts)
    };
    let changed = move || {
        for number in part.iter().chain(&work) {
            if let Err(why) = number.read() {
                return Err(Wrong::unread(number.label, why));
            }
        }
        let mut next = spec.clone();
        next.name = name.get();
        next.part.length_mm = length.read()?;
        next.part.width_mm = width.read()?;
        next.part.thickness_mm = thickness.read()?;
        next.orientation = laid.get();
        next.first_cut = match piece_first.get() {
            true => FirstCut::Piece {
                width_mm: piece_width
                    .read()
                    .map_err(|why| Wrong::unread(piece_width.label, why))?,
            },
            false => FirstCut::Part,
        };
        next.order = order.get();
        next.parts_per_blank = per_blank.count()?;
        next.blanks_wanted = wanted.count()?;
        next.kerf_mm = kerf.read()?;
        next.planing_mm = planing.read()?;
        next.end_trim_mm = end_trim.read()?;
        next.edge_trim_mm = edge_trim.read()?;
        next.expected_yield = come_through.read()? / 100.0;
        next.criteria = Vec::new();
        for edited in criteria.get_value() {
            if edited.on.get() {
                let form = edited.form().ok_or_else(|| edited.wrong())?;
                next.criteria.push(Requirement {
                    criterion: edited.criterion,
                    form,
                });
            }
        }
        next.fatal = fatal.get();
        Ok::<Spec, Wrong>(next)
    };
    let visit = StoredValue::new(visit);
    let save = move |_| {
        let spec = match untrack(&changed) {
            Ok(spec) => spec,
            Err(wrong) => return begun.say(wrong),
        };
        let mut opened = visit.get_value();
        opened.spec = spec;
        let deed =
            Deed::instead_of(id, Event::VisitOpened(Box::new(opened)), vec![entry]).on(on.clone());
        begun.record(vec![deed], move |_| go(Route::Visit(id)));
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
            {begun.note()}
            <TextField name="Name" value=name />
            <h2>"The part that is wanted"</h2>
            <div class="pair">{part.map(|number| number.field(begun)).collect_any()}</div>
            <Choice
                name="It lies in the plank" value=laid
                of=vec![(Orientation::Flat, "flat"), (Orientation::OnEdge, "ripped and turned on edge")]
            />
            <Choice
                name="Sawn and flattened first" value=piece_first
                of=vec![(false, "each part by itself"), (true, "a piece, ripped into parts later")]
            />
            <div hidden=move || !piece_first.get()>{piece_width.field(begun)}</div>
            <div class="pair">{work.map(|number| number.field(begun)).collect_any()}</div>
            <h2>"Criteria"</h2>
            {criteria.get_value().into_iter().map(|edited| view! { <CriterionFields edited=edited /> }).collect_any()}
            <h2>"Faults that refuse a plank"</h2>
            <div class="chips">{DefectKind::ALL.iter().map(fault).collect_any()}</div>
            <h2>"Order of the planks that pass"</h2>
            <Choice
                name="Order" value=order
                of=vec![(Order::Score, "by score"), (Order::CostPerPart, "by cost of an expected part")]
            />
            {live(move || {
                let why = begun.line();
                (!why.is_empty()).then(|| view! { <p class="note bad" role="alert">{why}</p> })
            })}
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
    let names: &[&'static str] = match edited.criterion {
        Criterion::GrainSlope => &["good from 1 in", "refused below 1 in"],
        _ => names,
    };
    let fields = names
        .iter()
        .zip(edited.numbers)
        .map(|(name, text)| {
            let id = format!("{:?}-{name}", edited.criterion).replace(' ', "-");
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
        .collect_any();
    let unsound = move || {
        (edited.on.get() && edited.form().is_none())
            .then(|| view! { <p class="note bad">"A number is missing, or a limit is on the wrong side of its target."</p> })
    };
    view! {
        <fieldset class="card">
            <legend class="visually-hidden">{edited.criterion.name()}</legend>
            <Tick name=edited.criterion.name() value=edited.on />
            <small>" "{unit(edited.criterion)}</small>
            <div class="pair" hidden=move || !edited.on.get()>{fields}</div>
            {live(unsound)}
        </fieldset>
    }
}
