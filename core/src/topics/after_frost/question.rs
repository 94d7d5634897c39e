//! What is asked after a frost, and how it is read.

use crate::{
    asking::Asking,
    catalogue::{Crop, KnownCrop},
    garden::Bed,
    given::{Faults, Given, Text, asked, words},
    quantity::{Quantity, Temperature},
    topics::frost_tonight::air,
};

words! {
    /// What frost did, as one sees it.
    pub enum Sign {
        /// Leaves or shoots gone black or dark brown.
        Black = "black" => "black leaves",
        /// As if soaked with water, or still hard with ice.
        Glassy = "glassy" => "glassy, or hard with ice",
        /// Hanging, and not hard.
        Limp = "limp" => "limp",
        /// Edges or tips brown and dry.
        BrownEdges = "brown-edges" => "brown edges or tips",
        /// White or pale patches.
        PalePatches = "pale-patches" => "pale patches",
        /// Stems burst lengthwise.
        SplitStem = "split-stem" => "split stems",
        /// The heart, the growing point, soft or rotten.
        SoftCrown = "soft-crown" => "the heart is soft",
        /// Fruit, pods or heads soft or glassy.
        FruitSoft = "fruit-soft" => "soft fruit, pods or heads",
        /// Thawed, and firm as before.
        Firm = "firm" => "thawed and firm",
        /// New shoots or leaves.
        NewGrowth = "new-growth" => "new shoots",
    }
}

asked! {
    /// What is to be done after a frost?
    pub struct Asked {
        /// The crop, by its catalogue id or one of its names.
        crop: Given<KnownCrop> = "Crop",
        /// What is seen on it.
        signs: Vec<Given<Sign>> = "What do you see?",
        /// The night's low, if it was read there.
        low: Given<Temperature> = "The low, if you read it",
        /// The bed in the record, by its id or name.
        bed: Given<Text> = "Bed",
    }
}

/// The question read.
pub(super) struct Question<'a> {
    pub(super) crop: &'static Crop,
    pub(super) signs: Vec<Sign>,
    pub(super) low: Option<Temperature>,
    /// The low as it is written down.
    pub(super) low_text: Option<String>,
    pub(super) bed: Option<&'a Bed>,
}

/// Two signs that exclude each other.
const CLASHES: [(Sign, Sign); 2] =
    [(Sign::SoftCrown, Sign::NewGrowth), (Sign::SoftCrown, Sign::Firm)];

impl Asked {
    /// Reads the question.
    pub(super) fn read<'a>(
        &self,
        asking: &Asking<'a>,
        faults: &mut Faults,
    ) -> Option<Question<'a>> {
        let crop = self.crop.need(faults);
        let signs: Vec<Sign> = self.signs.iter().filter_map(|sign| sign.read(faults)).collect();
        let has = |sign: Sign| signs.contains(&sign);
        if !self.signs.iter().any(Given::is_given) {
            let allowed = Sign::ALL.iter().map(|sign| sign.word()).collect::<Vec<_>>().join(", ");
            faults.add("signs", "", allowed, "without what you see nothing can be told");
        }
        if let Some((one, other)) = CLASHES.iter().find(|(one, other)| has(*one) && has(*other)) {
            faults.add(
                "signs",
                &format!("{} and {}", one.word(), other.word()),
                "signs that go together",
                "a soft heart neither shoots again nor is firm: look at the heart once more",
            );
        }
        let low = air(&self.low, faults);
        let bed = self.bed.read(faults).and_then(|Text(called)| {
            let beds = || asking.garden.beds.iter();
            let by_name = || beds().find(|bed| bed.name.eq_ignore_ascii_case(&called));
            let bed = asking.garden.bed(&called).or_else(by_name);
            if bed.is_none() {
                self.bed.refuse(
                    faults,
                    "a bed of the record, by its name",
                    "there is no bed of that name in the record",
                );
            }
            bed
        });
        let today = asking.need_today(faults);
        let crop = crop?.0;
        (faults.is_empty() && today.is_some()).then(|| Question {
            crop,
            signs,
            low,
            low_text: low.map(|low| low.show(asking.system)),
            bed,
        })
    }
}
