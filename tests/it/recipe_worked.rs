//! Doses against published worked examples: `tests/tables/worked_examples.csv` and `tests/recipes/good`.

use potside::craft::quantity::{Mass, Volume};
use potside::recipe::dose;
use potside::recipe::model::{Dose, Letter, Recipe};
use potside::recipe::read;
use std::path::Path;

const GRAMS_PER_POUND: f64 = 453.592_37; // exact: NIST Handbook 44, Appendix C
const LITRES_PER_IMPERIAL_GALLON: f64 = 4.546_09; // exact: NIST Handbook 44, Appendix C

#[test]
fn doses_weigh_what_the_books_print() {
    let mut files = std::collections::BTreeSet::new();
    let mut rows = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/tables/worked_examples.csv"))
        .unwrap();

    for row in rows.records() {
        let row = row.unwrap();
        let recipe = good(&row[0]);
        let letter = Letter(row[1].chars().next().unwrap());
        let dry = Mass::from_grams(printed_grams(&row[3], &row[4])).unwrap();
        let gallons: f64 = if row[5].is_empty() {
            0.0
        } else {
            row[5].parse().unwrap()
        };
        let bath = Volume::from_litres(gallons * LITRES_PER_IMPERIAL_GALLON).unwrap();
        let printed = printed_grams(&row[6], &row[7]);

        let computed = dose::grams(&at_end(&recipe, &row[2]), letter, dry, bath)
            .unwrap()
            .grams();

        let off = (computed - printed).abs() / printed;
        assert!(off < 1e-12, "{row:?}: computed {computed} g, printed {printed} g");
        files.insert(row[0].to_owned());
    }

    assert!(files.len() >= 15, "the table lost rows: {files:?}");
}

#[test]
fn every_good_file_reads_and_is_in_the_table() {
    let table = include_str!("../tables/worked_examples.csv");
    for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/recipes/good")).unwrap()
    {
        let path = entry.unwrap().path();
        let stem = path.file_stem().unwrap().to_str().unwrap().to_owned();

        let recipe = good(&stem);

        assert_eq!(recipe.id, stem);
        assert!(
            table.contains(&format!("\n{stem},")),
            "{stem} is not in the table"
        );
    }
}

#[test]
fn a_letter_that_is_not_there_has_no_weight() {
    let recipe = good("w01-alum");
    let dry = Mass::from_grams(100.0).unwrap();
    let bath = Volume::from_litres(3.0).unwrap();

    assert_eq!(dose::grams(&recipe, Letter('Z'), dry, bath), None);
}

#[test]
fn parts_that_point_in_a_circle_end_without_a_weight() {
    // No file can hold this, a recipe built by hand could.
    let mut recipe = good("w36-cotton");
    if let Dose::Parts { of, .. } = &mut recipe.additions[1].dose {
        *of = Letter('B');
    }
    let dry = Mass::from_grams(100.0).unwrap();

    assert_eq!(
        dose::grams(&recipe, Letter('B'), dry, Volume::from_litres(3.0).unwrap()),
        None
    );
}

/// The recipe with every dose at one end of its own range.
fn at_end(recipe: &Recipe, end: &str) -> Recipe {
    let mut recipe = recipe.clone();
    for addition in &mut recipe.additions {
        if let Dose::Wof(figure) = &mut addition.dose {
            figure.chosen = match end {
                "chosen" => figure.chosen,
                "low" => figure.range.unwrap().0,
                "high" => figure.range.unwrap().1,
                other => panic!("no such end: {other}"),
            };
        }
    }
    recipe
}

fn printed_grams(number: &str, unit: &str) -> f64 {
    let number: f64 = number.parse().unwrap();
    match unit {
        "lb" => number * GRAMS_PER_POUND,
        "oz" => number * GRAMS_PER_POUND / 16.0,
        other => panic!("no such unit: {other}"),
    }
}

fn good(stem: &str) -> Recipe {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/recipes/good/{stem}.toml"));
    let text = std::fs::read_to_string(&path).unwrap();
    read(&text).unwrap_or_else(|faults| panic!("{stem}:\n{faults}"))
}
