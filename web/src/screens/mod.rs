//! The screens: each in its own file, each reading the book and writing deeds through the app's state.

mod about;
mod ask;
mod blanks;
mod carry;
mod cut;
mod device;
mod figures;
mod glue;
mod glued;
mod home;
mod learn;
mod mark;
mod measure;
mod own_wood;
mod pile;
mod pile_form;
mod plan;
mod planks;
mod reasons;
mod seller;
mod settings;
mod sheet;
mod spec_form;
mod tally;
mod told;
mod visit;
mod visit_form;
mod wish;
mod words;
mod workshop;

pub(crate) use told::{Under, piece_told, plank_told, plank_told_under, total_told};
pub(crate) use visit_form::decimal;

use crate::app::App;
use crate::parts::{Tells, Toasts, live};
use crate::route::Route;
use leptos::prelude::*;

/// The screen that the address names, and the words over it.
pub(crate) fn root(app: App) -> impl IntoView {
    let screen = move || match app.route.get() {
        Route::Home => view! { <home::Home /> }.into_any(),
        Route::VisitForm(id) => view! { <visit_form::VisitForm id=id /> }.into_any(),
        Route::Visit(id) => view! { <visit::VisitScreen id=id /> }.into_any(),
        Route::Spec(id) => view! { <spec_form::SpecForm id=id /> }.into_any(),
        Route::NewPile(id) => view! { <pile_form::PileForm visit=id id=None /> }.into_any(),
        Route::EditPile(id) => {
            match app.book_now(|state| state.pile(id).map(|pile| pile.opened.visit)) {
                Some(visit) => view! { <pile_form::PileForm visit=visit id=Some(id) /> }.into_any(),
                None => view! { <home::Home /> }.into_any(),
            }
        }
        Route::Pile(id) => view! { <pile::PileScreen id=id /> }.into_any(),
        Route::Measure(id) => view! { <measure::Measure id=id /> }.into_any(),
        Route::Sheet(id) => view! { <sheet::SheetScreen id=id /> }.into_any(),
        Route::Mark(id) => view! { <mark::MarkScreen id=id /> }.into_any(),
        Route::Tally(id) => view! { <tally::TallyScreen id=id /> }.into_any(),
        Route::Seller(id) => view! { <seller::Seller id=id /> }.into_any(),
        Route::Carry => view! { <carry::Carry /> }.into_any(),
        Route::Planks => view! { <planks::Planks /> }.into_any(),
        Route::Ask => view! { <ask::Ask /> }.into_any(),
        Route::OwnWood(id) => view! { <own_wood::OwnWoodScreen id=id /> }.into_any(),
        Route::Settings => view! { <settings::SettingsScreen /> }.into_any(),
        Route::About => view! { <about::About /> }.into_any(),
        Route::Workshop => view! { <workshop::Workshop /> }.into_any(),
        Route::Wood(id) => view! { <workshop::WoodScreen id=id /> }.into_any(),
        Route::Check => view! { <workshop::Check /> }.into_any(),
        Route::Rests => view! { <workshop::Rests /> }.into_any(),
        Route::Cut(id) => cut::cut_screen(id),
        Route::Glue => glue::glue_screen(),
        Route::Blanks => blanks::blanks_screen(),
        Route::Choice => blanks::choice_screen(),
        Route::Learn => learn::learn_screen(),
        Route::Plan => plan::plan_screen(),
    };
    view! {
        <Toasts />
        <Tells />
        {live(screen)}
    }
}
