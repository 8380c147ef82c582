//! Which screen is shown: kept in the part of the address after `#`, so that the browser's own back
//! key works and every screen can be reloaded.

use leptos::prelude::*;
use stillwood_core::record::Id;
use wasm_bindgen::prelude::*;

/// A screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Route {
    /// Visits, the demo, what is not yet carried off the phone.
    Home,
    /// A new visit, or one to change.
    VisitForm(Option<Id>),
    /// A visit: piles, picks, what is still needed.
    Visit(Id),
    /// The spec of a visit.
    Spec(Id),
    /// A new pile of a visit.
    NewPile(Id),
    /// A pile to change.
    EditPile(Id),
    /// The quick sort of a pile, and its maybes.
    Pile(Id),
    /// A plank being measured.
    Measure(Id),
    /// A plank's whole sheet.
    Sheet(Id),
    /// A plank's mark, large.
    Mark(Id),
    /// Tally and payment of a visit.
    Tally(Id),
    /// What the seller may see.
    Seller(Id),
    /// Files out and in.
    Carry,
    /// All planks, as a table.
    Planks,
    /// Quick questions, without a plank.
    Ask,
    /// A new wood of the maker's own, or one to change.
    OwnWood(Option<Id>),
    /// Units, tools, storage.
    Settings,
    /// Cautions, sources, how the numbers are meant.
    About,
    /// What is due in the workshop.
    Workshop,
    /// A piece of wood in the workshop: a plank, or what was made of one.
    Wood(Id),
    /// A shelf looked through for movement.
    Check,
    /// Rests, limits and rooms.
    Rests,
    /// A plank or piece being cut.
    Cut(Id),
    /// Laminates being glued to a blank.
    Glue,
    /// The blanks.
    Blanks,
    /// Blanks side by side, to be chosen from.
    Choice,
    /// What came of the wood.
    Learn,
    /// Plans forward and back.
    Plan,
}

impl Route {
    /// The address of the screen.
    pub(crate) fn href(self) -> String {
        match self {
            Route::Home => "#/".into(),
            Route::VisitForm(None) => "#/visit/new".into(),
            Route::VisitForm(Some(id)) => format!("#/visit-form/{id}"),
            Route::Visit(id) => format!("#/visit/{id}"),
            Route::Spec(id) => format!("#/spec/{id}"),
            Route::NewPile(id) => format!("#/new-pile/{id}"),
            Route::EditPile(id) => format!("#/pile-form/{id}"),
            Route::Pile(id) => format!("#/pile/{id}"),
            Route::Measure(id) => format!("#/measure/{id}"),
            Route::Sheet(id) => format!("#/plank/{id}"),
            Route::Mark(id) => format!("#/mark/{id}"),
            Route::Tally(id) => format!("#/tally/{id}"),
            Route::Seller(id) => format!("#/seller/{id}"),
            Route::Carry => "#/carry".into(),
            Route::Planks => "#/planks".into(),
            Route::Ask => "#/ask".into(),
            Route::OwnWood(None) => "#/own-wood".into(),
            Route::OwnWood(Some(id)) => format!("#/own-wood/{id}"),
            Route::Settings => "#/settings".into(),
            Route::About => "#/about".into(),
            Route::Workshop => "#/workshop".into(),
            Route::Wood(id) => format!("#/wood/{id}"),
            Route::Check => "#/check".into(),
            Route::Rests => "#/rests".into(),
            Route::Cut(id) => format!("#/cut/{id}"),
            Route::Glue => "#/glue".into(),
            Route::Blanks => "#/blanks".into(),
            Route::Choice => "#/choice".into(),
            Route::Learn => "#/learn".into(),
            Route::Plan => "#/plan".into(),
        }
    }

    /// The screen of an address; home for one that is none.
    pub(crate) fn from_hash(hash: &str) -> Route {
        let mut parts = hash.trim_start_matches(['#', '/']).splitn(2, '/');
        let screen = parts.next().unwrap_or_default();
        let id = parts.next().and_then(|id| id.parse().ok());
        match (screen, id) {
            ("visit", Some(id)) => Route::Visit(id),
            ("visit", None) => Route::VisitForm(None),
            ("visit-form", Some(id)) => Route::VisitForm(Some(id)),
            ("spec", Some(id)) => Route::Spec(id),
            ("new-pile", Some(id)) => Route::NewPile(id),
            ("pile-form", Some(id)) => Route::EditPile(id),
            ("pile", Some(id)) => Route::Pile(id),
            ("measure", Some(id)) => Route::Measure(id),
            ("plank", Some(id)) => Route::Sheet(id),
            ("mark", Some(id)) => Route::Mark(id),
            ("tally", Some(id)) => Route::Tally(id),
            ("seller", Some(id)) => Route::Seller(id),
            ("carry", _) => Route::Carry,
            ("planks", _) => Route::Planks,
            ("ask", _) => Route::Ask,
            ("own-wood", id) => Route::OwnWood(id),
            ("settings", _) => Route::Settings,
            ("about", _) => Route::About,
            ("workshop", _) => Route::Workshop,
            ("wood", Some(id)) => Route::Wood(id),
            ("check", _) => Route::Check,
            ("rests", _) => Route::Rests,
            ("cut", Some(id)) => Route::Cut(id),
            ("glue", _) => Route::Glue,
            ("blanks", _) => Route::Blanks,
            ("choice", _) => Route::Choice,
            ("learn", _) => Route::Learn,
            ("plan", _) => Route::Plan,
            _ => Route::Home,
        }
    }
}

fn hash() -> String {
    window().location().hash().unwrap_or_default()
}

/// The route as a signal that follows the address.
pub(crate) fn follow_address() -> RwSignal<Route> {
    let route = RwSignal::new(Route::from_hash(&hash()));
    let changed = Closure::<dyn FnMut()>::new(move || {
        route.set(Route::from_hash(&hash()));
        window().scroll_to_with_x_and_y(0.0, 0.0);
    });
    let listening =
        window().add_event_listener_with_callback("hashchange", changed.as_ref().unchecked_ref());
    if let Err(why) = listening {
        leptos::logging::error!("the back key will not work: {why:?}");
    }
    changed.forget();
    route
}

/// Goes to a screen, as a step that the back key undoes.
pub(crate) fn go(to: Route) {
    if let Err(why) = window().location().set_hash(&to.href()) {
        leptos::logging::error!("could not go to {to:?}: {why:?}");
    }
}

/// Goes to a screen in place of this one.
pub(crate) fn replace(to: Route) {
    if let Err(why) = window().location().replace(&to.href()) {
        leptos::logging::error!("could not go to {to:?}: {why:?}");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn every_screen_is_found_again_by_its_address() {
        let id = Id::from_u128(0x017f_22e2_79b0_7cc3_98c4_dc0c_0c07_398f);
        for route in [
            Route::Home,
            Route::VisitForm(None),
            Route::VisitForm(Some(id)),
            Route::Visit(id),
            Route::Spec(id),
            Route::NewPile(id),
            Route::EditPile(id),
            Route::Pile(id),
            Route::Measure(id),
            Route::Sheet(id),
            Route::Mark(id),
            Route::Tally(id),
            Route::Seller(id),
            Route::Carry,
            Route::Planks,
            Route::Ask,
            Route::OwnWood(None),
            Route::OwnWood(Some(id)),
            Route::Settings,
            Route::About,
            Route::Workshop,
            Route::Wood(id),
            Route::Check,
            Route::Rests,
            Route::Cut(id),
            Route::Glue,
            Route::Blanks,
            Route::Choice,
            Route::Learn,
            Route::Plan,
        ] {
            assert_eq!(Route::from_hash(&route.href()), route);
        }
        for lost in ["", "#", "#/nowhere", "#/pile/not-an-id", "#/../../etc"] {
            assert_eq!(Route::from_hash(lost), Route::Home, "{lost}");
        }
    }
}
