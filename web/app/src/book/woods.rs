//! The woods: the table and the maker's own, each with its numbers, their sources, and the cautions.

use super::parts::screen;
use crate::effect::Effect;
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, Judged, Typed, icon, sign, typed as field};
use crate::route::Route;
use crate::words::{Spoken, count, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::quantity::{in_gpa, in_kg_per_m3, in_metres_per_second};
use stillwood_core::record::{Id, queries};
use stillwood_core::wood::{Dust, Sourced, Species, TradeStatus, species};

/// The field of the search.
const SEARCH: &str = "search woods";

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Show a wood, or show it no more.
    Show(String),
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    let Action::Show(id) = action;
    show(model, id)
}

/// Shows a wood of the table; the one that is shown on a narrow screen goes again.
pub fn show(model: &mut Model, id: String) -> Vec<Effect> {
    if model.book.wood.as_ref() == Some(&id) && !model.shell.wide {
        model.book.wood = None;
        return Vec::new();
    }
    let at = field_of(&id);
    model.book.wood = Some(id);
    vec![Effect::ScrollTo(at)]
}

/// Something typed into the search.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    model.book.texts.insert(name.to_owned(), text);
    Vec::new()
}

fn field_of(id: &str) -> String {
    format!("wood-{id}")
}

/// The maker's own first, then the table; what the search leaves of them, best first.
fn shown<'a>(own: &'a [Species], search: &str) -> Vec<&'a Species> {
    let all = own.iter().chain(species());
    match search.trim() {
        "" => all.collect(),
        typed => wood_names::search_woods(all, typed)
            .into_iter()
            .map(|(wood, _)| wood)
            .collect(),
    }
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().woods;
    let own = queries::own_woods(model.state());
    let mut page = screen(model, words.title, "");
    if model.shell.wide {
        page.layout = Layout::ListAndPane;
        page = page.with(model, "body", "main", |ui| list(ui, &own, false));
        return page.with(model, "pane", "aside", |ui| {
            let wood = ui.model.book.wood.as_ref();
            let wood = wood.and_then(|id| queries::wood(ui.model.state(), id));
            html! {
                @match wood {
                    Some(wood) => { h2 { (wood_names::wood_name(&wood)) } (told(ui, &wood)) },
                    None => p.below { (ui.w.woods.pick) },
                }
            }
        });
    }
    page.with(model, "body", "main", |ui| list(ui, &own, true))
}

fn list(ui: &Ui<'_>, own: &[Species], in_place: bool) -> Markup {
    let words = &ui.w.woods;
    let search = ui.model.book.texts.get(SEARCH).map_or("", String::as_str);
    let found = shown(own, search);
    html! {
        (field(&Typed { name: SEARCH, label: words.search, value: search, ..Typed::default() }))
        p.below role="status" { (count(found.len() as u64, words.woods_one, words.woods_other)) }
        @if found.is_empty() { p.notice { (words.none_found) } }
        ul.list.spaced.woods {
            @for wood in found {
                @let open = ui.model.book.wood.as_deref() == Some(wood.id());
                li id=(field_of(wood.id())) {
                    button.item type="button" aria-expanded=(open.to_string()) aria-current=[open.then_some("true")]
                        data-press=(ui.press(Action::Show(wood.id().to_owned())))
                    {
                        svg.wood-colour viewBox="0 0 24 24" aria-hidden="true" { rect width="24" height="24" rx="6" fill=(wood.colour()) {} }
                        span.what { strong { (wood_names::wood_name(wood)) } span.below { (called(wood)) } }
                        @if let Some(density) = wood.density_at_12() {
                            span.nowrap { (show::density(in_kg_per_m3(density.value), ui.model.units())) }
                        }
                    }
                    @if open && in_place { div.inside { (told(ui, wood)) } }
                }
            }
        }
        button.key.big.whole type="button" data-press=(ui.press(Route::NewWood)) { (icon(Icon::Add)) (words.add) }
    }
}

/// Its botanical name, and what else it is called: a yard may name it by any of these.
fn called(wood: &Species) -> String {
    let others = wood_names::aliases(wood).join(", ");
    let names = [wood.scientific_name(), &others];
    let names = names.into_iter().filter(|name| !name.is_empty());
    names.collect::<Vec<_>>().join(" · ")
}

/// A number of a wood: its name, how it is shown, and whose it is.
type Number<'a> = (&'a str, String, String);

fn numbers(ui: &Ui<'_>, wood: &Species) -> Vec<Number<'static>> {
    let (words, units) = (&ui.w.woods, ui.model.units());
    fn sourced<T: Copy>(
        of: Option<Sourced<T>>,
        shown: impl Fn(T) -> String,
    ) -> Option<(String, String)> {
        of.map(|of| (shown(of.value), of.source().spoken()))
    }
    let percent = |value: f64| format!("{} %", show::number(value, 1));
    let density = |value| show::density(in_kg_per_m3(value), units);
    let usual = wood.usual_density_at_12();
    let all = [
        (words.density, sourced(wood.density_at_12(), density)),
        (
            words.usual_density,
            usual.map(|usual| {
                let ends = fill(
                    words.from_to,
                    &[("low", &density(usual.low)), ("high", &density(usual.high))],
                );
                (ends, usual.source().spoken())
            }),
        ),
        (
            words.gravity,
            sourced(wood.basic_gravity(), |value| show::number(value, 2)),
        ),
        (
            words.radial,
            sourced(wood.radial_shrinkage(), |value| percent(value.in_percent())),
        ),
        (
            words.tangential,
            sourced(wood.tangential_shrinkage(), |value| {
                percent(value.in_percent())
            }),
        ),
        (
            words.volumetric,
            sourced(wood.volumetric_shrinkage(), |value| {
                percent(value.in_percent())
            }),
        ),
        (
            words.stiffness,
            sourced(wood.stiffness_at_12(), |value| {
                format!("{} GPa", show::number(in_gpa(value), 1))
            }),
        ),
        (
            words.sound,
            wood.speed_of_sound_at_12().map(|speed| {
                (
                    format!("{} m/s", show::number(in_metres_per_second(speed), 0)),
                    words.from_both.to_owned(),
                )
            }),
        ),
    ];
    let shown = |(name, value): (&'static str, Option<(String, String)>)| {
        let (value, source) = value.unwrap_or_else(|| (words.not_known.to_owned(), String::new()));
        (name, value, source)
    };
    all.into_iter().map(shown).collect()
}

/// What is known of a wood.
fn told(ui: &Ui<'_>, wood: &Species) -> Markup {
    let words = &ui.w.woods;
    let (dust, trade) = (wood.dust(), wood.trade());
    let judged = match dust.dust {
        Dust::General => Judged::Good,
        Dust::Irritant | Dust::Unknown => Judged::Doubt,
        Dust::Sensitiser => Judged::Bad,
    };
    let listed = match trade {
        TradeStatus::Listed(_) => Judged::Bad,
        TradeStatus::NoneKnown => Judged::Unknown,
        TradeStatus::Unknown => Judged::Doubt,
    };
    let others = wood_names::other_names(wood);
    let own = own_wood(ui.model, wood.id());
    html! {
        @if !others.is_empty() { p.below { (fill(words.also, &[("names", &others.join(", "))])) } }
        ul.lines {
            @for (name, value, source) in numbers(ui, wood) {
                li {
                    p.row { span { (name) } strong { (value) } }
                    @if !source.is_empty() { p.below { (source) } }
                }
            }
        }
        h3 { (words.dust) }
        p { (sign(judged)) (dust.words().spoken()) }
        h3 { (words.trade) }
        p { (sign(listed)) (trade.words().spoken()) }
        @if let Some((about, note)) = own {
            @if !note.is_empty() { h3 { (words.note) } p { bdi { (note) } } }
            div.keys.last {
                button.key type="button" data-press=(ui.press(Route::EditWood(about))) { (icon(Icon::Edit)) (words.change) }
            }
        }
    }
}

/// The entry of a wood of the maker's own, and the note on it.
fn own_wood(model: &Model, id: &str) -> Option<(Id, String)> {
    let wood = model.state().woods().get(id)?;
    Some((wood.about, wood.added.note.clone()))
}
