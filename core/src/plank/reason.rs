//! Why a plank was left, or a piece thrown out: a closed list in the trade's terms.

use serde::{Deserialize, Serialize};

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ReasonGroup {
    Shape,
    Grain,
    Drying,
    Breaks,
    /// Insects, fungus, dirt.
    Life,
    /// It could not be judged.
    Unseen,
    /// Price, papers and choice.
    Commerce,
    /// What only the workshop finds out.
    Workshop,
    /// What the workshop did, and the wood is not to blame for.
    OwnDoing,
}

macro_rules! reasons {
    ($($variant:ident, $name:literal, $group:ident, $definition:literal;)*) => {
        /// Why a plank was left, or a piece thrown out.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema)]
        #[serde(rename_all = "snake_case")]
        pub enum Reason {
            $(#[doc = $definition] $variant,)*
        }

        impl Reason {
            /// All of them, in the order in which they are offered.
            pub const ALL: &'static [Reason] = &[$(Reason::$variant),*];

            /// The trade's term.
            pub fn name(self) -> &'static str {
                match self { $(Reason::$variant => $name,)* }
            }

            pub fn definition(self) -> &'static str {
                match self { $(Reason::$variant => $definition,)* }
            }

            pub fn group(self) -> ReasonGroup {
                match self { $(Reason::$variant => ReasonGroup::$group,)* }
            }
        }
    };
}

impl Reason {
    /// Whether it tells something about the wood. "Budget reached" and "better one taken" do not, and
    /// must not enter what is learnt about a yard or a species; nor must what the workshop did wrong.
    pub fn counts_against_the_wood(self) -> bool {
        !matches!(
            self.group(),
            ReasonGroup::Commerce | ReasonGroup::Unseen | ReasonGroup::OwnDoing
        )
    }
}

reasons! {
    Bow, "bow", Shape, "Curved along the length, flatwise.";
    Crook, "crook", Shape, "Curved along the length, edgewise.";
    Twist, "twist", Shape, "The ends are not in one plane.";
    Cup, "cup", Shape, "Curved across the width.";
    Kink, "kink", Shape, "A sharp local bend, often at a knot.";
    UnevenThickness, "uneven thickness", Shape, "Thick and thin; the saw wandered.";
    TooSmall, "too small", Shape, "Too short, narrow or thin for the cut list.";
    Runout, "runout", Grain, "The fibres leave the face or the edge.";
    SpiralGrain, "spiral grain", Grain, "The fibres wind round the trunk.";
    WrongRings, "wrong ring angle", Grain, "Flat or rift where quartered is wanted, or the other way.";
    Pith, "pith", Grain, "The centre of the tree, or wood close to it, is in the plank.";
    ReactionWood, "reaction wood", Grain, "Tension or compression wood: moves lengthwise.";
    Knot, "knot", Grain, "Knots where they can't be cut round.";
    Figure, "too much figure", Grain, "Curl or burl where it is not wanted.";
    Sapwood, "sapwood", Grain, "Pale outer wood where heartwood is wanted.";
    TooHeavy, "too heavy", Grain, "Denser than wanted.";
    TooLight, "too light", Grain, "Less dense than wanted.";
    TooWet, "too wet", Drying, "Moisture over the limit.";
    Checks, "checks", Drying, "Drying cracks across the rings.";
    DryingStress, "drying stress", Drying, "Case-hardened, honeycombed or collapsed.";
    Split, "split", Breaks, "A crack right through.";
    Shake, "shake", Breaks, "A separation along the rings.";
    CompressionFailure, "compression failure", Breaks, "Wrinkles across the grain: breaks short.";
    Damage, "damage", Breaks, "Forklift, nails, saw nicks.";
    Decay, "decay or stain", Life, "Fungus, or colour that won't do.";
    Worm, "worm", Life, "Insect holes.";
    BarkPocket, "bark or gum", Life, "Bark or a gum pocket inside.";
    DullTap, "dull tap", Breaks, "Rings dead for no visible reason: a hidden crack is suspected.";
    NotSeen, "could not judge", Unseen, "Ends painted, or only one face seen.";
    SpeciesDoubtful, "species in doubt", Unseen, "A look-alike under a trade name.";
    Price, "price", Commerce, "Over the ceiling.";
    Papers, "no papers", Commerce, "Origin or a listed species is unclear.";
    BudgetReached, "budget reached", Commerce, "A good plank, left for want of money.";
    BetterTaken, "better one taken", Commerce, "A good plank, left for a better one.";
    Sprang, "sprang at the saw", Workshop, "Moved as it was cut, or within a day of it.";
    Moved, "moved while resting", Workshop, "Beyond its limit since it was last machined flat.";
    TearOut, "tear-out", Workshop, "Torn deeper than the allowance.";
    Miscut, "miscut", OwnDoing, "Cut wrong, or too thin after flattening.";
    Joint, "bad joint", OwnDoing, "Open, starved or creeping.";
    Unmatched, "no match", OwnDoing, "Colour, figure or moisture unlike its mates.";
}
