//! Draws the previews without a display: `cargo run --example pictures -- [--out DIR] [--size WxH] [--theme NAME] [CASE...]`.
//! Without cases it draws every one; without `--out` into `docs/pictures`.
#![allow(
    clippy::disallowed_methods,
    clippy::panic,
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a tool for contributors: it may fall over with its reason, and it writes files"
)]

#[path = "../tests/ui/gallery.rs"]
mod gallery;

use std::path::PathBuf;

fn main() {
    let mut out = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("docs/pictures");
    let (mut width, mut height) = (800, 480);
    let mut themes: Vec<String> = vec!["kitchen".into()];
    let mut wanted: Vec<String> = Vec::new();
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        match word.as_str() {
            "--out" => out = words.next().expect("--out needs a folder").into(),
            "--theme" => themes = vec![words.next().expect("--theme needs a name")],
            "--themes" => themes = gallery::THEMES.iter().map(ToString::to_string).collect(),
            "--size" => {
                let size = words.next().expect("--size needs WxH");
                let (w, h) = size.split_once('x').expect("a size is WxH, such as 800x480");
                width = w.parse().expect("a whole number of pixels");
                height = h.parse().expect("a whole number of pixels");
            }
            case => wanted.push(case.into()),
        }
    }
    std::fs::create_dir_all(&out).expect("the folder can be made");
    for (name, path) in gallery::cases() {
        if !wanted.is_empty() && !wanted.iter().any(|part| name.contains(part.as_str())) {
            continue;
        }
        let case = gallery::open(&path);
        for theme in &themes {
            gallery::dress(&case, width, height, theme);
            let file = out.join(format!("{name}-{theme}-{width}x{height}.png"));
            gallery::write_png(&file, &gallery::take(&case));
            println!("{}", file.display());
        }
    }
}
