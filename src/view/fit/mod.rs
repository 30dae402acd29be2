//! How large words can stand in a box. A screen asks for it with the box and the words and gets a size of letters, so that
//! it needs no text of its own that is measured and never seen.

mod widths;

use textwrap::core::Fragment;
use textwrap::word_splitters::split_words;
use textwrap::wrap_algorithms::wrap_first_fit;
use textwrap::{WordSeparator, WordSplitter};

/// How high a line of B612 is, in parts of its font size: its ascender, its descender and its gap.
const LINE: f32 = 1.22;

/// The two weights of the screens' letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// 400.
    Regular,
    /// 700.
    Bold,
}

impl Weight {
    /// From a weight as fonts number it, 100 to 900; bold from 600.
    #[must_use]
    pub const fn from_number(number: i32) -> Self {
        if number < 600 { Self::Regular } else { Self::Bold }
    }
}

/// The width of a text in one line, in parts of its font size.
#[must_use]
pub fn width(text: &str, weight: Weight) -> f32 {
    widths::width_of(text, weight)
}

/// The width of the widest of what can't be broken, in parts of the font size. Lines are broken where Unicode's annex 14
/// allows it, at hyphens only between letters.
#[must_use]
pub fn widest_word(text: &str, weight: Weight) -> f32 {
    widest_of(&words(text, weight))
}

/// How many lines a text takes in a room that is so wide, in parts of the font size. A word that is wider still has a line
/// of its own.
#[must_use]
pub fn lines(text: &str, weight: Weight, room: f32) -> u16 {
    lines_of(&words(text, weight), room)
}

/// The largest font size, in the unit of the box, at which a text that is broken between words fits a box; 0 where the
/// box is none. Another line is taken only where the letters come out a quarter larger for it, or would be smaller than the
/// least otherwise.
#[must_use]
pub fn largest(text: &str, weight: Weight, width: f32, height: f32, least: f32) -> f32 {
    let words = words(text, weight);
    let widest = widest_of(&words);
    if widest <= 0.0 || width <= 0.0 || height <= 0.0 {
        return 0.0;
    }
    let most = (width / widest).min(height / LINE);
    let in_lines = |lines_most: u16| {
        largest_by(most, |size| {
            let lines = lines_of(&words, width / size);
            // Lines are set on whole pixels.
            lines <= lines_most && f32::from(lines) * (LINE * size).ceil() <= height
        })
    };
    let best = in_lines(u16::MAX);
    let lines_at_best = lines_of(&words, width / best);
    (1..lines_at_best)
        .map(in_lines)
        .find(|size| *size >= least && *size >= WORTH_A_LINE * best)
        .unwrap_or(best)
}

/// Smaller letters never take more lines, so that the largest size that fits is found by halving.
fn largest_by(most: f32, fits: impl Fn(f32) -> bool) -> f32 {
    if fits(most) {
        return most;
    }
    let (mut known, mut is_too_large) = (0.0_f32, most);
    for _ in 0..HALVINGS {
        let between = f32::midpoint(known, is_too_large);
        if fits(between) {
            known = between;
        } else {
            is_too_large = between;
        }
    }
    known
}

const WORTH_A_LINE: f32 = 0.8;

/// To a thousandth of a pixel from sizes of some hundred.
const HALVINGS: usize = 18;

/// A word with the blank after it.
#[derive(Debug, Clone, Copy)]
struct Word {
    letters: f32,
    blank: f32,
}

impl Fragment for Word {
    fn width(&self) -> f64 {
        f64::from(self.letters)
    }

    fn whitespace_width(&self) -> f64 {
        f64::from(self.blank)
    }

    fn penalty_width(&self) -> f64 {
        0.0
    }
}

/// The words of each paragraph.
fn words(text: &str, weight: Weight) -> Vec<Vec<Word>> {
    let word = |word: textwrap::core::Word<'_>| Word {
        letters: width(word.word, weight),
        blank: width(word.whitespace, weight),
    };
    let words_in = |line| {
        let between_blanks = WordSeparator::UnicodeBreakProperties.find_words(line);
        split_words(between_blanks, &WordSplitter::HyphenSplitter)
            .map(word)
            .collect()
    };
    text.lines().map(words_in).collect()
}

fn widest_of(words: &[Vec<Word>]) -> f32 {
    words
        .iter()
        .flatten()
        .fold(0.0, |widest, word| widest.max(word.letters))
}

fn lines_of(words: &[Vec<Word>], room: f32) -> u16 {
    let of_all = words
        .iter()
        .map(|words| wrap_first_fit(words, &[f64::from(room)]).len());
    u16::try_from(of_all.sum::<usize>()).unwrap_or(u16::MAX)
}

#[cfg(test)]
mod tests {
    use super::{LINE, WORTH_A_LINE, Weight, largest, lines, widest_word, width};

    fn is_near(a: f32, b: f32) -> bool {
        (a - b).abs() < 0.001
    }

    /// The face's own advances (`hmtx`), of 1000 to the em, read with ttf-parser.
    #[test]
    fn a_letter_is_as_wide_as_its_face_says() {
        let bytes = include_bytes!("../../../ui/fonts/B612-Bold.otf");
        let face = ttf_parser::Face::parse(bytes, 0).expect("a face");
        for letter in ["0", "A", "m", "%", "\u{fc}"] {
            let glyph = letter.chars().next().and_then(|c| face.glyph_index(c));
            let advance = face
                .glyph_hor_advance(glyph.expect("B612 has it"))
                .expect("an advance");
            let per_em = f32::from(face.units_per_em());
            assert!(
                is_near(width(letter, Weight::Bold), f32::from(advance) / per_em),
                "{letter}"
            );
        }
    }

    #[test]
    fn digits_are_of_one_width_so_that_a_count_stands_still() {
        for weight in [Weight::Regular, Weight::Bold] {
            let nought = width("0", weight);
            for digit in ["1", "2", "3", "4", "5", "6", "7", "8", "9"] {
                assert!(is_near(width(digit, weight), nought), "{digit}");
            }
        }
    }

    #[test]
    fn letters_that_lean_to_each_other_are_kerned() {
        let apart = width("T", Weight::Bold) + width("o", Weight::Bold);
        assert!(width("To", Weight::Bold) < apart - 0.01);
    }

    #[test]
    fn lines_break_between_words_and_nowhere_else() {
        let room = width("simmering", Weight::Regular) + 0.01;
        assert_eq!(lines("simmering", Weight::Regular, room), 1);
        assert_eq!(lines("simmering bath", Weight::Regular, room), 2);
        assert_eq!(lines("a simmering bath", Weight::Regular, room), 3);
        assert_eq!(
            lines("simmering", Weight::Regular, 0.5 * room),
            1,
            "a word isn't torn"
        );
        assert_eq!(
            lines("one\ntwo", Weight::Regular, room),
            2,
            "a paragraph begins a line"
        );
        assert_eq!(lines("", Weight::Regular, room), 0);
    }

    /// Unicode Standard Annex 14, from memory: a break may follow a hyphen, and a no-break space allows none.
    #[test]
    fn a_hyphen_breaks_and_a_no_break_space_does_not() {
        let halves = widest_word("half-dried", Weight::Regular);
        assert!(halves < width("half-dried", Weight::Regular) - 0.5);
        let whole = widest_word("15.0\u{a0}g", Weight::Regular);
        assert!(is_near(whole, width("15.0\u{a0}g", Weight::Regular)));
    }

    /// In boxes of every shape, so that now the width bounds the size and now the height does.
    #[test]
    fn the_largest_size_fits_and_a_larger_one_does_not() {
        for text in [
            "Press the bag now and then, and turn the goods",
            "Alum mordant",
            "a",
        ] {
            for (across, down) in (1_u16..40).map(|shape| (300.0, 8.0 * f32::from(shape))) {
                let size = largest(text, Weight::Regular, across, down, 0.0);
                let takes =
                    |size: f32| f32::from(lines(text, Weight::Regular, across / size)) * (LINE * size).ceil();
                let widest = widest_word(text, Weight::Regular);
                assert!(
                    takes(size) <= down && size * widest <= across + 0.01,
                    "{text} at {size} in {down}"
                );
                // That much another line is worth, and a pixel is what is lost on whole ones.
                let larger = size / WORTH_A_LINE * 1.01 + 1.0;
                assert!(
                    takes(larger) > down || larger * widest > across,
                    "{text} at {larger} in {down}"
                );
            }
        }
    }

    /// By hand: two lines of 38 px are as wide as `as planned`, three of 41 px as high as the box.
    #[test]
    fn a_third_line_is_not_taken_for_a_little() {
        let label = "Weighed as planned";
        let across = 38.0 * width("as planned", Weight::Bold);
        let size = largest(label, Weight::Bold, across, 150.0, 0.0);
        assert_eq!(lines(label, Weight::Bold, across / size), 2, "at {size}");
        let size = largest(label, Weight::Bold, across, 150.0, 40.0);
        assert_eq!(lines(label, Weight::Bold, across / size), 3, "at {size}");
        let narrow = 20.0 * width("as planned", Weight::Bold);
        let size = largest(label, Weight::Bold, narrow, 150.0, 0.0);
        assert_eq!(lines(label, Weight::Bold, narrow / size), 3, "at {size}");
    }

    #[test]
    fn no_room_and_no_words_have_no_size() {
        assert!(is_near(largest("a", Weight::Bold, 0.0, 10.0, 0.0), 0.0));
        assert!(is_near(largest("a", Weight::Bold, 10.0, -1.0, 0.0), 0.0));
        assert!(is_near(largest("", Weight::Bold, 10.0, 10.0, 0.0), 0.0));
    }
}
