//! A folder of texts that must come out again as they are kept.

use std::{collections::BTreeMap, env, fmt::Write, fs, path::Path};

use similar::TextDiff;

/// Set by `cargo xtask golden`: what comes out now is kept in place of what was.
const RENEW: &str = "PEGLINE_RENEW_GOLDEN";

/// So many lines of all differences are shown.
const SHOWN: usize = 40;

/// Texts by the names of their files.
pub(crate) type Texts = BTreeMap<String, String>;

/// Holds the texts against the files of a folder beside this one. A file that is missing, differs or
/// is no longer written is a failure, unless they are to be kept anew.
pub(crate) fn hold(folder: &str, texts: &Texts) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("golden").join(folder);
    if env::var_os(RENEW).is_some() {
        return keep(&path, texts);
    }
    let wrong = differences(&files(&path), texts);
    assert!(
        wrong.is_empty(),
        "What comes out differs from tests/golden/{folder}:\n{}\n\
         Where that is meant, `cargo xtask golden` keeps it anew; say why in the commit, file by file.",
        shortened(&wrong),
    );
}

fn files(path: &Path) -> Texts {
    let Ok(folder) = fs::read_dir(path) else { return Texts::new() };
    let files = folder.map(|file| file.unwrap());
    let named = |file: fs::DirEntry| file.file_name().into_string().unwrap();
    files
        .map(|file| (fs::read_to_string(file.path()).unwrap(), named(file)))
        .map(|(text, name)| (name, text))
        .collect()
}

fn keep(path: &Path, texts: &Texts) {
    fs::create_dir_all(path).unwrap();
    let before = files(path);
    for name in before.keys().filter(|name| !texts.contains_key(*name)) {
        fs::remove_file(path.join(name)).unwrap();
    }
    for (name, text) in texts.iter().filter(|(name, text)| before.get(*name) != Some(text)) {
        fs::write(path.join(name), text).unwrap();
    }
}

/// Which files are missing, differ or are left over: first their names, then the lines that differ.
fn differences(kept: &Texts, texts: &Texts) -> String {
    let (mut names, mut lines) = (String::new(), String::new());
    for (name, text) in texts {
        match kept.get(name) {
            None => writeln!(names, "missing: {name}").unwrap(),
            Some(before) if before != text => {
                writeln!(names, "differs: {name}").unwrap();
                let diff = TextDiff::from_lines(before, text);
                let mut diff = diff.unified_diff();
                write!(lines, "{}", diff.context_radius(2).header(name, "now")).unwrap();
            }
            Some(_) => {}
        }
    }
    for name in kept.keys().filter(|name| !texts.contains_key(*name)) {
        writeln!(names, "no longer written: {name}").unwrap();
    }
    names + &lines
}

fn shortened(wrong: &str) -> String {
    let lines: Vec<&str> = wrong.lines().collect();
    let mut shown = lines.iter().take(SHOWN).fold(String::new(), |text, line| text + line + "\n");
    if lines.len() > SHOWN {
        writeln!(shown, "and {} lines more", lines.len() - SHOWN).unwrap();
    }
    shown
}

#[test]
fn a_file_missing_different_or_left_over_is_told() {
    let texts = |texts: &[(&str, &str)]| {
        texts.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect::<Texts>()
    };
    let kept = texts(&[("a", "same\n"), ("b", "one\ntwo\n"), ("old", "")]);
    assert_eq!(differences(&kept, &kept), "");
    let told = differences(&kept, &texts(&[("a", "same\n"), ("b", "one\n2\n"), ("new", "")]));
    for line in ["differs: b", "missing: new", "no longer written: old", "-two", "+2"] {
        assert!(told.lines().any(|told| told == line), "{line} is not told:\n{told}");
    }
    assert!(!told.contains("same"));
}
