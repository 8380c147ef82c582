//! How wood answers moisture: how much a width moves, and what its density becomes.

use super::air::{EMC_BASIS, TEMPERATURE};
use super::given::{Given, Input, InputKind, Unanswered, wanted};
use super::question::{Answer, Question, Way};
use crate::quantity::{Derivation, Length, Moisture, in_kg_per_m3, in_mm, mm, show};
use crate::wood::{
    Across, Hollow, LineInLog, Method, Species, WorkshopYear, density_at, emc, explain_cupping,
    gravity_from_density,
};

const WOOD: Input = wanted("Wood", InputKind::Wood);
const ACROSS: Input = wanted("Width across the grain", InputKind::Length);
const RINGS: Input = wanted("Ring angle to the face", InputKind::Angle);
const FROM: Input = wanted("Moisture from", InputKind::Moisture);
const TO: Input = wanted("Moisture to", InputKind::Moisture);
const HUMIDITY_FROM: Input = wanted("Humidity from", InputKind::Humidity);
const HUMIDITY_TO: Input = wanted("Humidity to", InputKind::Humidity);
pub(super) const DENSITY_OF: Input = wanted("Density", InputKind::Density);
const MEASURED_AT: Input = wanted("Measured at moisture", InputKind::Moisture);
const WANTED_AT: Input = Input {
    begins: "12 %",
    ..wanted("Wanted at moisture", InputKind::Moisture)
};

/// How much does a width move?
pub(super) static MOVES: Question = Question {
    asks: "How much does a width shrink or swell?",
    ways: &[
        Way {
            name: "between moistures",
            inputs: &[WOOD, ACROSS, RINGS, FROM, TO],
            answer: |given| {
                let (from, to) = (given.moisture(FROM.label)?, given.moisture(TO.label)?);
                moves(given, from, to)
            },
        },
        Way {
            name: "between humidities",
            inputs: &[WOOD, ACROSS, RINGS, TEMPERATURE, HUMIDITY_FROM, HUMIDITY_TO],
            answer: between_humidities,
        },
    ],
};

fn between_humidities(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let air = given.temperature(TEMPERATURE.label)?;
    let mut steps = Vec::new();
    let from = emc(&mut steps, air, given.humidity(HUMIDITY_FROM.label)?)?;
    let to = emc(&mut steps, air, given.humidity(HUMIDITY_TO.label)?)?;
    let settles = format!(
        "{} to {}",
        show::moisture(from.in_percent()),
        show::moisture(to.in_percent())
    );
    let mut answer =
        moves(given, from, to)?.beside("Wood settles from", settles, Derivation::of(steps));
    answer.basis = format!("{} Air: {EMC_BASIS}", answer.basis);
    Ok(answer)
}

fn moves(given: &Given<'_>, from: Moisture, to: Moisture) -> Result<Answer, Unanswered> {
    let (width, rings) = (given.length(ACROSS.label)?, given.angle(RINGS.label)?);
    let unknown = || {
        let name = given.wood.map_or("this wood", Species::name);
        Unanswered(format!(
            "how {name} shrinks is not known: add its radial and tangential shrinkage as your own data"
        ))
    };
    let wood = given.wood.ok_or_else(unknown)?;
    let mut steps = Vec::new();
    let moved = wood
        .movement(&mut steps, width, (rings, Across::Width), from, to)
        .ok_or_else(unknown)??;
    let change = in_mm(moved.change);
    let size = show::gap(change.abs(), given.units);
    let (word, size) = if size == show::gap(0.0, given.units) {
        ("It moves by", "nothing".to_owned())
    } else if change < 0.0 {
        ("It shrinks by", size)
    } else {
        ("It swells by", size)
    };
    let basis = match moved.method {
        Method::Coefficient => {
            "Change coefficient, 6 to 14 % moisture, good to about 5 % of the change: Wood Handbook, \
             FPL-GTR-190 (2010), equation 13-2."
        }
        Method::TotalShrinkage => {
            "Total shrinkage, 0 to 30 % moisture: Wood Handbook, FPL-GTR-190 (2010), equation 13-3."
        }
    };
    // The method tells which of the numbers were used.
    let sources = match moved.method {
        Method::Coefficient => [
            wood.radial_coefficient().map(|c| c.source()),
            wood.tangential_coefficient().map(|c| c.source()),
        ],
        Method::TotalShrinkage => [
            wood.radial_shrinkage().map(|s| s.source()),
            wood.tangential_shrinkage().map(|s| s.source()),
        ],
    };
    let [radial, tangential] = sources.map(Option::unwrap_or_default);
    let of_wood = if radial == tangential {
        radial
    } else {
        format!("radial {radial}, tangential {tangential}")
    };
    Ok(
        Answer::on(format!("{basis} Numbers of {}: {of_wood}.", wood.name()))
            .worked(steps)
            .with(word, size)
            .with(
                "and is then",
                show::length(in_mm(width) + change, given.units),
            ),
    )
}

/// What is the density at another moisture?
pub(super) static DENSITY: Question = Question {
    asks: "What is the density at another moisture?",
    ways: &[Way {
        name: "",
        inputs: &[DENSITY_OF, MEASURED_AT, WANTED_AT],
        answer: density,
    }],
};

fn density(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let measured = given.density(DENSITY_OF.label)?;
    let (at, wanted) = (
        given.moisture(MEASURED_AT.label)?,
        given.moisture(WANTED_AT.label)?,
    );
    let mut steps = Vec::new();
    let found = density_at(&mut steps, measured, at, wanted)?;
    let mut of_gravity = Vec::new();
    let gravity = gravity_from_density(&mut of_gravity, found, wanted)?;
    Ok(Answer::on(
        "Both moistures from 0 to 30 %; mass and volume change together, specific gravity is oven-dry \
         mass. Wood Handbook, FPL-GTR-282 (2021), equations 4-13 and 4-14.",
    )
    .worked(steps)
    .with(
        format!("Density at {}", show::moisture(wanted.in_percent())),
        show::density(in_kg_per_m3(found), given.units),
    )
    .beside(
        "Specific gravity there",
        show::number(gravity, 3),
        Derivation::of(of_gravity),
    ))
}

const PITH: Input = wanted("Radius of the ring at mid-width", InputKind::Length);

/// How much does a board cup?
pub(super) static CUPS: Question = Question {
    asks: "How much does a board cup as it dries?",
    ways: &[Way {
        name: "",
        inputs: &[WOOD, ACROSS, PITH, FROM, TO],
        answer: cups,
    }],
};

fn cups(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let line = LineInLog {
        width: given.length(ACROSS.label)?,
        pith_depth: given.length(PITH.label)?,
        pith_offset: mm(0.0),
    };
    let (from, to) = (given.moisture(FROM.label)?, given.moisture(TO.label)?);
    let unknown = || Unanswered("how this wood shrinks is not known".into());
    let wood = given.wood.ok_or_else(unknown)?;
    let cup = wood.cupping(&line, from, to).ok_or_else(unknown)??;
    let change = wood.free_change(from, to).ok_or_else(unknown)??;
    let told = explain_cupping(&line, change, &cup);
    let hollow = match cup.hollow {
        Some(Hollow::Bark) => "on the bark side",
        Some(Hollow::Pith) => "on the pith side",
        None => "nowhere",
    };
    Ok(Answer::on(
        "A board sawn evenly about the pith, free to move, alike all over: every ring and every radius \
         shrinks by its own share. Derived: geometry, with the shrinkage of the Wood Handbook.",
    )
    .beside(
        "Cup, the gap under a straightedge",
        show::gap(in_mm(cup.gap), given.units),
        told.clone(),
    )
    .beside("Hollow", hollow, told.clone())
    .beside("Its width is then", show::length(in_mm(cup.width), given.units), told))
}

const COOLEST: Input = wanted("Coolest", InputKind::Temperature);
const WARMEST: Input = wanted("Warmest", InputKind::Temperature);
const LEAST_HUMID: Input = wanted("Least humid", InputKind::Humidity);
const MOST_HUMID: Input = wanted("Most humid", InputKind::Humidity);
const PLANED_AT: Input = wanted("Moisture when planed", InputKind::Moisture);

/// What does the shop's year do to a width?
pub(super) static YEAR: Question = Question {
    asks: "What does the workshop's year do to a width?",
    ways: &[Way {
        name: "",
        inputs: &[
            WOOD,
            ACROSS,
            RINGS,
            COOLEST,
            WARMEST,
            LEAST_HUMID,
            MOST_HUMID,
            PLANED_AT,
        ],
        answer: year,
    }],
};

fn year(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let temperatures = (
        given.temperature(COOLEST.label)?,
        given.temperature(WARMEST.label)?,
    );
    let humidities = (
        given.humidity(LEAST_HUMID.label)?,
        given.humidity(MOST_HUMID.label)?,
    );
    let year = WorkshopYear::between(temperatures, humidities)?;
    let (width, rings) = (given.length(ACROSS.label)?, given.angle(RINGS.label)?);
    let unknown = || Unanswered("how this wood shrinks is not known".into());
    let (wood, planed) = (
        given.wood.ok_or_else(unknown)?,
        given.moisture(PLANED_AT.label)?,
    );
    let moves = |to: Moisture| -> Result<(Length, Derivation), Unanswered> {
        let mut steps = Vec::new();
        let moved = wood
            .movement(&mut steps, width, (rings, Across::Width), planed, to)
            .ok_or_else(unknown)??;
        Ok((moved.change, Derivation::of(steps)))
    };
    let (driest, dampest) = (moves(year.driest)?, moves(year.dampest)?);
    let mut air = Vec::new();
    for (warm, damp) in [
        (temperatures.1, humidities.0),
        (temperatures.0, humidities.0),
        (temperatures.1, humidities.1),
        (temperatures.0, humidities.1),
    ] {
        emc(&mut air, warm, damp)?;
    }
    let settles = Derivation::of(air).and(
        "The least and the most of the four: warm and dry, cool and dry, warm and damp, cool and damp.",
    );
    let signed = |change| {
        let change = in_mm(change);
        let sign = if change > 0.0 { "+" } else { "" };
        format!("{sign}{}", show::gap(change, given.units))
    };
    let settled = |moisture: Moisture| show::moisture(moisture.in_percent());
    Ok(Answer::on(format!(
        "Free to move, and long enough in each air to settle. Air: {EMC_BASIS} Movement: Wood Handbook, \
         FPL-GTR-190 (2010), equations 13-2 and 13-3."
    ))
    .beside("At the driest", signed(driest.0), driest.1)
    .beside("At the dampest", signed(dampest.0), dampest.1)
    .beside(
        "Wood settles between",
        format!("{} and {}", settled(year.driest), settled(year.dampest)),
        settles,
    ))
}
