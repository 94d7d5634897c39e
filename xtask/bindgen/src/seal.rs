//! Tells the service worker which files make up this version of the app.

use std::path::Path;

use anyhow::{Context, bail};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256};

/// The line of `sw.js` that this replaces; it stands for an app of no files.
const UNSEALED: &str = r#"const SEAL = { version: "unsealed", files: [] };"#;

const WORKER: &str = "sw.js";
const PAGE: &str = "index.html";

/// Where the page says how many bytes its wasm has, so that it can tell how much of it has come.
const BYTES: &str = "data-bytes=\"";
const WASM: &str = "pegline_bg.wasm";

/// Writes into the app's page how large its wasm is, and into its `sw.js` its files, each with its digest,
/// and a version made from them.
pub(crate) fn seal(app: &Path) -> anyhow::Result<()> {
    let page = app.join(PAGE);
    let text = std::fs::read_to_string(&page)?;
    let bytes = std::fs::metadata(app.join(WASM))?.len();
    std::fs::write(page, told(&text, bytes)?)?;
    let worker = app.join(WORKER);
    let script = std::fs::read_to_string(&worker)
        .with_context(|| format!("{} is missing", worker.display()))?;
    if script.matches(UNSEALED).count() != 1 {
        bail!("{WORKER} must hold this line exactly once: {UNSEALED}");
    }
    let sealed = script.replace(UNSEALED, &line(&crate::files(app)?));
    Ok(std::fs::write(worker, sealed)?)
}

/// The page with this number in its place.
fn told(page: &str, bytes: u64) -> anyhow::Result<String> {
    let (before, rest) =
        page.split_once(BYTES).with_context(|| format!("{PAGE} must hold {BYTES}"))?;
    let (_, after) = rest.split_once('"').context("its number has no end")?;
    Ok(format!("{before}{BYTES}{bytes}\"{after}"))
}

fn line(files: &[(String, Vec<u8>)]) -> String {
    let mut version = Sha256::new();
    let mut kept = Vec::new();
    for (address, content) in files.iter().filter(|(address, _)| address != WORKER) {
        let digest = Sha256::digest(content);
        version.update(address);
        version.update([0]);
        version.update(digest);
        // Hosts that hide file names send `index.html` elsewhere, and a page that was sent
        // elsewhere may not answer a navigation; the folder's own address always serves it.
        let address = if address == PAGE { "./" } else { address };
        // W3C Subresource Integrity: the browser itself refuses a file of another version.
        kept.push(serde_json::json!([
            address,
            format!("sha256-{}", BASE64_STANDARD.encode(digest))
        ]));
    }
    let version: String =
        version.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    let files = serde_json::Value::from(kept);
    format!(r#"const SEAL = {{ version: "{version}", files: {files} }};"#)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn app(page: &str) -> Vec<(String, Vec<u8>)> {
        vec![
            ("app.css".into(), b"body {}".to_vec()),
            ("index.html".into(), page.as_bytes().to_vec()),
            ("sw.js".into(), UNSEALED.as_bytes().to_vec()),
        ]
    }

    #[test]
    fn any_change_of_a_file_changes_the_version() {
        assert_eq!(line(&app("one")), line(&app("one")));
        let version = |page| line(&app(page)).split('"').nth(1).map(str::to_owned);
        assert_ne!(version("one"), version("two"));
    }

    #[test]
    fn the_page_is_kept_under_its_folder_and_the_worker_not_at_all() {
        let line = line(&app("one"));
        assert!(line.contains(r#"["./","sha256-"#), "{line}");
        assert!(!line.contains("index.html") && !line.contains("sw.js"), "{line}");
    }

    #[test]
    fn the_page_is_told_how_large_the_wasm_is_once_or_again() -> anyhow::Result<()> {
        let page = r#"<link href="pegline_bg.wasm" data-bytes="0">"#;
        let told_once = told(page, 1_290_609)?;
        assert_eq!(told_once, page.replace('0', "1290609"));
        assert_eq!(told(&told_once, 7)?, page.replace('0', "7"));
        assert!(told("<link>", 7).is_err());
        Ok(())
    }

    /// Source: NIST, FIPS 180-2 examples: SHA-256 of "abc" is ba7816bf…f20015ad; here in base64.
    #[test]
    fn digests_are_those_of_the_standard() {
        let line = line(&[("a.txt".into(), b"abc".to_vec())]);
        assert!(line.contains("sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="), "{line}");
    }
}
