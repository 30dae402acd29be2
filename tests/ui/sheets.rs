//! Sheets of many small pictures, for a look at everything at once.

use std::collections::BTreeMap;
use std::path::Path;

use crate::gallery::Picture;

/// Pictures across.
const ACROSS: usize = 5;

/// Between the pictures, in pixels.
const GAP: usize = 6;

/// Half as wide and high; each pixel the mean of four.
pub(crate) fn halved(picture: &Picture) -> Picture {
    let (width, height) = (picture.width as usize, picture.height as usize);
    let at = |x: usize, y: usize, channel: usize| u32::from(picture.rgb[(y * width + x) * 3 + channel]);
    let mut rgb = Vec::with_capacity(width / 2 * (height / 2) * 3);
    for y in 0..height / 2 {
        for x in 0..width / 2 {
            for channel in 0..3 {
                let four = at(2 * x, 2 * y, channel)
                    + at(2 * x + 1, 2 * y, channel)
                    + at(2 * x, 2 * y + 1, channel)
                    + at(2 * x + 1, 2 * y + 1, channel);
                rgb.push(u8::try_from(four / 4).expect("a mean of bytes"));
            }
        }
    }
    Picture {
        width: picture.width / 2,
        height: picture.height / 2,
        rgb,
    }
}

/// Writes the pictures, all of one size, in rows.
pub(crate) fn write(path: &Path, pictures: &[Picture]) {
    let Some(first) = pictures.first() else { return };
    let (width, height) = (first.width as usize, first.height as usize);
    let rows = pictures.len().div_ceil(ACROSS);
    let (all_wide, all_high) = (ACROSS * (width + GAP) + GAP, rows * (height + GAP) + GAP);
    let mut rgb = vec![128_u8; all_wide * all_high * 3];
    for (index, picture) in pictures.iter().enumerate() {
        let left = GAP + index % ACROSS * (width + GAP);
        let top = GAP + index / ACROSS * (height + GAP);
        for y in 0..height {
            let to = ((top + y) * all_wide + left) * 3;
            rgb[to..to + width * 3].copy_from_slice(&picture.rgb[y * width * 3..(y + 1) * width * 3]);
        }
    }
    let sheet = Picture {
        width: u32::try_from(all_wide).expect("a picture's width"),
        height: u32::try_from(all_high).expect("a picture's height"),
        rgb,
    };
    write_in_few_colours(path, &sheet);
}

/// So many colours are kept; what lies between them takes the nearest, for a sheet is looked at and not measured.
const COLOURS_MOST: usize = 64;

fn write_in_few_colours(path: &Path, sheet: &Picture) {
    let mut counts: BTreeMap<[u8; 3], usize> = BTreeMap::new();
    for pixel in sheet.rgb.chunks_exact(3) {
        *counts.entry([pixel[0], pixel[1], pixel[2]]).or_default() += 1;
    }
    let mut often: Vec<([u8; 3], usize)> = counts.iter().map(|(colour, count)| (*colour, *count)).collect();
    often.sort_by_key(|(colour, count)| (std::cmp::Reverse(*count), *colour));
    let kept: Vec<[u8; 3]> = often
        .iter()
        .take(COLOURS_MOST)
        .map(|(colour, _)| *colour)
        .collect();
    let nearest: BTreeMap<[u8; 3], u8> = counts
        .keys()
        .map(|colour| {
            let off = |other: &[u8; 3]| -> u32 {
                let each = (0..3).map(|at| u32::from(colour[at].abs_diff(other[at])).pow(2));
                each.sum()
            };
            let index = (0..kept.len())
                .min_by_key(|index| off(&kept[*index]))
                .expect("a colour");
            (*colour, u8::try_from(index).expect("few colours"))
        })
        .collect();
    let indexed: Vec<u8> = sheet
        .rgb
        .chunks_exact(3)
        .map(|pixel| nearest[&[pixel[0], pixel[1], pixel[2]]])
        .collect();
    let file = std::fs::File::create(path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
    let mut encoder = png::Encoder::new(std::io::BufWriter::new(file), sheet.width, sheet.height);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_palette(kept.concat());
    encoder.set_compression(png::Compression::High);
    let mut writer = encoder.write_header().expect("a PNG header");
    writer.write_image_data(&indexed).expect("the PNG is written");
}
