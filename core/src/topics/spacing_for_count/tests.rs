//! The question asked through the door.
#![allow(clippy::unwrap_used)]

use serde_json::json;

use crate::{
    ask::{self, Of},
    garden::Garden,
};

#[test]
fn a_bed_that_would_hold_more_than_are_set_one_by_one_still_has_a_spacing_for_a_few() {
    let question = json!({
        "topic": "spacing-for-count", "bed": { "length": "24 ft", "width": "6 ft" },
        "crop": "cabbage", "count": 100, "sites": "anywhere",
    });
    let answer = ask::ask(&question, &Garden::default()).unwrap();
    let Of::SpacingForCount(found) = answer.of else { unreachable!() };
    assert_eq!(found.placed.len(), 100);
    // A hundred squares of 14.4 in fill the bed.
    assert!(found.spacing_m.unwrap() >= 0.0254 * 14.4, "{found:?}");
}
