//! What came of the wood: the share that came through each stage by what was known of the plank, and
//! whether a sign seen in the yard told anything.
//!
//! It brings the record's counts to the formulas of seasoning, one plank one pair. What is not yet
//! decided is counted nowhere; a few pieces are never called evidence.

use crate::order;
use crate::plank::{GrainSlope, Instruments};
use crate::quantity::TraceOff;
use crate::quantity::read::Units;
use crate::quantity::{Derivation, MassDensity, Slope, in_degrees, in_kg_per_m3, in_mm, show};
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::StageCount;
use crate::record::state::Origin;
use crate::record::state::{Piece, State};
use crate::season::{
    Difference, FamilyEffect, Predictor, PredictorError, ShareCount, Survival, explain_predictor,
    rank_correlation, share_difference_of, survival_of,
};
use crate::verdict::{Criterion, Sheet};
use std::collections::BTreeMap;

/// By what wood is told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GroupedBy {
    Wood,
    Yard,
    /// How it stands sawn in the part.
    Rings,
    Slope,
    /// Its density at 12 %.
    Density,
}

impl GroupedBy {
    pub const ALL: [GroupedBy; 5] = [
        GroupedBy::Wood,
        GroupedBy::Yard,
        GroupedBy::Rings,
        GroupedBy::Slope,
        GroupedBy::Density,
    ];

    /// In the maker's words.
    pub fn name(self) -> &'static str {
        match self {
            GroupedBy::Wood => "wood",
            GroupedBy::Yard => "yard",
            GroupedBy::Rings => "rings",
            GroupedBy::Slope => "slope of grain",
            GroupedBy::Density => "density",
        }
    }
}

/// What the planks of a group have in common.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum GroupName {
    /// A wood, a yard, how the rings stand or a band of slope, by its name.
    Named(String),
    /// A band of density, by its number from 0 kg/m³ on.
    Density(u32),
    NotLookedAt,
    /// Planks that differ, of one blank.
    Several,
}

impl GroupName {
    /// In the maker's words.
    pub fn in_words(&self, units: Units) -> String {
        match self {
            GroupName::Named(name) => name.clone(),
            GroupName::Density(band) => {
                let from = f64::from(*band) * DENSITY_BAND;
                let [low, high] = [from, from + DENSITY_BAND].map(|one| show::density(one, units));
                // The unit is said once.
                let low = low
                    .split_once(' ')
                    .map_or(low.as_str(), |(number, _)| number);
                format!("{low} to {high}")
            }
            GroupName::NotLookedAt => "not looked at".to_owned(),
            GroupName::Several => "of several".to_owned(),
        }
    }
}

/// What came of one group at one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct Came {
    /// What they have in common.
    pub name: GroupName,
    pub planks: usize,
    /// What became of them.
    pub count: StageCount,
    /// The share that came through; `None` while none is decided.
    pub survival: Option<Survival>,
}

/// A sign seen in the yard, and whether it told what came of the wood.
#[derive(Debug, Clone, PartialEq)]
pub struct PredictorFound {
    pub reading: YardReading,
    /// How it goes with the share that came through; an error where there is nothing to compare.
    pub predictor: Result<Predictor, PredictorError>,
    /// The sign and the share that came through, one pair a plank.
    pub pairs: Vec<(f64, f64)>,
}

impl PredictorFound {
    /// How it was worked out; `None` where there is nothing to compare.
    pub fn working(&self) -> Option<Derivation> {
        explain_predictor(&self.pairs)
    }
}

/// The slopes 1:n that part the bands of slope, and the kg/m³ that a band of density spans.
const SLOPE_BANDS: [f64; 2] = [15.0, 20.0];
const DENSITY_BAND: f64 = 50.0;

/// A slope as a number that grows with it; straight grain is nothing.
fn tangent(slope: Slope) -> f64 {
    slope.run().map_or(0.0, |run| 1.0 / run)
}

/// A plank's slope by which it is grouped; `None` where one face alone was seen and the other may put it into a steeper
/// group: what was not looked at is not taken for straight.
fn known_slope(grain: GrainSlope) -> Option<f64> {
    let steepest = |slope: &Slope| tangent(*slope) * SLOPE_BANDS[0] > 1.0;
    let known = grain.combined();
    known
        .or_else(|| Some(grain.at_least()).filter(steepest))
        .map(tangent)
}

fn slope_band(tangent: f64) -> String {
    let [limit, good] = SLOPE_BANDS;
    if tangent * good <= 1.0 {
        format!("1:{good} or better")
    } else if tangent * limit <= 1.0 {
        format!("1:{limit} to 1:{good}")
    } else {
        format!("steeper than 1:{limit}")
    }
}

/// The number of the band that a density falls into.
fn density_band(density: MassDensity) -> GroupName {
    GroupName::Density((in_kg_per_m3(density) / DENSITY_BAND).floor() as u32)
}

/// A reading of the yard that may tell what will come of the wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YardReading {
    Score,
    Slope,
    Rings,
    Density,
    Moisture,
    Bow,
    Crook,
    Twist,
    Slab,
}

impl YardReading {
    pub const ALL: [YardReading; 9] = [
        YardReading::Score,
        YardReading::Slope,
        YardReading::Rings,
        YardReading::Density,
        YardReading::Moisture,
        YardReading::Bow,
        YardReading::Crook,
        YardReading::Twist,
        YardReading::Slab,
    ];

    /// In the maker's words.
    pub fn name(self) -> &'static str {
        match self {
            YardReading::Score => "score",
            YardReading::Slope => "slope of grain",
            YardReading::Rings => "ring angle in the part",
            YardReading::Density => "density at 12 %",
            YardReading::Moisture => "moisture when bought",
            YardReading::Bow => "remaining bow in the part",
            YardReading::Crook => "remaining crook in the part",
            YardReading::Twist => "twist",
            YardReading::Slab => "straight slab left",
        }
    }

    /// Its number in a sheet.
    fn of(self, sheet: &Sheet) -> Option<f64> {
        Some(match self {
            YardReading::Score => sheet.verdict.score?,
            YardReading::Slope => known_slope(sheet.grain?)?,
            YardReading::Rings => in_degrees(sheet.rings?.stands),
            YardReading::Density => in_kg_per_m3(sheet.density_at_12.as_ref()?.value),
            YardReading::Moisture => sheet.moisture.as_ref()?.value.in_percent(),
            YardReading::Bow => in_mm(sheet.counted(sheet.bow_left?)),
            YardReading::Crook => in_mm(sheet.counted(sheet.crook_left?)),
            // Half of what remains of it in what is sawn first: readings over other lengths compare.
            YardReading::Twist => in_mm(sheet.cut_first?.slab().twist_loss?),
            // A shape that was not looked at takes nothing from the slab: such planks compare with no other.
            YardReading::Slab if sheet.is_at_best(Criterion::Straightness) => return None,
            YardReading::Slab => in_mm(sheet.slab.as_ref()?.value),
        })
    }
}

/// The name that two have in common; none where nothing is known of either.
fn shared(one: Option<GroupName>, other: Option<&GroupName>) -> Option<GroupName> {
    match (one, other) {
        (None, only) => only.cloned(),
        (only, None) => only,
        (Some(one), Some(other)) if one == *other => Some(one),
        _ => Some(GroupName::Several),
    }
}

/// What is counted together: by planks one by one, or by pieces of so many that they are counted at last.
#[derive(Default)]
struct Group {
    count: StageCount,
    /// How many came through of how many decided, family by family.
    decided: Vec<(u32, u32)>,
    planks: Vec<Id>,
    large: Vec<Id>,
}

fn group_of(state: &State, plank: &Piece, by: GroupedBy, instruments: &Instruments) -> GroupName {
    let sheet = || queries::sheet_of(state, plank, instruments);
    let named = match by {
        // By whichever of its names a yard has it.
        GroupedBy::Wood => queries::species_of(state, plank)
            .map(|named| GroupName::Named(queries::wood_name(state, named))),
        GroupedBy::Yard => {
            let visit = state.visit_of(plank);
            visit.map(|visit| GroupName::Named(visit.opened.yard.clone()))
        }
        GroupedBy::Rings => sheet()
            .and_then(|sheet| sheet.rings)
            .map(|rings| GroupName::Named(rings.stands_class.name().to_owned())),
        GroupedBy::Slope => sheet()
            .and_then(|sheet| known_slope(sheet.grain?))
            .map(|slope| GroupName::Named(slope_band(slope))),
        GroupedBy::Density => sheet()
            .and_then(|sheet| sheet.density_at_12)
            .map(|density| density_band(density.value)),
    };
    named.unwrap_or(GroupName::NotLookedAt)
}

/// What came of pieces, laminates or blanks, told apart by what was known of their planks; a blank
/// of planks that differ is of several. Groups by name.
pub fn what_came(
    state: &State,
    kind: PieceKind,
    by: GroupedBy,
    instruments: &Instruments,
) -> Vec<Came> {
    let mut groups: BTreeMap<GroupName, Group> = BTreeMap::new();
    let mut named: BTreeMap<Id, GroupName> = BTreeMap::new();
    let mut of_large: Option<BTreeMap<Id, GroupName>> = None;
    let mut name = |plank: &Piece| match named.get(&plank.id) {
        Some(name) => name.clone(),
        None => {
            let name = group_of(state, plank, by, instruments);
            named.insert(plank.id, name.clone());
            name
        }
    };
    let counts = queries::stage_counts(state, kind);
    for (&family, count) in &counts {
        let few = queries::family::few_planks_of(state, family);
        let of_all = match &few {
            Some(planks) => {
                let planks = planks.iter().filter_map(|plank| state.piece(*plank));
                planks.fold(None, |all, plank| shared(all, Some(&name(plank))))
            }
            None => {
                let all = of_large.get_or_insert_with(|| shared_names(state, &mut name));
                all.get(&family).cloned()
            }
        };
        let name = of_all.unwrap_or(GroupName::NotLookedAt);
        let group = groups.entry(name).or_default();
        group.count.join(count);
        group.decided.push((count.through, count.decided()));
        match few {
            Some(planks) => group.planks.extend(planks),
            None => group.large.push(family),
        }
    }
    let alike = FamilyEffect::of_planks(&queries::start::decided_by_plank(&counts));
    let came = |(name, group): (GroupName, Group)| {
        let of_large = queries::family::planks_of_all(state, &group.large);
        let planks = order::set_of(group.planks.into_iter().chain(of_large));
        Came {
            name,
            planks: planks.len(),
            survival: ShareCount::of_planks(&mut TraceOff, &group.decided, alike)
                .and_then(survival_of)
                .ok(),
            count: group.count,
        }
    };
    groups.into_iter().map(came).collect()
}

/// The two groups of which most is decided, that of which more came through first, and by how much their shares differ;
/// `None` where fewer than two have anything decided. What was not looked at, or is of several, is no group.
pub fn largest_compared(came: &[Came]) -> Option<(&Came, &Came, Difference)> {
    let named = |one: &&Came| matches!(one.name, GroupName::Named(_) | GroupName::Density(_));
    let decided = came.iter().filter(named);
    let mut decided: Vec<(&Came, Survival)> = decided
        .filter_map(|one| Some((one, one.survival?)))
        .collect();
    order::sort_by_key(&mut decided, |(_, found)| std::cmp::Reverse(found.of));
    let [mut first, mut second] = *decided.first_chunk::<2>()?;
    if first.1.share < second.1.share {
        std::mem::swap(&mut first, &mut second);
    }
    let difference = share_difference_of(&mut TraceOff, first.1.count(), second.1.count()).ok()?;
    Some((first.0, second.0, difference))
}

/// The name that all planks of a piece share, of every piece, each worked out once.
fn shared_names(
    state: &State,
    name: &mut impl FnMut(&Piece) -> GroupName,
) -> BTreeMap<Id, GroupName> {
    let mut found: BTreeMap<Id, GroupName> = BTreeMap::new();
    for id in state.lineages().parts_first() {
        let Some(piece) = state.piece(id) else {
            continue;
        };
        let of_all = match piece.work.origin {
            Origin::Yard => Some(name(piece)),
            _ => {
                let parts = queries::made_of(state, id);
                let parts = parts.iter().filter_map(|part| found.get(part));
                parts.fold(None, |all, part| shared(all, Some(part)))
            }
        };
        found.extend(of_all.map(|name| (id, name)));
    }
    found
}

/// Whether the signs seen in the yard told what share of each plank's laminates came through; one
/// pair a plank of which any is decided.
pub fn predictors(state: &State, instruments: &Instruments) -> Vec<PredictorFound> {
    let mut seen: Vec<(Sheet, f64)> = Vec::new();
    for (plank, count) in queries::stage_counts(state, PieceKind::Laminate) {
        let sheet = state
            .piece(plank)
            .and_then(|piece| queries::sheet_of(state, piece, instruments));
        if let (Some(sheet), true) = (sheet, count.decided() > 0) {
            let share = f64::from(count.through) / f64::from(count.decided());
            seen.push((sheet, share));
        }
    }
    let told = |reading: YardReading| {
        let pairs: Vec<(f64, f64)> = seen
            .iter()
            .filter_map(|(sheet, share)| Some((reading.of(sheet)?, *share)))
            .collect();
        PredictorFound {
            reading,
            predictor: rank_correlation(&pairs),
            pairs,
        }
    };
    YardReading::ALL.into_iter().map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{Field, Reading, Readings};
    use crate::verdict::{Spec, sheet};

    #[test]
    fn a_slope_grows_with_its_number_and_falls_into_its_band() {
        let of = |run: f64| tangent(Slope::one_in(run));
        assert!((of(12.5) - 0.08).abs() < 1e-12);
        assert_eq!(tangent(Slope::tangent(0.0)), 0.0);
        for (run, band) in [
            (40.0, "1:20 or better"),
            (20.0, "1:20 or better"),
            (19.0, "1:15 to 1:20"),
            (15.0, "1:15 to 1:20"),
            (14.0, "steeper than 1:15"),
        ] {
            assert_eq!(slope_band(of(run)), band, "1:{run}");
        }
        assert_eq!(slope_band(0.0), "1:20 or better");
    }

    #[test]
    fn a_face_that_was_not_looked_at_is_not_taken_for_straight() {
        let (good, steep) = (Slope::one_in(25.0), Slope::one_in(12.0));
        assert_eq!(known_slope(GrainSlope::AtLeastFace(good)), None);
        assert_eq!(known_slope(GrainSlope::AtLeastEdge(good)), None);
        for grain in [GrainSlope::Combined(good), GrainSlope::AtLeastFace(steep)] {
            assert_eq!(known_slope(grain), Some(tangent(grain.at_least())));
        }
    }

    #[test]
    fn a_slab_of_which_a_shape_was_not_looked_at_compares_with_none() {
        let all = [
            (Field::Length, 2620.0),
            (Field::WidthNear, 205.0),
            (Field::ThicknessNear, 52.0),
            (Field::Bow, 4.0),
            (Field::Twist, 4.0),
            (Field::Cup, 1.0),
        ];
        let slab = |looked: usize| {
            let readings = all[..looked].iter();
            let readings: Readings = readings
                .map(|(field, value)| (*field, Reading::of_number(*value, "mm")))
                .collect();
            let spec = &Spec::supplied()[0];
            YardReading::Slab.of(&sheet(&readings, &[], &Instruments::default(), spec))
        };
        assert!(slab(6).is_some());
        assert_eq!(slab(4), None);
    }

    #[test]
    fn a_density_falls_into_the_band_that_begins_below_it() {
        for (density, band) in [
            (700.0, "700 to 750 kg/m³"),
            (712.0, "700 to 750 kg/m³"),
            (749.9, "700 to 750 kg/m³"),
            (750.0, "750 to 800 kg/m³"),
        ] {
            let found = density_band(crate::quantity::kg_per_m3(density));
            assert_eq!(found.in_words(Units::Metric), band);
        }
        let in_pounds = GroupName::Density(14).in_words(Units::Inch);
        assert_eq!(in_pounds, "43.7 to 46.8 lb/ft³");
    }
}
