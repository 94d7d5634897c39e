//! The phone's clock and its random source, read once for each event and passed on as values.

use chrono::{NaiveDate, NaiveDateTime, TimeDelta};
use pegline_core::journal::Ulid;

/// The moment an event happened, and randomness for the ids written at it.
#[derive(Clone, Copy, Debug)]
pub struct Now {
    /// Local date and time, to the second.
    pub local: NaiveDateTime,
    /// Milliseconds since 1970 UTC, the time part of an entry's id.
    pub millis: u64,
    /// Fresh random bytes, the rest of an entry's id.
    pub random: [u8; 10],
}

impl Now {
    /// The randomness as one number, for a new id.
    pub fn chance(&self) -> u128 {
        self.random.iter().fold(0, |number, byte| number << 8 | u128::from(*byte))
    }

    /// Today's local date.
    pub fn today(&self) -> NaiveDate {
        self.local.date()
    }

    /// The local day on which an entry was written, if this phone wrote it and keeps its time zone.
    pub fn day_of(&self, entry: Ulid) -> NaiveDate {
        let millis = i128::from(self.millis) - i128::from(entry.millis());
        let ago = i64::try_from(millis).ok().and_then(TimeDelta::try_milliseconds);
        let then = ago.and_then(|ago| self.local.checked_sub_signed(ago));
        then.unwrap_or(self.local).date()
    }

    /// Reads the browser's clock and random source.
    pub fn read() -> Self {
        let date = js_sys::Date::new_0();
        let mut random = [0; 10];
        if let Some(crypto) = web_sys::window().and_then(|window| window.crypto().ok()) {
            // A failure leaves zeros: ids still differ by their time, and next_id keeps them apart.
            let _ = crypto.get_random_values_with_u8_array(&mut random);
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "after 1970")]
        let millis = date.get_time() as u64;
        let local = NaiveDate::from_ymd_opt(
            i32::try_from(date.get_full_year()).unwrap_or(1970),
            date.get_month() + 1,
            date.get_date(),
        )
        .and_then(|day| day.and_hms_opt(date.get_hours(), date.get_minutes(), date.get_seconds()))
        .unwrap_or_default();
        Self { local, millis, random }
    }
}
