//! `checks`: which formula of the core is held against which published values. It reads pages and
//! tables; it computes nothing.
//!
//! A formula is a public function of the core whose page says where it comes from or states an equation
//! (has ` = ` in it), or that a row names. Its rows are those of the tables in `tests/published` whose column `formula` begins
//! with its name (`emc`, for a method `RingClass::of`); a second word there picks a case. A formula
//! without a row has a line `No published value:` with the reason in its page. Anything else fails: a
//! formula with neither, an equation without an origin, a row without a source.

mod pages;
mod tables;
#[cfg(test)]
mod tests;

use anyhow::{Result, bail};

use self::pages::Function;
use self::tables::Value;
use crate::place;

/// As many published values there have to be at least.
const VALUES: usize = 300;

/// A function with what it is held against.
struct Covered {
    formula: Function,
    read: usize,
    from_memory: usize,
}

impl Covered {
    fn is_formula(&self) -> bool {
        let page = &self.formula;
        let told = page.has_origin || page.has_equation || page.no_value.is_some();
        told || self.read + self.from_memory > 0
    }

    fn problem(&self) -> Option<String> {
        let name = &self.formula.name;
        let rows = self.read + self.from_memory;
        if self.formula.has_equation && !self.formula.has_origin {
            Some(format!("{name} states an equation and no origin"))
        } else if rows == 0 && self.formula.no_value.is_none() {
            Some(format!("{name} has no row and no reason for having none"))
        } else if rows > 0 && self.formula.no_value.is_some() {
            Some(format!("{name} has rows and says that there are none"))
        } else {
            None
        }
    }
}

/// `cargo xtask checks`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    if let Some(word) = words.next()? {
        return Err(word.unexpected().into());
    }
    report(true)
}

/// Tells the totals and every problem, of each formula too where that is wanted.
pub(crate) fn report(each: bool) -> Result<()> {
    let root = place::root();
    let functions = pages::functions(&root.join("core/src"))?;
    let values = tables::values(&root.join("tests/published"))?;
    let (covered, other) = cover(functions, &values);
    if each {
        show(&covered, &other);
    }
    let with_rows = covered.iter().filter(|one| one.formula.no_value.is_none());
    println!(
        "{} formulas, {} of them with published values; {} values, {} read and {} from memory",
        covered.len(),
        with_rows.count(),
        values.len(),
        values.iter().filter(|value| value.read).count(),
        values.iter().filter(|value| !value.read).count(),
    );
    let mut problems: Vec<String> = covered.iter().filter_map(Covered::problem).collect();
    if values.len() < VALUES {
        problems.push(format!("{} published values, not {VALUES}", values.len()));
    }
    for problem in &problems {
        println!("{problem}");
    }
    match problems.len() {
        0 => Ok(()),
        count => bail!("{count} found wrong with the checks of the formulas"),
    }
}

/// Gives each formula its values; what is left belongs to no formula: a number of a table, a reader.
fn cover(functions: Vec<Function>, values: &[Value]) -> (Vec<Covered>, Vec<&Value>) {
    let is_named = |value: &&Value| functions.iter().any(|one| one.short == value.formula);
    let other = values.iter().filter(|value| !is_named(value)).collect();
    let covered = functions.into_iter().map(|formula| {
        let its = || values.iter().filter(|value| value.formula == formula.short);
        let read = its().filter(|value| value.read).count();
        Covered {
            read,
            from_memory: its().count() - read,
            formula,
        }
    });
    (covered.filter(Covered::is_formula).collect(), other)
}

fn show(covered: &[Covered], other: &[&Value]) {
    println!("{:<52}{:>6}{:>8}", "formula", "read", "memory");
    for one in covered {
        let Function { name, no_value, .. } = &one.formula;
        match no_value {
            Some(reason) => println!("{name:<52}     -       -  {reason}"),
            None => println!("{name:<52}{:>6}{:>8}", one.read, one.from_memory),
        }
    }
    println!("\nheld against published values beside the formulas:");
    let mut names: Vec<&str> = other.iter().map(|value| value.formula.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    for name in names {
        let its = || other.iter().filter(|value| value.formula == name);
        let read = its().filter(|value| value.read).count();
        println!("{name:<52}{read:>6}{:>8}", its().count() - read);
    }
    println!();
}
