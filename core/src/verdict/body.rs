//! What a plank is, however it is cut: its mass, volume and moisture, each for itself, so that only what a
//! reading moves is worked out anew.
//!
//! It judges nothing, and holds no formula.

use super::Known;
use super::quality::moisture;
use crate::plank::{
    DensityError, Plank, Source, Sources, cross_sections, mass_as_weighed, volume, volume_between,
};
use crate::quantity::{Area, Mass, Moisture, Volume};

/// Mass, volume and moisture of a plank: values alone, for they are found many times for one verdict; why
/// there is none is found out where it is asked.
#[derive(Clone, Copy, Default)]
pub(super) struct Body {
    mass: Option<Mass>,
    sections: Option<[Area; 3]>,
    volume: Option<Volume>,
    moisture: Option<Moisture>,
}

const SECTIONS: Sources = Sources::of(&[Source::Width, Source::Thickness]);
pub(super) const MASS: Sources = Sources::of(&[Source::Length, Source::Scale, Source::Bearer]);
pub(super) const VOLUME: Sources = Sources::of(&[Source::Length, Source::Width, Source::Thickness]);
pub(super) const MOISTURE: Sources = Sources::of(&[Source::Meter, Source::Temperature]);

impl Body {
    /// What moves any of it.
    pub(super) const MOVED_BY: Sources = MASS.with(VOLUME).with(SECTIONS).with(MOISTURE);

    pub(super) fn of(plank: &Plank) -> Self {
        let sections = cross_sections(plank).ok();
        Self {
            mass: mass(plank).ok(),
            sections,
            volume: sections.and_then(|sections| volume_between(plank, sections)),
            moisture: moisture(plank).ok(),
        }
    }

    /// The mass, or why there is none.
    pub(super) fn mass(&self, plank: &Plank) -> Result<Mass, DensityError> {
        self.mass.map_or_else(|| mass(plank), Ok)
    }

    /// The volume, or why there is none.
    pub(super) fn volume(&self, plank: &Plank) -> Result<Volume, DensityError> {
        self.volume.map_or_else(|| Ok(volume(plank)?), Ok)
    }

    /// The moisture, or why there is none.
    pub(super) fn moisture(&self, plank: &Plank) -> Result<Moisture, Known> {
        self.moisture.map_or_else(|| moisture(plank), Ok)
    }

    /// Works out anew what a source moves.
    #[inline(always)]
    pub(super) fn again(&mut self, source: Source, plank: &Plank) {
        if MASS.hold(source) {
            self.mass = mass(plank).ok();
        }
        if SECTIONS.hold(source) {
            self.sections = cross_sections(plank).ok();
        }
        if VOLUME.hold(source) {
            self.volume = self
                .sections
                .and_then(|sections| volume_between(plank, sections));
        }
        if MOISTURE.hold(source) {
            self.moisture = moisture(plank).ok();
        }
    }

    /// Takes back what a source moved.
    #[inline(always)]
    pub(super) fn put_back(&mut self, source: Source, as_measured: &Self) {
        if MASS.hold(source) {
            self.mass = as_measured.mass;
        }
        if SECTIONS.hold(source) {
            self.sections = as_measured.sections;
        }
        if VOLUME.hold(source) {
            self.volume = as_measured.volume;
        }
        if MOISTURE.hold(source) {
            self.moisture = as_measured.moisture;
        }
    }
}

fn mass(plank: &Plank) -> Result<Mass, DensityError> {
    let weighing = plank.weighing.ok_or(DensityError::NotWeighed)?;
    Ok(mass_as_weighed(weighing, plank.length)?)
}
