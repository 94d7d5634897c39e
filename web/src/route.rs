//! Where the gardener is: the part of the address after `#`.
//!
//! Browsers tell it percent-encoded, whatever it was written as (URL Standard, "fragment state"), so names
//! of beds are encoded when it is written and decoded when it is read.

use percent_encoding::{AsciiSet, CONTROLS, percent_decode_str, utf8_percent_encode};

/// What can't stand in one part of an address: the URL Standard's fragment percent-encode set, and the two
/// signs by which addresses are taken apart here.
const NOT_IN_A_PART: &AsciiSet =
    &CONTROLS.add(b' ').add(b'"').add(b'<').add(b'>').add(b'`').add(b'/').add(b'%');

/// One screen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Route {
    /// The questions, and what needs deciding.
    #[default]
    Ask,
    /// One question, for a bed of the garden if one is named.
    Question {
        /// The topic's word.
        topic: String,
        /// The bed it was asked from.
        bed: Option<String>,
    },
    /// One question about a tray of the garden.
    OfStart {
        /// The topic's word.
        topic: String,
        /// The tray it was asked from.
        start: String,
    },
    /// All trays.
    Starts,
    /// A tray that was sown.
    NewStart,
    /// One tray.
    Start(String),
    /// All beds.
    Beds,
    /// A bed to be laid out.
    NewBed,
    /// One bed.
    Bed(String),
    /// The form that changes a bed.
    ChangeBed(String),
    /// The thermometers, and what a cold night did.
    Thermometers,
    /// The record.
    Book,
    /// One entry of the record.
    Entry(String),
    /// Units and place.
    Settings,
}

impl Route {
    /// Reads an address such as `#/ask/plants-per-bed/fence-bed`; what is unknown leads to Ask.
    pub fn read(hash: &str) -> Self {
        let parts: Vec<String> = hash
            .trim_start_matches('#')
            .split('/')
            .filter(|part| !part.is_empty())
            .map(|part| percent_decode_str(part).decode_utf8_lossy().into_owned())
            .collect();
        let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
        match parts.as_slice() {
            ["ask", topic] => Self::Question { topic: (*topic).to_owned(), bed: None },
            ["ask", topic, bed] => {
                Self::Question { topic: (*topic).to_owned(), bed: Some((*bed).to_owned()) }
            }
            ["ask", topic, "for", start] => {
                Self::OfStart { topic: (*topic).to_owned(), start: (*start).to_owned() }
            }
            ["starts"] => Self::Starts,
            ["starts", "new"] => Self::NewStart,
            ["start", start] => Self::Start((*start).to_owned()),
            ["beds"] => Self::Beds,
            ["beds", "new"] => Self::NewBed,
            ["bed", bed] => Self::Bed((*bed).to_owned()),
            ["bed", bed, "change"] => Self::ChangeBed((*bed).to_owned()),
            ["thermometers"] => Self::Thermometers,
            ["book"] => Self::Book,
            ["book", entry] => Self::Entry((*entry).to_owned()),
            ["settings"] => Self::Settings,
            _ => Self::Ask,
        }
    }

    /// The address of the screen.
    pub fn address(&self) -> String {
        let part = |name: &str| utf8_percent_encode(name, NOT_IN_A_PART).to_string();
        match self {
            Self::Ask => "#/".to_owned(),
            Self::Question { topic, bed: None } => format!("#/ask/{}", part(topic)),
            Self::Question { topic, bed: Some(bed) } => {
                format!("#/ask/{}/{}", part(topic), part(bed))
            }
            Self::OfStart { topic, start } => {
                format!("#/ask/{}/for/{}", part(topic), part(start))
            }
            Self::Starts => "#/starts".to_owned(),
            Self::NewStart => "#/starts/new".to_owned(),
            Self::Start(start) => format!("#/start/{}", part(start)),
            Self::Beds => "#/beds".to_owned(),
            Self::NewBed => "#/beds/new".to_owned(),
            Self::Bed(bed) => format!("#/bed/{}", part(bed)),
            Self::ChangeBed(bed) => format!("#/bed/{}/change", part(bed)),
            Self::Thermometers => "#/thermometers".to_owned(),
            Self::Book => "#/book".to_owned(),
            Self::Entry(entry) => format!("#/book/{}", part(entry)),
            Self::Settings => "#/settings".to_owned(),
        }
    }

    /// The topic of a question.
    pub fn topic(&self) -> Option<&str> {
        match self {
            Self::Question { topic, .. } | Self::OfStart { topic, .. } => Some(topic),
            Self::Ask => Some("today"),
            _ => None,
        }
    }

    /// Which of the places in the bar at the bottom this screen belongs to.
    pub fn place(&self) -> Place {
        match self {
            Self::Ask | Self::Question { .. } | Self::OfStart { .. } | Self::Settings => Place::Ask,
            Self::Starts | Self::NewStart | Self::Start(_) => Place::Starts,
            Self::Beds | Self::NewBed | Self::Bed(_) | Self::ChangeBed(_) | Self::Thermometers => {
                Place::Beds
            }
            Self::Book | Self::Entry(_) => Place::Book,
        }
    }
}

/// The places in the bar at the bottom.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The questions.
    Ask,
    /// The beds.
    Beds,
    /// The trays.
    Starts,
    /// The record.
    Book,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_address_leads_back_to_its_screen() {
        for route in [
            Route::Ask,
            Route::Question { topic: "day-length".into(), bed: None },
            Route::Question { topic: "plants-per-bed".into(), bed: Some("fence-bed".into()) },
            Route::OfStart {
                topic: "plants-per-bed".into(),
                start: "01ARZ3NDEKTSV4RRFFQ69G5FAV".into(),
            },
            Route::Starts,
            Route::NewStart,
            Route::Start("01ARZ3NDEKTSV4RRFFQ69G5FAV".into()),
            Route::Beds,
            Route::NewBed,
            Route::Bed("fence-bed".into()),
            Route::ChangeBed("fence-bed".into()),
            Route::Thermometers,
            Route::Book,
            Route::Entry("01ARZ3NDEKTSV4RRFFQ69G5FAV".into()),
            Route::Settings,
        ] {
            assert_eq!(Route::read(&route.address()), route);
        }
    }

    /// What a browser tells of an address that was written: `location.hash` by the URL Standard, section
    /// "fragment state" with the fragment percent-encode set.
    fn as_a_browser_tells(address: &str) -> String {
        let mut told = String::new();
        for byte in address.bytes() {
            if matches!(byte, 0..=0x20 | 0x7f.. | b'"' | b'<' | b'>' | b'`') {
                told.push_str(&format!("%{byte:02X}"));
            } else {
                told.push(char::from(byte));
            }
        }
        told
    }

    #[test]
    fn any_id_of_a_bed_leads_back_to_it() {
        for id in [
            "fence-bed",
            "café-bed",
            "½-barrel",
            "ann’s-bed",
            "küchenbeet",
            "畑",
            "🥕",
            "ночь",
            "a/b",
            "50%-off",
            "100%25",
            "<b> \"x\"#?`",
            "e\u{301}",
            "for",
        ] {
            let bed = || id.to_owned();
            for route in [
                Route::Bed(bed()),
                Route::ChangeBed(bed()),
                Route::Question { topic: "plants-per-bed".into(), bed: Some(bed()) },
            ] {
                let address = route.address();
                assert!(address.is_ascii(), "{address}");
                assert_eq!(Route::read(&address), route, "{address}");
                assert_eq!(Route::read(&as_a_browser_tells(&address)), route, "{address}");
            }
            // Addresses as they were written before, kept somewhere.
            if !id.contains(['/', '%']) {
                let old = as_a_browser_tells(&format!("#/bed/{id}"));
                assert_eq!(Route::read(&old), Route::Bed(bed()), "{old}");
            }
        }
    }

    #[test]
    fn what_is_encoded_wrongly_is_read_as_it_stands() {
        assert_eq!(Route::read("#/bed/50%"), Route::Bed("50%".into()));
        assert_eq!(Route::read("#/bed/%zz"), Route::Bed("%zz".into()));
        assert_eq!(Route::read("#/bed/%ff"), Route::Bed("\u{fffd}".into()));
    }

    #[test]
    fn an_unknown_address_leads_to_ask() {
        assert_eq!(Route::read("#/no/such/place"), Route::Ask);
        assert_eq!(Route::read(""), Route::Ask);
    }
}
