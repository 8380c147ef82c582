//! What a set of laminates comes to: levels for crook and twist, its figures, and what to look at first.

use super::in_hand::{InHand, MatchedFigure, runs_out_against};
use super::matching;
use crate::drawings::section::{end_of_level, level};
use crate::explain::{Asked, figure};
use crate::page::Ui;
use crate::parts::{Judged, sign};
use crate::words::{count as count_of, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::neck::{
    AgainstLimit, Judged as Comes, Laminate, MatchFigure, MatchWarning, WorseBy,
};
use stillwood_core::quantity::{in_kg, in_mm};
use stillwood_core::record::queries;

/// How many laminates lack their crook and their twist, and their moisture where the maker reads that of laminates.
fn unmeasured(ui: &Ui<'_>, of: &InHand) -> (usize, usize, usize) {
    let is_read = queries::moisture_of_laminates_is_read(ui.model.state());
    let found = of.judged.warnings.iter().find_map(|warning| match warning {
        MatchWarning::NotMeasured {
            crook,
            twist,
            moisture,
        } => Some((*crook, *twist, if is_read { *moisture } else { 0 })),
        _ => None,
    });
    found.unwrap_or_default()
}

/// Something that decides how the set keeps its shape was not measured or not looked at.
fn leaves_open(ui: &Ui<'_>, of: &InHand) -> bool {
    let mut warnings = of.judged.warnings.iter();
    unmeasured(ui, of) != (0, 0, 0)
        || warnings.any(|warning| matches!(warning, MatchWarning::NotLookedAt { .. }))
}

/// The levels: the crook that the blank is left with and the mean twist of its laminates.
pub fn levels(ui: &Ui<'_>, of: &InHand) -> Markup {
    let words = &ui.w.blanks;
    let (no_crook, no_twist, _) = unmeasured(ui, of);
    let open = leaves_open(ui, of);
    html! {
        div.levels {
            (one_level(ui, words.crook_left, in_mm(of.judged.mean_crook), in_mm(of.within.crook), (no_crook, open), MatchFigure::Crook, html! {}))
            (one_level(ui, words.mean_twist, in_mm(of.judged.mean_twist), in_mm(of.within.twist), (no_twist, open), MatchFigure::Twist, twist_kept(ui, of)))
        }
    }
}

/// What of the twist is left once the laminates are glued; a single one keeps its own.
fn twist_kept(ui: &Ui<'_>, of: &InHand) -> Markup {
    let kept = of.size.as_ref().and_then(|size| size.twist);
    let words = &ui.w.blanks;
    html! {
        @if let Some(kept) = kept.filter(|_| of.laminates.len() > 1) {
            @let shown = show::gap(in_mm(kept), ui.model.units());
            p.below { (words.twist_kept) " " (figure(ui, words.twist_kept, &shown, Asked::Matched(MatchedFigure::TwistKept))) }
        }
    }
}

fn one_level(
    ui: &Ui<'_>,
    name: &str,
    mm: f64,
    limit: f64,
    (unmeasured, open): (usize, bool),
    of: MatchFigure,
    further: Markup,
) -> Markup {
    let words = &ui.w.blanks;
    let units = ui.model.units();
    let against = AgainstLimit::of(mm, limit);
    let judged = match against.within {
        false => Judged::Bad,
        true if unmeasured > 0 => Judged::Unknown,
        true if open => Judged::Doubt,
        true => Judged::Good,
    };
    let sentence = match judged {
        Judged::Bad => words.beyond_limit,
        Judged::Unknown => words.not_all_measured,
        Judged::Doubt => words.within_but_open,
        _ => words.within_limit,
    };
    let word = fill(sentence, &[("limit", &show::gap(limit, units))]);
    let shown = show::gap(mm, units);
    let asked = Asked::Matched(MatchedFigure::Match(of));
    let advice = if of == MatchFigure::Twist {
        words.twist_how
    } else {
        words.crook_how
    };
    let scale = fill(
        words.level_scale,
        &[("end", &show::gap(end_of_level(limit), units))],
    );
    html! {
        div.card.level-card {
            p.row { span.below { (name) } strong { (figure(ui, name, &shown, asked)) } }
            (level(against.share, judged))
            p class={ "below " (judged.class()) } {
                (sign(judged)) (word)
                @if unmeasured > 0 { " " (count_of(unmeasured as u64, words.unmeasured_on_one, words.unmeasured_on_other)) }
            }
            (further)
            p.below { (scale) }
            @if judged == Judged::Bad { p.below { (advice) } }
        }
    }
}

/// What the blank comes to: weight, stiffness, and how far moistures are apart.
pub fn figures(ui: &Ui<'_>, of: &InHand) -> Markup {
    let words = &ui.w.blanks;
    let size = of.size.as_ref();
    let weight = size.and_then(|size| size.weight);
    let weight = weight.map(|weight| show::mass(in_kg(weight), ui.model.units()));
    let stiff = size.and_then(|size| size.stiffness);
    let stiff =
        stiff.map(|stiff| format!("{} N m²", show::number(stiff.in_newton_square_metres(), 0)));
    let read = of
        .laminates
        .iter()
        .filter_map(|one| Some(one.laminate.moisture?.in_percent()));
    let read: Vec<f64> = read.collect();
    let moisture = of.judged.moisture_apart.map(|apart| {
        let (low, high) = read.iter().fold((f64::MAX, f64::MIN), |(low, high), one| {
            (low.min(*one), high.max(*one))
        });
        let [low, high] = [low, high].map(|one| show::number(one, 1));
        let apart = show::moisture(apart.in_percent());
        fill(
            words.moisture_span,
            &[("low", &low), ("high", &high), ("apart", &apart)],
        )
    });
    let all = [
        (words.weight_at_12, weight, MatchedFigure::Weight),
        (words.stiffness, stiff, MatchedFigure::Stiffness),
        (words.moisture, moisture, MatchedFigure::Moisture),
    ];
    html! {
        dl.trio {
            @for (name, shown, asked) in &all { div { dt { (name) } dd { (one_figure(ui, name, shown.as_deref(), *asked)) } } }
        }
        @if !queries::moisture_of_laminates_is_read(ui.model.state()) { p.below { (words.moisture_never_read) } }
    }
}

fn one_figure(ui: &Ui<'_>, name: &str, shown: Option<&str>, asked: MatchedFigure) -> Markup {
    html! {
        @match shown {
            Some(shown) => (figure(ui, name, shown, Asked::Matched(asked))),
            None => span.open { (ui.w.blanks.not_known) },
        }
    }
}

/// Its size, its bow, and how far it is from perfect.
pub fn more_figures(ui: &Ui<'_>, of: &InHand) -> Markup {
    let words = &ui.w.blanks;
    let units = ui.model.units();
    let sizes = of
        .size
        .as_ref()
        .map(|size| show::sizes(size.as_it_lies().map(|one| Some(in_mm(one))), units));
    let bow = show::gap(in_mm(of.judged.bow_left), units);
    let cost = fill(words.out_by, &[("n", &show::number(of.judged.cost, 2))]);
    let all = [
        (
            words.limits_from_perfect,
            Some(cost),
            MatchedFigure::Match(MatchFigure::Cost),
        ),
        (words.size, sizes, MatchedFigure::Size),
        (
            words.bow_left,
            Some(bow),
            MatchedFigure::Match(MatchFigure::Bow),
        ),
    ];
    html! {
        details {
            summary { (words.more_figures) }
            dl.facts.fit {
                @for (name, shown, asked) in &all { dt { (name) } dd { (one_figure(ui, name, shown.as_deref(), *asked)) } }
            }
        }
    }
}

/// What speaks against a set, and what is to be looked at before it is glued.
pub struct ToCheck {
    stop: Vec<String>,
    doubt: Vec<String>,
}

impl ToCheck {
    /// All that is told of a set.
    pub fn of(ui: &Ui<'_>, of: &InHand) -> Self {
        let told = of.judged.warnings.iter();
        let told = told.filter_map(|one| warning(ui, of, one));
        let (stop, doubt): (Vec<_>, Vec<_>) = told.partition(|(_, stop)| *stop);
        let [stop, mut doubt] =
            [stop, doubt].map(|all| all.into_iter().map(|(said, _)| said).collect::<Vec<_>>());
        doubt.splice(0..0, old_looks(ui, of));
        doubt.extend(woods_unasked(ui, of));
        Self { stop, doubt }
    }

    /// How many things there are.
    pub fn count(&self) -> usize {
        self.stop.len() + self.doubt.len()
    }
}

/// Says which laminates of the set were looked over too long ago.
fn old_looks(ui: &Ui<'_>, of: &InHand) -> Option<String> {
    let old = of.laminates.iter().filter(|one| one.is_look_old);
    let marks: Vec<&str> = old.map(|one| one.mark.as_str()).collect();
    let said = || fill(ui.w.blanks.warn_look_old, &[("marks", &marks.join(", "))]);
    (!marks.is_empty()).then(said)
}

/// What to look at before it is glued.
pub fn warnings(ui: &Ui<'_>, of: &InHand) -> Markup {
    let words = &ui.w.blanks;
    let ToCheck { stop, doubt } = ToCheck::of(ui, of);
    html! {
        div.warnings #warnings {
            @for said in stop { p.notice.bad { (said) } }
            @if !doubt.is_empty() {
                details open {
                    summary { span.doubt { (sign(Judged::Doubt)) (count_of(doubt.len() as u64, words.check_first_one, words.check_first_other)) } }
                    @for said in doubt { p.notice.doubt { (said) } }
                }
            }
        }
    }
}

/// Says so where a set is of more than one wood and none was asked for.
fn woods_unasked(ui: &Ui<'_>, of: &InHand) -> Option<String> {
    let mut woods: Vec<&str> = Vec::new();
    for one in &of.laminates {
        if !woods.contains(&one.wood.as_str()) {
            woods.push(&one.wood);
        }
    }
    let asked = matching::woods_wanted(ui.model)
        .iter()
        .any(|wood| !wood.is_empty());
    let said = || {
        fill(
            ui.w.blanks.woods_mixed,
            &[
                ("n", &woods.len()),
                ("woods", &wood_names::shown(&woods.join(", "))),
            ],
        )
    };
    (woods.len() > 1 && !asked).then(said)
}

/// A warning in words, and whether it is one to stop at; none for what the maker never measures.
fn warning(ui: &Ui<'_>, set: &InHand, of: &MatchWarning) -> Option<(String, bool)> {
    let words = &ui.w.blanks;
    let lacks = |what: &str, lacks: fn(&Laminate) -> bool| {
        let of = set.laminates.iter().filter(|one| lacks(&one.laminate));
        let marks: Vec<&str> = of.map(|one| one.mark.as_str()).collect();
        match marks.len() {
            0 => None,
            n if n == set.laminates.len() => Some(fill(words.what_on_all, &[("what", &what)])),
            _ => Some(fill(
                words.what_on,
                &[("what", &what), ("marks", &marks.join(", "))],
            )),
        }
    };
    let parts = |of: Vec<Option<String>>| of.into_iter().flatten().collect::<Vec<_>>().join("; ");
    Some(match of {
        MatchWarning::MoistureSpread(spread) => {
            let apart = show::moisture(spread.in_percent());
            (fill(words.warn_moisture, &[("apart", &apart)]), true)
        }
        MatchWarning::MixedRingClasses => (words.warn_ring_classes.to_owned(), true),
        MatchWarning::WoodNotMirrored => (words.warn_not_mirrored.to_owned(), true),
        MatchWarning::RingsNotAlternating(n) => (
            count_of(*n as u64, words.warn_rings_one, words.warn_rings_other),
            false,
        ),
        MatchWarning::RunoutBothWays(_) => {
            let marks = runs_out_against(set).join(", ");
            (fill(words.warn_runout, &[("marks", &marks)]), false)
        }
        MatchWarning::NotMeasured { .. } => {
            let is_read = queries::moisture_of_laminates_is_read(ui.model.state());
            let moisture = || lacks(words.moisture_small, |one| one.moisture.is_none());
            let what = parts(vec![
                lacks(words.crook, |one| one.crook.is_none()),
                lacks(words.twist, |one| one.twist.is_none()),
                is_read.then(moisture).flatten(),
            ]);
            if what.is_empty() {
                return None;
            }
            (fill(words.warn_not_measured, &[("what", &what)]), false)
        }
        MatchWarning::NotLookedAt { .. } => {
            let what = parts(vec![
                lacks(words.rings_lean, |one| one.lean.is_none()),
                lacks(words.grain_runs, |one| one.rise.is_none()),
            ]);
            (fill(words.warn_not_looked, &[("what", &what)]), false)
        }
    })
}

/// Whether a set is better than another; where it is worse, by what.
pub fn better_or_worse(ui: &Ui<'_>, one: &Comes, other: &Comes) -> String {
    let words = &ui.w.blanks;
    let within = queries::match_limits(ui.model.state());
    if let Some(by) = other.worse_by(one, &within) {
        let why = match by {
            WorseBy::Moisture => words.better_moisture,
            WorseBy::RingClasses => words.better_ring_classes,
            WorseBy::Wood => words.better_wood,
            WorseBy::Crook => words.better_crook,
            WorseBy::Twist => words.better_twist,
            WorseBy::NotMeasured => words.better_not_measured,
            WorseBy::Grain => words.better_grain,
            WorseBy::Pairs => words.better_pairs,
        };
        return fill(words.better, &[("why", &why)]);
    }
    let Some(by) = one.worse_by(other, &within) else {
        return words.the_same.to_owned();
    };
    let why = match by {
        WorseBy::Moisture => words.worse_moisture,
        WorseBy::RingClasses => words.worse_ring_classes,
        WorseBy::Wood => words.worse_wood,
        WorseBy::Crook => words.worse_crook,
        WorseBy::Twist => words.worse_twist,
        WorseBy::NotMeasured => words.worse_not_measured,
        WorseBy::Grain => words.worse_grain,
        WorseBy::Pairs => words.worse_pairs,
    };
    fill(words.worse, &[("why", &why)])
}
