//! How much was laid, as a person says it: a weight, a heap, or a depth over the bed.

use std::marker::PhantomData;

use uom::si::{f64::MassDensity, length::inch, mass_density::pound_per_cubic_yard};

use super::mixture::State;
use crate::{
    catalogue::Residue,
    given::Readable,
    quantity::{
        Area, Length, Mass, Quantity, System, Unreadable, Volume, number::read_number, show_bulk,
    },
};

/// What a bucket holds, m3: 5 US gallons.
pub const BUCKET: f64 = 0.018_927;

/// What an armful holds, m3. Common practice.
pub const ARMFUL: f64 = 0.04;

/// What a full bag holds, m3: 2 cubic feet, as most bags of mulch do (trade pages; common practice).
const BAG: f64 = 0.056_634;

const HALF_A_BAG: f64 = BAG / 2.0;

/// What a heaped shovel holds, m3: about seven to the cubic foot. Common practice.
const SHOVELFUL: f64 = 0.004;

/// What a hand holds, m3: about a cup. Common practice.
const HANDFUL: f64 = 0.000_25;

/// What a bale tied with two strings weighs, kg: 50 lb, between the 40 and 60 lb that pages on straw
/// bales tell of one 14 x 18 x 36 in.
const BALE: f64 = 22.68;

/// A measure that is taken by hand: its names, and what one is taken for.
pub struct Measure {
    names: [&'static str; 2],
    each: Amount,
}

const fn heap(name: &'static str, other: &'static str, value: f64) -> Measure {
    let volume = Volume { dimension: PhantomData, units: PhantomData, value };
    Measure { names: [name, other], each: Amount::Heap(volume) }
}

static MEASURES: [Measure; 6] = [
    heap("bucket", "bucketful", BUCKET),
    heap("armful", "armload", ARMFUL),
    heap("bag", "sack", BAG),
    heap("shovelful", "shovel", SHOVELFUL),
    heap("handful", "hand", HANDFUL),
    Measure {
        names: ["bale", "bale"],
        each: Amount::Weight(Mass { dimension: PhantomData, units: PhantomData, value: BALE }),
    },
];

impl Measure {
    /// The measure that an amount was told in, and how many of it as they stand in the text.
    fn found(text: &str) -> Option<(&'static Self, &str)> {
        let one = text.strip_suffix('s').unwrap_or(text);
        MEASURES.iter().find_map(|measure| {
            let number = measure.names.iter().find_map(|name| one.strip_suffix(name))?;
            Some((measure, number.trim()))
        })
    }

    /// The measure in a text as it was given, if it is in one.
    pub fn of(text: &str) -> Option<&'static Self> {
        let text = text.to_ascii_lowercase();
        Some(Self::found(text.trim())?.0)
    }

    /// "a bale of 50 lb": what one was taken for.
    pub fn told(&self, system: System) -> String {
        let [name, _] = self.names;
        let article = if name.starts_with('a') { "an" } else { "a" };
        // What is carried in bags is told as the trade tells it: in cubic feet.
        let size = match self.each {
            Amount::Heap(each) if each.value > HALF_A_BAG => show_bulk(each, system),
            each => each.show(system),
        };
        format!("{article} {name} of {size}")
    }
}

/// A loose heap of plants that have dried: the middle between fluffed and packed straw, lb/yd3.
/// Derived from the range of NRAES-54, *On-Farm Composting Handbook*, 1992, table A.1 (from memory).
const DRIED_HEAP: [f64; 3] = [58.0, 115.0, 227.0];

/// Of what is dry to the touch, so much is dry matter (common practice: hay and straw hold 10 to 15 %).
const AIR_DRY: f64 = 0.85;

/// Dry matter of a residue differs from the typical share by this much either way; all shares are
/// from memory.
const DRY_SHARE_SPREAD: f64 = 0.3;

/// How much of a material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A weight.
    Weight(Mass),
    /// A heap.
    Heap(Volume),
    /// A depth over the whole area.
    Layer(Length),
}

impl Amount {
    /// As the record keeps it.
    pub fn show(self, system: System) -> String {
        match self {
            Self::Weight(mass) => mass.show(system),
            Self::Heap(volume) => volume.show(system),
            Self::Layer(depth) => depth.show(system),
        }
    }

    /// Dry matter on an area: the least, the likely, the most that is reasonable.
    pub fn dry_matter(self, residue: &Residue, state: State, area: Area) -> [Mass; 3] {
        let dry_share = |share: f64| {
            [1.0 - DRY_SHARE_SPREAD, 1.0, 1.0 + DRY_SHARE_SPREAD].map(|by| (share * by).min(1.0))
        };
        let shares = dry_share(residue.dry_share());
        let volume = match self {
            Self::Weight(mass) if state == State::OvenDry => return [mass; 3],
            Self::Weight(mass) if state == State::Dry => return [mass * AIR_DRY; 3],
            Self::Weight(mass) => return shares.map(|share| mass * share),
            Self::Heap(volume) => volume,
            Self::Layer(depth) => depth * area,
        };
        let dried = state != State::Fresh && !residue.lies_dry();
        let (heap, shares) = if dried {
            (DRIED_HEAP.map(MassDensity::new::<pound_per_cubic_yard>), [AIR_DRY; 3])
        } else {
            (residue.heap(), shares)
        };
        let [thin, usual, dense] = heap;
        let [least, likely, most] = shares;
        [volume * thin * least, volume * usual * likely, volume * dense * most]
    }
}

impl Readable for Amount {
    fn allowed() -> String {
        "a weight, a heap or a depth: 5 lb, 2 wheelbarrows, a bale, a bag, a bucket, an armful, 2 in over the bed"
            .to_owned()
    }

    fn read(text: &str) -> Result<Self, Unreadable> {
        let text = text.to_ascii_lowercase();
        let text = [" over the bed", " over it", " deep", " thick"]
            .iter()
            .fold(text.as_str(), |text, end| text.strip_suffix(end).unwrap_or(text))
            .trim();
        let checked = if let Some((measure, number)) = Measure::found(text) {
            let number = match number {
                "" | "a" | "an" => 1.0,
                number => read_number(number.strip_suffix(" a").unwrap_or(number))?,
            };
            match measure.each {
                Self::Heap(each) => Self::Heap(each * number),
                Self::Weight(each) => Self::Weight(each * number),
                Self::Layer(each) => Self::Layer(each * number),
            }
        } else if let Ok(mass) = <Mass as Quantity>::read(text) {
            Self::Weight(mass)
        } else if let Ok(volume) = <Volume as Quantity>::read(text) {
            Self::Heap(volume)
        } else if let Ok(depth) = <Length as Quantity>::read(text) {
            Self::Layer(depth)
        } else {
            return Err(Unreadable {
                allowed: Self::allowed(),
                why: "no amount with its unit can be read from it".to_owned(),
            });
        };
        checked.within_reason()
    }
}

impl Amount {
    /// More than nothing and less than a truckload.
    fn within_reason(self) -> Result<Self, Unreadable> {
        let too_much = match self {
            Self::Weight(mass) => 20_000.0 < mass.value,
            Self::Heap(volume) => 50.0 < volume.value,
            Self::Layer(depth) => 40.0 < depth.get::<inch>(),
        };
        let nothing = match self {
            Self::Weight(mass) => mass.value <= 0.0,
            Self::Heap(volume) => volume.value <= 0.0,
            Self::Layer(depth) => depth.value <= 0.0,
        };
        let why = match (nothing, too_much) {
            (true, _) => "that is nothing",
            (_, true) => "that is more than a bed takes",
            _ => return Ok(self),
        };
        Err(Unreadable { allowed: Self::allowed(), why: why.to_owned() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::{mass::kilogram, volume::cubic_meter};

    #[test]
    fn measures_taken_by_hand_are_read_and_their_size_is_told() {
        let heap = |text: &str| match Amount::read(text) {
            Ok(Amount::Heap(volume)) => volume.get::<cubic_meter>(),
            other => panic!("{text}: {other:?}"),
        };
        for (text, m3) in [
            ("a bag", BAG),
            ("2 bags", 2.0 * BAG),
            ("half a sack", 0.5 * BAG),
            ("3 shovelfuls", 3.0 * SHOVELFUL),
            ("3 shovels", 3.0 * SHOVELFUL),
            ("a handful", HANDFUL),
            ("Two handfuls", 2.0 * HANDFUL),
            ("an armload", ARMFUL),
        ] {
            assert!((heap(text) - m3).abs() < 1e-12, "{text}");
        }
        let Ok(Amount::Weight(bales)) = Amount::read("2 bales") else { panic!("a weight") };
        assert!((bales.get::<kilogram>() - 2.0 * BALE).abs() < 1e-9);
        let told = |text: &str| Measure::of(text).map(|measure| measure.told(System::Us));
        assert_eq!(told("2 Bales").as_deref(), Some("a bale of 50 lb"));
        assert_eq!(told("a bag").as_deref(), Some("a bag of 2 cu ft"));
        assert_eq!(told("an armful").map(|told| told.starts_with("an armful of")), Some(true));
        assert_eq!(told("5 lb"), None);
    }

    #[test]
    fn weights_heaps_and_depths_are_read_as_people_say_them() {
        let volume = |m3| Amount::Heap(Volume::new::<cubic_meter>(m3));
        assert_eq!(Amount::read("3 kg").ok(), Some(Amount::Weight(Mass::new::<kilogram>(3.0))));
        assert_eq!(Amount::read("a bucket").ok(), Some(volume(BUCKET)));
        assert_eq!(Amount::read("Bucket").ok(), Some(volume(BUCKET)));
        assert_eq!(Amount::read("2 1/2 buckets").ok(), Some(volume(2.5 * BUCKET)));
        assert_eq!(Amount::read("half a bucket").ok(), Some(volume(0.5 * BUCKET)));
        assert_eq!(Amount::read("an armful").ok(), Some(volume(ARMFUL)));
        assert_eq!(Amount::read("2 wheelbarrows").ok(), Some(volume(0.34)));
        assert_eq!(
            Amount::read("2 in over the bed").ok(),
            Some(Amount::Layer(Length::new::<inch>(2.0)))
        );
    }

    #[test]
    fn nonsense_nothing_and_truckloads_are_refused() {
        for text in
            ["", "some", "5", "-2 kg", "0 kg", "90000 kg", "900 wheelbarrows", "buckets buckets"]
        {
            assert!(Amount::read(text).is_err(), "{text}");
        }
    }
}
