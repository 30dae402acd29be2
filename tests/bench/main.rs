//! How long sheets take: one of each recipe, and a thousand for a sweep over pot sizes. Run with `cargo bench`.

use divan::{Bencher, black_box};
use potside::craft::quantity::{Length, Mass, Volume};
use potside::recipe::book;
use potside::recipe::model::Recipe;
use potside::sheet::plan::Goods;
use potside::sheet::{StovePlace, Wishes, compute};
use std::sync::Arc;

fn main() {
    divan::main();
}

fn wishes(recipe: &Recipe, grams: f64) -> Option<Wishes> {
    let goods = Goods {
        fibre: recipe.fibres.first().copied()?,
        dry: Mass::saturating_grams(grams),
        hanks: 1,
        lot: None,
    };
    Some(Wishes::new(goods, StovePlace::default()))
}

fn of_the_book(id: &str) -> Option<Arc<Recipe>> {
    book::by_id(id).ok().cloned().map(Arc::new)
}

/// A full sheet with all its workings: aim at most 1 ms.
#[divan::bench(args = ["scour-wool", "alum-tartar-studio", "alum-only", "madder", "onion-skin-plain"])]
fn a_full_sheet(bencher: Bencher<'_, '_>, id: &str) {
    let Some(recipe) = of_the_book(id) else { return };
    let Some(wishes) = wishes(&recipe, 100.0) else {
        return;
    };
    bencher.bench(|| compute(black_box(&recipe), black_box(&wishes)));
}

/// A thousand pots of 1 to 100 L, each three quarters full and as wide as it is high.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn a_thousand_sheets(bencher: Bencher<'_, '_>) {
    let Some(recipe) = of_the_book("alum-tartar-studio") else {
        return;
    };
    let sweep: Vec<Wishes> = (0..1_000_u32)
        .filter_map(|step| {
            let litres = 100.0_f64.powf(f64::from(step) / 999.0);
            let mut wishes = wishes(&recipe, litres * 0.72 / 30.0 * 1_000.0)?;
            wishes.stove.pot.capacity = Volume::saturating_litres(litres);
            let diameter_dm = (4.0 * litres / std::f64::consts::PI).cbrt();
            wishes.stove.pot.diameter = Length::saturating_centimetres(diameter_dm * 10.0);
            Some(wishes)
        })
        .collect();
    bencher.bench(|| {
        sweep
            .iter()
            .map(|wishes| compute(&recipe, wishes))
            .filter(|sheet| sheet.refusals.is_empty())
            .count()
    });
}
