//! Beds as they are laid out and changed.

use serde_json::Value;
use uom::si::length::foot;

use crate::{
    bed::{Bed, Described, sides_apart},
    garden::{self, Garden},
    given::{Faults, FromGiven, Refusal},
    journal::{About, Draft, Ulid, What, details},
    plan,
    quantity::{Length, Quantity, System},
};

/// The draft that lays a bed out, or changes the one with this id.
///
/// # Errors
/// Every field of the described bed that can't be read, named `bed.…` as on the form.
pub fn bed(id: &str, described: &Value, garden: &Garden, system: System) -> Result<Draft, Refusal> {
    let mut faults = Faults::default();
    let described = sides_apart(described.as_object().cloned().unwrap_or_default());
    let given = Value::Object(described.clone());
    let fields = Described::from_given(Some(&given), "bed", &mut faults);
    let meant = fields.read(system, &mut faults);
    let name = fields.name.read(&mut faults).map(|name| name.0);
    if let Some(name) = &name
        && garden.beds.iter().any(|bed| bed.gone.is_none() && bed.id != id && bed.name == *name)
    {
        fields.name.refuse(&mut faults, "a name that no other bed has", "another bed is called so");
    }
    let draft = meant.map(|_| {
        let name = name.unwrap_or_else(|| garden.next_bed_name());
        let id = if id.is_empty() { garden.free_bed_id(&name) } else { id.to_owned() };
        let mut shape = described;
        shape.remove("name");
        let what = details::Bed { name: Some(name), bed: Some(shape), gone: false };
        Draft { about: About::bed(&id), what: What::Bed(what) }
    });
    faults.or_refuse(draft)
}

/// Gives each bed that these drafts lay out anew an id that no other phone gives one: from the bed's name and
/// from `ids`, the ids the drafts will have as entries.
pub fn name_beds(drafts: &mut [Draft], ids: &[Ulid], garden: &Garden) {
    let named = drafts.iter().zip(ids).filter_map(|(draft, entry)| match &draft.what {
        What::Bed(details::Bed { name: Some(name), gone: false, .. }) => {
            let id = draft.about.bed.clone().filter(|id| garden.bed(id).is_none())?;
            Some((id, garden.new_bed_id(name, *entry)))
        }
        _ => None,
    });
    for (before, id) in named.collect::<Vec<_>>() {
        for draft in drafts.iter_mut().filter(|it| it.about.bed.as_ref() == Some(&before)) {
            draft.about.bed = Some(id.clone());
        }
    }
}

/// The shape of a bed of the record, if it can be drawn.
pub fn shape(bed: &garden::Bed) -> Option<Bed> {
    plan::shape(&bed.shape)
}

/// "8 ft by 4 ft".
pub fn size(bed: &garden::Bed, system: System) -> String {
    shape(bed).map_or_else(String::new, |shape| {
        let (length, width) = (shape.length().to_length(), shape.width().to_length());
        // Feet for both where either is told in feet: "8 ft by 3 ft", not "8 ft by 36 in".
        let in_feet = |side: Length| {
            let feet = side.get::<foot>();
            system == System::Us && (feet - feet.round()).abs() < 0.01 && feet >= 1.0
        };
        let show = |side: Length| {
            if in_feet(side) {
                format!("{} ft", crate::quantity::number::show_number(side.get::<foot>(), 0))
            } else {
                side.show(system)
            }
        };
        format!("{} by {}", show(length), show(width))
    })
}
