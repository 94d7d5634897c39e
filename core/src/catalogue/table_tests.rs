//! The checks on the tables refuse what is wrong, and say where.

use super::check;
use super::kinds;
use super::tables::{Classes, Crops, Sources};

const SOURCES: &str = r#"
common-practice = { basis = "common-practice", cite = "Common practice" }
handbook = { basis = "read", cite = "A handbook" }
"#;

const CLASSES: &str = r#"
height = {}
spread = {}
[family]
cabbage = { called = "cabbage", botanical = "Brassicaceae", gap_years = 4 }
[hardiness]
tender = { cover_f = 33, loss_f = 31 }
hardy = { cover_f = 26, loss_f = 20 }
[hardening]
tender-50 = { air_f = 50 }
[habit]
upright = { edge_in = 3 }
[caution]
spreads = { say = "It spreads." }
[usual_tray]
grace_weeks = 2
leaves = [4, 6]
wait = "It waits."
[cold]
onion = { below_f = 45, days = [90, 154], does = "bolts", by = "handbook" }
"#;

const CROP: &str = r#"
names = ["Cabbage", "head cabbage"]
plant = { family = "cabbage", kind = "vegetable", start = "transplant", habit = "upright", height = "low", spread = "narrow", seen = "leafy" }
space = { inches = [15, 18], by = "handbook" }
frost = { class = "hardy", kill_f = [20, 27] }
harden = { class = "tender-50" }
water = { mid_season = 1.05, by = "handbook" }
cold = "onion"
not_known = ["keep", "growth"]
"#;

fn checked(crops: &str) -> Result<Vec<check::Crop>, Vec<String>> {
    let crops: Crops = toml::from_str(crops).map_err(|error| vec![error.to_string()])?;
    let classes: Classes = toml::from_str(CLASSES).unwrap();
    let sources: Sources = toml::from_str(SOURCES).unwrap();
    check::crops(&crops, &classes, &sources)
}

fn faults_of(row: &str) -> String {
    checked(row).err().unwrap_or_default().join("\n")
}

#[test]
fn a_sound_row_is_taken_over() {
    let crops = checked(&format!("[cabbage]{CROP}")).ok().unwrap();
    let [cabbage] = crops.as_slice() else { panic!("one crop") };
    assert_eq!(cabbage.id, "cabbage");
    assert_eq!(cabbage.names, ["Cabbage", "head cabbage"]);
    // Of two spacings the wider is the usual one.
    assert_eq!(cabbage.spacing_in, Some([15, 18, 18]));
    assert_eq!(cabbage.kill_f, Some([20, 27]));
    assert!(cabbage.eaten);
    assert_eq!(cabbage.sources[0], ("Spacing", "handbook".to_owned()));
    assert_eq!(cabbage.sources[1], ("Frost", "common-practice".to_owned()));
}

#[test]
fn a_wrong_figure_is_refused_with_its_row_and_field() {
    for (right, wrong, said) in [
        ("[15, 18]", "[18, 15]", "crops.toml: [cabbage] space.inches: does not rise"),
        ("[15, 18]", "[15, 18, 20, 22]", "[cabbage] space.inches: takes one, two or three"),
        ("[15, 18]", "[]", "[cabbage] space.inches: takes one"),
        ("[15, 18]", "[0, 18]", "[cabbage] space.inches: 0 is not between 1 and 96"),
        ("[15, 18]", "[15, 18.5]", "[cabbage] space.inches: 18.5 is finer"),
        ("[15, 18]", "[15, nan]", "[cabbage] space.inches: NaN is not between"),
        ("\"handbook\"", "\"hearsay\"", "[cabbage] space.by: no source \"hearsay\""),
        ("\"handbook\"", "[]", "[cabbage] space.by: is empty"),
        ("[20, 27]", "30", "[cabbage] frost.kill_f: is above 26 F"),
        ("[20, 27]", "20, part = \"head\"", "[cabbage] frost.part: goes with part_kill_f"),
        (
            "\"tender-50\"",
            "\"tender-50\", air_f = 50",
            "[cabbage] harden.air_f: is the class's own",
        ),
        ("\"head cabbage\"", "\"cabbages\"", "[cabbage] names: \"cabbages\" stands there twice"),
        ("\"transplant\"", "[\"sow\", \"sow\"]", "[cabbage] plant.start: takes one word"),
        ("\"hardy\", kill", "\"hardy\", caution = 1, kill", "unknown field `caution`"),
        ("\"upright\"", "\"upwrong\"", "unknown variant `upwrong`"),
        ("1.05", "10.5", "[cabbage] water.mid_season: 10.5 is not between 0.3 and 1.4"),
        ("\"onion\"", "\"rain\"", "[cabbage] cold: no [cold] \"rain\" in classes.toml"),
        (
            "[\"keep\", \"growth\"]",
            "[\"growth\"]",
            "[cabbage] keep: is missing: give it, or name it in not_known",
        ),
        ("\"growth\"]", "\"growth\", \"water\"]", "[cabbage] water: is given, and stands in"),
        ("\"growth\"]", "]", "[cabbage] growth: is missing: give it, or name it in not_known"),
    ] {
        let row = format!("[cabbage]{}", CROP.replace(right, wrong));
        assert!(faults_of(&row).contains(said), "{wrong}: {}", faults_of(&row));
    }
}

#[test]
fn ids_are_kebab_case_and_names_belong_to_one_crop() {
    assert!(faults_of(&format!("[Cabbage]{CROP}")).contains("[Cabbage] id: is not kebab-case"));
    assert!(faults_of(&format!("[cabbage-]{CROP}")).contains("id: is not kebab-case"));
    let twice = format!("[cabbage]{CROP}[kale]{CROP}");
    assert!(faults_of(&twice).contains("[kale] names: \"Cabbage\" is a name of [cabbage] already"));
    // The same id twice is refused by the table's own grammar.
    assert!(faults_of(&format!("[cabbage]{CROP}[cabbage]{CROP}")).contains("duplicate key"));
}

#[test]
fn what_a_topic_asks_for_by_name_must_be_there() {
    let crops: Crops = toml::from_str(&format!("[garlic]{CROP}")).unwrap();
    let said = check::missing(&crops);
    assert_eq!(said, ["crops.toml: [onion-bulb] is missing: a topic asks for it"]);
}

#[test]
fn a_word_for_several_crops_is_no_name_and_names_crops() {
    let crops: Crops = toml::from_str(&format!("[cabbage]{CROP}")).unwrap();
    for (kinds, said) in [
        ("meant = { brassica = [\"cabbage\"] }\nuse = {}", ""),
        ("meant = {}\nuse = { brassica = [] }", "kinds.toml: [use] brassica: names no crop"),
        ("meant = { brassica = [\"kale\"] }\nuse = {}", "[meant] brassica: no crop \"kale\""),
        ("meant = { cabbages = [\"cabbage\"] }\nuse = {}", "is a name of [cabbage] already"),
    ] {
        let faults = kinds::written(&toml::from_str(kinds).unwrap(), &crops).err();
        let faults = faults.unwrap_or_default().join("\n");
        assert!(faults.contains(said) && faults.is_empty() == said.is_empty(), "{kinds}: {faults}");
    }
}

#[test]
fn weeks_of_cold_are_whole() {
    let sources: Sources = toml::from_str(SOURCES).unwrap();
    let crops: Crops = toml::from_str(&format!("[cabbage]{CROP}")).unwrap();
    for wrong in ["below_f = 45", "days = [90, 154]", "below_f = 45, days = [154, 90]"] {
        let classes = CLASSES.replace("below_f = 45, days = [90, 154]", wrong);
        let classes: Classes = toml::from_str(&classes).unwrap();
        let faults = check::crops(&crops, &classes, &sources).err().unwrap();
        assert!(faults[0].contains("[cold] onion: give below_f and days that rise"), "{wrong}");
    }
}

#[test]
fn growth_is_told_whole_or_not_at_all() {
    let grow = "grow = { base_c = 2, cap_c = 20, set = [730, 1010], best_f = [40, 75], young_f = 22, \
                soil_f = 45, by = \"handbook\" }\n";
    let row = CROP.replace("[\"keep\", \"growth\"]", "[\"keep\"]");
    let whole = format!("[cabbage]{row}{grow}");
    assert_eq!(faults_of(&whole), "");
    for (right, wrong, said) in [
        ("cap_c = 20", "cap_c = 2", "[cabbage] grow.cap_c: is not"),
        ("set = [730, 1010], ", "", "[cabbage] grow: says nothing"),
        ("set =", "sown =", "[cabbage] grow.soil_f: is for setting out"),
        (
            "best_f = [40, 75]",
            "best_f = [40, 75], hot_c = 24",
            "[cabbage] grow.best_f: is missing, or",
        ),
        ("[730, 1010]", "[1010, 730]", "[cabbage] grow.set: does not rise"),
        ("by = \"handbook\" }", "by = \"hearsay\" }", "[cabbage] grow.by: no source \"hearsay\""),
    ] {
        // The last of them: the row's other columns have a handbook too.
        let at = whole.rfind(right).unwrap();
        let row = format!("{}{wrong}{}", &whole[..at], &whole[at + right.len()..]);
        assert!(faults_of(&row).contains(said), "{wrong}: {}", faults_of(&row));
    }
}

#[test]
fn every_fault_is_told_at_once() {
    let row = CROP.replace("[15, 18]", "[18, 15]").replace("[20, 27]", "40");
    assert_eq!(checked(&format!("[cabbage]{row}")).err().unwrap().len(), 2);
}

#[test]
fn a_caution_must_stand_in_the_table() {
    assert!(checked(&format!("[cabbage]{CROP}caution = \"spreads\"")).is_ok());
    assert!(
        faults_of(&format!("[cabbage]{CROP}caution = \"bites\"")).contains("no caution \"bites\"")
    );
}
