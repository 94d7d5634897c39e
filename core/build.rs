//! Turns the tables in `data/` into Rust, after checking them.

#[path = "build/check.rs"]
mod check;
#[expect(unreachable_pub, reason = "the crate gives these words to everyone")]
#[path = "src/catalogue/cover_words.rs"]
mod cover_words;
#[path = "build/covers.rs"]
mod covers;
#[path = "build/cue_rows.rs"]
mod cue_rows;
#[path = "build/cues.rs"]
mod cues;
#[path = "build/emit.rs"]
mod emit;
#[path = "src/catalogue/fold.rs"]
mod fold;
#[path = "build/germination.rs"]
mod germination;
#[path = "build/kinds.rs"]
mod kinds;
#[path = "build/reader.rs"]
mod reader;
#[expect(unreachable_pub, reason = "the crate gives these words to everyone")]
#[path = "src/catalogue/residue_words.rs"]
mod residue_words;
#[path = "build/residues.rs"]
mod residues;
#[path = "build/tables.rs"]
mod tables;
#[expect(unreachable_pub, reason = "the crate gives these words to everyone")]
#[path = "src/catalogue/words.rs"]
mod words;

use std::path::Path;
use std::process::ExitCode;
use std::{env, fs};

use serde::de::DeserializeOwned;

fn main() -> ExitCode {
    // Cargo runs a build script in the package's own folder.
    println!("cargo::rerun-if-changed=data");
    for code in [
        "build.rs",
        "build",
        "src/catalogue/cover_words.rs",
        "src/catalogue/fold.rs",
        "src/catalogue/residue_words.rs",
        "src/catalogue/words.rs",
    ] {
        println!("cargo::rerun-if-changed={code}");
    }
    match build() {
        Ok(()) => ExitCode::SUCCESS,
        Err(faults) => {
            for fault in faults {
                eprintln!("{fault}");
            }
            ExitCode::FAILURE
        }
    }
}

fn build() -> Result<(), Vec<String>> {
    let sources: tables::Sources = read("sources.toml")?;
    let classes: tables::Classes = read("classes.toml")?;
    let crops: tables::Crops = read("crops.toml")?;
    let germination: germination::Kinds = read("germination.toml")?;
    let cues: cue_rows::Cues = read("cues.toml")?;
    let mut faults = check::source_faults(&sources);
    faults.extend(check::missing(&crops));
    if !faults.is_empty() {
        return Err(faults);
    }
    let covers = covers::written(&read("covers.toml")?, &sources)?;
    let germination = germination::written(&germination, &crops)?;
    let cues = cues::rust(&cues, &crops, &sources)?;
    let kinds = kinds::written(&read("kinds.toml")?, &crops)?;
    let crops = check::crops(&crops, &classes, &sources)?;
    write("sources.rs", &emit::sources(&sources))?;
    write("classes.rs", &emit::classes(&classes))?;
    write("covers.rs", &covers)?;
    write("germination.rs", &germination)?;
    let residues = residues::tables(
        &read("residues.toml")?,
        &read("heaps.toml")?,
        &read("nitrogen_products.toml")?,
        &sources,
    )?;
    write("crops.rs", &emit::crops(&crops))?;
    write("residues.rs", &residues)?;
    write("kinds.rs", &kinds)?;
    write("cues.rs", &cues)
}

fn read<T: DeserializeOwned>(name: &str) -> Result<T, Vec<String>> {
    let text = fs::read_to_string(Path::new("data").join(name));
    let text = text.map_err(|error| vec![format!("{name}: {error}")])?;
    toml::from_str(&text).map_err(|error| vec![format!("{name}: {error}")])
}

fn write(name: &str, text: &str) -> Result<(), Vec<String>> {
    let folder = env::var_os("OUT_DIR").unwrap_or_default();
    fs::write(Path::new(&folder).join(name), text).map_err(|error| vec![format!("{name}: {error}")])
}
