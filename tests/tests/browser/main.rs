//! The stories in real browsers, a file for a subject. One program: its tests share the machine's cores, as many
//! browsers at a time as the harness has threads.

mod app;
mod engines;
mod files;
mod half_typed;
mod kept;
mod long_list;
mod offline;
mod old_version;
mod paper;
mod screens;
mod shell;
mod store;
mod store_full;
mod work;
