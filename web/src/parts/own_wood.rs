//! A wood of the maker's own while it is typed: whatever is known of it, each number with where it is
//! from. It travels in the record.

use crate::app::App;
use crate::held::{Begun, Part, Wrong};
use crate::parts::{Choice, CollectAny, TextField, When, WoodOffers, live};
use crate::record::Deed;
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::{Event, Withdrawn, WoodFault, WoodTyped};
use stillwood_core::wood::{Dust, OwnNumber, Species};

/// One number while it is typed, and where it is from.
type Typed = (OwnNumber, RwSignal<String>, RwSignal<String>);

const NAME: &str = "Name of the wood";

/// What a wood's fields hold.
#[derive(Clone)]
struct Edited {
    name: RwSignal<String>,
    scientific: RwSignal<String>,
    note: RwSignal<String>,
    dust: RwSignal<Dust>,
    numbers: Vec<Typed>,
}

impl Edited {
    fn new(of: WoodTyped) -> Self {
        let number = |number: &OwnNumber| {
            let mut known = of.numbers.iter();
            let known = known.find(|(known, _, _)| known == number).cloned();
            let (_, text, source) = known.unwrap_or((*number, String::new(), String::new()));
            (*number, RwSignal::new(text), RwSignal::new(source))
        };
        Self {
            numbers: OwnNumber::ALL.iter().map(number).collect(),
            name: RwSignal::new(of.name),
            scientific: RwSignal::new(of.scientific),
            note: RwSignal::new(of.note),
            dust: RwSignal::new(of.dust),
        }
    }

    /// Its fields, to be kept while they are half typed.
    fn parts(&self) -> Vec<Part> {
        let mut parts = vec![
            Part::text(NAME, self.name),
            Part::text("Botanical name", self.scientific),
            Part::text("Note on the wood", self.note),
            Part::of("Its dust", self.dust),
        ];
        for (number, text, source) in &self.numbers {
            parts.push(Part::text(number.label(), *text));
            parts.push(Part::text(number.source_label(), *source));
        }
        parts
    }

    fn typed(&self) -> WoodTyped {
        let one = |(number, text, source): &Typed| {
            (*number, text.get_untracked(), source.get_untracked())
        };
        WoodTyped {
            name: self.name.get_untracked(),
            scientific: self.scientific.get_untracked(),
            note: self.note.get_untracked(),
            dust: self.dust.get_untracked(),
            numbers: self.numbers.iter().map(one).collect(),
        }
    }
}

/// Which field a fault is in.
fn wrong(fault: &WoodFault) -> Wrong {
    let why = fault.to_string();
    let wrong = match fault {
        WoodFault::NoName | WoodFault::InTable(_) | WoodFault::YoursAlready(_) => {
            Wrong::at(NAME, &*why)
        }
        WoodFault::Number { number, .. } => Wrong::unread(number, &why),
        WoodFault::DensityRange => Wrong::at(OwnNumber::DensityHigh.label(), &*why),
    };
    wrong.lined(format!("Not saved: {why}"))
}

/// The fields, and the button that saves them.
#[component]
pub(crate) fn OwnWoodFields(
    /// The wood to change, by its id; none is a new one.
    of: Option<String>,
    /// The name to begin with.
    #[prop(optional)]
    name: String,
    /// Called when it is saved, or a wood of the table was meant; with none, when it was given up.
    done: Callback<Option<Species>>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let known = of.and_then(|id| app.book_now(|state| state.woods().get(&id).cloned()));
    let units = app.units.get_untracked();
    let edited = Edited::new(known.as_ref().map_or_else(
        || WoodTyped {
            name,
            ..WoodTyped::default()
        },
        |wood| WoodTyped::of(&wood.added, units),
    ));
    let fresh = known.is_none();
    let before = known.map(|wood| (wood.about, wood.entry, wood.added.id));
    let key = before.as_ref().map_or_else(
        || "own-wood".to_owned(),
        |(about, _, _)| format!("own-wood/{about}"),
    );
    let words = "a wood of your own".to_owned();
    let begun = Begun::open(app, key, words, edited.parts());
    let name = edited.name;
    let fields = edited
        .numbers
        .iter()
        .map(|(number, text, source)| number_field(app, begun, *number, *text, *source))
        .collect_any();
    let (scientific, note, dust) = (edited.scientific, edited.note, edited.dust);
    let taken_back = before.as_ref().map(|b| b.0);
    let save = move |_| {
        let Some(about) = before.as_ref().map(|b| b.0).or_else(|| app.new_id()) else {
            return;
        };
        let id = before.as_ref().map_or(about.to_string(), |b| b.2.clone());
        let units = app.units.get_untracked();
        let added = app.book_now(|state| edited.typed().added(state, &id, units));
        let added = match added {
            Ok(added) => added,
            Err(fault) => return begun.say(wrong(&fault)),
        };
        let wood = added.species();
        let event = Event::WoodAdded(Box::new(added));
        let replaced: Vec<Id> = before.iter().map(|b| b.1).collect();
        let deed = Deed::instead_of(about, event, replaced);
        begun.record(vec![deed], move |_| {
            app.say(format!("{} is in your record.", wood.name()));
            done.run(Some(wood));
        });
    };
    let take_back = taken_back.map(|about| {
        let back = move |_| {
            let withdrawn = Event::Withdrawn(Withdrawn {});
            let begun = app.book_now(|state| state.begun_by(about));
            let deed = Deed::instead_of(about, withdrawn, begun);
            app.write_and_say(vec![deed], "Taken back: its name stays on the planks.".into(), None);
            done.run(None);
        };
        view! { <button type="button" class="quiet" id="take-back-wood" on:click=back>"Take this wood back"</button> }
    });
    let choose = Callback::new(move |known: Species| done.run(Some(known)));
    let meant =
        move || {
            fresh.then(|| view! {
            <div class="chips" id="meant"><WoodOffers text=name own=false choose=choose /></div>
        })
        };
    view! {
        {begun.note()}
        <TextField
            name=NAME value=name form=begun hint="as the yard says it; planks recorded under this name get its numbers"
        />
        {meant()}
        <TextField name="Botanical name" value=scientific hint="if it is known" />
        <p class="small">
            "Every number may stay empty. Where one is missing, what needs it is not judged."
        </p>
        {fields}
        <Choice
            name="Its dust" value=dust
            of=vec![
                (Dust::Unknown, "not known"),
                (Dust::General, "no special report"),
                (Dust::Irritant, "irritates"),
                (Dust::Sensitiser, "sensitises"),
            ]
        />
        <TextField name="Note on the wood" value=note />
        <p class="error-line" role="alert" id="wood-fault">{live(move || begun.line())}</p>
        <div class="row">
            <button type="button" class="primary" id="save-wood" on:click=save>"Save the wood"</button>
            <button type="button" id="leave-wood" on:click=move |_| done.run(None)>"Cancel"</button>
            {take_back}
        </div>
    }
}

/// A number, what is understood of it, and where it is from once there is one.
fn number_field(
    app: App,
    begun: Begun,
    number: OwnNumber,
    text: RwSignal<String>,
    source: RwSignal<String>,
) -> AnyView {
    let read = move || {
        let units = app.units.get();
        text.with(|typed| {
            (!typed.trim().is_empty()).then(|| {
                let shown = |value| number.shown(value, units);
                number.read(typed, units).map(|read| shown(read.value))
            })
        })
    };
    let echo = Signal::derive(move || match read() {
        Some(Ok(shown)) => shown,
        Some(Err(_)) => String::new(),
        None => number.hint(app.units.get()).to_owned(),
    });
    let error = Signal::derive(move || match read() {
        Some(Err(why)) => why.to_string(),
        Some(Ok(_)) | None => String::new(),
    });
    let typed = Signal::derive(move || text.with(|text| !text.trim().is_empty()));
    view! {
        <TextField name=number.label() value=text echo=echo error=error form=begun />
        <When so=typed>
            <TextField name=number.source_label() value=source />
        </When>
    }
    .into_any()
}
