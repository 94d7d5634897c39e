//! A folder of texts that must come out again as they are kept.

use std::{collections::BTreeMap, env, fmt::Write, fs, path::Path};

use similar::TextDiff;

/// Set by `cargo xtask golden`: what comes out now is kept in place of what was.
pub(crate) const RENEW: &str = "PEGLINE_RENEW_GOLDEN";

/// So many names of files are told, and so many lines that differ.
const NAMES: usize = 12;
const LINES: usize = 40;

/// Texts by the names of their files.
pub(crate) type Texts = BTreeMap<String, String>;

/// Holds the texts against the files of a folder beside this one. A file that is missing, differs or
/// is no longer written is a failure, unless they are to be kept anew.
pub(crate) fn hold(folder: &str, texts: &Texts) {
    let path = beside().join(folder);
    if env::var_os(RENEW).is_some() {
        return keep(&path, texts);
    }
    let wrong = differences(&files(&path), texts);
    assert!(
        wrong.is_empty(),
        "What comes out differs from tests/golden/{folder}:\n{wrong}\n\
         Where that is meant, `cargo xtask golden` keeps it anew; say why in the commit, file by file.",
    );
}

fn beside() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/golden"))
}

/// None, if the folder is not there.
fn files(folder: &Path) -> Texts {
    let mut files = Texts::new();
    for file in fs::read_dir(folder).into_iter().flatten() {
        let file = file.unwrap();
        let text = fs::read_to_string(file.path()).unwrap();
        files.insert(file.file_name().into_string().unwrap(), text);
    }
    files
}

fn keep(folder: &Path, texts: &Texts) {
    fs::create_dir_all(folder).unwrap();
    let before = files(folder);
    for name in before.keys().filter(|name| !texts.contains_key(*name)) {
        fs::remove_file(folder.join(name)).unwrap();
    }
    for (name, text) in texts.iter().filter(|(name, text)| before.get(*name) != Some(text)) {
        fs::write(folder.join(name), text).unwrap();
    }
}

/// Which files are missing, left over or differ, and the first lines that do; empty if all is as kept.
fn differences(kept: &Texts, texts: &Texts) -> String {
    let missing = texts.keys().filter(|name| !kept.contains_key(*name));
    let left_over = kept.keys().filter(|name| !texts.contains_key(*name));
    let differ: Vec<&String> = texts
        .keys()
        .filter(|name| kept.get(*name).is_some_and(|kept| *kept != texts[*name]))
        .collect();
    let mut told = named("missing", missing.collect())
        + &named("no longer written", left_over.collect())
        + &named("different", differ.clone());
    let mut left = LINES;
    for name in differ {
        let diff = TextDiff::from_lines(&kept[name], &texts[name]);
        let diff = diff.unified_diff().context_radius(2).header(name, "now").to_string();
        for line in diff.lines().take(left) {
            writeln!(told, "{line}").unwrap();
            left -= 1;
        }
    }
    told
}

fn named(what: &str, names: Vec<&String>) -> String {
    let mut told = String::new();
    if !names.is_empty() {
        writeln!(told, "{} {what}:", names.len()).unwrap();
    }
    for name in names.iter().take(NAMES) {
        writeln!(told, "  {name}").unwrap();
    }
    if names.len() > NAMES {
        writeln!(told, "  and {} more", names.len() - NAMES).unwrap();
    }
    told
}

#[test]
fn a_file_missing_different_or_left_over_is_told() {
    let texts = |texts: &[(&str, &str)]| -> Texts {
        texts.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
    };
    let kept = texts(&[("a", "same\n"), ("b", "one\ntwo\n"), ("old", "")]);
    assert_eq!(differences(&kept, &kept), "");
    let now = texts(&[("a", "same\n"), ("b", "one\n2\n"), ("new", "")]);
    let told = differences(&kept, &now);
    let shown = "1 missing:\n  new\n1 no longer written:\n  old\n1 different:\n  b\n\
                 --- b\n+++ now\n@@ -1,2 +1,2 @@\n one\n-two\n+2\n";
    assert_eq!(told, shown);
}

#[test]
fn no_folder_is_left_over() {
    let entries = fs::read_dir(beside()).unwrap().map(|entry| entry.unwrap());
    let folders = entries.filter(|entry| entry.path().is_dir());
    let mut names: Vec<_> = folders.map(|entry| entry.file_name()).collect();
    names.sort_unstable();
    assert_eq!(names, ["door", "metric", "us"]);
}
