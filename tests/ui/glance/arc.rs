//! What distance leaves of a picture. It is made as small as the eye gets it: one pixel is one minute of arc, which is
//! about what a healthy eye tells apart (a visual acuity of 1.0), blurred by a bell of that width, in linear light.

use image::imageops::FilterType;
use image::{DynamicImage, Rgb32FImage};

use crate::gallery::Picture;
use crate::light;

use super::ink::{Frame, Ink, row};

/// A glass looked at from so far away.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sight {
    pub(crate) metres: f32,
    pub(crate) ppi: f32,
}

impl Sight {
    /// Pixels of the glass that one minute of arc spans.
    pub(crate) fn minute(self) -> f32 {
        let millimetres = self.metres * 1_000.0 * (1.0_f32 / 60.0).to_radians().tan();
        millimetres / 25.4 * self.ppi
    }

    /// Minutes of arc that so many pixels span.
    pub(crate) fn minutes(self, pixels: f32) -> f32 {
        pixels / self.minute()
    }
}

/// A box of a picture as it is seen: how bright each minute of arc is.
pub(crate) struct Seen {
    frame: Frame,
    /// Pixels of the picture to one of this, across and down: a minute of arc, but for the rounding of the whole.
    scale: (f32, f32),
    bright: Rgb32FImage,
}

/// What distance leaves of a box, and of a little around it.
pub(crate) fn seen(picture: &Picture, frame: Frame, sight: Sight) -> Seen {
    let minute = sight.minute();
    let around = (2.0 * minute) as u32;
    let frame = Frame {
        left: frame.left.saturating_sub(around),
        top: frame.top.saturating_sub(around),
        right: (frame.right + around).min(picture.width),
        bottom: (frame.bottom + around).min(picture.height),
    };
    let large = in_linear_light(picture, frame);
    let small = |pixels: u32| (pixels as f32 / minute).round().max(1.0) as u32;
    let bright = DynamicImage::ImageRgb32F(large)
        .resize_exact(small(frame.width()), small(frame.height()), FilterType::Gaussian)
        .into_rgb32f();
    let scale = (
        frame.width() as f32 / bright.width() as f32,
        frame.height() as f32 / bright.height() as f32,
    );
    Seen { frame, scale, bright }
}

fn in_linear_light(picture: &Picture, frame: Frame) -> Rgb32FImage {
    let mut light = Vec::with_capacity((frame.width() * frame.height() * 3) as usize);
    let mut last = ([0; 3], light::linear([0; 3]));
    for y in frame.top..frame.bottom {
        for here in row(picture, frame, y) {
            if *here != last.0 {
                last = (*here, light::linear(*here));
            }
            light.extend_from_slice(&last.1);
        }
    }
    Rgb32FImage::from_raw(frame.width(), frame.height(), light).expect("three values a pixel")
}

impl Seen {
    /// Per row of a mark, and of the rows on its edges, the most that any minute of arc still stands out from the
    /// ground.
    fn rows(&self, mark: Frame, ground: f32) -> Vec<Row> {
        let across = |at: u32| (at - self.frame.left) as f32 / self.scale.0;
        let down = |at: u32| (at - self.frame.top) as f32 / self.scale.1;
        let left = across(mark.left).floor() as u32;
        let right = (across(mark.right).ceil() as u32).min(self.bright.width());
        let (top, bottom) = (down(mark.top), down(mark.bottom));
        (top.floor() as u32..(bottom.ceil() as u32).min(self.bright.height()))
            .map(|y| Row {
                is_inner: y as f32 >= top + 0.5 && (y + 1) as f32 <= bottom - 0.5,
                ratio: (left..right)
                    .map(|x| light::ratio(light::luminance(self.bright.get_pixel(x, y).0), ground))
                    .fold(0.0, f32::max),
            })
            .collect()
    }

    /// How many minutes of arc down a mark stands out by so much.
    pub(crate) fn height(&self, mark: Frame, ink: &Ink, least: f32) -> usize {
        let rows = self.rows(mark, ink.ground_light());
        rows.iter().filter(|row| row.ratio >= least).count()
    }

    /// The contrast left of a text: that of the palest row of any of its marks. Its edges
    /// may be pale; a mark smaller than three rows, such as a point, is taken at its darkest.
    pub(crate) fn contrast_left(&self, ink: &Ink) -> f32 {
        let ground = ink.ground_light();
        let of_mark = |mark: &Frame| {
            let rows = self.rows(*mark, ground);
            let inner: Vec<f32> = rows
                .iter()
                .filter(|row| row.is_inner)
                .map(|row| row.ratio)
                .collect();
            if inner.len() < 3 {
                rows.iter().map(|row| row.ratio).fold(0.0, f32::max)
            } else {
                inner.into_iter().fold(f32::MAX, f32::min)
            }
        };
        ink.marks.iter().map(of_mark).fold(f32::MAX, f32::min)
    }
}

/// One minute of arc across a mark.
struct Row {
    /// Half a minute or more from the mark's edges, over which the blur reaches.
    is_inner: bool,
    ratio: f32,
}

/// ISO 9241-303 tells heights in minutes of arc: 20 of them are 11.6 mm at two metres, 5.8 mm at one.
#[test]
fn a_minute_of_arc_is_as_long_as_it_is() {
    for (metres, minutes, millimetres) in [(2.0, 20.0, 11.64), (1.0, 20.0, 5.82), (2.0, 22.0, 12.80)] {
        let sight = Sight { metres, ppi: 133.0 };
        let got = sight.minute() * minutes * 25.4 / 133.0;
        assert!((got - millimetres).abs() < 0.01, "{got} against {millimetres}");
    }
}
