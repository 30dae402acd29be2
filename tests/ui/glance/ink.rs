//! What is printed in a box of a picture: on which ground, in which ink, and where its marks are, a mark being what
//! hangs together, most often a letter.

use crate::gallery::Picture;
use crate::light;

use super::texts::Area;

/// A whole-numbered box of a picture: the far edges lie outside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Frame {
    pub(crate) left: u32,
    pub(crate) top: u32,
    pub(crate) right: u32,
    pub(crate) bottom: u32,
}

impl Frame {
    /// What of an area lies on a picture.
    pub(crate) fn of(area: Area, picture: &Picture) -> Self {
        let within = |value: f32, most: u32| value.clamp(0.0, most as f32) as u32;
        Self {
            left: within(area.left.floor(), picture.width),
            top: within(area.top.floor(), picture.height),
            right: within(area.right.ceil(), picture.width),
            bottom: within(area.bottom.ceil(), picture.height),
        }
    }

    pub(crate) const fn width(self) -> u32 {
        self.right.saturating_sub(self.left)
    }

    pub(crate) const fn height(self) -> u32 {
        self.bottom.saturating_sub(self.top)
    }
}

/// The colours of a text and its marks.
#[derive(Debug, Clone)]
pub(crate) struct Ink {
    pub(crate) ground: [u8; 3],
    pub(crate) ink: [u8; 3],
    pub(crate) marks: Vec<Frame>,
    /// A place of the picture that is all ground, and one that is all ink.
    places: [(u32, u32); 2],
}

impl Ink {
    /// The same text in another theme: its marks are where they were.
    pub(crate) fn dyed_as(&self, picture: &Picture) -> Self {
        let [ground, ink] = self.places.map(|(x, y)| pixel(picture, x, y));
        Self {
            ground,
            ink,
            ..self.clone()
        }
    }

    /// Pixels from the top to the bottom of the tallest mark.
    pub(crate) fn tallest(&self) -> u32 {
        self.marks.iter().map(|mark| mark.height()).max().unwrap_or(0)
    }

    /// How bright the ground is.
    pub(crate) fn ground_light(&self) -> f32 {
        light::luminance(light::linear(self.ground))
    }

    /// The contrast between the two colours.
    pub(crate) fn contrast(&self) -> f32 {
        light::contrast(self.ground, self.ink)
    }
}

/// A colour of a box, how many pixels have it, and where one of them is.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Colour {
    pub(crate) rgb: [u8; 3],
    pub(crate) count: u32,
    place: (u32, u32),
}

/// The colours of a box.
pub(crate) fn colours(picture: &Picture, frame: Frame) -> Vec<Colour> {
    let mut counted: Vec<Colour> = Vec::new();
    let mut last = usize::MAX;
    for y in frame.top..frame.bottom {
        for (x, here) in (frame.left..).zip(row(picture, frame, y)) {
            if last == usize::MAX || counted[last].rgb != *here {
                last = counted
                    .iter()
                    .position(|colour| colour.rgb == *here)
                    .unwrap_or_else(|| {
                        counted.push(Colour {
                            rgb: *here,
                            count: 0,
                            place: (x, y),
                        });
                        counted.len() - 1
                    });
            }
            counted[last].count += 1;
        }
    }
    counted
}

/// The ink of a box: its ground is the colour that most of it has, its ink the one that stands out most. `None` where there
/// is nothing but ground.
pub(crate) fn read(picture: &Picture, frame: Frame) -> Option<Ink> {
    let counted = colours(picture, frame);
    let ground = counted.iter().max_by_key(|colour| colour.count)?;
    let far = |colour: &Colour| light::contrast(colour.rgb, ground.rgb);
    let ink = counted
        .iter()
        .max_by(|one, other| far(one).total_cmp(&far(other)))?;
    if ground.rgb == ink.rgb {
        return None;
    }
    Some(Ink {
        ground: ground.rgb,
        ink: ink.rgb,
        marks: marks(inked(picture, frame, ground.rgb, ink.rgb), frame),
        places: [ground.place, ink.place],
    })
}

fn marks(mut inked: Vec<bool>, frame: Frame) -> Vec<Frame> {
    let mut marks = Vec::new();
    let across = frame.width() as usize;
    for start in 0..inked.len() {
        if inked[start] {
            let (x0, y0, x1, y1) = take_mark(&mut inked, across, start);
            let mark = Frame {
                left: frame.left + x0 as u32,
                top: frame.top + y0 as u32,
                right: frame.left + x1 as u32 + 1,
                bottom: frame.top + y1 as u32 + 1,
            };
            // The line above may reach in with its descenders. No letter reaches the top of its own line.
            if mark.top > frame.top {
                marks.push(mark);
            }
        }
    }
    marks
}

/// Which pixels are nearer to the ink than to the ground.
fn inked(picture: &Picture, frame: Frame, ground: [u8; 3], ink: [u8; 3]) -> Vec<bool> {
    let way = [0, 1, 2].map(|channel| i32::from(ink[channel]) - i32::from(ground[channel]));
    let whole: i32 = way.iter().map(|part| part * part).sum();
    let is_inked = |here: [u8; 3]| {
        let along: i32 = (0..3)
            .map(|channel| way[channel] * (i32::from(here[channel]) - i32::from(ground[channel])))
            .sum();
        along * 2 > whole
    };
    let mut inked = Vec::with_capacity((frame.width() * frame.height()) as usize);
    let mut last = (ground, false);
    for y in frame.top..frame.bottom {
        for here in row(picture, frame, y) {
            if *here != last.0 {
                last = (*here, is_inked(*here));
            }
            inked.push(last.1);
        }
    }
    inked
}

/// Takes all that hangs together with a place, corners included, and tells its box.
fn take_mark(left: &mut [bool], across: usize, start: usize) -> (usize, usize, usize, usize) {
    let down = left.len() / across;
    let mut reached = (start % across, start / across, start % across, start / across);
    let mut waiting = vec![start];
    left[start] = false;
    while let Some(place) = waiting.pop() {
        let (x, y) = (place % across, place / across);
        reached = (
            reached.0.min(x),
            reached.1.min(y),
            reached.2.max(x),
            reached.3.max(y),
        );
        for near_y in y.saturating_sub(1)..(y + 2).min(down) {
            for near_x in x.saturating_sub(1)..(x + 2).min(across) {
                let near = near_y * across + near_x;
                if left[near] {
                    left[near] = false;
                    waiting.push(near);
                }
            }
        }
    }
    reached
}

pub(crate) fn pixel(picture: &Picture, x: u32, y: u32) -> [u8; 3] {
    let index = ((y * picture.width + x) * 3) as usize;
    [picture.rgb[index], picture.rgb[index + 1], picture.rgb[index + 2]]
}

/// One row of a box.
pub(crate) fn row(picture: &Picture, frame: Frame, y: u32) -> &[[u8; 3]] {
    let (pixels, _) = picture.rgb.as_chunks::<3>();
    let start = (y * picture.width) as usize;
    &pixels[start + frame.left as usize..start + frame.right as usize]
}
