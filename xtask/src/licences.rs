//! What the app is made of, and the licences of it, as one text that goes with the app.

use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::command::{self, Outcome};
use crate::setup;

/// The file in `dist/`.
pub(crate) const FILE: &str = "licences.txt";

/// One crate in the wasm.
#[derive(Debug, PartialEq)]
struct Crate {
    name: String,
    version: String,
    /// The licence or licences it is offered under, as SPDX has them.
    licence: String,
    authors: String,
    /// Texts of the licence that is made use of.
    texts: Vec<String>,
}

/// Writes the file into an app's folder.
pub(crate) fn write(app: &Path) -> Outcome {
    let crates = crates(&metadata()?)?;
    let idiomorph = fs::read_to_string(app.join("vendor").join("idiomorph-LICENSE.txt"))
        .map_err(|error| format!("The licence of idiomorph can't be read: {error}"))?;
    fs::write(app.join(FILE), text(&crates, &idiomorph))
        .map_err(|error| format!("{FILE} can't be written: {error}"))
}

fn metadata() -> Outcome<Value> {
    let unread = |error: &dyn std::fmt::Display| format!("The crates can't be listed: {error}");
    let output = command::cargo()
        .args(["metadata", "--format-version", "1", "--locked", "--filter-platform", setup::WASM])
        .output()
        .map_err(|error| unread(&error))?;
    if !output.status.success() {
        return Err(unread(&String::from_utf8_lossy(&output.stderr)));
    }
    serde_json::from_slice(&output.stdout).map_err(|error| unread(&error))
}

/// The crates of the wasm, each as its name and its version: with no macros, which are not in it.
fn tree() -> Outcome<Vec<[String; 2]>> {
    let output = command::cargo()
        .args(["tree", "--package", "pegline-web", "--locked", "--target", setup::WASM])
        .args(["--edges", "normal,no-proc-macro", "--prefix", "none", "--no-dedupe"])
        .args(["--format", "{p}"])
        .output()
        .map_err(|error| format!("The app's crates can't be listed: {error}"))?;
    let tree = String::from_utf8_lossy(&output.stdout).into_owned();
    let pairs = tree.lines().filter_map(|line| {
        let mut words = line.split(' ');
        Some([words.next()?.to_owned(), words.next()?.strip_prefix('v')?.to_owned()])
    });
    let mut crates: Vec<[String; 2]> = pairs.collect();
    crates.sort();
    crates.dedup();
    if output.status.success() && !crates.is_empty() {
        Ok(crates)
    } else {
        Err(String::from_utf8_lossy(&output.stderr).into_owned())
    }
}

fn list<'a>(value: &'a Value, name: &str) -> impl Iterator<Item = &'a Value> {
    value.get(name).and_then(Value::as_array).into_iter().flatten()
}

fn word<'a>(value: &'a Value, name: &str) -> &'a str {
    value.get(name).and_then(Value::as_str).unwrap_or_default()
}

/// The crates of others whose code is in the wasm, in order of their names.
fn crates(metadata: &Value) -> Outcome<Vec<Crate>> {
    let mut crates = Vec::new();
    for [name, version] in tree()? {
        let is_it =
            |package: &&Value| word(package, "name") == name && word(package, "version") == version;
        let package = list(metadata, "packages").find(is_it);
        let package = package.ok_or_else(|| format!("{name} {version} is not to be found"))?;
        // Our own have no source.
        if package.get("source").is_some_and(Value::is_string) {
            crates.push(read(package)?);
        }
    }
    Ok(crates)
}

fn read(package: &Value) -> Outcome<Crate> {
    let name = word(package, "name").to_owned();
    let folder = Path::new(word(package, "manifest_path")).parent();
    let folder = folder.ok_or_else(|| format!("{name} has no folder"))?;
    let files = fs::read_dir(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut found = Vec::new();
    for file in files.flatten() {
        let file_name = file.file_name().to_string_lossy().to_uppercase();
        let begins = ["LICENSE", "LICENCE", "COPYING", "NOTICE", "UNLICENSE"];
        if begins.iter().any(|begin| file_name.starts_with(begin))
            && let Ok(text) = fs::read_to_string(file.path())
        {
            found.push((file_name, text.trim().replace("\r\n", "\n")));
        }
    }
    found.sort();
    let authors: Vec<&str> = list(package, "authors").filter_map(Value::as_str).collect();
    let licence = word(package, "license").to_owned();
    if licence.is_empty() && found.is_empty() {
        return Err(format!("{name} tells no licence"));
    }
    Ok(Crate {
        version: word(package, "version").to_owned(),
        authors: authors.join(", "),
        texts: used(&licence, found),
        name,
        licence,
    })
}

/// Of a crate that may be had under MIT among others, that licence alone.
fn used(licence: &str, found: Vec<(String, String)>) -> Vec<String> {
    let offers_mit = licence.replace(" OR ", "/").split('/').any(|one| one.trim() == "MIT");
    let has_mit = found.iter().any(|(name, _)| name.contains("MIT"));
    let texts = found.into_iter();
    texts
        .filter(|(name, _)| !(offers_mit && has_mit) || name.contains("MIT") || name == "NOTICE")
        .map(|(_, text)| text)
        .collect()
}

fn text(crates: &[Crate], idiomorph: &str) -> String {
    let mut text = String::from(
        "Pegline is under MIT or Apache-2.0, as you prefer. It is made of these works of others; where one is \
         offered under MIT among others, it is used under MIT. Rust's own library is under MIT or Apache-2.0, \
         copyright The Rust Project Contributors.\n",
    );
    for of in crates {
        text += &format!("\n{} {}: {}", of.name, of.version, of.licence);
        if of.texts.is_empty() && !of.authors.is_empty() {
            text += &format!(", by {}", of.authors);
        }
    }
    text += "\nidiomorph: 0BSD\n";
    let mut said: Vec<&str> = Vec::new();
    for licence in crates.iter().flat_map(|of| &of.texts).map(String::as_str) {
        if said.contains(&licence) {
            continue;
        }
        said.push(licence);
        let of = crates.iter().filter(|of| of.texts.iter().any(|text| text == licence));
        let of: Vec<&str> = of.map(|of| of.name.as_str()).collect();
        text += &format!("\n---- {} ----\n\n{licence}\n", of.join(", "));
    }
    text + &format!("\n---- idiomorph ----\n\n{}\n", idiomorph.trim())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_crate_of_the_wasm_is_named_with_its_licence_and_no_tool_is() {
        let crates = crates(&metadata().unwrap()).unwrap();
        let names: Vec<&str> = crates.iter().map(|of| of.name.as_str()).collect();
        for name in ["chrono", "maud", "serde_json", "wasm-bindgen", "web-sys", "gloo-storage"] {
            assert!(names.contains(&name), "{name} is missing: {names:?}");
        }
        for name in ["serde_derive", "schemars", "proptest", "clap", "thirtyfour", "pegline-core"] {
            assert!(!names.contains(&name), "{name} is in no wasm");
        }
        let text = text(&crates, "of idiomorph");
        for of in &crates {
            assert!(!of.licence.is_empty(), "{}", of.name);
            assert!(text.contains(&format!("{} {}: {}", of.name, of.version, of.licence)));
        }
        assert!(text.contains("Permission is hereby granted"), "{text}");
        assert_eq!(text.matches("of idiomorph").count(), 1);
    }

    #[test]
    fn the_text_of_the_licence_that_is_used_is_told_once() {
        let texts = [("LICENSE-APACHE", "apache"), ("LICENSE-MIT", "mit"), ("NOTICE", "by whom")];
        let texts = || texts.map(|(name, text)| (name.to_owned(), text.to_owned())).to_vec();
        assert_eq!(used("MIT OR Apache-2.0", texts()), ["mit", "by whom"]);
        assert_eq!(used("MIT/Apache-2.0", texts()), ["mit", "by whom"]);
        assert_eq!(used("Apache-2.0", texts()), ["apache", "mit", "by whom"]);
        assert_eq!(used("MIT", vec![("LICENSE".into(), "its own".into())]), ["its own"]);
        let of = |name: &str| Crate {
            name: name.into(),
            version: "1.0.0".into(),
            licence: "MIT".into(),
            authors: String::new(),
            texts: vec!["the same".into()],
        };
        let told = text(&[of("one"), of("two")], "");
        assert!(told.contains("---- one, two ----"), "{told}");
        assert_eq!(told.matches("the same").count(), 1);
    }
}
