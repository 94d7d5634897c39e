//! What is told after a frost.

use super::{
    answer::{Answer, Verdict},
    judge::Facts,
    question::{Question, Sign},
};
use crate::{
    asking::Asking,
    frost::seen::Span,
    journal::{About, Draft, What, details},
    quantity::Quantity,
    source::Source,
    telling::{Sure, Telling},
    text::{day, small},
    words::harm::Harm,
};

/// What the words are made from.
pub(super) struct Told<'a> {
    pub(super) question: &'a Question<'a>,
    pub(super) facts: Facts,
    pub(super) answer: &'a Answer,
    pub(super) harm: Harm,
    pub(super) span: Option<Span>,
}

impl Told<'_> {
    fn has(&self, sign: Sign) -> bool {
        self.question.signs.contains(&sign)
    }

    pub(super) fn telling(&self, asking: &Asking<'_>) -> Telling {
        let mut telling = Telling::new(self.headline(asking), Sure::Fair);
        telling.because.push(self.why().to_owned());
        telling.because.extend(self.low(asking));
        self.look_for(asking, &mut telling);
        telling.next.push(self.draft());
        self.cautions(&mut telling);
        telling.source(Source::MichiganFreezeSigns);
        telling.source(Source::LsuFreezeSigns);
        if self.answer.verdict == Verdict::PickNow {
            telling.source(Source::ColoradoFrosted2020);
        }
        telling.source(Source::CommonPractice);
        telling
    }

    fn headline(&self, asking: &Asking<'_>) -> String {
        let crop = small(self.question.crop.name());
        let again = day(self.answer.look_again, asking.today);
        match self.answer.verdict {
            Verdict::Wait if self.harm == Harm::None => {
                format!("The {crop} came through: leave it")
            }
            Verdict::Wait if self.is_frozen() => {
                format!("Leave the {crop} alone until it has thawed; look again {again}")
            }
            Verdict::Wait => format!("Leave the {crop}; look again {again}"),
            Verdict::PickNow => format!("Pick what is usable of the {crop} now"),
            Verdict::CutBack => format!("Cut the {crop} back to what is alive"),
            Verdict::Gone => format!("The {crop} is gone: clear it away"),
        }
    }

    fn is_frozen(&self) -> bool {
        self.has(Sign::Glassy) || self.has(Sign::Limp)
    }

    fn why(&self) -> &'static str {
        let tender = self.facts.is_tender;
        match self.answer.verdict {
            Verdict::Gone if self.has(Sign::SoftCrown) => {
                "It grows from the heart, and a soft heart only rots on."
            }
            Verdict::Gone => {
                "Stems burst by ice carry no water any more, and this crop stands no frost."
            }
            Verdict::CutBack => {
                "What shoots again lives: dead leaves over it only hold wet and rot."
            }
            Verdict::PickNow if self.has(Sign::FruitSoft) => {
                "What was frozen rots within days: take what is firm first, then what is only just soft."
            }
            Verdict::PickNow if tender => {
                "Its leaves are dead, so nothing on it grows or ripens well any more: take all that is sound."
            }
            Verdict::PickNow => "Burst stems rot from the split: take it while it is sound.",
            Verdict::Wait if self.harm == Harm::None => {
                "Thawed and firm it was not hurt; harm that is hidden shows within a day or two."
            }
            Verdict::Wait if self.is_frozen() => {
                "Frozen leaves look glassy and hang; many are sound again once thawed, and only then can you tell."
            }
            Verdict::Wait if self.has(Sign::Black) && tender => {
                "The leaves are dead; some plants shoot again from below, and a week tells."
            }
            Verdict::Wait if self.has(Sign::Black) => {
                "Dead outer leaves shelter the heart in the next frost; it goes on growing from within."
            }
            Verdict::Wait => {
                "That is leaf burn: it looks bad and costs little; what comes next is sound."
            }
        }
    }

    /// What the harm tells of the low.
    fn low(&self, asking: &Asking<'_>) -> Option<String> {
        let Span { from, to } = self.span?;
        let system = asking.system;
        let (from, to) = (from.show(system), to.show(system));
        Some(match &self.question.low_text {
            Some(low) if self.answer.low_clashes => format!(
                "Your thermometer says {low}, but what was seen fits {from} to {to} among the leaves: it may hang \
                 higher, or nearer to a wall, than they stand."
            ),
            _ => format!("Such harm fits a low of {from} to {to} among the leaves."),
        })
    }

    fn look_for(&self, asking: &Asking<'_>, telling: &mut Telling) {
        let look = &mut telling.look_for;
        if self.answer.verdict == Verdict::Gone {
            look.push(
                "Feel the heart of the others: firm and pale or green, they live.".to_owned(),
            );
            return;
        }
        if self.answer.verdict == Verdict::PickNow {
            look.push(
                "Glassy when thawed, soft, brown within or with a strong smell: not to be kept."
                    .to_owned(),
            );
        }
        look.push(format!(
            "Look again {}: brown or black spreads for a day or two after the thaw; a firm heart and new leaves say \
             that it lives.",
            day(self.answer.look_again, asking.today)
        ));
    }

    /// What was seen, from which the bed's nights learn.
    fn draft(&self) -> Draft {
        let bed = self.question.bed;
        Draft {
            about: bed.map(|bed| About::bed(&bed.id)).unwrap_or_default(),
            what: What::FrostSeen(details::FrostSeen {
                low: self.question.low_text.clone(),
                crop: Some(self.question.crop.id().to_owned()),
                harm: Some(self.harm.word().to_owned()),
                ..details::FrostSeen::default()
            }),
        }
    }

    fn cautions(&self, telling: &mut Telling) {
        let mut say = |words: &str| telling.cautions.push(words.to_owned());
        say(
            "Leave frozen plants alone until they have thawed by themselves: don't pick, bend or hose them before.",
        );
        if self.question.crop.eaten() {
            say(
                "Eat only what is firm, or cook what has just gone soft the same day; throw away what is slimy, \
                 mouldy or smells. What was frozen does not keep.",
            );
            if self.facts.is_tender {
                say(
                    "Fruit from vines that frost killed is not for home canning: it may be too low in acid. Tubers \
                     gone green, glassy or bitter are not eaten.",
                );
            }
        }
    }
}
