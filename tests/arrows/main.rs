//! Arrows run one way: what each file of core and of the page uses, held against one list of floors.
//!
//! `cargo test -p pegline-tests --test arrows -- --nocapture` prints what ties the circles together.
#![cfg(not(target_arch = "wasm32"))]
#![allow(missing_docs, clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod circles;
mod source;

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

use circles::circles;
use source::{Arrow, Crate};

/// Rooms of equal height.
struct Floor {
    name: &'static str,
    /// Files or folders of core's `src`; those in one text are one room, known by the first.
    rooms: &'static [&'static str],
    /// Who may use whom of the same floor.
    among: &'static [(&'static str, &'static str)],
}

/// From the ground up. A file may use its own room, what lies on lower floors, and of its own floor
/// what `among` names. The innermost room that a file lies in is its own.
const FLOORS: &[Floor] = &[
    Floor {
        name: "stone",
        rooms: &["quantity", "time", "chance", "source", "order", "turns", "text"],
        among: &[("time", "quantity"), ("time", "text")],
    },
    Floor { name: "fields", rooms: &["fields given"], among: &[] },
    Floor { name: "words", rooms: &["words vocabulary"], among: &[] },
    Floor { name: "ground", rooms: &["catalogue", "place", "bed"], among: &[] },
    Floor { name: "journal", rooms: &["journal"], among: &[] },
    Floor { name: "garden", rooms: &["garden"], among: &[] },
    Floor { name: "season", rooms: &["season"], among: &[] },
    Floor { name: "layout", rooms: &["layout"], among: &[] },
    Floor { name: "asking", rooms: &["asking", "telling"], among: &[] },
    Floor { name: "plan", rooms: &["plan"], among: &[] },
    Floor { name: "models", rooms: &["harvest", "frost", "starts"], among: &[("starts", "frost")] },
    Floor {
        name: "topics",
        rooms: &[
            "topics/after_frost",
            "topics/bed_quantities",
            "topics/catalogue",
            "topics/day_length",
            "topics/drip_run_time",
            "topics/emergence",
            "topics/frost_tonight",
            "topics/garlic_window",
            "topics/hardening_plan",
            "topics/harvest_before_away",
            "topics/harvest_cues",
            "topics/harvest_readiness",
            "topics/open_greenhouse",
            "topics/plants_per_bed",
            "topics/residue_wait",
            "topics/salt_for_fermenting",
            "topics/soil_temperature",
            "topics/sow_now",
            "topics/spacing_for_count",
            "topics/start_age",
            "topics/what_fits_when",
        ],
        among: &[
            ("topics/after_frost", "topics/frost_tonight"),
            ("topics/catalogue", "topics/harvest_cues"),
            ("topics/emergence", "topics/soil_temperature"),
            ("topics/garlic_window", "topics/bed_quantities"),
            ("topics/garlic_window", "topics/soil_temperature"),
            ("topics/open_greenhouse", "topics/frost_tonight"),
            ("topics/sow_now", "topics/emergence"),
            ("topics/sow_now", "topics/soil_temperature"),
            ("topics/what_fits_when", "topics/residue_wait"),
        ],
    },
    Floor { name: "record", rooms: &["record"], among: &[] },
    Floor { name: "today", rooms: &["today", "say"], among: &[] },
    Floor { name: "door", rooms: &["door ask"], among: &[] },
];

/// The most files that may only be understood together.
const MOST_IN_A_CIRCLE: usize = 3;

/// Where a room stands.
#[derive(Clone, Copy, PartialEq)]
struct Room<'a> {
    floor: usize,
    name: &'a str,
}

/// The innermost room that a file lies in.
fn room<'a>(floors: &'a [Floor], file: &str) -> Option<Room<'a>> {
    let mut innermost: Option<(usize, Room)> = None;
    for (floor, Floor { rooms, .. }) in floors.iter().enumerate() {
        for room in *rooms {
            let name = room.split(' ').next().unwrap();
            for path in room.split(' ') {
                let within =
                    file.strip_prefix(path).is_some_and(|rest| rest.starts_with(['/', '.']));
                if within && innermost.is_none_or(|(length, _)| length < path.len()) {
                    innermost = Some((path.len(), Room { floor, name }));
                }
            }
        }
    }
    innermost.map(|(_, room)| room)
}

/// The arrows that the floors don't allow, with the rooms they begin and end in.
fn upward<'a>(floors: &'a [Floor], of: &'a Crate) -> Vec<(&'a Arrow, Room<'a>, Room<'a>)> {
    let room_of = |file: usize| {
        let file = of.files[file].as_str();
        room(floors, file).unwrap_or_else(|| panic!("{file} stands on no floor of the list"))
    };
    let forbidden = |arrow: &'a Arrow| {
        // The root only names the rooms.
        if of.files[arrow.from] == "lib.rs" {
            return None;
        }
        let (from, to) = (room_of(arrow.from), room_of(arrow.to));
        let allowed = from == to
            || to.floor < from.floor
            || to.floor == from.floor && floors[from.floor].among.contains(&(from.name, to.name));
        (!allowed).then_some((arrow, from, to))
    };
    of.arrows.iter().filter_map(forbidden).collect()
}

/// Circles of more files than may be, each as its files' numbers in order of their names.
fn large_circles(of: &Crate) -> Vec<Vec<usize>> {
    let mut uses = vec![Vec::new(); of.files.len()];
    for arrow in &of.arrows {
        uses[arrow.from].push(arrow.to);
    }
    let mut large = circles(&uses);
    large.retain(|circle| circle.len() > MOST_IN_A_CIRCLE);
    for circle in &mut large {
        circle.sort_by_key(|&file| &of.files[file]);
    }
    large.sort_by_key(|circle| &of.files[circle[0]]);
    large
}

/// Read once for both checks.
static CORE: LazyLock<Crate> = LazyLock::new(|| read("core"));

fn read(name: &str) -> Crate {
    let project = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    source::read(&project.join(name).join("src"))
}

#[test]
fn no_file_uses_what_lies_above_it() {
    let core = &*CORE;
    let told = |(arrow, from, to): (&Arrow, Room<'_>, Room<'_>)| {
        format!(
            "core/src/{}:{}: {} ({}): {} on floor \"{}\" uses {} on floor \"{}\"",
            core.files[arrow.from],
            arrow.line,
            arrow.path,
            core.files[arrow.to],
            from.name,
            FLOORS[from.floor].name,
            to.name,
            FLOORS[to.floor].name,
        )
    };
    let wrong: Vec<String> = upward(FLOORS, core).into_iter().map(told).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_circle_has_more_than_three_files() {
    let mut circles = 0;
    for (name, read) in [("core", &*CORE), ("web", &read("web"))] {
        for circle in large_circles(read) {
            circles += 1;
            println!("A circle of {} files in {name}/src:", circle.len());
            show(read, &circle);
        }
    }
    assert_eq!(circles, 0, "circles of more than {MOST_IN_A_CIRCLE} files, printed above");
}

/// Prints what ties a circle together.
fn show(of: &Crate, circle: &[usize]) {
    for &from in circle {
        let mut ties = BTreeMap::<&str, Vec<(&str, usize)>>::new();
        for arrow in of.arrows.iter().filter(|arrow| arrow.from == from) {
            let by = ties.entry(&of.files[arrow.to]).or_default();
            // The first place is enough.
            if circle.contains(&arrow.to) && !by.iter().any(|(path, _)| *path == arrow.path) {
                by.push((&arrow.path, arrow.line));
            }
        }
        println!("  {}", of.files[from]);
        for (to, by) in ties.into_iter().filter(|(_, by)| !by.is_empty()) {
            let by: Vec<String> = by.iter().map(|(path, line)| format!("{path}:{line}")).collect();
            println!("    -> {to}  by {}", by.join(", "));
        }
    }
}

/// A crate with one arrow of each kind.
fn sample() -> Crate {
    source::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("arrows/sample"))
}

#[test]
fn paths_lead_to_where_an_item_is_written() {
    let sample = sample();
    let mut arrows: Vec<String> = sample
        .arrows
        .iter()
        .map(|Arrow { from, to, line, path }| {
            format!("{}:{line} {path} -> {}", sample.files[*from], sample.files[*to])
        })
        .collect();
    arrows.sort();
    assert_eq!(
        arrows,
        [
            // By the facade's own `use`, and by a module that was brought in, inside a macro.
            "high/inner.rs:1 super::Brick -> low.rs",
            "high/inner.rs:6 other::named -> high/other.rs",
            // What a facade hands on from elsewhere is an arrow; what lies beneath it is none.
            "high/mod.rs:5 super::low::Stone -> low.rs",
            "high/other.rs:1 crate::low -> low.rs",
            // The macro's, and none of the tests'.
            "low.rs:10 crate::high::inner::beam -> high/inner.rs",
            "low.rs:4 crate::high::Roof -> high/inner.rs",
            "low.rs:5 crate::high::Roof -> high/inner.rs",
        ]
    );
}

#[test]
fn what_runs_upward_and_round_is_seen() {
    let floors = &[
        Floor { name: "below", rooms: &["low"], among: &[] },
        Floor { name: "above", rooms: &["high/inner", "high"], among: &[("high/inner", "high")] },
    ];
    let sample = sample();
    let seen: Vec<(&str, usize)> = upward(floors, &sample)
        .iter()
        .map(|(arrow, ..)| (sample.files[arrow.from].as_str(), arrow.line))
        .collect();
    assert_eq!(seen, [("low.rs", 4), ("low.rs", 5), ("low.rs", 10)]);

    let among = &[
        Floor { name: "below", rooms: &["low"], among: &[] },
        Floor { name: "above", rooms: &["high/inner", "high"], among: &[] },
    ];
    let sideways = upward(among, &sample);
    assert!(sideways.iter().any(|(arrow, from, to)| {
        (sample.files[arrow.from].as_str(), from.name, to.name)
            == ("high/inner.rs", "high/inner", "high")
    }));
    assert!(large_circles(&sample).is_empty(), "low, inner and other are three");
}
