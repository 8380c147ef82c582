//! The wood: typed by common or scientific name, with the matches to tap; one that is in no list is
//! added by the maker without leaving the screen.

use crate::app::App;
use crate::held::Begun;
use crate::parts::{CollectAny, OwnWoodFields, TextField, When, live};
use leptos::prelude::*;
use stillwood_core::wood::{Species, search_among, species};

/// A wood while it is chosen: what is typed, and the wood that was tapped.
#[derive(Clone, Copy)]
pub(crate) struct WoodChosen {
    /// What is typed.
    pub(crate) text: RwSignal<String>,
    /// The id of the wood that was chosen.
    pub(crate) id: RwSignal<Option<String>>,
}

impl WoodChosen {
    /// Beginning with a name, and the wood that it stands for.
    pub(crate) fn new(text: String, id: Option<String>) -> Self {
        Self {
            text: RwSignal::new(text),
            id: RwSignal::new(id),
        }
    }

    /// Chooses a wood.
    pub(crate) fn choose(self, wood: &Species) {
        self.id.set(Some(wood.id().to_owned()));
        self.text.set(wood.name().to_owned());
    }
}

/// The woods that a name may mean, to tap.
#[component]
pub(crate) fn WoodOffers(
    /// What is typed.
    text: RwSignal<String>,
    /// Whether the maker's own are among them.
    own: bool,
    /// What a touch does.
    choose: Callback<Species>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let offer = move |wood: Species| {
        let (name, scientific) = (wood.name().to_owned(), wood.scientific_name().to_owned());
        view! {
            <button type="button" class="chip" on:click=move |_| choose.run(wood.clone())>
                {name}
                <small>{scientific}</small>
            </button>
        }
    };
    live(move || {
        let mine = if own { app.own_woods() } else { Vec::new() };
        let found = text.with(|typed| {
            let found = search_among(species().iter().chain(&mine), typed);
            let woods = found.into_iter().take(6).map(|found| found.species.clone());
            woods.collect::<Vec<Species>>()
        });
        found.into_iter().map(offer).collect_any()
    })
}

/// The wood, with what has to be known before it is bought.
#[component]
pub(crate) fn WoodField(
    /// The wood.
    wood: WoodChosen,
    /// The form that it belongs to.
    #[prop(optional_no_strip, into)]
    form: Option<Begun>,
    /// Whether its cautions are left out: nothing is bought here.
    #[prop(optional)]
    brief: bool,
) -> impl IntoView {
    let app = expect_context::<App>();
    let WoodChosen { text, id } = wood;
    let adding = RwSignal::new(false);
    // Typing another name lets go of the wood that was chosen.
    Effect::new(move |before: Option<String>| {
        let now = text.get();
        if before.as_ref().is_some_and(|before| *before != now) {
            let chosen = id.get_untracked().and_then(|id| app.wood(&id));
            if !chosen.is_some_and(|known| known.names().contains(&now)) {
                id.set(None);
            }
        }
        now
    });
    let none_chosen = Signal::derive(move || id.get().is_none());
    let choose = Callback::new(move |known: Species| wood.choose(&known));
    let added = Callback::new(move |known: Option<Species>| {
        adding.set(false);
        if let Some(known) = known {
            wood.choose(&known);
        }
    });
    let chosen = move || {
        let known = app.wood(&id.get()?)?;
        let own = app.is_own(known.id()).then_some("your data · ");
        Some(view! {
            <div class="note">
                <p>
                    <strong>{known.name().to_owned()}</strong>
                    " · "
                    {own}
                    <em>{known.scientific_name().to_owned()}</em>
                </p>
                {(!brief).then(|| view! {
                    <p class="small">{known.trade().words()}</p>
                    <p class="small">{known.dust().words()}</p>
                })}
            </div>
        })
    };
    let own = move || id.get().filter(|id| app.is_own(id));
    let button = move || match own() {
        Some(_) => "Change your data",
        None => "Not in the list: add your own wood",
    };
    // The table's woods can't be changed, only another one chosen.
    let may_add = Signal::derive(move || id.get().is_none() || own().is_some());
    view! {
        <TextField
            name="Wood" value=text hint="common or scientific name; a wood that is not in the table is fine"
            form=form
        />
        <div class="chips" id="woods">
            <When so=none_chosen>
                <WoodOffers text=text own=true choose=choose />
            </When>
        </div>
        {live(chosen)}
        <When so=may_add>
            <button type="button" class="quiet" id="own-wood-here" on:click=move |_| adding.set(true)>
                {live(button)}
            </button>
        </When>
        <When so=adding>
            <section class="sheet-over" id="own-wood-over" aria-label="A wood of your own">
                <h2>"A wood of your own"</h2>
                <OwnWoodFields of=own() name=text.get_untracked() done=added />
            </section>
        </When>
    }
}
