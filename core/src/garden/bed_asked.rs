//! A bed as a question gives it: described there, or one of the record by its name.

use serde_json::Value;

use super::Garden;
use crate::{
    bed::{BedAsked, Described, Meant},
    given::{Faults, FromGiven, Text},
    quantity::System,
};

/// Reads the bed of a question, which can't be answered without one.
pub(crate) fn needed_bed(
    asked: Option<&BedAsked>,
    garden: &Garden,
    system: System,
    faults: &mut Faults,
) -> Option<Meant> {
    if asked.is_none() {
        let allowed = "a bed of the record by its name, or a length and a width";
        faults.add("bed", "", allowed, "the bed is needed for an answer");
    }
    asked?.read(garden, system, faults)
}

impl BedAsked {
    /// Reads the bed, from the record where it is named.
    pub fn read(&self, garden: &Garden, system: System, faults: &mut Faults) -> Option<Meant> {
        match self {
            Self::Described(described, shape) => {
                let meant = described.read(system, faults)?;
                Some(Meant { shape: Some(shape.clone()), ..meant })
            }
            Self::Named(name) => {
                let Text(called) = name.need(faults)?;
                let by_name =
                    || garden.beds.iter().find(|bed| bed.name.eq_ignore_ascii_case(&called));
                let Some(known) = garden.bed(&called).or_else(by_name) else {
                    name.refuse(
                        faults,
                        beds_known(garden),
                        "there is no bed of that name in the record",
                    );
                    return None;
                };
                // What the record holds was checked when it was written; a fault here still shows.
                let shape = Value::Object(known.shape.clone());
                let described = Described::from_given(Some(&shape), name.field(), faults);
                let meant = described.read(system, faults)?;
                Some(Meant { id: Some(known.id.clone()), name: Some(known.name.clone()), ..meant })
            }
        }
    }
}

fn beds_known(garden: &Garden) -> String {
    let names: Vec<&str> = garden.beds.iter().map(|bed| bed.name.as_str()).collect();
    if names.is_empty() {
        "a bed described by its length and width, as none is in the record".to_owned()
    } else {
        format!("a bed described by its length and width, or one of: {}", names.join(", "))
    }
}
