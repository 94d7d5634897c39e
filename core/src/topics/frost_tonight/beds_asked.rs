//! The beds a question is about: as given, or as the record tells.

use super::{
    from_record::{self, Stages},
    question::{Asked, BedAsked, BedTonight, leaf_height},
};
use crate::{
    asking::Asking,
    frost::low::BedNight,
    given::{Faults, Given, Text},
    place::site::Site,
};

/// The beds as given, or as the record tells.
pub(super) fn read(
    asked: &Asked,
    site: &Site,
    asking: &Asking<'_>,
    faults: &mut Faults,
) -> Option<Vec<BedTonight>> {
    let one_bed = asked.bed.is_given()
        || !asked.crops.is_empty()
        || !asked.bed_nights.is_empty()
        || asked.residue_on_top.is_given();
    let stages = Stages::new(site, asking.today);
    let mut read = Vec::new();
    let mut height = None;
    if one_bed {
        let bed = BedAsked {
            bed: asked.bed.clone(),
            bed_nights: asked.bed_nights.clone(),
            residue_on_top: asked.residue_on_top.clone(),
            leaf_height: asked.leaf_height.clone(),
            under_glass: Given::default(),
            crops: asked.crops.clone(),
        };
        read.push(bed.read("crops", &stages, asking, faults));
    } else {
        height = leaf_height(&asked.leaf_height, faults);
    }
    for (index, bed) in asked.beds.iter().enumerate() {
        read.push(bed.read(&format!("beds.{index}.crops"), &stages, asking, faults));
    }
    if !read.is_empty() {
        return read.into_iter().collect();
    }
    let mut recorded = from_record::beds(asking.garden, &stages);
    recorded.iter_mut().for_each(|bed| bed.height = height);
    if recorded.is_empty() {
        refuse_no_crops("crops", faults);
        return None;
    }
    Some(recorded)
}

fn refuse_no_crops(field: &str, faults: &mut Faults) {
    faults.add(
        field,
        "",
        "at least one crop that stands out tonight",
        "what grows there is needed for an answer",
    );
}

impl BedAsked {
    /// The bed, with what the record knows of it where nothing is given.
    fn read(
        &self,
        crops_field: &str,
        stages: &Stages,
        asking: &Asking<'_>,
        faults: &mut Faults,
    ) -> Option<BedTonight> {
        let called = self.bed.read(faults).map(|Text(name)| name);
        let nights = self.bed_nights.iter();
        let nights: Vec<BedNight> = nights.flat_map(|night| night.read(faults)).collect();
        let residue = self.residue_on_top.read(faults);
        let height = leaf_height(&self.leaf_height, faults);
        let under_glass = self.under_glass.read(faults);
        let given: Vec<_> = self.crops.iter().map(|crop| crop.read(faults)).collect();
        let given = given.into_iter().collect::<Option<Vec<_>>>()?;
        let recorded =
            called.as_deref().and_then(|name| from_record::bed(asking.garden, name, stages));
        let known =
            recorded.unwrap_or_else(|| BedTonight { name: called, ..BedTonight::default() });
        let crops = if given.is_empty() { known.crops } else { given };
        if crops.is_empty() {
            refuse_no_crops(crops_field, faults);
            return None;
        }
        Some(BedTonight {
            nights: if nights.is_empty() { known.nights } else { nights },
            residue_on_top: residue.unwrap_or(known.residue_on_top),
            height,
            under_glass: under_glass.unwrap_or(known.under_glass),
            crops,
            ..known
        })
    }
}
