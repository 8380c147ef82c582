//! The screen of a model: a pure function.

use crate::model::Model;
use crate::page::{Layout, Page};
use crate::parts::{dialog, task_head, toast, urgent};
use crate::route::Route;
use crate::words::speaking;
use crate::{blanks, book, racks, today, yard};
use maud::html;
use stillwood_core::record::queries::PutAway;

/// The screen, in the language of the settings.
pub fn view(model: &Model) -> Page {
    speaking(model.settings.language, || drawn(model))
}

fn drawn(model: &Model) -> Page {
    let page = screen(model).unwrap_or_else(|| missing(model));
    let mut page = with_words_on_what_happens(model, page).with(model, "over", "div", dialog);
    page.language = model.settings.language;
    page
}

/// Whatever the screen: what is not kept is told there and then, and so is what was done. Always a region of its own, so that news that come
/// and go leave the rest of the page alone.
fn with_words_on_what_happens(model: &Model, mut page: Page) -> Page {
    let has = |page: &Page, id: &str| page.regions.iter().any(|region| region.id == id);
    if !has(&page, "toast") {
        page = page.with(model, "toast", "div", toast);
    }
    if has(&page, "notices") {
        return page;
    }
    let below_the_head = page
        .regions
        .iter()
        .position(|region| region.id == "head")
        .map_or(0, |at| at + 1);
    let mut page = page.with(model, "notices", "div", urgent);
    if let Some(region) = page.regions.pop() {
        page.regions.insert(below_the_head, region);
    }
    page
}

fn screen(model: &Model) -> Option<Page> {
    match model.route {
        Route::Yard => Some(yard::place::view(model)),
        Route::NewVisit => Some(yard::forms::new_visit(model)),
        Route::EditVisit(id) => yard::forms::edit_visit(model, id),
        Route::Visit(id) => yard::visit::view(model, id),
        Route::NewPile(id) => yard::forms::new_pile(model, id),
        Route::EditPile(id) => yard::forms::edit_pile(model, id),
        Route::Spec(id) => yard::spec::view(model, id),
        Route::Target(id) => yard::spec::target(model, id),
        Route::PileSummary(id) => yard::pile::view(model, id),
        Route::Plank(id) => yard::plank::view(model, id),
        Route::Tally(id) => yard::tally::view(model, id),
        Route::Seller(id) => yard::seller::view(model, id),
        Route::Planks => Some(yard::planks::view(model)),
        Route::Sort(id) => yard::sort::view(model, id),
        Route::Measure(id) => yard::measure::view(model, id),
        Route::Verdict(id) => yard::verdict::view(model, id),
        Route::Mark(id) => yard::mark::view(model, id),
        Route::Blanks => Some(blanks::place::view(model)),
        Route::Blank(id) => blanks::place::one(model, id),
        Route::Match => Some(blanks::match_view::view(model)),
        Route::GlueUp => Some(blanks::glue_up::view(model)),
        Route::GluingLimits => Some(blanks::glue_up::limits_view(model)),
        Route::SideBySide => Some(blanks::side_by_side::view(model)),
        Route::Papers(id) => blanks::papers::view(model, id),
        Route::Today => Some(today::home::view(model)),
        Route::Find => Some(today::find::view(model)),
        Route::Racks => Some(racks::list::view(model)),
        Route::Rack(id) => racks::rack::view(model, id),
        Route::RackPlanks(id) => racks::put_away::view(model, PutAway::PlanksOfVisit(id)),
        Route::RestParts(id) => racks::put_away::view(model, PutAway::PartsOfCut(id)),
        Route::Piece(id) => racks::piece::view(model, id),
        Route::Deed(id) => racks::deed::view(model, id),
        Route::Cut(id) => racks::cut::view(model, id),
        Route::RestTimes => Some(racks::rests::view(model)),
        Route::Label(id) => racks::label::view(model, id),
        Route::RackLabel(id) => racks::label::of_rack(model, id),
        Route::LookOver => Some(racks::look_over::view(model)),
        Route::Book => Some(book::place::view(model)),
        Route::Share => Some(book::share::view(model)),
        Route::BroughtIn => Some(book::imports::view(model)),
        Route::Deleted => Some(book::deleted::view(model)),
        Route::Settle => Some(book::settle_cards::view(model)),
        Route::QuickQuestions => Some(book::questions::view(model)),
        Route::Settings => Some(book::settings::view(model)),
        Route::Woods => Some(book::woods::view(model)),
        Route::NewWood => book::own_wood::view(model, None),
        Route::EditWood(id) => book::own_wood::view(model, Some(id)),
        Route::TrackRecord => Some(book::track_record::view(model)),
        Route::Plan => Some(book::plan::view(model)),
        Route::About => Some(book::about::view(model)),
    }
}

/// A screen for what is not in the record.
fn missing(model: &Model) -> Page {
    let title = model.words().common.app;
    Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, title, "", html! {})
        })
        .with(
            model,
            "body",
            "main",
            |ui| html! { p { (ui.w.common.not_here) } },
        )
}
