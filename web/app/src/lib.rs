//! The app without a browser: what it knows ([`Model`]), what may be done ([`Action`]), what follows from it
//! ([`update`], [`Effect`]), and every screen as a pure function ([`view`]).
//!
//! It holds no arithmetic on wood: that is core's. It knows no page: the shell puts the markup there and
//! carries out the effects.

#![cfg_attr(
    not(test),
    deny(clippy::unwrap_used, clippy::expect_used, clippy::panic)
)]

pub mod action;
pub mod blanks;
pub mod book;
pub mod desk;
pub mod drawings;
pub mod effect;
pub mod explain;
pub mod form;
pub mod form_id;
pub mod half_typed;
mod last_press;
pub mod long_list;
pub mod model;
pub mod number_and_unit;
pub mod page;
pub mod parts;
pub mod racks;
pub mod record;
pub mod route;
pub mod same_shape;
pub mod settings;
pub mod start_job;
pub mod starts;
pub mod taken_up;
pub mod tell;
pub mod today;
pub mod update;
pub mod view;
pub mod words;
pub mod work;
pub mod worked_out;
pub mod yard;

pub use action::Action;
pub use effect::Effect;
pub use model::Model;
pub use page::Page;
pub use route::Route;
pub use update::update;
pub use view::view;
