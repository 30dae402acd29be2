//! Each addition in grams, exact: the recipe's dose, the shelf's salt for it, and how this scale weighs it.

use crate::craft::measures::{self, Grade, KitchenUnit, NoSpoons};
use crate::craft::quantity::{Band, Mass, Volume};
use crate::craft::salts::{Exchange, OnShelf, exchange};
use crate::craft::scale::{StockSolution, Weighing, weighing_by};
use crate::craft::substance::Substance;
use crate::msg;
use crate::recipe::dose;
use crate::recipe::model::{Addition, Dose, Form, Letter, Recipe, Ware};

use super::notes::Notes;
use super::plan::{Goods, PlannedAddition};
use super::used_bath;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::Wishes;
use super::working::Measured;

/// What stands beside an addition of the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// The addition's letter.
    pub letter: Letter,
    /// The recipe's salt and the shelf's, where another goes in.
    pub exchange: Option<Exchange>,
    /// How this scale weighs it.
    pub weighing: Weighing,
    /// Level spoons, or why none are given; `None` for plants, which nobody spoons.
    pub spoons: Option<Result<Spoons, NoSpoons>>,
}

/// A number of level spoons: always rough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spoons {
    /// Which spoon.
    pub unit: KitchenUnit,
    /// How many.
    pub count: Band<f64>,
}

/// The id of an aluminium salt that is known by its label alone.
pub const LABELLED_SALT_ID: &str = "aluminium-salt-by-label";

/// What is weighed, and what stands beside it, in the same order.
#[derive(Debug, Default)]
pub(super) struct WeighedOut {
    pub(super) planned: Vec<PlannedAddition>,
    pub(super) beside: Vec<Beside>,
}

/// Each addition of the recipe in grams, with its working.
pub(super) fn weigh_out(
    recipe: &Recipe,
    wishes: &Wishes,
    goods: &Goods,
    bath: Volume,
    notes: &mut Notes,
) -> WeighedOut {
    judge_shelf(recipe, wishes, notes);
    let part = used_bath::part(recipe, wishes, notes);
    let mut out = WeighedOut::default();
    for addition in &recipe.additions {
        let Some(asked) = dose::grams(recipe, addition.letter, goods.dry, bath) else {
            continue;
        };
        working(recipe, addition, goods, bath, asked, notes);
        let again = used_bath::dose_again(wishes, part, goods, (addition.letter, asked), notes);
        if part.is_some() && again.grams() <= 0.0 {
            continue;
        }
        let (first, asked) = (asked, again);
        let exchange = exchanged(addition, asked, wishes, notes);
        let ware = Weighable::of(&addition.ware, exchange.as_ref());
        let target = exchange.as_ref().map_or(asked, |exchange| exchange.shelf_amount);
        let step = wishes.stove.scale_step;
        let weighing = that_fits(weighing_by(ware.substance, target, step), bath);
        if goods.dry.grams() > 0.0 {
            judge_scale(&ware.name, target, step, weighing, notes);
        }
        out.beside.push(Beside {
            letter: addition.letter,
            weighing,
            spoons: spoons(&addition.ware, ware.substance, target),
            exchange,
        });
        out.planned.push(PlannedAddition {
            letter: addition.letter,
            ware_id: ware.id,
            name: ware.name,
            target,
            tolerance: tolerance(target, weighing, step),
            percent_wof: percent_of(&addition.dose, first, target),
            bagged: addition.bagged,
        });
    }
    out
}

/// What really stands on the scale.
struct Weighable {
    id: String,
    name: String,
    substance: Option<Substance>,
}

impl Weighable {
    fn of(ware: &Ware, exchange: Option<&Exchange>) -> Self {
        let known = |substance: Substance| Self {
            id: substance.id().to_owned(),
            name: substance.name().to_owned(),
            substance: Some(substance),
        };
        match (exchange.map(|exchange| exchange.shelf_salt), ware) {
            (Some(OnShelf::Known(substance)), _) => known(substance),
            (Some(label @ OnShelf::Label(_)), _) => Self {
                id: LABELLED_SALT_ID.to_owned(),
                name: label.name().to_owned(),
                substance: None,
            },
            (None, Ware::Substance(substance)) => known(*substance),
            (None, Ware::Dyestuff { id, name, .. }) => Self {
                id: id.clone(),
                name: name.clone(),
                substance: None,
            },
        }
    }
}

/// A salt of the shelf needs an addition of the recipe to stand for.
fn judge_shelf(recipe: &Recipe, wishes: &Wishes, notes: &mut Notes) {
    let has: Vec<Letter> = recipe
        .additions
        .iter()
        .filter(|addition| matches!(addition.ware, Ware::Substance(_)))
        .map(|addition| addition.letter)
        .collect();
    for letter in wishes.shelf.keys() {
        if !has.contains(letter) {
            notes.refuse(SheetRefusal::NoSaltOfLetter {
                letter: *letter,
                has: has.clone(),
            });
        }
    }
}

/// The shelf's salt for this addition, if the dyer named one: shown with both amounts, and never the same salt twice.
fn exchanged(addition: &Addition, asked: Mass, wishes: &Wishes, notes: &mut Notes) -> Option<Exchange> {
    let Ware::Substance(substance) = addition.ware else {
        return None;
    };
    let letter = addition.letter;
    let shelf = *wishes.shelf.get(&letter)?;
    if shelf == OnShelf::Known(substance) {
        return None;
    }
    match exchange(substance, asked, shelf) {
        Ok(exchange) => {
            let told = std::iter::once(exchange.to_string()).chain(
                exchange
                    .differences
                    .iter()
                    .map(|difference| difference.text().to_owned()),
            );
            for said in told {
                notes.warn(SheetWarning::ShelfSaltUsed { letter, said });
            }
            notes.working(
                &msg!(
                    "{letter}: {shelf} for {substance}",
                    letter = letter.0,
                    shelf = shelf.name(),
                    substance = substance.name()
                ),
                vec![(substance.name().to_owned(), Measured::new(asked.grams(), "g"))],
                equal_in(exchange.equal_in),
                Measured::new(exchange.shelf_amount.grams(), "g"),
                "atomic weights: CIAAW 2021",
            );
            Some(exchange)
        }
        Err(fault) => {
            notes.refuse(SheetRefusal::ShelfSalt { letter, fault });
            None
        }
    }
}

const fn equal_in(what: crate::craft::salts::EqualIn) -> &'static str {
    use crate::craft::salts::EqualIn;
    match what {
        EqualIn::Aluminium => msg!("as much of the shelf's salt as brings the same aluminium"),
        EqualIn::Iron => msg!("as much of the shelf's salt as brings the same iron"),
        EqualIn::SodiumCarbonate => msg!("as much of the shelf's soda as holds the same sodium carbonate"),
        EqualIn::CitricAcid => msg!("as much of the shelf's acid as holds the same citric acid"),
        EqualIn::SodiumAcetate => msg!("as much of the shelf's salt as holds the same sodium acetate"),
    }
}

fn working(
    recipe: &Recipe,
    addition: &Addition,
    goods: &Goods,
    bath: Volume,
    asked: Mass,
    notes: &mut Notes,
) {
    let dry = (
        msg!("dry goods").to_owned(),
        Measured::new(goods.dry.grams(), "g"),
    );
    let (inputs, formula, source) = match &addition.dose {
        Dose::Wof(figure) => (
            vec![
                dry,
                (
                    msg!("share").into(),
                    Measured::new(figure.chosen.percent(), "% WOF"),
                ),
            ],
            msg!("dry goods times percent, over one hundred"),
            recipe.source_of(figure),
        ),
        Dose::PerLitre(figure) => (
            vec![
                (msg!("bath").into(), Measured::new(bath.litres(), "L")),
                (
                    msg!("strength").into(),
                    Measured::new(figure.chosen.grams_per_litre(), "g/L"),
                ),
            ],
            msg!("litres of bath times grams a litre"),
            recipe.source_of(figure),
        ),
        Dose::Parts { parts, of } => {
            let one = dose::grams(recipe, *of, goods.dry, bath).map_or(0.0, Mass::grams);
            (
                vec![
                    (
                        msg!("one part ({letter})", letter = of.0),
                        Measured::new(one, "g"),
                    ),
                    (msg!("parts").into(), Measured::new(parts.chosen, "")),
                ],
                msg!("parts times the weight of one part"),
                recipe.source_of(parts),
            )
        }
    };
    let source = source.map_or("", |source| source.text.as_str());
    notes.working(
        &format!("{}: {}", addition.letter.0, name_of(&addition.ware)),
        inputs,
        formula,
        Measured::new(asked.grams(), "g"),
        source,
    );
}

fn name_of(ware: &Ware) -> &str {
    match ware {
        Ware::Substance(substance) => substance.name(),
        Ware::Dyestuff { name, .. } => name,
    }
}

/// Percent of the dry weight that goes in: for the shelf's salt as much more or less as its weight.
fn percent_of(dose: &Dose, asked: Mass, target: Mass) -> Option<f64> {
    match dose {
        Dose::Wof(figure) if asked == target => Some(figure.chosen.percent()),
        Dose::Wof(figure) if asked.grams() > 0.0 => {
            Some(figure.chosen.percent() * target.grams() / asked.grams())
        }
        Dose::Wof(figure) => Some(figure.chosen.percent()),
        Dose::PerLitre(_) | Dose::Parts { .. } => None,
    }
}

fn tolerance(target: Mass, weighing: Weighing, step: Mass) -> Mass {
    const PART: f64 = 0.02;
    match weighing {
        Weighing::Well { tolerance, .. } | Weighing::Coarsely { tolerance, .. } => tolerance,
        Weighing::TooLittle { .. } => Mass::saturating_grams(target.grams() * PART).most(step),
    }
}

/// A stock is no way out when it would be a great part of the bath: a fifth at most, our own choice.
fn that_fits(weighing: Weighing, bath: Volume) -> Weighing {
    const PART_OF_BATH_MAX: f64 = 0.2;
    let fits = |stock: Option<StockSolution>| {
        stock.filter(|stock| stock.measure.litres() <= PART_OF_BATH_MAX * bath.litres())
    };
    match weighing {
        Weighing::Well { .. } => weighing,
        Weighing::Coarsely {
            dial,
            tolerance,
            stock,
        } => Weighing::Coarsely {
            dial,
            tolerance,
            stock: fits(stock),
        },
        Weighing::TooLittle { stock, finer } => Weighing::TooLittle {
            stock: fits(stock),
            finer,
        },
    }
}

fn judge_scale(name: &str, target: Mass, step: Mass, weighing: Weighing, notes: &mut Notes) {
    let way = match weighing {
        Weighing::Well { .. } | Weighing::Coarsely { .. } => return,
        Weighing::TooLittle { stock, finer } => {
            let mut ways: Vec<String> = stock.iter().map(stock_words).collect();
            ways.extend(
                finer.map(|finer| msg!("weigh it on a scale that shows {step} g", step = finer.grams())),
            );
            if ways.is_empty() {
                msg!("dye more goods in one bath").to_owned()
            } else {
                ways.join(", or ")
            }
        }
    };
    notes.warn(SheetWarning::ScaleTooCoarse {
        name: name.to_owned(),
        target,
        step,
        way,
    });
}

fn stock_words(stock: &StockSolution) -> String {
    msg!(
        "make a {percent} % stock, {weigh:.1} g made up to {whole:.0} mL, and measure {part:.0} mL of it, which fills \
         that much less",
        percent = stock.percent,
        weigh = stock.weigh.grams(),
        whole = stock.make_up_to.litres() * 1_000.0,
        part = stock.measure.litres() * 1_000.0,
    )
}

/// Spoons of a powder: tablespoons, or teaspoons where there is less than one.
fn spoons(ware: &Ware, substance: Option<Substance>, target: Mass) -> Option<Result<Spoons, NoSpoons>> {
    if let Ware::Dyestuff { form, .. } = ware {
        return match form {
            Form::Extract => Some(Err(measures::NO_SPOONS_OF_EXTRACT)),
            Form::Fresh | Form::Dried | Form::Ground => None,
        };
    }
    let substance = substance?;
    let of =
        |unit| measures::spoons(substance, Grade::Unknown, target, unit).map(|count| Spoons { unit, count });
    Some(match of(KitchenUnit::MetricTablespoon) {
        Ok(spoons) if spoons.count.likely >= 1.0 => Ok(spoons),
        Ok(_) | Err(NoSpoons::TooLittle { .. }) => of(KitchenUnit::MetricTeaspoon),
        Err(refused) => Err(refused),
    })
}
