//! The yards: one phone at the metric yard in the spring of 2024, another there a year and a half later,
//! and after four weeks two phones at the yard of inches.

use std::collections::BTreeMap;

use anyhow::{Context, Result, ensure};
use rust_decimal::{Decimal, RoundingStrategy};
use stillwood_core::plank::{
    DefectFound, Instruments, Readings, Reason, describe, mean_of_stations,
};
use stillwood_core::quantity::mm;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::{
    Decision, Entry, Event, Judged, Mark, Marked, Measured, Noted, PassedOver, SourcedNumber,
    State, VisitOpened, Withdrawn, WoodAdded, YardFigures,
};
use stillwood_core::trade::{Halves, Sawn, board_feet};
use stillwood_core::verdict::{Evaluation, Recommendation, Spec, sheet};

use super::phone::Phone;
use super::row::{Row, Then};
use super::yards::{
    FIRST_DAY, FIRST_PILES, INCH_DAY, INCH_PILES, METRIC_DAY, METRIC_PILES, PileGiven,
    RIVER_CHERRY, first_visit, inch_visit, metric_visit, yards_own_rule,
};

/// The phone of the maker, and that of the partner.
const OWN: &str = "K7";
const PARTNER: &str = "R4";
/// The maker's first phone, which later stays in the workshop.
const FIRST: &str = "H3";

/// The first visit of all. Gives the phone, for it goes on to the workshop, and its last mark's number.
pub(super) fn tell_first(rows: &[Row]) -> Result<(Phone, u32)> {
    let mut first = Hand::new(Phone::new(FIRST, FIRST_DAY, 10 * 3600));
    let terms = first_visit();
    let visit = first.open_visit(&terms)?;
    for pile in &FIRST_PILES {
        let at = first.open_pile(pile, visit, Units::Metric)?;
        first.pass_over(at, pile.passed)?;
        first.planks(rows, pile.key, at, Units::Metric, &terms.spec)?;
    }
    Ok((first.phone, first.last_mark))
}

/// All entries of the autumn of 2025, as the two phones wrote them.
pub(super) fn tell(rows: &[Row]) -> Result<Vec<Entry>> {
    let mut own = Hand::new(Phone::new(OWN, METRIC_DAY, 9 * 3600 + 12 * 60));
    let terms = metric_visit();
    let visit = own.open_visit(&terms)?;
    for pile in &METRIC_PILES {
        let at = own.open_pile(pile, visit, Units::Metric)?;
        own.pass_over(at, pile.passed)?;
        own.planks(rows, pile.key, at, Units::Metric, &terms.spec)?;
    }
    let said = "Paid by card, invoice with botanical names promised by post.";
    own.note(visit, said)?;

    own.phone.next_day(INCH_DAY, 8 * 3600 + 40 * 60);
    let terms = inch_visit();
    let visit = own.open_visit(&terms)?;
    let [hard, river] = &INCH_PILES;
    let maple = own.open_pile(hard, visit, Units::Inch)?;

    // The partner is handed the visit, and goes to the other end of the pile.
    let mut partner = Hand::new(Phone::new(PARTNER, INCH_DAY, 9 * 3600 + 5 * 60));
    partner.phone.hears(own.phone.step());
    partner.pass_over(maple, hard.partner_passed)?;
    partner.planks(rows, hard.key, maple, Units::Inch, &terms.spec)?;
    partner.add_river_cherry()?;
    let cherry = partner.open_pile(river, visit, Units::Inch)?;
    partner.pass_over(cherry, river.passed)?;
    partner.planks(rows, river.key, cherry, Units::Inch, &terms.spec)?;

    own.pass_over(maple, hard.passed)?;
    own.planks(rows, hard.key, maple, Units::Inch, &terms.spec)?;

    // At the office both records meet; the yard's tally is taken down line by line.
    own.phone.hears(partner.phone.step());
    let mut entries = partner.phone.into_written();
    entries.extend(own.phone.written().iter().cloned());
    own.phone.wait(900);
    own.yards_tally(&State::project_entries(&entries), visit, &terms)?;
    own.note(
        visit,
        "He reads his stick to the next inch and the next foot. Ask before paying.",
    )?;

    entries.retain(|entry| entry.by != OWN);
    entries.extend(own.phone.into_written());
    Ok(entries)
}

/// A phone, and the marks that it has given.
struct Hand {
    phone: Phone,
    last_mark: u32,
}

impl Hand {
    fn new(phone: Phone) -> Self {
        Self {
            phone,
            last_mark: 0,
        }
    }

    fn note(&mut self, about: Id, text: &str) -> Result<()> {
        if !text.is_empty() {
            let text = text.to_owned();
            self.phone.write(about, Event::Noted(Noted { text }))?;
        }
        Ok(())
    }

    fn open_visit(&mut self, terms: &VisitOpened) -> Result<Id> {
        let visit = self.phone.id();
        let opened = Event::VisitOpened(Box::new(terms.clone()));
        self.phone.write(visit, opened)?;
        Ok(visit)
    }

    fn open_pile(&mut self, told: &PileGiven, visit: Id, units: Units) -> Result<Id> {
        self.phone.wait(120);
        let pile = self.phone.id();
        let opened = told
            .opened(visit, units)
            .with_context(|| told.key.to_owned())?;
        self.phone
            .write(pile, Event::PileOpened(Box::new(opened)))?;
        self.note(pile, told.note)?;
        Ok(pile)
    }

    /// The first look: what is left at once, with its reason.
    fn pass_over(&mut self, pile: Id, lots: &[(u32, &[Reason])]) -> Result<()> {
        for (count, reasons) in lots {
            self.phone.wait(9 * count);
            let passed = PassedOver {
                count: *count,
                reasons: reasons.to_vec(),
            };
            self.phone.write(pile, Event::PassedOver(passed))?;
        }
        Ok(())
    }

    fn add_river_cherry(&mut self) -> Result<()> {
        self.phone.wait(60);
        let density = SourcedNumber {
            source: "the yard's owner: \"about 36 pounds a cubic foot, dry\"".to_owned(),
            typed: String::new(),
            unit: "kg/m3".to_owned(),
            value: 577.0,
        };
        let wood = WoodAdded {
            common: "river cherry".to_owned(),
            dust: None,
            id: RIVER_CHERRY.to_owned(),
            note: "Sold under this name only; nobody could say what tree it is.".to_owned(),
            numbers: BTreeMap::from([("density_at_12".to_owned(), density)]),
            scientific: None,
        };
        let about = self.phone.id();
        self.phone.write(about, Event::WoodAdded(Box::new(wood)))?;
        Ok(())
    }

    /// The second look: the maybes of a pile, measured one by one; what was put off is settled at the
    /// end.
    fn planks(
        &mut self,
        rows: &[Row],
        key: &str,
        pile: Id,
        units: Units,
        spec: &Spec,
    ) -> Result<()> {
        let by = self.phone.by().to_owned();
        let own = |row: &&Row| row.pile == key && row.phone == by;
        let mut later = Vec::new();
        for row in rows.iter().filter(own) {
            let mark = Mark::next(&by, self.last_mark)?;
            self.last_mark = mark.number();
            let plank = self
                .plank(row, &mark, pile, units, spec)
                .with_context(|| format!("plank {mark} of {key}"))?;
            later.push(plank);
        }
        for plank in later {
            self.settle(plank, spec)?;
        }
        Ok(())
    }

    fn plank(
        &mut self,
        row: &Row,
        mark: &Mark,
        pile: Id,
        units: Units,
        spec: &Spec,
    ) -> Result<Seen> {
        self.phone.wait(75);
        let mut seen = Seen {
            piece: self.phone.id(),
            readings: row.readings(units)?,
            faults: row.faults(units)?,
            then: row.then(units)?,
        };
        let marked = Marked {
            mark: mark.to_string(),
            pile,
        };
        let marked = self.phone.write(seen.piece, Event::Marked(marked))?;
        let whole = |readings: &Readings| {
            Event::Measured(Measured {
                defects: seen.faults.clone(),
                readings: readings.clone(),
                species: None,
            })
        };
        let mut first = seen.readings.clone();
        for then in &seen.then {
            if let Then::Mistyped(field, taken) = then {
                first.insert(*field, taken.clone());
            }
        }
        let measured = self.phone.write(seen.piece, whole(&first))?;
        if first != seen.readings {
            self.phone.wait(25);
            let put_right = whole(&seen.readings);
            self.phone
                .write_over(seen.piece, put_right, vec![measured])?;
        }
        if seen.then.contains(&Then::Withdrawn) {
            self.phone.wait(40);
            let all = Event::Withdrawn(Withdrawn {});
            self.phone
                .write_over(seen.piece, all, vec![marked, measured])?;
            seen.then.clear();
            return Ok(seen);
        }
        self.note(seen.piece, &row.note)?;
        if let Some((decision, reasons)) = row.decision()? {
            self.judge(&seen, spec, decision, reasons)?;
        }
        Ok(seen)
    }

    /// What was put off.
    fn settle(&mut self, mut seen: Seen, spec: &Spec) -> Result<()> {
        for then in std::mem::take(&mut seen.then) {
            match then {
                Then::Mistyped(..) | Then::Withdrawn => {}
                Then::Again(readings) => {
                    self.phone.wait(90);
                    let measured = Measured {
                        readings: readings.clone(),
                        ..Measured::default()
                    };
                    self.phone.write(seen.piece, Event::Measured(measured))?;
                    seen.readings.extend(readings);
                }
                Then::Later(decision, reasons) => {
                    self.phone.wait(15);
                    self.judge(&seen, spec, decision, reasons)?;
                }
            }
        }
        Ok(())
    }

    fn judge(
        &mut self,
        seen: &Seen,
        spec: &Spec,
        decision: Decision,
        reasons: Vec<Reason>,
    ) -> Result<()> {
        let verdict = sheet(&seen.readings, &seen.faults, &Instruments::default(), spec).verdict;
        let judged = Judged {
            decision,
            proposed: proposed(&verdict),
            reasons,
            score: verdict.score,
            weakest: verdict.weakest,
        };
        self.phone.write(seen.piece, Event::Judged(judged))?;
        Ok(())
    }

    /// The yard's own figure for every plank taken, and its total.
    fn yards_tally(&mut self, state: &State, visit: Id, terms: &VisitOpened) -> Result<()> {
        let mut halves = Halves::default();
        let (mut feet, mut net) = (Decimal::ZERO, Decimal::ZERO);
        for pile in state.piles().filter(|pile| pile.opened.visit == visit) {
            let price = pile.opened.price.context("a pile without a price")?;
            let nominal = pile.opened.nominal_thickness.as_ref().map(|t| mm(t.value));
            let taken = state
                .pieces_of(pile.id)
                .filter(|piece| piece.decision() == Some(Decision::Take));
            for piece in taken {
                let plank = describe(&piece.readings_in_use(), &[]);
                let sawn = Sawn {
                    length: plank.length,
                    width: mean_of_stations(&plank.widths),
                    thickness: plank.thicknesses.least(),
                    nominal,
                };
                let turn = halves;
                let theirs = board_feet(&yards_own_rule(), &sawn, &mut halves)?;
                // A half would go by turns, and the bill would hang on the order of its lines.
                ensure!(
                    turn == halves,
                    "{}: an exact half by the yard's rule",
                    piece.mark
                );
                board_feet(&terms.rule, &sawn, &mut halves)?;
                ensure!(turn == halves, "{}: an exact half by our rule", piece.mark);
                feet += theirs;
                net += theirs * price;
                let line = YardFigures {
                    board_feet: Some(theirs.normalize()),
                    ..YardFigures::default()
                };
                self.phone.wait(8);
                self.phone.write(piece.id, Event::YardLine(line))?;
            }
        }
        let gross = net * (Decimal::ONE + terms.tax_percent / Decimal::ONE_HUNDRED);
        let total = YardFigures {
            board_feet: Some(feet.normalize()),
            cubic_metres: None,
            money: Some(gross.round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero)),
        };
        self.phone.wait(30);
        self.phone.write(visit, Event::YardTotal(total))?;
        Ok(())
    }
}

/// A plank that was measured.
struct Seen {
    piece: Id,
    readings: Readings,
    faults: Vec<DefectFound>,
    then: Vec<Then>,
}

/// What a verdict proposes; near a limit, nothing.
fn proposed(verdict: &Evaluation) -> Option<Decision> {
    match verdict.recommendation {
        Recommendation::Refused => Some(Decision::Leave),
        Recommendation::Good | Recommendation::GoodSoFar => Some(Decision::Take),
        Recommendation::TooClose | Recommendation::NothingYet => None,
    }
}
