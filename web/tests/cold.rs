//! A cold night's way through the screens, without a browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use serde_json::json;
use walk::Walk;

impl Walk {
    /// On the evening of a cold day.
    fn begin() -> Self {
        Self::at("2026-11-25T16:00:00")
    }
}

/// Two beds: a few peppers in the one, tomatoes in the other.
fn two_beds() -> Walk {
    let mut walk = Walk::begin();
    for (name, crop, count) in [("Fence bed", "pepper", "2"), ("Wall bed", "tomato", "6")] {
        walk.go("#/ask/plants-per-bed");
        walk.event(
            "submit",
            "answer",
            &json!({"bed": {"name": name, "length": "8", "width": "4"}, "plants": [{"crop": crop, "on_hand": count}]}),
        );
        walk.event("submit", "write", &json!({}));
    }
    walk
}

#[test]
fn without_a_garden_crops_are_typed_and_each_opens_a_row_for_the_next() {
    let mut walk = Walk::begin();
    walk.go("#/ask/frost-tonight");
    walk.sees("name=\"crops.0.crop\"");
    walk.lacks("name=\"crops.1.crop\"");
    walk.event("submit", "answer", &json!({"forecast_low": "36"}));
    walk.sees("Please fix");
    walk.sees("What grows there is needed for an answer");
    walk.event(
        "input",
        "crops.0.crop",
        &json!({"forecast_low": "36", "sky": "clear", "wind": "still", "crops": [{"crop": "tomato"}]}),
    );
    walk.sees("Cover tonight: tomato");
    walk.sees("About 32 °F, 24 °F to 40 °F");
    walk.sees("Tomato: harm on 5 in 10 such nights, under light fabric 4 in 10");
    walk.sees("name=\"crops.1.crop\"");
}

#[test]
fn dusk_alone_is_refused_until_ten_evenings_are_known() {
    let mut walk = Walk::begin();
    walk.go("#/ask/frost-tonight");
    let dusk = json!({"sky": "clear", "wind": "still", "dusk": {"temperature": "41", "humidity": "60"}, "crops": [{"crop": "tomato"}]});
    walk.event("submit", "answer", &dusk);
    walk.sees("“0 evenings”: with fewer the rule of this spot is not known yet");
}

#[test]
fn beds_come_from_the_record_and_a_lone_cover_goes_where_it_saves_most() {
    let mut walk = two_beds();
    walk.go("#/ask/frost-tonight");
    walk.lacks("name=\"crops.0.crop\"");
    let evening = json!({"sky": "clear", "wind": "still", "forecast_low": "38", "covers": [{"cover": "fabric-light", "count": "1"}]});
    walk.event("input", "covers.0.count", &evening);
    walk.sees("Cover tonight: Wall bed");
    walk.sees("Cover it: light fabric");
    walk.sees("2 pepper: harm on");
    walk.sees("No cover is left for it");
    walk.sees("Write: covered Wall bed, and tonight's forecast");
    walk.event("submit", "write", &json!({}));
    walk.sees("Wall bed covered");
    let bed = walk.app.garden().bed("wall-bed-ge1r7").unwrap();
    assert!(bed.covered.is_some());
}

#[test]
fn a_spoken_reading_is_said_back_before_it_is_written() {
    let mut walk = two_beds();
    walk.go("#/thermometers");
    walk.event("input", "line", &json!({"line": "36 in the shed at dawn"}));
    walk.sees("Which thermometer?");
    walk.event("submit", "spoken", &json!({"line": "36 in the shed at dawn"}));
    walk.sees("value=\"36 in the shed at dawn\"");
    walk.sees("Please fix");
    walk.event("input", "line", &json!({"line": "thirty-six in the greenhouse at dawn"}));
    walk.sees("Greenhouse: low 36 °F, 25 Nov at dawn");
    assert!(walk.app.garden().readings.is_empty());
    walk.event("submit", "spoken", &json!({"line": "thirty-six in the greenhouse at dawn"}));
    walk.sees("Written: Read, unheated greenhouse: low 36 F");
    let reading = &walk.app.garden().readings[0];
    assert_eq!(reading.when.to_string(), "2026-11-25 07:00:00");
}

/// Each morning at seven a round: the spot in the open, and one bed, °F.
fn mornings(walk: &mut Walk, lows: &[(&str, &str)], reset: &str) {
    for (open, low) in lows {
        walk.local = walk.local.date().succ_opt().unwrap().and_hms_opt(7, 0, 0).unwrap();
        walk.go("#/thermometers");
        walk.event(
            "submit",
            "round",
            &json!({
                "at": [{"spot": "outdoors", "low": open}, {"bed": "wall-bed-ge1r7", "low": low}, {"bed": "fence-bed-ge1r7", "low": ""}],
                "sky": "clear", "wind": "still", "reset": reset,
            }),
        );
        walk.sees(&format!("Written: Read, outdoors: low {open} F"));
    }
}

#[test]
fn a_bed_learns_from_rounds_and_says_how_it_runs() {
    let mut walk = two_beds();
    walk.go("#/bed/wall-bed-ge1r7");
    walk.lacks("reference spot");
    mornings(
        &mut walk,
        &[("30", "27"), ("30", "25"), ("31", "28"), ("30", "26"), ("30", "24")],
        "afternoon",
    );
    walk.go("#/bed/wall-bed-ge1r7");
    walk.sees(
        "On clear, calm nights this bed runs about 4 °F colder than your open-air thermometer (5 nights)",
    );
    walk.go("#/ask/frost-tonight");
    walk.event("input", "sky", &json!({"sky": "clear", "wind": "still", "forecast_low": "38"}));
    walk.sees("by 5 nights of its own");
}

#[test]
fn a_thermometer_set_back_at_dawn_does_not_count_one_dawn_twice() {
    let mut walk = two_beds();
    mornings(&mut walk, &[("30", "24")], "afternoon");
    // The second morning shows the first dawn once more, and it was said when it was set back.
    mornings(&mut walk, &[("30", "24")], "morning");
    walk.go("#/bed/wall-bed-ge1r7");
    walk.sees("(1 night)");
    // A clearly colder dawn is its own.
    mornings(&mut walk, &[("26", "20")], "morning");
    walk.go("#/bed/wall-bed-ge1r7");
    walk.sees("(2 nights)");
    // Unasked, the form asks.
    walk.local = walk.local.date().succ_opt().unwrap().and_hms_opt(7, 0, 0).unwrap();
    walk.go("#/thermometers");
    walk.event("input", "at.1.low", &json!({"at": [{"spot": "outdoors"}, {"bed": "wall-bed-ge1r7", "low": "20"}], "reset": "afternoon"}));
    walk.sees("Wall bed read 20 F yesterday morning");
}

#[test]
fn covers_come_off_and_what_the_cold_did_is_written() {
    let mut walk = two_beds();
    walk.go("#/ask/frost-tonight");
    walk.event("input", "sky", &json!({"sky": "clear", "wind": "still", "forecast_low": "38"}));
    walk.event("submit", "write", &json!({}));
    walk.go("#/thermometers");
    walk.sees("Write: covers taken off Fence bed and Wall bed");
    walk.event("submit", "covers-off", &json!({}));
    walk.lacks("Write: covers taken off");
    walk.event("submit", "seen", &json!({"seen": {"bed": "wall-bed-ge1r7"}}));
    walk.sees("This is needed for an answer");
    walk.event("submit", "seen", &json!({"seen": {"bed": "wall-bed-ge1r7", "harm": "some"}}));
    let bed = walk.app.garden().bed("wall-bed-ge1r7").unwrap();
    assert_eq!(bed.frosts[0].what.harm.as_deref(), Some("some"));
    assert!(bed.covered.is_none());
}

#[test]
fn noon_readings_teach_what_the_sun_adds_under_glass() {
    let mut walk = Walk::begin();
    walk.local = walk.local.date().and_hms_opt(12, 30, 0).unwrap();
    walk.go("#/ask/open-greenhouse");
    walk.event("submit", "answer", &json!({"forecast_high": "warm"}));
    walk.sees("Please fix");
    walk.event("input", "sky", &json!({"sky": "clear", "forecast_high": "40"}));
    walk.sees("30 °F warmer inside, a wide guess");
    walk.event("input", "inside", &json!({"inside": "55", "outside": "40"}));
    walk.event(
        "input",
        "sky",
        &json!({"sky": "clear", "forecast_high": "40", "inside": "55", "outside": "40"}),
    );
    walk.event("submit", "write", &json!({}));
    walk.go("#/ask/open-greenhouse");
    walk.event("input", "sky", &json!({"sky": "clear", "forecast_high": "40"}));
    walk.sees("by 1 midday of its own");
    // The sun of that noon says nothing of the night's sky.
    walk.go("#/thermometers");
    walk.sees("Without them a low teaches nothing");
}
