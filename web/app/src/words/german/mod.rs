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
pub mod table_file;
mod today;
mod track;
pub mod wood_names;
mod woods;
mod workshop;
mod yard;
