//! A plank's whole sheet: what was read, what was worked out of it, what was decided and why, what it
//! costs, and everything that ever happened to it.

mod deeds;
mod facts;
mod history;
mod readings;

pub(crate) use history::History;
use stillwood_core::record::queries;

use crate::app::App;
use crate::parts::{Criteria, Frame, Pictures, Results, ScoreStrip, When, live};
use crate::route::Route;
use crate::screens::pile::missing;
use crate::screens::{Under, plank_told_under};
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::{Piece, PlankFigure};
use stillwood_core::verdict::{Number, Sheet, Spec};

/// A plank, its sheet and the spec that it is judged by.
#[derive(Clone, Copy)]
struct Shown {
    id: Id,
    piece: Memo<Option<Piece>>,
    sheet: Memo<Option<(Sheet, Spec)>>,
    /// Judged by the spec of its visit: what goes into the record with a decision.
    own: Memo<Option<(Sheet, Spec)>>,
    /// Where all are judged by one spec.
    under: Option<Under>,
}

/// The screen.
#[component]
pub(crate) fn SheetScreen(
    /// The plank.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    let Some(visit) = app.book_now(|state| {
        let piece = state.piece(id)?;
        Some(state.visit_of(piece).map(|visit| visit.id))
    }) else {
        return missing("No such plank");
    };
    let title = move || {
        app.state(|state| state.piece(id).map(|piece| piece.mark.clone()))
            .unwrap_or_default()
    };
    let back = visit.map_or(Route::Planks, Route::Visit);
    view! {
        <Frame title=Signal::derive(title) back=back class="wide">
            <PlankSheet id=id />
        </Frame>
    }
    .into_any()
}

/// The sheet itself, also beside the table of planks.
#[component]
pub(crate) fn PlankSheet(
    /// The plank.
    id: Id,
    /// The spec that it is judged by in place of that of its visit.
    #[prop(optional)]
    under: Option<Under>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let piece = Memo::new(move |_| app.state(|state| state.piece(id).cloned()));
    let own = Memo::new(move |_| {
        let instruments = app.settings.with(|settings| settings.instruments);
        app.state(|state| {
            let piece = state.piece(id)?;
            let sheet = queries::sheet_of(state, piece, &instruments)?;
            Some((sheet, state.visit_of(piece)?.opened.spec.clone()))
        })
    });
    let sheet = Memo::new(move |_| {
        let Some((_, spec)) = under.and_then(|under| under.get()) else {
            return own.get();
        };
        let instruments = app.settings.with(|settings| settings.instruments);
        let sheet = app.state(|state| Some(state.piece(id)?.sheet_under(&spec, &instruments)));
        Some((sheet?, spec))
    });
    let shown = Shown {
        id,
        piece,
        sheet,
        own,
        under,
    };
    let by = move || {
        let (name, _) = under.and_then(|under| under.get())?;
        Some(view! {
            <p class="note" id="judged-under">
                "Judged by the sizes and limits of " <strong>{name}</strong> ", as the table is. A decision is \
                 kept with the verdict of its own visit."
            </p>
        })
    };
    let withdrawn = move || piece.with(|piece| piece.as_ref().is_some_and(|p| p.withdrawn));
    let mark = move || piece.with(|p| p.as_ref().map(|p| p.mark.clone()).unwrap_or_default());
    let bought = move || piece.with(|piece| piece.as_ref().is_some_and(Piece::is_bought));
    let verdict = move || {
        sheet.get().map(|(sheet, _)| {
            let score = PlankFigure::Sheet(Number::PlankScore);
            let tell = Box::new(plank_told_under(app, id, score, under));
            view! { <ScoreStrip verdict=sheet.verdict tell=tell /> }
        })
    };
    let figures = move || {
        let (sheet, spec) = sheet.get()?;
        let units = app.units.get();
        let wood = app
            .state(|state| queries::wood_of(state, queries::species_of(state, state.piece(id)?)?));
        Some(view! {
            <h2>{format!("Verdict under “{}”", spec.name)}</h2>
            <Criteria sheet=sheet.clone() spec=spec.clone() units=units />
            <h2>"Figures"</h2>
            <Results sheet=sheet.clone() spec=spec.clone() units=units />
            <Pictures sheet=sheet wood=wood spec=spec units=units />
        })
    };
    view! {
        <div class="plank-sheet" id="plank-sheet">
            <p class="mark sheet-mark" id="sheet-mark">{live(mark)}</p>
            <When so=withdrawn>
                <p class="note bad" id="withdrawn">
                    "This plank was taken back: it counts nowhere. Everything about it is kept below."
                </p>
            </When>
            <facts::Origin shown=shown />
            {live(by)}
            {live(verdict)}
            <facts::Decided shown=shown />
            <deeds::Deeds shown=shown />
            <When so=bought>
                <p class="no-print">
                    <a class="button" id="to-workshop" href=Route::Wood(id).href()>"In the workshop"</a>
                </p>
            </When>
            {live(figures)}
            <readings::ReadingsTaken shown=shown />
            <facts::Costs shown=shown />
            <facts::Cautions shown=shown />
            <deeds::Notes shown=shown />
            <History piece=piece />
        </div>
    }
}
