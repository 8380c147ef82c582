//! A plank being measured: what is half typed, how it is weighed, and which field is typed in.

use crate::model::Model;
use std::collections::BTreeMap;
use stillwood_core::order;
use stillwood_core::plank::{
    DefectFound, Field, Reading, Readings, Seen, Understood, retyped, understand,
};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Draft, DraftDefect, DraftValue, Id, Piece, SpeciesNamed, queries};
use stillwood_core::trade::{TalliedLine, TallyLine, Terms, tally};
use stillwood_core::verdict::{Sheet, Spec, sheet};

/// How a plank is weighed: which fields are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Weighs {
    /// The whole plank on the scale.
    #[default]
    Whole,
    /// One end at a time.
    Ends,
    /// No scale: balanced on a bar.
    Balance,
}

impl Weighs {
    /// All of them.
    pub const ALL: [Weighs; 3] = [Weighs::Whole, Weighs::Ends, Weighs::Balance];

    /// The fields that this way needs.
    pub fn fields(self) -> &'static [Field] {
        match self {
            Weighs::Whole => &[Field::WeightWhole],
            Weighs::Ends => &[
                Field::WeightFirst,
                Field::WeightSecond,
                Field::WeightOverhang,
            ],
            Weighs::Balance => &[Field::BalanceMass, Field::BalanceArm],
        }
    }

    /// The way that a draft's fields tell of.
    pub fn of(draft: &Draft) -> Option<Weighs> {
        let told = |way: &Weighs| {
            way.fields()
                .iter()
                .any(|field| draft.value(*field).is_some())
        };
        Weighs::ALL.into_iter().find(told)
    }
}

/// A plank being measured.
#[derive(Debug, Clone)]
pub struct Entering {
    /// The plank.
    pub piece: Id,
    /// What is typed.
    pub draft: Draft,
    /// Its visit.
    pub visit: Id,
    /// What it is wanted for.
    pub spec: Spec,
    /// The wood of its pile.
    pub species: SpeciesNamed,
    /// Entries that hold its earlier measurements; they are replaced when it is decided on again.
    pub earlier: Vec<Id>,
    /// It has its mark in the record.
    pub marked: bool,
    /// The field that is typed in.
    pub active: Option<Field>,
    /// How it is weighed.
    pub weighs: Weighs,
    /// The readings of the plank before, one press away.
    pub last: Readings,
    /// What was typed for another way of weighing, to come back with it.
    aside: BTreeMap<Field, DraftValue>,
    /// The fields beside those that are always shown stand open.
    pub more: bool,
    /// It is being rejected: these reasons are chosen.
    pub rejecting: Option<Vec<stillwood_core::plank::Reason>>,
    /// What stands open was asked about: the next press buys it.
    pub asked: bool,
    /// It is being written down: a second press finds nothing to do.
    pub busy: bool,
}

impl Entering {
    /// A plank that is begun, half typed or in the record; `None` where it is none of them.
    pub fn open(model: &Model, piece: Id) -> Option<Entering> {
        let draft = draft_of(model, piece)?;
        let state = model.state();
        let pile = state.pile(draft.pile)?;
        let visit = state.visit(pile.opened.visit)?;
        let known = state.piece(piece);
        let mut earlier: Vec<Id> = Vec::new();
        if let Some(known) = known {
            earlier.extend(known.readings.values().map(|held| held.entry));
            earlier.extend(known.defects.iter().map(|(entry, _)| *entry));
            order::sort(&mut earlier);
            earlier.dedup();
        }
        let decided = known.is_some_and(|piece| piece.decision().is_some());
        let mut entering = Entering {
            piece,
            visit: visit.id,
            spec: visit.opened.spec.clone(),
            species: pile.opened.species.clone(),
            marked: known.is_some_and(|piece| !piece.withdrawn),
            earlier,
            active: None,
            weighs: Weighs::of(&draft).unwrap_or_default(),
            last: plank_before(model, draft.pile, piece),
            aside: BTreeMap::new(),
            more: false,
            rejecting: None,
            asked: false,
            busy: false,
            draft,
        };
        if !decided {
            entering.active = entering.first_empty();
        }
        Some(entering)
    }

    /// What stands in a field.
    pub fn value(&self, field: Field) -> DraftValue {
        self.draft.value(field).cloned().unwrap_or_default()
    }

    /// Puts a text into a field, as measured.
    pub fn put(&mut self, field: Field, text: String) {
        let value = DraftValue {
            text,
            ..DraftValue::default()
        };
        self.draft.put(field, value);
    }

    /// Weighs another way: what was typed for this one is put aside, so that no hidden weight counts, and the
    /// keys type into what is shown.
    pub fn weigh(&mut self, way: Weighs) {
        if self.weighs == way {
            return;
        }
        for field in self.weighs.fields() {
            let value = self.value(*field);
            self.draft.put(*field, DraftValue::default());
            self.aside.insert(*field, value);
        }
        let was_active = self
            .active
            .is_some_and(|field| self.weighs.fields().contains(&field));
        self.weighs = way;
        for field in way.fields() {
            if let Some(kept) = self.aside.remove(field) {
                self.draft.put(*field, kept);
            }
        }
        if was_active {
            self.active = way.fields().first().copied();
        }
    }

    /// The fields in the order of the tape.
    pub fn order(&self) -> Vec<Field> {
        let mut fields = vec![
            Field::Length,
            Field::WidthNear,
            Field::WidthMiddle,
            Field::WidthFar,
            Field::ThicknessNear,
        ];
        let weights = self.weighs.fields().iter();
        fields.extend(weights.filter(|field| **field != Field::WeightOverhang));
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

    fn first_empty(&self) -> Option<Field> {
        let empty = |field: &Field| self.value(*field).text.is_empty();
        self.order().into_iter().find(empty)
    }

    /// Moves to the next field in the order of the tape that is still empty; at the end none is typed in.
    pub fn step_on(&mut self) {
        let fields = self.order();
        let now = fields.iter().position(|field| Some(*field) == self.active);
        let after = now.map_or(0, |at| at + 1);
        let empty = |field: &Field| self.value(*field).text.is_empty();
        self.active = fields.into_iter().skip(after).find(empty);
    }

    /// The sheet of what is typed so far.
    pub fn sheet(&self, model: &Model) -> Sheet {
        let units = model.units();
        let (readings, _) = readings_of(&self.draft, units);
        let defects = defects_of(&self.draft, units);
        sheet(&readings, &defects, &model.settings.instruments, &self.spec)
    }

    /// The wood: its own, or that of its pile.
    pub fn named(&self, model: &Model) -> SpeciesNamed {
        let own = queries::wood_named(model.state(), &self.draft.species);
        own.unwrap_or_else(|| self.species.clone())
    }

    /// What the yard charges for it as far as it is measured.
    pub fn charged(&self, model: &Model, sheet: &Sheet) -> Option<TalliedLine> {
        let (line, terms) = self.line(model, sheet)?;
        tally(&[line], &terms).lines.into_iter().next()
    }

    fn line(&self, model: &Model, sheet: &Sheet) -> Option<(TallyLine, Terms)> {
        let state = model.state();
        let pile = state.pile(self.draft.pile)?;
        let visit = state.visit(pile.opened.visit)?;
        let nominal = pile
            .opened
            .nominal_thickness
            .as_ref()
            .map(|read| read.value);
        let line = queries::line_of(&self.draft.mark, &sheet.plank, nominal);
        Some((line, visit.terms_for(pile)))
    }
}

fn kept_value(field: Field, taken: &Reading, confirmed: bool) -> DraftValue {
    DraftValue {
        text: retyped(field, taken),
        seen: taken.seen,
        confirmed,
    }
}

/// The draft of a piece: as kept, else from what is recorded, else with what the pile's planks share.
fn draft_of(model: &Model, piece: Id) -> Option<Draft> {
    let kept = model.drafts.iter().find(|draft| draft.piece == Some(piece));
    let mut draft = match kept {
        Some(kept) if !kept.is_empty() => return Some(kept.clone()),
        Some(begun) => begun.clone(),
        None => recorded_as_draft(model, model.state().piece(piece)?),
    };
    if draft.is_empty() {
        carry_over(model, &mut draft);
    }
    Some(draft)
}

fn recorded_as_draft(model: &Model, known: &Piece) -> Draft {
    let mut draft = Draft::new(known.pile, known.mark.clone(), model.now.at.clone());
    draft.piece = Some(known.id);
    for (field, held) in &known.readings {
        draft.put(
            *field,
            kept_value(*field, &held.taken, held.taken.confirmed),
        );
    }
    let place = |taken: &Option<Reading>| {
        let typed = |taken: &Reading| retyped(Field::BowKink, taken);
        taken.as_ref().map_or(String::new(), typed)
    };
    for found in known.defects_found() {
        draft.defects.push(DraftDefect {
            from: place(&found.from),
            kind: found.kind,
            note: found.note.clone(),
            to: place(&found.to),
        });
    }
    if let Some((_, species)) = &known.species {
        draft.species.clone_from(&species.text);
    }
    draft
}

/// Puts into a new draft what the pile's planks share.
fn carry_over(model: &Model, draft: &mut Draft) {
    let Some(pile) = model.state().pile(draft.pile) else {
        return;
    };
    let shared = [
        (Field::Moisture, &pile.opened.moisture),
        (Field::WoodTemperature, &pile.opened.wood_temperature),
    ];
    for (field, taken) in shared {
        if let Some(taken) = taken {
            draft.put(field, kept_value(field, taken, false));
        }
    }
}

/// The readings of the plank of this pile that was recorded last, to have them one press away.
fn plank_before(model: &Model, pile: Id, now: Id) -> Readings {
    let pieces = model.state().pieces_of(pile);
    pieces
        .filter(|piece| piece.id != now && !piece.withdrawn && !piece.readings.is_empty())
        .max_by_key(|piece| piece.recorded.entry)
        .map(Piece::readings_in_use)
        .unwrap_or_default()
}

/// What is understood of what stands in a field.
pub fn understood_of(field: Field, value: &DraftValue, units: Units) -> Understood {
    understand(field, &value.text, value.seen, value.confirmed, units)
}

/// What a draft's fields say: the readings, and the fields that can't be read.
pub fn readings_of(draft: &Draft, units: Units) -> (Readings, Vec<Field>) {
    let mut readings = Readings::new();
    let mut unread = Vec::new();
    for field in Field::ALL {
        let Some(value) = draft.value(*field) else {
            continue;
        };
        match understand(*field, &value.text, value.seen, value.confirmed, units) {
            Understood::Empty => {}
            Understood::Read { taken, .. } => {
                readings.insert(*field, taken);
            }
            Understood::Unreadable(_) => unread.push(*field),
        }
    }
    (readings, unread)
}

/// A place along the plank, as typed for a defect.
fn place_of(text: &str, units: Units) -> Understood {
    understand(Field::BowKink, text, Seen::Measured, true, units)
}

/// Whether a defect's place can't be read.
pub fn unread_place(draft: &Draft, units: Units) -> bool {
    draft.defects.iter().any(|defect| {
        let unread = |text: &str| matches!(place_of(text, units), Understood::Unreadable(_));
        unread(&defect.from) || unread(&defect.to)
    })
}

/// A draft typed under other units, with those units written out, so that nothing in it changes its
/// meaning.
pub fn restated(draft: &Draft, typed_under: Units) -> Draft {
    let mut same = draft.clone();
    for field in Field::ALL {
        let Some(value) = draft.value(*field) else {
            continue;
        };
        let understood = understand(*field, &value.text, value.seen, true, typed_under);
        if let Some(taken) = understood.taken() {
            let text = retyped(*field, taken);
            same.put(
                *field,
                DraftValue {
                    text,
                    ..value.clone()
                },
            );
        }
    }
    for defect in &mut same.defects {
        for text in [&mut defect.from, &mut defect.to] {
            if let Some(taken) = place_of(text, typed_under).taken() {
                *text = retyped(Field::BowKink, taken);
            }
        }
    }
    same
}

/// The defects of a draft, with their places as readings.
pub fn defects_of(draft: &Draft, units: Units) -> Vec<DefectFound> {
    let place = |text: &str| place_of(text, units).taken().cloned();
    draft
        .defects
        .iter()
        .map(|defect| DefectFound {
            kind: defect.kind,
            from: place(&defect.from),
            to: place(&defect.to),
            note: defect.note.clone(),
        })
        .collect()
}
