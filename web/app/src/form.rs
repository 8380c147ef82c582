//! A form that stands open: what is typed is kept at every key and taken up again when the form is next opened,
//! until it is recorded. All that is wrong stands at its field, and an odd value is asked about once.

use crate::effect::{AfterRecorded, Effect};
use crate::model::{HalfTyped, Model, Texts};
use crate::route::{Place, Route};
use crate::tell::keep;
use crate::words::{fill, show, wood_names};
use crate::yard::named::{Deletable, name_of};
use stillwood_core::plank::Reason;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::commands::workshop::MOVED;
use stillwood_core::record::commands::{
    check_rack, cut, flatten_again, glue, gluing_limits, log_room_air, own_wood_form, pile,
    put_away, rest_times, save_target, spec, spec_criteria, visit,
};
use stillwood_core::record::queries::PutAway;
use stillwood_core::record::{
    Context, DAY, FieldErrors, FieldKind, FieldQuestion, Filled, Form, FormField, Id, Log,
    TargetSet, as_json, confirm, queries, workshop_command,
};
use stillwood_core::season::Stage;
use stillwood_core::verdict::Criterion;
use stillwood_core::wood::OwnNumber;

/// What stands before the key of a half-typed form in the store.
pub const FORM: &str = "form/";

/// Which form it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FormId {
    /// A visit, new or to change.
    Visit(Option<Id>),
    /// A new pile of a visit.
    NewPile(Id),
    /// A pile to change.
    EditPile(Id),
    /// Something done with a piece in the workshop, by its stored name.
    Workshop(Id, &'static str),
    /// A blank that is glued.
    GlueUp,
    /// How far laminates that are glued together may be off.
    GluingLimits,
    /// A piece that moved is flattened and set to rest anew.
    FlattenAgain(Id),
    /// A piece that moved, as a rack is looked over.
    Moved(Id),
    /// Pieces that are put away together.
    PutAway(PutAway),
    /// A cut of a plank or a piece.
    Cut(Id),
    /// Rest times and limits of a stage.
    RestTimes(Stage),
    /// The air of a room.
    RoomAir,
    /// Sizes and limits of a visit.
    Spec(Id),
    /// The blanks needed: of the plan, or of a visit.
    Target(Option<Id>),
    /// A wood of the maker's own, new or to change.
    OwnWood(Option<Id>),
}

impl FormId {
    /// Under which it is kept while it is half typed.
    pub fn key(self) -> String {
        match self {
            FormId::Visit(id) => visit::form_key(id),
            FormId::NewPile(of) => pile::form_key(of, None),
            FormId::EditPile(id) => pile::form_key(id, Some(id)),
            FormId::GlueUp => glue::FORM_KEY.to_owned(),
            FormId::GluingLimits => gluing_limits::FORM_KEY.to_owned(),
            FormId::Target(visit) => save_target::form_key(visit),
            FormId::OwnWood(about) => own_wood_form::form_key(about),
            FormId::Workshop(piece, name) => {
                workshop_command(name).map_or_else(String::new, |one| one.form_key(piece))
            }
            FormId::FlattenAgain(piece) => flatten_again::form_key(piece),
            FormId::Moved(piece) => check_rack::form_key(piece),
            FormId::PutAway(which) => put_away::form_key(which),
            FormId::Cut(piece) => cut::form_key(piece),
            FormId::RestTimes(stage) => rest_times::form_key(stage),
            FormId::RoomAir => log_room_air::FORM_KEY.to_owned(),
            FormId::Spec(visit) => spec::form_key(visit),
        }
    }

    /// Its fields, in order.
    pub fn fields(self) -> Vec<FormField> {
        match self {
            FormId::Visit(_) => visit::FIELDS.to_vec(),
            FormId::Target(_) => save_target::FIELDS.to_vec(),
            FormId::OwnWood(_) => {
                let mut fields = vec![own_wood_form::NAME, own_wood_form::SCIENTIFIC];
                fields.extend(
                    OwnNumber::ALL
                        .iter()
                        .flat_map(|one| own_wood_form::fields_of(*one)),
                );
                fields.extend([own_wood_form::DUST, own_wood_form::NOTE]);
                fields
            }
            FormId::NewPile(_) | FormId::EditPile(_) => pile::FIELDS.to_vec(),
            FormId::GlueUp => glue::FIELDS.to_vec(),
            FormId::GluingLimits => gluing_limits::FIELDS.to_vec(),
            FormId::Workshop(_, name) => {
                let mut fields =
                    workshop_command(name).map_or_else(Vec::new, |one| one.fields.to_vec());
                fields.push(DAY);
                fields
            }
            FormId::FlattenAgain(_) => flatten_again::fields(),
            FormId::Moved(_) => MOVED.to_vec(),
            FormId::PutAway(_) => put_away::FIELDS.to_vec(),
            FormId::Cut(_) => cut::FIELDS.to_vec(),
            FormId::RestTimes(stage) => rest_times::fields(stage).to_vec(),
            FormId::RoomAir => log_room_air::FIELDS.to_vec(),
            FormId::Spec(_) => spec::FIELDS.to_vec(),
        }
    }

    /// Its fields, and those that its screen draws by itself.
    pub fn all_fields(self) -> Vec<FormField> {
        let mut fields = self.fields();
        if let FormId::Spec(_) = self {
            let of = Criterion::ALL
                .iter()
                .map(|one| spec_criteria::fields_of(*one));
            fields.extend(of.flat_map(|(on, numbers)| std::iter::once(on).chain(numbers)));
        }
        fields
    }

    /// A text as the form keeps it: a wood by the name that the record has for it.
    fn text_kept(self, key: &str, text: &str) -> String {
        match self.fields().iter().find(|field| field.key == key) {
            Some(field) if names_a_wood(field) => wood_names::as_recorded(text),
            _ => text.to_owned(),
        }
    }

    /// What stands in it when it is opened afresh, numbers as the language that is spoken writes them.
    fn begins(self, context: &Context<'_>, units: Units) -> Texts {
        let mut texts = self.begins_as_core_writes(context, units);
        for field in self.all_fields() {
            if let Some(text) = texts.get_mut(field.key) {
                *text = show::in_field(field.kind, text);
            }
        }
        texts
    }

    fn begins_as_core_writes(self, context: &Context<'_>, units: Units) -> Texts {
        match self {
            FormId::Visit(id) => visit::begins(id, context),
            FormId::Target(visit) => save_target::begins(&target_begun(visit, context)),
            FormId::OwnWood(about) => {
                let wood = own_wood_id(about, context);
                own_wood_form::begins(wood.as_deref(), "", context, units)
            }
            FormId::NewPile(of) => pile::begins(of, None, context),
            FormId::EditPile(id) => pile::begins(id, Some(id), context),
            FormId::GlueUp => glue::begins(context),
            FormId::GluingLimits => gluing_limits::begins(context),
            FormId::Workshop(piece, name) => {
                workshop_command(name).map_or_else(Texts::new, |one| one.begins(piece, context))
            }
            FormId::FlattenAgain(piece) => flatten_again::begins(piece, context),
            FormId::Moved(_) => check_rack::begins(context),
            FormId::PutAway(_) => put_away::begins(context),
            FormId::Cut(piece) => cut::begins(piece, context, units),
            FormId::RestTimes(stage) => rest_times::begins(stage, context),
            FormId::RoomAir => log_room_air::begins(context),
            FormId::Spec(visit) => spec::begins(visit, context),
        }
    }

    /// What stands in it beside what is typed, and stays where it is begun afresh: the laminates in hand and their
    /// blank's mark, which this device gave.
    fn stays(self) -> &'static [FormField] {
        match self {
            FormId::GlueUp => &[glue::COUNT, glue::CHOSEN, glue::IN_HAND, glue::MARK],
            _ => &[],
        }
    }

    /// What it becomes.
    fn command(
        self,
        form: &Form<'_>,
        log: &Log,
        context: &Context<'_>,
        new_id: &mut impl FnMut() -> Id,
    ) -> Result<Filled, FieldErrors> {
        match self {
            FormId::Visit(id) => visit::command(form, id, context, new_id),
            FormId::Target(_) => save_target::command(form, new_id),
            FormId::OwnWood(about) => {
                let wood = own_wood_id(about, context);
                own_wood_form::command(form, wood.as_deref(), context, new_id)
            }
            FormId::NewPile(of) => pile::command(form, of, None, context, new_id),
            FormId::EditPile(id) => pile::command(form, id, Some(id), context, new_id),
            FormId::GlueUp => glue::command(form, context, new_id),
            FormId::GluingLimits => gluing_limits::command(form, context, new_id),
            FormId::Workshop(piece, name) => match workshop_command(name) {
                Some(one) => one.command(form, piece, context),
                None => Ok(Filled::default()),
            },
            FormId::FlattenAgain(piece) => flatten_again::command(form, piece, context),
            FormId::Moved(piece) => check_rack::moved(form, piece, context),
            FormId::PutAway(which) => put_away::command(form, which, context),
            FormId::Cut(piece) => cut::command(form, piece, context, new_id),
            FormId::RestTimes(stage) => rest_times::command(form, stage, context, new_id),
            FormId::RoomAir => log_room_air::command(form, log, context, new_id),
            FormId::Spec(visit) => spec::command(form, visit, context),
        }
    }

    /// Its name where it is offered elsewhere while it is half typed.
    fn words(self, model: &Model) -> String {
        let words = &model.words().common;
        match self {
            FormId::Visit(Some(id)) => name_of(model, Deletable::Visit(id)),
            FormId::Visit(None) => words.form_visit.to_owned(),
            FormId::Target(_) => words.form_target.to_owned(),
            FormId::OwnWood(_) => model.words().woods.form.to_owned(),
            FormId::NewPile(_) => words.form_pile.to_owned(),
            FormId::EditPile(id) => name_of(model, Deletable::Pile(id)),
            FormId::GlueUp => model.words().blanks.form_glue.to_owned(),
            FormId::GluingLimits => model.words().blanks.form_limits.to_owned(),
            FormId::Workshop(piece, name) => {
                let mark = model.state().piece(piece).map_or("", |piece| &piece.mark);
                let name = model.words().command(name);
                fill(words.form_piece, &[("mark", &mark), ("form", &name)])
            }
            FormId::FlattenAgain(piece) | FormId::Moved(piece) | FormId::Cut(piece) => {
                let mark = model.state().piece(piece).map_or("", |piece| &piece.mark);
                let words = &model.words().racks;
                let name = match self {
                    FormId::FlattenAgain(_) => words.flatten_again,
                    FormId::Cut(_) => words.cut,
                    _ => words.it_moved,
                };
                fill(
                    model.words().common.form_piece,
                    &[("mark", &mark), ("form", &name)],
                )
            }
            FormId::PutAway(which) => crate::racks::put_away_words::form_in_words(model, which),
            FormId::RestTimes(stage) => model.words().racks.rest_of(stage).to_owned(),
            FormId::RoomAir => model.words().racks.log_room_air.to_owned(),
            FormId::Spec(_) => model.words().planks.sizes_and_limits.to_owned(),
        }
    }

    /// The screen to go to when it is recorded; none is back to where it was opened.
    fn then(self, filled: &Filled, here: Route) -> Option<Route> {
        match self {
            FormId::Visit(_) => filled.events.first().map(|event| Route::Visit(event.about)),
            FormId::NewPile(_) | FormId::EditPile(_) => {
                filled.events.first().map(|event| Route::Sort(event.about))
            }
            // Where a blank is chosen, one stays.
            FormId::Workshop(..) if here.place() == Place::Blanks => Some(here),
            FormId::GlueUp => filled.events.first().map(|event| Route::Blank(event.about)),
            FormId::GluingLimits => Some(Route::Match),
            FormId::Workshop(piece, _) | FormId::FlattenAgain(piece) | FormId::Cut(piece) => {
                Some(Route::Piece(piece))
            }
            FormId::Moved(_) => None,
            FormId::PutAway(_) => Some(Route::Racks),
            FormId::RestTimes(_) | FormId::RoomAir => Some(Route::RestTimes),
            FormId::Spec(visit) | FormId::Target(Some(visit)) => Some(Route::Visit(visit)),
            FormId::Target(None) => Some(Route::Plan),
            FormId::OwnWood(_) => Some(Route::Woods),
        }
    }

    /// What is said once it is recorded.
    fn said(self, filled: &Filled, model: &Model) -> String {
        if let FormId::PutAway(which) = self {
            return crate::racks::put_away_words::said(model, which, filled);
        }
        let first = filled.events.first();
        first
            .and_then(|one| crate::words::workshop::workshop_words(&one.event))
            .unwrap_or_else(|| {
                fill(
                    model.words().common.saved_what,
                    &[("what", &self.words(model))],
                )
            })
    }

    /// What is done next once it is recorded.
    fn next(self) -> Option<Box<crate::Action>> {
        match self {
            FormId::Moved(piece) => Some(Box::new(crate::racks::Action::Looked(piece).into())),
            _ => None,
        }
    }
}

/// The id under which the record knows a wood of the maker's own.
fn own_wood_id(about: Option<Id>, context: &Context<'_>) -> Option<String> {
    let mut woods = context.state.woods().iter();
    let found = woods.find(|(_, wood)| Some(wood.about) == about);
    found.map(|(id, _)| id.clone())
}

/// The target that a form begins with: that of the plan, or of a visit's tally.
fn target_begun(visit: Option<Id>, context: &Context<'_>) -> TargetSet {
    let of_visit = visit.and_then(|visit| queries::target_of_visit(context.state, visit));
    of_visit.map_or_else(|| queries::target_now(context.state), |(target, _)| target)
}

/// A form that stands open.
#[derive(Debug, Clone)]
pub struct OpenForm {
    /// Which it is.
    pub id: FormId,
    /// Under which it is kept while it is half typed.
    pub key: String,
    /// What stands in its fields.
    pub texts: Texts,
    /// What stood in them when it was opened afresh.
    first: Texts,
    /// It was half typed before: what a bare number stood for then.
    pub found: Option<Units>,
    /// All that is wrong, field by field.
    pub errors: FieldErrors,
    /// What is asked, field by field.
    pub questions: Vec<FieldQuestion>,
    /// What is wrong with none of the fields.
    pub line: String,
    /// It is being written down.
    pub busy: bool,
}

impl OpenForm {
    /// What stands in a field.
    pub fn text(&self, key: &str) -> &str {
        self.texts.get(key).map_or("", String::as_str)
    }

    /// Puts a text into a field: what was wrong there may be so no more, and what was asked was asked of another text.
    fn put(&mut self, key: String, text: &str) {
        self.line.clear();
        self.errors.remove(&key);
        self.questions.retain(|asked| asked.key != key);
        let text = self.id.text_kept(&key, text);
        self.texts.insert(key, text);
    }
}

/// What may be done with the form that stands open.
#[derive(Debug, Clone)]
pub enum FormAction {
    /// Choose in a field, or tick it: what stands in it from now on.
    Put(&'static str, String),
    /// Choose a reason, or take it away.
    Reason(&'static str, Reason),
    /// What stands in a field is as it should be.
    Confirm(String),
    /// Start afresh.
    Afresh,
    /// Record it.
    Save,
}

/// Opens a form: as it was left half typed, else afresh.
pub fn open(model: &mut Model, id: FormId) {
    let context = model.context();
    let key = id.key();
    let first = id.begins(&context, model.settings.units);
    let mut texts = first.clone();
    let known = model.forms.get(&key);
    if let Some(known) = known {
        texts.extend(known.texts.clone());
    }
    model.form = Some(OpenForm {
        id,
        found: known.map(|known| known.units),
        key,
        texts,
        first,
        errors: FieldErrors::default(),
        questions: Vec::new(),
        line: String::new(),
        busy: false,
    });
}

/// Puts a text into a field in which nothing stands, as if it had stood there when the form was opened.
pub fn offer(model: &mut Model, id: FormId, key: &str, text: String) {
    if let Some(form) = model
        .form
        .as_mut()
        .filter(|form| form.id == id && form.text(key).is_empty())
    {
        form.texts.insert(key.to_owned(), text.clone());
        form.first.insert(key.to_owned(), text);
    }
}

/// Opens a form with texts that another part of the screen holds.
pub fn open_with(model: &mut Model, id: FormId, texts: Texts) {
    open(model, id);
    if let Some(form) = &mut model.form {
        form.first.extend(texts.clone());
        form.texts.extend(texts);
    }
}

/// Lets a field of the form that stands open begin with a text, where nothing was half typed in it.
pub fn begin_with(model: &mut Model, key: &str, text: String) {
    if let Some(form) = &mut model.form
        && form.first.get(key).is_none_or(String::is_empty)
    {
        if form.text(key).is_empty() && form.found.is_none() {
            form.texts.insert(key.to_owned(), text.clone());
        }
        form.first.insert(key.to_owned(), text);
    }
}

/// Something typed into one of its fields: what stands in it and in others that follow from it.
pub fn typed(model: &mut Model, name: &str, texts: Texts) -> Vec<Effect> {
    if let Some(form) = &mut model.form {
        form.errors.remove(name);
        for (key, text) in texts {
            form.put(key, &text);
        }
    }
    keep_open(model)
}

/// What an action does.
pub fn update(model: &mut Model, action: FormAction) -> Vec<Effect> {
    let Some(form) = &mut model.form else {
        return Vec::new();
    };
    match action {
        FormAction::Put(key, text) => {
            form.put(key.to_owned(), &text);
            keep_open(model)
        }
        FormAction::Reason(key, reason) => {
            let chosen = serde_json::from_str(form.text(key));
            // nothing lost: a list that this version can't read is one that it did not write
            let mut chosen: Vec<Reason> = chosen.unwrap_or_default();
            match chosen.iter().position(|one| *one == reason) {
                Some(at) => drop(chosen.remove(at)),
                None => chosen.push(reason),
            }
            form.put(key.to_owned(), &as_json(&chosen));
            keep_open(model)
        }
        FormAction::Confirm(key) => {
            confirm(&mut form.texts, &key);
            form.questions.retain(|question| question.key != key);
            if form.questions.is_empty() {
                save(model)
            } else {
                keep_open(model)
            }
        }
        FormAction::Afresh => {
            let mut texts = form.first.clone();
            for field in form.id.stays() {
                let stands = form.texts.remove(field.key);
                texts.extend(stands.map(|text| (field.key.to_owned(), text)));
            }
            form.texts = texts;
            form.found = None;
            form.errors = FieldErrors::default();
            form.questions.clear();
            form.line.clear();
            keep_open(model)
        }
        FormAction::Save => save(model),
    }
}

/// Keeps the form that stands open as it is; as it was opened afresh, nothing of it is half typed.
fn keep_open(model: &mut Model) -> Vec<Effect> {
    let Some(form) = &model.form else {
        return Vec::new();
    };
    let key = format!("{FORM}{}", form.key);
    if form.texts == form.first {
        model.forms.remove(&form.key);
        return vec![Effect::RemoveDraft(key)];
    }
    let form_key = form.key.clone();
    let Some(half_typed) = as_it_stands(model, &form_key) else {
        return Vec::new();
    };
    let effects = keep(key, &half_typed);
    model.forms.insert(form_key, half_typed);
    effects
}

fn save(model: &mut Model) -> Vec<Effect> {
    let Some(form) = model.form.as_ref().filter(|form| !form.busy) else {
        return Vec::new();
    };
    let mut random = std::mem::take(&mut model.random);
    let millis = model.now.millis;
    let mut out_of_ids = false;
    let mut new_id = || match random.pop() {
        Some(random) => Id::version_7(millis, &random),
        None => {
            out_of_ids = true;
            Id::from_u128(0)
        }
    };
    let context = model.context();
    let read = Form::new(&form.texts, model.settings.units);
    let filled = form
        .id
        .command(&read, model.record.log(), &context, &mut new_id);
    let (id, key) = (form.id, form.key.clone());
    model.random = random;
    let no_names = model.words().common.no_new_names;
    let asks = model.words().common.asked_first;
    let Some(form) = &mut model.form else {
        return Vec::new();
    };
    match filled {
        _ if out_of_ids => {
            form.line = no_names.to_owned();
            Vec::new()
        }
        Err(errors) => {
            let first = errors.all().first().map(|(key, _)| field_id(key));
            form.errors = errors;
            form.questions.clear();
            form.line.clear();
            first.map_or_else(Vec::new, |first| vec![Effect::Focus(first)])
        }
        Ok(filled) if !filled.questions.is_empty() => {
            form.errors = FieldErrors::default();
            let first = filled.questions.first().map(|asked| field_id(&asked.key));
            form.questions = filled.questions;
            form.line = asks.to_owned();
            first.map_or_else(Vec::new, |first| vec![Effect::ScrollTo(first)])
        }
        Ok(filled) => {
            form.busy = true;
            form.errors = FieldErrors::default();
            let go = match (&model.racks.weighing, id) {
                // A rack is weighed piece by piece.
                (Some(round), FormId::Workshop(piece, _)) if round.at == piece => {
                    Some(round.next.map_or(Route::Racks, Route::Deed))
                }
                _ => id.then(&filled, model.route),
            };
            let said = id.said(&filled, model);
            vec![Effect::Record {
                events: filled.events,
                after: AfterRecorded {
                    said,
                    go,
                    form: Some(key),
                    next: id.next(),
                    ..AfterRecorded::default()
                },
            }]
        }
    }
}

/// A form as it stands: the one that is open, else as it is kept half typed.
pub fn as_it_stands(model: &Model, key: &str) -> Option<HalfTyped> {
    let open = model.form.as_ref().filter(|form| form.key == key);
    let open = open.map(|form| HalfTyped {
        at: model.route.address(),
        words: form.id.words(model),
        // Numbers typed under other units keep them, until the form is begun afresh.
        units: form.found.unwrap_or_else(|| model.units()),
        texts: form.texts.clone(),
    });
    open.or_else(|| model.forms.get(key).cloned())
}

/// It is recorded: it is half typed no more.
pub fn recorded(model: &mut Model, key: &str) {
    model.forms.remove(key);
    if model.form.as_ref().is_some_and(|form| form.key == key) {
        model.form = None;
    }
}

/// The id of a field's element: its stored name, as far as an id can hold it.
pub fn field_id(key: &str) -> String {
    let letters = key
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' });
    format!("field-{}", letters.collect::<String>())
}

/// Whether a wood is named in a field: it is kept by the table's own name, and shown as the language has it.
pub fn names_a_wood(field: &FormField) -> bool {
    field.kind == FieldKind::Species || *field == own_wood_form::NAME
}

/// Whether a field is shown beside others in a row: numbers are.
pub fn is_short(field: &FormField) -> bool {
    field.kind.is_number() || field.kind == FieldKind::Day
}
