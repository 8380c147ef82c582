//! What is known of a piece, in names and figures. What was worked out tells how.

use super::stock::scale;
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::Ui;
pub use crate::words::show::money;
use crate::words::{Spoken, dates, fill, show, spoken_name, wood_names};
use chrono::NaiveDate;
use maud::{Markup, html};
use stillwood_core::plank::{Reading, mean_of_stations};
use stillwood_core::quantity::{Moisture, in_kg, in_kg_per_m3, in_m3, in_mm, mm};
use stillwood_core::record::queries;
use stillwood_core::record::{DryDay, Life, Origin, Piece, PieceFigure, PieceKind, Waits};
use stillwood_core::season::{DateKey, DriedTo, DryingError, DryingReport};

/// A fact: its name, what it is, and how it was worked out where it was.
struct Fact {
    name: &'static str,
    text: String,
    asked: Option<Asked>,
    /// Why it can't be right.
    doubt: Option<&'static str>,
}

/// Its size as it is known.
pub fn size(model: &Model, piece: &Piece) -> Option<String> {
    let size = queries::size_of(model.state(), piece);
    let sides = [
        size.length,
        mean_of_stations(&size.widths),
        mean_of_stations(&size.thicknesses),
    ];
    let known = sides.iter().any(Option::is_some);
    known.then(|| show::sizes(sides.map(|side| side.map(in_mm)), model.units()))
}

/// `hard maple laminate · 950 × 84 × 9.5 mm`.
pub fn in_a_line(model: &Model, piece: &Piece) -> String {
    let woods = wood_names::shown(&queries::woods_named(model.state(), piece.id));
    let what = format!("{woods} {}", piece.work.kind.name().spoken());
    match size(model, piece) {
        Some(size) => format!("{} · {size}", what.trim()),
        None => what.trim().to_owned(),
    }
}

/// All facts of a piece.
struct Facts<'a> {
    ui: &'a Ui<'a>,
    piece: &'a Piece,
    all: Vec<Fact>,
}

impl Facts<'_> {
    fn given(&mut self, name: &'static str, text: Option<String>) {
        let text = text.filter(|text| !text.is_empty());
        self.all.extend(text.map(|text| Fact {
            name,
            text,
            asked: None,
            doubt: None,
        }));
    }

    fn told(&mut self, name: &'static str, text: Option<String>, of: PieceFigure) {
        let asked = Asked::Piece(self.piece.id, of);
        self.all.extend(text.map(|text| Fact {
            name,
            text,
            asked: Some(asked),
            doubt: None,
        }));
    }

    /// The fact told last can't be right.
    fn questioned(&mut self, why: &'static str) {
        if let Some(fact) = self.all.last_mut() {
            fact.doubt = Some(why);
        }
    }

    fn day(&self, on: NaiveDate) -> String {
        dates::day(self.ui.w, on, self.ui.model.now.date())
    }

    fn on(&self, taken: &Reading, on: NaiveDate) -> String {
        let what = self.ui.w.workshop.typed(taken);
        fill(
            self.ui.w.racks.read_on,
            &[("what", &what), ("day", &self.day(on))],
        )
    }

    fn place(&mut self, waits: Option<&Waits>) {
        let (words, piece) = (&self.ui.w.racks, self.piece);
        let work = &piece.work;
        // What was cut, glued or discarded lies on no rack any more.
        let place = work.place().filter(|_| piece.is_at_hand());
        self.given(words.fact_rack, place.map(|place| place.payload.clone()));
        let (life, since) = piece.life_on(self.ui.model.now.date());
        let rests = matches!(life, Life::Resting(_))
            .then(|| fill(words.since, &[("day", &self.day(since))]));
        self.given(words.fact_resting, rests);
        let kept = work.reserved.as_ref().map(|kept| match kept.payload.until {
            Some(until) => fill(
                words.reserved_until,
                &[("name", &kept.payload.name), ("day", &self.day(until))],
            ),
            None => kept.payload.name.clone(),
        });
        self.given(words.fact_reserved, kept);
        self.given(
            words.fact_downgraded,
            work.downgraded.as_ref().map(|down| down.payload.to.clone()),
        );
        match waits {
            Some(Waits::Rest(_, Ok(ready))) => {
                let name = match ready.date {
                    DateKey::RestOver => words.fact_rest_over_since,
                    _ => words.fact_rest_over,
                };
                let day = self.day(ready.due);
                self.told(name, Some(day), PieceFigure::RestOverOn);
            }
            Some(Waits::Room(Ok(room))) => {
                let name = match room.date {
                    DateKey::RestOver => words.fact_cut_since,
                    _ => words.fact_cut_from,
                };
                let day = self.day(room.from);
                self.told(name, Some(day), PieceFigure::CutFrom);
            }
            _ => {}
        }
    }

    fn wood(&mut self) {
        let (words, model, piece) = (&self.ui.w.racks, self.ui.model, self.piece);
        let (state, units) = (model.state(), model.units());
        self.told(words.fact_size, size(model, piece), PieceFigure::Size);
        if piece.work.kind == PieceKind::Laminate {
            let (rings, seen) = (
                queries::rings_in(state, piece, mm(0.0)),
                piece.work.grain_seen(),
            );
            let leans = seen.rings_lean.or(rings.and_then(|rings| rings.leans));
            let parts = [
                rings.map(|rings| spoken_name(rings.class.name())),
                leans.map(|lean| spoken_name(lean.in_words())),
                seen.grain_rises.map(|rise| spoken_name(rise.in_words())),
            ];
            let parts: Vec<&str> = parts.into_iter().flatten().collect();
            let parts = if parts.is_empty() {
                words.not_known.to_owned()
            } else {
                parts.join(", ")
            };
            self.given(words.fact_rings, Some(parts));
        }
        let density = queries::density_in_shop(state, piece);
        let density = density.map(|density| show::density(in_kg_per_m3(density), units));
        self.told(words.fact_density, density, PieceFigure::Density);
    }

    fn drying(&mut self, report: Option<&Result<DryingReport, DryingError>>) {
        let (words, state, piece) = (&self.ui.w.racks, self.ui.model.state(), self.piece);
        let weighed = piece
            .work
            .weighings
            .last()
            .map(|said| self.on(&said.payload.mass, said.on));
        self.given(words.fact_weight, weighed);
        let dries = match report {
            Some(Ok(report)) => Some(report.in_words().spoken()),
            Some(Err(why)) => Some(why.spoken()),
            None => (queries::weighed_in_room(state, piece).len() > 1)
                .then(|| words.air_not_known.to_owned()),
        };
        // What is no longer there is not weighed again: that too little is known of it is no news.
        let told = matches!(report, Some(Ok(report)) if report.fit.is_some());
        self.given(
            words.fact_drying,
            dries.filter(|_| told || piece.is_at_hand()),
        );
        let moisture = piece
            .work
            .moistures
            .last()
            .map(|said| self.on(&said.payload.shown, said.on));
        self.given(words.fact_moisture, moisture);
    }

    /// What its weighings say of its moisture: how far above its room's air, where and when it settles.
    fn drying_in_figures(&mut self, report: &DryingReport) {
        let (words, units) = (&self.ui.w.racks, self.ui.model.units());
        if let Some(fit) = &report.fit {
            let moisture = |one: Moisture| show::moisture(one.in_percent());
            let [value, low, high] = [fit.left.value, fit.left.low, fit.left.high].map(moisture);
            let left = fill(
                words.between,
                &[("value", &value), ("low", &low), ("high", &high)],
            );
            self.told(
                words.fact_above_air,
                Some(left),
                PieceFigure::Drying(DriedTo::Left),
            );
            let settles = show::mass(in_kg(fit.settles_at.value), units);
            self.told(
                words.fact_settles,
                Some(settles),
                PieceFigure::Drying(DriedTo::SettlesAt),
            );
            let near = queries::dry_day(self.piece, report);
            let near = near.map(|(DryDay::Since(near) | DryDay::About(near))| {
                fill(words.about, &[("day", &self.day(near))])
            });
            self.told(words.fact_near, near, PieceFigure::Drying(DriedTo::NearIn));
        }
        let one = show::mass(in_kg(report.one_percent), units);
        self.told(
            words.fact_one_percent,
            Some(one),
            PieceFigure::Drying(DriedTo::OnePercent),
        );
    }

    fn cut_and_cost(&mut self) {
        let (words, model, piece) = (&self.ui.w.racks, self.ui.model, self.piece);
        let (state, units) = (model.state(), model.units());
        if let Some(account) = queries::cut_account(state, piece.id, &model.settings.instruments) {
            let wood = account.wood.as_ref().map(|wood| {
                let lost = show::number(in_m3(wood.lost()), 5);
                fill(
                    words.lost_of_it,
                    &[
                        ("lost", &lost),
                        ("share", &format!("{:.0}", wood.lost_percent())),
                    ],
                )
            });
            self.told(words.fact_lost, wood, PieceFigure::Lost);
            if account.is_questioned() {
                self.questioned(words.wood_questioned);
            }
            let mass = account
                .mass
                .map(|mass| show::mass(in_kg(mass.waste), units));
            self.told(words.fact_mass_gone, mass, PieceFigure::MassGone);
            if account.mass.is_some_and(|mass| mass.is_questioned()) {
                self.questioned(words.mass_questioned);
            }
        }
        let cost =
            queries::wood_cost(state, piece.id).map(|(cost, currency)| money(cost, &currency));
        self.told(words.fact_cost, cost, PieceFigure::WoodCost);
    }
}

fn listed(ui: &Ui<'_>, facts: &[Fact]) -> Markup {
    html! {
        dl.facts {
            @for fact in facts {
                dt { (fact.name) }
                dd {
                    @match &fact.asked {
                        Some(asked) => (figure(ui, fact.name, &fact.text, asked.clone())),
                        None => (fact.text),
                    }
                    @if let Some(doubt) = fact.doubt { p.notice.doubt { (doubt) } }
                }
            }
        }
    }
}

/// The part of the page. What a blank is chosen by, its gluing and its cost stand on its page among the blanks.
pub fn facts(ui: &Ui<'_>, piece: &Piece, waits: Option<&Waits>) -> Markup {
    let none_yet = || Facts {
        ui,
        piece,
        all: Vec::new(),
    };
    let report = queries::drying_report(ui.model.state(), piece, scale(ui.model));
    let mut known = none_yet();
    known.place(waits);
    known.wood();
    known.drying(report.as_ref());
    if piece.work.kind != PieceKind::Blank {
        known.cut_and_cost();
    }
    let mut drying = none_yet();
    // What lies here no more is not weighed again.
    let told = report.as_ref().and_then(|report| report.as_ref().ok());
    if let Some(report) = told.filter(|report| piece.is_at_hand() || report.fit.is_some()) {
        drying.drying_in_figures(report);
    }
    html! {
        h2.small { (ui.w.racks.facts) }
        (listed(ui, &known.all))
        @if !drying.all.is_empty() {
            details { summary { (ui.w.racks.drying_in_figures) } (listed(ui, &drying.all)) }
        }
        @if let Origin::GluedFrom { glued, .. } = &piece.work.origin {
            @if glued.adhesive.brings_water == Some(true) { p.notice.doubt { (ui.w.racks.water_caution) } }
        }
    }
}
