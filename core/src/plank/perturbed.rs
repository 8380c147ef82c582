//! How a plank changes when one source of error reads more or less. It never says how far a source may be
//! off: see [`super::Instruments`].

use super::{Plank, Rings, Source, Weighing};
use crate::quantity::{Length, Moisture, Slope, celsius, degrees, in_celsius, kg, m3, mm};
use crate::wood::CALIBRATION_CELSIUS;

impl Plank {
    pub(crate) fn without_defects(&self) -> Plank {
        Plank {
            defects: Vec::new(),
            ..*self
        }
    }

    /// The plank as it would be had one source read `by` more, in the unit in which its readings are
    /// kept.
    pub fn perturbed(&self, source: Source, by: f64) -> Plank {
        let mut plank = self.clone();
        plank.perturb(source, by);
        plank
    }

    fn perturb(&mut self, source: Source, by: f64) {
        let longer = |length: &mut Option<Length>| {
            if let Some(length) = length {
                *length += mm(by);
            }
        };
        match source {
            Source::Length => longer(&mut self.length),
            Source::Width => self.widths.each(longer),
            Source::Thickness => self.thicknesses.each(longer),
            Source::BetweenStations => self.between_stations += m3(by),
            Source::OffMiddle => self.off_middle += mm(by),
            Source::Scale => match &mut self.weighing {
                Some(Weighing::Whole(mass) | Weighing::Balanced { by: mass, .. }) => {
                    *mass += kg(by)
                }
                Some(Weighing::Ends { first, second, .. }) => {
                    *first += kg(by);
                    if let Some(second) = second {
                        *second += kg(by);
                    }
                }
                None => {}
            },
            Source::Bearer => match &mut self.weighing {
                Some(Weighing::Ends { overhang, .. }) => *overhang += mm(by),
                Some(Weighing::Balanced { arm, .. }) => *arm += mm(by),
                Some(Weighing::Whole(_)) | None => {}
            },
            Source::Meter => {
                if let Some(meter) = &mut self.meter {
                    meter.shown = Moisture::percent(meter.shown.in_percent() + by);
                }
            }
            Source::Temperature => {
                if let Some(meter) = &mut self.meter {
                    let wood = meter.wood.map_or(CALIBRATION_CELSIUS, in_celsius);
                    meter.wood = Some(celsius(wood + by));
                }
            }
            Source::Bow => grow(self.bow.as_mut().map(|bow| &mut bow.gap), by),
            Source::Crook => grow(self.crook.as_mut().map(|crook| &mut crook.gap), by),
            Source::Cup => grow(self.cup.as_mut().map(|cup| &mut cup.gap), by),
            Source::Twist => {
                if let Some(twist) = &mut self.twist {
                    twist.rise += mm(by);
                }
            }
            Source::GrainFace => steepen(&mut self.grain_face, by),
            Source::GrainEdge => steepen(&mut self.grain_edge, by),
            Source::Rings => match &mut self.rings {
                Some(Rings::Angle(angle)) => *angle += degrees(by),
                Some(Rings::Arc { dip, .. }) => *dip += mm(by),
                None => {}
            },
        }
    }
}

/// A signed gap, larger by `by` on its own side.
fn grow(gap: Option<&mut Length>, by: f64) {
    match gap {
        Some(gap) if *gap < mm(0.0) => *gap -= mm(by),
        Some(gap) => *gap += mm(by),
        None => {}
    }
}

fn steepen(slope: &mut Option<Slope>, by: f64) {
    if let Some(slope) = slope {
        *slope = Slope::tangent(slope.in_tangent() + by);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{
        Bend, BendShape, Cup, MeterReading, Stations, Twist, TwistRead, Weighing::Ends,
    };

    fn whole() -> Plank {
        let bend = |gap| Bend {
            gap: mm(gap),
            over: None,
            shape: BendShape::Even,
            signed: true,
        };
        Plank {
            length: Some(mm(2620.0)),
            widths: Stations::three(mm(214.0), mm(205.0), mm(193.0)),
            thicknesses: Stations::one(mm(52.0)),
            weighing: Some(Ends {
                first: kg(10.3),
                second: Some(kg(9.4)),
                overhang: mm(100.0),
            }),
            meter: Some(MeterReading {
                shown: Moisture::percent(10.5),
                wood: None,
            }),
            bow: Some(bend(9.0)),
            crook: Some(bend(-4.0)),
            cup: Some(Cup {
                gap: mm(4.0),
                over: None,
            }),
            twist: Some(Twist {
                rise: mm(12.0),
                read: TwistRead::Corner,
                hand: None,
            }),
            grain_face: Some(Slope::tangent(0.04)),
            grain_edge: Some(Slope::tangent(0.05)),
            rings: Some(Rings::Angle(degrees(30.0))),
            ..Plank::default()
        }
    }

    #[test]
    fn every_source_moves_the_plank() {
        for source in Source::ALL {
            assert_ne!(whole().perturbed(*source, 0.5), whole(), "{source:?}");
        }
    }

    #[test]
    fn a_gap_grows_on_its_own_side() {
        let crook = whole().perturbed(Source::Crook, 1.0).crook.unwrap();
        assert_eq!(crook.gap, mm(-5.0));
    }
}
