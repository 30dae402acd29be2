//! A thousand sheets against the size of the pot, as a drawing: `cargo run --release --example sweep`.
//!
//! The same bath for pots of 4 to 40 L, each filled to two thirds, on one 2 kW induction plate, under three lids. Come-up to
//! the hold and cool-down to 40 C, each as the band that holds eight pots of ten. Writes `docs/sweep.svg`.

use std::error::Error;
use std::sync::Arc;

use plotters::prelude::*;

use potside::craft::fibre::Fibre;
use potside::craft::quantity::{Band, Length, Mass, Volume};
use potside::craft::time::Span;
use potside::craft::vessel::{Lid, Pot};
use potside::recipe::book;
use potside::recipe::model::Recipe;
use potside::sheet::plan::Goods;
use potside::sheet::{BathSheet, COOL_MARKS, StovePlace, Wishes, compute};

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/docs/sweep.svg");
const SHEETS_PER_LID: u32 = 334;
const LITRES: (f64, f64) = (4.0, 40.0);
const FILLED: f64 = 2.0 / 3.0;
/// A pot about as high as it is wide.
const LITRES_OF_A_CUBE_CM: f64 = 0.001 * std::f64::consts::PI / 4.0;

const LIDS: [(Lid, &str, RGBColor); 3] = [
    (Lid::Off, "lid off", RGBColor(0xa8, 0x3a, 0x22)),
    (Lid::Loose, "lid loose", RGBColor(0x1f, 0x3a, 0x6e)),
    (Lid::Tight, "lid tight", RGBColor(0x4d, 0x5c, 0x2a)),
];

struct Point {
    litres: f64,
    come_up: Option<Band<Span>>,
    cool: Option<Band<Span>>,
}

#[expect(clippy::print_stdout, reason = "a command says what it made")]
fn main() -> Result<(), Box<dyn Error>> {
    let recipe = Arc::new(book::by_id("alum-tartar-studio")?.clone());
    let sweeps: Vec<Vec<Point>> = LIDS.iter().map(|(lid, _, _)| sweep(&recipe, *lid)).collect();
    let area = SVGBackend::new(FILE, (980, 460)).into_drawing_area();
    area.fill(&WHITE)?;
    let (left, right) = area.split_horizontally(490);
    draw(&left, "come-up to 85 C, minutes", &sweeps, |point| point.come_up)?;
    draw(&right, "cool-down from 85 to 40 C, minutes", &sweeps, |point| {
        point.cool
    })?;
    area.present()?;
    let count: usize = sweeps.iter().map(Vec::len).sum();
    println!("{count} sheets, docs/sweep.svg");
    Ok(())
}

fn sweep(recipe: &Arc<Recipe>, lid: Lid) -> Vec<Point> {
    let (least, most) = LITRES;
    (0..SHEETS_PER_LID)
        .map(|index| {
            let litres = least + (most - least) * f64::from(index) / f64::from(SHEETS_PER_LID - 1);
            let stove = StovePlace {
                pot: Pot {
                    capacity: Volume::saturating_litres(litres),
                    diameter: Length::saturating_centimetres((litres / LITRES_OF_A_CUBE_CM).cbrt()),
                    ..StovePlace::default().pot
                },
                lid,
                ..StovePlace::default()
            };
            let ratio = recipe.liquor.chosen.litres_per_kg();
            let goods = Goods {
                fibre: Fibre::Wool,
                dry: Mass::saturating_grams(litres * FILLED / ratio * 1_000.0),
                hanks: 1,
                lot: None,
            };
            let sheet = compute(recipe, &Wishes::new(goods, stove));
            Point {
                litres,
                come_up: sheet.come_up,
                cool: cool_to_40(&sheet),
            }
        })
        .collect()
}

fn cool_to_40(sheet: &BathSheet) -> Option<Band<Span>> {
    let at_40 = COOL_MARKS.iter().position(|mark| (mark - 40.0).abs() < 0.5)?;
    sheet.cool.get(at_40).copied().flatten()
}

fn draw(
    area: &DrawingArea<SVGBackend<'static>, plotters::coord::Shift>,
    title: &str,
    sweeps: &[Vec<Point>],
    of: impl Fn(&Point) -> Option<Band<Span>>,
) -> Result<(), Box<dyn Error>> {
    let bands = |sweep: &[Point]| -> Vec<(f64, Band<f64>)> {
        sweep
            .iter()
            .filter_map(|point| Some((point.litres, of(point)?.map(Span::minutes))))
            .collect()
    };
    let highest = sweeps
        .iter()
        .flat_map(|sweep| bands(sweep))
        .map(|(_, band)| band.high)
        .fold(0.0, f64::max);
    let (least, most) = LITRES;
    let mut chart = ChartBuilder::on(area)
        .caption(title, ("sans-serif", 18))
        .margin(12)
        .x_label_area_size(38)
        .y_label_area_size(52)
        .build_cartesian_2d(least..most, 0.0..highest * 1.05)?;
    chart
        .configure_mesh()
        .x_desc("pot, litres to the brim; two thirds full")
        .light_line_style(TRANSPARENT)
        .draw()?;
    for ((_, name, colour), sweep) in LIDS.iter().zip(sweeps) {
        let bands = bands(sweep);
        let colour = *colour;
        let outline: Vec<(f64, f64)> = bands
            .iter()
            .map(|(litres, band)| (*litres, band.high))
            .chain(bands.iter().rev().map(|(litres, band)| (*litres, band.low)))
            .collect();
        chart.draw_series(std::iter::once(Polygon::new(outline, colour.mix(0.16).filled())))?;
        let likely = bands.iter().map(|(litres, band)| (*litres, band.likely));
        chart
            .draw_series(LineSeries::new(likely, colour.stroke_width(2)))?
            .label(*name)
            .legend(move |(x, y)| {
                PathElement::new([(x, y), (x.saturating_add(18), y)], colour.stroke_width(2))
            });
    }
    chart
        .configure_series_labels()
        .position(SeriesLabelPosition::UpperLeft)
        .background_style(WHITE.mix(0.8))
        .draw()?;
    Ok(())
}
