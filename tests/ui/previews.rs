//! Every preview, in every theme, on both promised panels, against its reference under `tests/screens`.
//!
//! `UPDATE_SCREENS=1 cargo test --test ui` writes what is drawn now and fails all the same, so that new references are
//! looked at before they are believed. On a difference got, wanted and difference lie in `target/screens`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use crate::gallery::{self, Picture, THEMES};

const PANELS: [(u32, u32); 2] = [(800, 480), (1280, 720)];
/// References are kept in few colours, each channel up to so far from the drawn one. What is drawn now is brought to
/// the same colours before the two are compared.
const REFERENCE_OFF_MAX: u8 = 28;
/// What fills more than one part in so many is a face, such as the ground or a card, and is kept as it is.
const FACE_PART: usize = 200;
/// Of every ten thousand pixels so many may differ: edges smoothed a little differently on another processor.
const PIXELS_OFF_PER_TEN_THOUSAND_MAX: u64 = 1;
const REFERENCE_BYTES_MAX: u64 = 40 * 1024;

#[test]
fn previews_look_as_their_references_do_in_daylight() {
    check_theme(THEMES[0]);
}

#[test]
fn previews_look_as_their_references_do_in_the_kitchen() {
    check_theme(THEMES[1]);
}

#[test]
fn previews_look_as_their_references_do_at_night() {
    check_theme(THEMES[2]);
}

#[test]
fn every_reference_belongs_to_a_preview() {
    let mut known: Vec<String> = Vec::new();
    for (name, _) in gallery::cases() {
        for theme in THEMES {
            known.extend(
                PANELS
                    .iter()
                    .map(|(width, height)| file_name(&name, theme, *width, *height)),
            );
        }
    }

    for entry in std::fs::read_dir(references()).expect("tests/screens is there") {
        let file = entry
            .expect("a readable entry")
            .file_name()
            .to_string_lossy()
            .into_owned();
        assert!(
            known.contains(&file),
            "tests/screens/{file} belongs to no preview: remove it"
        );
    }
}

/// Two drawings of one window are the same to the byte, or comparing with references means nothing.
#[test]
fn the_same_preview_is_drawn_the_same_twice() {
    let (_, path) = gallery::cases().into_iter().next().expect("there are previews");
    let case = gallery::open(&path);
    gallery::dress(&case, 800, 480, "kitchen");

    let first = gallery::take(&case);
    let second = gallery::take(&gallery_again(&path));

    assert_eq!(first.rgb, second.rgb);
}

fn gallery_again(path: &Path) -> slint_interpreter::ComponentInstance {
    let case = gallery::open(path);
    gallery::dress(&case, 800, 480, "kitchen");
    case
}

fn check_theme(theme: &str) {
    let update = std::env::var("UPDATE_SCREENS").is_ok_and(|value| value == "1");
    let cases = gallery::cases();
    assert!(cases.len() > 20, "only {} previews found", cases.len());
    let mut faults = Vec::new();
    for (name, path) in cases {
        let case = gallery::open(&path);
        for (width, height) in PANELS {
            gallery::dress(&case, width, height, theme);
            let got = gallery::take(&case);
            let file = file_name(&name, theme, width, height);
            if update {
                write_reference(&references().join(&file), &got);
            } else if let Err(fault) = compare(&file, &got) {
                faults.push(fault);
            }
        }
    }
    assert!(
        !update,
        "references written for {theme}: look at them, then run again without UPDATE_SCREENS"
    );
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

fn file_name(case: &str, theme: &str, width: u32, height: u32) -> String {
    format!("{case}-{theme}-{width}x{height}.png")
}

fn references() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/screens")
}

fn compare(file: &str, got: &Picture) -> Result<(), String> {
    let path = references().join(file);
    let bytes = std::fs::metadata(&path)
        .map_err(|_| format!("{file}: no reference; UPDATE_SCREENS=1 writes it"))?
        .len();
    if bytes > REFERENCE_BYTES_MAX {
        return Err(format!(
            "{file}: {bytes} bytes, a reference has at most {REFERENCE_BYTES_MAX}"
        ));
    }
    let wanted = read_reference(&path);
    if (got.width, got.height) != (wanted.width, wanted.height) {
        return Err(format!(
            "{file}: {}x{} is not {}x{}",
            got.width, got.height, wanted.width, wanted.height
        ));
    }
    let mut kept: Vec<[u8; 3]> = pixels(&wanted).collect();
    kept.dedup();
    let palette: Vec<[u8; 3]> = kept.into_iter().collect::<BTreeSet<_>>().into_iter().collect();
    let mut known: BTreeMap<[u8; 3], [u8; 3]> = BTreeMap::new();
    let mut off_count = 0_u64;
    let mut off_most = 0_u8;
    let mut difference = vec![0_u8; got.rgb.len()];
    // Neighbours are mostly alike: what was found for the last pixel is at hand for this one.
    let mut last = ([0; 3], nearest(&palette, [0; 3]));
    for (index, (drawn, kept)) in pixels(got).zip(pixels(&wanted)).enumerate() {
        if drawn != last.0 {
            last = (
                drawn,
                *known.entry(drawn).or_insert_with(|| nearest(&palette, drawn)),
            );
        }
        let near = last.1;
        if near != kept {
            off_count += 1;
            off_most = off_most.max(apart(drawn, kept));
            difference[index * 3] = 255;
        }
    }
    let pixel_count = u64::from(got.width) * u64::from(got.height);
    if off_count * 10_000 <= pixel_count * PIXELS_OFF_PER_TEN_THOUSAND_MAX {
        return Ok(());
    }
    let out = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/screens");
    std::fs::create_dir_all(&out).expect("target can be written");
    let shown = |suffix: &str, rgb: Vec<u8>| {
        let picture = Picture {
            width: got.width,
            height: got.height,
            rgb,
        };
        gallery::write_png(&out.join(file.replace(".png", suffix)), &picture);
    };
    shown("-got.png", got.rgb.clone());
    shown("-wanted.png", wanted.rgb);
    shown("-difference.png", difference);
    Err(format!(
        "{file}: {off_count} of {pixel_count} pixels differ, by up to {off_most}; see target/screens"
    ))
}

/// Writes a picture in few colours: its commonest ones, and every other as the commonest that is near it.
fn write_reference(path: &Path, picture: &Picture) {
    std::fs::create_dir_all(references()).expect("tests can be written");
    let palette = palette_of(picture);
    assert!(
        palette.len() <= 256,
        "{}: {} colours even when merged",
        path.display(),
        palette.len()
    );
    let place = |colour: [u8; 3]| {
        let near = nearest(&palette, colour);
        let index = palette
            .iter()
            .position(|kept| *kept == near)
            .expect("it is one of them");
        u8::try_from(index).expect("at most 256 colours")
    };
    let mut known: BTreeMap<[u8; 3], u8> = BTreeMap::new();
    let indices: Vec<u8> = pixels(picture)
        .map(|pixel| *known.entry(pixel).or_insert_with(|| place(pixel)))
        .collect();
    let file = std::fs::File::create(path).expect("the reference can be written");
    let mut encoder = png::Encoder::new(std::io::BufWriter::new(file), picture.width, picture.height);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_palette(palette.concat());
    encoder.set_compression(png::Compression::High);
    encoder.set_filter(png::Filter::NoFilter);
    let mut writer = encoder.write_header().expect("a PNG header");
    writer.write_image_data(&indices).expect("the PNG is written");
}

fn pixels(picture: &Picture) -> impl Iterator<Item = [u8; 3]> + '_ {
    picture
        .rgb
        .chunks_exact(3)
        .map(|pixel| [pixel[0], pixel[1], pixel[2]])
}

fn palette_of(picture: &Picture) -> Vec<[u8; 3]> {
    let mut counts: BTreeMap<[u8; 3], u32> = BTreeMap::new();
    for pixel in pixels(picture) {
        *counts.entry(pixel).or_default() += 1;
    }
    let mut colours: Vec<([u8; 3], u32)> = counts.into_iter().collect();
    colours.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    let mut palette: Vec<[u8; 3]> = Vec::new();
    let face = u32::try_from(picture.rgb.len() / 3 / FACE_PART).expect("a picture of a screen's size");
    for (colour, count) in colours {
        if count >= face
            || !palette
                .iter()
                .any(|kept| apart(*kept, colour) <= REFERENCE_OFF_MAX)
        {
            palette.push(colour);
        }
    }
    palette
}

/// The nearest of the palette; of two as near, the darker, whatever order the palette is in.
fn nearest(palette: &[[u8; 3]], colour: [u8; 3]) -> [u8; 3] {
    *palette
        .iter()
        .min_by_key(|kept| (apart(**kept, colour), **kept))
        .expect("a palette")
}

/// The largest difference of a channel.
fn apart(one: [u8; 3], other: [u8; 3]) -> u8 {
    (0..3)
        .map(|channel| one[channel].abs_diff(other[channel]))
        .max()
        .unwrap_or(0)
}

fn read_reference(path: &Path) -> Picture {
    let file = std::fs::File::open(path).expect("a readable reference");
    let mut decoder = png::Decoder::new(std::io::BufReader::new(file));
    decoder.set_transformations(png::Transformations::EXPAND);
    let mut reader = decoder.read_info().expect("a PNG");
    let mut rgb = vec![0; reader.output_buffer_size().expect("a picture of a size")];
    let info = reader.next_frame(&mut rgb).expect("a whole PNG");
    rgb.truncate(info.buffer_size());
    Picture {
        width: info.width,
        height: info.height,
        rgb,
    }
}
