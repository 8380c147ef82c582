//! A plank being measured: what is half typed, how it is weighed, and which field is typed in.

use crate::model::Model;
use std::collections::BTreeMap;
use stillwood_core::plank::{Field, Readings, Reason};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::commands::{
    DraftReadings, WeighedBy, draft_readings, draft_sheet, plank_before, plank_draft,
};
use stillwood_core::record::{Draft, DraftValue, Id, Piece, SpeciesNamed, queries};
use stillwood_core::trade::{TalliedLine, TallyLine, Terms, tally};
use stillwood_core::verdict::{Sheet, Spec};

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
    /// It was measured before: what is typed now takes the place of that.
    pub again: bool,
    /// The field that is typed in.
    pub active: Option<Field>,
    /// How it is weighed.
    pub weighs: WeighedBy,
    /// The readings of the plank before, one press away.
    pub last: Readings,
    /// What was typed for another way of weighing, to come back with it.
    aside: BTreeMap<Field, DraftValue>,
    /// The fields beside those that are always shown stand open.
    pub more: bool,
    /// It is being rejected: these reasons are chosen.
    pub rejecting: Option<Vec<Reason>>,
    /// What stands open was asked about: the next press buys it.
    pub asked: bool,
    /// It is being written down: a second press finds nothing to do.
    pub busy: bool,
}

impl Entering {
    /// A plank that is begun, half typed or in the record; `None` where it is none of them.
    pub fn open(model: &Model, piece: Id) -> Option<Entering> {
        let kept = model.drafts.iter().find(|draft| draft.piece == Some(piece));
        let state = model.state();
        let draft = plank_draft(state, piece, kept.cloned(), &model.now.at)?;
        let pile = state.pile(draft.pile)?;
        let visit = state.visit(pile.opened.visit)?;
        let known = state.piece(piece);
        let measured = |piece: &Piece| !piece.readings.is_empty() || !piece.defects.is_empty();
        let decided = known.is_some_and(|piece| piece.decision().is_some());
        let mut entering = Entering {
            piece,
            visit: visit.id,
            spec: visit.opened.spec.clone(),
            species: pile.opened.species.clone(),
            again: known.is_some_and(measured),
            active: None,
            weighs: WeighedBy::of(&draft).unwrap_or_default(),
            last: plank_before(state, draft.pile, piece),
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

    /// WeighedBy another way: what was typed for this one is put aside, so that no hidden weight counts, and the
    /// keys type into what is shown.
    pub fn weigh(&mut self, way: WeighedBy) {
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

    /// What is typed so far, as it is understood.
    pub fn read(&self, units: Units) -> DraftReadings {
        draft_readings(&self.draft, self.weighs, units)
    }

    /// The sheet of what is typed so far.
    pub fn sheet(&self, model: &Model) -> Sheet {
        let units = model.units();
        draft_sheet(
            &self.draft,
            self.weighs,
            units,
            &self.spec,
            &model.context(),
        )
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
