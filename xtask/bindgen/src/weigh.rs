//! What a phone has to fetch, held against a budget.

use std::path::Path;

use anyhow::{Context, bail};
use toml_edit::{DocumentMut, Item, Table, value};

use crate::pack;

/// The two ways in which hosts pack files, as the budget calls them.
const WAYS: [&str; 2] = ["gzip", "brotli"];

/// Bytes after gzip and after brotli.
type Bytes = [i64; 2];

/// One file's size.
#[derive(Clone, Debug, PartialEq)]
struct Weight {
    address: String,
    bytes: Bytes,
}

/// The most that may have to be fetched.
struct Budget {
    app: Bytes,
    wasm: Bytes,
    /// What the whole app should come to; passing it is only mentioned.
    aim: Bytes,
}

/// Prints a table of the app's files and fails above the budget; `record` keeps the figures.
pub(crate) fn weigh(app: &Path, budget: &Path, record: bool) -> anyhow::Result<()> {
    let text = std::fs::read_to_string(budget)
        .with_context(|| format!("{} is missing", budget.display()))?;
    let mut document: DocumentMut = text.parse()?;
    let weights = crate::files(app)?
        .into_iter()
        .map(|(address, content)| Ok(Weight { address, bytes: packed(&content)? }))
        .collect::<anyhow::Result<Vec<Weight>>>()?;
    print!("{}", table(&weights, document.get("recorded").and_then(Item::as_table)));
    let excess = excess(&weights, &limits(&document)?);
    if record {
        let mut recorded = Table::new();
        for weight in &weights {
            recorded.insert(&weight.address, value(pair(weight.bytes)));
        }
        document.insert("recorded", Item::Table(recorded));
        std::fs::write(budget, document.to_string())?;
    }
    match excess {
        Some(sentence) => bail!(sentence),
        None => Ok(()),
    }
}

fn packed(content: &[u8]) -> anyhow::Result<Bytes> {
    let bytes = |packed: Vec<u8>| i64::try_from(packed.len());
    Ok([bytes(pack::zipped(content)?)?, bytes(pack::brotli(content)?)?])
}

fn pair(bytes: Bytes) -> toml_edit::Array {
    bytes.into_iter().collect()
}

/// Two whole numbers.
fn read_pair(item: &Item) -> Option<Bytes> {
    let array = item.as_array()?;
    Some([array.get(0)?.as_integer()?, array.get(1)?.as_integer()?])
}

fn limits(document: &DocumentMut) -> anyhow::Result<Budget> {
    let bytes = |name: &str| {
        let most = document.get("most").and_then(|most| most.get(name)).and_then(read_pair);
        most.with_context(|| format!("The budget has no two whole numbers `most.{name}`"))
    };
    Ok(Budget { app: bytes("app")?, wasm: bytes("wasm")?, aim: bytes("aim")? })
}

fn sum([gzip, brotli]: Bytes, [more_gzip, more_brotli]: Bytes) -> Bytes {
    [gzip + more_gzip, brotli + more_brotli]
}

fn total<'a>(weights: impl IntoIterator<Item = &'a Weight>) -> Bytes {
    weights.into_iter().map(|weight| weight.bytes).fold([0; 2], sum)
}

fn row(address: &str, bytes: Bytes, before: Option<Bytes>) -> String {
    let before = before.map_or([None; 2], |before| before.map(Some));
    let columns = bytes.into_iter().zip(before).map(|(now, before)| match before {
        Some(before) => format!("{now:>9}{:>+9}", now - before),
        None => format!("{now:>9}      new"),
    });
    format!("{address:<32}{}\n", columns.collect::<String>())
}

fn table(weights: &[Weight], recorded: Option<&Table>) -> String {
    let before = |address: &str| recorded.and_then(|table| read_pair(table.get(address)?));
    let mut text = format!("{:<32}", "bytes");
    for way in WAYS {
        text += &format!("{way:>9}{:>9}", "change");
    }
    text += "\n";
    for weight in weights {
        text += &row(&weight.address, weight.bytes, before(&weight.address));
    }
    for (address, _) in recorded.into_iter().flat_map(Table::iter) {
        if !weights.iter().any(|weight| weight.address == address) {
            text += &row(&format!("{address} (gone)"), [0; 2], before(address));
        }
    }
    let all_before = recorded
        .map(|table| table.iter().filter_map(|(_, item)| read_pair(item)).fold([0; 2], sum));
    text + &row("the whole app", total(weights), all_before)
}

/// One sentence on what weighs too much.
fn excess(weights: &[Weight], budget: &Budget) -> Option<String> {
    let app = total(weights);
    let wasm = total(weights.iter().filter(|weight| weight.address.ends_with(".wasm")));
    for ((way, app), aim) in WAYS.iter().zip(app).zip(budget.aim) {
        if aim < app {
            println!("The whole app is {} bytes over its aim after {way}.", app - aim);
        }
    }
    for (what, bytes, most) in [("The whole app", app, budget.app), ("The wasm", wasm, budget.wasm)]
    {
        for ((way, bytes), most) in WAYS.iter().zip(bytes).zip(most) {
            if most < bytes {
                return Some(format!(
                    "{what} weighs {bytes} bytes after {way}; at most {most} are allowed"
                ));
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weights(wasm: i64, page: i64) -> Vec<Weight> {
        vec![
            Weight { address: "index.html".into(), bytes: [page, page - 10] },
            Weight { address: "pegline_bg.wasm".into(), bytes: [wasm, wasm - 10] },
        ]
    }

    const BUDGET: Budget = Budget { app: [250, 230], wasm: [150, 140], aim: [160, 150] };

    #[test]
    fn exactly_the_budget_passes_and_one_byte_more_fails() {
        assert_eq!(excess(&weights(150, 100), &BUDGET), None);
        assert!(excess(&weights(150, 101), &BUDGET).is_some_and(|text| text.contains("whole app")));
        assert!(excess(&weights(151, 1), &BUDGET).is_some_and(|text| text.contains("wasm")));
        let brotli = Budget { wasm: [150, 139], ..BUDGET };
        assert!(excess(&weights(150, 1), &brotli).is_some_and(|text| text.contains("brotli")));
    }

    #[test]
    fn the_table_tells_change_new_and_gone() -> anyhow::Result<()> {
        let document: DocumentMut =
            "[recorded]\n\"index.html\" = [90, 80]\n\"old.js\" = [7, 6]\n".parse()?;
        let table = table(&weights(150, 100), document["recorded"].as_table());
        let rows: Vec<Vec<&str>> =
            table.lines().map(|line| line.split_whitespace().collect()).collect();
        assert_eq!(rows[1], ["index.html", "100", "+10", "90", "+10"]);
        assert_eq!(rows[2], ["pegline_bg.wasm", "150", "new", "140", "new"]);
        assert_eq!(rows[3], ["old.js", "(gone)", "0", "-7", "0", "-6"]);
        assert_eq!(rows[4], ["the", "whole", "app", "250", "+153", "230", "+144"]);
        Ok(())
    }

    #[test]
    fn recording_keeps_the_budget_and_its_reasons() -> anyhow::Result<()> {
        let folder = tempfile::tempdir()?;
        let app = folder.path().join("app");
        std::fs::create_dir(&app)?;
        std::fs::write(app.join("index.html"), "a".repeat(1000))?;
        let budget = folder.path().join("budget.toml");
        let limits = "[most]\n# Why.\napp = [250, 250]\naim = [160, 160]\nwasm = [150, 150]\n";
        std::fs::write(&budget, limits)?;
        weigh(&app, &budget, true)?;
        let text = std::fs::read_to_string(&budget)?;
        assert!(text.starts_with(limits), "{text}");
        assert!(text.contains("\"index.html\" = "), "{text}");
        Ok(())
    }
}
