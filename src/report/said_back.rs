//! What a scenario's jet amounts to for other programs: SI with the unit in the key.

use serde_json::{Value, json};

use super::values::tidy;
use crate::brief::{SaidBack, left_out};
use crate::run::ScenarioFile;

/// What is said back of the jet, and what its sheet leaves out.
pub fn said_back(file: &ScenarioFile) -> Value {
    let said = SaidBack::of(file);
    let [still, wind, gusts] = said.smallest_circle_m.map(tidy);
    let left_out: Vec<Value> = left_out(&file.jet)
        .iter()
        .map(|one| {
            let from = if one.by_default { "default" } else { "worked out" };
            json!({ "key": one.key, "value": one.value, "spread": one.spread, "from": from })
        })
        .collect();
    json!({
        "name": file.jet.name,
        "stall_mps": tidy(said.stall_mps),
        "stall_in_turn_mps": tidy(said.stall_in_turn_mps),
        "top_speed_mps": tidy(said.top_speed_mps),
        "climb_mps": tidy(said.climb_mps),
        "climb_deg": tidy(said.climb_deg),
        "endurance_to_reserve_s": tidy(said.endurance_s),
        "glide_ratio": tidy(said.glide_ratio),
        "glide_mps": tidy(said.glide_mps),
        "smallest_circle_m": { "still_air": still, "wind": wind, "gusts": gusts },
        "left_out": left_out,
    })
}
