//! How soon the page answers on a slow phone. A measurement, so it runs only when asked for.

use pegline_bench::{FIXED, beds};
use serde_json::{Value, json};

use crate::engine::Engine;
use crate::phone::{Phone, walk};
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
        phone.open("").await;
        phone.sees("Ask at the bed").await;
        let rate = json!({ "rate": SLOWER });
        let cdp = phone.browser.cdp();
        cdp.send_raw("Emulation.setCPUThrottlingRate", rate)
            .await
            .unwrap();
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
    let times = phone
        .slow_script(script.to_owned(), std::slice::from_ref(question))
        .await;
    match (times[0].as_f64(), times[1].as_f64()) {
        (Some(first), Some(warm)) => (first, warm),
        _ => panic!("{times}"),
    }
}
