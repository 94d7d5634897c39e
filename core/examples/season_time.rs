//! How long a crop's course takes, all of a year's, and what fits of all crops.

use std::hint::black_box;
use std::time::{Duration, Instant};

use chrono::NaiveDate;
use pegline_core::catalogue::crops;
use pegline_core::place::Latitude;
use pegline_core::place::air::Air;
use pegline_core::place::soil::{SoilYear, Texture};
use pegline_core::quantity::Temperature;
use pegline_core::season::{Growing, How, Year, course};
use uom::si::thermodynamic_temperature::degree_celsius;

fn main() {
    // Mean lows and highs of Des Moines, Iowa, rounded, °C.
    let lows = [-12.0, -9.0, -3.0, 4.0, 10.0, 16.0, 18.0, 17.0, 12.0, 5.0, -2.0, -9.0];
    let highs = [-2.0, 1.0, 8.0, 16.0, 22.0, 28.0, 30.0, 29.0, 24.0, 18.0, 8.0, 0.0];
    let celsius = |months: [f64; 12]| months.map(Temperature::new::<degree_celsius>);
    let air = Air::from_months(&celsius(lows), &celsius(highs), None);
    let soil = SoilYear::from_air(&air, Texture::Loam);
    let of_place = || Year::new(&air, &soil, Latitude::from_degrees(41.5));
    let started = Instant::now();
    let year = of_place();
    println!("the place's year: {:?}", started.elapsed());

    let days: Vec<NaiveDate> =
        (1..=365).filter_map(|day| NaiveDate::from_yo_opt(2026, day)).collect();
    let (mut single, mut all, mut slowest, mut ways) =
        (Duration::ZERO, Duration::ZERO, Duration::ZERO, 0u32);
    for crop in crops() {
        for how in [How::Sown, How::SetOut] {
            let Ok(growing) = Growing::new(&year, crop, how) else { continue };
            ways += 1;
            let started = Instant::now();
            for date in days.iter().step_by(10) {
                let _ = black_box(course(black_box(&year), crop, *date, how));
            }
            single += started.elapsed() / 37;
            let started = Instant::now();
            for date in &days {
                black_box(growing.goes(black_box(*date)));
            }
            let took = started.elapsed();
            all += took;
            slowest = slowest.max(took);
        }
    }
    println!(
        "one course from nothing but the place's year: {:?} in the mean of {ways}",
        single / ways
    );
    let question = serde_json::json!({
        "topic": "what-fits-when", "today": "2026-08-05",
        "site": { "latitude": "41.5 N", "coldest": { "low": "10 F", "high": "28 F" },
                  "hottest": { "low": "64 F", "high": "86 F" } },
    });
    let started = Instant::now();
    let answer = pegline_core::ask::ask(&question, &pegline_core::garden::Garden::default());
    println!("what fits, of all crops: {:?}, answered: {}", started.elapsed(), answer.is_ok());
    println!("365 starts of a crop: {:?} in the mean, {slowest:?} the slowest", all / ways);
}
