//! How soon the page answers on a slow phone. A measurement, so it runs only when asked for.

use pegline_bench::{FIXED, beds};
use serde_json::{Value, json};

use crate::engine::Engine;
use crate::offline::install;
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

/// What an empty record may take to open over an empty page, and one of ten years. Milliseconds.
const OPENS: [(u32, f64); 2] = [(0, 350.0), (5000, 600.0)];
/// What a letter may take from the key to the paint. Milliseconds.
const A_LETTER: f64 = 50.0;
/// So often a thing is timed whose median counts.
const TIMES: usize = 10;

/// Fills both places with so many entries.
async fn fill(phone: &mut Phone, entries: u32) {
    let keep = "const done = arguments[arguments.length - 1];
        const lines = years(arguments[0]);
        lines.forEach(([key, line]) => localStorage.setItem(key, line));
        const asked = indexedDB.open('pegline', 1);
        asked.onsuccess = () => {
            const work = asked.result.transaction(['lines', 'witness'], 'readwrite');
            lines.forEach(([key, line]) => work.objectStore('lines').put(line, key));
            work.objectStore('witness').put({ entries: lines.length, copied: null }, 'record');
            work.oncomplete = () => { asked.result.close(); done(lines.length); };
        };";
    install(phone).await;
    let kept = phone.slow_script([YEARS, keep].concat(), &[entries.into()]).await;
    assert_eq!(kept, entries);
    phone.reload().await;
}

/// Ten years of a large garden.
const YEARS: &str = include_str!("years.js");

#[test]
#[ignore = "a measurement: `cargo xtask bench browser`"]
fn it_opens_quickly_without_signal() {
    let mut over_all = Vec::new();
    for (entries, most) in OPENS {
        walk(Engine::Chromium, SMALL, async |phone| {
            match entries {
                0 => install(phone).await,
                _ => fill(phone, entries).await,
            }
            phone.lose_signal();
            let (mut empty, mut app) = (Vec::new(), Vec::new());
            for _ in 0..TIMES {
                phone.restart().await;
                slow_down(phone).await;
                // A text that the worker answers with, as it does with the app.
                phone.look_at("manifest.webmanifest").await;
                let shown =
                    "return performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd";
                empty.push(phone.script(shown, &[]).await.as_f64().unwrap());
                phone.open("").await;
                let open = "return performance.getEntriesByName('open')[0].startTime";
                app.push(phone.script(open, &[]).await.as_f64().unwrap());
            }
            let [empty, app] = [empty, app].map(|times| share_within(&times, 0.5));
            println!(
                "{entries} entries: open after {app:.0} ms, an empty page after {empty:.0} ms"
            );
            over_all.push((entries, app - empty, most));
        });
    }
    for (entries, over, most) in over_all {
        assert!(over < most, "{entries} entries take {over:.0} ms over an empty page");
    }
}

#[test]
#[ignore = "a measurement: `cargo xtask bench browser`"]
fn a_letter_is_shown_at_once_in_a_record_of_ten_years() {
    walk(Engine::Chromium, SMALL, async |phone| {
        fill(phone, 5000).await;
        phone.open("#/ask/plants-per-bed").await;
        slow_down(phone).await;
        let listen = "window.times = [];
            addEventListener('keydown', (event) => {
                requestAnimationFrame(() => {
                    const { port1, port2 } = new MessageChannel();
                    port1.onmessage = () => times.push(performance.now() - event.timeStamp);
                    port2.postMessage('');
                });
            }, true);";
        phone.script(listen, &[]).await;
        let field = phone.browser.find(thirtyfour::By::Name("plants.0.crop")).await.unwrap();
        for letter in "swiss chard".chars() {
            field.send_keys(letter.to_string()).await.unwrap();
            tokio::time::sleep(std::time::Duration::from_millis(400)).await;
        }
        let times: Vec<f64> =
            serde_json::from_value(phone.script("return times", &[]).await).unwrap();
        println!("letters: {times:.0?} ms");
        let median = share_within(&times, 0.5);
        assert!(times.len() >= TIMES && median < A_LETTER, "{median:.0} ms");
    });
}

/// A first visit by weak signal: something to read, and all of it. Milliseconds.
const TO_READ: f64 = 1500.0;
const TO_USE: f64 = 11_000.0;

#[test]
#[ignore = "a measurement: `cargo xtask bench browser`"]
fn a_first_visit_by_weak_signal_can_be_read_at_once_and_goes_on_moving() {
    walk(Engine::Chromium, SMALL, async |phone| {
        let cdp = phone.browser.cdp();
        cdp.send_raw("Network.enable", json!({})).await.unwrap();
        let weak = json!({
            "offline": false, "latency": 400, "downloadThroughput": 50_000, "uploadThroughput": 50_000,
        });
        cdp.send_raw("Network.emulateNetworkConditions", weak).await.unwrap();
        let note = json!({ "source": "
            window.said = new Set();
            new MutationObserver(() => said.add(document.querySelector('#app header span')?.textContent))
                .observe(document, { subtree: true, childList: true, characterData: true });" });
        cdp.send_raw("Page.addScriptToEvaluateOnNewDocument", note).await.unwrap();
        phone.open("").await;
        let times = "return [performance.getEntriesByName('first-contentful-paint')[0].startTime,
            performance.getEntriesByName('open')[0].startTime,
            [...said].filter((words) => words?.endsWith('%')).length]";
        let times = phone.script(times, &[]).await;
        println!("to read, to use, steps told: {times}");
        let [read, used, steps] = [0, 1, 2].map(|at| times[at].as_f64().unwrap());
        assert!(read < TO_READ && used < TO_USE && steps > 20.0, "{times}");
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
