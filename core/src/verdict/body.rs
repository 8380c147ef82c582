//! What a plank is, however it is cut: its mass, volume and moisture, each for itself, so that only what a
//! reading moves is worked out anew.
//!
//! It judges nothing, and holds no formula.

use super::Known;
use super::quality::moisture;
use crate::plank::{
    DensityError, Plank, SizeError, Source, Sources, cross_sections, mass_as_weighed,
    volume_between,
};
use crate::quantity::{Area, Mass, Moisture, Silent, Volume};

/// Mass, volume and moisture of a plank.
#[derive(Clone, Copy)]
pub(super) struct Body {
    pub(super) mass: Result<Mass, DensityError>,
    sections: Result<[Area; 3], SizeError>,
    pub(super) volume: Result<Volume, DensityError>,
    pub(super) moisture: Result<Moisture, Known>,
}

const SECTIONS: Sources = Sources::of(&[Source::Width, Source::Thickness]);
pub(super) const MASS: Sources = Sources::of(&[Source::Length, Source::Scale, Source::Bearer]);
pub(super) const VOLUME: Sources = Sources::of(&[Source::Length, Source::Width, Source::Thickness]);
pub(super) const MOISTURE: Sources = Sources::of(&[Source::Meter, Source::Temperature]);

impl Body {
    pub(super) fn of(plank: &Plank) -> Self {
        let sections = cross_sections(plank);
        Self {
            mass: mass(plank),
            sections,
            volume: volume(plank, sections),
            moisture: moisture(plank),
        }
    }

    /// Works out anew what a source moves.
    pub(super) fn again(&mut self, source: Source, plank: &Plank) {
        if MASS.hold(source) {
            self.mass = mass(plank);
        }
        if SECTIONS.hold(source) {
            self.sections = cross_sections(plank);
        }
        if VOLUME.hold(source) {
            self.volume = volume(plank, self.sections);
        }
        if MOISTURE.hold(source) {
            self.moisture = moisture(plank);
        }
    }

    /// Takes back what a source moved.
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

fn volume(plank: &Plank, sections: Result<[Area; 3], SizeError>) -> Result<Volume, DensityError> {
    Ok(volume_between(&mut Silent, plank.length, sections)?)
}
