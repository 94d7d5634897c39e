//! What is told of an amount.

use uom::si::{mass::ounce, ratio::ratio};

use super::{
    Item, Material, Share,
    amount::{Amount, Bulk, Stock},
    containers,
};
use crate::{
    catalogue::{Crop, Facet, Span, Start, garlic::Kind},
    quantity::{
        Area, Mass, Quantity, System, Volume, WHEELBARROW, show_bulk, show_number, show_spacing,
    },
    source::Source,
    telling::{Sure, Telling},
    text::{capital, count, small},
};

/// The words for an amount.
pub(super) fn told(amount: &Amount, system: System) -> Telling {
    match amount {
        Amount::Bulk(bulk) => told_bulk(bulk, system),
        Amount::Stock(stock) => told_stock(stock, system),
        Amount::Strewn { crop, area, mass } => told_strewn(crop, *area, *mass, system),
    }
}

// ---- What is spread or filled ----

fn told_bulk(bulk: &Bulk, system: System) -> Telling {
    let volume = show_bulk(bulk.volume, system);
    let what = match bulk.material {
        Material::Compost => "compost",
        Material::Mulch => "mulch",
        Material::Soil => "soil",
    };
    let sure = if bulk.depth_given { Sure::High } else { Sure::Fair };
    let mut telling = Telling::new(format!("{volume} of {what}"), sure);
    let barrows = barrows(bulk.volume, bulk.barrow);
    telling.because.push(format!(
        "{} deep over {}: {barrows}, heaped.",
        capital(&show_spacing(bulk.depth, system)),
        bulk.area.show(system),
    ));
    if !bulk.depth_given {
        telling.because.push(usual_depth(bulk.material).to_owned());
        telling.source(match bulk.material {
            Material::Mulch => Source::MinnesotaGarlic,
            _ => Source::CompostDepth,
        });
    }
    if let Some(settling) = bulk.settling {
        telling.because.push(format!(
            "New soil sinks by about a tenth in the first year: have {} more to top it up.",
            show_bulk(settling, system)
        ));
        telling.source(Source::CommonPractice);
    }
    if let Some(mass) = bulk.mass {
        telling.because.push(match bulk.material {
            Material::Mulch => format!(
                "As straw it weighs about {}; fluffed up a quarter of that, packed more than half as much again.",
                mass.show(system)
            ),
            _ => format!("It weighs about {}, wet more.", mass.show(system)),
        });
        match bulk.material {
            Material::Mulch => telling.source(Source::OnFarmComposting),
            _ => {
                telling.source(Source::OregonHeaps);
                telling.source(Source::MassachusettsHeaps);
            }
        }
    }
    let barrow = show_bulk(bulk.barrow, system);
    telling.look_for.push(if bulk.barrow == WHEELBARROW {
        format!(
            "A wheelbarrow is taken to hold {barrow} heaped; say what yours holds if it is another."
        )
    } else {
        format!("Your wheelbarrow holds {barrow} heaped.")
    });
    telling.look_for.push(match bulk.material {
        Material::Mulch => {
            "Chopped plants that already lie there count as mulch: lay that much less.".to_owned()
        }
        _ => "Measure the depth after raking it level, at the middle and at the sides.".to_owned(),
    });
    telling.cautions.push(
        "Dust of compost, potting mix and mouldy straw can harm the lungs: open bags away from your face, \
         keep it damp, and wash your hands."
            .to_owned(),
    );
    telling.source(Source::SafetyRecalled);
    telling
}

fn usual_depth(material: Material) -> &'static str {
    match material {
        Material::Compost => {
            "An inch (2.5 cm) is usual before garlic, or once a year; give another depth if you like."
        }
        Material::Mulch => {
            "3 to 4 in (8 to 10 cm) is usual over garlic; against weeds straw is laid twice as deep."
        }
        // Soil has no usual depth.
        Material::Soil => "",
    }
}

/// "half a wheelbarrow", "3 wheelbarrows": enough, to the quarter of one.
fn barrows(volume: Volume, barrow: Volume) -> String {
    /// A little over counts as enough.
    const OVER: f64 = 0.02;
    let filled = (volume / barrow).get::<ratio>();
    let part = [
        (0.25, "a quarter of a wheelbarrow"),
        (0.5, "half a wheelbarrow"),
        (0.75, "three quarters of a wheelbarrow"),
    ];
    match part.iter().find(|(part, _)| filled <= part + OVER) {
        Some((_, words)) => (*words).to_owned(),
        None => match containers(volume, barrow) {
            Some(whole) => count(whole, "wheelbarrow", "wheelbarrows"),
            None => "many wheelbarrows".to_owned(),
        },
    }
}

// ---- What is planted or sown by the piece ----

fn told_stock(stock: &Stock, system: System) -> Telling {
    let sure = match (stock.item, stock.comes_up, stock.weighed) {
        (Item::Seed, None, _) => Sure::Low,
        (_, _, true) => Sure::High,
        _ => Sure::Fair,
    };
    let mut telling = Telling::new(stock_headline(stock, system), sure);
    let spacing = show_spacing(stock.spacing, system);
    telling.because.push(format!(
        "With {spacing} between, in rows as far from each other, and the outer ones {} from the sides.",
        show_spacing(stock.margin, system)
    ));
    if stock.pieces > 0 {
        tell_weight(stock, system, &mut telling);
        match stock.item {
            Item::Seed => tell_germination(stock, &mut telling),
            _ => tell_spares(stock, &mut telling),
        }
    }
    telling.look_for.push(match stock.item {
        Item::SeedGarlic => {
            "Plant firm, large cloves with their skin on; eat the small and the soft ones."
                .to_owned()
        }
        Item::Sets if are_tubers(stock) => {
            "Plant firm tubers, or pieces of them with two eyes or more.".to_owned()
        }
        Item::Sets => "Plant firm sets that have not sprouted; large ones bolt sooner.".to_owned(),
        _ => "Sow more than one at a place where that is easier, and thin to the best.".to_owned(),
    });
    if stock.item == Item::Seed {
        telling.cautions.push(
            "Coloured seed is treated with poison: don't eat it or feed it, and wash your hands."
                .to_owned(),
        );
        telling.source(Source::SafetyRecalled);
    }
    if let Some(crop) = stock.crop {
        let cautions = crop.cautions().iter().map(|&caution| caution.to_owned());
        telling.cautions.extend(cautions);
        crop.sources(Facet::Spacing).for_each(|source| telling.source(source));
        if stock.mass.is_some() && !stock.weighed {
            crop.sources(Facet::Seed).for_each(|source| telling.source(source));
        }
    }
    telling.source(Source::CommonPractice);
    telling
}

/// Whether what is called sets are tubers.
fn are_tubers(stock: &Stock) -> bool {
    stock.crop.is_some_and(|crop| crop.starts().contains(&Start::Tuber))
}

/// "128 cloves: about 2.6 lb".
fn stock_headline(stock: &Stock, system: System) -> String {
    let pieces = stock.pieces;
    if pieces == 0 {
        return format!("Nothing fits with {} between", show_spacing(stock.spacing, system));
    }
    let what = match stock.item {
        Item::SeedGarlic => count(pieces, "clove", "cloves"),
        Item::Sets if are_tubers(stock) => count(pieces, "tuber", "tubers"),
        Item::Sets => count(pieces, "set", "sets"),
        _ => {
            let name = stock.crop.map_or_else(|| stock.called.clone(), |crop| small(crop.name()));
            count(pieces, &format!("{name} seed"), &format!("{name} seeds"))
        }
    };
    match stock.mass {
        Some(mass) => format!("{what}: {}", about(mass.usual, system)),
        None => what,
    }
}

fn tell_weight(stock: &Stock, system: System, telling: &mut Telling) {
    let Some(mass) = stock.mass else {
        telling.because.push(
            "What one weighs is not known here: count and weigh a handful, and give both."
                .to_owned(),
        );
        return;
    };
    if stock.weighed {
        telling.because.push("By the handful you weighed.".to_owned());
    } else if mass.least < mass.most {
        telling.because.push(format!(
            "If they are small they weigh {}, if large {}: count and weigh a handful, and give both.",
            weight(mass.least, system),
            weight(mass.most, system)
        ));
    }
}

fn tell_spares(stock: &Stock, telling: &mut Telling) {
    let spares = stock.spares().unwrap_or(0);
    let kept = |kind| count(stock.bulbs(kind), "bulb", "bulbs");
    telling.because.push(match (stock.item, stock.kind) {
        (Item::SeedGarlic, Some(kind)) => format!(
            "Keep back {} of {}, and one more in ten in case some go soft.",
            kept(kind),
            kind.word()
        ),
        (Item::SeedGarlic, None) => format!(
            "Keep back {} of hardneck or {} of softneck, and one more in ten in case some go soft.",
            kept(Kind::Hardneck),
            stock.bulbs(Kind::Softneck)
        ),
        _ => format!("Have {spares} more in case some are soft."),
    });
    if let Some(most) = stock.staggered.filter(|most| *most > stock.pieces) {
        let more = most - stock.pieces;
        telling.because.push(format!(
            "Set staggered, {most} fit: then have {more} more, and ask how many fit for where they go."
        ));
    }
    if stock.item == Item::SeedGarlic {
        telling.source(Source::Allen2009);
    }
}

fn tell_germination(stock: &Stock, telling: &mut Telling) {
    let plants = count(stock.plants, "plant", "plants");
    telling.because.push(match stock.comes_up {
        Some(share) => {
            format!("For {plants}, as {} in 100 come up.", show_number(share.percent(), 0))
        }
        None => format!(
            "For {plants}, as about {} in 100 come up in a bed; the packet may say better.",
            show_number(Share::USUALLY_COMES_UP.percent(), 0)
        ),
    });
}

// ---- Seed that is strewn ----

fn told_strewn(crop: &Crop, area: Area, mass: Span<Mass>, system: System) -> Telling {
    let name = small(crop.name());
    let headline = format!("{} of {name} seed", capital(&about(mass.most, system)));
    let mut telling = Telling::new(headline, Sure::Fair);
    telling.because.push(format!("Strewn over {} and raked in.", area.show(system)));
    if mass.least < mass.most {
        telling.because.push(format!(
            "From {} on are published; by hand it falls unevenly, so this is the most.",
            weight(mass.least, system)
        ));
    }
    telling
        .look_for
        .push("Strew half one way and half across it, so that no patch stays bare.".to_owned());
    let cautions = crop.cautions().iter().map(|&caution| caution.to_owned());
    telling.cautions.extend(cautions);
    crop.sources(Facet::Seed).for_each(|source| telling.source(source));
    telling
}

/// "about 2.6 lb"; "less than 0.1 oz" for what no kitchen scale tells.
fn about(mass: Mass, system: System) -> String {
    let words = weight(mass, system);
    if words.starts_with("less") { words } else { format!("about {words}") }
}

fn weight(mass: Mass, system: System) -> String {
    /// Where the printed tenth would be none.
    const LEAST_OUNCES: f64 = 0.05;
    const LEAST_GRAMS: f64 = 0.05;
    match system {
        System::Us if mass.get::<ounce>() < LEAST_OUNCES => "less than 0.1 oz".to_owned(),
        System::Metric if mass.get::<uom::si::mass::gram>() < LEAST_GRAMS => {
            "less than 0.1 g".to_owned()
        }
        _ => mass.show(system),
    }
}
