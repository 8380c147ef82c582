//! What is known to be kept on other devices.

use crate::effect::Effect;
use crate::model::Model;
use crate::tell::say;
use crate::words::Spoken;
use stillwood_core::record::KeptElsewhere;

/// Changes what is known to be kept elsewhere, and keeps it on the device.
pub fn change_kept(
    model: &mut Model,
    change: impl FnOnce(&mut KeptElsewhere) -> bool,
) -> Vec<Effect> {
    let known = model.shell.kept.get_or_insert_default();
    if !change(known) {
        return Vec::new();
    }
    match serde_json::to_string(known) {
        Ok(json) => vec![Effect::KeepSetting("kept_elsewhere", json)],
        Err(why) => say(model, why.spoken()),
    }
}
