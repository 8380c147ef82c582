//! The screen of a model: a pure function.

use crate::model::Model;
use crate::page::{Layout, Page, Region};
use crate::parts::{dialog, task_head, toast, urgent};
use crate::route::Route;
use crate::words::speaking;
use crate::{blanks, book, racks, today, yard};
use maud::html;
use stillwood_core::record::Id;
use stillwood_core::record::queries::PutAway;

/// The screen, in the language of the settings.
pub fn view(model: &Model) -> Page {
    speaking(model.settings.language, || drawn(model))
}

/// Some regions of the screen by themselves, drawn as on the whole screen; those that it has.
pub fn regions(model: &mut Model, ids: &'static [&'static str]) -> Vec<Region> {
    model.shell.draws_alone = Some(ids);
    let page = speaking(model.settings.language, || screen(model));
    model.shell.draws_alone = None;
    let drawn = page.map_or_else(Vec::new, |page| page.regions);
    let is_asked = |region: &Region| ids.contains(&region.id);
    drawn.into_iter().filter(is_asked).collect()
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
        Route::Yard => whole(yard::place::view, model),
        Route::NewVisit => whole(yard::forms::new_visit, model),
        Route::EditVisit(id) => of_one(yard::forms::edit_visit, model, id),
        Route::Visit(id) => of_one(yard::visit::view, model, id),
        Route::NewPile(id) => of_one(yard::forms::new_pile, model, id),
        Route::EditPile(id) => of_one(yard::forms::edit_pile, model, id),
        Route::Spec(id) => of_one(yard::spec::view, model, id),
        Route::Target(id) => of_one(yard::spec::target, model, id),
        Route::PileSummary(id) => of_one(yard::pile::view, model, id),
        Route::Plank(id) => of_one(yard::plank::view, model, id),
        Route::Tally(id) => of_one(yard::tally::view, model, id),
        Route::Seller(id) => of_one(yard::seller::view, model, id),
        Route::Planks => whole(yard::planks::view, model),
        Route::Sort(id) => of_one(yard::sort::view, model, id),
        Route::Measure(id) => of_one(yard::measure::view, model, id),
        Route::Verdict(id) => of_one(yard::verdict::view, model, id),
        Route::Mark(id) => of_one(yard::mark::view, model, id),
        Route::Blanks => whole(blanks::place::view, model),
        Route::Blank(id) => of_one(blanks::place::one, model, id),
        Route::Match => whole(blanks::match_view::view, model),
        Route::GlueUp => whole(blanks::glue_up::view, model),
        Route::GluingLimits => whole(blanks::glue_up::limits_view, model),
        Route::SideBySide => whole(blanks::side_by_side::view, model),
        Route::Papers(id) => of_one(blanks::papers::view, model, id),
        Route::Today => whole(today::home::view, model),
        Route::Find => whole(today::find::view, model),
        Route::Racks => whole(racks::list::view, model),
        Route::Rack(id) => of_one(racks::rack::view, model, id),
        Route::RackPlanks(id) => racks::put_away::view(model, PutAway::PlanksOfVisit(id)),
        Route::RestParts(id) => racks::put_away::view(model, PutAway::PartsOfCut(id)),
        Route::RestBlank(id) => racks::put_away::view(model, PutAway::GluedBlank(id)),
        Route::Piece(id) => of_one(racks::piece::view, model, id),
        Route::Deed(id) => of_one(racks::deed::view, model, id),
        Route::Cut(id) => of_one(racks::cut::view, model, id),
        Route::RestTimes => whole(racks::rests::view, model),
        Route::Label(id) => of_one(racks::label::view, model, id),
        Route::RackLabel(id) => of_one(racks::label::of_rack, model, id),
        Route::LookOver => whole(racks::look_over::view, model),
        Route::Book => whole(book::place::view, model),
        Route::Share => whole(book::share::view, model),
        Route::BroughtIn => whole(book::imports::view, model),
        Route::Deleted => whole(book::deleted::view, model),
        Route::Settle => whole(book::settle_cards::view, model),
        Route::QuickQuestions => whole(book::questions::view, model),
        Route::Settings => whole(book::settings::view, model),
        Route::Woods => whole(book::woods::view, model),
        Route::NewWood => book::own_wood::view(model, None),
        Route::EditWood(id) => book::own_wood::view(model, Some(id)),
        Route::TrackRecord => whole(book::track_record::view, model),
        Route::Plan => whole(book::plan::view, model),
        Route::About => whole(book::about::view, model),
    }
}

/// Calls what draws a screen, by its address: so each stays a function by itself, and a start compiles the one that
/// it shows, not all.
#[inline(never)]
fn whole(draw: fn(&Model) -> Page, model: &Model) -> Option<Page> {
    Some(draw(model))
}

/// The same for the screen of one thing in the record.
#[inline(never)]
fn of_one(draw: fn(&Model, Id) -> Option<Page>, model: &Model, id: Id) -> Option<Page> {
    draw(model, id)
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
