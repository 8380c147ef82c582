//! Lots of the list of what is due: what was cut of one plank, lies on one rack and has its rest over on one day in
//! one stage is one row, which opens to its members; and so are planks of one pile that came together.
//!
//! Folding leaves nothing out and orders nothing anew.

use crate::record::log::id::Id;
use crate::record::queries::{Due, Waits};
use crate::season::{MeasureKey, Readiness, Stage};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// So many of one plank or pile stand each by itself; more of them are one row.
pub const FEW_IN_A_LOT: usize = 3;

/// Plank and stage, or pile; day and rack.
type LotKey = (Id, Option<Stage>, NaiveDate, String);

/// With what a line is one row; `None` where it stands by itself.
fn lot_of(line: &Due) -> Option<LotKey> {
    let stage = match line.waits {
        Waits::Rest(stage, _) => Some(stage),
        Waits::Room(_) => None,
    };
    Some((line.of?, stage, line.day()?, line.place.clone()))
}

/// What is of one plank in one stage, or planks of one pile, lies on one rack and waits for one day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DueLot {
    /// The plank; of planks, the pile.
    pub of: Id,
    /// The stage; `None` of planks.
    pub stage: Option<Stage>,
    pub day: NaiveDate,
    pub place: String,
    /// All of them, in their order.
    pub lines: Vec<Due>,
}

impl DueLot {
    pub fn key(&self) -> String {
        let stage = self.stage.map_or("planks", Stage::name);
        format!("{}/{stage}/{}/{}", self.of, self.day, self.place)
    }

    /// How they stand: one of each way, and how many stand so.
    pub fn stands(&self) -> Vec<(&Due, usize)> {
        /// Of a rest its key and the looks that are wanted, of a plank in the room what its weight says.
        type Way = (Option<(MeasureKey, usize)>, Option<Option<bool>>);
        let mut found: BTreeMap<Way, (&Due, usize)> = BTreeMap::new();
        for line in &self.lines {
            let way = match &line.waits {
                Waits::Rest(_, ready) => {
                    let way = |ready: Readiness| (ready.measure, ready.looks_wanted);
                    (ready.ok().map(way), None)
                }
                Waits::Room(room) => (None, room.ok().map(|room| room.weight_at_rest)),
            };
            found.entry(way).or_insert((line, 0)).1 += 1;
        }
        found.into_values().collect()
    }
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DueRow {
    /// A piece by itself.
    One(Due),
    Lot(DueLot),
}

impl DueRow {
    /// Rows of some lines: where more than [`FEW_IN_A_LOT`] are of one lot they are one row, in the place
    /// of the first.
    pub fn folded(lines: Vec<Due>) -> Vec<DueRow> {
        let mut counts: BTreeMap<LotKey, usize> = BTreeMap::new();
        for key in lines.iter().filter_map(lot_of) {
            *counts.entry(key).or_default() += 1;
        }
        counts.retain(|_, count| *count > FEW_IN_A_LOT);
        let mut places: BTreeMap<LotKey, usize> = BTreeMap::new();
        let mut rows: Vec<DueRow> = Vec::new();
        for line in lines {
            let Some(key) = lot_of(&line).filter(|key| counts.contains_key(key)) else {
                rows.push(DueRow::One(line));
                continue;
            };
            let known = places.get(&key).and_then(|place| rows.get_mut(*place));
            if let Some(DueRow::Lot(lot)) = known {
                lot.lines.push(line);
                continue;
            }
            places.insert(key.clone(), rows.len());
            let (of, stage, day, place) = key;
            rows.push(DueRow::Lot(DueLot {
                of,
                stage,
                day,
                place,
                lines: vec![line],
            }));
        }
        rows
    }

    pub fn lines(&self) -> &[Due] {
        match self {
            DueRow::One(line) => std::slice::from_ref(line),
            DueRow::Lot(lot) => &lot.lines,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::queries::{DueWhen, due_by_day};
    use crate::season::{InRoom, date_key};
    use chrono::Days;
    use proptest::prelude::*;

    fn today() -> NaiveDate {
        NaiveDate::from_ymd_opt(2027, 2, 10).unwrap()
    }

    const MEASURES: [MeasureKey; 3] =
        [MeasureKey::NotChecked, MeasureKey::Moved, MeasureKey::Still];

    /// A line of a few planks, racks and days, so that lots come about.
    fn line(number: u128, told: (u128, usize, u64, usize, usize)) -> Due {
        let (plank, kind, days, rack, measure) = told;
        let day = today() + Days::new(days * 9) - Days::new(20);
        let date = date_key(day, today());
        let waits = match Stage::ALL.get(kind) {
            Some(stage) => {
                let measure = MEASURES[measure];
                Waits::Rest(
                    *stage,
                    Ok(Readiness {
                        due: day,
                        date,
                        measure,
                        looks_wanted: 0,
                    }),
                )
            }
            None => Waits::Room(Ok(InRoom {
                from: day,
                date,
                weight_at_rest: None,
            })),
        };
        Due {
            piece: Id::from_u128(number),
            mark: format!("M{number}"),
            of: (plank > 0 && kind != 2).then(|| Id::from_u128(1000 + plank)),
            place: ["", "loft", "shelf 1"][rack].to_owned(),
            since: today(),
            reserved: false,
            looked_at: None,
            waits,
        }
    }

    fn lines() -> impl Strategy<Value = Vec<Due>> {
        let told = (0..3_u128, 0..4_usize, 0..5_u64, 0..3_usize, 0..3_usize);
        let all = proptest::collection::vec(told, 0..60);
        all.prop_map(|all| (0..).zip(all).map(|(n, told)| line(n, told)).collect())
    }

    fn ids<'a>(lines: impl IntoIterator<Item = &'a Due>) -> Vec<u128> {
        lines.into_iter().map(|line| line.piece.as_u128()).collect()
    }

    fn sorted(mut ids: Vec<u128>) -> Vec<u128> {
        ids.sort_unstable();
        ids
    }

    proptest! {
        #[test]
        fn each_line_is_in_the_order_of_days_once(lines in lines()) {
            let by_day = due_by_day(lines.clone(), today());
            let all = ids(&lines);
            prop_assert_eq!(&sorted(ids(by_day.iter().flat_map(|(_, of)| of))), &all);
            prop_assert!(by_day.is_sorted_by_key(|(when, _)| *when));
            for (when, of) in &by_day {
                prop_assert!(of.iter().all(|line| line.when(today()) == *when));
                // Within a stretch they stay as they stood.
                prop_assert!(ids(of).is_sorted());
            }
        }

        #[test]
        fn what_is_folded_unfolds_to_the_same(lines in lines()) {
            let rows = DueRow::folded(lines.clone());
            prop_assert_eq!(sorted(ids(rows.iter().flat_map(DueRow::lines))), ids(&lines));
            let first: Vec<u128> = rows.iter().filter_map(|row| ids(row.lines()).first().copied()).collect();
            prop_assert_eq!(first.len(), rows.len());
            prop_assert!(first.is_sorted());
            for row in &rows {
                prop_assert!(ids(row.lines()).is_sorted());
                let DueRow::Lot(lot) = row else { continue };
                prop_assert!(lot.lines.len() > FEW_IN_A_LOT);
                let same = |line: &Due| lot_of(line) == lot_of(&lot.lines[0]);
                prop_assert!(lot.lines.iter().all(same));
                let told: usize = lot.stands().iter().map(|(_, count)| count).sum();
                prop_assert_eq!(told, lot.lines.len());
            }
            // No lot is told twice, and what stands by itself is of none that is folded.
            let mut keys: Vec<String> = Vec::new();
            for row in &rows {
                if let DueRow::Lot(lot) = row {
                    keys.push(lot.key());
                }
            }
            let all = keys.len();
            keys.sort();
            keys.dedup();
            prop_assert_eq!(keys.len(), all);
            for row in &rows {
                if let DueRow::One(line) = row {
                    let others = lines.iter().filter(|other| lot_of(other) == lot_of(line));
                    prop_assert!(lot_of(line).is_none() || others.count() <= FEW_IN_A_LOT);
                }
            }
        }
    }

    #[test]
    fn four_of_a_plank_are_one_row_and_three_are_three() {
        let of = |count: u128| {
            let lines = (0..count).map(|n| line(n, (1, 1, 1, 1, (n % 2) as usize)));
            DueRow::folded(lines.collect())
        };
        assert_eq!(of(3).len(), 3);
        let rows = of(4);
        let [DueRow::Lot(lot)] = rows.as_slice() else {
            panic!("{rows:?}");
        };
        let stage = Some(Stage::Laminates);
        assert_eq!((lot.stage, lot.place.as_str()), (stage, "loft"));
        let stands: Vec<(&str, usize)> = lot
            .stands()
            .iter()
            .map(|(line, count)| (line.mark.as_str(), *count))
            .collect();
        assert_eq!(stands, [("M0", 2), ("M1", 2)]);
    }

    #[test]
    fn the_stretches_of_days_follow_each_other() {
        let at = |day: &str, measure: MeasureKey| {
            let due: NaiveDate = day.parse().unwrap();
            let ready = Readiness {
                due,
                date: date_key(due, today()),
                measure,
                looks_wanted: 0,
            };
            Due {
                waits: Waits::Rest(Stage::Pieces, Ok(ready)),
                ..line(1, (0, 0, 0, 0, 0))
            }
        };
        let month = |day: &str| DueWhen::Month(day.parse().unwrap());
        for (day, measure, when, early) in [
            ("2027-02-10", MeasureKey::NotChecked, DueWhen::Late, false),
            ("2026-02-10", MeasureKey::Moved, DueWhen::Late, false),
            (
                "2027-02-10",
                MeasureKey::WeightNotKnown,
                DueWhen::WeightNotKnown,
                false,
            ),
            (
                "2027-02-11",
                MeasureKey::WeightNotKnown,
                DueWhen::ThisWeek,
                false,
            ),
            ("2027-02-10", MeasureKey::Still, DueWhen::Ready, false),
            ("2027-02-11", MeasureKey::Still, DueWhen::ThisWeek, true),
            (
                "2027-02-17",
                MeasureKey::NotChecked,
                DueWhen::ThisWeek,
                false,
            ),
            (
                "2027-02-18",
                MeasureKey::NotChecked,
                DueWhen::ThisMonth,
                false,
            ),
            ("2027-03-01", MeasureKey::Still, month("2027-03-01"), true),
            (
                "2028-02-28",
                MeasureKey::NotChecked,
                month("2028-02-01"),
                false,
            ),
        ] {
            let line = at(day, measure);
            assert_eq!(line.when(today()), when, "{day}");
            assert_eq!(line.is_early(), early, "{day}");
        }
        assert!(DueWhen::Month(today()) < DueWhen::NoDay && DueWhen::Late < DueWhen::Ready);
    }

    #[test]
    fn what_was_still_on_an_old_look_is_looked_at_again() {
        let ready = |measure| Readiness {
            due: today(),
            date: date_key(today(), today()),
            measure,
            looks_wanted: 0,
        };
        let when = |looked: &str, measure| {
            let due = Due {
                looked_at: Some(looked.parse().unwrap()),
                waits: Waits::Rest(Stage::Blanks, Ok(ready(measure))),
                ..line(1, (0, 0, 0, 0, 0))
            };
            due.when(today())
        };
        // A look holds six months: today is 10 February 2027.
        assert_eq!(when("2026-08-10", MeasureKey::Still), DueWhen::Ready);
        assert_eq!(when("2026-08-09", MeasureKey::Still), DueWhen::LookAgain);
        // What moved is not only to be looked at.
        assert_eq!(when("2026-08-09", MeasureKey::Moved), DueWhen::Late);
        assert!(DueWhen::LookAgain < DueWhen::Ready);
    }
}
