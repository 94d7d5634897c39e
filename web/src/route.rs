//! Where the gardener is: the part of the address after `#`.

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
        let parts: Vec<&str> =
            hash.trim_start_matches('#').split('/').filter(|part| !part.is_empty()).collect();
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
        match self {
            Self::Ask => "#/".to_owned(),
            Self::Question { topic, bed: None } => format!("#/ask/{topic}"),
            Self::Question { topic, bed: Some(bed) } => format!("#/ask/{topic}/{bed}"),
            Self::OfStart { topic, start } => format!("#/ask/{topic}/for/{start}"),
            Self::Starts => "#/starts".to_owned(),
            Self::NewStart => "#/starts/new".to_owned(),
            Self::Start(start) => format!("#/start/{start}"),
            Self::Beds => "#/beds".to_owned(),
            Self::NewBed => "#/beds/new".to_owned(),
            Self::Bed(bed) => format!("#/bed/{bed}"),
            Self::ChangeBed(bed) => format!("#/bed/{bed}/change"),
            Self::Thermometers => "#/thermometers".to_owned(),
            Self::Book => "#/book".to_owned(),
            Self::Entry(entry) => format!("#/book/{entry}"),
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

    #[test]
    fn an_unknown_address_leads_to_ask() {
        assert_eq!(Route::read("#/no/such/place"), Route::Ask);
        assert_eq!(Route::read(""), Route::Ask);
    }
}
