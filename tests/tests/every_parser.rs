//! Every parser of the core under damaged inputs: no panic, no refusal without a reason, no loss.
//! `cargo xtask fuzz` runs as many more as are wanted.

use stillwood_tests::fuzz::run;

#[test]
fn no_input_breaks_a_parser() {
    let counts = run(1, 50_000, 2);
    let all: u64 = counts.iter().map(|(_, c)| c.accepted + c.refused).sum();
    assert_eq!(all, 50_000);
    for (name, count) in counts {
        // Damage that spares nothing, or nothing at all, would show little. (A file of which one
        // entry is damaged is never refused; nor are cells.)
        assert!(count.accepted > 0, "{name}: nothing accepted");
        let never_refused = matches!(name, "cells" | "file, one entry damaged");
        assert!(
            never_refused || count.refused > 0,
            "{name}: nothing refused"
        );
    }
}

#[test]
fn the_same_seed_gives_the_same_inputs() {
    assert_eq!(run(7, 2_000, 1), run(7, 2_000, 3));
    assert_ne!(run(7, 2_000, 1), run(8, 2_000, 1));
}
