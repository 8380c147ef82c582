//! How criteria together make a call and a score: the weakest rules.
//!
//! It holds no text and asks for no memory: a whole record is ruled on at once when a spec changes.

use super::desirability::Product;
use super::{Criterion, Known, Quality, Standing, standing};
use serde::{Deserialize, Serialize};

/// What the computation says of a plank. The maker decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Call {
    /// Nothing was looked at that the spec asks for.
    NothingYet,
    /// Beyond a limit, or a fatal fault.
    Refused,
    /// Near a limit: a measurement should be repeated.
    TooClose,
    /// Good in all that was looked at; something was not.
    GoodSoFar,
    /// Good in all that the spec asks for.
    Good,
}

impl Call {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Call::NothingYet => "nothing judged yet",
            Call::Refused => "leave it",
            Call::TooClose => "too close to call",
            Call::GoodSoFar => "good as far as looked at",
            Call::Good => "take it",
        }
    }
}

/// The call on a plank and its score, without the reasons.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ruling {
    /// What to say of it.
    pub call: Call,
    /// The plank's score, 0 to 100: that of its weakest criterion; 0 beyond a limit or with a fatal fault.
    /// `None` while nothing is scored.
    pub score: Option<f64>,
    /// The weakest criterion.
    pub weakest: Option<Quality>,
    /// Geometric mean of all scores, 0 to 100: orders planks of one score.
    pub mean: Option<f64>,
}

/// The number of a quality that has one, as far as a ruling needs it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Seen {
    pub(super) value: f64,
    /// It is only the best that it can be.
    pub(super) at_best: bool,
    pub(super) standard: f64,
}

impl Seen {
    /// `None` where nothing is known.
    pub(super) fn of(known: &Known, standard: f64) -> Option<Self> {
        Some(Self {
            value: known.number()?,
            at_best: matches!(known, Known::AtBest(..)),
            standard,
        })
    }
}

/// How a value stands against its criterion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Marked {
    pub(super) criterion: Criterion,
    pub(super) value: f64,
    /// How far inside the limit, in the criterion's unit; negative is beyond.
    pub(super) margin: f64,
    pub(super) standing: Standing,
    /// 0 to 1.
    pub(super) desirability: f64,
}

impl Marked {
    /// `None` where there is only a bound that lies inside the limit: what was not looked at never counts as
    /// good.
    pub(super) fn of(criterion: Criterion, seen: Seen) -> Option<Self> {
        let Seen {
            value,
            at_best,
            standard,
        } = seen;
        let margin = criterion.form.margin(value);
        let may_be_worse = at_best && margin >= 0.0;
        (!may_be_worse).then(|| Self {
            criterion,
            value,
            margin,
            standing: standing(margin, standard),
            desirability: criterion.form.desirability(value),
        })
    }

    /// 0 to 100.
    pub(super) fn score(&self) -> f64 {
        self.desirability * 100.0
    }

    fn margin_share(&self) -> f64 {
        if self.value == 0.0 {
            self.margin
        } else {
            self.margin / self.value.abs()
        }
    }
}

/// What the weakest criterion is found by.
#[derive(Clone, Copy)]
struct Weak {
    quality: Quality,
    score: f64,
    margin_share: f64,
}

impl Weak {
    fn of(mark: &Marked) -> Self {
        Self {
            quality: mark.criterion.quality,
            score: mark.score(),
            margin_share: mark.margin_share(),
        }
    }

    fn weaker_of(a: Self, b: Self) -> Self {
        let order = a.score.total_cmp(&b.score);
        let order = order.then_with(|| a.margin_share.total_cmp(&b.margin_share));
        if order.is_gt() { b } else { a }
    }
}

/// A ruling while criterion after criterion is marked.
#[derive(Clone, Copy, Default)]
pub(super) struct Marks {
    weakest: Option<Weak>,
    product: Product,
    beyond: bool,
    too_close: bool,
    left_out: bool,
}

impl Marks {
    /// A criterion, marked or left out (`None`).
    pub(super) fn add(&mut self, mark: Option<Marked>) {
        let Some(mark) = mark else {
            self.left_out = true;
            return;
        };
        self.beyond |= mark.standing == Standing::Beyond;
        self.too_close |= mark.standing == Standing::TooClose;
        self.product = self.product.with(mark.score() / 100.0);
        let mark = Weak::of(&mark);
        self.weakest = Some(match self.weakest {
            Some(weakest) => Weak::weaker_of(weakest, mark),
            None => mark,
        });
    }

    /// The ruling, on a plank with or without a fatal fault.
    pub(super) fn rule(self, faulty: bool) -> Ruling {
        let call = if faulty || self.beyond {
            Call::Refused
        } else if self.weakest.is_none() {
            Call::NothingYet
        } else if self.too_close {
            Call::TooClose
        } else if self.left_out {
            Call::GoodSoFar
        } else {
            Call::Good
        };
        Ruling {
            call,
            score: match faulty {
                true => Some(0.0),
                false => self.weakest.map(|one| one.score),
            },
            weakest: self.weakest.map(|one| one.quality),
            mean: self.product.mean().map(|mean| mean * 100.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Form;
    use super::*;

    /// Both fully good: what has the smaller margin, as a share of its value, is the weaker.
    fn weaker(a: (Quality, f64, f64), b: (Quality, f64, f64)) -> Option<Quality> {
        let form = Form::AtMost {
            target: 10.0,
            limit: 20.0,
        };
        let mark = |(quality, value, margin): (Quality, f64, f64)| Marked {
            criterion: Criterion { quality, form },
            value,
            margin,
            standing: Standing::Inside,
            desirability: 1.0,
        };
        let rule = |first, second| {
            let mut marks = Marks::default();
            marks.add(Some(mark(first)));
            marks.add(Some(mark(second)));
            marks.rule(false).weakest
        };
        assert_eq!(rule(a, b), rule(b, a));
        rule(a, b)
    }

    #[test]
    fn of_two_that_are_as_good_the_one_nearer_to_its_limit_is_the_weaker() {
        let (straight, crook) = (Quality::Straightness, Quality::Crook);
        // 5 of 100 is less than 1 of 2.
        assert_eq!(
            weaker((straight, 100.0, 5.0), (crook, 2.0, 1.0)),
            Some(straight)
        );
        assert_eq!(
            weaker((straight, -100.0, 5.0), (crook, 2.0, 1.0)),
            Some(straight)
        );
        // Of nothing there is no share: its margin counts as it is.
        assert_eq!(
            weaker((straight, 0.0, 0.01), (crook, 2.0, 0.1)),
            Some(straight)
        );
    }
}
