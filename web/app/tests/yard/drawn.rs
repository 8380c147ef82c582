//! What the drawing of a plank shows larger or shorter than it is, and says so.

use super::*;

#[test]
fn bow_and_crook_each_say_how_much_larger_they_are_drawn() {
    let mut desk = begun();
    for text in ["2620", "214", "205", "193", "52", "", "3", "1"] {
        typed(&mut desk, text, "Next");
    }
    says(&desk, "Bow drawn 6 times larger.");
    says(&desk, "Crook drawn 6 times larger.");
    assert!(!is_said(&desk, "Gaps drawn"));
}

#[test]
fn twist_turns_the_far_end_on_the_drawing_and_says_how_much_larger() {
    let mut desk = first_day();
    press(&mut desk, "Measure it now");
    for text in ["2620", "214", "205", "193", "52"] {
        typed(&mut desk, text, "Next");
    }
    press(&mut desk, "End by end");
    for text in ["10.3", "9.4", "9", "4"] {
        typed(&mut desk, text, "Next");
    }
    let drawing = |desk: &Desk| region(desk, "drawing");
    assert!(!drawing(&desk).contains("class=\"far"));
    assert!(!is_said(&desk, "Twist drawn"));
    typed(&mut desk, "12 L", "Next");
    // 12 mm over 204 mm are 3.4 degrees.
    says(&desk, "Twist drawn 4 times larger.");
    let drawn = drawing(&desk);
    assert!(
        drawn.contains("class=\"far\"") && drawn.contains("rotate(-14.0"),
        "{drawn}"
    );
    assert!(drawn.contains("The far end is turned to the left."));
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    let plank = desk.model.state().planks().next().unwrap().id;
    desk.go(Route::Plank(plank));
    says(&desk, "Twist drawn 4 times larger.");
    assert!(region(&desk, "body").contains("The far end is turned to the left."));
}

#[test]
fn a_length_that_is_drawn_whole_is_not_called_shorter() {
    let mut desk = begun();
    // Nor is one of which nothing is known.
    assert!(!is_said(&desk, "times shorter"), "{}", desk.reads());
    typed(&mut desk, "2620", "Next");
    assert!(!is_said(&desk, "times shorter"), "{}", desk.reads());
    typed(&mut desk, "214", "Next");
    says(&desk, "Length drawn 3 times shorter.");
    // Metres without their unit: it is asked about, and drawn as it stands.
    let mut desk = begun();
    typed(&mut desk, "2.62", "Next");
    press(&mut desk, "Next");
    typed(&mut desk, "214", "Next");
    assert!(!is_said(&desk, "times shorter"), "{}", desk.reads());
}

#[test]
fn a_twist_of_which_the_hand_is_not_known_is_drawn_both_ways_and_dashed() {
    let mut desk = begun();
    for text in ["2620", "214", "205", "193", "52", "20", "9", "4"] {
        typed(&mut desk, text, "Next");
    }
    press(&mut desk, "about 6");
    let drawn = region(&desk, "drawing");
    assert!(
        drawn.contains("The far end is turned; which way is not known."),
        "{drawn}"
    );
    assert_eq!(drawn.matches("class=\"far dashed\"").count(), 2);
}
