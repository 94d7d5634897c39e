//! How soon the page answers on a slow phone. A measurement, so it runs only when asked for.

use pegline_bench::{FIXED, beds};
use serde_json::{Value, json};

use crate::engine::Engine;
use crate::phone::{Phone, open_door, walk};
use crate::screen::SMALL;

/// How many times slower than this machine a phone of the middle class is taken to be.
const SLOWER: u32 = 4;
/// One crop: within one frame of sixty a second. Milliseconds.
const A_FRAME: f64 = 16.0;
/// Several crops: what still feels like an answer at once, for nine beds of ten. Milliseconds.
const AT_ONCE: f64 = 150.0;

#[test]
#[ignore = "a measurement: `cargo xtask bench browser`"]
fn answers_are_quick() {
    walk(Engine::Chromium, SMALL, async |phone| {
        open_door(phone).await;
        slow_down(phone).await;
        let (mut one, mut several) = (Vec::new(), Vec::new());
        for (number, bed) in (1..).zip(beds(FIXED).unwrap()) {
            let (first, warm) = time(phone, &bed.question()).await;
            println!("bed {number:>2}: {first:>8.1} ms at first, {warm:>8.1} ms warm");
            if bed.crops.len() > 1 {
                several.push(warm);
            } else {
                one.push(warm);
            }
        }
        let [one, several] =
            [("one crop", one), ("several crops", several)].map(|(name, times)| {
                let [median, most, all] = [0.5, 0.9, 1.0].map(|share| share_within(&times, share));
                println!(
                    "{name}: median {median:.1} ms, nine of ten {most:.1} ms, all {all:.1} ms"
                );
                (most, all)
            });
        assert!(one.1 < A_FRAME, "one crop takes up to {:.1} ms", one.1);
        assert!(several.0 < AT_ONCE, "several take {:.1} ms", several.0);
    });
}

/// The longest the page may stand still. Milliseconds.
const A_FREEZE: f64 = 50.0;

#[test]
#[ignore = "a measurement: `cargo xtask bench browser`"]
fn the_page_never_stands_still() {
    walk(Engine::Chromium, SMALL, async |phone| {
        phone.open("").await;
        phone.sees("Ask at the bed").await;
        slow_down(phone).await;
        let fixed = beds(FIXED).unwrap();
        let questions = fixed.iter().map(|bed| bed.question());
        // The first answer of all also has the engine translate the code it runs.
        let cold = pieces(phone, &fixed[0].question()).await;
        println!("the first of all: {:.1} ms, shown in {:.1} ms", cold[0], cold[3]);
        let mut longest: f64 = 0.0;
        for (number, question) in (1..).zip(questions.chain(wide_beds())) {
            let [asked, turn, turns, shown] = pieces(phone, &question).await;
            println!(
                "bed {number:>2}: asked in {asked:>5.1} ms, longest of {turns:>4} turns {turn:>5.1} ms, shown in {shown:>5.1} ms"
            );
            longest = longest.max(asked).max(turn).max(shown);
        }
        println!("longest piece {longest:.1} ms");
        assert!(longest < A_FREEZE, "{longest:.1} ms in one piece");
    });
}

/// Beds of ten and twelve lines, the slowest of four hundred drawn at random.
fn wide_beds() -> impl Iterator<Item = Value> {
    let several = json!([
        { "crop": "leek", "spacing": "16 in", "sites": "emitters", "on_hand": "33" },
        { "crop": "kale", "spacing": "17 in", "sites": "emitters" },
    ]);
    let one = |spacing: &str| json!([{ "crop": "leek", "spacing": spacing, "sites": "emitters" }]);
    [
        ("25 ft", "6 in", "12", several),
        ("46 ft", "12 in", "10", one("7 in")),
        ("21 ft", "6 in", "12", one("11 in")),
        ("41 ft", "6 in", "10", one("13 in")),
    ]
    .into_iter()
    .map(|(length, emitter_spacing, lines, plants)| {
        json!({
            "bed": {
                "length": length, "width": "5 ft",
                "drip": { "lines": lines, "emitter_spacing": emitter_spacing },
            },
            "plants": plants,
        })
    })
}

/// How long the page is busy when it is asked, in the longest turn after, in how many turns, and
/// with showing what came out.
async fn pieces(phone: &Phone, question: &Value) -> [f64; 4] {
    let script = "const done = arguments[arguments.length - 1];
        import('./pegline.js').then(async (door) => {
            await door.default();
            const app = new door.App();
            const time = (work) => {
                const begin = performance.now();
                work();
                return performance.now() - begin;
            };
            let markup = app.event('route', '#/ask/plants-per-bed', {});
            const root = document.createElement('main');
            document.body.append(root);
            root.innerHTML = markup;
            const asked = time(() => { markup = app.event('input', '', arguments[0]); });
            let [longest, turns] = [0, 0];
            while (app.works()) {
                await new Promise((next) => setTimeout(next));
                longest = Math.max(longest, time(() => { markup = app.turn() ?? markup; }));
                turns += 1;
            }
            const shown = time(() => {
                Idiomorph.morph(root, markup, {
                    morphStyle: 'innerHTML',
                    callbacks: {
                        beforeNodeMorphed: (old, fresh) =>
                            old.tagName !== 'DATALIST' || !old.isEqualNode(fresh),
                    },
                });
                root.getBoundingClientRect();
            });
            const verdict = root.querySelector('.verdict');
            root.remove();
            if (!verdict) throw new Error(markup);
            done([asked, longest, turns, shown]);
        }).catch((error) => done(String(error)));";
    let times = phone.slow_script(script.to_owned(), std::slice::from_ref(question)).await;
    [0, 1, 2, 3].map(|at| times[at].as_f64().unwrap_or_else(|| panic!("{times}")))
}

async fn slow_down(phone: &Phone) {
    let rate = json!({ "rate": SLOWER });
    let cdp = phone.browser.cdp();
    cdp.send_raw("Emulation.setCPUThrottlingRate", rate).await.unwrap();
}

/// The time within which this share of the answers comes.
fn share_within(times: &[f64], share: f64) -> f64 {
    let mut times = times.to_vec();
    times.sort_by(f64::total_cmp);
    let last = (times.len() as f64 * share).ceil() as usize;
    times[last.saturating_sub(1)]
}

/// The page's time for a question asked first, and the median of asking it again.
async fn time(phone: &Phone, question: &Value) -> (f64, f64) {
    let script = "const done = arguments[arguments.length - 1];
        import('./pegline.js').then(async (door) => {
            await door.default();
            const times = [];
            const end = performance.now() + 5000;
            while (times.length < 2 || (times.length < 8 && performance.now() < end)) {
                const begin = performance.now();
                const answer = door.ask(arguments[0]);
                times.push(performance.now() - begin);
                if (answer.refused) throw new Error(JSON.stringify(answer));
            }
            const [first, ...again] = times;
            again.sort((one, other) => one - other);
            done([first, again[Math.floor(again.length / 2)]]);
        }).catch((error) => done(String(error)));";
    let times = phone.slow_script(script.to_owned(), std::slice::from_ref(question)).await;
    match (times[0].as_f64(), times[1].as_f64()) {
        (Some(first), Some(warm)) => (first, warm),
        _ => panic!("{times}"),
    }
}
