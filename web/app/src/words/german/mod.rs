//! German. No native maker has read it yet.

mod bill;
mod blanks;
mod book;
mod common;
pub mod core;
mod dates;
pub mod fields;
mod happened;
mod planks;
mod racks;
mod share;
mod today;
mod track;
mod woods;
mod workshop;
mod yard;
