//! What is told of what to pick and what can wait.

use chrono::NaiveDate;

use super::answer::{Answer, Doing};
use crate::{
    asking::Asking,
    catalogue,
    source::Source,
    telling::{Sure, Telling},
    text::{capital, day, list, small},
};

impl Doing {
    pub(super) fn words(self, frost: Option<NaiveDate>, asking: &Asking<'_>) -> String {
        match self {
            Self::TakeAll => {
                let night = frost
                    .map_or(String::new(), |frost| format!(" on {}", day(frost, asking.today)));
                format!("take all that is usable, frost comes{night}")
            }
            Self::SmallOnesToo => "pick all, the small ones too".to_owned(),
            Self::OldOnesOff => "take the old ones off, so that others come".to_owned(),
            Self::Look => "take what is ready or nearly".to_owned(),
        }
    }
}

pub(super) fn tell(
    answer: &Answer,
    back_on: NaiveDate,
    frost: Option<NaiveDate>,
    weather_known: bool,
    asking: &Asking<'_>,
) -> Telling {
    let names = |crops: &mut dyn Iterator<Item = &'static str>| {
        let mut names: Vec<String> = Vec::new();
        for name in crops.filter_map(|id| catalogue::crop(id).ok()).map(|crop| small(crop.name())) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        list(&names)
    };
    let all = names(&mut answer.take.iter().map(|take| take.crop));
    let headline = if all.is_empty() {
        format!("All of it waits until {}", day(back_on, asking.today))
    } else {
        format!("Before you go: {all}")
    };
    let mut telling = Telling::new(headline, if weather_known { Sure::Fair } else { Sure::Low });
    for doing in Doing::ALL {
        let those = names(
            &mut answer.take.iter().filter(|take| take.doing == *doing).map(|take| take.crop),
        );
        if those.is_empty() {
            continue;
        }
        telling.because.push(format!("{}: {}.", capital(&those), doing.words(frost, asking)));
    }
    let waits = names(&mut answer.wait.iter().map(|waits| waits.crop));
    if !all.is_empty() && !waits.is_empty() {
        telling.look_for.push(format!("{} can wait.", capital(&waits)));
    }
    if !weather_known {
        telling
            .look_for
            .push("Reckoned for warm weather; in cool weather more can wait.".to_owned());
    }
    telling.source(Source::StretchRule);
    telling.source(Source::NorthCarolina552);
    telling.source(Source::CommonPractice);
    telling
}
