//! No id stands twice on a page, in any state of it that the invented garden shows.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod walk;

use pegline_web::screen::ask::QUESTIONS;
use serde_json::json;
use walk::Walk;

fn twice(page: &str) -> Vec<String> {
    let ids = page.split(" id=\"").skip(1).map(|from| from.split('"').next().unwrap());
    let mut ids: Vec<&str> = ids.collect();
    ids.sort_unstable();
    let pairs = ids.windows(2).filter(|pair| pair[0] == pair[1]);
    pairs.map(|pair| pair[0].to_owned()).collect()
}

#[test]
fn no_id_stands_twice_on_any_page() {
    let mut walk = Walk::at("2026-11-30T08:00:00");
    walk.event("click", "demo", &json!({}));
    let mut pages = vec!["#/".to_owned()];
    pages.extend(
        ["beds", "starts", "book", "settings", "thermometers", "beds/new", "starts/new"]
            .map(|at| format!("#/{at}")),
    );
    pages.extend(walk.app.beds().iter().map(|bed| format!("#/bed/{}", bed.id)));
    pages.extend(walk.app.garden().starts.iter().map(|start| format!("#/start/{}", start.id)));
    for question in QUESTIONS {
        pages.push(format!("#/ask/{}", question.topic));
        pages.push(format!("#/ask/{}/quince-bed", question.topic));
    }
    let mut answered = 0;
    for page in pages {
        walk.go(&page);
        assert_eq!(twice(&walk.page), Vec::<String>::new(), "on {page}");
        if walk.app.answer().is_some() {
            answered += 1;
            walk.event("click", "change-question", &json!({}));
            assert_eq!(twice(&walk.page), Vec::<String>::new(), "on {page}, while it is asked");
        }
    }
    assert!(answered > 5, "{answered} pages have an answer");
    walk.go("#/ask/plants-per-bed/quince-bed");
    walk.event("submit", "answer", &json!({"bed": "quince-bed", "plants": [{"crop": "kale"}]}));
    walk.lacks("Please fix");
    walk.sees("id=\"f-when\"");
    assert_eq!(twice(&walk.page), Vec::<String>::new());
}
