//! One recipe to read: what it is for, every figure with its source, its cautions, its steps; and the act that takes it.

use crate::craft::cautions::{DEFERRAL, for_substance};
use crate::recipe::model::{Addition, BathKind, Dose, Form, MordantNeed, Offered, Recipe, Ware};
use crate::say;
use crate::view::locale::Locale;
use crate::view::pages::findings;
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen, SideAct};

use super::Reader;
use super::figures::{fact, founded};
use super::lists::{fibres, kind_title};
use super::steps::{steps, ware};

/// The recipe as a leaf.
pub(super) fn leaf(recipe: &Recipe, reader: Reader<'_>) -> LeafScreen {
    let locale = reader.locale;
    let mut blocks = Vec::new();
    blocks.extend(standing(recipe, reader));
    blocks.extend(
        reader
            .findings
            .iter()
            .map(|finding| findings::block(finding, reader.locale)),
    );
    blocks.push(words(locale.read(&recipe.about)));
    blocks.push(words(say!(
        locale,
        "For {fibres}.",
        fibres = fibres(recipe, locale)
    )));
    blocks.extend(before(recipe, locale).map(|before| plain(say!(locale, "goods"), before)));
    blocks.push(heading(say!(locale, "What goes in")));
    blocks.push(fact(
        say!(locale, "bath for each kilogram of goods"),
        &recipe.liquor,
        recipe,
        locale,
    ));
    blocks.extend(recipe.additions.iter().map(|one| addition(one, recipe, locale)));
    blocks.push(heading(say!(locale, "Cautions")));
    blocks.extend(cautions(recipe).into_iter().map(|line| Block {
        look: BlockLook::Caution,
        label: locale.read(&line),
        ..Block::default()
    }));
    blocks.push(words(locale.read(DEFERRAL.text)));
    blocks.push(heading(say!(locale, "Steps")));
    blocks.extend(steps(recipe, locale));
    let goods = if reader.note.is_empty() {
        String::new()
    } else {
        format!(", {}", reader.note)
    };
    LeafScreen {
        title: locale.read(&recipe.name),
        note: format!("{}{goods}", kind_title(recipe.kind, locale)),
        blocks,
        foot: foot(recipe, reader),
    }
}

/// Why it can't be begun, where it can't.
fn standing(recipe: &Recipe, reader: Reader<'_>) -> Option<Block> {
    let locale = reader.locale;
    let (label, detail) = match recipe.offered {
        _ if !reader.fits(recipe) => (
            say!(locale, "This recipe is for other fibres."),
            say!(
                locale,
                "Its figures and its heat are meant for those; take another, or change the goods."
            ),
        ),
        Offered::Freely => return None,
        Offered::WhenAsked if reader.hazardous_metals => (
            say!(locale, "It takes a metal that harms people and water."),
            say!(
                locale,
                "Read its cautions; what is left is waste for a collection point, not for the drain."
            ),
        ),
        Offered::WhenAsked => (
            say!(locale, "Locked: it takes a metal that harms people and water."),
            say!(
                locale,
                "It is unlocked with hazardous_metals = true in bench.toml; without it there are other recipes."
            ),
        ),
        Offered::ReferenceOnly => (
            say!(locale, "Here to be read, not to be begun."),
            say!(
                locale,
                "What it takes is too dangerous, or too harsh, for this work."
            ),
        ),
    };
    Some(Block {
        look: BlockLook::Refusal,
        label,
        detail,
        ..Block::default()
    })
}

fn foot(recipe: &Recipe, reader: Reader<'_>) -> Vec<SideAct> {
    let takes = reader.fits(recipe) && reader.may_begin(recipe);
    let locale = reader.locale;
    let act = |key: &str, label: String, icon, enabled, strong| SideAct {
        key: key.into(),
        label,
        icon,
        enabled,
        strong,
    };
    if reader.goods.is_none() {
        return vec![
            act(
                "take",
                say!(locale, "begin a bath with it"),
                Icon::Plus,
                takes,
                takes,
            ),
            act(
                "rehearse",
                say!(locale, "rehearse it"),
                Icon::Rehearse,
                takes,
                false,
            ),
        ];
    }
    if recipe.offered == Offered::ReferenceOnly {
        return vec![act(
            "take",
            say!(locale, "see its sheet"),
            Icon::Right,
            reader.fits(recipe),
            false,
        )];
    }
    vec![act(
        "take",
        say!(locale, "take this recipe"),
        Icon::Right,
        takes,
        takes,
    )]
}

/// What must have gone before, of dyes and vats.
fn before(recipe: &Recipe, locale: Locale) -> Option<String> {
    match (recipe.kind, recipe.mordant) {
        (_, MordantNeed::Mordanted) => Some(say!(locale, "mordanted before")),
        (BathKind::Dye | BathKind::Vat, MordantNeed::None) => Some(say!(locale, "no mordant needed")),
        (_, MordantNeed::None | MordantNeed::NotADye) => None,
    }
}

fn addition(addition: &Addition, recipe: &Recipe, locale: Locale) -> Block {
    let form = match &addition.ware {
        Ware::Substance(_) => None,
        Ware::Dyestuff { name, form, .. } => form_beside(&locale.read(name), *form, locale),
    };
    let bag = addition.bagged.then(|| say!(locale, "in a bag"));
    let label: Vec<String> = std::iter::once(ware(addition.letter, recipe, locale))
        .chain(form)
        .chain(bag)
        .collect();
    let label = label.join(", ");
    match &addition.dose {
        Dose::Wof(figure) => fact(label, figure, recipe, locale),
        Dose::PerLitre(figure) => fact(label, figure, recipe, locale),
        Dose::Parts { parts, of } => Block {
            look: BlockLook::Fact,
            label,
            value: say!(
                locale,
                "{parts} to 1 of {letter}",
                parts = locale.pointed(&parts.chosen.to_string()),
                letter = of
            ),
            detail: founded(parts, recipe, locale),
            ..Block::default()
        },
    }
}

/// How a dyestuff comes, unless its name says so: behind *lac extract* there is no need of *extract*.
pub(in crate::view::pages) fn form_beside(name: &str, form: Form, locale: Locale) -> Option<String> {
    let words = form_words(form, locale);
    let said = words.split(' ').next_back().map(str::to_lowercase);
    let is_said = name
        .split(|letter: char| !letter.is_alphabetic())
        .any(|word| Some(word.to_lowercase()) == said);
    (!is_said).then_some(words)
}

/// How a dyestuff comes.
fn form_words(form: Form, locale: Locale) -> String {
    match form {
        Form::Fresh => say!(locale, "form of a dyestuff" => "fresh"),
        Form::Dried => say!(locale, "form of a dyestuff" => "dried"),
        Form::Ground => say!(locale, "form of a dyestuff" => "ground"),
        Form::Extract => say!(locale, "form of a dyestuff" => "extract"),
    }
}

/// Those of the recipe, then those of its substances, each once.
fn cautions(recipe: &Recipe) -> Vec<String> {
    let mut lines = recipe.cautions.clone();
    for addition in &recipe.additions {
        let Ware::Substance(substance) = addition.ware else {
            continue;
        };
        for caution in for_substance(substance) {
            if !lines.iter().any(|line| line == caution.text) {
                lines.push(caution.text.to_owned());
            }
        }
    }
    lines
}

fn heading(label: String) -> Block {
    Block {
        look: BlockLook::Heading,
        label,
        ..Block::default()
    }
}

fn words(label: String) -> Block {
    Block {
        look: BlockLook::Words,
        label,
        ..Block::default()
    }
}

fn plain(label: String, value: String) -> Block {
    Block {
        look: BlockLook::Fact,
        label,
        value,
        ..Block::default()
    }
}

#[cfg(test)]
mod tests {
    use chrono::{Offset as _, Utc};

    use super::form_beside;
    use crate::recipe::model::Form;
    use crate::view::locale::{Language, Locale};

    #[test]
    fn a_form_stands_beside_a_name_that_does_not_say_it() {
        let beside = |language, name, form| {
            let locale = Locale {
                language,
                ..Locale::plain(Utc.fix())
            };
            form_beside(name, form, locale)
        };
        for (language, name, form) in [
            (Language::English, "lac extract", Form::Extract),
            (Language::German, "Blauholz-Extrakt", Form::Extract),
            (Language::French, "extrait de laque", Form::Extract),
        ] {
            assert_eq!(beside(language, name, form), None, "{name}");
        }
        for (language, name, form, said) in [
            (Language::English, "madder root", Form::Ground, "ground"),
            (Language::English, "groundnut shells", Form::Ground, "ground"),
            (Language::German, "Krappwurzel", Form::Dried, "getrocknet"),
            (
                Language::French,
                "racine de garance",
                Form::Dried,
                "\u{e0} l'\u{e9}tat sec",
            ),
            (Language::French, "laque d'insectes", Form::Extract, "en extrait"),
        ] {
            assert_eq!(beside(language, name, form).as_deref(), Some(said), "{name}");
        }
    }
}
