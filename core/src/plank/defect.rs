//! Defects in a plank: a closed list of the trade's terms, each with a short definition.
//!
//! Definitions follow ordinary grading vocabulary. Which of them are fatal for a neck is common
//! practice, no source; the maker's spec decides.

use crate::quantity::Length;
use serde::{Deserialize, Serialize};

/// A defect and where it lies along the plank.
#[derive(Debug, Clone, PartialEq)]
pub struct Defect {
    pub kind: DefectKind,
    /// Where it starts, from the near end; `None` where no place was noted.
    pub from: Option<Length>,
    /// Where it ends; `None` is the same place as it starts.
    pub to: Option<Length>,
    /// The maker's note.
    pub note: String,
}

macro_rules! defects {
    ($($variant:ident, $name:literal, $severity:ident, $definition:literal;)*) => {
        /// What a defect is.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema)]
        #[serde(rename_all = "snake_case")]
        pub enum DefectKind {
            $(#[doc = $definition] $variant,)*
        }

        impl DefectKind {
            /// All of them, in the order in which they are offered.
            pub const ALL: &'static [DefectKind] = &[$(DefectKind::$variant),*];

            /// The trade's term.
            pub fn name(self) -> &'static str {
                match self { $(DefectKind::$variant => $name,)* }
            }

            pub fn definition(self) -> &'static str {
                match self { $(DefectKind::$variant => $definition,)* }
            }

            /// How bad it usually is for a neck (common practice, no source).
            pub fn severity(self) -> DefectSeverity {
                match self { $(DefectKind::$variant => DefectSeverity::$severity,)* }
            }
        }
    };
}

/// How bad a defect usually is for a neck (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DefectSeverity {
    Fatal,
    /// Cut round it across the plank: the rest of it is good.
    CutRound,
    /// The maker judges. Wane runs along an edge, and the widths are those without it: cutting round it would take it
    /// off twice.
    Judge,
}

defects! {
    Knot, "knot", CutRound, "Base of a branch; the grain swirls around it.";
    PinKnot, "pin knot", CutRound, "A knot no larger than a pencil lead.";
    Swirl, "swirl", Judge, "Grain turned aside round a knot or a crotch.";
    Burl, "burl", Judge, "Knotted, twisted growth, where it is not wanted.";
    Curl, "curl", Judge, "Waves in the grain: short, repeated runout, where it is not wanted.";
    SpiralGrain, "spiral grain", Fatal, "Fibres that wind round the trunk; shows on the flatsawn face and brings twist.";
    InterlockedGrain, "interlocked grain", Judge, "The slope turns back and forth in layers; a ribbon on the quartered face.";
    DiagonalGrain, "diagonal grain", Judge, "Rings not parallel to an edge: sawn askew to the tree.";
    Check, "check", CutRound, "A lengthwise crack across the rings, not through the plank.";
    EndCheck, "end check", CutRound, "A check that starts at the end.";
    Split, "split", CutRound, "A crack right through, usually from the end.";
    Shake, "shake", Fatal, "A separation along the rings.";
    Honeycomb, "honeycomb", Fatal, "Checks inside, unseen until it is cut; the tap is dull.";
    Collapse, "collapse", Fatal, "Sunken, washboard face from drying too fast.";
    CaseHardening, "case-hardening", Fatal, "Drying stress locked in; halves close or spring when resawn.";
    CompressionFailure, "compression failure", Fatal, "Fine wrinkles across the grain, hidden by a rough surface; breaks short.";
    Brash, "brash wood", Fatal, "Breaks short without a splinter.";
    Decay, "decay", Fatal, "Soft, bleached or zone-lined wood eaten by fungus.";
    Stain, "stain", Judge, "Colour only: blue, mineral, metal or sticker marks.";
    WormHole, "worm hole", CutRound, "Holes of insects; fresh dust means that they live.";
    BarkPocket, "bark pocket", CutRound, "Bark grown into the wood.";
    GumPocket, "gum or pitch pocket", CutRound, "A sticky vein.";
    Wane, "wane", Judge, "Bark, or missing wood, along an edge.";
    Sapwood, "sapwood", Judge, "The pale outer wood, where heartwood is wanted.";
    Pith, "pith", Fatal, "The centre of the tree in the plank; cracks and warps.";
    JuvenileWood, "juvenile wood", Fatal, "The first rings about the pith: weak, and shrinks lengthwise.";
    ReactionWood, "reaction or tension wood", Fatal, "From a leaning tree: woolly sawn face, silvery bands; moves lengthwise.";
    UnevenThickness, "uneven thickness", Judge, "Thick and thin where the saw wandered.";
    HandlingDamage, "damage", CutRound, "Forklift marks, nails, a saw nick, metal inside.";
}
