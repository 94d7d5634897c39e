//! From a question at the bed to its record, and everything found again without a signal.

use crate::axe::axe;
use crate::engine::Engine;
use crate::journeys;
use crate::offline::install;
use crate::phone::{Phone, walk};
use crate::screen::SMALL;

journeys! {
    fourteen_cabbages_are_asked_written_and_found_again in Chromium Firefox WebKit;
    a_bed_of_any_name_opens in Chromium Firefox WebKit;
}

fn fourteen_cabbages_are_asked_written_and_found_again(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        install(phone).await;
        phone.tap("How many fit here?").await;
        phone.fill("Crop", "cabbage").await;
        phone.fill("How many have you", "14").await;
        phone.fill("Space between", "18 in").await;
        phone.fill("Length", "8 ft").await;
        phone.fill("Width", "4 ft").await;
        phone.fill("Drip lines", "4").await;
        phone.fill("Holes every", "9 in").await;
        phone.tap("More about the bed").await;
        phone.fill("Its name", "Fence bed").await;
        phone.fill("From line to line", "12 in").await;
        phone.sees("All 14 fit at 15 in").await;
        if engine == Engine::Chromium {
            phone.screenshot("all-14-fit").await;
            axe(phone).await;
        }
        phone.tap("Write 14 cabbage plants into Fence bed").await;
        phone.sees("14 cabbage planted in Fence bed, 15 in between").await;
        everything_is_there(phone).await;

        phone.lose_signal();
        phone.reload().await;
        everything_is_there(phone).await;
        if engine.keeps_a_profile() {
            phone.restart().await;
            phone.open("").await;
            everything_is_there(phone).await;
        }
    });
}

/// Bed and planting, in the list of beds, in the bed's own page and in the book.
async fn everything_is_there(phone: &Phone) {
    phone.tap("Beds").await;
    phone.tap("Fence bed").await;
    phone.sees("14 cabbage").await;
    phone.tap("Book").await;
    phone.sees("Fence bed").await;
    phone.sees("14 cabbage").await;
}

/// Browsers tell an address percent-encoded (URL Standard), whatever it was written as.
fn a_bed_of_any_name_opens(engine: Engine) {
    walk(engine, SMALL, async |phone| {
        phone.open("#/beds/new").await;
        phone.fill("Length", "8 ft").await;
        phone.fill("Width", "4 ft").await;
        phone.tap("More about the bed").await;
        phone.fill("Its name", "Café bed").await;
        phone.tap("Save this bed").await;
        phone.sees("Ask about this bed").await;
        phone.tap("Beds").await;
        phone.tap("Café bed").await;
        phone.sees("Ask about this bed").await;
        phone.reload().await;
        phone.sees("Ask about this bed").await;
        phone.tap("How many fit here?").await;
        phone.sees("How many fit here?").await;
        assert!(phone.value("Bed").await.starts_with("café-bed-"));
    });
}
