//! Besieges the built app, as `cargo xtask siege` calls it: `siege --seconds N --seed N`, and to see one
//! round again `--round N` or one kind of round `--kind NAME`.

use std::process::ExitCode;
use std::time::Duration;
use stillwood_tests::siege::{Asked, Kind, run};

fn main() -> ExitCode {
    let mut asked = Asked {
        time: Duration::from_secs(60),
        seed: 1,
        round: None,
        kind: None,
    };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let value = words.next().unwrap_or_default();
        let number = || -> u64 {
            let number = value.parse();
            number.unwrap_or_else(|_| panic!("{word} {value}: a number is wanted"))
        };
        match word.as_str() {
            "--seconds" => asked.time = Duration::from_secs(number()),
            "--seed" => asked.seed = number(),
            "--round" => asked.round = Some(number()),
            "--kind" => {
                let kind = Kind::named(&value);
                let names = Kind::ALL.map(|(_, name)| name).join(", ");
                asked.kind = Some(kind.unwrap_or_else(|| panic!("no kind {value}; {names}")));
            }
            _ => panic!("{word} is not known: --seconds, --seed, --round, --kind"),
        }
    }
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime");
    println!(
        "besieged for {} s under seed {}",
        asked.time.as_secs(),
        asked.seed
    );
    runtime.block_on(run(&asked))
}
