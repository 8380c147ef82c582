//! The workshop's year: how dry and how damp wood gets in the air of a room.
//!
//! It takes wood to follow the air fully, so an air here is the mean of some weeks, not of a day: thick wood
//! lags behind. It never says how far wood moves, nor how fast.

use super::emc::{EmcError, Humidity, emc};
use crate::quantity::{Moisture, Temperature, TraceOff};

/// The air of a room over some weeks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    pub temperature: Temperature,
    pub humidity: Humidity,
}

/// Something at the driest and at the dampest time of the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OverYear<T> {
    pub driest: T,
    pub dampest: T,
}

/// The moistures between which wood goes in a year.
pub type WorkshopYear = OverYear<Moisture>;

impl WorkshopYear {
    /// From the airs of a year, two or twelve of them: the least and the most of their equilibrium
    /// moistures, see [`emc`]. An error where one of them is outside its table.
    pub fn of(first: Air, others: &[Air]) -> Result<Self, EmcError> {
        let at = |air: &Air| emc(&mut TraceOff, air.temperature, air.humidity);
        let start = at(&first)?;
        let mut year = OverYear {
            driest: start,
            dampest: start,
        };
        for air in others {
            let moisture = at(air)?;
            if moisture < year.driest {
                year.driest = moisture;
            }
            if moisture > year.dampest {
                year.dampest = moisture;
            }
        }
        Ok(year)
    }

    /// From a year's range of temperature and of humidity, where it is not known which met: the driest at
    /// the warmest and least humid, the dampest at the coolest and most humid. Below 5 °C the dampest
    /// may be more: up to 0.03 % where the humidity stays under 95 %, up to 0.07 % at 98 %. An error as
    /// [`WorkshopYear::of`].
    pub fn between(
        (cool, warm): (Temperature, Temperature),
        (low, high): (Humidity, Humidity),
    ) -> Result<Self, EmcError> {
        let air = |temperature, humidity| Air {
            temperature,
            humidity,
        };
        let corners = [air(warm, high), air(cool, low), air(cool, high)];
        Self::of(air(warm, low), &corners)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::celsius;
    use proptest::prelude::*;

    fn air(warm: f64, damp: f64) -> Air {
        Air {
            temperature: celsius(warm),
            humidity: Humidity::percent(damp),
        }
    }

    #[test]
    fn air_outside_the_table_is_refused() {
        assert!(WorkshopYear::of(air(20.0, 99.0), &[]).is_err());
        assert!(WorkshopYear::of(air(20.0, 50.0), &[air(-20.0, 50.0)]).is_err());
    }

    #[test]
    fn below_5_degrees_the_dampest_may_be_a_little_more_than_is_said() {
        for (humidity, more) in [(35.0, 0.03), (95.0, 0.03), (98.0, 0.07)] {
            let damp = Humidity::percent(humidity);
            let cold = (celsius(-1.0), celsius(20.0));
            let said = WorkshopYear::between(cold, (damp, damp)).unwrap().dampest;
            for tenth in -10..200 {
                let air = celsius(f64::from(tenth) / 10.0);
                let moisture = emc(&mut TraceOff, air, damp).unwrap().in_percent();
                assert!(moisture <= said.in_percent() + more, "{humidity} {tenth}");
            }
        }
    }

    proptest! {
        // The order of the months says nothing, and every month lies between the two.
        #[test]
        fn every_air_lies_in_the_year(months in prop::collection::vec((5.0..30.0f64, 20.0..80.0f64), 1..12)) {
            let airs: Vec<Air> = months.iter().map(|(t, h)| air(*t, *h)).collect();
            let year = WorkshopYear::of(airs[0], &airs[1..]).unwrap();
            let turned: Vec<Air> = airs.iter().rev().copied().collect();
            prop_assert_eq!(WorkshopYear::of(turned[0], &turned[1..]).unwrap(), year);
            for one in &airs {
                let moisture = emc(&mut TraceOff, one.temperature, one.humidity).unwrap();
                prop_assert!(year.driest <= moisture && moisture <= year.dampest);
            }
        }

        // Whatever air within the ranges, its moisture lies between the two.
        #[test]
        fn no_air_of_the_ranges_lies_outside(
            cool in 5.0..20.0f64, warmer in 0.0..15.0f64, low in 15.0..50.0f64, damper in 0.0..40.0f64,
            warm in 0.0..1.0f64, damp in 0.0..1.0f64,
        ) {
            let year = WorkshopYear::between(
                (celsius(cool), celsius(cool + warmer)),
                (Humidity::percent(low), Humidity::percent(low + damper)),
            ).unwrap();
            let inside = air(cool + warm * warmer, low + damp * damper);
            let moisture = emc(&mut TraceOff, inside.temperature, inside.humidity).unwrap().in_percent();
            prop_assert!(moisture >= year.driest.in_percent() - 1e-9);
            prop_assert!(moisture <= year.dampest.in_percent() + 1e-9);
        }
    }
}
