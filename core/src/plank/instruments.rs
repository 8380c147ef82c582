//! Tape, scale, meter: how far each reading may be off. How that moves the plank is told in `perturbed`.
//!
//! The half-widths supplied are common practice, no source; each is the maker's to set.

use super::describe::described;
use super::eye::half_step;
use super::{
    Bound, Field, Plank, Reading, Readings, RingsBy, Seen, Sign, Weighing, centre_off_middle,
    volume_shape_uncertainty,
};
use crate::quantity::float_of;
use crate::quantity::{Input, in_m3, in_mm};
use serde::{Deserialize, Serialize};

/// Where an error comes from. Readings made with the same tool in the same way move together: they
/// are one source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Source {
    Length,
    Width,
    Thickness,
    /// The shape between the stations, which nobody measured.
    BetweenStations,
    /// The centre of mass of a tapered plank, where one end alone was weighed.
    OffMiddle,
    Scale,
    /// Overhang, or the bar's place.
    Bearer,
    Meter,
    /// The wood's temperature.
    Temperature,
    Bow,
    Crook,
    Twist,
    Cup,
    GrainFace,
    GrainEdge,
    /// Ring angle, or the ring's dip.
    Rings,
}

impl Source {
    pub(crate) const ALL: &'static [Source] = &[
        Source::Length,
        Source::Width,
        Source::Thickness,
        Source::BetweenStations,
        Source::OffMiddle,
        Source::Scale,
        Source::Bearer,
        Source::Meter,
        Source::Temperature,
        Source::Bow,
        Source::Crook,
        Source::Twist,
        Source::Cup,
        Source::GrainFace,
        Source::GrainEdge,
        Source::Rings,
    ];

    /// What to measure again, in the maker's words.
    pub fn name(self) -> &'static str {
        match self {
            Source::Length => "length",
            Source::Width => "width",
            Source::Thickness => "thickness",
            Source::BetweenStations => "shape between the stations",
            Source::OffMiddle => "weight at the other end",
            Source::Scale => "weight",
            Source::Bearer => "place of the bearer",
            Source::Meter => "moisture",
            Source::Temperature => "wood temperature",
            Source::Bow => "bow",
            Source::Crook => "crook",
            Source::Twist => "twist",
            Source::Cup => "cup",
            Source::GrainFace => "grain on the face",
            Source::GrainEdge => "grain on the edge",
            Source::Rings => "rings",
        }
    }
}

/// Half-widths of the maker's tools: a reading may be off by as much, either way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(default)]
pub struct Instruments {
    /// Length by tape, mm.
    pub length_mm: f64,
    /// Width by tape on rough edges, mm.
    pub width_mm: f64,
    /// Thickness by rule or caliper on a rough face, mm.
    pub thickness_mm: f64,
    /// Scale, kg a reading.
    pub scale_kg: f64,
    /// Places along the plank: bearers, the bar, mm.
    pub place_mm: f64,
    /// Moisture meter, % of moisture content.
    pub meter_percent: f64,
    /// Thermometer, degrees Celsius.
    pub temperature_c: f64,
    /// Gap under a string or straightedge, mm.
    pub gap_mm: f64,
    /// Deviation of the grain over [`Instruments::slope_run_mm`], mm.
    pub slope_mm: f64,
    /// The run over which the grain is followed, mm.
    pub slope_run_mm: f64,
    /// Ring angle, degrees.
    pub ring_degrees: f64,
    /// The dip of a ring over its chord, mm.
    pub ring_dip_mm: f64,
}

impl Default for Instruments {
    fn default() -> Self {
        Self {
            length_mm: 5.0,
            width_mm: 3.0,
            thickness_mm: 1.0,
            scale_kg: 0.1,
            place_mm: 10.0,
            meter_percent: 1.0,
            temperature_c: 2.0,
            gap_mm: 1.0,
            slope_mm: 1.0,
            slope_run_mm: 300.0,
            ring_degrees: 5.0,
            ring_dip_mm: 1.0,
        }
    }
}

/// How far off room temperature wood may be whose temperature was not taken, either way, degrees Celsius.
/// Common practice, no source: a shed in winter or summer.
const WARMTH_UNKNOWN: f64 = 10.0;

/// How far off a value judged by eye may be at the least: these times the tool's half-width. Common practice, no
/// source: the eye's steps are about 3 mm. Where half of the eye's own step is more, that counts ([`half_step`]).
const EYE: f64 = 2.0;

/// Less of a volume is a trace of binary arithmetic, m³: a cubic millimetre.
const NO_VOLUME: f64 = 1e-9;

/// Less between two readings, or of the place of a centre, is a trace of binary arithmetic.
const NO_LENGTH: f64 = 1e-9;

/// How far the volume may be off by the shape between the stations, m³: see [`volume_shape_uncertainty`];
/// `None` where it is not.
pub(crate) fn between_stations(plank: &Plank) -> Option<Input<Source>> {
    let standard = in_m3(volume_shape_uncertainty(plank).ok()?);
    let source = Source::BetweenStations;
    (standard > NO_VOLUME).then_some(Input { source, standard })
}

/// How far the weight of one end, or of a balance, may be off by a taper, mm: see [`centre_off_middle`]; `None` where
/// both ends or the whole were weighed. The centre of mass lies as far to the one side or to the other, so that this
/// is its standard uncertainty.
pub(crate) fn off_middle(plank: &Plank) -> Option<Input<Source>> {
    let one_sided = match plank.weighing? {
        Weighing::Whole(_) => false,
        Weighing::Ends { second, .. } => second.is_none(),
        Weighing::Balanced { .. } => true,
    };
    let standard = in_mm(centre_off_middle(plank).ok()?);
    let source = Source::OffMiddle;
    (one_sided && standard > NO_LENGTH).then_some(Input { source, standard })
}

impl Instruments {
    /// How far a tool may be off, as it is typed: a number, 0 or more.
    pub fn read_error(typed: &str) -> Option<f64> {
        float_of(&typed.trim().replace(',', ".")).filter(|error| *error >= 0.0)
    }

    /// The standard uncertainty of every reading that was taken, by source; and that of the wood's
    /// temperature where the meter was read and the temperature was not taken, or not looking would
    /// make the moisture more certain.
    pub fn inputs(&self, readings: &Readings) -> Vec<Input<Source>> {
        self.inputs_of(&|field| readings.get(&field))
    }

    /// [`Self::inputs`], of readings wherever they are kept.
    pub(crate) fn inputs_of<'a>(
        &self,
        reading: &dyn Fn(Field) -> Option<&'a Reading>,
    ) -> Vec<Input<Source>> {
        let mut inputs: Vec<Input<Source>> = Vec::with_capacity(Source::ALL.len());
        // An angle is in degrees and a dip in millimetres: only the way that counts says how far the rings are off.
        let rings_by = RingsBy::of(|field| reading(field).is_some());
        let is_of_other_way =
            |field| RingsBy::whose(field).is_some_and(|way| Some(way) != rings_by);
        for field in Field::ALL {
            let Some(taken) = reading(*field).filter(|_| !is_of_other_way(*field)) else {
                continue;
            };
            let (source, half_width) = self.half_width_of(*field, taken);
            let input = Input::within(source, half_width);
            match inputs.iter_mut().find(|known| known.source == source) {
                Some(known) => known.standard = known.standard.max(input.standard),
                None => inputs.push(input),
            }
        }
        if reading(Field::Moisture).is_some() && reading(Field::WoodTemperature).is_none() {
            inputs.push(Input::within(Source::Temperature, WARMTH_UNKNOWN));
        }
        let plank = described(reading, &[]);
        inputs.extend(between_stations(&plank));
        inputs.extend(off_middle(&plank));
        inputs
    }

    /// Whether two readings of a field lie further apart than both together may be off: they are then not of one
    /// thing, or one of them is wrong. Where the side of one was not noted, how large they are is compared; one that is
    /// `at least` so much is not apart from anything above it.
    ///
    /// No published value: half-widths add up where the worst is looked for.
    pub fn tells_apart(&self, field: Field, a: &Reading, b: &Reading) -> bool {
        let off = |one: &Reading| self.half_width_of(field, one).1;
        let sided = a.sign == Sign::Known && b.sign == Sign::Known;
        let value = |one: &Reading| match sided {
            true => one.value,
            false => one.value.abs(),
        };
        let (a_is, b_is) = (value(a), value(b));
        let below =
            |bound: Bound, least: f64, other: f64| bound == Bound::AtLeast && other >= least;
        if below(a.bound, a_is, b_is) || below(b.bound, b_is, a_is) {
            return false;
        }
        (a_is - b_is).abs() > off(a) + off(b) + NO_LENGTH
    }

    /// How far a reading may be off either way: its tool, or the eye that judged it.
    fn half_width_of(&self, field: Field, reading: &Reading) -> (Source, f64) {
        let (source, tool) = self.half_width(field);
        let half_width = match reading.seen {
            Seen::ByEye => (tool * EYE).max(half_step(field, reading.value).unwrap_or(0.0)),
            _ => tool,
        };
        (source, half_width)
    }

    fn half_width(&self, field: Field) -> (Source, f64) {
        match field {
            Field::Length | Field::BowOver | Field::CrookOver => (Source::Length, self.length_mm),
            Field::BowKink | Field::CrookKink => (Source::Length, self.length_mm),
            Field::WidthNear | Field::WidthMiddle | Field::WidthFar => {
                (Source::Width, self.width_mm)
            }
            Field::CupOver | Field::TwistStick | Field::WidthWithWane => {
                (Source::Width, self.width_mm)
            }
            Field::ThicknessNear | Field::ThicknessMiddle | Field::ThicknessFar => {
                (Source::Thickness, self.thickness_mm)
            }
            Field::WeightWhole | Field::WeightFirst | Field::WeightSecond => {
                (Source::Scale, self.scale_kg)
            }
            Field::BalanceMass => (Source::Scale, self.scale_kg / 10.0),
            Field::WeightOverhang | Field::BalanceArm => (Source::Bearer, self.place_mm),
            Field::Bow => (Source::Bow, self.gap_mm),
            Field::Crook => (Source::Crook, self.gap_mm),
            Field::Twist => (Source::Twist, self.gap_mm),
            Field::Cup => (Source::Cup, self.gap_mm),
            Field::GrainFace => (Source::GrainFace, self.slope_mm / self.slope_run_mm),
            Field::GrainEdge => (Source::GrainEdge, self.slope_mm / self.slope_run_mm),
            Field::RingAngle => (Source::Rings, self.ring_degrees),
            Field::RingChord | Field::RingDip | Field::PithOffset => {
                (Source::Rings, self.ring_dip_mm)
            }
            Field::Moisture => (Source::Meter, self.meter_percent),
            Field::WoodTemperature => (Source::Temperature, self.temperature_c),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{Reading, describe};

    fn taken(value: f64, seen: Seen) -> Reading {
        Reading {
            seen,
            ..Reading::of_number(value, "")
        }
    }

    #[test]
    fn two_readings_are_told_apart_where_both_together_can_not_be_so_far_off() {
        let tools = Instruments::default();
        let apart = |field, a: &Reading, b: &Reading| {
            assert_eq!(
                tools.tells_apart(field, a, b),
                tools.tells_apart(field, b, a)
            );
            tools.tells_apart(field, a, b)
        };
        let measured = |value| taken(value, Seen::Measured);
        // Width 3 mm each: 6 mm are noise, more is not; by eye twice as much.
        let width = Field::WidthNear;
        assert!(!apart(width, &measured(203.0), &measured(209.0)));
        assert!(apart(width, &measured(203.0), &measured(209.1)));
        assert!(!apart(width, &measured(203.0), &taken(212.0, Seen::ByEye)));
        // A bow of the other side is another bow, where both sides were noted.
        let sided = |value, sign| Reading {
            sign,
            ..measured(value)
        };
        let (up, down) = (sided(4.8, Sign::Known), sided(-4.8, Sign::Known));
        assert!(apart(Field::Bow, &up, &down));
        assert!(!apart(Field::Bow, &sided(4.8, Sign::Unknown), &down));
        let at_least = Reading {
            bound: Bound::AtLeast,
            ..measured(9.0)
        };
        assert!(!apart(Field::Cup, &at_least, &measured(15.0)));
        assert!(apart(Field::Cup, &at_least, &measured(2.0)));
    }

    #[test]
    fn the_eye_is_no_surer_than_half_of_its_own_step() {
        let off = |field, value| {
            let reading = taken(value, Seen::ByEye);
            Instruments::default().half_width_of(field, &reading).1
        };
        // In 300 mm: straight to 1 in 25 are 12 mm, from there to 1 in 15 8 mm, from there to "worse" 10 mm.
        for (value, mm_in_300) in [(0.0, 6.0), (0.04, 4.0), (1.0 / 15.0, 5.0), (0.1, 5.0)] {
            let found = off(Field::GrainFace, value) * 300.0;
            assert!((found - mm_in_300).abs() < 1e-9, "{value}: {found}");
        }
        // Rift (45°) is half way to quartersawn (80°) at 62.5°.
        assert_eq!(off(Field::RingAngle, 45.0), 17.5);
        // Twice what a string shows is more than half a step of bow.
        assert_eq!(off(Field::Bow, 3.0), 2.0);
        assert_eq!(off(Field::WidthNear, 203.0), 6.0);
    }

    fn standard(readings: &Readings, source: Source) -> Option<f64> {
        let inputs = Instruments::default().inputs(readings);
        let found = inputs.iter().find(|input| input.source == source);
        found.map(|input| input.standard)
    }

    #[test]
    fn a_known_mass_is_known_ten_times_better_than_a_scale_reads() {
        let of = |field| {
            let readings = Readings::from([(field, taken(2.0, Seen::Measured))]);
            standard(&readings, Source::Scale).unwrap()
        };
        assert!((of(Field::WeightWhole) / of(Field::BalanceMass) - 10.0).abs() < 1e-9);
    }

    #[test]
    fn readings_of_one_tool_are_one_source_and_the_coarsest_counts() {
        let mut readings = Readings::from([
            (Field::WidthNear, taken(214.0, Seen::Measured)),
            (Field::WidthFar, taken(193.0, Seen::ByEye)),
        ]);
        assert_eq!(Instruments::default().inputs(&readings).len(), 1);
        assert_eq!(
            standard(&readings, Source::Width),
            Some(6.0 / 3.0_f64.sqrt())
        );
        readings.remove(&Field::WidthFar);
        assert_eq!(
            standard(&readings, Source::Width),
            Some(3.0 / 3.0_f64.sqrt())
        );
        let wider = describe(&readings, &[]).perturbed(Source::Width, 2.0);
        assert!((in_mm(wider.widths.near.unwrap()) - 216.0).abs() < 1e-9);
    }

    #[test]
    fn degrees_of_an_angle_are_never_taken_for_the_millimetres_of_a_dip() {
        let measured = |field, value| (field, taken(value, Seen::Measured));
        let arc = [
            measured(Field::RingChord, 150.0),
            measured(Field::RingDip, 25.0),
        ];
        let angle = measured(Field::RingAngle, 64.0);
        let alone = standard(&Readings::from(arc.clone()), Source::Rings);
        assert_eq!(alone, Some(1.0 / 3.0_f64.sqrt()));
        // Where both are there chord and dip count, and the angle's degrees do not.
        let [chord, dip] = arc;
        let both = Readings::from([chord, dip, angle.clone()]);
        assert_eq!(standard(&both, Source::Rings), alone);
        // Beside an angle the place of the pith says nothing, however roughly it is known.
        let rough = Instruments {
            ring_degrees: 0.5,
            ..Instruments::default()
        };
        let off = |readings: Readings| {
            let inputs = rough.inputs(&readings);
            inputs
                .iter()
                .find(|one| one.source == Source::Rings)
                .unwrap()
                .standard
        };
        let pith = (Field::PithOffset, taken(40.0, Seen::ByEye));
        let beside = off(Readings::from([angle.clone(), pith]));
        assert_eq!(beside, off(Readings::from([angle])));
    }

    #[test]
    fn wood_whose_warmth_was_not_taken_is_less_certain() {
        let mut readings = Readings::from([(Field::Moisture, taken(10.5, Seen::Measured))]);
        let unknown = standard(&readings, Source::Temperature).unwrap();
        readings.insert(Field::WoodTemperature, taken(8.0, Seen::Measured));
        assert!(unknown > standard(&readings, Source::Temperature).unwrap());
        readings.remove(&Field::Moisture);
        readings.remove(&Field::WoodTemperature);
        assert_eq!(standard(&readings, Source::Temperature), None);
    }
}
