//! A plank being entered: the half-typed draft, what is understood of it, and the field that has the
//! thumb. It lives at the root of the app, so that no screen that closes can take it along.

use leptos::prelude::*;
use std::collections::BTreeMap;
use stillwood_core::plank::{DefectFound, Field, Readings, Seen, Understood, retyped, understand};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Draft, DraftValue};

/// How a plank is weighed: which fields are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Weighs {
    /// The whole plank on the scale.
    #[default]
    Whole,
    /// One end at a time.
    Ends,
    /// No scale: balanced on a bar.
    Balance,
}

impl Weighs {
    /// The fields that this way needs.
    pub(crate) fn fields(self) -> &'static [Field] {
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
    pub(crate) fn of(draft: &Draft) -> Option<Weighs> {
        [Weighs::Whole, Weighs::Ends, Weighs::Balance]
            .into_iter()
            .find(|way| {
                way.fields()
                    .iter()
                    .any(|field| draft.value(*field).is_some())
            })
    }
}

/// A plank being entered.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Entering {
    /// What is typed. Whoever reads it here is told of every key; a field's own readers go by
    /// [`Self::value`] and those of the rest by [`Self::beside`], so that a key in one field wakes
    /// nothing of the others.
    pub(crate) draft: ReadSignal<Option<Draft>>,
    typed: WriteSignal<Option<Draft>>,
    /// Raised when what stands in a field has changed, in the order of [`Field::ALL`].
    fields: StoredValue<Vec<Trigger>>,
    /// Raised when what stands beside the fields has changed: faults, wood, note.
    rest: Trigger,
    /// The field that has the thumb.
    pub(crate) active: RwSignal<Option<Field>>,
    /// How it is weighed.
    pub(crate) weighs: RwSignal<Weighs>,
    /// The readings of the plank before, one tap away.
    pub(crate) last: RwSignal<Readings>,
    /// What was typed for another way of weighing, to come back with it.
    aside: RwSignal<BTreeMap<Field, DraftValue>>,
}

impl Entering {
    /// Nothing being entered.
    pub(crate) fn new() -> Self {
        let (draft, typed) = signal(None);
        Self {
            draft,
            typed,
            fields: StoredValue::new(Field::ALL.iter().map(|_| Trigger::new()).collect()),
            rest: Trigger::new(),
            active: RwSignal::new(None),
            weighs: RwSignal::new(Weighs::Whole),
            last: RwSignal::new(Readings::new()),
            aside: RwSignal::new(BTreeMap::new()),
        }
    }

    /// What stands in a field.
    pub(crate) fn value(self, field: Field) -> DraftValue {
        self.fields.with_value(|fields| {
            if let Some(raised) = fields.get(field as usize) {
                raised.track();
            }
        });
        self.draft
            .with_untracked(|draft| draft.as_ref().and_then(|d| d.value(field)).cloned())
            .unwrap_or_default()
    }

    /// Reads what stands beside the fields: faults, wood, note.
    pub(crate) fn beside<T: Default>(self, read: impl FnOnce(&Draft) -> T) -> T {
        self.rest.track();
        self.draft
            .with_untracked(|draft| draft.as_ref().map(read))
            .unwrap_or_default()
    }

    /// Changes what stands beside the fields.
    pub(crate) fn change_beside(self, change: impl FnOnce(&mut Draft)) {
        self.typed.update(|draft| {
            if let Some(draft) = draft {
                change(draft);
            }
        });
        self.rest.notify();
    }

    /// Lays a draft under the thumb, or takes it away.
    pub(crate) fn lay(self, draft: Option<Draft>) {
        self.typed.set(draft);
        self.rest.notify();
        self.fields
            .with_value(|fields| fields.iter().for_each(Notify::notify));
    }

    /// Puts a text into a field, as measured.
    pub(crate) fn put(self, field: Field, text: String) {
        self.put_value(
            field,
            DraftValue {
                text,
                seen: Seen::Measured,
                confirmed: false,
            },
        );
    }

    /// Puts a value into a field.
    pub(crate) fn put_value(self, field: Field, value: DraftValue) {
        self.typed.update(|draft| {
            if let Some(draft) = draft {
                draft.put(field, value);
            }
        });
        self.fields.with_value(|fields| {
            if let Some(raised) = fields.get(field as usize) {
                raised.notify();
            }
        });
    }

    /// Begins with a draft.
    pub(crate) fn begin(self, draft: Draft) {
        self.weighs
            .set(Weighs::of(&draft).unwrap_or_else(|| self.weighs.get_untracked()));
        self.aside.update(BTreeMap::clear);
        self.active.set(None);
        self.lay(Some(draft));
    }

    /// Weighs another way: what was typed for this one is put aside, so that no hidden weight counts.
    pub(crate) fn weigh(self, way: Weighs) {
        let now = self.weighs.get_untracked();
        if now == way {
            return;
        }
        for field in now.fields() {
            let value = untrack(|| self.value(*field));
            self.put_value(*field, DraftValue::default());
            self.aside.update(|aside| {
                aside.insert(*field, value);
            });
        }
        self.weighs.set(way);
        for field in way.fields() {
            let mut kept = None;
            self.aside.update(|aside| kept = aside.remove(field));
            if let Some(kept) = kept {
                self.put_value(*field, kept);
            }
        }
    }

    /// Says "yes, really" to the question about a field.
    pub(crate) fn insist(self, field: Field) {
        let value = untrack(|| self.value(field));
        self.put_value(
            field,
            DraftValue {
                confirmed: true,
                ..value
            },
        );
    }
}

/// What is understood of what stands in a field.
pub(crate) fn echo_of(field: Field, value: &DraftValue, units: Units) -> Understood {
    understand(field, &value.text, value.seen, value.confirmed, units)
}

/// What a draft's fields say: the readings, and the fields that can't be read.
pub(crate) fn readings_of(draft: &Draft, units: Units) -> (Readings, Vec<Field>) {
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

/// A place along the plank, as typed for a fault.
fn place_of(text: &str, units: Units) -> Understood {
    understand(Field::BowKink, text, Seen::Measured, true, units)
}

/// Whether a fault's place can't be read.
pub(crate) fn unread_place(draft: &Draft, units: Units) -> bool {
    draft.defects.iter().any(|defect| {
        let unread = |text: &str| matches!(place_of(text, units), Understood::Unreadable(_));
        unread(&defect.from) || unread(&defect.to)
    })
}

/// A draft typed under other units, with those units written out, so that nothing in it changes its
/// meaning.
pub(crate) fn restated(draft: &Draft, typed_under: Units) -> Draft {
    let mut same = draft.clone();
    for field in Field::ALL {
        let Some(value) = draft.value(*field) else {
            continue;
        };
        let echo = understand(*field, &value.text, value.seen, true, typed_under);
        if let Some(taken) = echo.taken() {
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

/// The faults of a draft, with their places as readings.
pub(crate) fn defects_of(draft: &Draft, units: Units) -> Vec<DefectFound> {
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
