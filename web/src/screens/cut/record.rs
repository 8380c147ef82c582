//! What came off the saw: the marks as they were written, which were kept, which sprang, how far it
//! opened; one entry for the cut, and one for each that is thrown out.

use super::strips::{Fate, mark_faults, marks_off, parent_mark, strips};
use super::{Planned, Typed, size, wrong};
use crate::app::App;
use crate::held::{Begun, Part, Wrong};
use crate::parts::{DateField, NumberField, live};
use crate::record::Deed;
use crate::route::{Route, replace};
use crate::shell::clock;
use leptos::prelude::*;
use std::collections::BTreeMap;
use stillwood_core::neck::{CuttingPlan, StripRow};
use stillwood_core::plank::{Reading, Reason, Seen};
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::quantity::{in_mm, mm, show};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Child, Cut, Discarded, Event, Piece, Tension, WarningSubject, date, laid_out,
};

/// As typed, with the value understood in mm.
fn taken(text: &str, units: Units) -> Option<Reading> {
    let understood = read::gap(text, units).ok()?;
    Some(Reading::understood(text, &understood, Seen::Measured))
}

/// The strips that were cut, in the order of the plan.
fn cut_of(plan: &CuttingPlan, fates: &[Fate]) -> (CuttingPlan, Vec<Fate>) {
    let mut fates = fates.iter().copied();
    let mut cut = CuttingPlan::default();
    let mut theirs = Vec::new();
    for row in &plan.rows {
        let mut strips = Vec::new();
        for strip in &row.strips {
            let fate = fates.next().unwrap_or(Fate::Kept);
            if fate != Fate::NotCut {
                strips.push(*strip);
                theirs.push(fate);
            }
        }
        cut.rows.push(StripRow {
            along: row.along,
            strips,
        });
    }
    (cut, theirs)
}

#[derive(Clone, Copy)]
struct Sprung {
    gap: RwSignal<String>,
    over: RwSignal<String>,
}

/// The limit that the spring is beyond, mm, where it is.
fn beyond(app: App, sprung: Sprung) -> Option<f64> {
    let units = app.units.get();
    let gap = size(sprung.gap, units).ok()?;
    let over = size(sprung.over, units).ok()?;
    let allowed = app.state(|state| queries::spring_allowed(state, over))?;
    (gap.abs() > allowed).then(|| in_mm(allowed))
}

/// What is typed but not to be read; an empty field is nothing wrong.
fn wrong_if_typed(app: App, text: RwSignal<String>) -> Signal<String> {
    let wrong = wrong(app, text);
    Signal::derive(move || {
        if text.with(|text| text.trim().is_empty()) {
            String::new()
        } else {
            wrong.get()
        }
    })
}

/// What is typed and chosen off the saw.
#[derive(Clone, Copy)]
pub(super) struct Off {
    pub(super) fates: RwSignal<Vec<Fate>>,
    /// Marks that the maker gave in place of those proposed, by the strips of the plan.
    pub(super) given: RwSignal<BTreeMap<usize, String>>,
    sprung: Sprung,
    day: RwSignal<String>,
}

impl Off {
    fn parts(self) -> [Part; 5] {
        [
            Part::of("came of them", self.fates),
            Part::of("marks", self.given),
            Part::text(SPRANG, self.sprung.gap),
            Part::text(OVER, self.sprung.over),
            Part::text(DAY, self.day),
        ]
    }
}

const SPRANG: &str = "It sprang by";
const OVER: &str = "Over a length of";
const DAY: &str = "Day of the cut";

/// The part of the screen.
pub(super) fn came_off(
    app: App,
    id: Id,
    typed: Typed,
    plan: Memo<Result<Planned, String>>,
) -> AnyView {
    let count = Memo::new(move |_| {
        plan.with(|plan| plan.as_ref().map_or(0, |planned| planned.plan.strips()))
    });
    let off = Off {
        fates: RwSignal::new(vec![Fate::Kept; count.get_untracked()]),
        given: RwSignal::new(BTreeMap::new()),
        sprung: Sprung {
            gap: RwSignal::new(String::new()),
            over: RwSignal::new(typed.length.get_untracked()),
        },
        day: RwSignal::new(clock::now().day),
    };
    let mut parts = typed.parts();
    parts.extend(off.parts());
    let words = format!("{}: cut", parent_mark(app, id));
    let begun = Begun::open(app, format!("{id}/cut"), words, parts);
    // Another plan has other strips.
    Effect::new(move |_| {
        let count = count.get();
        if off.fates.with_untracked(Vec::len) != count {
            off.fates.set(vec![Fate::Kept; count]);
            off.given.set(BTreeMap::new());
        }
    });
    let kept = move || {
        off.fates
            .with(|all| all.iter().any(|fate| *fate != Fate::NotCut))
    };
    let save = move |_| {
        let recorded = untrack(|| cut_recorded(app, id, typed, plan, off, begun));
        match recorded {
            Ok(Some((deeds, said))) => record(begun, id, deeds, said),
            // Something is asked about.
            Ok(None) => {}
            Err(wrong) => begun.say(wrong),
        }
    };
    view! {
        <h2>"Off the saw"</h2>
        {begun.note()}
        <p class="small">
            "Write each mark on the wood before the cut, on both halves; type it here where you wrote another. Of a strip that is turned on edge the plank's \
             marked face is the marked edge; its marked face is the one away from the plank's marked edge. Touch a \
             word to change it."
        </p>
        <ul class="plain" id="off-the-saw">{strips(app, id, plan, off)}</ul>
        <div class="pair">
            <NumberField
                name=SPRANG value=off.sprung.gap hint="plus where it opens; empty where it did not"
                error=wrong_if_typed(app, off.sprung.gap) form=begun
            />
            <NumberField
                name=OVER value=off.sprung.over error=wrong_if_typed(app, off.sprung.over) form=begun
            />
        </div>
        {advice(app, off)}
        <DateField name=DAY value=off.day form=begun />
        <p class="error-line" role="alert" id="cut-fault">{live(move || begun.line())}</p>
        <button
            class="primary wide-button" id="save-cut" on:click=save
            disabled=move || !kept() || begun.busy()
        >
            "Record the cut"
        </button>
        <p class="small">"A blade does not know you: guards and push sticks, and look for metal first."</p>
    }
    .into_any()
}

/// What to do where it sprang too far.
fn advice(app: App, off: Off) -> AnyView {
    let advice = move || {
        let limit = beyond(app, off.sprung)?;
        let limit = show::length(limit, app.units.get());
        let all = move |_| {
            off.fates
                .update(|all| all.iter_mut().for_each(|f| *f = Fate::Sprang));
        };
        Some(view! {
            <div class="note bad" id="sprang">
                <p>
                    {format!(
                        "That is beyond your limit of {limit} over this length: wood with that stress goes on moving. \
                         Throw out what sprang.",
                    )}
                </p>
                <button type="button" class="leave" id="all-sprang" on:click=all>
                    "All of it sprang"
                </button>
            </div>
        })
    };
    live(advice).into_any()
}

/// The entries of the cut and what is said of it, or what is wrong; none while something is asked.
fn cut_recorded(
    app: App,
    id: Id,
    typed: Typed,
    plan: Memo<Result<Planned, String>>,
    off: Off,
    begun: Begun,
) -> Result<Option<(Vec<Deed>, String)>, Wrong> {
    let planned = plan.get().map_err(|why| Wrong::from(why.as_str()))?;
    let units = app.units.get();
    let day = off.day.get();
    let on = date(&day).ok_or_else(|| Wrong::at(DAY, "Which day was it?"))?;
    let really = begun.really(DAY);
    let (cut, fates) = off.fates.with(|fates| cut_of(&planned.plan, fates));
    let marks = marks_off(app, id, planned.kind, off);
    if let Some(why) = mark_faults(app, &marks).into_values().next() {
        return Err(Wrong::from(why.as_str()));
    }
    let mut named = Vec::new();
    for (_, mark) in marks {
        let child = app.new_id().ok_or("This device gives no new names.")?;
        named.push((child, mark.trim().to_owned()));
    }
    let children: Vec<Child> = laid_out(&cut, planned.kind, &named);
    let warnings = app.book_now(|state| {
        let piece: Option<&Piece> = state.piece(id);
        piece.map(|piece| queries::warnings_of_cut(state, piece, &children).len())
    });
    if warnings != Some(0) {
        return Err("The places of the pieces can't be right: look at the sizes again.".into());
    }
    let thrown: Vec<Deed> = children
        .iter()
        .zip(&fates)
        .filter(|(_, fate)| **fate == Fate::Sprang)
        .map(|(child, _)| {
            let gone = Discarded {
                reasons: vec![Reason::Sprang],
            };
            Deed::new(child.id, Event::Discarded(gone))
                .on(day.clone())
                .really(really)
        })
        .collect();
    let said = format!(
        "{} cut: {} kept.",
        parent_mark(app, id),
        fates.len() - thrown.len()
    );
    let cut = Cut {
        children,
        kerf: taken(&typed.kerf.get(), units).filter(|kerf| mm(kerf.value) > mm(0.0)),
        tension: tension(off.sprung, units, begun.really(SPRANG))?,
    };
    let cut = Event::Cut(std::sync::Arc::new(cut));
    let label = |of: WarningSubject| match of {
        WarningSubject::Gap => SPRANG,
        _ => DAY,
    };
    if !begun.sure_of(id, &cut, on, label) {
        return Ok(None);
    }
    let mut deeds = vec![Deed::new(id, cut).on(day).really(really)];
    deeds.extend(thrown);
    Ok(Some((deeds, said)))
}

/// How far it sprang, where that was typed.
fn tension(sprung: Sprung, units: Units, confirmed: bool) -> Result<Option<Tension>, Wrong> {
    let unread = |label: &'static str| Wrong::unread(label, "it is not understood.");
    let (gap, over) = (sprung.gap.get(), sprung.over.get());
    if gap.trim().is_empty() {
        return Ok(None);
    }
    let gap = taken(&gap, units).ok_or_else(|| unread(SPRANG))?;
    let gap = Reading { confirmed, ..gap };
    let over = match over.trim().is_empty() {
        true => None,
        false => Some(taken(&over, units).ok_or_else(|| unread(OVER))?),
    };
    Ok(Some(Tension { gap, over }))
}

fn record(begun: Begun, id: Id, deeds: Vec<Deed>, text: String) {
    begun.record_and_say(deeds, text, move || replace(Route::Wood(id)));
}
