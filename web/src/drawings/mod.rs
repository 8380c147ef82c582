//! Drawings of wood as SVG, with text for those who can't see them. They scale and place what core
//! has worked out; they work nothing out about wood.

mod blank;
mod cuts;
mod density;
mod end_grain;
mod grain;
mod lasting;
mod lean;
mod months;
mod plan;
mod section;
mod share;
mod side;
mod weights;

pub(crate) use blank::{LaminateDrawn, blank_end};
pub(crate) use cuts::Cuts;
pub(crate) use density::DensityStrip;
pub(crate) use end_grain::{EndGrain, RingsDrawn};
pub(crate) use grain::GrainLines;
pub(crate) use lasting::{LastingDrawn, StepDrawn, lasting_drawn};
pub(crate) use lean::{grain_sign, rings_sign};
pub(crate) use months::{LegDrawn, RowDrawn, plan_in_time};
pub(crate) use plan::{StripDrawn, end_of_strips, plan_drawn};
pub(crate) use section::{SectionDrawn, fill_key, scale_for, section_drawn};
pub(crate) use share::{ShareDrawn, shares_drawn};
pub(crate) use side::{Bent, Twisted};
pub(crate) use weights::weights;
