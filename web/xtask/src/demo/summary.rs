//! The scenario in a table, to be looked at: does each verdict make sense to a maker?

use std::fmt::Write as _;
use stillwood_core::record::queries;

use stillwood_core::plank::{Instruments, describe, mean_of_stations};
use stillwood_core::quantity::{in_kg_per_m3, mm};
use stillwood_core::record::{Decision, Entry, Piece, Pile, State, Visit, YardAgainstOurs, pairs};
use stillwood_core::trade::{PricesAre, Sawn, TallyLine, Terms, tally};
use stillwood_core::verdict::{Criterion, CriterionScore, Sheet, sheet};

/// What is worked out of a piece, under its visit's spec.
pub(super) fn sheet_of(state: &State, piece: &Piece) -> Option<Sheet> {
    let spec = &state.visit_of(piece)?.opened.spec;
    let (readings, faults) = (piece.readings_in_use(), piece.defects_found());
    Some(sheet(&readings, &faults, &Instruments::default(), spec))
}

/// The yard's bill for a visit against ours.
pub(super) fn bill_of(state: &State, visit: &Visit) -> Option<YardAgainstOurs> {
    let ours = queries::tally_of(state, visit.id)?;
    queries::yard_against(state, visit.id, &ours)
}

fn taken_of<'a>(state: &'a State, pile: &'a Pile) -> impl Iterator<Item = (&'a Piece, TallyLine)> {
    state
        .pieces_of(pile.id)
        .filter(|piece| piece.decision() == Some(Decision::Take))
        .map(|piece| {
            let plank = describe(&piece.readings_in_use(), &[]);
            let line = TallyLine {
                mark: piece.mark.clone(),
                sawn: Sawn {
                    length: plank.length,
                    width: mean_of_stations(&plank.widths),
                    thickness: plank.thicknesses.least(),
                    nominal: pile.opened.nominal_thickness.as_ref().map(|t| mm(t.value)),
                },
                width_with_wane: None,
                mass: None,
            };
            (piece, line)
        })
}

/// One line a plank, then the counts.
pub(super) fn of(entries: &[Entry]) -> String {
    let state = State::project_entries(entries);
    let mut out = String::new();
    for visit in state.visits() {
        let terms = &visit.opened;
        let _ = writeln!(out, "{}, {}", terms.yard, visit.recorded.on);
        for pile in state.piles_of(visit.id) {
            let asked = tally(
                &taken_of(&state, pile)
                    .map(|(_, line)| line)
                    .collect::<Vec<_>>(),
                &Terms {
                    rule: terms.rule.clone(),
                    price: pile
                        .opened
                        .price
                        .map(|price| (price, pile.opened.price_basis.unwrap_or(terms.price_basis))),
                    discount_percent: terms.discount_percent,
                    tax_percent: terms.tax_percent,
                    prices_are: PricesAre::Net,
                },
            );
            let _ = writeln!(
                out,
                "\n  {}: {} looked at, {} passed over; taken: {:.1} bf, {} {} with tax",
                pile.opened.name,
                pile.looked_at(),
                pile.passed_over(),
                asked.board_feet,
                asked.money.gross,
                terms.currency,
            );
            for piece in state.pieces_of(pile.id) {
                out.push_str(&line(&state, piece));
            }
        }
        let bill = bill_of(&state, visit);
        let total = bill.as_ref().and_then(|bill| bill.total.as_ref());
        if let Some((total, theirs)) = total.and_then(|total| Some((total, total.theirs?))) {
            let _ = writeln!(
                out,
                "\n  bill: theirs {theirs:.0} bf, ours {:.0}",
                total.ours
            );
        }
        for customs in bill.iter().flat_map(|bill| &bill.by_lines) {
            let told = customs.found.told.first().map_or(String::new(), |best| {
                let habits: Vec<String> = best.habits.iter().map(|h| h.in_words()).collect();
                habits.join(" and ")
            });
            let _ = writeln!(out, "  {:?}, {told}", customs.found.conclusion);
        }
        out.push('\n');
    }
    let count = |decision| state.planks().filter(|p| p.decision() == decision).count();
    let _ = writeln!(
        out,
        "{} planks: {} taken, {} left, {} set aside, {} undecided; {} pairs offered; {} looked at",
        state.planks().count(),
        count(Some(Decision::Take)),
        count(Some(Decision::Leave)),
        count(Some(Decision::SetAside)),
        count(None),
        pairs(&state).len(),
        state.piles().map(Pile::looked_at).sum::<u64>()
    );
    out
}

fn line(state: &State, piece: &Piece) -> String {
    let Some(sheet) = sheet_of(state, piece) else {
        return format!("  {}: no visit\n", piece.mark);
    };
    let verdict = &sheet.verdict;
    let number = |value: Option<f64>| value.map_or("-".to_owned(), |v| format!("{v:.0}"));
    let judged = piece.judgement().map(|j| &j.judged);
    let decision = match judged.map(|j| j.decision) {
        Some(Decision::Take) => "take",
        Some(Decision::Leave) => "leave",
        Some(Decision::SetAside) => "set aside",
        None => "-",
    };
    let reasons: Vec<&str> = judged
        .map(|j| j.reasons.iter().map(|r| r.name()).collect())
        .unwrap_or_default();
    let lost: Vec<String> = verdict
        .scored
        .iter()
        .filter(|one| one.score < 100.0)
        .map(criterion)
        .chain(
            verdict
                .unscored
                .iter()
                .map(|u| format!("{}?", u.criterion.name())),
        )
        .chain(
            verdict
                .fatal_defects
                .iter()
                .map(|fault| fault.name().to_owned()),
        )
        .collect();
    let line = format!(
        "  {:<8} {:<21} {:>3}  {:<24} {:<10} {:<24} {} {:>2} parts  rho12 {:>3}  {}",
        piece.mark,
        queries::species_of(state, piece).map_or("-", |s| s.text.as_str()),
        number(verdict.score),
        format!("{:?}", verdict.recommendation),
        decision,
        reasons.join(", "),
        if judged.is_some_and(|j| j.overruled()) {
            "OTHERWISE"
        } else {
            "         "
        },
        sheet.held.as_ref().map_or(0, |h| h.parts),
        number(sheet.density_at_12.as_ref().map(|e| in_kg_per_m3(e.value))),
        lost.join("; ")
    );
    format!("{}\n", line.trim_end())
}

fn criterion(one: &CriterionScore) -> String {
    let value = one.estimate.value;
    let shown = match one.requirement.criterion {
        Criterion::GrainSlope => format!("1:{:.1}", 1.0 / value),
        _ => format!("{value:.1}"),
    };
    format!(
        "{} {shown} = {:.0}",
        one.requirement.criterion.name(),
        one.score
    )
}
