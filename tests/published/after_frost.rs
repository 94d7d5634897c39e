//! What frost did, against what extension services print of its signs.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use pegline_core::{ask::ask, garden::Garden};
use serde_json::{Value, json};

fn told(crop: &str, signs: &[&str]) -> Value {
    let question =
        json!({ "topic": "after-frost", "today": "2026-11-02", "crop": crop, "signs": signs });
    serde_json::to_value(ask(&question, &Garden::default()).unwrap()).unwrap()
}

/// B. Phillips, Michigan State University Extension, 2016: frozen leaves look soaked as they thaw; look
/// twice, once after the sun has warmed them and once well after the thaw. So of leaves that are glassy
/// nothing is said but to wait, and to look again within days.
#[test]
fn of_frozen_leaves_nothing_is_said_before_they_thaw() {
    for crop in ["cabbage", "lettuce-leaf", "lettuce-head", "beet", "radish", "pepper"] {
        let answer = told(crop, &["glassy"]);
        assert_eq!(answer["verdict"], "wait", "{crop}");
        let again = answer["look_again"].as_str().unwrap();
        assert!(("2026-11-03".."2026-11-06").contains(&again), "{crop}: {again}");
    }
}

/// T. J. Koske, Louisiana State University AgCenter, 2004: tomatoes and peppers that froze have soft, soaked
/// areas, heads of broccoli and cauliflower brown florets with a strong smell; Colorado State University
/// Extension, Jefferson County, 2020: what was frosted is picked at once and eaten soon. Extension advice:
/// tomatoes from frost-killed vines are not for canning.
#[test]
fn soft_produce_is_picked_at_once_and_not_kept() {
    for crop in ["tomato", "pepper", "broccoli", "cauliflower", "squash-winter", "cucumber"] {
        let answer = told(crop, &["fruit-soft"]);
        assert_eq!(answer["verdict"], "pick-now", "{crop}");
        assert!(answer["look_for"].to_string().contains("not to be kept"), "{crop}");
    }
    assert!(told("tomato", &["black"])["cautions"].to_string().contains("not for home canning"));
}

/// Michigan State University Extension, 2014: light frost (28 to 32 °F) hurts beans, cucumber, tomato, pepper,
/// squash and melons; collards, kale and spinach stand harder ones. So dead tender crops tell of a low that
/// need not be under 28 °F, dead kale of one that must be.
#[test]
fn harm_tells_of_the_low_as_the_lists_of_hardiness_do() {
    let to_f = |answer: &Value| answer["low_between_c"]["to"].as_f64().unwrap() * 1.8 + 32.0;
    for crop in ["bean-snap-bush", "cucumber", "tomato", "pepper", "squash-summer", "melon"] {
        let low = to_f(&told(crop, &["soft-crown", "black"]));
        assert!(low >= 31.9, "{crop}: {low} °F");
    }
    for crop in ["collards", "kale", "spinach"] {
        let low = to_f(&told(crop, &["soft-crown", "black"]));
        assert!(low < 28.0, "{crop}: {low} °F");
    }
}
