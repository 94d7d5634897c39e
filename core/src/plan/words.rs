//! A layout as it is told, and what of it is written.

use super::{Laid, Wanted};
use crate::{
    asking::Asking,
    bed::{Meant, Site},
    journal::{About, Draft, Sites, What, details},
    layout::Form,
    quantity::{Micrometres, System, show_spacing},
    text::capital,
};

/// Where everything goes, along the hose; crop by crop where there are several.
pub(crate) fn arrangement(laid: &Laid, system: System) -> String {
    let show = |length: Micrometres| show_spacing(length.to_length(), system);
    let forms = laid.wanted.iter().zip(&laid.layout.arrangements);
    let each: Vec<String> = forms
        .filter(|(_, form)| laid.wanted.len() == 1 || form.form != Form::Empty)
        .map(|(wanted, form)| {
            let words = form.words(&show);
            match laid.wanted.len() {
                1 => words,
                _ => sentence(&format!("{}: {words}", wanted.name())),
            }
        })
        .collect();
    each.join(" ")
}

/// With a capital first and a stop at the end.
pub(crate) fn sentence(words: &str) -> String {
    let stop = if words.ends_with('.') { "" } else { "." };
    format!("{}{stop}", capital(words))
}

/// The bed, if the record does not have it yet, and what would be planted.
pub(crate) fn drafts(meant: &Meant, laid: &Laid, asking: &Asking<'_>) -> Vec<Draft> {
    let mut drafts = Vec::new();
    let bed_id = match &meant.id {
        Some(id) => id.clone(),
        None => {
            let name = meant.name.clone().unwrap_or_else(|| asking.garden.next_bed_name());
            let id = asking.garden.free_bed_id(&name);
            let bed = details::Bed { name: Some(name), bed: meant.shape.clone(), gone: false };
            drafts.push(Draft { about: About::bed(&id), what: What::Bed(bed) });
            id
        }
    };
    for (wanted, plants) in laid.wanted.iter().zip(&laid.layout.plants) {
        let sites: Vec<Site> = plants.iter().map(|plant| plant.site).collect();
        drafts.extend(planted(&bed_id, wanted, &sites, asking.system));
    }
    drafts
}

/// A crop planted at these sites; nothing where there are none.
pub(in crate::plan) fn planted(
    bed_id: &str,
    wanted: &Wanted,
    sites: &[Site],
    system: System,
) -> Option<Draft> {
    let count = u32::try_from(sites.len()).ok().filter(|count| *count > 0)?;
    let planted = details::Planted {
        crop: wanted.id().to_owned(),
        variety: None,
        count: Some(count),
        spacing: Some(wanted.spacing_told(system)),
        at: Sites::of(sites).ok(),
    };
    Some(Draft { about: About::bed(bed_id), what: What::Planted(planted) })
}

/// That plants of the record have no place in the bed any longer.
pub(crate) fn no_place(outside: u32) -> Option<String> {
    match outside {
        0 => None,
        1 => Some(
            "The record has 1 plant whose place is no longer in this bed; no room is kept for it."
                .to_owned(),
        ),
        many => Some(format!(
            "The record has {many} plants whose places are no longer in this bed; no room is kept \
             for them."
        )),
    }
}
