//! The drawing board: how much of it shapes cover, by plane geometry; that nothing of a picture is cut off; and that the
//! degrees and the clock times of a curve keep clear of one another and of its edge.

use std::f32::consts::PI;

use potside::view::letters::{ASCENDER, DESCENDER};
use potside::view::picture::canvas::{Area, Canvas, Hand, Ink, Place, Side, width_of_words};
use potside::view::picture::curve::{CurveFrame, CurveInks, draw};
use potside::view::picture::{digit, pot, tag};
use potside::view::screen::{BathCurve, CurveLists, CurveRule, PotPicture};

const WHITE: Ink = [255; 3];
const BLACK: Ink = [0; 3];

/// How many pixels' worth of black is on white.
fn covered(canvas: &Canvas) -> f32 {
    let black = |pixel: &Ink| f32::from(255 - pixel[0]) / 255.0;
    canvas.pixels().iter().map(black).sum()
}

fn near(found: f32, wanted: f32, off: f32) {
    assert!((found - wanted).abs() <= off * wanted, "{found}, not {wanted}");
}

#[test]
fn shapes_cover_what_geometry_says() {
    let drawn = |draw: &dyn Fn(&mut Canvas)| {
        let mut canvas = Canvas::new(200, 200, WHITE);
        draw(&mut canvas);
        covered(&canvas)
    };
    let area = Area {
        x: 20.0,
        y: 30.0,
        width: 90.0,
        height: 70.0,
    };
    near(
        drawn(&|canvas| canvas.disc((100.3, 99.6), 40.5, BLACK)),
        PI * 40.5 * 40.5,
        0.002,
    );
    near(drawn(&|canvas| canvas.rectangle(area, BLACK)), 6_300.0, 0.0);
    // What round corners leave out: four quarters of a square less those of a disc.
    let round = 6_300.0 - (4.0 - PI) * 15.0 * 15.0;
    near(drawn(&|canvas| canvas.rounded(area, 15.0, BLACK)), round, 0.002);
    // A stroke with round ends: its length by its breadth, and a disc.
    let stroke = 100.0 * 12.0 + PI * 36.0;
    let place = Place::even(50.0, 50.0, 2.0);
    near(
        drawn(&|canvas| canvas.stroke("M0 0L30 40", place, 12.0, BLACK)),
        stroke,
        0.005,
    );
    // Drawn out to another shape, the pen stays round.
    let place = Place {
        x: 20.0,
        y: 50.0,
        across: 10.0,
        down: 0.1,
    };
    near(
        drawn(&|canvas| canvas.stroke("M0 100L10 100", place, 12.0, BLACK)),
        stroke,
        0.005,
    );
}

#[test]
fn what_lies_outside_is_cut_off_and_what_is_no_path_draws_nothing() {
    let mut canvas = Canvas::new(40, 40, WHITE);
    canvas.disc((0.0, 40.0), 20.0, BLACK);
    near(covered(&canvas), PI * 100.0, 0.01);

    let mut canvas = Canvas::new(40, 40, WHITE);
    for path in ["", "no path", "M", "M1e9 1e9L-1e9 NaN"] {
        canvas.fill(path, Place::even(0.0, 0.0, 1.0), BLACK);
    }
    canvas.disc((-500.0, 500.0), 20.0, BLACK);
    canvas.words("far away", (far_away(), Side::Right), HAND, BLACK);
    near(covered(&canvas), 0.0, 0.0);

    let empty = Canvas::new(0, 0, WHITE);
    assert!(empty.pixels().is_empty());
    assert!(
        pot::draw(&PotPicture::default(), &POT_INKS, NOTHING)
            .pixels()
            .is_empty()
    );
}

const HAND: Hand = Hand {
    size: 16.0,
    is_bold: false,
};
const NOTHING: pot::PotFrame = pot::PotFrame {
    width: 0,
    height: 0,
    unit: 1.0,
    on_card: true,
    is_centred: false,
};
const POT_INKS: pot::PotInks = pot::PotInks {
    around: WHITE,
    card: WHITE,
    wood: BLACK,
    thread: WHITE,
    line: BLACK,
    fibre: WHITE,
    fibre_edge: BLACK,
    flame: BLACK,
    flame_core: WHITE,
    steam: BLACK,
    liquor: BLACK,
    surface: BLACK,
    tag: BLACK,
    number: WHITE,
};

const fn far_away() -> Area {
    Area {
        x: 900.0,
        y: -300.0,
        width: 100.0,
        height: 30.0,
    }
}

#[test]
fn the_ten_digits_are_of_one_size_and_none_touches_an_edge_above_or_below() {
    let drawn: Vec<Canvas> = (0..10)
        .map(|digit| digit::draw(&digit.to_string(), 98.0, BLACK, WHITE))
        .collect();
    for digit in &drawn {
        assert_eq!(
            (digit.width(), digit.height()),
            (drawn[0].width(), drawn[0].height())
        );
        let width = usize::from(digit.width());
        let pixels = digit.pixels();
        let edges = [&pixels[..width], &pixels[pixels.len() - width..]];
        assert!(edges.concat().iter().all(|pixel| *pixel == WHITE));
        assert!(covered(digit) > 1_000.0);
    }
}

#[test]
fn the_tags_of_six_pots_lie_within_their_square() {
    let inks = tag::TagInks {
        face: BLACK,
        letters: WHITE,
        ground: WHITE,
    };
    for pot in 1..=6 {
        let drawn = tag::draw(pot, 100, inks);
        // Some tenths of the square at least, and never the whole of it.
        let share = covered(&drawn) / 10_000.0;
        assert!((0.35..0.85).contains(&share), "pot {pot}: {share}");
        // At most a corner touches an edge; what reached over it would be cut along it.
        let black = |x: usize, y: usize| drawn.pixels()[y * 100 + x][0] < 128;
        for edge in [0, 99] {
            let across = (0..100).filter(|x| black(*x, edge)).count();
            let down = (0..100).filter(|y| black(edge, *y)).count();
            assert!(across.max(down) <= 4, "pot {pot}: {across} across, {down} down");
        }
    }
}

#[test]
fn the_tag_of_a_pot_is_whole_however_small_the_picture() {
    let tagged = PotPicture {
        pot: 2,
        ..PotPicture::default()
    };
    let inks = pot::PotInks {
        tag: [1, 2, 3],
        number: [1, 2, 3],
        ..POT_INKS
    };
    for (width, height) in [(204, 241), (150, 100), (96, 240), (60, 300), (300, 60)] {
        let frame = pot::PotFrame {
            width,
            height,
            on_card: false,
            ..NOTHING
        };
        let drawn = pot::draw(&tagged, &inks, frame);
        let wide = (f32::from(width)).min(f32::from(height) * 1_000.0 / 1_180.0);
        let side = (0.19 * wide).max(30.0);
        // The second pot's shape is a square of 84 in 100, on whole pixels or not.
        let pixels = drawn.pixels().iter().filter(|pixel| **pixel == inks.tag).count() as f32;
        let whole = (0.84 * side).powi(2);
        assert!(
            pixels <= whole && pixels >= (0.84 * side - 2.0).powi(2),
            "{width} x {height}: {pixels} of {whole}"
        );
    }
}

const CURVE_INKS: CurveInks = CurveInks {
    around: WHITE,
    sunk: WHITE,
    grid: WHITE,
    band: WHITE,
    edge: WHITE,
    done: WHITE,
    ink: WHITE,
    soft: BLACK,
    raised: WHITE,
};

fn rules(labels: &[&str]) -> Vec<CurveRule> {
    let last = (labels.len() - 1) as f32;
    let each = labels.iter().enumerate().map(|(place, label)| CurveRule {
        at: 1_000.0 * place as f32 / last,
        label: (*label).into(),
    });
    each.collect()
}

/// Which rows of an area have any black.
fn inked(canvas: &Canvas, columns: std::ops::Range<usize>, rows: std::ops::Range<usize>) -> Vec<bool> {
    let width = usize::from(canvas.width());
    rows.map(|y| columns.clone().any(|x| canvas.pixels()[y * width + x] != WHITE))
        .collect()
}

#[test]
fn the_degrees_of_a_curve_are_named_where_there_is_room_and_never_over_one_another() {
    let lists = CurveLists {
        temperatures: rules(&["212\u{b0}", "180\u{b0}", "140\u{b0}", "100\u{b0}", "60\u{b0}"]),
        times: rules(&["11:40 AM", "12:10 PM", "12:40 PM", "1:10 PM"]),
        ..CurveLists::default()
    };
    let mut named_last = 0;
    for (height, letter) in [(60_u16, 13.0), (70, 13.0), (84, 16.0), (188, 16.0), (214, 17.0)] {
        let frame = CurveFrame {
            width: 664,
            height,
            unit: 1.0,
            letter,
        };
        let drawn = draw(&BathCurve::default(), &lists, &CURVE_INKS, frame);
        let degrees_wide = (letter * 2.7) as usize - 6;
        let above_times = usize::from(height) - (letter * 1.35) as usize;
        let rows = inked(&drawn, 0..degrees_wide, 0..above_times);
        let lines = rows.split(|inked| !inked).filter(|line| !line.is_empty()).count();
        // A line of digits is as high as a capital, three quarters of its size, and two that touched would be more.
        let high = rows
            .split(|inked| !inked)
            .map(<[bool]>::len)
            .max()
            .unwrap_or_default();
        assert!(
            high as f32 <= 0.8 * letter + 2.0,
            "{height}: a line {high} high of {letter}"
        );
        assert!(
            (2..=5).contains(&lines) && lines >= named_last,
            "{height}: {lines}"
        );
        named_last = lines;
        let whole = usize::from(height);
        let beneath_degrees = whole - (letter * 1.1) as usize;
        let columns: Vec<bool> = (0..664)
            .map(|x| inked(&drawn, x..x + 1, beneath_degrees..whole).contains(&true))
            .collect();
        // Between two times there is more room than between two words. The last ends where the picture does.
        let apart = (0.9 * letter) as usize;
        let gaps = columns.split(|inked| *inked).filter(|gap| gap.len() >= apart);
        assert_eq!(gaps.count(), lists.times.len(), "{height}");
        // No word runs over an edge.
        for edge in [0..1, 663..664] {
            assert!(
                inked(&drawn, edge, 0..whole).iter().all(|inked| !inked),
                "{height}"
            );
        }
    }
    assert_eq!(named_last, 5, "all of them where there is room");
}

#[test]
fn words_take_the_width_that_they_are_said_to_take() {
    let hand = Hand { size: 40.0, ..HAND };
    let mut canvas = Canvas::new(300, 60, WHITE);
    let area = Area {
        x: 0.0,
        y: 0.0,
        width: 300.0,
        height: 60.0,
    };
    canvas.words("HOLD 85", (area, Side::Middle), hand, BLACK);
    let width = usize::from(canvas.width());
    let columns: Vec<usize> = (0..width)
        .filter(|x| (0..60).any(|y| canvas.pixels()[y * width + x] != WHITE))
        .collect();
    let (first, last) = (columns[0] as f32, columns[columns.len() - 1] as f32);
    // But for the room that the first and the last letter have at their sides.
    near(last - first, width_of_words("HOLD 85", hand), 0.06);
    near(first + last, 300.0, 0.03);
}

/// The face's own table (`hhea`), read with ttf-parser.
#[test]
fn the_letters_reach_as_far_as_the_face_says() {
    let faces: [&[u8]; 2] = [
        include_bytes!("../../ui/fonts/B612-Regular.otf"),
        include_bytes!("../../ui/fonts/B612-Bold.otf"),
    ];
    for face in faces {
        let face = ttf_parser::Face::parse(face, 0).expect("a face");
        let em = f32::from(face.units_per_em());
        near(f32::from(face.ascender()) / em, ASCENDER, 1e-6);
        near(f32::from(-face.descender()) / em, DESCENDER, 1e-6);
    }
}
