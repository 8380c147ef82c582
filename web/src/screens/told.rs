//! How the figures of planks, visits and pieces were worked out, once it is asked: core tells it of the
//! record as it is then.

use crate::app::App;
use leptos::prelude::{GetUntracked, RwSignal, WithUntracked};
use stillwood_core::quantity::Derivation;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{PieceFigure, PlankFigure, Total, explain_total};
use stillwood_core::verdict::Spec;

/// The spec that planks are judged by in place of that of their visits, with its name; none is theirs.
pub(crate) type Under = RwSignal<Option<(String, Spec)>>;

/// A figure of a plank.
pub(crate) fn plank_told(
    app: App,
    id: Id,
    figure: PlankFigure,
) -> impl Fn() -> Option<Derivation> + 'static {
    plank_told_under(app, id, figure, None)
}

/// A figure of a plank where all are judged by one spec.
pub(crate) fn plank_told_under(
    app: App,
    id: Id,
    figure: PlankFigure,
    under: Option<Under>,
) -> impl Fn() -> Option<Derivation> + 'static {
    move || {
        let tools = app.settings.with_untracked(|settings| settings.instruments);
        let under = under.and_then(|under| under.get_untracked());
        let spec = under.as_ref().map(|(_, spec)| spec);
        app.book_now(|state| queries::explain_plank_figure(state, id, figure, spec, &tools))
    }
}

/// A figure of a piece in the workshop.
pub(crate) fn piece_told(
    app: App,
    id: Id,
    figure: PieceFigure,
) -> impl Fn() -> Option<Derivation> + 'static {
    move || {
        let tools = app.settings.with_untracked(|settings| settings.instruments);
        app.book_now(|state| queries::explain_piece_figure(state, id, figure, &tools))
    }
}

/// A total of a visit.
pub(crate) fn total_told(
    app: App,
    visit: Id,
    total: Total,
) -> impl Fn() -> Option<Derivation> + 'static {
    move || {
        app.book_now(|state| {
            let opened = &state.visit(visit)?.opened;
            let tally = queries::tally_of(state, visit)?;
            explain_total(total, &tally, &opened.spec, &opened.currency)
        })
    }
}
