//! The project's chores: build, serve, test, bench. One file a command.

mod arithmetic;
mod bench;
mod build;
mod checks;
mod command;
mod demo;
mod fuzz;
mod gallery;
mod ladder;
mod licences;
mod palette;
mod place;
mod reference;
mod release;
mod serve;
mod shorter;
mod siege;
mod site;
mod size;
mod squeezed;
mod test;
mod tidy;
mod tools;
mod wasm;

use std::process::ExitCode;

use anyhow::{Result, bail};

const HELP: &str = "\
cargo xtask COMMAND [OPTIONS]

build             builds the app into dist/, ready for any static HTTPS host or sub-path
  --check-size      fails when a first visit loads more than the budget
  --worker-off      lays out the kill switch in the place of the service worker
  --names           the module keeps the names of its functions, for a browser's profiler

serve             builds, then serves dist/ on 127.0.0.1
  --port N          8080 unless told; 0 takes a free one and says which
  --under PATH      serves it below a path, as some hosts do
  --no-build        serves what is there
  --from FOLDER     serves another folder, and builds nothing

test              runs every check, stops at the first that fails
  --only A,B        only these parts
  --list            names the parts

checks            shows which formula is held against which published values

ladder            shows which files use what stands higher, or each other in a circle
  --of FOLDER       of another copy of the project

fuzz              feeds every parser of the core with damaged inputs
  --inputs N        ten million unless told
  --seed N          1 unless told; the same seed gives the same inputs

siege             besieges the built app: kills, wiped stores, full disks, hostile files
  --minutes N       ten unless told
  --seed N          1 unless told; the same seed gives the same rounds
  --round N         one round alone, as a failing one names itself
  --kind NAME       one kind of round alone, as the table at the end names them
  --no-build        besieges what is there; several may go on at once

bench             measures the core, then the app in a browser

gallery           pictures of every screen in its main states, below target/gallery/, and those in README
  --of PART         of the screens alone whose names hold this; README's pictures stay as they are
  --readme          of those alone that README shows

demo              makes demo-data/two-yards.json from the table beside it
  --summary         shows its planks and their verdicts instead

release           builds, then packs dist/, its papers and their hashes into one archive
  --no-build        packs what is there

help              this page
";

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("error: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<()> {
    let mut words = lexopt::Parser::from_env();
    let Some(word) = words.next()? else {
        print!("{HELP}");
        return Ok(());
    };
    match word {
        lexopt::Arg::Value(command) => match command.to_str() {
            Some("build") => build::command(words),
            Some("serve") => serve::command(words),
            Some("test") => test::command(words),
            Some("checks") => checks::command(words),
            Some("ladder") => ladder::command(words),
            Some("fuzz") => fuzz::command(words),
            Some("siege") => siege::command(words),
            Some("bench") => bench::command(words),
            Some("gallery") => gallery::command(words),
            Some("demo") => demo::command(words),
            Some("release") => release::command(words),
            Some("help") => {
                print!("{HELP}");
                Ok(())
            }
            _ => bail!(
                "no command \"{}\"; `cargo xtask help` lists them",
                command.display()
            ),
        },
        lexopt::Arg::Short('h') | lexopt::Arg::Long("help") => {
            print!("{HELP}");
            Ok(())
        }
        other => Err(other.unexpected().into()),
    }
}
