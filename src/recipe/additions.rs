//! The additions of a recipe: letter, ware, dose.

use super::fault::{Choice, Wrong};
use super::figure::{Keys, figure, parts};
use super::model::{Addition, Dose, Form, Letter, Offered, Ware};
use super::nearest::{near, nearest};
use super::never::never_offered;
use super::raw::{NAME_CHARACTERS_MOST, Page, Table, Text, kebab};
use super::sources::Sources;
use crate::craft::cautions::{Offer, offer};
use crate::craft::fibre::{Fibre, FibreFamily};
use crate::craft::substance::Substance;

const ADDITIONS_MOST: usize = 26;

/// What the order of steps needs to know of an addition, even when the rest of it is faulty.
pub(super) struct Listed {
    pub(super) at: usize,
    pub(super) letter: Letter,
    pub(super) substance: Option<Substance>,
}

/// The additions, and what is known of them for the order of steps.
pub(super) struct Additions {
    pub(super) whole: Vec<Addition>,
    pub(super) listed: Vec<Listed>,
    /// False when a letter could not be read, so that unknown letters in steps mean nothing.
    pub(super) all_letters_known: bool,
}

pub(super) fn read(
    page: &mut Page<'_>,
    root: Table<'_>,
    fibres: &[Fibre],
    offered: Option<Offered>,
    sources: &mut Sources<'_>,
) -> Additions {
    let tables = root.tables(page, "addition", "the addition", ADDITIONS_MOST);
    let mut additions = Additions {
        whole: Vec::with_capacity(tables.len()),
        listed: Vec::new(),
        all_letters_known: true,
    };
    for table in tables {
        table.allow_only(
            page,
            &[
                "letter",
                "substance",
                "dyestuff",
                "name",
                "form",
                "wof",
                "per_litre",
                "parts",
                "of",
                "range",
                "source",
                "bagged",
            ],
        );
        let letter = table
            .text(page, "letter", NAME_CHARACTERS_MOST)
            .and_then(|text| own_letter(page, text, &additions));
        let ware = read_ware(page, table, fibres, offered);
        let dose = read_dose(page, table, letter, &additions, sources);
        let bagged = table.yes(page, "bagged");

        let Some(letter) = letter else {
            additions.all_letters_known = false;
            continue;
        };
        let substance = match &ware {
            Some(Ware::Substance(substance)) => Some(*substance),
            Some(Ware::Dyestuff { .. }) | None => None,
        };
        additions.listed.push(Listed {
            at: table.place_of("letter"),
            letter,
            substance,
        });
        if let (Some(ware), Some(dose), Some(bagged)) = (ware, dose, bagged) {
            additions.whole.push(Addition {
                letter,
                ware,
                dose,
                bagged,
            });
        }
    }
    additions
}

/// A letter as text.
pub(super) fn letter(page: &mut Page<'_>, text: Text<'_>) -> Option<Letter> {
    let mut characters = text.text.chars();
    match (characters.next(), characters.next()) {
        (Some(c), None) if c.is_ascii_uppercase() => Some(Letter(c)),
        _ => {
            page.note(
                text.at,
                Wrong::NotALetter {
                    word: text.text.to_owned(),
                },
            );
            None
        }
    }
}

/// The letter of an addition: new, and after the one before it. A letter used twice is noted and `None`.
fn own_letter(page: &mut Page<'_>, text: Text<'_>, before: &Additions) -> Option<Letter> {
    let letter = letter(page, text)?;
    if before.listed.iter().any(|listed| listed.letter == letter) {
        page.note(text.at, Wrong::LetterTwice { letter });
    } else if let Some(last) = before.listed.last()
        && last.letter > letter
    {
        page.note(
            text.at,
            Wrong::LetterOutOfOrder {
                letter,
                after: last.letter,
            },
        );
    }
    Some(letter)
}

fn read_ware(
    page: &mut Page<'_>,
    table: Table<'_>,
    fibres: &[Fibre],
    offered: Option<Offered>,
) -> Option<Ware> {
    match (table.has("substance"), table.has("dyestuff")) {
        (true, true) => {
            page.note(table.place_of("dyestuff"), Wrong::WareTwice);
            None
        }
        (false, false) => {
            page.note(table.at, Wrong::WareMissing);
            None
        }
        (true, false) => read_substance(page, table, fibres, offered),
        (false, true) => read_dyestuff(page, table),
    }
}

fn read_substance(
    page: &mut Page<'_>,
    table: Table<'_>,
    fibres: &[Fibre],
    offered: Option<Offered>,
) -> Option<Ware> {
    for key in ["name", "form"] {
        if table.has(key) {
            let wrong = Wrong::UnknownKey {
                key: key.to_owned(),
                of: "a substance",
                nearest: None,
            };
            page.note(table.place_of(key), wrong);
        }
    }
    let text = table.text(page, "substance", NAME_CHARACTERS_MOST)?;
    refuse_never_offered(page, text)?;
    let Some(substance) = Substance::from_id(text.text) else {
        let wrong = Wrong::ChoiceUnknown {
            choice: Choice::Substance,
            word: text.text.to_owned(),
            near: substances_near(text.text),
        };
        page.note(text.at, wrong);
        return None;
    };
    judge_offer(page, text.at, substance, offered);
    if is_strong_alkali(substance) {
        let animal = fibres.iter().find(|fibre| match fibre.family() {
            FibreFamily::Hair | FibreFamily::Silk => true,
            FibreFamily::Plant => false,
        });
        if let Some(fibre) = animal {
            page.note(
                text.at,
                Wrong::AlkaliOnAnimalFibre {
                    substance,
                    fibre: *fibre,
                },
            );
        }
    }
    Some(Ware::Substance(substance))
}

/// What isn't offered freely stands only in recipes whose head says so. Nothing is said where the head is faulty.
fn judge_offer(page: &mut Page<'_>, at: usize, substance: Substance, offered: Option<Offered>) {
    match (offer(substance), offered) {
        (Offer::Offered, _)
        | (_, None | Some(Offered::ReferenceOnly))
        | (Offer::OffUntilTurnedOn, Some(Offered::WhenAsked)) => {}
        (Offer::OffUntilTurnedOn, Some(Offered::Freely)) => {
            page.note(at, Wrong::OfferedFreely { substance });
        }
        (Offer::OnlyToBeRead, Some(Offered::Freely | Offered::WhenAsked)) => {
            page.note(at, Wrong::OnlyToBeRead { substance });
        }
    }
}

fn read_dyestuff(page: &mut Page<'_>, table: Table<'_>) -> Option<Ware> {
    let id = table.text(page, "dyestuff", NAME_CHARACTERS_MOST);
    let name = table.text(page, "name", NAME_CHARACTERS_MOST);
    let ids = Form::ALL.into_iter().map(Form::id);
    let form = table.choice(page, "form", Choice::Form, Form::from_id, ids);

    let id = id?;
    refuse_never_offered(page, id)?;
    let id = kebab(page, "dyestuff", id);
    let name = name?;
    refuse_never_offered(page, name)?;
    Some(Ware::Dyestuff {
        id: id?.to_owned(),
        name: name.text.to_owned(),
        form: form?,
    })
}

fn refuse_never_offered(page: &mut Page<'_>, text: Text<'_>) -> Option<()> {
    match never_offered(text.text) {
        Some(never) => {
            page.note(
                text.at,
                Wrong::NeverOffered {
                    word: text.text.to_owned(),
                    never,
                },
            );
            None
        }
        None => Some(()),
    }
}

fn read_dose(
    page: &mut Page<'_>,
    table: Table<'_>,
    letter: Option<Letter>,
    before: &Additions,
    sources: &mut Sources<'_>,
) -> Option<Dose> {
    let given: Vec<&'static str> = ["wof", "per_litre", "parts"]
        .into_iter()
        .filter(|key| table.has(key))
        .collect();
    let keys = |chosen| Keys {
        chosen,
        range: "range",
        sources: ["source", "source"],
    };
    let is_parts = given == ["parts"];
    if table.has("of") && !is_parts && given.len() < 2 {
        let wrong = Wrong::UnknownKey {
            key: "of".to_owned(),
            of: "an addition without parts",
            nearest: None,
        };
        page.note(table.place_of("of"), wrong);
    }
    match given.as_slice() {
        ["wof"] => figure(page, table, keys("wof"), sources).map(Dose::Wof),
        ["per_litre"] => figure(page, table, keys("per_litre"), sources).map(Dose::PerLitre),
        ["parts"] => {
            let parts = parts(page, table, keys("parts"), sources);
            let of = table.text(page, "of", NAME_CHARACTERS_MOST)?;
            let at = of.at;
            let of = self::letter(page, of)?;
            let is_earlier = before.listed.iter().any(|listed| listed.letter == of) && Some(of) != letter;
            if !is_earlier {
                page.note(at, Wrong::PartsOfLater { of });
            }
            Some(Dose::Parts { parts: parts?, of })
        }
        [] => {
            page.note(table.at, Wrong::DoseMissing);
            None
        }
        several => {
            page.note(table.at, Wrong::DoseTwice { count: several.len() });
            None
        }
    }
}

/// The ids a dyer may have meant: one by an old trade name, or those spelt or called alike.
fn substances_near(word: &str) -> Vec<&'static str> {
    let old = OLD_NAMES.into_iter().map(|(name, _)| name);
    let by_id = near(word, Substance::ALL.into_iter().map(Substance::id));
    if !by_id.is_empty() {
        return by_id;
    }
    let meant = nearest(word, old);
    OLD_NAMES
        .into_iter()
        .filter(|(name, _)| Some(*name) == meant)
        .map(|(_, substance)| substance.id())
        .collect()
}

/// Old trade names, for suggestions only: a recipe states the exact identity.
///
/// Source: Ethel M. Mairet, Vegetable Dyes, Faber & Faber 1938, glossary; tin crystals, iron and copper from memory.
const OLD_NAMES: [(&str, Substance); 13] = [
    ("roche-alum", Substance::PotashAlum),
    ("argol", Substance::CreamOfTartar),
    ("crude-tartar", Substance::CreamOfTartar),
    ("copperas", Substance::FerrousSulfate7),
    ("green-vitriol", Substance::FerrousSulfate7),
    ("iron", Substance::FerrousSulfate7),
    ("iron-sulfate", Substance::FerrousSulfate7),
    ("bluestone", Substance::CopperSulfate5),
    ("blue-vitriol", Substance::CopperSulfate5),
    ("copper", Substance::CopperSulfate5),
    ("tin-crystals", Substance::TinChloride2),
    ("tin", Substance::TinChloride2),
    ("washing-soda", Substance::SodaCrystals),
];

/// Alkalis that damage wool, hair and silk. Baking soda and chalk are mild: books put chalk in madder baths on wool.
pub(crate) const fn is_strong_alkali(substance: Substance) -> bool {
    use Substance as S;
    match substance {
        S::SodaAsh | S::SodaMonohydrate | S::SodaCrystals | S::SlakedLime => true,
        S::PotashAlum
        | S::AmmoniumAlum
        | S::SodaAlum
        | S::BurntAlum
        | S::AluminiumSulfate14
        | S::AluminiumSulfate16
        | S::AluminiumSulfate17
        | S::AluminiumSulfate18
        | S::AluminiumTriacetate
        | S::AluminiumMonoacetate
        | S::AluminiumDiacetate
        | S::SodiumAcetate
        | S::SodiumAcetateTrihydrate
        | S::CalciumAcetate
        | S::CreamOfTartar
        | S::TartaricAcid
        | S::CitricAcid
        | S::CitricAcidMonohydrate
        | S::TannicAcid
        | S::FerrousSulfate7
        | S::FerrousSulfate1
        | S::CopperSulfate5
        | S::TinChloride2
        | S::BakingSoda
        | S::Chalk
        | S::NeutralSoap
        | S::NeutralDetergent
        | S::WheatBran
        | S::Fructose
        | S::Vinegar
        | S::Salt
        | S::ZincDust
        | S::SodiumHydrosulphite => false,
    }
}

/// Whether a substance must be fully dissolved before it meets goods: undissolved crystals spot them.
///
/// Chalk and lime are stirred in as a slurry, bran goes in a bag, vinegar and detergent are liquid already.
pub(super) const fn must_be_dissolved(substance: Substance) -> bool {
    use Substance as S;
    match substance {
        S::Chalk | S::SlakedLime | S::WheatBran | S::Vinegar | S::NeutralDetergent | S::ZincDust => false,
        S::PotashAlum
        | S::AmmoniumAlum
        | S::SodaAlum
        | S::BurntAlum
        | S::AluminiumSulfate14
        | S::AluminiumSulfate16
        | S::AluminiumSulfate17
        | S::AluminiumSulfate18
        | S::AluminiumTriacetate
        | S::AluminiumMonoacetate
        | S::AluminiumDiacetate
        | S::SodiumAcetate
        | S::SodiumAcetateTrihydrate
        | S::CalciumAcetate
        | S::CreamOfTartar
        | S::TartaricAcid
        | S::CitricAcid
        | S::CitricAcidMonohydrate
        | S::TannicAcid
        | S::FerrousSulfate7
        | S::FerrousSulfate1
        | S::CopperSulfate5
        | S::TinChloride2
        | S::SodaAsh
        | S::SodaMonohydrate
        | S::SodaCrystals
        | S::BakingSoda
        | S::NeutralSoap
        | S::Fructose
        | S::Salt
        | S::SodiumHydrosulphite => true,
    }
}
