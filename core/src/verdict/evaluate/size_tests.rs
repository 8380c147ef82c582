//! When a plank's size decides, and when it is not known.

use super::tests::{only, plank};
use super::*;
use crate::plank::{Cup, Stations};
use crate::quantity::mm;
use crate::verdict::Form;

/// With the usual tools: what is plainly too small is refused and never too close to call, and a plank whose size
/// is not known is not judged by it, whatever its shape may be off by.
#[test]
fn a_size_of_nothing_is_only_too_close_where_a_reading_may_make_it_more() {
    let enough = Form::AtLeast {
        target: 1.0,
        limit: 1.0,
    };
    let spec = only(Criterion::Size, enough);
    let tools = [
        (Source::Length, 5.0),
        (Source::Width, 3.0),
        (Source::Thickness, 1.0),
        (Source::Bow, 1.0),
        (Source::Twist, 1.0),
        (Source::Cup, 1.0),
    ];
    let tools = tools.map(|(source, half)| Input::within(source, half));
    let judged = |change: &dyn Fn(&mut Plank)| {
        let mut plank = plank();
        change(&mut plank);
        let found = evaluate(&plank, &tools, &spec);
        let standard = found.estimate(Criterion::Size).map(|one| one.standard);
        (found.recommendation, found.score, standard)
    };
    let refused = (Recommendation::Refused, Some(0.0), Some(0.0));
    for too_small in [
        (|plank: &mut Plank| plank.length = Some(mm(600.0))) as fn(&mut Plank),
        |plank| plank.widths = Stations::one(mm(14.0)),
        |plank| plank.thicknesses = Stations::one(mm(30.0)),
    ] {
        assert_eq!(judged(&too_small), refused);
    }
    // The thickest that holds none, to a tenth: one reading, off by as much as it usually is, makes it enough.
    let thick = |tenths: i32| {
        move |plank: &mut Plank| plank.thicknesses = Stations::one(mm(f64::from(tenths) / 10.0))
    };
    let holds_none = |tenths: &i32| judged(&thick(*tenths)).1 == Some(0.0);
    let near = judged(&thick((300..520).rfind(holds_none).unwrap()));
    assert_eq!((near.0, near.1), (Recommendation::TooClose, Some(0.0)));
    let not_known = (Recommendation::NothingYet, None, None);
    for unknown in [
        (|plank: &mut Plank| plank.length = None) as fn(&mut Plank),
        |plank| plank.widths = Stations::default(),
        |plank| plank.thicknesses = Stations::default(),
    ] {
        assert_eq!(judged(&unknown), not_known);
    }
}

/// A straightedge that is longer than what it lies on leaves the slab unknown, and no size is told of it.
#[test]
fn a_straightedge_that_is_too_long_is_no_plank_too_small() {
    let enough = Form::AtLeast {
        target: 1.0,
        limit: 1.0,
    };
    let cupped = Plank {
        cup: Some(Cup {
            gap: mm(1.0),
            over: Some(mm(300.0)),
        }),
        ..plank()
    };
    let found = evaluate(&cupped, &[], &only(Criterion::Size, enough));
    assert_eq!((found.score, &found.reasons[..]), (None, &[][..]));
    assert_eq!(found.recommendation, Recommendation::NothingYet);
    let why = &found.unscored[0];
    assert!(!why.not_looked);
    assert!(
        why.why
            .starts_with("the straightedge is 300 mm but lies on 204 mm"),
        "{}",
        why.why
    );
}
