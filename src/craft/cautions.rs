//! What can hurt, by substance and by activity, in lines short enough to read at arm's length.
//!
//! The lines are our own words for hazards that the named sources state. They stand before the start, at the step
//! they belong to and on the record, and each list ends, wherever it is shown, with [`DEFERRAL`].

use crate::msg;

use super::quantity::Temperature;
use super::substance::Substance;

/// One line of caution and where its fact is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// At most ninety characters, a whole sentence.
    pub text: &'static str,
    /// The published source, or that there is none.
    pub source: &'static str,
}

/// The line that closes every list of cautions.
pub const DEFERRAL: Caution = Caution {
    text: msg!("The label, the safety data sheet, local rules and licensed people come before these lines."),
    source: COMMON_PRACTICE,
};

/// What to wear while a substance is weighed and dissolved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Marks {
    /// Gloves.
    pub gloves: bool,
    /// Goggles.
    pub eyes: bool,
    /// A dust mask.
    pub mask: bool,
}

/// Whether a substance is on the lists a dyer picks from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Offer {
    /// Always.
    Offered,
    /// Only once the dyer has turned it on, having been shown its cautions.
    OffUntilTurnedOn,
    /// Never: it is only named in recipes that are shown and not begun.
    OnlyToBeRead,
}

/// Something that is never offered, and never accepted in a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NeverOffered {
    /// What it is, in words.
    pub name: &'static str,
    /// Words of old and new recipes that mean it, lower case, hyphens for spaces.
    pub words: &'static [&'static str],
    /// Why not.
    pub caution: Caution,
}

/// What is being done, as far as it has cautions of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Activity {
    /// Hands near a hot bath.
    HotLiquor,
    /// Opening a lid, a bath near the boil.
    Steam,
    /// Lifting goods or a pot.
    LiftingHot,
    /// Heat that stays on.
    UnattendedHeat,
    /// Any use of pots, spoons and scales.
    FoodSeparation,
    /// Weighing and stirring in powders.
    Dust,
    /// Simmering metals, acids or strong-smelling stuff.
    Ventilation,
    /// A room others can enter.
    ChildrenAndAnimals,
    /// Alkali or chalk meeting alum or acid.
    AlkaliFizz,
    /// Wool meeting a change of temperature.
    WoolShock,
    /// Working with plants and insects.
    Dyestuffs,
    /// Emptying a bath.
    Disposal,
    /// Emptying a bath that held iron, copper or tin.
    MetalDisposal,
}

/// What hands may do in a bath of a temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hands {
    /// Bare hands may.
    Free,
    /// Gloves and shortly: a deep burn takes about this many seconds.
    GlovesShortly {
        /// Seconds to a deep burn of an adult, by the published table.
        burn_seconds: u32,
    },
    /// No hands: a tool only. A deep burn takes about this many seconds or fewer.
    ToolOnly {
        /// Seconds to a deep burn of an adult, by the published table.
        burn_seconds: u32,
    },
}

impl Activity {
    /// Every activity, in the order shown.
    pub const ALL: [Self; 13] = [
        Self::HotLiquor,
        Self::Steam,
        Self::LiftingHot,
        Self::UnattendedHeat,
        Self::FoodSeparation,
        Self::Dust,
        Self::Ventilation,
        Self::ChildrenAndAnimals,
        Self::AlkaliFizz,
        Self::WoolShock,
        Self::Dyestuffs,
        Self::Disposal,
        Self::MetalDisposal,
    ];
}

/// What a substance can do to the one who handles it.
#[must_use]
pub const fn for_substance(substance: Substance) -> &'static [Caution] {
    match substance {
        Substance::PotashAlum | Substance::AmmoniumAlum | Substance::SodaAlum => &[ALUM, ALUM_SWALLOWED],
        Substance::BurntAlum => &[ALUM, BURNT_ALUM, ALUM_SWALLOWED],
        Substance::AluminiumSulfate14
        | Substance::AluminiumSulfate16
        | Substance::AluminiumSulfate17
        | Substance::AluminiumSulfate18 => &[ALUMINIUM_SULFATE_EYES, ALUMINIUM_SULFATE_METAL],
        Substance::AluminiumTriacetate | Substance::AluminiumMonoacetate | Substance::AluminiumDiacetate => {
            &[ALUMINIUM_ACETATE, ACETATE_FUMES]
        }
        Substance::SodiumAcetate | Substance::SodiumAcetateTrihydrate | Substance::CalciumAcetate => {
            &[MILD_DUST]
        }
        Substance::CreamOfTartar => &[TARTAR],
        Substance::TartaricAcid | Substance::CitricAcid | Substance::CitricAcidMonohydrate => &[FRUIT_ACID],
        Substance::TannicAcid => &[TANNIN],
        Substance::FerrousSulfate7 | Substance::FerrousSulfate1 => &[IRON_CHILDREN, IRON_EYES, IRON_FIBRE],
        Substance::CopperSulfate5 => &[COPPER_EYES, COPPER_WATER, COPPER_KITCHEN],
        Substance::TinChloride2 => &[TIN_BURNS, TIN_FIBRE],
        Substance::SodaAsh | Substance::SodaMonohydrate | Substance::SodaCrystals => {
            &[SODA_EYES, SODA_FIZZ, SODA_WOOL]
        }
        Substance::BakingSoda => &[FIZZ],
        Substance::Chalk => &[CHALK, FIZZ],
        Substance::SlakedLime => &[LIME_EYES, LIME_DUST],
        Substance::NeutralSoap | Substance::NeutralDetergent => &[SOAP],
        Substance::Vinegar => &[VINEGAR],
        Substance::ZincDust => &[ZINC_FIRE, ZINC_SWALLOWED],
        Substance::SodiumHydrosulphite => &[HYDROSULPHITE_FIRE, HYDROSULPHITE_ACID],
        Substance::WheatBran | Substance::Fructose | Substance::Salt => &[FOOD_ONCE_HERE],
    }
}

/// What to wear while a substance is weighed and dissolved.
#[must_use]
pub const fn marks(substance: Substance) -> Marks {
    let (gloves, eyes, mask) = match substance {
        Substance::PotashAlum | Substance::AmmoniumAlum | Substance::SodaAlum => (true, false, true),
        Substance::BurntAlum
        | Substance::AluminiumSulfate14
        | Substance::AluminiumSulfate16
        | Substance::AluminiumSulfate17
        | Substance::AluminiumSulfate18
        | Substance::AluminiumTriacetate
        | Substance::AluminiumMonoacetate
        | Substance::AluminiumDiacetate
        | Substance::TannicAcid
        | Substance::FerrousSulfate7
        | Substance::FerrousSulfate1
        | Substance::CopperSulfate5
        | Substance::TinChloride2
        | Substance::SodaAsh
        | Substance::SodaMonohydrate
        | Substance::SlakedLime
        | Substance::ZincDust
        | Substance::SodiumHydrosulphite => (true, true, true),
        Substance::SodaCrystals => (true, true, false),
        Substance::TartaricAcid | Substance::CitricAcid | Substance::CitricAcidMonohydrate => {
            (true, true, false)
        }
        Substance::SodiumAcetate
        | Substance::CalciumAcetate
        | Substance::CreamOfTartar
        | Substance::Chalk => (false, false, true),
        Substance::SodiumAcetateTrihydrate
        | Substance::BakingSoda
        | Substance::NeutralSoap
        | Substance::NeutralDetergent
        | Substance::WheatBran
        | Substance::Fructose
        | Substance::Vinegar
        | Substance::Salt => (false, false, false),
    };
    Marks { gloves, eyes, mask }
}

/// Whether a substance is offered without being turned on. Tin and copper aren't; zinc dust and hydrosulphite never are.
#[must_use]
pub const fn offer(substance: Substance) -> Offer {
    match substance {
        Substance::CopperSulfate5 | Substance::TinChloride2 => Offer::OffUntilTurnedOn,
        Substance::ZincDust | Substance::SodiumHydrosulphite => Offer::OnlyToBeRead,
        Substance::PotashAlum
        | Substance::AmmoniumAlum
        | Substance::SodaAlum
        | Substance::BurntAlum
        | Substance::AluminiumSulfate14
        | Substance::AluminiumSulfate16
        | Substance::AluminiumSulfate17
        | Substance::AluminiumSulfate18
        | Substance::AluminiumTriacetate
        | Substance::AluminiumMonoacetate
        | Substance::AluminiumDiacetate
        | Substance::SodiumAcetate
        | Substance::SodiumAcetateTrihydrate
        | Substance::CalciumAcetate
        | Substance::CreamOfTartar
        | Substance::TartaricAcid
        | Substance::CitricAcid
        | Substance::CitricAcidMonohydrate
        | Substance::TannicAcid
        | Substance::FerrousSulfate7
        | Substance::FerrousSulfate1
        | Substance::SodaAsh
        | Substance::SodaMonohydrate
        | Substance::SodaCrystals
        | Substance::BakingSoda
        | Substance::Chalk
        | Substance::SlakedLime
        | Substance::NeutralSoap
        | Substance::NeutralDetergent
        | Substance::WheatBran
        | Substance::Fructose
        | Substance::Vinegar
        | Substance::Salt => Offer::Offered,
    }
}

/// What is never offered that a word or an id means, if any: `potash-bichromate`, `sugar of lead`.
#[must_use]
pub fn never_offered(word: &str) -> Option<&'static NeverOffered> {
    let word = word.trim().to_lowercase().replace([' ', '_'], "-");
    NEVER_OFFERED.iter().find(|never| {
        never
            .words
            .iter()
            .any(|known| word == *known || format!("-{word}-").contains(&format!("-{known}-")))
    })
}

/// What an activity can do to the one who does it.
#[must_use]
pub const fn for_activity(activity: Activity) -> &'static [Caution] {
    match activity {
        Activity::HotLiquor => &[SCALD_60, SCALD_BELOW, SCALD_CHILDREN],
        Activity::Steam => &[LID, HEADSPACE],
        Activity::LiftingHot => &[LIFT_COOL, LIFT_TOOL],
        Activity::UnattendedHeat => &[UNATTENDED],
        Activity::FoodSeparation => &[FOOD_TOOLS, FOOD_TABLE],
        Activity::Dust => &[DUST_GENTLY, DUST_WIPE],
        Activity::Ventilation => &[AIR, OUTDOORS],
        Activity::ChildrenAndAnimals => &[CHILDREN, ANIMALS],
        Activity::AlkaliFizz => &[SODA_FIZZ, FIZZ],
        Activity::WoolShock => &[WOOL_SHOCK],
        Activity::Dyestuffs => &[PLANTS, DYE_DUST],
        Activity::Disposal => &[STORM_DRAIN, SEPTIC, ASK_LOCALLY],
        Activity::MetalDisposal => &[METALS, STORM_DRAIN, ASK_LOCALLY],
    }
}

/// What hands may do at a temperature. 43 C and below is free; from 60 C only a tool (own reading of the table).
///
/// The time is that of the next hotter row of the published table of deep burns of adult skin, so it errs short;
/// children burn sooner. Between 43 and 44 C, the threshold, the time is the six hours of 44 C.
#[must_use]
pub fn hands(at: Temperature) -> Hands {
    let burn_seconds = DEEP_BURN
        .iter()
        .find(|(celsius, _)| *celsius >= at.celsius())
        .map_or(1, |(_, seconds)| *seconds);
    if at.celsius() <= HANDS_FREE_AT_MOST_C {
        Hands::Free
    } else if at.celsius() < TOOL_ONLY_FROM_C {
        Hands::GlovesShortly { burn_seconds }
    } else {
        Hands::ToolOnly { burn_seconds }
    }
}

/// What is never offered. Old recipes name them; they serve as arithmetic at most.
pub const NEVER_OFFERED: [NeverOffered; 6] = [
    NeverOffered {
        name: msg!("chrome"),
        words: &[
            "chrome",
            "chromium",
            "dichromate",
            "bichromate",
            "chromate",
            "potassium-dichromate",
            "chrome-alum",
        ],
        caution: Caution {
            text: msg!("Chrome causes cancer and skin allergy; it has no place here."),
            source: "King County (Washington) hazardous-waste programme, safer practices for textile artists",
        },
    },
    NeverOffered {
        name: msg!("lead"),
        words: &["lead", "lead-acetate", "sugar-of-lead", "litharge"],
        caution: Caution {
            text: msg!("Lead poisons, and stays in the body; it has no place here."),
            source: FROM_MEMORY,
        },
    },
    NeverOffered {
        name: msg!("arsenic"),
        words: &["arsenic", "arsenite", "arsenate", "orpiment", "realgar"],
        caution: Caution {
            text: msg!("Arsenic is a deadly poison and causes cancer; it has no place here."),
            source: FROM_MEMORY,
        },
    },
    NeverOffered {
        name: msg!("strong acid"),
        words: &[
            "sulfuric-acid",
            "sulphuric-acid",
            "oil-of-vitriol",
            "nitric-acid",
            "aqua-fortis",
            "muriatic-acid",
            "hydrochloric-acid",
            "spirits-of-salt",
            "aqua-regia",
            "red-spirits",
            "tin-spirits",
            "oxalic-acid",
        ],
        caution: Caution {
            text: msg!("Strong acids and oxalic acid burn flesh and kill when swallowed; none is used here."),
            source: "King County hazardous-waste programme; ILO Encyclopaedia for oxalic acid",
        },
    },
    NeverOffered {
        name: msg!("caustic alkali"),
        words: &[
            "caustic",
            "caustic-soda",
            "lye",
            "sodium-hydroxide",
            "caustic-potash",
            "quicklime",
        ],
        caution: Caution {
            text: msg!(
                "Caustics and quicklime burn skin and eyes, and heat fiercely in water; none is used here."
            ),
            source: "safety data sheets of calcium oxide and hydroxide; King County hazardous-waste programme",
        },
    },
    NeverOffered {
        name: msg!("strong ammonia"),
        words: &["ammonia", "hartshorn", "stale-urine"],
        caution: Caution {
            text: msg!("Strong ammonia burns eyes and lungs; wool is washed here without it."),
            source: "King County hazardous-waste programme, safer practices for textile artists",
        },
    },
];

const HANDS_FREE_AT_MOST_C: f64 = 43.0;
const TOOL_ONLY_FROM_C: f64 = 60.0;

/// Celsius, and seconds to a deep burn of adult skin: the Moritz and Henriques 1947 family, read in secondary
/// tables (an anti-scald table and one of the consumer safety commission's type).
const DEEP_BURN: [(f64, u32); 15] = [
    (44.0, 21_600),
    (45.0, 10_800),
    (47.0, 2_700),
    (48.0, 1_200),
    (48.9, 300),
    (51.0, 252),
    (51.7, 120),
    (54.4, 30),
    (55.0, 30),
    (57.2, 10),
    (60.0, 5),
    (62.8, 3),
    (65.6, 2),
    (68.3, 1),
    (100.0, 1),
];

const COMMON_PRACTICE: &str = msg!("common practice, no source");
const FROM_MEMORY: &str = msg!("from memory");
const SHEET_ALUM: &str = "two safety data sheets of potash alum, which differ; the stricter is followed";
const SHEET_ALUMINIUM_SULFATE: &str = "safety data sheet of aluminium sulfate: H318, H290";
const SHEET_IRON: &str = "GisChem sheet and safety data sheet of iron(II) sulfate: H302, H315, H319";
const CARD_COPPER: &str = "International Chemical Safety Card 1416, copper sulfate";
const CARD_HYDROSULPHITE: &str = "International Chemical Safety Card 1717, sodium dithionite";
const SHEET_LIME: &str = "safety data sheet of calcium hydroxide: H315, H318, H335";
const SHEET_TANNIN: &str = "safety data sheet of tannic acid";
const BURN_TABLES: &str = "secondary tables after Moritz and Henriques 1947";
const KING_COUNTY: &str = "King County (Washington) hazardous-waste programme, pages for textile artists";
const SCHOOL_GUIDE: &str = "California OEHHA guideline on art materials in schools, 2014";
const HEALTH_DEPARTMENT: &str = "Washington State Department of Health, waste disposal for artists";
const ART_EDUCATION: &str = "National Society for Education in Art and Design, page on dyes";
const VETERINARY: &str = "Coleman and Merola, JAVMA 248(2), black walnut in dogs";
const MAIRET: &str = "Mairet, Vegetable Dyes, 1938";

const fn caution(text: &'static str, source: &'static str) -> Caution {
    Caution { text, source }
}

const ALUM: Caution = caution(
    msg!("Alum dust irritates eyes, skin and throat; weigh it gently."),
    SHEET_ALUM,
);
const ALUM_SWALLOWED: Caution = caution(
    msg!("Alum is harmful when swallowed; keep it from children."),
    SHEET_ALUM,
);
const BURNT_ALUM: Caution = caution(
    msg!("Burnt alum heats up as it takes up water; add it to water little by little."),
    FROM_MEMORY,
);
const ALUMINIUM_SULFATE_EYES: Caution = caution(
    msg!("Aluminium sulfate can damage eyes for good; wear goggles. It is not as mild as alum."),
    SHEET_ALUMINIUM_SULFATE,
);
const ALUMINIUM_SULFATE_METAL: Caution = caution(
    msg!("Its solution eats bare metal; use steel, enamel, glass or plastic."),
    SHEET_ALUMINIUM_SULFATE,
);
const ALUMINIUM_ACETATE: Caution = caution(
    msg!("Aluminium acetate dust irritates eyes and throat; weigh it gently."),
    FROM_MEMORY,
);
const ACETATE_FUMES: Caution = caution(
    msg!("A warm acetate bath gives off vinegar fumes; keep air moving past the pot."),
    FROM_MEMORY,
);
const MILD_DUST: Caution = caution(
    msg!("Fine powder: keep the dust out of eyes and breath."),
    FROM_MEMORY,
);
const TARTAR: Caution = caution(
    msg!("Cream of tartar is a food acid; only its dust bothers."),
    FROM_MEMORY,
);
const FRUIT_ACID: Caution = caution(
    msg!("Crystals and strong solution sting eyes badly; rinse at once."),
    FROM_MEMORY,
);
const TANNIN: Caution = caution(
    msg!("Tannin powder irritates eyes, skin and breath; don't breathe it day by day."),
    SHEET_TANNIN,
);
const IRON_CHILDREN: Caution = caution(
    msg!("A little iron can kill a child: lock it away; if swallowed, call for help at once."),
    SHEET_IRON,
);
const IRON_EYES: Caution = caution(
    msg!("Iron sulfate irritates skin and hurts eyes; gloves and goggles."),
    SHEET_IRON,
);
const IRON_FIBRE: Caution = caution(
    msg!("Too much iron hardens wool and rots silk and cotton; keep to the dose."),
    "Mairet, Vegetable Dyes, 1938; Wilson, Carr and Hacke, Chemistry Central Journal 2012, 6:44",
);
const COPPER_EYES: Caution = caution(
    msg!("Copper sulfate can damage eyes for good; wear goggles."),
    CARD_COPPER,
);
const COPPER_WATER: Caution = caution(
    msg!("It kills life in water for a long time: collect every bath, pour none away."),
    CARD_COPPER,
);
const COPPER_KITCHEN: Caution = caution(
    msg!("Harmful when swallowed; not in a room where food is made."),
    CARD_COPPER,
);
const TIN_BURNS: Caution = caution(
    msg!("Tin chloride burns skin and eyes; gloves, goggles, moving air."),
    FROM_MEMORY,
);
const TIN_FIBRE: Caution = caution(
    msg!("Tin makes wool harsh and brittle; least dose, at the end."),
    "Mairet, A Book on Vegetable Dyes, 1916",
);
const SODA_EYES: Caution = caution(
    msg!("Soda stings eyes badly and dries skin; gloves and goggles."),
    FROM_MEMORY,
);
const SODA_FIZZ: Caution = caution(
    msg!("Soda foams up with alum or acid: half-full pot, pinch by pinch, face away."),
    "studio supplier's page, unnamed; the chemistry from memory",
);
const SODA_WOOL: Caution = caution(msg!("Soda harms wool and silk: for plant fibre only."), MAIRET);
const FIZZ: Caution = caution(
    msg!("It foams with acids and alum: add it slowly, with room in the pot."),
    FROM_MEMORY,
);
const CHALK: Caution = caution(msg!("Chalk is mild; keep the dust out of breath."), FROM_MEMORY);
const LIME_EYES: Caution = caution(
    msg!("Lime can damage eyes for good and irritates skin; goggles, gloves."),
    SHEET_LIME,
);
const LIME_DUST: Caution = caution(msg!("Lime dust irritates the airways; wear a mask."), SHEET_LIME);
const SOAP: Caution = caution(
    msg!("Soapy floors are slippery, and soap stings in the eyes."),
    COMMON_PRACTICE,
);
const VINEGAR: Caution = caution(
    msg!("Hot vinegar fumes sting eyes and throat; keep air moving."),
    COMMON_PRACTICE,
);
const ZINC_FIRE: Caution = caution(
    msg!("Zinc dust in water or alkali gives off hydrogen, which burns: no flame, no closed jar."),
    FROM_MEMORY,
);
const ZINC_SWALLOWED: Caution = caution(
    msg!("Zinc kills life in water, and is bad to breathe and to swallow."),
    FROM_MEMORY,
);
const HYDROSULPHITE_FIRE: Caution = caution(
    msg!("Hydrosulphite heats itself in bulk and can catch fire; damp is enough. Keep it dry."),
    CARD_HYDROSULPHITE,
);
const HYDROSULPHITE_ACID: Caution = caution(
    msg!("Never near acid or bleach; it stings eyes, harms when swallowed, and harms life in water."),
    CARD_HYDROSULPHITE,
);
const FOOD_ONCE_HERE: Caution = caution(
    msg!("Once in the dye room it is no food any more; mark the packet."),
    COMMON_PRACTICE,
);

const SCALD_60: Caution = caution(
    msg!("Water of 60 C burns deep in about 5 seconds, of 68 C in about 1."),
    BURN_TABLES,
);
const SCALD_BELOW: Caution = caution(
    msg!("55 C takes about 30 seconds, 49 C about 10 minutes; hands may go in at 43 C or less."),
    BURN_TABLES,
);
const SCALD_CHILDREN: Caution = caution(
    msg!("Children burn sooner than that; keep them from the stove."),
    BURN_TABLES,
);
const LID: Caution = caution(
    msg!("Tip the lid away from you; steam burns too."),
    COMMON_PRACTICE,
);
const HEADSPACE: Caution = caution(
    msg!("Leave a quarter of the pot empty, so that nothing boils over."),
    COMMON_PRACTICE,
);
const LIFT_COOL: Caution = caution(
    msg!("Let a full pot cool where it stands; carry it only when it is hand-warm."),
    COMMON_PRACTICE,
);
const LIFT_TOOL: Caution = caution(
    msg!("Lift hot goods with a stick over the pot, and let them drain there; never by hand."),
    COMMON_PRACTICE,
);
const UNATTENDED: Caution = caution(
    msg!("Never leave a burner on and go; turn the heat off first."),
    COMMON_PRACTICE,
);
const FOOD_TOOLS: Caution = caution(
    msg!("Pots, spoons, sieves and scales of the dye work never go back to food."),
    ART_EDUCATION,
);
const FOOD_TABLE: Caution = caution(
    msg!("No eating, drinking or smoking where dye work is done."),
    KING_COUNTY,
);
const DUST_GENTLY: Caution = caution(
    msg!("Weigh powders gently, with mask and goggles on."),
    KING_COUNTY,
);
const DUST_WIPE: Caution = caution(
    msg!("Wipe up wet, never sweep dry; close the jar at once."),
    KING_COUNTY,
);
const AIR: Caution = caution(
    msg!("Keep air moving past the pot and out; an open window alone may not do."),
    KING_COUNTY,
);
const OUTDOORS: Caution = caution(
    msg!("Iron, copper and anything that stinks: outdoors if you can."),
    KING_COUNTY,
);
const CHILDREN: Caution = caution(
    msg!("Children of 12 and under can't be relied on to follow warnings; stay with them."),
    SCHOOL_GUIDE,
);
const ANIMALS: Caution = caution(
    msg!("Keep salts and baths closed, labelled and out of reach of animals."),
    COMMON_PRACTICE,
);
const WOOL_SHOCK: Caution = caution(
    msg!("Wool felts by sudden heat or cold and by rubbing: slowly up, slowly down."),
    MAIRET,
);
pub(super) const PLANTS: Caution = caution(
    msg!("Know the plant first; some are poisonous. Never taste a bath."),
    FROM_MEMORY,
);
pub(super) const WALNUT: Caution = caution(
    msg!("Walnut hulls stain skin, may bring a rash, and make dogs ill; horses too."),
    VETERINARY,
);
pub(super) const DYE_DUST: Caution = caution(
    msg!("Wood and insect dust can bring allergy; wet powders before you stir them."),
    ART_EDUCATION,
);
const STORM_DRAIN: Caution = caution(msg!("Never down a storm drain."), HEALTH_DEPARTMENT);
const SEPTIC: Caution = caution(
    msg!("Nothing with a hazard label goes into a septic tank, and next to none into a sewer."),
    HEALTH_DEPARTMENT,
);
const ASK_LOCALLY: Caution = caution(
    msg!("Guides disagree even on plain alum baths: ask the local water or waste office."),
    HEALTH_DEPARTMENT,
);
const METALS: Caution = caution(
    msg!("Collect copper and tin baths for hazardous waste; pour none away."),
    CARD_COPPER,
);
