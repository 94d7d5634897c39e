//! What the record tells of a covered bed, as the fields of a question.

use chrono::NaiveDate;
use serde_json::{Map, Value};

use crate::{
    garden::{Bed, Dated},
    journal::{What, details::ResidueLaid},
    time::iso::show_date,
};

/// Residue laid longer ago than this many days has settled.
pub(super) const LONGEST_AGO: u64 = 700;

/// What lies on a bed: laid last, not so long ago that it has settled, and no crop has come and gone
/// since.
pub(crate) fn lying(bed: &Bed, today: Option<NaiveDate>) -> Option<&Dated<ResidueLaid>> {
    let last = bed.residue.last()?;
    let age = today.map_or(0, |today| (today - last.when.date()).num_days());
    let cropped = bed.past.iter().any(|past| last.when <= past.since);
    (age <= LONGEST_AGO as i64 && !cropped).then_some(last)
}

/// The parts that were laid on the same day as the last, each the last of its name: two treatments
/// of one bed.
pub(crate) fn parts<'a>(bed: &'a Bed, last: &Dated<ResidueLaid>) -> Vec<&'a Dated<ResidueLaid>> {
    let mut parts: Vec<&Dated<ResidueLaid>> = Vec::new();
    for laid in bed.residue.iter().rev() {
        let same_day = laid.when.date() == last.when.date();
        let known = parts.iter().any(|other| other.what.part == laid.what.part);
        if same_day && laid.what.part.is_some() && !known {
            parts.insert(0, laid);
        }
    }
    parts
}

/// What lies on a bed, or on one part of it, with the looks at it since, as the fields of a question.
pub(super) fn told_by(
    bed: &Bed,
    today: Option<NaiveDate>,
    part: Option<&str>,
) -> Option<Map<String, Value>> {
    let last = lying(bed, today)?;
    let parts = parts(bed, last);
    let named = |laid: &&&Dated<ResidueLaid>| laid.what.part.as_deref() == part;
    let only = match part {
        Some(_) => Some(*parts.iter().find(named)?),
        // One half alone was covered.
        None if parts.len() == 1 && last.what.part.is_some() => Some(last),
        None => None,
    };
    let base = only.unwrap_or(last);
    let part = only.and_then(|laid| laid.what.part.as_deref());
    let names =
        ["materials", "placement", "moisture", "chop", "cover", "compost", "flags", "illness"];
    let mut fields = told(&What::ResidueLaid(base.what.clone()), &names);
    fields.insert("laid".to_owned(), show_date(base.when.date()).into());
    fields.insert("part".to_owned(), part.into());
    fields.insert("check_ins".to_owned(), looks(bed, base, part));
    if let (None, [one, other]) = (only, parts.as_slice()) {
        let half = |laid: &Dated<ResidueLaid>| {
            let names = ["materials", "placement", "moisture", "cover"];
            let mut fields = told(&What::ResidueLaid(laid.what.clone()), &names);
            let part = laid.what.part.as_deref();
            fields.insert("name".to_owned(), part.into());
            fields.insert("check_ins".to_owned(), looks(bed, laid, part));
            Value::Object(fields)
        };
        fields.insert("halves".to_owned(), vec![half(one), half(other)].into());
    }
    Some(fields)
}

/// The looks at a part since it was laid.
fn looks(bed: &Bed, laid: &Dated<ResidueLaid>, part: Option<&str>) -> Value {
    let mut found: Vec<Value> = Vec::new();
    for look in &bed.check_ins {
        let it = &look.what;
        if look.when < laid.when || it.part.as_deref() != part {
            continue;
        }
        let seen = ["left", "smell", "worms", "slugs", "jar", "jar_plain"];
        let mut fields = told(&What::CheckIn(it.clone()), &seen);
        fields.insert("date".to_owned(), show_date(look.when.date()).into());
        found.push(Value::Object(fields));
    }
    found.into()
}

/// An entry's fields of these names, which are the question's too.
fn told(entry: &What, names: &[&str]) -> Map<String, Value> {
    let mut told = Map::new();
    for (name, value) in entry.object() {
        if names.contains(&name.as_str()) {
            told.insert(name, value);
        }
    }
    told
}
