//! Accessibility by the rules of axe-core (see `axe/`), on the page as it stands.

use serde_json::{Value, json};

use crate::phone::Phone;
use crate::screen::Scheme;

const AXE: &str = include_str!("axe/axe.min.js");

/// Fails with every rule that the page breaks, and where.
pub(crate) async fn axe(phone: &Phone) {
    let findings = findings(phone).await;
    assert!(findings.is_empty(), "axe found:\n{}", findings.join("\n"));
}

/// Each broken rule with the places that break it.
pub(crate) async fn findings(phone: &Phone) -> Vec<String> {
    let script = format!(
        "{AXE};
        const done = arguments[arguments.length - 1];
        axe.run(document, arguments[0]).then(
            (results) => done(results.violations),
            (error) => done([{{ id: 'axe', help: String(error), nodes: [] }}]),
        );"
    );
    // In forced colours the owner's replace the app's, which is all that axe could judge.
    let own_colours = phone.scheme() != Scheme::Forced;
    let options = json!({
        "resultTypes": ["violations"],
        "rules": {
            "color-contrast": { "enabled": own_colours },
            // Off by default, but text is read in sun glare (WCAG 2.2, SC 1.4.6).
            "color-contrast-enhanced": { "enabled": own_colours },
            // Off by default, but the app is touched with gloves on (WCAG 2.2, SC 2.5.8).
            "target-size": { "enabled": true },
        },
    });
    let violations = phone.slow_script(script, &[options]).await;
    violations
        .as_array()
        .unwrap_or_else(|| panic!("axe did not run: {violations}"))
        .iter()
        .map(|violation| {
            let places: Vec<String> = violation["nodes"]
                .as_array()
                .into_iter()
                .flatten()
                .map(|node| format!("    {}: {}", node["html"], text(&node["failureSummary"])))
                .collect();
            format!(
                "{}: {}\n{}",
                text(&violation["id"]),
                text(&violation["help"]),
                places.join("\n")
            )
        })
        .collect()
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}
