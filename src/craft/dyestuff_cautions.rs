//! What the dyestuffs themselves can do, by their ids: natural is not harmless.
//!
//! An id that isn't listed has the lines that hold for any plant. As in `cautions`, each line has its source, and most
//! have none: what a plant does to the one it troubles is told in the trade more than it is published.

use crate::msg;

use super::cautions::{Caution, DYE_DUST, PLANTS, WALNUT};

/// What a dyestuff can do to the one who handles it, and to the animals of the house; never empty.
///
/// ```
/// use potside::craft::dyestuff_cautions::for_dyestuff;
///
/// assert!(for_dyestuff("walnut-hull")[0].text.contains("rash"));
/// ```
#[must_use]
pub fn for_dyestuff(id: &str) -> &'static [Caution] {
    KNOWN
        .iter()
        .find(|(ids, _)| ids.contains(&id))
        .map_or(&[PLANTS], |(_, lines)| lines)
}

/// Whether a dyestuff has lines of its own.
#[must_use]
pub fn is_known(id: &str) -> bool {
    KNOWN.iter().any(|(ids, _)| ids.contains(&id))
}

/// What grinding makes of any dyestuff: dust.
pub const GROUND: Caution = DYE_DUST;

const FROM_MEMORY: &str = msg!("from memory");
const DUST_PAGES: &str = "National Society for Education in Art and Design, page on dyes; King County (Washington) \
                          hazardous-waste programme, pages for textile artists";
const SHEET_TANNIN: &str = "safety data sheet of tannic acid";
const VETERINARY: &str = "Coleman and Merola, JAVMA 248(2), black walnut in dogs";

const fn caution(text: &'static str, source: &'static str) -> Caution {
    Caution { text, source }
}

/// Ids, and the lines of all of them.
const KNOWN: [(&[&str], &[Caution]); 13] = [
    (
        &["walnut-hull"],
        &[
            WALNUT,
            caution(
                msg!("Mouldy walnut hulls poison dogs: cask and spent hulls out of their reach."),
                VETERINARY,
            ),
        ],
    ),
    (
        &["madder-root"],
        &[caution(
            msg!("Madder root is suspected of causing cancer when swallowed: no dust, no tasting."),
            FROM_MEMORY,
        )],
    ),
    (
        &["cochineal", "lac"],
        &[caution(
            msg!("Insect dyes can bring asthma and strong allergy: a mask for the powder."),
            DUST_PAGES,
        )],
    ),
    (
        &["logwood"],
        &[caution(
            msg!("Logwood dust harms when it is breathed or swallowed: weigh it gently, wet it first."),
            DUST_PAGES,
        )],
    ),
    (
        &["old-fustic", "osage-orange", "quercitron-bark", "alder-bark"],
        &[caution(
            msg!("Wood and bark dust irritate and can bring asthma: wet them before you handle them."),
            DUST_PAGES,
        )],
    ),
    (
        &[
            "cutch",
            "oak-gall",
            "oak-bark",
            "pomegranate-rind",
            "sumac-leaf",
            "myrobalan",
        ],
        &[caution(
            msg!("Tannin powder irritates eyes, skin and breath; don't breathe it day by day."),
            SHEET_TANNIN,
        )],
    ),
    (
        &["marigold", "chamomile", "goldenrod"],
        &[caution(
            msg!("Flowers of the daisy family can bring a rash or hay fever: gloves, moving air."),
            FROM_MEMORY,
        )],
    ),
    (
        &["onion-skin"],
        &[caution(
            msg!("Onion poisons dogs and cats, boiled too: bag and bath out of their reach."),
            FROM_MEMORY,
        )],
    ),
    (
        &["weld"],
        &[caution(
            msg!("Handling much weld can trouble the skin: gloves for chopping it."),
            FROM_MEMORY,
        )],
    ),
    (
        &["heather"],
        &[caution(
            msg!("Heather from the hill brings dust and ticks: shake it outdoors, look yourself over."),
            FROM_MEMORY,
        )],
    ),
    (
        &["turmeric"],
        &[caution(
            msg!("Once in the dye room turmeric is no spice any more; mark the packet."),
            msg!("common practice, no source"),
        )],
    ),
    (
        &["indigo", "indigo-paste", "woad"],
        &[caution(
            msg!("Indigo powder irritates breath and stains: wet it before you stir it."),
            FROM_MEMORY,
        )],
    ),
    (
        &["tansy", "buckthorn", "privet"],
        &[caution(
            msg!("This plant is poisonous when eaten: gloves, and keep it from animals and children."),
            FROM_MEMORY,
        )],
    ),
];
