//! The measurements that can be typed for a plank: one list, which the entry screen, the record, the
//! table and the checks all share.

use serde::{Deserialize, Serialize};

/// What kind of quantity a field holds, and so how it is read, kept and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// A length; kept in millimetres.
    Length,
    /// A small gap, signed; kept in millimetres.
    Gap,
    /// A mass; kept in kilograms.
    Mass,
    /// A moisture content; kept in percent.
    Moisture,
    /// A temperature; kept in degrees Celsius.
    Temperature,
    /// A slope of grain; kept as its tangent.
    Slope,
    /// An angle; kept in degrees.
    Angle,
}

impl Measure {
    /// The unit in which the record keeps the understood value.
    pub fn kept_in(self) -> &'static str {
        match self {
            Measure::Length | Measure::Gap => "mm",
            Measure::Mass => "kg",
            Measure::Moisture => "%",
            Measure::Temperature => "degC",
            Measure::Slope => "tan",
            Measure::Angle => "deg",
        }
    }
}

/// What a field belongs to on the screen, in the order of the tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FieldGroup {
    /// Length, widths, thicknesses.
    Size,
    Weight,
    /// Bow, crook, twist, cup.
    Shape,
    /// Rings and slope of grain.
    Grain,
    Moisture,
}

macro_rules! fields {
    ($($variant:ident, $label:literal, $group:ident, $measure:ident, $low:literal .. $high:literal, $doc:literal;)*) => {
        /// One measurement of a plank.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema)]
        #[serde(rename_all = "snake_case")]
        pub enum Field {
            $(#[doc = $doc] $variant,)*
        }

        impl Field {
            /// All of them, in the order of the tape.
            pub const ALL: &'static [Field] = &[$(Field::$variant),*];

            pub fn label(self) -> &'static str {
                match self { $(Field::$variant => $label,)* }
            }

            /// What it is, for the hint beside the field.
            pub fn meaning(self) -> &'static str {
                match self { $(Field::$variant => $doc,)* }
            }

            /// Where it stands on the screen.
            pub fn group(self) -> FieldGroup {
                match self { $(Field::$variant => FieldGroup::$group,)* }
            }

            pub fn measure(self) -> Measure {
                match self { $(Field::$variant => Measure::$measure,)* }
            }

            /// Whether its sign is a side or a hand: less than nothing is to the left.
            pub fn has_sides(self) -> bool {
                matches!(self, Field::Twist | Field::PithOffset)
            }

            /// The range outside which a value is questioned (never refused), in the unit in which
            /// it is kept. Common practice, no source.
            pub fn usual(self) -> (f64, f64) {
                match self { $(Field::$variant => ($low, $high),)* }
            }
        }
    };
}

fields! {
    Length, "Length", Size, Length, 300.0 .. 8000.0, "Full length of the plank.";
    WidthNear, "Width near", Size, Length, 30.0 .. 900.0, "Width at the near end; alone, it stands for the whole plank.";
    WidthMiddle, "Width middle", Size, Length, 30.0 .. 900.0, "Width at mid-length.";
    WidthFar, "Width far", Size, Length, 30.0 .. 900.0, "Width at the far end.";
    ThicknessNear, "Thickness", Size, Length, 3.0 .. 160.0, "Thickness, the lowest of three; with the two below, that at the near end.";
    ThicknessMiddle, "Thickness middle", Size, Length, 3.0 .. 160.0, "Thickness at mid-length.";
    ThicknessFar, "Thickness far", Size, Length, 3.0 .. 160.0, "Thickness at the far end.";
    WidthWithWane, "Width with wane", Size, Length, 30.0 .. 1200.0, "Mean width with all of the wane, as some yards charge it; the widths above are those without.";
    WeightWhole, "Weight", Weight, Mass, 0.2 .. 120.0, "The whole plank on the scale.";
    WeightFirst, "First end", Weight, Mass, 0.1 .. 60.0, "Scale reading with one end lifted, the other resting.";
    WeightSecond, "Other end", Weight, Mass, 0.1 .. 60.0, "Scale reading with the other end lifted. The two add up to the whole.";
    WeightOverhang, "Overhang", Weight, Length, 0.0 .. 1500.0, "How far the resting end overhangs its bearer.";
    BalanceMass, "Known mass", Weight, Mass, 0.2 .. 40.0, "No scale: the known mass that balances the plank on a bar.";
    BalanceArm, "Bar to mass", Weight, Length, 50.0 .. 4000.0, "From the bar to the end that carries the known mass.";
    Bow, "Bow", Shape, Gap, 0.0 .. 40.0, "Curve along the length, flatwise: gap under the string. Plus: the marked face is hollow.";
    BowOver, "Bow over", Shape, Length, 200.0 .. 8000.0, "Length of the straightedge or string; empty is the whole plank.";
    BowKink, "Kink at", Shape, Length, 0.0 .. 8000.0, "Where the bow is a kink: its place from the near end.";
    Crook, "Crook", Shape, Gap, 0.0 .. 40.0, "Curve along the length, edgewise. Plus: the marked edge is hollow.";
    CrookOver, "Crook over", Shape, Length, 200.0 .. 8000.0, "Length of the straightedge or string; empty is the whole plank.";
    CrookKink, "Kink at", Shape, Length, 0.0 .. 8000.0, "Where the crook is a kink: its place from the near end.";
    Twist, "Twist", Shape, Gap, 0.0 .. 60.0, "Rise of the fourth corner, or the gap at the winding sticks.";
    TwistStick, "Winding stick", Shape, Length, 100.0 .. 1500.0, "Length of the winding stick; empty means the rise of the corner.";
    Cup, "Cup", Shape, Gap, 0.0 .. 20.0, "Curve across the width. Plus: the marked face is hollow.";
    CupOver, "Cup over", Shape, Length, 30.0 .. 900.0, "Length of the straightedge across; empty is the whole width.";
    GrainFace, "Grain face", Grain, Slope, 0.0 .. 0.25, "How far the grain leaves the edge on the wide face: 12 in 300, 1:25 or 2.3 deg.";
    GrainEdge, "Grain edge", Grain, Slope, 0.0 .. 0.25, "How far the grain leaves the face on the edge.";
    RingAngle, "Ring angle", Grain, Angle, 0.0 .. 90.0, "Acute angle between the rings and the wide face, at the end grain: 90 is quartersawn.";
    RingChord, "Ring chord", Grain, Length, 20.0 .. 600.0, "A ring's chord across the end.";
    RingDip, "Ring dip", Grain, Length, 0.2 .. 200.0, "The rise of that ring over its chord.";
    PithOffset, "Pith off centre", Grain, Length, 0.0 .. 600.0, "From mid-width to below the pith, on the near end with the marked face up: left is to the marked edge. A bare number is to the right.";
    Moisture, "Moisture", Moisture, Moisture, 3.0 .. 30.0, "What the meter shows.";
    WoodTemperature, "Wood temperature", Moisture, Temperature, -20.0 .. 45.0, "How warm the wood is: cold wood reads low.";
}
