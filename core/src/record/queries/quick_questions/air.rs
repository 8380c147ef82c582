//! Wood in air: what moisture it settles at, what humidity keeps it there, what a meter means in cold
//! wood.

use super::given::{Given, Input, InputKind, Unanswered, wanted};
use super::question::{Answer, Question, Way};
use crate::quantity::{Derivation, celsius, show};
use crate::wood::{
    CALIBRATION_CELSIUS, emc, emc_four_parameter, humidity_for_emc,
    humidity_for_emc_four_parameter, meter_corrected, moisture_from_ovendry,
};

pub(super) const TEMPERATURE: Input = Input {
    begins: "20 °C",
    ..wanted("Air temperature", InputKind::Temperature)
};
const HUMIDITY: Input = wanted("Relative humidity", InputKind::Humidity);
const TO_KEEP: Input = wanted("Moisture to keep", InputKind::Moisture);
const SHOWN: Input = wanted("Meter shows", InputKind::Moisture);
const WOOD_TEMPERATURE: Input = wanted("Wood temperature", InputKind::Temperature);

/// What both equations of the air rest on.
pub(super) const EMC_BASIS: &str = "Holds from −1 to 93 °C and 0 to 98 % humidity; for a real piece \
     claim no better than ±1 %. Wood Handbook, FPL-GTR-282 (2021), equation 4-5, the newer 4-6.";

/// What moisture does wood settle at?
pub(super) static SETTLES: Question = Question {
    asks: "What moisture does wood settle at?",
    ways: &[
        Way {
            name: "in this air",
            inputs: &[TEMPERATURE, HUMIDITY],
            answer: settles,
        },
        Way {
            name: "air that keeps it",
            inputs: &[TEMPERATURE, TO_KEEP],
            answer: keeps,
        },
    ],
};

fn settles(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let (air, humidity) = (
        given.temperature(TEMPERATURE.label)?,
        given.humidity(HUMIDITY.label)?,
    );
    let mut newer_steps = Vec::new();
    let newer = emc_four_parameter(&mut newer_steps, air, humidity)?;
    let mut steps = Vec::new();
    let settles = emc(&mut steps, air, humidity)?;
    Ok(Answer::on(EMC_BASIS)
        .worked(steps)
        .with("Wood settles at", show::moisture(settles.in_percent()))
        .beside(
            "by the newer equation",
            show::moisture(newer.in_percent()),
            Derivation::of(newer_steps),
        ))
}

fn keeps(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let (air, wood) = (
        given.temperature(TEMPERATURE.label)?,
        given.moisture(TO_KEEP.label)?,
    );
    let shown = |percent: f64| format!("{} RH", show::moisture(percent));
    let mut newer_steps = Vec::new();
    let newer = humidity_for_emc_four_parameter(&mut newer_steps, air, wood)?;
    let kept_by = humidity_for_emc(air, wood)?;
    let mut steps = Vec::new();
    emc(&mut steps, air, kept_by)?;
    let mut answer = Answer::on(EMC_BASIS).worked(steps);
    answer.working.notes.push(
        "The equation is solved for the humidity by halving; here it is with the humidity found."
            .into(),
    );
    Ok(answer
        .with("Kept by a humidity of", shown(kept_by.in_percent()))
        .beside(
            "by the newer equation",
            shown(newer.in_percent()),
            Derivation::of(newer_steps),
        ))
}

/// What does the meter mean in cold wood?
pub(super) static METER: Question = Question {
    asks: "What does the meter mean in cold wood?",
    ways: &[Way {
        name: "",
        inputs: &[SHOWN, WOOD_TEMPERATURE],
        answer: meter,
    }],
};

fn meter(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let mut steps = Vec::new();
    let corrected = meter_corrected(
        &mut steps,
        given.moisture(SHOWN.label)?,
        given.temperature(WOOD_TEMPERATURE.label)?,
        celsius(CALIBRATION_CELSIUS),
    )?;
    Ok(Answer::on(
        "A pin meter calibrated at 20 °C, from 6 to 30 %; the meter's own paper decides. Wood Handbook, \
         FPL-GTR-190 (2010), chapter 13.",
    )
    .worked(steps)
    .with("Moisture", show::moisture(corrected.in_percent())))
}

const WET: Input = wanted("Mass as it was", InputKind::Mass);
const DRY: Input = wanted("Mass oven-dry", InputKind::Mass);

/// What was the moisture, by oven-drying?
pub(super) static OVEN: Question = Question {
    asks: "What was the moisture, by oven-drying?",
    ways: &[Way {
        name: "",
        inputs: &[WET, DRY],
        answer: oven,
    }],
};

fn oven(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let mut steps = Vec::new();
    let (wet, dry) = (given.mass(WET.label)?, given.mass(DRY.label)?);
    let moisture = moisture_from_ovendry(&mut steps, wet, dry)?;
    Ok(Answer::on(
        "Dried at 103 °C until it loses no more; mind the fire. A definition: ASTM D4442 (from memory).",
    )
    .worked(steps)
    .with("Moisture", show::moisture(moisture.in_percent())))
}
