//! Questions that no field raises alone: what the readings say of each other.
//!
//! It asks, and offers what may have been meant; it changes nothing, and a reading on which the maker
//! insisted is not questioned again. The bounds are common practice, no source, save that of solid wood.

#[cfg(test)]
mod tests;

use super::typed::typed_bare;
use super::{
    DefectFound, Field, Offer, Plank, Reading, Readings, Warning, Weighing, density_as_measured,
    describe, mean_of_stations, shown,
};
use crate::order;
use crate::quantity::TraceOff;
use crate::quantity::read::{self, Units};
use crate::quantity::{Length, MassDensity, in_kg_per_m3, in_mm, show};

/// A question about a field that the other fields raise.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldWarning {
    /// The field that is most likely wrong.
    pub field: Field,
    pub warning: Warning,
}

/// Solid wood substance, without any hollows, kg/m3: about 1500 (from memory). No plank is heavier.
pub(crate) const SOLID: f64 = 1500.0;
/// Densities of wood that a slip in the unit is looked for in, kg/m3.
const LIKELY: std::ops::RangeInclusive<f64> = 250.0..=1300.0;
/// Below this share of the least usual for the wood, a weight is questioned.
const FAR_BELOW: f64 = 0.75;
/// A density below which nothing is wood for necks, whatever it is called, kg/m3.
pub(crate) const LIGHTEST: f64 = 187.5;
/// Above so many times the largest usual for the wood, a weight is questioned where it fits in pounds.
const FAR_ABOVE: f64 = 1.5;
/// One end reading so many times the other is questioned.
const ENDS_APART: f64 = 1.8;

/// The questions that the readings of one plank raise together, in the order of the fields.
///
/// `lightest` is the least density that is usual for the wood at 12 %, where the wood is known.
pub fn warnings(
    readings: &Readings,
    lightest: Option<MassDensity>,
    units: Units,
) -> Vec<FieldWarning> {
    warnings_for_wood(readings, lightest, None, units)
}

/// The same; `heaviest` is the largest density that is usual for the wood at 12 %, where that is known as well: a
/// weight far above it that fits in pounds is asked about.
pub fn warnings_for_wood(
    readings: &Readings,
    lightest: Option<MassDensity>,
    heaviest: Option<MassDensity>,
    units: Units,
) -> Vec<FieldWarning> {
    let plank = describe(readings, &[]);
    let asked = Asked {
        readings,
        plank: &plank,
        units,
    };
    let mut found = asked.sizes();
    found.extend(asked.weights(lightest, heaviest));
    found.extend(asked.shapes());
    found.retain(|one| {
        !readings
            .get(&one.field)
            .is_some_and(|taken| taken.confirmed)
    });
    order::sort_by_key(&mut found, |one| one.field);
    found
}

/// The questions that the places of defects raise: each with the defect's place in the list.
pub fn defect_warnings(
    readings: &Readings,
    defects: &[DefectFound],
    units: Units,
) -> Vec<(usize, Warning)> {
    let Some(length) = readings.get(&Field::Length).map(|taken| taken.value) else {
        return Vec::new();
    };
    let outside = |place: &&Reading| place.value > length && !place.confirmed;
    let question = |(at, defect): (usize, &DefectFound)| {
        let place = [&defect.from, &defect.to]
            .into_iter()
            .flatten()
            .find(outside)?;
        let warning = Warning {
            question: format!(
                "{} at {}, but the plank is {} long?",
                defect.kind.name(),
                show::length(place.value, units),
                show::length(length, units)
            ),
            offers: Vec::new(),
        };
        Some((at, warning))
    };
    defects.iter().enumerate().filter_map(question).collect()
}

struct Asked<'a> {
    readings: &'a Readings,
    plank: &'a Plank,
    units: Units,
}

impl Asked<'_> {
    fn value(&self, field: Field) -> Option<f64> {
        self.readings.get(&field).map(|taken| taken.value)
    }

    fn length(&self, length: Length) -> String {
        show::length(in_mm(length), self.units)
    }

    fn sizes(&self) -> Vec<FieldWarning> {
        use Field::*;
        let mut found = Vec::new();
        found.extend(self.odd_one_out([WidthNear, WidthMiddle, WidthFar]));
        found.extend(self.odd_one_out([ThicknessNear, ThicknessMiddle, ThicknessFar]));
        let width = mean_of_stations(&self.plank.widths);
        if let (Some(width), Some(thickness)) = (width, self.plank.thicknesses.least())
            && thickness > width
        {
            let (thickness, width) = (self.length(thickness), self.length(width));
            found.extend(self.ask(
                &[ThicknessNear, ThicknessMiddle, ThicknessFar],
                format!(
                    "{thickness} thick and {width} wide? Were width and thickness changed about?"
                ),
            ));
        }
        if let (Some(width), Some(length)) = (width, self.plank.length)
            && width > length
        {
            let (length, width) = (self.length(length), self.length(width));
            found.extend(self.ask(
                &[Length],
                format!("{length} long and {width} wide? Were length and width changed about?"),
            ));
        }
        found
    }

    /// A question without offers, at the first of these fields that holds something.
    fn ask(&self, fields: &[Field], question: String) -> Option<FieldWarning> {
        let field = *fields.iter().find(|f| self.readings.contains_key(f))?;
        let offers = Vec::new();
        Some(FieldWarning {
            field,
            warning: Warning { question, offers },
        })
    }

    /// One of three stations that is over a third off, while the other two agree.
    fn odd_one_out(&self, fields: [Field; 3]) -> Option<FieldWarning> {
        let [Some(near), Some(middle), Some(far)] = fields.map(|f| self.value(f)) else {
            return None;
        };
        let others = [
            (fields[0], near, middle, far),
            (fields[1], middle, near, far),
            (fields[2], far, near, middle),
        ];
        let agree = |a: f64, b: f64| (a - b).abs() <= 0.15 * a.max(b);
        let (field, value, a, b) = others.into_iter().find(|(_, value, a, b)| {
            let mean = (a + b) / 2.0;
            agree(*a, *b) && (value - mean).abs() > mean / 3.0
        })?;
        // A digit too many or too few.
        let offers = [value * 10.0, value / 10.0]
            .into_iter()
            .filter(|meant| agree(*meant, (a + b) / 2.0))
            .map(|meant| Offer {
                label: shown(field, meant, self.units),
                text: format!("{} mm", show::number(meant, 1)),
            })
            .collect();
        let question = format!(
            "{} {}, beside {} and {}?",
            field.label(),
            shown(field, value, self.units),
            shown(field, a, self.units),
            shown(field, b, self.units)
        );
        Some(FieldWarning {
            field,
            warning: Warning { question, offers },
        })
    }

    fn weights(
        &self,
        lightest: Option<MassDensity>,
        heaviest: Option<MassDensity>,
    ) -> Vec<FieldWarning> {
        let fields: &[Field] = match self.plank.weighing {
            Some(Weighing::Whole(_)) => &[Field::WeightWhole],
            Some(Weighing::Ends { .. }) => &[Field::WeightFirst, Field::WeightSecond],
            Some(Weighing::Balanced { .. }) => &[Field::BalanceMass],
            None => return Vec::new(),
        };
        if let Some(apart) = self.ends_apart() {
            return vec![apart];
        }
        let Ok(density) = density_as_measured(&mut TraceOff, self.plank) else {
            return Vec::new();
        };
        let density = in_kg_per_m3(density);
        let least = lightest.map_or(*LIKELY.start(), |low| in_kg_per_m3(low) * FAR_BELOW);
        let most = heaviest.map_or(*LIKELY.end(), |high| in_kg_per_m3(high) * FAR_ABOVE);
        let shown_density = show::density(density, self.units);
        let offers = self.in_the_other_unit(fields, least..=most);
        let question = if density > SOLID {
            let solid = show::density(SOLID, self.units);
            format!("Its weight and size make {shown_density}, heavier than solid wood ({solid})?")
        } else if density < least {
            let left_out = match self.plank.weighing {
                Some(Weighing::Whole(_)) => " Was the other end left out?",
                Some(Weighing::Ends { second: None, .. }) => " One end was taken twice.",
                _ => "",
            };
            format!(
                "Its weight and size make {shown_density}, lighter than such wood is.{left_out}"
            )
        } else if density > most && self.in_kilograms(fields) && !offers.is_empty() {
            format!(
                "Its weight and size make {shown_density}, heavier than such wood is. Was it in pounds?"
            )
        } else {
            return Vec::new();
        };
        fields
            .iter()
            .filter(|field| self.readings.contains_key(field))
            .map(|&field| FieldWarning {
                field,
                warning: Warning {
                    question: question.clone(),
                    offers: offers
                        .iter()
                        .filter(|(of, _)| *of == field)
                        .map(|(_, offer)| offer.clone())
                        .collect(),
                },
            })
            .collect()
    }

    /// Whether the weights were taken in kilograms, typed or taken for granted.
    fn in_kilograms(&self, fields: &[Field]) -> bool {
        let mut taken = fields.iter().filter_map(|field| self.readings.get(field));
        taken.any(|taken| taken.unit == "kg")
    }

    /// The same numbers in pounds for kilograms, or the other way round, where that makes wood of such a density.
    fn in_the_other_unit(
        &self,
        fields: &[Field],
        likely: std::ops::RangeInclusive<f64>,
    ) -> Vec<(Field, Offer)> {
        let mut meant = self.readings.clone();
        let mut texts = Vec::new();
        for field in fields {
            let Some(taken) = meant.get_mut(field) else {
                continue;
            };
            let unit = match taken.unit.as_str() {
                "kg" => "lb",
                "lb" => "kg",
                _ => continue,
            };
            // The number alone, whatever unit was typed behind it.
            let typed = taken.typed.trim().trim_end_matches('.');
            let number = typed.trim_end_matches(char::is_alphabetic).trim_end();
            if !typed_bare(number) {
                continue;
            }
            let text = format!("{number} {unit}");
            let Ok(understood) = read::mass(&text, self.units) else {
                continue;
            };
            taken.value = understood.value;
            texts.push((*field, text, understood.value));
        }
        let Ok(density) = density_as_measured(&mut TraceOff, &describe(&meant, &[])) else {
            return Vec::new();
        };
        let density = in_kg_per_m3(density);
        if !LIKELY.contains(&density) || !likely.contains(&density) {
            return Vec::new();
        }
        let makes = show::density(density, self.units);
        texts
            .into_iter()
            .map(|(field, text, value)| {
                let kept = shown(field, value, Units::Metric);
                let label = format!("{text} = {kept}: {makes}");
                (field, Offer { label, text })
            })
            .collect()
    }

    fn ends_apart(&self) -> Option<FieldWarning> {
        let field = Field::WeightSecond;
        let (first, second) = (self.value(Field::WeightFirst)?, self.value(field)?);
        let (less, more) = (first.min(second), first.max(second));
        if less <= 0.0 || more / less < ENDS_APART {
            return None;
        }
        let question = format!(
            "The ends read {} and {}: is one of them in another unit?",
            shown(Field::WeightFirst, first, self.units),
            shown(field, second, self.units)
        );
        self.ask(&[field], question)
    }

    fn shapes(&self) -> Vec<FieldWarning> {
        use Field::*;
        let mut found = Vec::new();
        for (gap, over, kink) in [(Bow, BowOver, BowKink), (Crook, CrookOver, CrookKink)] {
            let length = self.value(Length);
            if let (Some(read), Some(along)) = (self.value(gap), self.value(over).or(length))
                && read.abs() > along / 10.0
            {
                let (read, along) = (
                    shown(gap, read, self.units),
                    shown(Length, along, self.units),
                );
                found.extend(self.ask(&[gap], format!("{} {read} in {along}?", gap.label())));
            }
            found.extend(self.straightedge(over, length));
            if let (Some(place), Some(length)) = (self.value(kink), length)
                && place > length
            {
                let (place, length) = (
                    shown(kink, place, self.units),
                    shown(Length, length, self.units),
                );
                let question = format!("A kink at {place}, but the plank is {length} long?");
                found.extend(self.ask(&[kink], question));
            }
        }
        let width = mean_of_stations(&self.plank.widths).map(in_mm);
        found.extend(self.straightedge(CupOver, width));
        if let (Some(twist), Some(across)) = (self.value(Twist), self.value(TwistStick).or(width))
            && twist.abs() > across
        {
            let question = format!(
                "A twist of {} over only {} across?",
                shown(Twist, twist, self.units),
                show::length(across, self.units)
            );
            found.extend(self.ask(&[Twist], question));
        }
        if let (Some(chord), Some(dip)) = (self.value(RingChord), self.value(RingDip))
            && dip > chord / 2.0
        {
            let (dip, chord) = (
                shown(RingDip, dip, self.units),
                shown(RingChord, chord, self.units),
            );
            let question =
                format!("A dip of {dip} in a ring {chord} across? Were the two changed about?");
            found.extend(self.ask(&[RingDip], question));
        }
        found
    }

    /// Whether a straightedge is longer than what it lies on, mm.
    fn straightedge(&self, field: Field, on: Option<f64>) -> Option<FieldWarning> {
        let (over, on) = (self.value(field)?, on?);
        if over <= on {
            return None;
        }
        let (over, on) = (shown(field, over, self.units), show::length(on, self.units));
        let question = format!(
            "A straightedge of {over} on only {on}? Leave it empty where it reaches all over."
        );
        self.ask(&[field], question)
    }
}
