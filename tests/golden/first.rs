//! What the page shows before the app is there: kept in the page itself.

use std::{env, fs, path::Path};

use pegline_web::screen::ask;

use crate::kept::RENEW;

const BEGIN: &str = "<div id=\"app\">";
const END: &str = "</div>\n<svg class=\"sheet\"";

#[test]
fn the_page_begins_as_the_app_would_write_it() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../static/index.html");
    let page = fs::read_to_string(&path).unwrap();
    let (before, rest) = page.split_once(BEGIN).unwrap();
    let (kept, after) = rest.split_once(END).unwrap();
    let first = ask::first().into_string().replace("<li>", "\n<li>").replace("<nav", "\n<nav");
    if env::var_os(RENEW).is_some() {
        fs::write(&path, [before, BEGIN, &first, END, after].concat()).unwrap();
        return;
    }
    assert_eq!(kept, first, "`cargo xtask golden` keeps it anew");
}

#[test]
fn it_says_nothing_of_a_record_and_needs_no_app() {
    let first = ask::first().into_string();
    for word in ["set up", "written", "invented", "data-action", "<button", "<form"] {
        assert!(!first.contains(word), "{word}");
    }
    // Every link leads to a screen that the app knows.
    let links = first.split("<a href=\"").skip(1).filter_map(|link| link.split('"').next());
    let links: Vec<&str> = links.filter(|link| !link.is_empty()).collect();
    assert!(links.len() > 15, "{links:?}");
    for link in links {
        assert_eq!(pegline_web::route::Route::read(link).address(), link);
    }
}
