//! What is asked, and how it is read.

use chrono::NaiveDate;

use crate::{
    catalogue::KnownCrop,
    given::{Given, Text, asked},
    place::site::SiteAsked,
    quantity::Temperature,
    starts::{
        age::Roots,
        tray_asked::{ReadingAsked, Sign},
    },
};

asked! {
    /// How old is this tray really?
    pub struct Asked {
        /// A tray of the record, by its id or name; it brings along what is not given here.
        tray: Given<Text> = "Tray",
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// The day it was sown.
        sown: Given<NaiveDate> = "Sown",
        /// The mean temperature where it stands.
        warmth: Given<Temperature> = "How warm it stands",
        /// Lows and highs read where it stands.
        greenhouse: Vec<ReadingAsked>,
        /// True leaves on most plants.
        leaves: Given<u32> = "True leaves",
        /// How the roots look when a plug is slid out.
        roots: Given<Roots> = "Roots, plug slid out",
        /// What else is seen.
        signs: Vec<Given<Sign>> = "What else do you see?",
        /// The place; the garden's own where absent.
        site: Option<SiteAsked>,
    }
}
