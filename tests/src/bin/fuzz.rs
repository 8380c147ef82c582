//! Feeds every parser of the core: `fuzz INPUTS SEED`, as `cargo xtask fuzz` calls it.

use std::time::Instant;
use stillwood_tests::fuzz::run;

fn main() {
    let mut words = std::env::args().skip(1);
    let mut number = |what: &str| -> u64 {
        let word = words.next().and_then(|word| word.parse().ok());
        word.unwrap_or_else(|| panic!("{what} has to be a number: fuzz INPUTS SEED"))
    };
    let (inputs, seed) = (number("INPUTS"), number("SEED"));
    let threads = std::thread::available_parallelism().map_or(1, |count| count.get() as u64);
    println!("{inputs} inputs under seed {seed}");
    let start = Instant::now();
    for (name, count) in run(seed, inputs, threads) {
        println!(
            "{name:<24}{:>10} accepted{:>10} refused",
            count.accepted, count.refused
        );
    }
    println!("no panic and no loss, in {} s", start.elapsed().as_secs());
}
