//! The checks on the table of covers refuse what is wrong, and say where.

use super::cover_table;
use super::tables::Sources;

const SOURCES: &str = r#"
common-practice = { basis = "common-practice", cite = "Common practice" }
handbook = { basis = "read", cite = "A handbook" }
"#;

const COVER: &str = r#"
names = ["Light fabric", "fleece"]
gain = { f = [2, 2], by = "handbook" }
sheet = true
watch = ["seal-edges"]
"#;

fn cover_faults(covers: &str) -> String {
    let sources: Sources = toml::from_str(SOURCES).unwrap();
    match toml::from_str(covers) {
        Ok(covers) => cover_table::written(&covers, &sources).err().unwrap_or_default().join("\n"),
        Err(error) => error.to_string(),
    }
}

#[test]
fn a_wrong_cover_is_refused_with_its_row_and_field() {
    assert_eq!(cover_faults(&format!("[fabric]{COVER}")), "");
    for (right, wrong, said) in [
        ("[2, 2]", "[2, 0]", "covers.toml: [fabric] gain.f: is a mean of at most 20"),
        ("[2, 2]", "[30, 2]", "[fabric] gain.f: is a mean"),
        ("[2, 2]", "[-2, 2]", "invalid value"),
        ("\"handbook\"", "\"hearsay\"", "[fabric] gain.by: no source \"hearsay\""),
        ("\"seal-edges\"", "\"sing\"", "unknown variant `sing`"),
        ("[\"Light fabric\", \"fleece\"]", "[]", "[fabric] names: is empty"),
        ("sheet = true", "sheet = true\ncost = 3", "unknown field `cost`"),
    ] {
        let faults = cover_faults(&format!("[fabric]{}", COVER.replace(right, wrong)));
        assert!(faults.contains(said), "{wrong}: {faults}");
    }
    let twice = cover_faults(&format!("[fabric]{COVER}[fleece]{COVER}"));
    assert!(twice.contains("is a name of [fabric] already"), "{twice}");
    assert!(cover_faults(&format!("[Fabric]{COVER}")).contains("id: is not kebab-case"));
}
