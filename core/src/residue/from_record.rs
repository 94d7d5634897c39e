//! What the record tells of a covered bed, as the fields of a question.

use serde_json::{Map, Value};

use crate::{
    garden::{Bed, Dated},
    journal::details::ResidueLaid,
};

/// The residue last laid on a bed, with the looks at it since, as the fields of a question.
pub(super) fn told_by(bed: &Bed) -> Option<Map<String, Value>> {
    let last = bed.residue.last()?;
    let mut fields = object(&last.what);
    fields.insert(
        "laid".to_owned(),
        Value::String(last.when.date().to_string()),
    );
    let looks = |part: Option<&str>| -> Value {
        let looks = bed.check_ins.iter().filter(|look| {
            last.when <= look.when && look.what.left.is_some() && look.what.part.as_deref() == part
        });
        looks
            .map(|look| {
                let mut fields = Map::new();
                fields.insert(
                    "date".to_owned(),
                    Value::String(look.when.date().to_string()),
                );
                fields.insert("left".to_owned(), look.what.left.into());
                Value::Object(fields)
            })
            .collect()
    };
    fields.insert("check_ins".to_owned(), looks(None));
    // Parts laid on the same day are two treatments of one bed.
    let parts: Vec<_> = bed
        .residue
        .iter()
        .filter(|laid| laid.when.date() == last.when.date() && laid.what.part.is_some())
        .collect();
    if let [one, other] = parts.as_slice() {
        let half = |laid: &Dated<ResidueLaid>| {
            let all = object(&laid.what);
            let mut fields: Map<String, Value> = all
                .into_iter()
                .filter(|(name, _)| ["placement", "moisture", "cover"].contains(&name.as_str()))
                .collect();
            let part = laid.what.part.as_deref();
            fields.insert("name".to_owned(), part.unwrap_or_default().into());
            fields.insert("check_ins".to_owned(), looks(part));
            Value::Object(fields)
        };
        fields.insert(
            "halves".to_owned(),
            Value::Array(vec![half(one), half(other)]),
        );
    }
    Some(fields)
}

/// The entry in the field names of the question; what it does not tell is null, as if not given.
fn object(laid: &ResidueLaid) -> Map<String, Value> {
    let materials = laid.materials.iter().map(|material| {
        Value::Object(fields([
            ("residue", material.residue.clone().into()),
            ("amount", material.amount.clone().into()),
            ("state", material.state.clone().into()),
        ]))
    });
    fields([
        ("materials", materials.collect()),
        ("placement", laid.placement.clone().into()),
        ("moisture", laid.moisture.clone().into()),
        ("chop", laid.chop.clone().into()),
        ("cover", laid.cover.clone().into()),
        ("flags", laid.flags.clone().into()),
    ])
}

fn fields<const N: usize>(fields: [(&str, Value); N]) -> Map<String, Value> {
    fields
        .into_iter()
        .map(|(name, value)| (name.to_owned(), value))
        .collect()
}
