//! The built-in book: every page reads, every figure has a source, every line fits, every hold stays under the boil.

use potside::craft::fibre::{Fibre, FibreFamily};
use potside::craft::quantity::{Concentration, LiquorRatio, PercentWof, Ramp, Temperature};
use potside::craft::substance::Substance;
use potside::craft::time::Span;
use potside::recipe::model::{Act, BathKind, Dose, Figure, MordantNeed, Recipe, Strength, Ware};
use potside::recipe::words::ActKind;
use potside::recipe::{Wrong, book, read, warnings};

#[test]
fn every_page_of_the_book_reads_without_a_fault() {
    for page in book::PAGES {
        match read(page.text) {
            Ok(recipe) => assert_eq!(recipe.id, page.id),
            Err(faults) => panic!("{}:\n{faults}", page.id),
        }
    }
    assert_eq!(book::all().len(), book::PAGES.len());
}

#[test]
fn no_page_of_the_book_deserves_a_warning() {
    for recipe in book::all() {
        assert_eq!(warnings(recipe), [], "{}", recipe.id);
    }
}

#[test]
fn every_figure_of_the_book_has_a_source_that_can_stand_for_it() {
    for recipe in book::all() {
        let mut figures = 0;
        each_source(recipe, |strength_and_text| {
            figures += 1;
            let (strength, text) = strength_and_text.unwrap_or_else(|| panic!("{}: no source", recipe.id));
            let says_practice = text.starts_with("common practice, no source");
            assert_eq!(
                says_practice,
                strength == Strength::Practice,
                "{}: {text}",
                recipe.id
            );
        });
        assert!(figures >= 5, "{}: only {figures} figures", recipe.id);
    }
}

#[test]
fn a_source_taken_from_any_figure_is_missed() {
    // Take each line that names a source out of its page, one at a time; the page must be refused each time.
    for page in book::PAGES {
        let lines: Vec<&str> = page.text.lines().collect();
        for (index, line) in lines.iter().enumerate() {
            if !line
                .split_once(" = ")
                .is_some_and(|(key, _)| key.ends_with("source"))
            {
                continue;
            }
            let mut without = lines.clone();
            without.remove(index);

            let faults = read(&without.join("\n")).expect_err("a figure without its source is refused");

            let is_missed = faults
                .as_slice()
                .iter()
                .any(|fault| matches!(fault.what, Wrong::FigureWithoutSource { .. }));
            assert!(is_missed, "{} without line {}: {faults}", page.id, index + 1);
        }
    }
}

#[test]
fn the_two_customs_of_alum_stand_apart_as_printed() {
    // Ethel M. Mairet, Vegetable Dyes, 1938, Alum: 1 lb wool, 1/4 lb alum, 1 oz tartar. Sixteen ounces to the pound.
    let doses = |id: &str| -> Vec<f64> {
        let recipe = book::by_id(id).unwrap();
        recipe
            .additions
            .iter()
            .map(|addition| wof(&addition.dose).chosen.percent())
            .collect()
    };
    assert_eq!(doses("alum-tartar-book"), [100.0 * 4.0 / 16.0, 100.0 / 16.0]);
    // Common practice, no source.
    assert_eq!(doses("alum-tartar-studio"), [15.0, 6.0]);
    let studio = book::by_id("alum-tartar-studio").unwrap();
    let range = wof(&studio.additions[0].dose).range.unwrap();
    assert_eq!((range.0.percent(), range.1.percent()), (10.0, 20.0));
}

#[test]
fn wool_is_never_boiled_and_scoured_no_hotter_than_the_book_allows() {
    for recipe in book::all() {
        let mut goods_in = false;
        for step in &recipe.steps {
            if let Act::Enter { at_most } = &step.act {
                goods_in = true;
                assert!(at_most.chosen.celsius() <= 50.0, "{}: goods enter hot", recipe.id);
            }
            if let Act::Hold { ceiling, .. } = &step.act
                && goods_in
                && is_for(recipe, FibreFamily::Hair)
            {
                let is_plant = family(recipe) == FibreFamily::Plant;
                let most = if is_plant { 100.0 } else { 93.0 };
                assert!(
                    ceiling.chosen.celsius() <= most,
                    "{}: goods are boiled",
                    recipe.id
                );
                if recipe.kind == BathKind::Scour && !is_plant {
                    // Mairet 1938: never above 140 F, which is 60 C.
                    assert_eq!(ceiling.chosen.celsius(), 60.0);
                }
            }
            if step.act.kind() == ActKind::Lift {
                goods_in = false;
            }
        }
    }
}

#[test]
fn every_bath_warms_goods_slowly_and_ends_on_the_shelf() {
    for recipe in book::all() {
        let kinds: Vec<ActKind> = recipe.steps.iter().map(|step| step.act.kind()).collect();
        assert_eq!(kinds.last(), Some(&ActKind::Shelve), "{}", recipe.id);
        let goes_in = |kind: &ActKind| matches!(kind, ActKind::Enter | ActKind::Dip);
        let entered = kinds.iter().position(goes_in).unwrap();
        for step in &recipe.steps[entered..] {
            if let Act::Raise { ramp, .. } = &step.act
                && !is_for(recipe, FibreFamily::Plant)
            {
                let ramp = ramp
                    .as_ref()
                    .unwrap_or_else(|| panic!("{}: a raise without ramp", recipe.id));
                assert!(
                    (1.0..=1.3).contains(&ramp.chosen.kelvin_per_minute()),
                    "{}",
                    recipe.id
                );
            }
        }
        assert!(
            recipe.steps.iter().all(|step| step.how.is_some()),
            "{}: a step without a how",
            recipe.id
        );
    }
}

/// Dyestuff that stays in with the goods, because its source has it so.
const WITH_THE_GOODS: [&str; 9] = [
    "madder-orange-red",
    "madder-1849",
    "madder-red-1938",
    "madder-soft-water",
    "madder-cotton",
    "cochineal-pink",
    "quercitron-silk",
    "alder-bark",
    "alder-bark-black",
];

#[test]
fn dyes_are_drawn_out_before_the_goods_go_in_unless_their_source_leaves_them_in() {
    for recipe in book::all().iter().filter(|recipe| recipe.kind == BathKind::Dye) {
        let kinds: Vec<ActKind> = recipe.steps.iter().map(|step| step.act.kind()).collect();
        let first = |kind| kinds.iter().position(|one| *one == kind);
        let entered = first(ActKind::Enter).unwrap();
        let lifted = kinds.iter().rposition(|one| *one == ActKind::Lift).unwrap();
        let is_bagged = recipe.additions.iter().any(|addition| addition.bagged);

        assert!(first(ActKind::Add).unwrap() < entered, "{}", recipe.id);
        match (is_bagged, first(ActKind::Strain)) {
            (true, Some(strained)) if WITH_THE_GOODS.contains(&recipe.id.as_str()) => {
                assert!(entered < strained && strained < lifted, "{}", recipe.id);
            }
            (true, Some(strained)) => {
                assert!(strained < entered, "{}", recipe.id);
                let is_drawn = kinds[..strained]
                    .iter()
                    .any(|kind| matches!(kind, ActKind::Hold | ActKind::Rest));
                assert!(is_drawn, "{}: nothing was drawn out", recipe.id);
            }
            (true, None) => panic!("{}: the bag stays in", recipe.id),
            (false, _) => {}
        }
    }
}

/// What takes without a mordant, each by what is said of it: walnut, catechu, alder and turmeric in Ethel M. Mairet, A
/// Book on Vegetable Dyes, 1916; the tannins of rind, gall and bark, common practice, no source.
const SUBSTANTIVE: [&str; 8] = [
    "walnut-hull",
    "cutch",
    "alder-bark",
    "turmeric",
    "pomegranate-rind",
    "oak-gall",
    "oak-bark",
    "logwood", // only where iron follows
];

#[test]
fn a_dye_without_a_mordant_is_one_that_takes_or_brings_its_own() {
    for recipe in book::all().iter().filter(|recipe| recipe.kind == BathKind::Dye) {
        let brings_alum = recipe
            .additions
            .iter()
            .any(|addition| addition.ware == Ware::Substance(Substance::PotashAlum));
        let takes = recipe.additions.iter().any(|addition| match &addition.ware {
            Ware::Dyestuff { id, .. } => SUBSTANTIVE.contains(&id.as_str()),
            Ware::Substance(_) => false,
        });
        match recipe.mordant {
            MordantNeed::None => {
                let is_told = recipe
                    .cautions
                    .iter()
                    .any(|line| line.starts_with("Without a mordant"));
                assert!(brings_alum || takes || is_told, "{}", recipe.id);
            }
            MordantNeed::Mordanted => assert!(!brings_alum, "{}", recipe.id),
            MordantNeed::NotADye => panic!("{} is a dye", recipe.id),
        }
    }
}

/// Plant fibre has mordants and heats of its own: a dye is for plant fibre or for wool and silk, never for both.
#[test]
fn plant_fibre_has_its_own_dyes() {
    for recipe in book::all().iter().filter(|recipe| recipe.kind == BathKind::Dye) {
        let is_plant = |fibre: &Fibre| fibre.family() == FibreFamily::Plant;
        assert!(
            recipe.fibres.iter().all(is_plant) || !recipe.fibres.iter().any(is_plant),
            "{}",
            recipe.id
        );
    }
}

fn family(recipe: &Recipe) -> FibreFamily {
    recipe.fibres[0].family()
}

#[test]
fn look_alike_names_are_told() {
    let page = book::text_of("onion-skin").unwrap();

    let mixed = read(&page.replace("name = \"onion skin\"", "name = \"onion skin \u{430}b\"")).unwrap();
    let called = read(&page.replace("name = \"onion skin\"", "name = \"A1um (potash)\"")).unwrap();
    let namesake = read(&page.replace("wof = \"100 %\"", "wof = \"90 %\"")).unwrap();

    let told =
        |recipe: &Recipe| -> Vec<String> { warnings(recipe).iter().map(ToString::to_string).collect() };
    assert!(
        told(&mixed).iter().any(|line| line.contains("two alphabets")),
        "{:?}",
        told(&mixed)
    );
    assert!(
        told(&called)
            .iter()
            .any(|line| line.contains("called like alum (potash)")),
        "{:?}",
        told(&called)
    );
    assert_eq!(
        told(&namesake),
        ["the recipe is called like \"onion-skin\" of the built-in book, but is not it"]
    );
}

#[test]
fn the_words_of_the_format_page_are_the_words_of_the_reader() {
    let page = include_str!("../../docs/recipe-format.md");
    let ids = Fibre::ALL
        .into_iter()
        .map(Fibre::id)
        .chain(Substance::ALL.into_iter().map(Substance::id));
    let ids = ids.chain(ActKind::ALL.into_iter().map(ActKind::id));
    let ids = ids.chain(BathKind::ALL.into_iter().map(BathKind::id));
    let ids = ids.chain(Strength::ALL.into_iter().map(Strength::id));
    let ids = ids.chain(MordantNeed::ALL.into_iter().map(MordantNeed::id));

    for id in ids {
        assert!(
            page.contains(&format!("`{id}`")),
            "docs/recipe-format.md does not tell of {id}"
        );
    }
}

#[test]
fn the_example_of_the_format_page_reads() {
    let page = include_str!("../../docs/recipe-format.md");
    let example = page
        .split_once("```toml\n")
        .unwrap()
        .1
        .split_once("```")
        .unwrap()
        .0;

    let recipe = read(example).unwrap_or_else(|faults| panic!("{faults}"));

    assert!(
        recipe
            .additions
            .iter()
            .any(|addition| matches!(addition.ware, Ware::Dyestuff { .. }))
    );
}

fn is_for(recipe: &Recipe, family: FibreFamily) -> bool {
    recipe.fibres.iter().any(|fibre| fibre.family() == family)
}

fn wof(dose: &Dose) -> &Figure<PercentWof> {
    match dose {
        Dose::Wof(figure) => figure,
        Dose::PerLitre(_) | Dose::Parts { .. } => panic!("not counted on the goods"),
    }
}

/// Calls with strength and text of the source of each figure of a recipe, `None` where there is none.
fn each_source<'r>(recipe: &'r Recipe, mut see: impl FnMut(Option<(Strength, &'r str)>)) {
    macro_rules! see {
        ($kind:ty, $figure:expr) => {{
            let figure: &Figure<$kind> = $figure;
            see(recipe
                .source_of(figure)
                .map(|source| (source.strength, source.text.as_str())));
        }};
    }
    see!(LiquorRatio, &recipe.liquor);
    for addition in &recipe.additions {
        match &addition.dose {
            Dose::Wof(figure) => see!(PercentWof, figure),
            Dose::PerLitre(figure) => see!(Concentration, figure),
            Dose::Parts { parts, .. } => see!(f64, parts),
        }
    }
    if let Some(again) = &recipe.again {
        see!(u32, &again.dips);
        if let Some(add) = &again.add {
            see!(f64, add);
        }
    }
    for step in &recipe.steps {
        match &step.act {
            Act::WetOut { least } => see!(Span, least),
            Act::Enter { at_most } => see!(Temperature, at_most),
            Act::Raise { to, ramp } => {
                see!(Temperature, to);
                if let Some(ramp) = ramp {
                    see!(Ramp, ramp);
                }
            }
            Act::Hold {
                span,
                floor,
                ceiling,
                turn_every,
            } => {
                see!(Span, span);
                see!(Temperature, floor);
                see!(Temperature, ceiling);
                if let Some(turn_every) = turn_every {
                    see!(Span, turn_every);
                }
            }
            Act::Cool { to, .. } => see!(Temperature, to),
            Act::Air { span } | Act::Rest { span } => see!(Span, span),
            Act::Look { after, again, .. } => {
                see!(Span, after);
                see!(Span, again);
            }
            Act::Dip {
                at_most, under, air, ..
            } => {
                see!(Temperature, at_most);
                see!(Span, under);
                see!(Span, air);
            }
            Act::Fill
            | Act::Dissolve { .. }
            | Act::Add { .. }
            | Act::Strain { .. }
            | Act::Lift
            | Act::Squeeze
            | Act::Rinse { .. }
            | Act::Dry
            | Act::Shelve => {}
        }
    }
}
