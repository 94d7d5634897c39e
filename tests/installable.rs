//! What phones ask of an app before they offer to keep it on the home screen.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../pwa-manifest")
}

fn manifest() -> Value {
    let text = fs::read_to_string(folder().join("manifest.webmanifest")).unwrap();
    serde_json::from_str(&text).unwrap()
}

struct Picture {
    width: u32,
    height: u32,
    /// Red, green, blue, opacity.
    pixels: Vec<[u8; 4]>,
}

fn picture(name: &str) -> Picture {
    let file = std::io::BufReader::new(fs::File::open(folder().join(name)).unwrap());
    let mut decoder = png::Decoder::new(file);
    decoder.set_transformations(png::Transformations::EXPAND | png::Transformations::ALPHA);
    let mut reader = decoder.read_info().unwrap();
    let mut bytes = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut bytes).unwrap();
    assert_eq!(info.color_type, png::ColorType::Rgba, "{name}");
    let pixels = bytes.chunks_exact(4).map(|pixel| pixel.try_into().unwrap()).collect();
    Picture { width: info.width, height: info.height, pixels }
}

const PAPER: [u8; 4] = [0xfb, 0xf9, 0xf2, 0xff];

/// Source of the members: W3C, Web Application Manifest. What must be there before Chromium offers
/// to install: name, start_url, display, and icons of 192 and 512 px ("What does it take to be
/// installable?", web.dev).
#[test]
fn the_manifest_has_what_installing_needs() {
    let manifest = manifest();
    for (member, expected) in [
        ("short_name", "Pegline"),
        ("start_url", "./"),
        ("scope", "./"),
        ("display", "standalone"),
        ("lang", "en"),
        ("background_color", "#fbf9f2"),
        ("theme_color", "#fbf9f2"),
    ] {
        assert_eq!(manifest[member], expected, "{member}");
    }
    for member in ["id", "name", "description"] {
        assert!(manifest[member].as_str().is_some_and(|text| !text.is_empty()), "{member}");
    }
    assert_ne!(manifest["prefer_related_applications"], true);
    let sizes: Vec<&str> = manifest["icons"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|icon| icon["sizes"].as_str())
        .collect();
    assert!(sizes.contains(&"192x192") && sizes.contains(&"512x512"), "{sizes:?}");
}

#[test]
fn every_icon_is_there_in_the_size_it_claims() {
    for icon in manifest()["icons"].as_array().unwrap() {
        let name = icon["src"].as_str().unwrap();
        if icon["type"] == "image/svg+xml" {
            assert_eq!(icon["sizes"], "any", "{name}");
            assert!(
                fs::read_to_string(folder().join(name)).unwrap().starts_with("<svg "),
                "{name}"
            );
            continue;
        }
        assert_eq!(icon["type"], "image/png", "{name}");
        let Picture { width, height, .. } = picture(name);
        assert_eq!(icon["sizes"], format!("{width}x{height}"), "{name}");
    }
}

/// Source: W3C, Web Application Manifest, "Icon masks and safe zone": whatever lies within a
/// centred circle whose radius is two fifths of the icon's size is never cut away.
#[test]
fn a_mask_never_cuts_into_the_mark() {
    let manifest = manifest();
    let masked: Vec<&Value> = manifest["icons"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|icon| icon["purpose"] == "maskable")
        .collect();
    assert!(!masked.is_empty());
    for icon in masked {
        let name = icon["src"].as_str().unwrap();
        let Picture { width, height, pixels } = picture(name);
        let (middle, safe) = (f64::from(width) / 2.0, f64::from(width.min(height)) * 0.4);
        let mut marked = 0;
        for (index, pixel) in (0_u32..).zip(&pixels) {
            let x = f64::from(index % width) + 0.5 - middle;
            let y = f64::from(index / width) + 0.5 - f64::from(height) / 2.0;
            assert_eq!(pixel[3], 0xff, "{name} is see-through");
            if *pixel == PAPER {
                continue;
            }
            marked += 1;
            assert!(x.hypot(y) <= safe, "{name} has ink {:.0} px from its middle", x.hypot(y));
        }
        assert!(marked * 10 > pixels.len(), "{name}: the mark is too small to be seen");
    }
}

/// Phones that ignore the manifest's icons take this one and round its corners themselves;
/// see-through corners would turn black. Size: common practice.
#[test]
fn the_touch_icon_is_opaque() {
    let Picture { width, height, pixels } = picture("icon-180.png");
    assert_eq!((width, height), (180, 180));
    assert!(pixels.iter().all(|pixel| pixel[3] == 0xff));
    assert_eq!(pixels[0], PAPER);
}

#[test]
fn every_file_that_the_page_names_is_there() {
    let shell = Path::new(env!("CARGO_MANIFEST_DIR")).join("../static");
    let page = fs::read_to_string(shell.join("index.html")).unwrap();
    let named: Vec<&str> = ["href=\"", "src=\""]
        .iter()
        .flat_map(|attribute| page.split(attribute).skip(1))
        .filter_map(|rest| rest.split('"').next())
        // What the build makes, and places within the app.
        .filter(|address| !["./", "pegline.js", "pegline_bg.wasm"].contains(address))
        .filter(|address| !address.starts_with('#'))
        .collect();
    assert!(named.contains(&"manifest.webmanifest"), "{named:?}");
    for address in named {
        assert!(
            shell.join(address).is_file() || folder().join(address).is_file(),
            "{address} is in neither static/ nor pwa-manifest/"
        );
    }
}
