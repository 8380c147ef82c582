//! Which rows of the table are wanted.

use crate::plank::Reason;
use crate::record::log::Decision;
use crate::record::queries::Called;
use crate::record::queries::table::row::PlankRow;
use crate::verdict::Recommendation;
use serde::{Deserialize, Serialize};

/// What is wanted; what is `None` or empty lets everything through.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Filter {
    pub yard: Option<String>,
    /// The wood, as named.
    pub species: Option<String>,
    /// What was decided; `Some(None)` is nothing yet.
    #[serde(with = "decision", skip_serializing_if = "Option::is_none")]
    pub decision: Option<Option<Decision>>,
    /// What the computation says.
    #[serde(rename = "call")]
    pub recommendation: Option<Recommendation>,
    /// A reason among those given.
    pub reason: Option<Reason>,
    pub least_score: Option<f64>,
    /// Words that all have to be found in mark, yard, wood, reasons or notes.
    pub text: String,
}

impl Filter {
    /// The rows that are wanted, in the order given.
    pub fn of<'a>(&self, rows: &'a [PlankRow]) -> Vec<&'a PlankRow> {
        self.of_called(rows, &|_| None)
    }

    /// As [`Self::of`], where woods and reasons are shown by other names than core's: these are searched through too.
    pub fn of_called<'a>(&self, rows: &'a [PlankRow], called: Called<'_>) -> Vec<&'a PlankRow> {
        let text = self.text.to_lowercase();
        let words: Vec<&str> = text.split_whitespace().collect();
        rows.iter()
            .filter(|row| self.lets(row, &words, called))
            .collect()
    }

    fn lets(&self, row: &PlankRow, words: &[&str], called: Called<'_>) -> bool {
        let same = |wanted: &Option<String>, text: &str| {
            wanted.as_ref().is_none_or(|wanted| wanted.as_str() == text)
        };
        same(&self.yard, &row.yard)
            && same(&self.species, &row.species)
            && self.decision.is_none_or(|wanted| wanted == row.decision)
            && self
                .recommendation
                .is_none_or(|wanted| Some(wanted) == row.recommendation)
            && self
                .reason
                .is_none_or(|wanted| row.reasons.contains(&wanted))
            && self
                .least_score
                .is_none_or(|least| row.score.is_some_and(|score| score >= least))
            && words
                .iter()
                .all(|word| row.text.contains(word) || is_called(row, word, called))
    }
}

/// Whether a word stands in what the wood or a reason of a row is called.
fn is_called(row: &PlankRow, word: &str, called: Called<'_>) -> bool {
    let reasons = row.reasons.iter().map(|reason| reason.name());
    let mut names = std::iter::once(row.species.as_str()).chain(reasons);
    names.any(|name| called(name).is_some_and(|name| name.to_lowercase().contains(word)))
}

/// Nothing yet is written as a decision of none, so that it is not taken for no filter.
mod decision {
    use crate::record::log::Decision;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    type DecisionWanted = Option<Option<Decision>>;

    pub(crate) fn serialize<S: Serializer>(
        wanted: &DecisionWanted,
        s: S,
    ) -> Result<S::Ok, S::Error> {
        wanted.flatten().serialize(s)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(d: D) -> Result<DecisionWanted, D::Error> {
        Option::<Decision>::deserialize(d).map(Some)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_filter_is_kept_and_read_again() {
        for decision in [None, Some(None), Some(Some(Decision::Leave))] {
            let filter = Filter {
                decision,
                recommendation: Some(Recommendation::TooClose),
                least_score: Some(60.0),
                text: "b1".to_owned(),
                ..Filter::default()
            };
            let kept = serde_json::to_string(&filter).unwrap();
            assert_eq!(serde_json::from_str::<Filter>(&kept).unwrap(), filter);
        }
    }
}
