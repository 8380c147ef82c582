//! Pieces that several screens are made of.

mod form;
mod frame;
mod keypad;
mod live;
mod measure;
mod own_wood;
mod place;
mod printed;
mod result;
mod rings;
mod rule;
mod told;
mod wood;

pub(crate) use form::{Choice, DateField, Facts, NumberField, TextField, Tick, facts_drawn, slug};
pub(crate) use frame::{Frame, GoTo, TakeBack, Toasts, bring_into_view};
pub(crate) use keypad::{Key, Keys, after_key};
pub(crate) use live::{CollectAny, When, after_pause, live};
pub(crate) use measure::{MeasureCell, MeasureOrEye, focus_on};
pub(crate) use own_wood::OwnWoodFields;
pub(crate) use place::show_named_place;
pub(crate) use printed::{print_button, print_page, shelf_card};
pub(crate) use result::{Criteria, Pictures, Results, ScoreStrip, call_class};
pub(crate) use rings::{drawn_rings, pith_words};
pub(crate) use rule::{RuleEdited, RuleFields};
pub(crate) use told::{Tells, Told, given, told_fact, told_figure};
pub(crate) use wood::{WoodChosen, WoodField, WoodOffers};
