//! Packs each file of the app, so that a host of plain files can hand it over small.

use std::io::Write;
use std::path::{Path, PathBuf};

use brotli::enc::BrotliEncoderParams;
use flate2::Compression;
use flate2::write::GzEncoder;

/// What packed files are called, behind the name of the file itself: RFC 1952 and RFC 7932.
const ENDINGS: [&str; 2] = ["gz", "br"];

/// Kinds of files that are packed already.
const DENSE: [&str; 1] = ["png"];

/// Whether a file is another one, packed.
pub(crate) fn is_packed(file: &Path) -> bool {
    ends_with(file, &ENDINGS)
}

fn ends_with(file: &Path, endings: &[&str]) -> bool {
    file.extension().is_some_and(|ending| endings.iter().any(|known| ending == *known))
}

/// Writes beside each file of the app what hosts may send in its place.
pub(crate) fn pack(app: &Path) -> anyhow::Result<()> {
    for (address, content) in crate::files(app)? {
        if ends_with(Path::new(&address), &DENSE) {
            continue;
        }
        for (ending, packed) in ENDINGS.iter().zip([zipped(&content)?, brotli(&content)?]) {
            std::fs::write(beside(&app.join(&address), ending), packed)?;
        }
    }
    Ok(())
}

fn beside(file: &Path, ending: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(".");
    name.push(ending);
    PathBuf::from(name)
}

pub(crate) fn zipped(content: &[u8]) -> anyhow::Result<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(content)?;
    Ok(encoder.finish()?)
}

pub(crate) fn brotli(content: &[u8]) -> anyhow::Result<Vec<u8>> {
    // The most that browsers take (RFC 7932, section 9.1: a window of 16 MB).
    let most = BrotliEncoderParams { quality: 11, lgwin: 24, ..BrotliEncoderParams::default() };
    let mut packed = Vec::new();
    brotli::BrotliCompress(&mut &*content, &mut packed, &most)?;
    Ok(packed)
}

#[cfg(test)]
mod tests {
    use std::io::Read;

    use super::*;

    #[test]
    fn both_come_out_again_as_they_went_in_and_are_no_files_of_the_app() -> anyhow::Result<()> {
        let folder = tempfile::tempdir()?;
        let text = "cabbages ".repeat(500);
        std::fs::write(folder.path().join("a.js"), &text)?;
        std::fs::write(folder.path().join("b.png"), "dense")?;
        pack(folder.path())?;
        let packed = std::fs::read(folder.path().join("a.js.gz"))?;
        let mut out = String::new();
        flate2::read::GzDecoder::new(&packed[..]).read_to_string(&mut out)?;
        assert_eq!(out, text);
        let packed = std::fs::read(folder.path().join("a.js.br"))?;
        let mut out = Vec::new();
        brotli::BrotliDecompress(&mut &packed[..], &mut out)?;
        assert_eq!(out, text.as_bytes());
        assert!(packed.len() < text.len() / 20);
        let files = crate::files(folder.path())?;
        let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["a.js", "b.png"]);
        assert!(!folder.path().join("b.png.gz").exists());
        Ok(())
    }
}
