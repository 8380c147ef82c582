//! The set of laminates in hand: what it comes to, what another laminate would make of it, and how its figures were
//! worked out.

use super::at_hand::at_hand;
use crate::model::Model;
use crate::words::{fill, show};
use stillwood_core::neck::{
    self, Judged, Laminate, MatchFigure, MatchLimits, Placed, Proposal, Turn, explain_match,
    judge_match, put_by_hand,
};
use stillwood_core::quantity::Derivation;
use stillwood_core::record::{
    BlankSize, Member, ReadyLaminate, blank_of, explain_blank_size, explain_blank_stiffness,
    explain_blank_twist, explain_blank_weight, queries,
};

/// A set in which every place is filled, with what it comes to.
#[derive(Debug, Clone)]
pub struct InHand {
    /// Its laminates, in order.
    pub laminates: Vec<ReadyLaminate>,
    /// How each lies; laminates count in those.
    pub blank: Vec<Placed>,
    /// What it comes to.
    pub judged: Judged,
    /// How large, heavy and stiff it comes out.
    pub size: Option<BlankSize>,
    /// How far a blank may be off.
    pub within: MatchLimits,
}

/// A figure of the set that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MatchedFigure {
    /// What the matching says of it.
    Match(MatchFigure),
    /// How far moistures are apart.
    Moisture,
    /// Length, width and thickness.
    Size,
    /// The twist that is left once it is glued.
    TwistKept,
    /// Weight at 12 %.
    Weight,
    /// Bending stiffness.
    Stiffness,
}

impl MatchedFigure {
    /// How it was worked out.
    pub fn derivation(self, model: &Model) -> Option<Derivation> {
        let of = in_hand(model)?;
        match self {
            MatchedFigure::Match(figure) => {
                explain_match(figure, &plain(&of.laminates), &of.blank, &of.within).ok()
            }
            MatchedFigure::Moisture => Some(moistures(model, &of)),
            MatchedFigure::Size => explain_blank_size(&of.laminates, &of.blank),
            MatchedFigure::TwistKept => explain_blank_twist(&of.laminates, &of.blank),
            MatchedFigure::Weight => explain_blank_weight(&of.laminates, &of.blank),
            MatchedFigure::Stiffness => explain_blank_stiffness(&of.laminates, &of.blank),
        }
    }
}

fn moistures(model: &Model, of: &InHand) -> Derivation {
    let read = |one: &ReadyLaminate| {
        let read = one.laminate.moisture?.in_percent();
        Some(format!("{} {}", one.mark, show::moisture(read)))
    };
    let read: Vec<String> = of.laminates.iter().filter_map(read).collect();
    let words = &model.words().blanks;
    let told = fill(words.moistures_told, &[("readings", &read.join("; "))]);
    Derivation::note(told, words.moistures_source)
}

/// The marks of those whose grain runs out against the others.
pub fn runs_out_against(of: &InHand) -> Vec<&str> {
    let places = neck::runs_out_against(&plain(&of.laminates), &of.blank).unwrap_or_default();
    let marks = places.iter().filter_map(|place| of.laminates.get(*place));
    marks.map(|one| one.mark.as_str()).collect()
}

fn plain(of: &[ReadyLaminate]) -> Vec<Laminate> {
    of.iter().map(|one| one.laminate).collect()
}

/// The laminate at a place of the set.
pub fn laminate_of(model: &Model, member: &Member) -> Option<ReadyLaminate> {
    at_hand(model)
        .iter()
        .find(|one| one.piece == member.piece)
        .cloned()
}

fn turn_of(member: &Member) -> Turn {
    Turn {
        turned_over: member.turned_over,
        end_for_end: member.turned,
    }
}

/// The set that is shown, where every place is filled with a laminate that is still there.
pub fn in_hand(model: &Model) -> Option<InHand> {
    let set = &model.blanks.matching.set;
    let members: Option<Vec<Member>> = set.iter().cloned().collect();
    comes_to(model, &members?)
}

/// The set as it was proposed, before the maker changed it by hand.
pub fn as_proposed(model: &Model) -> Option<InHand> {
    let matching = &model.blanks.matching;
    comes_to(
        model,
        matching
            .sets
            .get(matching.at)
            .filter(|_| matching.by_hand)?,
    )
}

fn comes_to(model: &Model, members: &[Member]) -> Option<InHand> {
    let found: Option<Vec<ReadyLaminate>> =
        members.iter().map(|one| laminate_of(model, one)).collect();
    let laminates = found.filter(|found| !found.is_empty())?;
    let placed = members.iter().enumerate().map(|(laminate, member)| Placed {
        laminate,
        turn: turn_of(member),
    });
    let blank: Vec<Placed> = placed.collect();
    let within = queries::match_limits(model.state());
    let judged = judge_match(&plain(&laminates), &blank, &within).ok()?;
    let size = blank_of(&laminates, &blank);
    Some(InHand {
        laminates,
        blank,
        judged,
        size,
        within,
    })
}

/// What the set comes to with another laminate at a place, turned as suits the others best.
pub fn with_at(of: &InHand, at: usize, other: &ReadyLaminate) -> Option<(Vec<Member>, Judged)> {
    let mut laminates = of.laminates.clone();
    let number = laminates
        .iter()
        .position(|one| one.piece == other.piece)
        .unwrap_or_else(|| {
            laminates.push(other.clone());
            laminates.len() - 1
        });
    let put = put_by_hand(&plain(&laminates), &of.blank, at, number, &of.within);
    let Proposal { blank, judged } = put.ok()?;
    let member = |placed: &Placed| {
        Some(Member {
            piece: laminates.get(placed.laminate)?.piece,
            turned_over: placed.turn.turned_over,
            turned: placed.turn.end_for_end,
        })
    };
    let members: Option<Vec<Member>> = blank.iter().map(member).collect();
    Some((members?, judged))
}
