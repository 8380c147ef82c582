//! `bench`: to come.

use anyhow::{Result, bail};

pub(crate) fn command(_words: lexopt::Parser) -> Result<()> {
    bail!("to come")
}
