//! A plank that is entered twice by one phone is asked about before it is bought.

mod filled;

use filled::Shop;
use stillwood_core::plank::{Field, RingsBy};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;

const PLANK: [(Field, &str); 5] = [
    (Field::Length, "2620"),
    (Field::WidthNear, "214"),
    (Field::WidthFar, "193"),
    (Field::ThicknessNear, "52"),
    (Field::WeightWhole, "19.7"),
];

/// What a plank of a pile becomes when it is bought with these readings.
fn bought(shop: &Shop, pile: Id, piece: Id, typed: &[(Field, &str)]) -> Filled {
    let mut draft = Draft::new(pile, format!("K7-{piece}"), String::new());
    draft.piece = Some(piece);
    for (field, text) in typed {
        let text = (*text).to_owned();
        let value = DraftValue {
            text,
            ..DraftValue::default()
        };
        draft.put(*field, value);
    }
    let deciding = Deciding {
        piece,
        draft: &draft,
        weighed_by: weighed_by(&draft).unwrap_or_default(),
        rings_by: RingsBy::Angle,
        units: Units::Metric,
        decision: Decision::Take,
        reasons: &[],
        confirmed: false,
    };
    decide_plank::command(&deciding, &shop.context()).unwrap()
}

/// The plank with some readings typed otherwise.
fn but(otherwise: &[(Field, &'static str)]) -> Vec<(Field, &'static str)> {
    let typed = |(field, text): &(Field, &'static str)| {
        let other = otherwise.iter().find(|(known, _)| known == field);
        (*field, other.map_or(*text, |(_, text)| *text))
    };
    PLANK.iter().map(typed).collect()
}

fn looks_like(filled: &Filled) -> Option<&str> {
    let mut asked = filled.questions.iter().map(|one| one.question.as_str());
    asked.find(|question| question.starts_with("It looks like"))
}

#[test]
fn a_plank_of_the_same_sizes_and_weight_is_asked_about() {
    let mut shop = Shop::new();
    let visit = shop.phone.open_visit("North");
    let [pile, other_pile] = [(); 2].map(|()| shop.phone.open_pile(visit, "hard_maple"));
    shop.keep();
    let [first, second] = [500, 501].map(Id::from_u128);
    let filled = bought(&shop, pile, first, &PLANK);
    assert_eq!(looks_like(&filled), None);
    shop.write(&filled.events);
    let mark = format!("K7-{first}");
    let asked = |typed: &[(Field, &'static str)]| {
        let filled = bought(&shop, pile, second, typed);
        looks_like(&filled).map(str::to_owned)
    };
    let question = format!("It looks like {mark}: same sizes and weight. Is it the same plank?");
    // As far off as tape and scale may be; and measured from the other end.
    for (otherwise, same) in [
        (&[][..], true),
        (
            &[(Field::Length, "2628"), (Field::WeightWhole, "19.8")],
            true,
        ),
        (&[(Field::WidthNear, "193"), (Field::WidthFar, "214")], true),
        (&[(Field::WeightWhole, "20.1")], false),
        (&[(Field::Length, "2640")], false),
        (&[(Field::WidthFar, "203")], false),
    ] {
        let expected = same.then(|| question.clone());
        assert_eq!(asked(&but(otherwise)), expected, "{otherwise:?}");
    }
    // Sizes are often copied from the plank before: without a weight they say nothing.
    assert_eq!(asked(&PLANK[..4]), None);
    assert_eq!(looks_like(&bought(&shop, other_pile, second, &PLANK)), None);
    assert_eq!(looks_like(&bought(&shop, pile, first, &PLANK)), None);
    // Two sawn one after the other: once the maker has said so, nobody asks again.
    let filled = bought(&shop, pile, second, &PLANK);
    shop.write(&filled.events);
    let told = SamePlank {
        other: second,
        same: false,
    };
    shop.phone.say(first, Event::SamePlank(told));
    shop.keep();
    assert_eq!(looks_like(&bought(&shop, pile, second, &PLANK)), None);
}
