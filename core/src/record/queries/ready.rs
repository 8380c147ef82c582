//! Laminates that wait to be glued, as the matching takes them, and what the blank will weigh.
//!
//! Crook, bow and twist are how far each has moved since it was last machined flat: a shape is planed
//! off, a tendency is not. What was read without its side counts as not measured.

use crate::neck::{
    self, BendingStiffness, Laminate, Layer, MatchLimits, Placed, joint_area,
    stiffness_along_glue_lines, twist_left_in_blank,
};
use crate::order;
use crate::plank::{Instruments, Plank, mean_of_stations};
use crate::quantity::{
    Angle, Area, Derivation, Length, Mass, MassDensity, Moisture, Pressure, Trace, TraceOff,
    celsius, in_mm, kg, mm, show,
};
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::marks::mark_order;
use crate::record::queries::{Checked, RestLine, Starts};
use crate::record::state::{Piece, State};
use crate::season::{Ready, Warp, is_look_old};
use crate::wood::{CALIBRATION_CELSIUS, meter_corrected};
use chrono::NaiveDate;
use std::collections::BTreeMap;
use uom::si::pressure::gigapascal;

/// A laminate that can be glued.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadyLaminate {
    pub piece: Id,
    pub mark: String,
    /// Its wood, by its one name.
    pub wood: String,
    pub length: Length,
    /// As the matching takes it.
    pub laminate: Laminate,
    /// Acute angle of its rings to its wide face.
    pub ring_angle: Option<Angle>,
    /// Whether its rest is over; one that was never set to rest is not ready.
    pub ready: Ready,
    /// It was looked over last too long ago to tell how it stands.
    pub is_look_old: bool,
}

/// What a shape of a laminate has moved since it was last flat, as far as its side was noted.
fn moved_by(checks: &[Checked], starts: &Starts, wanted: Warp) -> Option<Length> {
    let mut by = None;
    for check in queries::checks_since(checks, starts, wanted) {
        for change in check.changes.iter().flatten() {
            if change.warp == wanted && change.by.is_some() {
                let still = change.by == Some(mm(0.0));
                by = change.by.filter(|_| change.signed || still);
            }
        }
    }
    by
}

/// How far a blank may be off: as the maker set it, else as supplied.
pub fn match_limits(state: &State) -> MatchLimits {
    let set = state.gluing.as_ref();
    set.map_or_else(MatchLimits::default, |set| set.payload.limits())
}

/// All laminates at hand that are not kept for somebody and not put to another use, those ready in
/// front, then those of which that is not known, then by mark, and the names of their woods in the order of their
/// numbers. Those of which a size is not known are left out. `lines` are what rests, see [`queries::resting`].
pub fn laminates_to_glue(
    state: &State,
    lines: &[RestLine],
    today: NaiveDate,
    feeler: Length,
    instruments: &Instruments,
) -> (Vec<ReadyLaminate>, Vec<String>) {
    let free = |piece: &&Piece| {
        piece.work.kind == PieceKind::Laminate
            && piece.work.downgraded.is_none()
            && !piece.is_kept_on(today)
    };
    let named = |piece: &Piece| {
        let wood = queries::species_of(state, piece);
        wood.map_or_else(String::new, |wood| queries::wood_name(state, wood))
    };
    let stock: Vec<&Piece> = queries::stock(state).filter(free).collect();
    let woods: Vec<String> = order::set_of(stock.iter().map(|piece| named(piece)))
        .into_iter()
        .collect();
    let lines = order::map_of(lines.iter().map(|line| (line.piece, line)));
    let mut ready: Vec<ReadyLaminate> = Vec::new();
    let mut densities = BTreeMap::new();
    for piece in stock {
        let size = queries::size_of(state, piece);
        let sizes = (
            size.length,
            mean_of_stations(&size.widths),
            mean_of_stations(&size.thicknesses),
        );
        let (Some(length), Some(width), Some(thickness)) = sizes else {
            continue;
        };
        let wood = named(piece);
        let number = woods.binary_search(&wood).unwrap_or(0);
        let rings = queries::rings_in(state, piece, mm(0.0));
        let seen = piece.work.grain_seen();
        let (checks, starts) = queries::moved_from(state, piece, feeler);
        let moved = |warp| moved_by(&checks, &starts, warp);
        let moisture = moisture_of(piece);
        let laminate = Laminate {
            thickness,
            width,
            wood: number as u32,
            crook: moved(Warp::Crook),
            bow: moved(Warp::Bow),
            twist: moved(Warp::Twist),
            lean: seen.rings_lean.or(rings.and_then(|rings| rings.leans)),
            ring_class: rings.map(|rings| rings.class),
            rise: seen.grain_rises,
            moisture,
            density: density_of_laminate(state, piece, instruments, &mut densities),
            modulus: usual_modulus(state, piece),
        };
        let line = lines.get(&piece.id);
        let rest = line.and_then(|line| line.ready.as_ref().ok());
        let looked_at = piece.work.checks.last().map(|check| check.on);
        ready.push(ReadyLaminate {
            piece: piece.id,
            mark: piece.mark.clone(),
            wood,
            length,
            laminate,
            ring_angle: rings.map(|rings| rings.angle),
            ready: rest.map_or(Ready::No, |rest| rest.ready()),
            is_look_old: looked_at.is_some_and(|looked| is_look_old(looked, today)),
        });
    }
    order::sort_by_key(&mut ready, |one| (one.ready, mark_order(&one.mark)));
    (ready, woods)
}

/// Whether the moisture of any laminate was ever read: not every maker has a meter.
pub fn moisture_of_laminates_is_read(state: &State) -> bool {
    let is_read = |piece: &Piece| {
        piece.work.kind == PieceKind::Laminate
            && !piece.withdrawn
            && !piece.work.moistures.is_empty()
    };
    state.pieces().any(is_read)
}

/// The usual stiffness of its wood at 12 %, as the table has it: nothing is measured of it here.
pub(crate) fn usual_modulus(state: &State, piece: &Piece) -> Option<Pressure> {
    let wood = queries::wood_of(state, queries::species_of(state, piece)?)?;
    Some(wood.stiffness_at_12()?.value)
}

/// Density at 12 %: of its own weight, size and moisture; where it was not weighed, its plank's.
/// Those of planks are `known` from then on.
fn density_of_laminate(
    state: &State,
    piece: &Piece,
    instruments: &Instruments,
    known: &mut BTreeMap<Id, Option<MassDensity>>,
) -> Option<MassDensity> {
    let of_plank = || {
        let plank = queries::plank_of(state, piece)?;
        let known = known.entry(plank).or_insert_with(|| {
            let sheet = queries::sheet_of(state, state.piece(plank)?, instruments)?;
            sheet.density_at_12.map(|density| density.value)
        });
        *known
    };
    queries::density_in_shop(state, piece).or_else(of_plank)
}

/// What the meter showed last, corrected for cold wood.
fn moisture_of(piece: &Piece) -> Option<Moisture> {
    moisture(&mut TraceOff, piece)
}

/// [`moisture_of`], with its step.
pub(crate) fn moisture(trace: &mut impl Trace, piece: &Piece) -> Option<Moisture> {
    let read = &piece.work.moistures.last()?.payload;
    let calibrated = celsius(CALIBRATION_CELSIUS);
    let wood = read.wood_temperature.as_ref();
    let wood = wood.map_or(calibrated, |wood| celsius(wood.value));
    meter_corrected(trace, Moisture::percent(read.shown.value), wood, calibrated).ok()
}

/// The blank that laminates come to: how long, wide and thick, its weight and stiffness where every
/// density or wood is known, and the twist that it keeps where that of every laminate is known.
#[derive(Debug, Clone, PartialEq)]
pub struct BlankSize {
    /// The shortest laminate.
    pub length: Length,
    pub width: Length,
    pub thickness: Length,
    /// At 12 % moisture.
    pub weight: Option<Mass>,
    /// How hard it is to bend along its glue lines, as a neck is by its strings, by the usual stiffness
    /// of its woods.
    pub stiffness: Option<BendingStiffness>,
    /// The twist that is left in it once it is glued, see [`twist_left_in_blank`].
    pub twist: Option<Length>,
}

impl BlankSize {
    /// Length, width and thickness of it as it lies, as [`blank_size`] gives them: its width is the wider side.
    pub fn as_it_lies(&self) -> [Length; 3] {
        let [width, thickness] = [self.width, self.thickness];
        [self.length, width.max(thickness), width.min(thickness)]
    }
}

/// The blank that laminates come to once all are planed to the narrowest and cut to the shortest;
/// `None` for none.
pub fn blank_of(ready: &[ReadyLaminate], blank: &[Placed]) -> Option<BlankSize> {
    blank_worked(&mut TraceOff, ready, blank)
}

/// How a blank's weight was worked out; `None` where there is none.
pub fn explain_blank_weight(ready: &[ReadyLaminate], blank: &[Placed]) -> Option<Derivation> {
    let mut working = Derivation::default();
    blank_worked(&mut working.steps, ready, blank)?.weight?;
    Some(working.and(
        "Density at 12 % of each laminate by its own weight, size and moisture; where it was not weighed, its \
         plank's.",
    ))
}

/// How a blank's stiffness was worked out; `None` where a wood's is not known.
pub fn explain_blank_stiffness(ready: &[ReadyLaminate], blank: &[Placed]) -> Option<Derivation> {
    let width = blank_of(ready, blank)?.width;
    let layer = |placed: &Placed| {
        let laminate = ready.get(placed.laminate)?.laminate;
        Some(Layer {
            thickness: laminate.thickness,
            width,
            modulus: laminate.modulus?,
        })
    };
    let layers: Option<Vec<Layer>> = blank.iter().map(layer).collect();
    let mut working = Derivation::default();
    stiffness_along_glue_lines(&mut working.steps, &layers?).ok()?;
    Some(working.and(
        "The usual stiffness of each wood at 12 %, as the table of woods has it: none of these was measured.",
    ))
}

/// The joints of a blank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joints {
    /// How many there are.
    pub count: usize,
    pub length: Length,
    pub width: Length,
    /// Of all together, each once.
    pub area: Area,
}

/// The joints of the blank that laminates come to, and how their area was worked out, see [`joint_area`]; `None` for
/// fewer than two laminates.
pub fn joints_of(members: &[ReadyLaminate]) -> Option<(Joints, Derivation)> {
    let least = |of: &dyn Fn(&ReadyLaminate) -> Length| {
        let sizes = members.iter().map(of);
        sizes.reduce(|a, b| a.min(b))
    };
    let length = least(&|one| one.length)?;
    let width = least(&|one| one.laminate.width)?;
    let mut working = Derivation::default();
    let joints = Joints {
        count: members.len().saturating_sub(1),
        length,
        width,
        area: joint_area(&mut working.steps, members.len(), length, width)?,
    };
    Some((joints, working))
}

/// How the twist that a blank keeps was worked out; `None` where that of a laminate is not known.
pub fn explain_blank_twist(ready: &[ReadyLaminate], blank: &[Placed]) -> Option<Derivation> {
    blank_of(ready, blank)?.twist?;
    let one = |placed: &Placed| {
        let one = ready.get(placed.laminate)?;
        let twist = show::number(in_mm(one.laminate.twist?), 2);
        Some(format!("{} {twist} mm", one.mark))
    };
    let all: Option<Vec<String>> = blank.iter().map(one).collect();
    Some(Derivation::note(
        format!(
            "Each twist counts by how hard its laminate alone is to twist. The glued blank is harder to twist than \
             all of them together, and keeps as much less: {}.",
            all?.join("; ")
        ),
        "torsion of a layered rectangle, no creep: derived here",
    ))
}

/// How a blank's size was worked out; `None` for no laminates.
pub fn explain_blank_size(ready: &[ReadyLaminate], blank: &[Placed]) -> Option<Derivation> {
    let one = |placed: &Placed| {
        let one = ready.get(placed.laminate)?;
        let sizes = [one.length, one.laminate.width, one.laminate.thickness].map(in_mm);
        let sizes = sizes.map(|size| show::number(size, 1)).join(" × ");
        Some(format!("{} {sizes} mm", one.mark))
    };
    let all: Option<Vec<String>> = blank.iter().map(one).collect();
    let all = all.filter(|all| !all.is_empty())?.join("; ");
    Some(Derivation::note(
        format!("The shortest length, the least width, all thicknesses together: {all}."),
        "all planed to the narrowest and cut to the shortest",
    ))
}

fn blank_worked(
    trace: &mut impl Trace,
    ready: &[ReadyLaminate],
    blank: &[Placed],
) -> Option<BlankSize> {
    let members: Option<Vec<&ReadyLaminate>> =
        blank.iter().map(|one| ready.get(one.laminate)).collect();
    let members = members?;
    let least = |a: Length, b: Length| if b < a { b } else { a };
    let length = members.iter().map(|one| one.length).reduce(least)?;
    let width = members.iter().map(|one| one.laminate.width).reduce(least)?;
    let thickness = members
        .iter()
        .fold(mm(0.0), |sum, one| sum + one.laminate.thickness);
    let layer = |one: &ReadyLaminate, modulus: Pressure| Layer {
        thickness: one.laminate.thickness,
        width,
        modulus,
    };
    // Stiffness does not weigh: any modulus will do.
    let any = Pressure::new::<gigapascal>(1.0);
    let weighed = |one: &&ReadyLaminate| Some((layer(one, any), one.laminate.density?));
    let weighed: Option<Vec<_>> = members.iter().map(weighed).collect();
    let weight = weighed.and_then(|layers| neck::blank_weight(trace, &layers, length).ok());
    let stiff = |one: &&ReadyLaminate| Some(layer(one, one.laminate.modulus?));
    let stiff: Option<Vec<_>> = members.iter().map(stiff).collect();
    let stiffness =
        stiff.and_then(|layers| stiffness_along_glue_lines(&mut TraceOff, &layers).ok());
    // Only the ratio of moduli counts: where one is not known, all are taken alike.
    let all_known = members.iter().all(|one| one.laminate.modulus.is_some());
    let twisted = |one: &&ReadyLaminate| {
        let modulus = one.laminate.modulus.filter(|_| all_known).unwrap_or(any);
        Some((layer(one, modulus), one.laminate.twist?))
    };
    let twisted: Option<Vec<_>> = members.iter().map(twisted).collect();
    let twist = twisted.and_then(|layers| twist_left_in_blank(&layers).ok());
    Some(BlankSize {
        length,
        width,
        thickness,
        weight,
        stiffness,
        twist,
    })
}

/// The sizes of a blank across its glue lines and along them, by its width and thickness as measured and by what its
/// laminates come to. Of two that were measured the larger lies where the laminates come to more, whichever was called
/// the width. One alone was measured on the blank as it lies: its width is the wider side.
pub(crate) fn across_and_along(
    measured: (Option<Length>, Option<Length>),
    stacked: (Length, Length),
) -> (Length, Length) {
    let width = measured.0.unwrap_or_else(|| stacked.0.max(stacked.1));
    let thickness = measured.1.unwrap_or_else(|| stacked.0.min(stacked.1));
    let (more, less) = (width.max(thickness), width.min(thickness));
    match stacked.0 >= stacked.1 {
        true => (more, less),
        false => (less, more),
    }
}

/// Length, width and thickness of a blank as it lies, its width the wider side, mm: as measured or machined, else as
/// its laminates come to; `None` while not known.
pub fn blank_size(state: &State, blank: &Piece) -> [Option<f64>; 3] {
    let own = queries::size_of(state, blank);
    let members: Vec<Plank> = queries::made_of(state, blank.id)
        .into_iter()
        .filter_map(|id| Some(queries::size_of(state, state.piece(id)?)))
        .collect();
    let all = |size: &dyn Fn(&Plank) -> Option<Length>| -> Option<Vec<Length>> {
        members.iter().map(size).collect()
    };
    let least = |sizes: Vec<Length>| sizes.into_iter().reduce(|a, b| if b < a { b } else { a });
    let sum = |sizes: Vec<Length>| sizes.into_iter().reduce(|sum, one| sum + one);
    let length = own
        .length
        .or_else(|| all(&|one| one.length).and_then(least));
    let measured = (
        mean_of_stations(&own.widths),
        mean_of_stations(&own.thicknesses),
    );
    let across = all(&|one| mean_of_stations(&one.thicknesses)).and_then(sum);
    let along = all(&|one| mean_of_stations(&one.widths)).and_then(least);
    let sides = match across.zip(along) {
        Some(stacked) => {
            let (across, along) = across_and_along(measured, stacked);
            (Some(across), Some(along))
        }
        None => (measured.0.or(along), measured.1.or(across)),
    };
    let [width, thickness] = match sides {
        (Some(a), Some(b)) => [Some(a.max(b)), Some(a.min(b))],
        (width, thickness) => [width, thickness],
    };
    [length, width, thickness].map(|size| size.map(in_mm))
}

/// What a blank weighs, and whether that was read on itself: as weighed last, else what its
/// laminates weighed last; `None` while one of them was not weighed.
pub fn blank_weight(state: &State, blank: &Piece) -> Option<(Mass, bool)> {
    let last = |piece: &Piece| {
        let weighed = piece.work.weighings.last()?;
        Some(kg(weighed.payload.mass.value))
    };
    if let Some(weight) = last(blank) {
        return Some((weight, true));
    }
    let members = queries::made_of(state, blank.id);
    let weights: Option<Vec<Mass>> = members.iter().map(|id| last(state.piece(*id)?)).collect();
    let weights = weights.filter(|weights| !weights.is_empty())?;
    Some((
        weights.into_iter().fold(kg(0.0), |sum, one| sum + one),
        false,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::in_mm2;

    /// Five of 15 x 48 mm, each twisted 0.6 mm by the same hand: the blank keeps 0.08 mm. One that was not measured leaves
    /// open what it keeps.
    #[test]
    fn a_glued_blank_keeps_little_of_the_twist_of_its_laminates() {
        let twisted = |twist: Option<f64>| ReadyLaminate {
            piece: Id::default(),
            mark: "A1".into(),
            wood: "maple".into(),
            length: mm(950.0),
            laminate: Laminate {
                thickness: mm(15.0),
                width: mm(48.0),
                wood: 0,
                crook: None,
                bow: None,
                twist: twist.map(mm),
                lean: None,
                ring_class: None,
                rise: None,
                moisture: None,
                density: None,
                modulus: None,
            },
            ring_angle: None,
            ready: Ready::Yes,
            is_look_old: false,
        };
        let five: Vec<Placed> = (0..5)
            .map(|laminate| Placed {
                laminate,
                turn: neck::Turn::default(),
            })
            .collect();
        let mut all = vec![twisted(Some(0.6)); 5];
        let size = blank_of(&all, &five).unwrap();
        assert!((in_mm(size.twist.unwrap()) - 0.08).abs() < 0.005);
        assert_eq!(size.as_it_lies(), [950.0, 75.0, 48.0].map(mm));
        assert!(explain_blank_twist(&all, &five).is_some());
        // Its joints are four of 950 x 48 mm; one laminate has none.
        let (joints, _) = joints_of(&all).unwrap();
        assert_eq!(joints.count, 4);
        assert!((in_mm2(joints.area) / 1e6 - 0.18).abs() < 0.005);
        assert!(joints_of(&all[..1]).is_none());
        all[2] = twisted(None);
        assert_eq!(blank_of(&all, &five).unwrap().twist, None);
        assert!(explain_blank_twist(&all, &five).is_none());
    }

    #[test]
    fn a_blank_is_measured_either_way_round() {
        let pair = |(a, b): (f64, f64)| (mm(a), mm(b));
        let of = |(a, b): (f64, f64), stacked| {
            across_and_along((Some(mm(a)), Some(mm(b))), pair(stacked))
        };
        // Five of 17.5, 48.5 deep, planed to 84.5 by 46: typed as a board lies, or as it was stacked.
        assert_eq!(of((84.5, 46.0), (87.5, 48.5)), pair((84.5, 46.0)));
        assert_eq!(of((46.0, 84.5), (87.5, 48.5)), pair((84.5, 46.0)));
        // Three of 17.5 are nearly as thick as they are deep.
        assert_eq!(of((49.5, 46.0), (52.5, 48.5)), pair((49.5, 46.0)));
        assert_eq!(of((46.0, 49.5), (52.5, 48.5)), pair((49.5, 46.0)));
        // Two of 20 are not as thick as they are deep.
        assert_eq!(of((46.0, 38.0), (40.0, 48.5)), pair((38.0, 46.0)));
        // One side alone: five of 16, 52 deep, planed to 46, or sawn to 78.
        let five = pair((80.0, 52.0));
        assert_eq!(
            across_and_along((None, Some(mm(46.0))), five),
            pair((80.0, 46.0))
        );
        assert_eq!(
            across_and_along((Some(mm(78.0)), None), five),
            pair((78.0, 52.0))
        );
        assert_eq!(across_and_along((None, None), five), five);
    }
}
