//! Which forms there are: what each begins with, what it becomes when it is saved, and what is said and shown then.

use crate::model::{Model, Texts};
use crate::route::{Place, Route};
use crate::words::{fill, show, wood_names};
use crate::yard::named::{Deletable, name_of};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::commands::workshop::MOVED;
use stillwood_core::record::commands::{
    check_rack, cut, flatten_again, glue, gluing_limits, log_room_air, own_wood_form, pile,
    put_away, rest_times, save_target, spec, spec_criteria, visit,
};
use stillwood_core::record::queries::PutAway;
use stillwood_core::record::{
    Context, DAY, FieldErrors, FieldKind, Filled, Form, FormField, Id, Log, TargetSet, queries,
    workshop_command,
};
use stillwood_core::season::Stage;
use stillwood_core::verdict::Criterion;
use stillwood_core::wood::OwnNumber;

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
    pub(crate) fn text_kept(self, key: &str, text: &str) -> String {
        match self.fields().iter().find(|field| field.key == key) {
            Some(field) if names_a_wood(field) => wood_names::as_recorded(text),
            _ => text.to_owned(),
        }
    }

    /// What stands in it when it is opened afresh, numbers as the language that is spoken writes them.
    pub(crate) fn begins(self, context: &Context<'_>, units: Units) -> Texts {
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
    pub(crate) fn stays(self) -> &'static [FormField] {
        match self {
            FormId::GlueUp => &[glue::COUNT, glue::CHOSEN, glue::IN_HAND, glue::MARK],
            _ => &[],
        }
    }

    /// What it becomes.
    pub(crate) fn command(
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
    pub(crate) fn words(self, model: &Model) -> String {
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
    pub(crate) fn then(self, filled: &Filled, here: Route) -> Option<Route> {
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
    pub(crate) fn said(self, filled: &Filled, model: &Model) -> String {
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
    pub(crate) fn next(self) -> Option<Box<crate::Action>> {
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

/// Whether a wood is named in a field: it is kept by the table's own name, and shown as the language has it.
pub fn names_a_wood(field: &FormField) -> bool {
    field.kind == FieldKind::Species || *field == own_wood_form::NAME
}
