//! What the maker wishes for, as it is typed: how many blanks by when, how sure, of which wood; and its
//! keeping in the record. What it takes is core's.

use crate::app::App;
use crate::held::{Begun, Part, Wrong};
use crate::parts::{Choice, CollectAny, DateField, NumberField, live};
use crate::record::Deed;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{Event, SpeciesNamed, State, TargetSet, Visit, date, target_of_spec};

/// What is typed.
#[derive(Clone, Copy)]
pub(crate) struct WishTyped {
    blanks: RwSignal<String>,
    per_blank: RwSignal<String>,
    by: RwSignal<String>,
    sure: RwSignal<u32>,
    wood: RwSignal<Option<SpeciesNamed>>,
}

/// How sure, as it can be chosen.
const SURE: [(u32, &str); 4] = [(50, "50 %"), (80, "80 %"), (90, "90 %"), (95, "95 %")];

const BLANKS: &str = "Good blanks wanted";
const PER_BLANK: &str = "Laminates in a blank";
const BY: &str = "Ready by";

impl WishTyped {
    /// A wish, to be changed.
    pub(crate) fn of(wish: &TargetSet) -> Self {
        let number = |number: u32| RwSignal::new(number.to_string());
        Self {
            blanks: number(wish.blanks),
            per_blank: number(wish.laminates_per_blank),
            by: RwSignal::new(wish.by.map(|day| day.to_string()).unwrap_or_default()),
            sure: RwSignal::new(wish.sure_percent),
            wood: RwSignal::new(wish.wood.clone()),
        }
    }

    /// The form while it is half typed, kept under a key.
    pub(crate) fn begun(self, app: App, key: String) -> Begun {
        let parts = vec![
            Part::text(BLANKS, self.blanks),
            Part::text(PER_BLANK, self.per_blank),
            Part::text(BY, self.by),
            Part::of("how sure", self.sure),
            Part::of("wood", self.wood),
        ];
        Begun::open(app, key, "a wish".to_owned(), parts)
    }

    /// What is wished for; the field that is wrong, and why.
    pub(crate) fn read(self) -> Result<TargetSet, (&'static str, &'static str)> {
        let whole = |text: RwSignal<String>| text.get().trim().parse::<u32>().ok();
        let typed = self.by.get();
        let by = date(typed.trim());
        if by.is_none() && !typed.trim().is_empty() {
            return Err((BY, "That is not a day."));
        }
        let blanks = whole(self.blanks);
        let blanks = blanks.ok_or((BLANKS, "How many blanks? A whole number, please."))?;
        let per_blank = whole(self.per_blank).filter(|count| *count > 0);
        let none = (PER_BLANK, "How many laminates in a blank? At least 1.");
        Ok(TargetSet {
            blanks,
            by,
            laminates_per_blank: per_blank.ok_or(none)?,
            sure_percent: self.sure.get(),
            wood: self.wood.get(),
        })
    }
}

/// The wish in force; else as the spec of the last visit has it.
pub(crate) fn wish_now(state: &State) -> TargetSet {
    let of_spec = || last_visit(state).map(|visit| target_of_spec(&visit.opened.spec));
    let said = queries::target(state).map(|(wish, _)| wish.clone());
    said.or_else(of_spec).unwrap_or(TargetSet {
        blanks: 10,
        by: None,
        laminates_per_blank: 5,
        sure_percent: 90,
        wood: None,
    })
}

/// The visit that was opened last.
pub(crate) fn last_visit(state: &State) -> Option<&Visit> {
    state.visits().max_by_key(|visit| visit.recorded.on)
}

/// The fields.
pub(crate) fn wish_fields(wish: WishTyped, begun: Begun) -> AnyView {
    let app = begun.app();
    let woods = move || {
        let mut woods: Vec<SpeciesNamed> = Vec::new();
        app.state(|state| {
            for wood in state.piles().map(|pile| &pile.opened.species) {
                if !woods.iter().any(|known| known.is_same_wood(wood)) {
                    woods.push(wood.clone());
                }
            }
        });
        let chip = move |wood: Option<SpeciesNamed>| {
            let name = wood
                .as_ref()
                .map_or("any".to_owned(), |wood| wood.text.clone());
            let (this, same) = (wood.clone(), wood);
            view! {
                <button
                    type="button" class="chip"
                    aria-pressed=move || wish.wood.with(|wood| *wood == same).to_string()
                    on:click=move |_| wish.wood.set(this.clone())
                >
                    {name}
                </button>
            }
        };
        std::iter::once(None)
            .chain(woods.into_iter().map(Some))
            .map(chip)
            .collect_any()
    };
    view! {
        {begun.note()}
        <div class="pair">
            <NumberField name=BLANKS value=wish.blanks form=begun />
            <NumberField name=PER_BLANK value=wish.per_blank form=begun />
        </div>
        <DateField name=BY value=wish.by form=begun />
        <Choice name="How sure" value=wish.sure of=SURE.to_vec() />
        <div class="field" role="group" aria-label="Of which wood">
            <span class="name">"Of which wood"</span>
            <div class="chips">{live(woods)}</div>
        </div>
    }
    .into_any()
}

/// Keeps what is typed in the record; `done` follows.
pub(crate) fn keep_wish(wish: WishTyped, begun: Begun, done: impl FnOnce() + 'static) {
    let wish = match untrack(|| wish.read()) {
        Ok(wish) => wish,
        Err((field, why)) => return begun.say(Wrong::at(field, why)),
    };
    let Some(about) = begun.app().new_id() else {
        return;
    };
    let event = Event::TargetSet(Box::new(wish));
    let said = event.workshop_words().unwrap_or_default();
    let deed = Deed::new(about, event);
    begun.record_and_say(vec![deed], format!("Kept: {said}."), done);
}
