//! The track record and the plan: what they show of the sample, what is typed, and what is saved.

mod at_the_desk;

use at_the_desk::{DAY, press, region, sample, says, says_not};
use stillwood_app::desk::Desk;
use stillwood_app::{Action, Effect, Route};
use stillwood_core::record::queries;

/// A figure is a key that tells how it was worked out.
fn tells(desk: &mut Desk, figure: &str, told: &str) {
    press(desk, figure);
    says(desk, "How it is worked out");
    says(desk, told);
    press(desk, "Close");
}

#[test]
fn what_came_through_is_told_by_stage_and_group() {
    let mut desk = sample();
    desk.go(Route::TrackRecord);
    says(&desk, "Vessingholt Timber Yard");
    says(&desk, "18 of 25, too few to say");
    says(&desk, "between 38 % and 93 %");
    says(
        &desk,
        "5 planks · 3 sprang at the saw · 4 moved or failed · 20 still waiting · 1 used otherwise",
    );
    tells(&mut desk, "18 of 25", "Source:");
    says(
        &desk,
        "Plumlatch Lumber: 122 planks turned over, 9 bought: 1 in 13.6.",
    );
    // With one yard there is nothing to compare. Few planks are no evidence that one group is better.
    says_not(&desk, "evidence of a difference");
    press(&mut desk, "density");
    says(
        &desk,
        "not yet evidence of a difference. Difference in points:",
    );
    tells(&mut desk, "Difference of the shares", "Newcombe");
    press(&mut desk, "wood");
    says_not(&desk, "planks turned over");
    says_not(&desk, "Vessingholt Timber Yard\n18");
    says(&desk, "European maple");
    press(&mut desk, "pieces");
    let kept = desk
        .kept
        .get("shown/track-record")
        .expect("what is shown is kept on the device");
    assert!(
        kept.contains("\"by\":\"wood\"") && kept.contains("\"kind\":\"pieces\""),
        "{kept}"
    );
}

#[test]
fn how_long_it_lasts_is_drawn_with_its_band_and_said() {
    let mut desk = sample();
    desk.go(Route::TrackRecord);
    says(
        &desk,
        "Of 46 laminates 7 discarded. 20 still there, counted up to today.",
    );
    says(&desk, "After 6 months\n93 % (73 % to 99 %)");
    let body = region(&desk, "body");
    assert!(body.contains("class=\"band\""), "the band is drawn");
    assert!(body.contains("aria-label=\"Share still in over the months. Of 46 laminates"));
    tells(&mut desk, "93 % (73 % to 99 %)", "Kaplan");
    press(&mut desk, "all");
    says_not(&desk, "Of 46 laminates");
}

#[test]
fn how_many_to_start_follows_what_is_typed() {
    let mut desk = sample();
    desk.go(Route::TrackRecord);
    says(&desk, "Start none");
    desk.type_into("start blanks", "200");
    says_not(&desk, "Start none");
    says(&desk, "Too few to say.");
    desk.type_into("start blanks", "many");
    says(&desk, "Type a whole number.");
    desk.type_into("start blanks", "4");
    desk.type_into("start sure", "100");
    says_not(&desk, "NaN");
    desk.type_into("start sure", "90");
    tells(&mut desk, "Start none", "Source:");
}

#[test]
fn where_the_money_went_adds_up_to_what_was_paid() {
    let mut desk = sample();
    desk.go(Route::TrackRecord);
    says(&desk, "Paid for planks, with tax");
    let (accounts, _) = queries::cost_account(desk.model.state());
    let (currency, account) = accounts.iter().next().expect("something was paid");
    let paid = format!("{:.2} {currency}", account.paid.round_dp(2));
    says(&desk, &paid);
    tells(&mut desk, &paid, currency);
}

#[test]
fn the_yards_readings_say_what_they_foretold() {
    let mut desk = sample();
    desk.go(Route::TrackRecord);
    says(&desk, "What the yard's readings foretold");
    says(
        &desk,
        "Does more come through of planks with a high score?\nNot clear yet: what 5 planks show may be chance.",
    );
    // Every reading of core has its question, and none speaks in statistics.
    let read = desk.reads();
    let (_, told) = read
        .split_once("What the yard's readings foretold")
        .unwrap();
    let of = queries::predictors(desk.model.state(), &desk.model.settings.instruments);
    let (told, _) = told.split_once("How long it lasts").unwrap();
    assert_eq!(told.matches("?\n").count(), of.len(), "{told}");
    says_not(&desk, "correlation");
    tells(
        &mut desk,
        "Not clear yet: what 5 planks show may be chance.",
        "Rank correlation",
    );
}

#[test]
fn what_is_expected_of_a_plank_says_what_it_counts() {
    let mut desk = sample();
    desk.go(Route::TrackRecord);
    says(
        &desk,
        "that were ripped to the last, on average, counting the laminates of pieces that were discarded.",
    );
    says(&desk, "All three together come to 50 %");
    desk.go(Route::Plan);
    says(&desk, "by what fits in those of this visit");
}

#[test]
fn an_empty_record_says_that_nothing_has_come() {
    let mut desk = Desk::new(DAY);
    desk.go(Route::TrackRecord);
    says(&desk, "No piece has come through its rest yet.");
    // The share of a stage is shown in whole percents; as long as it is not typed, the plan's own share counts.
    says(&desk, "10 good blanks come of it 93 times in 100.");
    desk.go(Route::Plan);
    says(&desk, "Nothing of that wood is in hand.");
    says(&desk, "With them it is 93 times in 100.");
    says_not(&desk, "NaN");
}

#[test]
fn the_plan_tells_whether_it_is_enough_and_the_last_days() {
    let mut desk = sample();
    desk.go(Route::Plan);
    says(&desk, "Saved on 20 Nov. Visits now count towards it.");
    says(&desk, "Enough is in hand.");
    says(
        &desk,
        "What is in hand gives 4 good blanks by 1 Sep 2028 99 times in 100.",
    );
    says(&desk, "Laminates glued\n1 Mar 2028");
    tells(&mut desk, "Laminates glued: 1 Mar 2028", "Source:");
    says(&desk, "Planks bought\n");
    says(&desk, "Planks cut and set to rest\n");
    says(&desk, "less what your cuts lost so far");
    // A look is called a look, as on the racks; one that is old is said to be.
    says_not(&desk, "checks wanted");
    says(&desk, "not looked at for over half a year (1)");
    says(&desk, "planks, not cut");
    says(&desk, "12 laminates since 2 May");
    says(&desk, "Your usual pace");
    says(&desk, "Still needed");
}

#[test]
fn more_blanks_are_saved_as_the_target_and_undone() {
    let mut desk = sample();
    desk.go(Route::Plan);
    desk.type_into("Good blanks wanted", "12");
    says(&desk, "Save as target");

    // Half typed, it is there again.
    desk.go(Route::Book);
    desk.go(Route::Plan);
    says(&desk, "You had begun this.");
    press(&mut desk, "90 %");
    press(&mut desk, "Save as target");
    assert_eq!(desk.model.route, Route::Plan);
    let (target, _) = queries::target(desk.model.state()).expect("a target");
    assert_eq!((target.blanks, target.sure_percent), (12, 90));
    says(&desk, "Saved on 20 Nov.");
    says_not(&desk, "You had begun this.");
    press(&mut desk, "Undo");
    let (target, _) = queries::target(desk.model.state()).expect("the one before");
    assert_eq!(target.blanks, 4);
}

#[test]
fn what_is_wrong_with_the_target_stands_at_its_field() {
    let mut desk = sample();
    desk.go(Route::Plan);
    desk.type_into("Good blanks wanted", "");
    says_not(&desk, "Is it enough?");
    press(&mut desk, "Save as target");
    let body = region(&desk, "body");
    assert!(body.contains("aria-invalid=\"true\""), "{}", desk.reads());
    assert!(
        desk.left
            .iter()
            .any(|one| matches!(one, Effect::Focus(id) if id == "field-Good-blanks-wanted"))
    );
}

#[test]
fn the_wood_of_the_target_can_be_chosen() {
    let mut desk = sample();
    desk.go(Route::Plan);
    press(&mut desk, "African padauk");
    desk.act(Action::Wide(true));
    says(&desk, "Save as target");
    press(&mut desk, "Save as target");
    let (target, _) = queries::target(desk.model.state()).expect("a target");
    assert_eq!(
        target.wood.as_ref().map(|wood| wood.text.as_str()),
        Some("African padauk")
    );
}

#[test]
fn names_of_groups_follow_the_language_and_the_units() {
    let mut desk = sample();
    desk.go(Route::TrackRecord);
    let by = |desk: &mut Desk, by: &str| {
        desk.act(Action::Choose {
            screen: "track-record",
            name: "by",
            value: by.to_owned(),
        });
    };
    by(&mut desk, "density");
    says(&desk, "650 to 700 kg/m³");
    desk.model.settings.units = stillwood_core::quantity::read::Units::Inch;
    says(&desk, "40.6 to 43.7 lb/ft³");
    desk.model.settings.language = stillwood_app::words::Language::German;
    says(&desk, "40,6 bis 43,7 lb/ft³");
    by(&mut desk, "slope of grain");
    says(&desk, "oder besser");
    by(&mut desk, "rings");
    says(&desk, "Stehend\n");
    by(&mut desk, "yard");
    says(&desk, "Vessingholt Timber Yard");
}
