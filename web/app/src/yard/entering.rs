//! A plank being measured: what is half typed, how it is weighed, and which field is typed in.

use crate::model::Model;
use stillwood_core::plank::{
    Field, FieldWarning, Readings, Reason, RingsBy, Understood, Warning, WeighedBy,
};
use stillwood_core::record::{
    Draft, DraftReadings, DraftValue, Id, SpeciesNamed, draft_readings, draft_sheet, own_wood,
    plank_before, plank_draft, plank_setting, plank_warnings, queries, rings_by, understood,
    weighed_by,
};
use stillwood_core::trade::{TalliedLine, TallyLine, Terms, tally};
use stillwood_core::verdict::{Sheet, Spec};

/// How the plank before was weighed: this one is likely weighed so as well.
fn weighed_as(before: &Readings) -> WeighedBy {
    let has = |way: &WeighedBy| way.fields().iter().any(|field| before.contains_key(field));
    WeighedBy::ALL.into_iter().find(has).unwrap_or_default()
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
    /// The measuring screen was shown before the verdict: it lies below it, one step back.
    pub from_measuring: bool,
    /// The field that is typed in.
    pub active: Option<Field>,
    /// How it is weighed. What is typed for another way stays in the draft and does not count.
    pub weighs: WeighedBy,
    /// How its rings are read. What is typed for the other way stays in the draft and does not count.
    pub rings: RingsBy,
    /// The readings of the plank before, one press away.
    pub last: Readings,
    /// The fields beside those that are always shown stand open.
    pub more: bool,
    /// It is being rejected: these reasons are chosen.
    pub rejecting: Option<Vec<Reason>>,
    /// The field that is typed in was left with something odd or unreadable, or is come back to: what is asked about
    /// it is shown. While a number grows, nothing is.
    pub asking: bool,
    /// It is being written down: a second press finds nothing to do.
    pub busy: bool,
}

impl Entering {
    /// A plank that is begun, half typed or in the record; `None` where it is none of them.
    pub fn open(model: &Model, piece: Id) -> Option<Entering> {
        let state = model.state();
        let mut kept = model.drafts.iter();
        let kept = kept.find(|draft| draft.piece == Some(piece)).cloned();
        let draft = plank_draft(state, piece, kept, &model.now.at)?;
        let setting = plank_setting(state, &draft)?;
        let pile = state.pile(draft.pile)?;
        let known = state.piece(piece);
        let decided = known.is_some_and(|piece| piece.decision().is_some());
        let last = plank_before(state, draft.pile, piece);
        let as_before = || RingsBy::of(|field| last.contains_key(&field));
        let rings = draft.rings_by.or_else(|| rings_by(&draft));
        let weighs = draft.weighed_by.or_else(|| weighed_by(&draft));
        let mut entering = Entering {
            piece,
            visit: setting.visit,
            spec: setting.spec,
            species: pile.opened.species.clone(),
            from_measuring: false,
            active: None,
            weighs: weighs.unwrap_or_else(|| weighed_as(&last)),
            rings: rings.or_else(as_before).unwrap_or_default(),
            last,
            more: false,
            rejecting: None,
            asking: false,
            busy: false,
            draft,
        };
        if !decided {
            entering.active = entering.first_empty();
        }
        Some(entering)
    }

    /// What stands in a field. In one of another way of weighing, or of reading the rings, nothing does.
    pub fn value(&self, field: Field) -> DraftValue {
        let value = self.draft.value(field);
        let is_hidden = self.weighs.leaves_out(field) || self.rings.leaves_out(field);
        let shown = value.filter(|_| !is_hidden);
        shown.cloned().unwrap_or_default()
    }

    /// Puts a text into a field, as measured.
    pub fn put(&mut self, field: Field, text: String) {
        let value = DraftValue {
            text,
            ..DraftValue::default()
        };
        self.draft.put(field, value);
    }

    /// The field is typed in now. What is odd about what stands there already is asked. One of the other way of reading
    /// the rings, which stands among the seldom needed, chooses that way.
    pub fn activate(&mut self, field: Field) {
        if let Some(way) = RingsBy::whose(field).filter(|way| way.fields().contains(&field)) {
            self.rings = way;
        }
        self.active = Some(field);
        self.asking = true;
    }

    /// Weighs another way: no hidden weight counts, and the keys type into what is shown.
    pub fn weigh(&mut self, way: WeighedBy) {
        let was_active = self
            .active
            .is_some_and(|field| self.weighs.fields().contains(&field));
        self.weighs = way;
        if let Some(first) = way.fields().first().filter(|_| was_active) {
            self.activate(*first);
        }
    }

    /// Reads the rings another way: nothing hidden counts, and the keys type into what is asked for.
    pub fn read_rings(&mut self, way: RingsBy) {
        let was_active = self
            .active
            .is_some_and(|field| self.rings.fields().contains(&field));
        self.rings = way;
        if let Some(first) = way.fields().first().filter(|_| was_active) {
            self.activate(*first);
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
        ]);
        fields.extend(self.rings.fields());
        fields.extend([Field::Moisture, Field::WoodTemperature]);
        fields
    }

    fn first_empty(&self) -> Option<Field> {
        let empty = |field: &Field| self.value(*field).text.is_empty();
        self.order().into_iter().find(empty)
    }

    /// Moves to the next field in the order of the tape that is still empty; at the end none is typed in.
    pub fn step_on(&mut self) {
        self.asking = false;
        let fields = self.order();
        let now = fields.iter().position(|field| Some(*field) == self.active);
        let after = now.map_or(0, |at| at + 1);
        let empty = |field: &Field| self.value(*field).text.is_empty();
        self.active = fields.into_iter().skip(after).find(empty);
    }

    /// Whether what stands in the field that is typed in can't be read, or is odd by itself or beside the others.
    pub fn is_odd(&self, model: &Model) -> bool {
        let Some(field) = self.active else {
            return false;
        };
        let understood = self.understood(model, field);
        matches!(understood, Understood::Unreadable(_))
            || understood.warning().is_some()
            || self.question(model, &self.readings(model), field).is_some()
    }

    /// The question that the other fields raise about this one.
    pub fn question(&self, model: &Model, read: &DraftReadings, field: Field) -> Option<Warning> {
        let mut asked = self.warnings(model, read).into_iter();
        let asked = asked.find(|one| one.field == field);
        asked.map(|one| one.warning)
    }

    /// What is understood of what stands in a field.
    pub fn understood(&self, model: &Model, field: Field) -> Understood {
        understood(field, &self.value(field), model.units())
    }

    /// What is typed, as far as it can be read.
    pub fn readings(&self, model: &Model) -> DraftReadings {
        draft_readings(&self.draft, self.weighs, self.rings, model.units())
    }

    /// The questions that what was read raises together.
    pub fn warnings(&self, model: &Model, read: &DraftReadings) -> Vec<FieldWarning> {
        plank_warnings(
            &read.readings,
            &self.named(model),
            model.units(),
            &model.context(),
        )
    }

    /// The sheet of what is typed so far.
    pub fn sheet(&self, model: &Model) -> Sheet {
        self.sheet_of(model, &self.readings(model))
    }

    /// The sheet of what was read.
    pub fn sheet_of(&self, model: &Model, read: &DraftReadings) -> Sheet {
        draft_sheet(read, self.draft.pile, &self.spec, &model.context())
    }

    /// The wood: its own, or that of its pile.
    pub fn named(&self, model: &Model) -> SpeciesNamed {
        let own = own_wood(model.state(), &self.draft);
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
