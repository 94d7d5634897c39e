//! What a phone has to fetch, held against a budget.

use std::io::Write;
use std::path::Path;

use anyhow::{Context, bail};
use flate2::Compression;
use flate2::write::GzEncoder;
use toml_edit::{DocumentMut, Item, Table, value};

/// One file's size after gzip, in bytes.
#[derive(Clone, Debug, PartialEq)]
struct Weight {
    address: String,
    bytes: i64,
}

/// The most that may have to be fetched, in bytes after gzip.
struct Budget {
    app: i64,
    wasm: i64,
    /// What the whole app should come to; passing it is only mentioned.
    wished: i64,
}

/// Prints a table of the app's files and fails above the budget; `record` keeps the figures.
pub(crate) fn weigh(app: &Path, budget: &Path, record: bool) -> anyhow::Result<()> {
    let text = std::fs::read_to_string(budget)
        .with_context(|| format!("{} is missing", budget.display()))?;
    let mut document: DocumentMut = text.parse()?;
    let weights = crate::files(app)?
        .iter()
        .map(|(address, content)| Ok(Weight { address: address.clone(), bytes: zipped(content)? }))
        .collect::<anyhow::Result<Vec<Weight>>>()?;
    print!("{}", table(&weights, document.get("recorded").and_then(Item::as_table)));
    let excess = excess(&weights, &limits(&document)?);
    if record {
        let mut recorded = Table::new();
        for weight in &weights {
            recorded.insert(&weight.address, value(weight.bytes));
        }
        document.insert("recorded", Item::Table(recorded));
        std::fs::write(budget, document.to_string())?;
    }
    match excess {
        Some(sentence) => bail!(sentence),
        None => Ok(()),
    }
}

fn zipped(content: &[u8]) -> anyhow::Result<i64> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(content)?;
    Ok(i64::try_from(encoder.finish()?.len())?)
}

fn limits(document: &DocumentMut) -> anyhow::Result<Budget> {
    let bytes = |name: &str| {
        document
            .get("most")
            .and_then(|most| most.get(name))
            .and_then(Item::as_integer)
            .with_context(|| format!("The budget has no whole number `most.{name}`"))
    };
    Ok(Budget { app: bytes("app")?, wasm: bytes("wasm")?, wished: bytes("app_wished")? })
}

fn total<'a>(weights: impl IntoIterator<Item = &'a Weight>) -> i64 {
    weights.into_iter().map(|weight| weight.bytes).sum()
}

fn table(weights: &[Weight], recorded: Option<&Table>) -> String {
    let before = |address: &str| recorded.and_then(|table| table.get(address)?.as_integer());
    let row = |address: &str, bytes: i64, before: Option<i64>| match before {
        Some(before) => format!("{address:<32}{bytes:>9}{:>+9}\n", bytes - before),
        None => format!("{address:<32}{bytes:>9}      new\n"),
    };
    let mut text = format!("{:<32}{:>9}{:>9}\n", "bytes after gzip", "now", "change");
    for weight in weights {
        text += &row(&weight.address, weight.bytes, before(&weight.address));
    }
    for (address, _) in recorded.into_iter().flat_map(Table::iter) {
        if !weights.iter().any(|weight| weight.address == address) {
            text += &format!("{address:<32}{:>9}{:>+9}\n", "gone", -before(address).unwrap_or(0));
        }
    }
    let all_before =
        recorded.map(|table| table.iter().filter_map(|(_, bytes)| bytes.as_integer()).sum());
    text + &row("the whole app", total(weights), all_before)
}

/// One sentence on what weighs too much.
fn excess(weights: &[Weight], budget: &Budget) -> Option<String> {
    let app = total(weights);
    let wasm = total(weights.iter().filter(|weight| weight.address.ends_with(".wasm")));
    if budget.wished < app && app <= budget.app {
        println!("The whole app is {} bytes over what is wished.", app - budget.wished);
    }
    [("The whole app", app, budget.app), ("The wasm", wasm, budget.wasm)]
        .iter()
        .find(|(_, bytes, most)| most < bytes)
        .map(|(what, bytes, most)| {
            format!("{what} weighs {bytes} bytes after gzip; at most {most} are allowed")
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weights(wasm: i64, page: i64) -> Vec<Weight> {
        vec![
            Weight { address: "index.html".into(), bytes: page },
            Weight { address: "pegline_bg.wasm".into(), bytes: wasm },
        ]
    }

    const BUDGET: Budget = Budget { app: 250, wasm: 150, wished: 160 };

    #[test]
    fn exactly_the_budget_passes_and_one_byte_more_fails() {
        assert_eq!(excess(&weights(150, 100), &BUDGET), None);
        assert!(excess(&weights(150, 101), &BUDGET).is_some_and(|text| text.contains("whole app")));
        assert!(excess(&weights(151, 1), &BUDGET).is_some_and(|text| text.contains("wasm")));
    }

    #[test]
    fn the_table_tells_change_new_and_gone() -> anyhow::Result<()> {
        let document: DocumentMut = "[recorded]\n\"index.html\" = 90\n\"old.js\" = 7\n".parse()?;
        let table = table(&weights(150, 100), document["recorded"].as_table());
        let rows: Vec<Vec<&str>> =
            table.lines().map(|line| line.split_whitespace().collect()).collect();
        assert_eq!(rows[1], ["index.html", "100", "+10"]);
        assert_eq!(rows[2], ["pegline_bg.wasm", "150", "new"]);
        assert_eq!(rows[3], ["old.js", "gone", "-7"]);
        assert_eq!(rows[4], ["the", "whole", "app", "250", "+153"]);
        Ok(())
    }

    #[test]
    fn recording_keeps_the_budget_and_its_reasons() -> anyhow::Result<()> {
        let folder = tempfile::tempdir()?;
        let app = folder.path().join("app");
        std::fs::create_dir(&app)?;
        std::fs::write(app.join("index.html"), "a".repeat(1000))?;
        let budget = folder.path().join("budget.toml");
        let limits = "[most]\n# Why.\napp = 250\napp_wished = 160\nwasm = 150\n";
        std::fs::write(&budget, limits)?;
        weigh(&app, &budget, true)?;
        let text = std::fs::read_to_string(&budget)?;
        assert!(text.starts_with(limits), "{text}");
        assert!(text.contains("\"index.html\" = "), "{text}");
        Ok(())
    }
}
