//! Holds the app's layouts against HiGHS, or records its optima.

mod solver;

use std::fmt::Write as _;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use pegline_bench::{Bed, FIXED, Found, Gap, Model, beds, draw};
use pegline_core::{ask::ask, garden::Garden};

/// What HiGHS may take for one bed.
const LIMIT: Duration = Duration::from_secs(20);
/// How often the app is asked the same; the median counts.
const TIMES: usize = 5;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let outcome = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [] => compare(),
        ["record", single, several, file] => record(single, several, file),
        _ => Err("Use: pegline-bench [record <single> <several> <file>]".to_owned()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

/// One bed's outcome in both.
struct Row {
    several: bool,
    ours: Duration,
    theirs: Duration,
}

fn compare() -> Result<(), String> {
    println!(
        "{:>3} {:>5} {:>7} {:>8}  {:<16} {:>7} {:>9}  {:<16} {:>7} {:>9} {:>7}",
        "bed", "sites", "choices", "aim", "ours", "proved", "ms", "HiGHS", "proved", "ms", "ratio"
    );
    let mut rows = Vec::new();
    let mut worse = Vec::new();
    for (number, bed) in (1..).zip(beds(FIXED)?) {
        let model = Model::of(&bed);
        let (ours, time) = asked(&bed).map_err(|wrong| format!("bed {number}: {wrong}"))?;
        let theirs = solver::best(&bed, &model, LIMIT)?;
        let Gap(gap) = ours.gap(bed.aim, &theirs.counts);
        if gap > 0 {
            worse.push(format!("bed {number}: HiGHS has {gap} more"));
        }
        if !theirs.sure().is_empty() && ours.gap(bed.aim, theirs.sure()) < Gap(0) {
            worse.push(format!("bed {number}: more than HiGHS proves to fit"));
        }
        println!(
            "{number:>3} {:>5} {:>7} {:>8}  {:<16} {:>7} {:>9.2}  {:<16} {:>7} {:>9.1} {:>7.0}",
            model.sites,
            model.choices.len(),
            format!("{:?}", bed.aim),
            shown(&ours.counts),
            yes(ours.proved),
            milliseconds(time),
            shown(&theirs.counts),
            yes(theirs.proved),
            milliseconds(theirs.time),
            theirs.time.as_secs_f64() / time.as_secs_f64(),
        );
        rows.push(Row { several: bed.crops.len() > 1, ours: time, theirs: theirs.time });
    }
    for (name, several) in [("one crop", false), ("several crops", true)] {
        let of = |time: &dyn Fn(&Row) -> Duration| {
            let mut times: Vec<_> =
                rows.iter().filter(|row| row.several == several).map(time).collect();
            times.sort_unstable();
            times
        };
        let (ours, theirs) = (of(&|row| row.ours), of(&|row| row.theirs));
        println!(
            "{name}: {} beds, median {:.2} ms to HiGHS's {:.1} ms, {:.0} times; at worst {:.2} ms to {:.0} ms",
            ours.len(),
            milliseconds(median(&ours)),
            milliseconds(median(&theirs)),
            median(&theirs).as_secs_f64() / median(&ours).as_secs_f64(),
            milliseconds(ours.last().copied().unwrap_or_default()),
            milliseconds(theirs.last().copied().unwrap_or_default()),
        );
    }
    if worse.is_empty() {
        return Ok(());
    }
    Err(worse.join("\n"))
}

/// The door's answer, checked, and the median time that it takes.
fn asked(bed: &Bed) -> Result<(Found, Duration), String> {
    let (question, garden) = (bed.question(), Garden::default());
    let mut times = Vec::new();
    let mut found = None;
    for _ in 0..TIMES {
        let begin = Instant::now();
        let answer = ask(&question, &garden);
        times.push(begin.elapsed());
        let answer = answer.map_err(|refusal| format!("refused: {refusal:?}"))?;
        let answer = serde_json::to_value(answer).map_err(|error| error.to_string())?;
        found = Some(Found::checked(bed, &answer)?);
    }
    times.sort_unstable();
    let found = found.ok_or("never asked")?;
    Ok((found, median(&times)))
}

fn record(single: &str, several: &str, file: &str) -> Result<(), String> {
    let number = |text: &str| text.parse::<usize>().map_err(|_| format!("{text} is no number"));
    let mut text = String::from(
        "# Beds drawn at random, and what HiGHS proved to be best on them.\n\
         # Written by `cargo xtask bench --record`; xtask/bench/src/bed.rs says how a line is read.\n",
    );
    for (wanted, several) in [(number(single)?, false), (number(several)?, true)] {
        let (mut seed, mut kept, mut open) = (0, 0, 0);
        let mut lines = String::new();
        while kept < wanted {
            seed += 1;
            let Some((mut bed, model)) = draw(seed, several) else {
                continue;
            };
            let optimum = solver::best(&bed, &model, LIMIT)?;
            if !optimum.proved {
                open += 1;
                continue;
            }
            kept += 1;
            bed.best = optimum.counts;
            writeln!(lines, "{bed}").map_err(|error| error.to_string())?;
            eprintln!("{kept} of {wanted}: seed {seed}, {:?}", optimum.time);
        }
        let crops = if several { "several crops" } else { "one crop" };
        let limit = LIMIT.as_secs();
        writeln!(
            text,
            "# {kept} with {crops}; {open} more were left out, which HiGHS did not finish in {limit} s."
        )
        .map_err(|error| error.to_string())?;
        text.push_str(&lines);
    }
    std::fs::write(file, text).map_err(|error| format!("{file} can't be written: {error}"))
}

fn median(sorted: &[Duration]) -> Duration {
    sorted.get(sorted.len() / 2).copied().unwrap_or_default()
}

fn milliseconds(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}

fn shown(counts: &[u32]) -> String {
    let each: Vec<String> = counts.iter().map(u32::to_string).collect();
    each.join(" + ")
}

fn yes(is: bool) -> &'static str {
    if is { "yes" } else { "no" }
}
