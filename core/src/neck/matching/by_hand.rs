//! A laminate put at a place of a blank by hand, turned as suits the others best.

use super::{Laminate, MatchError, MatchLimits, Placed, Proposal, Turn, judge_match};

/// The four ways in which a laminate can lie.
const TURNS: [Turn; 4] = [
    Turn {
        turned_over: false,
        end_for_end: false,
    },
    Turn {
        turned_over: true,
        end_for_end: false,
    },
    Turn {
        turned_over: false,
        end_for_end: true,
    },
    Turn {
        turned_over: true,
        end_for_end: true,
    },
];

/// What a blank comes to with a laminate of the stock at a place, turned as costs least; one that stands
/// elsewhere in the blank changes places with what stands there now. Of turns that cost the same the one that
/// asks for the least handling. Errors as in [`judge_match`].
///
/// ```
/// use stillwood_core::neck::{Laminate, MatchLimits, Placed, Turn, put_by_hand};
/// use stillwood_core::quantity::mm;
/// let laminate = |crook: f64| Laminate {
///     thickness: mm(15.0), width: mm(48.0), wood: 1, crook: Some(mm(crook)), bow: None,
///     twist: Some(mm(0.0)), lean: None, ring_class: None, rise: None, moisture: None,
///     density: None, modulus: None,
/// };
/// let stock = [laminate(0.2), laminate(0.9), laminate(0.2)];
/// let at = |laminate| Placed { laminate, turn: Turn::default() };
/// let put = put_by_hand(&stock, &[at(0), at(1)], 1, 2, &MatchLimits::default()).unwrap();
/// // Turned over, the crook of the third goes against that of the first.
/// assert!(put.blank[1].laminate == 2 && put.blank[1].turn.turned_over);
/// assert!(put.judged.mean_crook.abs() < mm(1e-9));
/// ```
pub fn put_by_hand(
    stock: &[Laminate],
    blank: &[Placed],
    at: usize,
    laminate: usize,
    within: &MatchLimits,
) -> Result<Proposal, MatchError> {
    let mut put = blank.to_vec();
    if at >= put.len() {
        return Err(MatchError::Places(at));
    }
    if let Some(other) = put.iter().position(|one| one.laminate == laminate) {
        put.swap(at, other);
    }
    let mut best: Option<Proposal> = None;
    for turn in TURNS {
        put[at] = Placed { laminate, turn };
        let judged = judge_match(stock, &put, within)?;
        if best
            .as_ref()
            .is_none_or(|best| judged.cost < best.judged.cost)
        {
            let blank = put.clone();
            best = Some(Proposal { blank, judged });
        }
    }
    best.ok_or(MatchError::NotThere(laminate))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;

    fn laminate(crook: f64, twist: f64) -> Laminate {
        Laminate {
            thickness: mm(15.0),
            width: mm(48.0),
            wood: 1,
            crook: Some(mm(crook)),
            bow: None,
            twist: Some(mm(twist)),
            lean: None,
            ring_class: None,
            rise: None,
            moisture: None,
            density: None,
            modulus: None,
        }
    }

    fn plain(laminate: usize) -> Placed {
        Placed {
            laminate,
            turn: Turn::default(),
        }
    }

    #[test]
    fn no_other_way_round_costs_less() {
        let stock = [
            laminate(0.4, 0.1),
            laminate(-0.3, -0.2),
            laminate(0.5, 0.1),
            laminate(0.35, 0.0),
        ];
        let blank = [plain(0), plain(1), plain(2)];
        let within = MatchLimits::default();
        let put = put_by_hand(&stock, &blank, 1, 3, &within).unwrap();
        for turn in TURNS {
            let mut other = put.blank.clone();
            other[1].turn = turn;
            let other = judge_match(&stock, &other, &within).unwrap();
            assert!(put.judged.cost <= other.cost, "{turn:?}");
        }
        assert_eq!(
            judge_match(&stock, &put.blank, &within).unwrap(),
            put.judged
        );
    }

    #[test]
    fn one_that_stands_elsewhere_changes_places() {
        let stock = [laminate(0.1, 0.0), laminate(0.2, 0.0), laminate(0.3, 0.0)];
        let blank = [plain(0), plain(1), plain(2)];
        let put = put_by_hand(&stock, &blank, 0, 2, &MatchLimits::default()).unwrap();
        let order: Vec<usize> = put.blank.iter().map(|one| one.laminate).collect();
        assert_eq!(order, [2, 1, 0]);
    }

    #[test]
    fn a_place_or_a_laminate_that_is_not_there_is_refused() {
        let stock = [laminate(0.1, 0.0)];
        let within = MatchLimits::default();
        assert_eq!(
            put_by_hand(&stock, &[plain(0)], 1, 0, &within),
            Err(MatchError::Places(1))
        );
        assert_eq!(
            put_by_hand(&stock, &[plain(0)], 0, 7, &within),
            Err(MatchError::NotThere(7))
        );
    }
}
