//! Labels: an independent reader reads the codes back, nothing leaves its label, no text is wider than its room.

use potside::craft::fibre::Fibre;
use potside::craft::lot::LotId;
use potside::recipe::model::BathKind;
use potside::shelf::{NAME_CHARACTERS_MOST, Shelf};
use potside::view::label::{
    Code, Drawing, LabelWords, MODULE_LEAST_MM, Mark, NoRoom, PaperSize, label_words, sheets, svg,
};
use potside::view::letters::width_of;
use potside::view::locale::{Habits, Language, Locale, Weights};
use proptest::prelude::*;

use super::support::catalogue::said;
use super::support::shelves::{bath, day, wool};

fn plain() -> Locale {
    Locale::plain(chrono::FixedOffset::east_opt(0).unwrap())
}

fn words() -> LabelWords {
    words_in(plain())
}

fn words_in(locale: Locale) -> LabelWords {
    let mut shelf = Shelf::default();
    let lot = shelf.add_lot(wool(392, 4), day("2026-08-20")).unwrap();
    for (index, kind) in [BathKind::Scour, BathKind::Mordant].into_iter().enumerate() {
        let id = format!("2026-08-2{index}-0931-k3f9");
        shelf.put_down(
            bath(&id, Some(lot), kind, "2026-08-21", "potash-alum", 59),
            Fibre::Wool,
        );
    }
    label_words(&shelf, shelf.lot(lot).unwrap(), None, locale)
}

/// The longest words that the shelf can hold.
fn longest() -> LabelWords {
    let wide = "W".repeat(NAME_CHARACTERS_MOST);
    LabelWords {
        lot: format!("L{}", LotId::NUMBER_MAX),
        name: wide.clone(),
        goods: format!("{wide}{wide}"),
        past: (0..40)
            .map(|index| format!("{index:02} mordanted: {wide}"))
            .collect(),
        mind: Some(wide.clone()),
        records: (0..40)
            .map(|index| format!("{}-{index:02}", "x".repeat(61)))
            .collect(),
        locale: plain(),
    }
}

/// The code of the label at a place, counted from 0, read by another library from its dark squares, drawn 18 dots to
/// the millimetre as a camera held over that label would see them.
fn read_code(sheet: &Drawing, size: PaperSize, place: u32) -> String {
    const DOTS: f64 = 18.0;
    let paper = size.paper();
    let (left, top) = paper.corner(place);
    let (width, height) = ((paper.label.0 * DOTS) as usize, (paper.label.1 * DOTS) as usize);
    let mut dots = vec![255_u8; width * height];
    for mark in &sheet.marks {
        if let Mark::Dark { x, y, side } = mark {
            let dot = |at: f64, most: usize| ((at * DOTS).round().max(0.0) as usize).min(most);
            for row in dot(y - top, height)..dot(y - top + side, height) {
                for column in dot(x - left, width)..dot(x - left + side, width) {
                    dots[row * width + column] = 0;
                }
            }
        }
    }
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| dots[y * width + x]);
    let grids = image.detect_grids();
    assert_eq!(grids.len(), 1, "{} place {place}", size.id());
    grids[0].decode().unwrap().1
}

#[test]
fn an_independent_reader_reads_lot_and_records_on_every_sheet() {
    for size in PaperSize::ALL {
        let drawn = sheets(size, 1, &[words()]).unwrap();
        assert_eq!(drawn.len(), 1);
        assert_eq!(
            read_code(&drawn[0], size, 0),
            "lot L1\nbath 2026-08-20-0931-k3f9\nbath 2026-08-21-0931-k3f9",
            "{}",
            size.id()
        );
        let last = size.paper().count();
        let long = sheets(size, last, &[longest()]).unwrap();
        let read = read_code(&long[0], size, last - 1);
        assert!(
            read.starts_with("lot L99999") && read.ends_with("-39"),
            "the newest is kept: {read:?}"
        );
    }
}

#[test]
fn a_whole_sheet_is_read_back_label_by_label() {
    let labels: Vec<LabelWords> = (1..=30)
        .map(|number| LabelWords {
            lot: format!("L{number}"),
            records: vec![format!("b{number}")],
            ..words()
        })
        .collect();
    let drawn = sheets(PaperSize::A4x24, 20, &labels).unwrap();

    assert_eq!(drawn.len(), 3, "5 on a sheet begun earlier, 24, 1");
    let mut place = 19;
    let mut sheet = 0;
    for number in 1..=30 {
        let read = read_code(&drawn[sheet], PaperSize::A4x24, place);
        assert_eq!(read, format!("lot L{number}\nbath b{number}"));
        place += 1;
        if place == 24 {
            (sheet, place) = (sheet + 1, 0);
        }
    }
}

#[test]
fn labels_fit_their_sheets() {
    for size in PaperSize::ALL {
        let paper = size.paper();
        let mut corners = Vec::new();
        for place in 0..paper.count() {
            let (x, y) = paper.corner(place);
            assert!(x >= 0.0 && y >= 0.0, "{}", size.id());
            assert!(x + paper.label.0 <= paper.sheet.0 + 1e-9 && y + paper.label.1 <= paper.sheet.1 + 1e-9);
            corners.push((x, y));
        }
        for (index, one) in corners.iter().enumerate() {
            for other in &corners[index + 1..] {
                let apart = (one.0 - other.0).abs() >= paper.label.0 - 1e-9
                    || (one.1 - other.1).abs() >= paper.label.1 - 1e-9;
                assert!(apart, "{}: labels lie on each other", size.id());
            }
        }
    }
    // Half the rest on both sides: the sheets are sold symmetrical.
    let letter = PaperSize::Letterx30.paper();
    let (right, bottom) = letter.corner(29);
    assert!((letter.sheet.0 - right - letter.label.0 - letter.first.0).abs() < 1e-9);
    assert!((letter.sheet.1 - bottom - letter.label.1 - letter.first.1).abs() < 1e-9);
}

/// The left, top, right and bottom of a mark.
fn reach(mark: &Mark) -> [f64; 4] {
    match mark {
        Mark::Dark { x, y, side } => [*x, *y, x + side, y + side],
        Mark::Hole { x, y, radius } => [x - radius, y - radius, x + radius, y + radius],
        Mark::Cut { x, y, width, height } => [*x, *y, x + width, y + height],
        Mark::Text {
            x,
            baseline,
            size,
            is_bold,
            text,
        } => [
            *x,
            baseline - size,
            x + width_of(text, *size, *is_bold),
            baseline + size * 0.25,
        ],
    }
}

fn stays_inside(size: PaperSize, label: &LabelWords) {
    const EDGE: f64 = 2.5; // the layout keeps 3 mm; letters may lean out a little
    let paper = size.paper();
    for place in [1, paper.count()] {
        let drawn = sheets(size, place, std::slice::from_ref(label)).unwrap();
        let (left, top) = paper.corner(place - 1);
        for mark in &drawn[0].marks {
            let edge = if matches!(mark, Mark::Cut { .. }) {
                0.0
            } else {
                EDGE
            };
            let [x0, y0, x1, y1] = reach(mark);
            let inside = x0 >= left + edge - 1e-9
                && y0 >= top + edge - 1e-9
                && x1 <= left + paper.label.0 - edge + 1e-9
                && y1 <= top + paper.label.1 - edge + 1e-9;
            assert!(inside, "{} at {place}: {mark:?}", size.id());
        }
        let texts: Vec<[f64; 4]> = drawn[0]
            .marks
            .iter()
            .filter(|mark| matches!(mark, Mark::Text { .. }))
            .map(reach)
            .collect();
        for pair in texts.windows(2) {
            assert!(pair[1][1] >= pair[0][3] - 0.75, "lines run into each other");
        }
    }
}

#[test]
fn nothing_leaves_its_label_and_the_longest_words_are_cut() {
    for size in PaperSize::ALL {
        stays_inside(size, &words());
        stays_inside(size, &longest());
        let drawn = sheets(size, 1, &[longest()]).unwrap();
        let is_cut = |mark: &Mark| matches!(mark, Mark::Text { text, .. } if text.ends_with('\u{2026}'));
        assert!(drawn[0].marks.iter().any(is_cut), "{}", size.id());
        let says = |mark: &Mark| matches!(mark, Mark::Text { text, .. } if text.starts_with("39 "));
        assert!(drawn[0].marks.iter().any(says), "{}", size.id());
    }
}

#[test]
fn the_words_say_what_the_lot_is() {
    assert_eq!(
        words(),
        LabelWords {
            lot: "L1".into(),
            name: "autumn fleece".into(),
            goods: "wool, 392 g dry, 4 hanks".into(),
            past: vec!["2026-08-21 Test scour".into(), "2026-08-21 Test mordant".into()],
            mind: Some("best dyed by 2026-09-20".into()),
            records: vec!["2026-08-20-0931-k3f9".into(), "2026-08-21-0931-k3f9".into()],
            locale: plain(),
        }
    );
    let mut shelf = Shelf::default();
    let lot = shelf.add_lot(wool(392, 4), day("2026-08-20")).unwrap();
    let each = label_words(&shelf, shelf.lot(lot).unwrap(), Some(2), plain());
    assert_eq!(each.goods, "wool, 392 g dry in all, hank 2 of 4");
    assert_eq!(each.past, ["raw, no bath yet"]);
}

/// Ounces to the gram: the avoirdupois pound of 1959 is 453.59237 g, so 392 g are 13.83 oz.
#[test]
fn a_label_is_in_the_language_and_the_units_of_its_dyer_and_its_code_is_not() {
    let german = Locale {
        language: Language::German,
        habits: Habits {
            weights: Weights::Ounces,
            ..Habits::METRIC
        },
        ..plain()
    };
    let mut shelf = Shelf::default();
    let lot = shelf.add_lot(wool(392, 4), day("2026-08-20")).unwrap();
    let mut mordant = bath(
        "2026-08-21-0931-k3f9",
        Some(lot),
        BathKind::Mordant,
        "2026-08-21",
        "potash-alum",
        59,
    );
    mordant.name = "Alum, studio".into();
    shelf.put_down(mordant, Fibre::Wool);
    let label = label_words(&shelf, shelf.lot(lot).unwrap(), None, german);

    let mordant = said("de", "Alum, studio");
    assert_ne!(mordant, "Alum, studio");
    assert_eq!(label.past, [format!("2026-08-21 {mordant}")]);
    assert!(label.goods.contains("13,8 oz"), "{}", label.goods);
    assert_eq!(label.name, "autumn fleece", "what a dyer named stays");
    assert_eq!(label.records, ["2026-08-21-0931-k3f9"]);
    let drawn = sheets(PaperSize::A4x24, 1, &[label]).unwrap();
    assert_eq!(
        read_code(&drawn[0], PaperSize::A4x24, 0),
        "lot L1\nbath 2026-08-21-0931-k3f9"
    );
}

#[test]
fn a_place_beyond_the_sheet_is_refused() {
    assert_eq!(
        sheets(PaperSize::A4x21, 22, &[words()]),
        Err(NoRoom::FirstBeyond { count: 21, first: 22 })
    );
    assert!(sheets(PaperSize::Tag, 0, &[words()]).is_err());
    assert!(matches!(
        sheets(PaperSize::Tag, 1, &vec![words(); 1_001]),
        Err(NoRoom::TooMany { .. })
    ));
}

#[test]
fn the_drawing_is_a_whole_svg_of_the_sheets_own_size() {
    let mut label = words();
    label.name = "a <b> & \"c\"".into();
    let file = svg(&sheets(PaperSize::Letterx30, 1, &[label]).unwrap()[0]);

    assert!(file.starts_with("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"215.9mm\" height=\"279.4mm\" viewBox=\"0 0 215.9 279.4\">"), "{}", &file[..200]);
    assert!(file.contains("aria-label=\"a &lt;b&gt; &amp; &quot;c&quot;\""));
    assert_eq!(file.matches("<path").count(), file.matches("</path>").count());
    assert!(file.ends_with("</svg>\n") && file.contains("d=\"M"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    fn any_words_stay_inside_and_any_code_reads_back(
        name in "[\\PC]{1,64}",
        number in 1_u32..=LotId::NUMBER_MAX,
        count in 0_usize..12,
        length in 8_usize..64,
    ) {
        let label = LabelWords {
            lot: format!("L{number}"),
            name,
            records: (0..count).map(|index| format!("{}{index:03}", "k".repeat(length - 3))).collect(),
            ..words()
        };
        for size in PaperSize::ALL {
            stays_inside(size, &label);
        }
        let code = Code::that_fits(&label.lot, &label.records, 20.0).unwrap();
        prop_assert!(code.module_mm(20.0) >= MODULE_LEAST_MM);
        let drawn = sheets(PaperSize::Tag, 1, std::slice::from_ref(&label)).unwrap();
        let read = read_code(&drawn[0], PaperSize::Tag, 0);
        let opening = format!("lot {}", label.lot);
        prop_assert_eq!(read.lines().next(), Some(opening.as_str()));
        prop_assert_eq!(read.lines().count() - 1, label.records.iter().filter(|id| read.contains(*id)).count());
    }
}
