//! A blank that is glued: which laminates may be searched through, and the gluing itself.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent, on_its_day};
use super::form::{Form, FormReader, Texts, as_json, texts_of};
use crate::neck::{Laminate, MOST_PLACES, MatchError, MatchSearch, MatchTarget};
use crate::plank::Reading;
use crate::record::log::{Adhesive, Climate, Event, Glued, Id, Member};
use crate::record::queries::{
    ReadyLaminate, laminates_at_hand, match_limits, naming_faults, usual_laminates,
};
use crate::record::state::State;
use crate::season::Ready;

/// The mark of the blank.
pub const MARK: FormField = FormField::new("Mark of the blank", FieldKind::Mark);
/// What it is glued with.
pub const ADHESIVE: FormField = FormField::new("Adhesive", FieldKind::Words);
/// The batch on the tin.
pub const BATCH: FormField = FormField::new("Batch", FieldKind::Words);
/// The mix.
pub const MIX: FormField = FormField::new("Mix", FieldKind::Words);
/// Whether the glue brings water: `true`, `false`, or `null` while that is not known.
pub const WATER: FormField = FormField::new("water", FieldKind::Offered);
/// How long it stays clamped.
pub const CLAMPED: FormField = FormField::new("Clamped, hours", FieldKind::Hours);
/// The humidity of the room.
pub const HUMIDITY: FormField = FormField::new("Humidity, %", FieldKind::Humidity);
/// How warm the room is.
pub const TEMPERATURE: FormField = FormField::new("Room temperature", FieldKind::Temperature);
/// The day.
pub const DAY: FormField = FormField::new("Day of the gluing", FieldKind::Day);
/// How many laminates make the blank.
pub const COUNT: FormField = FormField::new("Laminates in the blank", FieldKind::Count);
/// The laminates that may be glued: their ids, with a blank between them.
pub const CHOSEN: FormField = FormField::new("chosen", FieldKind::Gathered);
/// The laminates in hand, in their order, and which way round each lies.
pub const IN_HAND: FormField = FormField::new("in hand", FieldKind::Gathered);

/// What is asked.
pub const FIELDS: [FormField; 12] = [
    CHOSEN,
    COUNT,
    IN_HAND,
    MARK,
    ADHESIVE,
    BATCH,
    WATER,
    MIX,
    CLAMPED,
    HUMIDITY,
    TEMPERATURE,
    DAY,
];

/// The key under which the form is kept while it is half typed.
pub const FORM_KEY: &str = "glue";

/// Laminates that are ready are chosen; as many make a blank as in the last spec. The mark is the caller's to
/// find.
pub fn begins(context: &Context<'_>) -> Texts {
    let at_hand = laminates_at_hand(context.state, context.today, context.instruments);
    let ready = at_hand.iter().filter(|one| one.ready == Ready::Yes);
    let ready: Vec<Id> = ready.map(|one| one.piece).collect();
    let mut texts = texts_of([
        (WATER, as_json(&None::<bool>)),
        (DAY, context.today.to_string()),
        (COUNT, usual_laminates(context.state).to_string()),
        (CHOSEN, chosen_text(&ready)),
        (IN_HAND, as_json(&Vec::<Member>::new())),
    ]);
    for field in FIELDS {
        texts.entry(field.key.to_owned()).or_default();
    }
    texts
}

/// How laminates that may be glued are kept.
pub fn chosen_text(chosen: &[Id]) -> String {
    let ids: Vec<String> = chosen.iter().map(Id::to_string).collect();
    ids.join(" ")
}

/// The laminates that may be glued.
pub fn chosen(form: &Form<'_>) -> Vec<Id> {
    let ids = form.text(CHOSEN.key).split(' ');
    ids.filter_map(|id| id.parse().ok()).collect()
}

/// The laminates in hand.
pub fn in_hand(form: &Form<'_>) -> Vec<Member> {
    form.json(IN_HAND.key).unwrap_or_default()
}

/// What is searched through for sets that go together.
#[derive(Debug, Clone, PartialEq)]
pub struct GlueSearch {
    /// The laminates; proposals count in them.
    pub stock: Vec<ReadyLaminate>,
    /// The same as the search takes them.
    pub laminates: Vec<Laminate>,
    /// What is asked for.
    pub wish: MatchTarget,
}

/// The place that says which wood stands at a place of so many, where both sides are the same.
pub fn place_said(at: usize, count: usize, mirrored: bool) -> usize {
    match mirrored {
        true => at.min(count.saturating_sub(1).saturating_sub(at)),
        false => at,
    }
}

/// What is searched through: the laminates that were chosen and are at hand, and the wood at each place, empty
/// for any; `mirrored` where both sides are the same.
pub fn search(
    form: &Form<'_>,
    woods: &[String],
    mirrored: bool,
    context: &Context<'_>,
) -> Result<GlueSearch, FieldErrors> {
    let mut read = form.reader();
    let count = read.needed_count(COUNT, MOST_PLACES as u32);
    let chosen = chosen(form);
    let all = laminates_at_hand(context.state, context.today, context.instruments);
    let number = |name: &String| {
        let one = all.iter().find(|one| one.wood == *name);
        one.map(|one| one.laminate.wood)
    };
    let stock: Vec<ReadyLaminate> = all
        .iter()
        .filter(|one| chosen.contains(&one.piece))
        .cloned()
        .collect();
    if stock.is_empty() {
        read.wrong(CHOSEN, FieldError::NoneChosen);
    }
    let count = read.finish(|| count)? as usize;
    let mut wish = MatchTarget::of(count);
    wish.limits = match_limits(context.state);
    for (at, place) in wish.places.iter_mut().enumerate() {
        let said = woods.get(place_said(at, count, mirrored));
        *place = said.and_then(number);
    }
    let laminates: Vec<Laminate> = stock.iter().map(|one| one.laminate).collect();
    match MatchSearch::new(&laminates, &wish) {
        Ok(_) => Ok(GlueSearch {
            stock,
            laminates,
            wish,
        }),
        Err(why) => Err(FieldErrors::at(CHOSEN.key, no_match(why))),
    }
}

fn no_match(why: MatchError) -> FieldError {
    FieldError::NoMatch(why.to_string())
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let state = context.state;
    let mut read = form.reader();
    let members = in_hand(form);
    if members.is_empty() {
        read.wrong(IN_HAND, FieldError::NoneInHand);
    }
    let gone = members.iter().filter_map(|member| gone(state, member));
    if let Some(mark) = gone.into_iter().next() {
        read.wrong(IN_HAND, FieldError::LaminateGone(mark));
    }
    let mark = mark(&mut read, state);
    let adhesive = Adhesive {
        name: read.words(ADHESIVE),
        batch: read.words(BATCH),
        brings_water: read.kept(WATER),
        mix: read.words(MIX),
    };
    let clamp_time = read.reading(CLAMPED).map(in_hours);
    let humidity = read.reading(HUMIDITY);
    if let Some(humid) = humidity.as_ref().filter(|humid| humid.value > 100.0) {
        let percent = rust_decimal::Decimal::try_from(humid.value).unwrap_or_default();
        read.wrong(HUMIDITY, FieldError::OverAHundred(percent));
    }
    let temperature = read.reading(TEMPERATURE);
    let on = read.needed_day(DAY);
    let (glued, on) = read.finish(|| {
        let climate = Climate {
            humidity,
            temperature,
        };
        let glued = Glued {
            adhesive,
            clamp_time,
            climate,
            mark,
            members,
            who: String::new(),
        };
        Some((glued, on?))
    })?;
    let event = NewEvent::new(new_id(), Event::Glued(Box::new(glued)));
    let event = event.on(on).on_confirmed(form.is_confirmed(DAY.key));
    Ok(on_its_day(form, context, event, &FIELDS))
}

/// The record keeps how long it stays clamped in hours.
fn in_hours(reading: Reading) -> Reading {
    Reading {
        unit: "h".to_owned(),
        ..reading
    }
}

/// The mark of a laminate that can't be glued any more.
fn gone(state: &State, member: &Member) -> Option<String> {
    match state.piece(member.piece) {
        None => Some(String::new()),
        Some(piece) => (!piece.is_at_hand()).then(|| piece.mark.clone()),
    }
}

fn mark(read: &mut FormReader<'_>, state: &State) -> String {
    let mark = read.form().text(MARK.key).to_owned();
    if let Some(Some(why)) = naming_faults(state, std::slice::from_ref(&mark)).pop() {
        read.wrong(MARK, FieldError::Mark(why));
    }
    mark
}
