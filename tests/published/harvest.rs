//! Harvest: grade sizes, ages, intervals, storage, salt, and the rules for combining signs.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use chrono::{NaiveDate, TimeDelta};
use pegline_core::{
    given::Readable,
    harvest::{
        again::{Looking, Pace, Why, look_again},
        age::by_flower,
        combine::Certainty,
        cues::{Keep, Sheet, sheet_named},
        grades::grade,
        measures::{Measures, Percent},
        stage::Stage,
        verdict::{Ages, Seen, Verdict, judge},
    },
    place::{Latitude, sun},
    quantity::{
        Length, Mass, Temperature, Time,
        unit::{
            length::{inch, millimeter},
            mass::{gram, pound},
            thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
            time::day,
        },
    },
    topics::salt_for_fermenting::salt::{Cut, salt},
};

/// How the usual crop of a sheet keeps: one that has no rows of its own.
fn keeps(id: &str) -> Vec<&'static Keep> {
    sheet(id).keep(pegline_core::catalogue::crop("squash-winter").ok().unwrap())
}

fn sheet(id: &str) -> &'static Sheet {
    sheet_named(id).unwrap_or_else(|| panic!("no sheet {id}"))
}

fn inches(length: f64) -> Option<Length> {
    Some(Length::new::<inch>(length))
}

fn percent(number: f64) -> Option<Percent> {
    Percent::new(number)
}

fn across(width: f64) -> Measures {
    Measures { width: inches(width), ..Measures::default() }
}

fn graded(id: &str, measures: &Measures) -> &'static str {
    grade(sheet(id), measures).unwrap().name
}

fn judged(id: &str, signs: &[&str], measures: Measures, ages: Ages) -> Verdict {
    let sheet = sheet(id);
    let mut seen = Seen { measures, ..Seen::default() };
    for name in signs {
        if let Some(stop) = sheet.stop(name) {
            seen.stops.push(stop);
        } else {
            seen.signs.push(sheet.sign(name).unwrap_or_else(|| panic!("{id} has no {name}")).1);
        }
    }
    judge(sheet, &seen, &ages)
}

fn by_signs(id: &str, signs: &[&str]) -> Verdict {
    judged(id, signs, Measures::default(), Ages::default())
}

fn flowered(days: i64) -> Ages {
    Ages { flower: Some(TimeDelta::days(days)), ..Ages::default() }
}

// ---- Grade sizes ----

/// 7 CFR 52, sieve sizes of round green beans (the upper bound of size 4, 24/64 in, is read in the
/// United States Standards for Snap Beans for Processing; the other bounds are from memory). In
/// millimetres the bounds print as 5.75, 7.34, 8.33, 9.53 and 10.72.
#[test]
fn bean_sieves() {
    for (sixty_fourths, millimetres, below, at) in [
        (14.5, 5.75, 1, 2),
        (18.5, 7.34, 2, 3),
        (21.0, 8.33, 3, 4),
        (24.0, 9.53, 4, 5),
        (27.0, 10.72, 5, 6),
    ] {
        let bound = Length::new::<inch>(sixty_fourths / 64.0);
        assert!((bound.get::<millimeter>() - millimetres).abs() <= 0.01);
        assert_eq!(graded("snap-bean", &across(sixty_fourths / 64.0)), format!("sieve size {at}"));
        let less = Measures {
            width: Some(bound - Length::new::<millimeter>(0.02)),
            ..Measures::default()
        };
        assert_eq!(graded("snap-bean", &less), format!("sieve size {below}"));
    }
}

/// United States Standards for Grades of Snap Beans for Processing: No. 1 is at least 12/64 in and
/// below 24/64 in. What is outside it is not told to be at its prime by size.
#[test]
fn bean_no_1_is_prime_and_the_rest_is_not() {
    let stage = |sixty_fourths: f64| {
        judged("snap-bean", &[], across(sixty_fourths / 64.0), Ages::default())
    };
    assert_eq!(stage(23.0).stage, Some(Stage::Prime));
    assert_eq!(stage(11.0).stage, Some(Stage::NotYet));
    assert!(stage(25.0).allowed.contains(&Stage::Going));
    assert!(!stage(29.0).allowed.contains(&Stage::Prime));
}

/// United States Standards for Grades of Topped Carrots: No. 1 is 3/4 to 1 1/2 in across, 5 in long.
#[test]
fn carrot_no_1() {
    let carrot =
        |width| Measures { width: inches(width), length: inches(6.0), ..Measures::default() };
    for (width, fits) in [(0.7, false), (0.75, true), (1.5, true), (1.6, false)] {
        assert_eq!(graded("carrot", &carrot(width)) == "US No. 1 size", fits, "{width}");
        let told = judged("carrot", &[], carrot(width), Ages::default());
        assert_eq!(told.allowed == [Stage::Prime], fits, "{width}");
    }
    let short = Measures { length: inches(4.9), ..carrot(1.0) };
    assert_eq!(graded("carrot", &short), "not US No. 1 size");
}

/// United States Standards for Grades of Turnips, 20 FR 4619, 1955: at least 1 3/4 in (44.45 mm).
#[test]
fn turnip_least_size() {
    assert!((inches(1.75).unwrap().get::<millimeter>() - 44.45).abs() < 1e-9);
    assert_eq!(graded("turnip", &across(1.74)), "under the US least size");
    assert_eq!(graded("turnip", &across(1.75)), "the US least size or more");
    assert_eq!(judged("turnip", &[], across(1.75), Ages::default()).allowed, [Stage::Prime]);
    assert!(judged("turnip", &[], across(1.74), Ages::default()).allowed.contains(&Stage::NotYet));
}

/// United States Standards for Grades of Radishes: small below 3/4 in, medium to 1, large to 1 1/4.
#[test]
fn radish_sizes() {
    for (width, name) in [(0.74, "small"), (0.8, "medium"), (1.1, "large"), (1.3, "extra large")] {
        assert_eq!(graded("radish", &across(width)), name);
    }
}

/// United States Standards for Grades of Cucumbers: at most 2 3/8 in across, at least 6 in long.
#[test]
fn cucumber_no_1() {
    let cucumber = |width, length| Measures {
        width: inches(width),
        length: inches(length),
        ..Measures::default()
    };
    assert_eq!(graded("slicing-cucumber", &cucumber(2.4, 7.0)), "too thick for US No. 1");
    assert_eq!(graded("slicing-cucumber", &cucumber(2.3, 5.9)), "too short for US No. 1");
    assert_eq!(graded("slicing-cucumber", &cucumber(2.3, 6.5)), "US No. 1 size");
    let told = judged("slicing-cucumber", &[], cucumber(2.3, 6.5), Ages::default());
    assert_eq!(told.stage, Some(Stage::Prime));
}

/// 7 CFR 51.1860, colour of tomatoes: breaker to 10 %, turning to 30, pink to 60, light red to 90.
#[test]
fn tomato_colours() {
    for (colour, name) in [
        (0.0, "green"),
        (10.0, "breaker"),
        (11.0, "turning"),
        (30.0, "turning"),
        (31.0, "pink"),
        (60.0, "pink"),
        (61.0, "light red"),
        (90.0, "light red"),
        (91.0, "red"),
    ] {
        let measures = Measures { colour: percent(colour), ..Measures::default() };
        assert_eq!(graded("tomato", &measures), name, "{colour}");
        let ripe = judged("tomato", &[], measures, Ages::default()).allowed == [Stage::Prime];
        assert_eq!(ripe, colour > 60.0, "{colour}");
    }
}

/// United States Standards for Grades of Cantaloups: 9 % soluble solids for No. 1, 11 for Fancy.
#[test]
fn melon_sweetness() {
    for (brix, name) in [
        (8.9, "under US No. 1 in sweetness"),
        (9.0, "US No. 1 in sweetness"),
        (11.0, "US Fancy in sweetness"),
    ] {
        let measures = Measures { brix: percent(brix), ..Measures::default() };
        assert_eq!(graded("melon", &measures), name);
        let ripe = judged("melon", &[], measures, Ages::default()).allowed == [Stage::Prime];
        assert_eq!(ripe, brix >= 9.0);
    }
}

// ---- Ages ----

/// Days from pollination to market maturity, D. Maynard and G. Hochmuth, Knott's Handbook for
/// Vegetable Growers, 5th ed., 2007 (from memory); fruit ages of the Encyclopaedia Britannica,
/// "Vegetable farming" (read). Inside them an age alone never says not yet, and at half the least of
/// a crop's kinds it never says anything else.
#[test]
fn fruit_ages() {
    let published = [
        // Knott's.
        ("snap-bean", 7, 10),
        ("pickling-cucumber", 4, 5),
        ("slicing-cucumber", 15, 18),
        // Zucchini, scallop, straightneck, crookneck.
        ("summer-squash", 3, 4),
        ("summer-squash", 4, 5),
        ("summer-squash", 5, 6),
        ("summer-squash", 6, 7),
        ("okra", 4, 6),
        ("eggplant", 25, 40),
        ("melon", 42, 46),
        ("watermelon", 42, 45),
        ("sweet-corn", 18, 23),
        ("pepper", 45, 55),
        ("ripe-pepper", 60, 70),
        ("tomato", 45, 60),
        // Acorn, butternut, banana, Hubbard; sugar pumpkin.
        ("winter-squash", 55, 60),
        ("winter-squash", 60, 70),
        ("winter-squash", 70, 80),
        ("winter-squash", 80, 90),
        ("winter-squash", 65, 75),
        // Britannica.
        ("snap-bean", 7, 10),
        ("shelling-pea", 10, 15),
        ("okra", 4, 7),
        ("summer-squash", 3, 7),
        ("eggplant", 20, 40),
        ("melon", 30, 45),
        ("watermelon", 40, 50),
        ("tomato", 45, 60),
    ];
    for (id, least, most) in published {
        let at = |age: i64| by_flower(sheet(id), TimeDelta::days(age)).unwrap();
        for age in least..=most {
            assert_ne!(at(age).likely, Stage::NotYet, "{id} {age}");
        }
        let kinds = published.iter().filter(|(other, ..)| *other == id);
        let youngest = kinds.map(|(_, least, _)| least / 2).min().unwrap();
        assert_eq!(at(youngest).likely, Stage::NotYet, "{id} {youngest}");
    }
}

/// North Carolina State University, AG-552: a pickling cucumber is picked first 8 to 10 days after
/// the flower opens and is too large by the 12th.
#[test]
fn a_pickling_cucumber_is_too_large_by_the_twelfth_day() {
    let at = |age| by_flower(sheet("pickling-cucumber"), TimeDelta::days(age)).unwrap().likely;
    assert_eq!(at(9), Stage::Prime);
    assert!(at(12) >= Stage::Going);
}

/// Iowa State University Extension, 11 July 1997: sweet corn is ready 18 to 23 days after silking, in
/// heat at 15 or sooner. Silk on 1 July: look daily from 16 July, expect 19 to 24 July (derived).
#[test]
fn sweet_corn_by_its_silk() {
    let date = |number| NaiveDate::from_ymd_opt(2026, 7, number).unwrap();
    let looking = Looking {
        sheet: sheet("sweet-corn"),
        today: date(5),
        stage: None,
        any_going: false,
        mean: None,
        flowered: Some(date(1)),
        short_days: None,
        frost: None,
        own: None,
    };
    let look = look_again(&looking).unwrap();
    assert_eq!((look.early, look.likely, look.late), (date(16), Some(date(19)), Some(date(24))));
    assert_eq!(look.why, Why::Flower);
}

// ---- Intervals ----

/// The stretch rule, worked (derived): beans every 2.5 days at 25 C, base 10 C.
#[test]
fn bean_intervals_stretch_as_it_cools() {
    let celsius = |degrees| Temperature::new::<degree_celsius>(degrees);
    let bean = Pace::warm(Time::new::<day>(2.5), celsius(10.0));
    for (mean, days) in [(25.0, 2.5), (18.0, 4.7), (15.0, 7.5), (12.0, 14.0), (9.0, 14.0)] {
        let found = bean.at(celsius(mean)).get::<day>();
        assert!((found - days).abs() <= 0.05, "{mean}: {found}");
    }
}

/// Days under ten hours at 40 N are 16 November to 28 January (NOAA general solar equations,
/// derived). In them leaf crops wait a fortnight without a promise: growers' practice after
/// E. Coleman (from memory), softened because growth slows rather than stops (D. Drost and others,
/// HortScience 52(9):1251-1258, 2017).
#[test]
fn leaves_stand_still_in_the_ten_weeks_of_short_days() {
    let date = |text: &str| text.parse::<NaiveDate>().unwrap();
    let forty = Latitude::from_degrees(40.0).unwrap();
    let season = sun::short_days(forty, date("2026-11-20")).unwrap();
    for (published, found) in [("2026-11-16", season.0), ("2027-01-28", season.1)] {
        assert!((found - date(published)).num_days().abs() <= 1, "{found}");
    }
    for (today, still) in [("2026-11-10", false), ("2026-12-21", true), ("2027-02-03", false)] {
        let today = date(today);
        let looking = Looking {
            sheet: sheet("spinach"),
            today,
            stage: Some(Stage::Prime),
            any_going: false,
            mean: Some(Temperature::new::<degree_fahrenheit>(50.0)),
            flowered: None,
            short_days: sun::short_days(forty, today),
            frost: None,
            own: None,
        };
        let look = look_again(&looking).unwrap();
        assert_eq!(look.why == Why::ShortDays, still, "{today}");
        if still {
            assert_eq!(((look.early - today).num_days(), look.likely), (14, None));
        }
    }
}

// ---- Storage ----

/// One row of a storage table: sheet, kind, air in F, relative humidity in percent, life in days.
type Stored = (&'static str, Option<&'static str>, [f64; 2], [u8; 2], [u16; 2]);

/// New England Vegetable Management Guide, table 16, adapted from USDA Agriculture Handbook 66 (a);
/// the Handbook's 1954 edition as reprinted (b); later editions (from memory, c); UC Davis Produce
/// Facts (d). Weeks are 7 days, months 30 (six and more months: 183, seven: 213).
#[test]
fn storage_lives() {
    let cold = [32.0, 32.0];
    let moist = [90, 95];
    let rows: [Stored; 34] = [
        ("broccoli", None, cold, moist, [7, 14]),                // a
        ("cauliflower", None, cold, moist, [14, 28]),            // a, b
        ("kale", None, cold, moist, [7, 14]),                    // b
        ("spinach", None, cold, moist, [7, 14]),                 // b
        ("cabbage", None, cold, moist, [21, 42]),                // a
        ("cabbage", Some("late kinds"), cold, moist, [84, 112]), // b
        ("carrot", Some("topped"), cold, moist, [183, 213]),     // a
        ("carrot", Some("bunched"), cold, moist, [30, 30]),      // a
        ("beet", Some("bunched"), cold, moist, [7, 14]),         // a
        ("beet", Some("topped"), cold, moist, [49, 56]),         // b
        ("turnip", None, cold, moist, [112, 154]),               // b
        ("rutabaga", None, cold, moist, [56, 112]),              // b
        ("radish", Some("tops on"), cold, moist, [7, 14]),       // d
        ("radish", Some("topped"), cold, moist, [21, 28]),       // d
        ("kohlrabi", None, cold, moist, [14, 28]),               // a
        ("celery", None, cold, moist, [14, 21]),                 // a
        ("leek", None, cold, moist, [30, 90]),                   // a
        ("head-lettuce", Some("tight heads"), cold, moist, [14, 21]), // a
        ("head-lettuce", Some("romaine"), cold, moist, [7, 14]), // a
        ("leaf-lettuce", None, cold, moist, [7, 7]),             // a
        ("shelling-pea", None, cold, moist, [7, 14]),            // a
        ("sweet-corn", None, cold, moist, [4, 7]),               // b
        ("onion", Some("cured, dry air"), cold, [65, 70], [30, 240]), // a
        ("garlic", Some("cured, dry air"), cold, [60, 70], [183, 213]), // c
        ("basil", None, [46.0, 50.0], moist, [4, 7]),            // a
        ("snap-bean", None, [40.0, 45.0], moist, [7, 10]),       // a
        ("slicing-cucumber", None, [50.0, 50.0], moist, [7, 14]), // a
        ("eggplant", None, [50.0, 50.0], [85, 90], [7, 7]),      // a
        ("summer-squash", None, [45.0, 50.0], moist, [4, 7]),    // b
        ("okra", None, [45.0, 50.0], moist, [7, 7]),             // a
        ("tomato", Some("green"), [55.0, 60.0], [85, 90], [7, 14]), // b
        ("tomato", Some("ripe"), [45.0, 55.0], [85, 90], [7, 14]), // b
        ("store-potato", Some("cured, in the dark"), [38.0, 40.0], [85, 90], [168, 182]), // b
        ("winter-squash", Some("cured, dry air"), [50.0, 55.0], [70, 75], [168, 182]), // b
    ];
    for (id, kind, air_f, humidity, days) in rows {
        let keep = keeps(id).into_iter().find(|keep| keep.kind() == kind);
        let keep = keep.unwrap_or_else(|| panic!("{id} {kind:?}"));
        let found = keep.air().map(|air| air.get::<degree_fahrenheit>().round());
        assert_eq!(
            (found, keep.humidity_percent(), keep.days()),
            (air_f, humidity, days),
            "{id} {kind:?}"
        );
        assert!(!keep.sources().is_empty());
    }
}

/// Crops that cold injures are not sent to the refrigerator (common practice, and the same tables):
/// no air below 36 F but for a melon that slips freely.
#[test]
fn cold_injured_crops_are_never_kept_at_freezing() {
    for id in
        ["basil", "snap-bean", "slicing-cucumber", "eggplant", "summer-squash", "okra", "tomato"]
    {
        for keep in keeps(id) {
            assert!(keep.air()[0].get::<degree_fahrenheit>() >= 39.9, "{id}");
        }
    }
}

// ---- Salt ----

/// Arithmetic: 25 lb (11,340 g) at 2.5 % is 283.5 g; a kilogram at 2.25 % is 22.5 g.
#[test]
fn salt_by_weight() {
    let none = Mass::new::<gram>(0.0);
    let cabbage = Mass::new::<pound>(25.0);
    let salted = salt(cabbage, none, percent(2.5).unwrap()).get::<gram>();
    assert!((salted - 283.5).abs() <= 0.1, "{salted}");
    let usual = percent(Cut::Shredded.usual_percent()).unwrap();
    let salted = salt(Mass::new::<gram>(1000.0), none, usual).get::<gram>();
    assert!((salted - 22.5).abs() <= 0.1, "{salted}");
}

/// Printed recipes by volume, at 18 g a tablespoon and 292 g a cup (from memory): Michigan State
/// University Extension, 3/4 cup to 25 lb of cabbage (1.93 %) and 3 tablespoons to 5 lb (2.38 %);
/// G. V. Gray, 1918, 1 lb to 40 lb (2.5 %); USDA Complete Guide to Home Canning, fermented dill
/// pickles, 1/2 cup to 4 lb of cucumbers and 8 cups of water (3.9 %). All but the first, which the
/// same recipe contradicts, lie inside the range told, and none of them is doubled or halved by it.
#[test]
fn printed_recipes_lie_near_the_shares_told() {
    let pounds = |pounds: f64| Mass::new::<pound>(pounds);
    let grams = |grams: f64| Mass::new::<gram>(grams);
    let share = |salt: Mass, whole: Mass| (salt / whole).value * 100.0;
    for (found, printed, cut, inside) in [
        (share(grams(0.75 * 292.0), pounds(25.0)), 1.93, Cut::Shredded, false),
        (share(grams(3.0 * 18.0), pounds(5.0)), 2.38, Cut::Shredded, true),
        (share(pounds(1.0), pounds(40.0)), 2.5, Cut::Shredded, true),
        (share(grams(146.0), pounds(4.0) + grams(1893.0 + 59.0)), 3.88, Cut::Whole, true),
    ] {
        assert!((found - printed).abs() <= 0.01, "{found} {printed}");
        let [least, most] = cut.usual_percents();
        assert_eq!((least..=most).contains(&found), inside, "{found}");
        let usual = cut.usual_percent();
        assert!(usual / 1.3 < found && found < usual * 1.3, "{found} {usual}");
    }
    assert_eq!(Percent::read("2.25 %").unwrap(), percent(2.25).unwrap());
}

// ---- Signs together ----

/// A slim green bean of eight days that is spongy is past: the pod's change of tissue outweighs size,
/// colour and age.
#[test]
fn a_spongy_bean_is_past_whatever_its_size_and_age() {
    let told = judged("snap-bean", &["smooth", "spongy"], across(0.3), flowered(8));
    assert_eq!((told.stage, told.certainty), (Some(Stage::Past), Certainty::Sure));
    assert_eq!(told.decisive, ["spongy"]);
}

/// Iowa State University Extension, 1997: corn is ready by its kernel's milk, not by its silk.
#[test]
fn clear_juice_outweighs_brown_silk() {
    let told = by_signs("sweet-corn", &["silk-brown-dry", "juice-clear"]);
    assert_eq!((told.stage, told.decisive), (Some(Stage::NotYet), vec!["juice-clear"]));
    let today = NaiveDate::from_ymd_opt(2026, 7, 18).unwrap();
    let looking = Looking {
        sheet: sheet("sweet-corn"),
        today,
        stage: told.stage,
        any_going: false,
        mean: None,
        flowered: None,
        short_days: None,
        frost: None,
        own: None,
    };
    let look = look_again(&looking).unwrap();
    let days = |date: NaiveDate| (date - today).num_days();
    assert_eq!((days(look.early), look.late.map(days)), (2, Some(3)));
}

/// Crop Post-Harvest: Science and Technology: a squash that has lost its sheen is over-mature; one of
/// 10 in that is glossy and gives to the nail is prime or going, and is taken now.
#[test]
fn a_large_glossy_squash_is_prime_or_going() {
    let long = Measures { length: inches(10.0), ..Measures::default() };
    let told = judged("summer-squash", &["glossy", "nail-cuts"], long, Ages::default());
    assert_eq!(told.allowed, [Stage::Prime, Stage::Going]);
    assert!(told.stage.is_some_and(|stage| told.allowed.contains(&stage)));
    assert_eq!(by_signs("summer-squash", &["dull"]).stage, Some(Stage::Past));
}

/// C. Hoepting (Cornell) and a New Zealand study: lift onions at 50 to 80 % of tops down; most rot
/// where lifted three weeks after half were down.
#[test]
fn onions_by_their_tops() {
    let down = |share| Measures { tops_down: percent(share), ..Measures::default() };
    assert_eq!(judged("onion", &[], down(30.0), Ages::default()).stage, Some(Stage::NotYet));
    assert_eq!(judged("onion", &[], down(60.0), Ages::default()).stage, Some(Stage::Prime));
    assert_eq!(by_signs("onion", &["down-over-two-weeks"]).stage, Some(Stage::Going));
}

/// C. Goossen, Maine Organic Farmers and Gardeners Association: full size at 20 days, seeds done at
/// 55. A squash of 25 days is not yet ripe, whatever its colour.
#[test]
fn a_young_winter_squash_is_not_ripe_whatever_its_colour() {
    let told = judged("winter-squash", &["dull-full-colour"], Measures::default(), flowered(25));
    assert_eq!(told.stage, Some(Stage::NotYet));
    let old = judged(
        "winter-squash",
        &["dull-full-colour", "nail-fails"],
        Measures::default(),
        flowered(60),
    );
    assert_eq!((old.stage, old.certainty), (Some(Stage::Prime), Certainty::Likely));
}

/// A Nova Scotia vegetable blog, 2019: four green leaves mean late, a bulb loose in its skins means
/// early; pests brown leaves before their time, so neither is believed.
#[test]
fn garlic_with_few_leaves_and_a_loose_bulb_contradicts_itself() {
    let told = by_signs("garlic", &["three-or-four-green", "loose-in-skins"]);
    assert_eq!((told.stage, told.certainty), (None, Certainty::Possible));
    assert_eq!(told.clash, Some(["three-or-four-green", "loose-in-skins"]));
    assert_eq!(told.allowed, [Stage::NotYet, Stage::Prime, Stage::Going]);
    let counted = Measures { green_leaves: Some(4), ..Measures::default() };
    let told = judged("garlic", &["loose-in-skins"], counted, Ages::default());
    assert_eq!(told.clash, Some(["loose-in-skins", "green_leaves"]));
}

/// Pacific Northwest Plant Disease Management Handbook: a bitter cucurbit is discarded.
#[test]
fn anything_bitter_among_gourds_has_no_stage() {
    for id in [
        "summer-squash",
        "winter-squash",
        "slicing-cucumber",
        "pickling-cucumber",
        "melon",
        "watermelon",
    ] {
        let young = sheet(id).questions()[0].signs()[1].id();
        let told = by_signs(id, &[young, "bitter"]);
        assert_eq!((told.stage, told.decisive), (None, vec!["bitter"]), "{id}");
        assert!(told.allowed.is_empty());
    }
}
