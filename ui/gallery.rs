//! Draws the screens of real baths without a display, in every language, theme and size:
//! `cargo run --example gallery -- [--out DIR] [--language TAG] [--theme NAME] [--size WxH] [--us] [PART...]`.
//!
//! Whole pictures go to `target/gallery`, or to `--out`; with `--sheets`, one sheet of small ones for each language and
//! theme goes to `docs/gallery`. A part of a name keeps those scenes only. `--us` shows ounces, Fahrenheit, gallons and
//! a clock of twelve hours.
#![allow(
    clippy::as_conversions,
    clippy::arithmetic_side_effects,
    clippy::disallowed_methods,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::integer_division,
    clippy::panic,
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::match_wildcard_for_single_variants,
    clippy::wildcard_enum_match_arm,
    dead_code,
    reason = "a tool for contributors: it may fall over with its reason, and it writes files"
)]

#[path = "../tests/ui/gallery.rs"]
mod gallery;
#[path = "../tests/ui/scenes.rs"]
mod scenes;
#[path = "../tests/ui/sheets.rs"]
mod sheets;
#[path = "../tests/ui/shown.rs"]
mod shown;

use std::path::PathBuf;

use potside::say;
use potside::view::locale::{Language, Locale};
use potside::view::screen::{Icon, Notice, NoticeWeight, Theme};

struct Wanted {
    out: Option<PathBuf>,
    languages: Vec<Language>,
    themes: Vec<Theme>,
    sizes: Vec<(u32, u32)>,
    us: bool,
    as_sheets: bool,
    parts: Vec<String>,
}

fn wanted() -> Wanted {
    let mut wanted = Wanted {
        out: None,
        languages: Language::ALL.to_vec(),
        themes: shown::THEMES.to_vec(),
        sizes: vec![(800, 480), (1280, 720)],
        us: false,
        as_sheets: false,
        parts: Vec::new(),
    };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let mut next = || words.next().unwrap_or_else(|| panic!("{word} needs a value"));
        match word.as_str() {
            "--out" => wanted.out = Some(next().into()),
            "--language" => {
                wanted.languages = vec![Language::from_tag(&next()).expect("a tag, such as de")];
            }
            "--theme" => wanted.themes = vec![shown::theme(&next())],
            "--size" => {
                let size = next();
                let (w, h) = size.split_once('x').expect("a size is WxH, such as 800x480");
                wanted.sizes = vec![(w.parse().expect("a number"), h.parse().expect("a number"))];
            }
            "--us" => wanted.us = true,
            "--sheets" => wanted.as_sheets = true,
            part => wanted.parts.push(part.into()),
        }
    }
    wanted
}

/// The two notices that must never be missed.
fn bad_news(locale: Locale) -> Vec<Notice> {
    vec![
        Notice {
            text: say!(
                locale,
                "NOT SAVING since {at}",
                at = locale.clock_of_minute(14 * 60 + 32)
            ),
            icon: Icon::SaveOff,
            weight: NoticeWeight::Urgent,
        },
        Notice {
            text: say!(locale, "NO SOUND: watch the screen"),
            icon: Icon::SoundOff,
            weight: NoticeWeight::Caution,
        },
    ]
}

fn main() {
    let wanted = wanted();
    let here = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let usual = here.join(if wanted.as_sheets {
        "docs/gallery"
    } else {
        "target/gallery"
    });
    let out = wanted.out.unwrap_or(usual);
    std::fs::create_dir_all(&out).expect("the folder can be made");
    for language in wanted.languages {
        let locale = shown::locale(language, wanted.us);
        let mut scenes = scenes::scenes(locale);
        scenes.retain(|scene| {
            wanted.parts.is_empty() || wanted.parts.iter().any(|part| scene.name.contains(part))
        });
        for theme in &wanted.themes {
            for (width, height) in &wanted.sizes {
                let mut glass = shown::Shown::new(language, *theme, *width, *height);
                let named = format!(
                    "{}-{}-{width}x{height}",
                    language.tag(),
                    shown::theme_name(*theme)
                );
                let mut small = Vec::new();
                let plain = scenes.iter().map(|scene| (scene, Vec::new(), ""));
                let with_bad_news = scenes
                    .iter()
                    .filter(|scene| scene.name.contains("urgent") || scene.name.starts_with("stove"))
                    .map(|scene| (scene, bad_news(locale), "-notices"));
                for (scene, notices, with) in plain.chain(with_bad_news) {
                    glass.dress_with(*theme, notices);
                    let picture = glass.take(&scene.screen);
                    if wanted.as_sheets {
                        small.push(sheets::halved(&picture));
                    } else {
                        let file = out.join(format!("{}{with}-{named}.png", scene.name));
                        gallery::write_png(&file, &picture);
                        println!("{}", file.display());
                    }
                }
                if wanted.as_sheets {
                    let file = out.join(format!("{named}.png"));
                    sheets::write(&file, &small);
                    println!("{}", file.display());
                }
            }
        }
    }
}
