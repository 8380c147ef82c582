//! The blanks: found by wood, size, weight and stiffness, chosen to stand side by side, kept for somebody
//! until a day, let go, used; and each one's papers.

mod choice;
mod chosen_by;
mod columns;
mod cost;
mod deeds;
mod papers;
mod row;
mod sections;

pub(crate) use choice::choice_screen;
pub(crate) use chosen_by::known_of_choice;
pub(crate) use cost::cost_of_blank;

use crate::app::App;
use crate::held::{Part, remember};
use crate::parts::{CollectAny, Frame, GoTo, NumberField, TextField, Tick, bring_into_view, live};
use crate::route::Route;
use crate::screens::figures::counted;
use leptos::prelude::*;
use row::{Row, rows};
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::record::Id;
use stillwood_core::record::Life;

/// Which paper of a blank is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Paper {
    /// Its whole history.
    History,
    /// A card for the shelf.
    Card,
}

/// What is looked for.
#[derive(Clone, Copy)]
struct Filter {
    wood: RwSignal<String>,
    length: RwSignal<String>,
    width: RwSignal<String>,
    weight: RwSignal<String>,
    stiffness: RwSignal<String>,
    used: RwSignal<bool>,
    /// What is the maker's own is left out of a history that is handed out.
    hide: RwSignal<bool>,
}

impl Filter {
    /// Whether a row fits; what is not understood asks for nothing, what is not known does not fit.
    fn fits(self, app: App, row: &Row, units: Units) -> bool {
        let wood = self.wood.get().trim().to_lowercase();
        let length = |text: RwSignal<String>| read::length(&text.get(), units).ok();
        let at_least = |text, size: Option<f64>| {
            length(text).is_none_or(|least| size.is_some_and(|size| size >= least.value))
        };
        let most = read::mass(&self.weight.get(), units).ok();
        let light = most.is_none_or(|most| row.kilograms.is_some_and(|kg| kg <= most.value));
        let least = self.stiffness.get().trim().replace(',', ".").parse::<f64>();
        let too_soft = || {
            least.is_ok_and(|least| {
                // To the whole number, as it is shown.
                let stiff = app.state(|state| chosen_by::stiffness(state, state.piece(row.id)?));
                stiff.is_none_or(|stiff| stiff.round() < least)
            })
        };
        let there = !matches!(row.life, Life::Used | Life::Discarded);
        (there || self.used.get())
            && row.woods.to_lowercase().contains(&wood)
            && at_least(self.length, row.sizes[0])
            && at_least(self.width, row.sizes[1])
            && light
            && !too_soft()
    }
}

/// The screen.
pub(crate) fn blanks_screen() -> AnyView {
    let app = expect_context::<App>();
    let text = || RwSignal::new(String::new());
    let filter = Filter {
        wood: text(),
        length: text(),
        width: text(),
        weight: text(),
        stiffness: text(),
        used: RwSignal::new(false),
        hide: RwSignal::new(false),
    };
    let parts = vec![
        Part::text("Wood", filter.wood),
        Part::text("Length at least", filter.length),
        Part::text("Width at least", filter.width),
        Part::text("Weight at most", filter.weight),
        Part::text("Stiffness at least", filter.stiffness),
        Part::of("used", filter.used),
        Part::of("hide", filter.hide),
    ];
    remember(app, "blanks", parts);
    let open = RwSignal::new(None::<(Id, Paper)>);
    let all = Memo::new(move |_| rows(app));
    let ids: Vec<Id> = all.with_untracked(|all| all.iter().map(|row| row.id).collect());
    let chosen = choice::Chosen::remembered(app);
    let there = Memo::new(move |_| {
        let there = |row: &&Row| row.is_there();
        all.with(|all| {
            all.iter()
                .filter(there)
                .map(|row| row.id)
                .collect::<Vec<_>>()
        })
    });
    let form: deeds::Open = RwSignal::new(deeds::half_typed(app, &ids));
    let fitting = Memo::new(move |_| {
        let units = app.units.get();
        let mut rows = all.get();
        rows.retain(|row| filter.fits(app, row, units));
        rows
    });
    let count = move || {
        let (some, of) = (fitting.with(Vec::len), all.with(Vec::len));
        match of {
            0 => "No blank is glued yet.".to_owned(),
            _ if some == of => counted(of, "blank", "blanks"),
            _ => format!("{some} of {of} blanks"),
        }
    };
    let card = move |row: Row| {
        let units = app.units.get();
        let (id, kept) = (row.id, row.kept_for.clone());
        let free = row.is_there();
        let watched = row.watched.clone();
        let watched = watched.map(|words| chosen_by::watched(app, id, words));
        let opened = move |paper| open.get() == Some((id, paper));
        let paper = move |name: &'static str, paper| {
            view! {
                <button
                    type="button" aria-expanded=move || opened(paper).to_string()
                    on:click=move |_| {
                        let this = Some((id, paper));
                        if open.get_untracked() == this {
                            open.set(None);
                        } else {
                            open.set(this);
                            bring_into_view("paper");
                        }
                    }
                >
                    {name}
                </button>
            }
        };
        view! {
            <li class="card">
                <div class="row">
                    <span class="mark">{row.mark.clone()}</span>
                    {free.then(|| choice::tap(app, chosen, id, there))}
                </div>
                <p><span class=row.word.1>{row.word.0}</span></p>
                <div class="row">
                    <span>{row.woods.clone()}</span>
                    <span>{row.weight(app, units)}</span>
                </div>
                <p class="small">{row.size(app, units)}" · since "{row.since.clone()}</p>
                {(!row.rest.is_empty()).then(|| view! { <p class="small">{row.rest.clone()}</p> })}
                {watched.map(|watched| view! { <p class="small">{watched}</p> })}
                {kept.map(|kept| view! { <p><strong>{kept}</strong></p> })}
                <div class="row stretch">
                    {paper("Its history", Paper::History)}
                    {paper("Shelf card", Paper::Card)}
                </div>
                {free.then(|| deeds::deeds(app, id, row.mark.clone(), row.kept, form))}
            </li>
        }
    };
    let shown = move || {
        let (id, paper) = open.get()?;
        let row = all.with(|all| all.iter().find(|row| row.id == id).cloned())?;
        Some(match paper {
            Paper::History => papers::history(app, &row, filter.hide),
            Paper::Card => papers::card(app, &row),
        })
    };
    view! {
        <Frame title="Blanks" back=Route::Workshop class="wide">
            <div class:two=move || open.with(Option::is_some)>
                <div class="no-print">
                    <div class="pair">
                        <TextField name="Wood" value=filter.wood />
                        <NumberField name="Weight at most" value=filter.weight />
                        <TextField name="Length at least" value=filter.length inputmode="decimal" />
                        <TextField name="Width at least" value=filter.width inputmode="decimal" />
                        <NumberField name="Stiffness at least" value=filter.stiffness hint="N m², of the woods' usual" />
                    </div>
                    <div class="row counts">
                        <p role="status" id="blank-count">{live(count)}</p>
                        <Tick name="used and thrown out too" value=filter.used />
                    </div>
                    <ul class="plain shelf" id="blanks">
                        {live(move || fitting.get().into_iter().map(card).collect_any())}
                    </ul>
                    {choice::bar(chosen, there)}
                    <GoTo to=Route::Glue name="Glue up a blank" class="wide-button" />
                </div>
                <aside aria-label="Paper" id="paper">{live(shown)}</aside>
            </div>
        </Frame>
    }
    .into_any()
}
