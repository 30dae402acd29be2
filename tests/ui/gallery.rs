//! Every file under `ui/previews` that shows a `Preview` is one case of a screen. Opened here with the interpreter and
//! drawn by the software renderer, without a display. Shared by the tests and by `cargo run --example pictures`.

use std::path::{Path, PathBuf};
use std::pin::pin;
use std::task::{Context, Poll, Waker};

use i_slint_backend_testing::{TestingBackend, TestingBackendOptions};
use slint_interpreter::{Compiler, ComponentHandle, ComponentInstance, Value};

#[path = "answers.rs"]
mod answers;

/// The themes by the names markup knows them by.
pub(crate) const THEMES: [&str; 3] = ["daylight", "kitchen", "night"];

/// A drawn screen: three bytes a pixel, row by row.
pub(crate) struct Picture {
    /// Pixels across.
    pub(crate) width: u32,
    /// Pixels down.
    pub(crate) height: u32,
    /// Red, green, blue.
    pub(crate) rgb: Vec<u8>,
}

/// Sets the headless backend with mock time on this thread. Doing it again changes nothing.
pub(crate) fn go_headless() {
    let options = TestingBackendOptions {
        mock_time: true,
        threading: false,
        renderer_name: Some("software".into()),
    };
    // An error means that this thread has its backend already.
    drop(slint::platform::set_platform(Box::new(TestingBackend::new(
        options,
    ))));
}

/// The cases, sorted by name; names without `.slint`.
pub(crate) fn cases() -> Vec<(String, PathBuf)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("ui/previews");
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("ui/previews is there") {
        let path = entry.expect("a readable entry").path();
        let text = std::fs::read_to_string(&path).expect("a readable preview");
        if text.contains("export component Preview ") {
            let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
            found.push((name, path));
        }
    }
    found.sort();
    found
}

/// Compiles a case and makes its window. Warnings of the compiler count as faults.
pub(crate) fn open(path: &Path) -> ComponentInstance {
    // A preview shows a screen and nothing else; what the shell answers is added to it.
    let source = std::fs::read_to_string(path).expect("a readable preview")
        + "export { LettersBridge } from \"../bridge/letters_bridge.slint\";\n"
        + "export { PictureBridge } from \"../bridge/picture_bridge.slint\";\n";
    let case = built(source, path);
    answer(&case);
    case
}

/// The window of that markup, as if it lay at that path. Nobody answers what it asks.
pub(crate) fn built(source: String, path: &Path) -> ComponentInstance {
    go_headless();
    let compiler = Compiler::default();
    let mut building = pin!(compiler.build_from_source(source, path.into()));
    let result = match building.as_mut().poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(result) => result,
        Poll::Pending => panic!("{}: the compiler waits for something", path.display()),
    };
    let faults: Vec<String> = result.diagnostics().map(|fault| fault.to_string()).collect();
    assert!(faults.is_empty(), "{}:\n{}", path.display(), faults.join("\n"));
    let definition = result.component("Preview").expect("the file exports Preview");
    definition.create().expect("a headless window")
}

/// Answers what a preview asks of the shell.
pub(crate) fn answer(case: &ComponentInstance) {
    answers::of_letters(case);
    answers::of_pictures(case);
}

/// Sizes the window and dresses it in a theme.
pub(crate) fn dress(case: &ComponentInstance, width: u32, height: u32, theme: &str) {
    case.window().set_size(slint::PhysicalSize::new(width, height));
    case.set_global_property(
        "ThemeColors",
        "theme",
        Value::EnumerationValue("Theme".into(), theme.into()),
    )
    .expect("previews export ThemeColors");
    case.show().expect("a headless window shows");
    i_slint_backend_testing::mock_elapsed_time(std::time::Duration::from_millis(16));
}

/// What stands on the glass.
pub(crate) fn take(case: &ComponentInstance) -> Picture {
    take_window(case.window())
}

/// What stands on a window.
pub(crate) fn take_window(window: &slint::Window) -> Picture {
    let shot = window.take_snapshot().expect("the software renderer draws");
    let (width, height) = (shot.width(), shot.height());
    let drawn =
        image::RgbaImage::from_raw(width, height, shot.as_bytes().to_vec()).expect("four bytes a pixel");
    Picture {
        width,
        height,
        rgb: image::DynamicImage::ImageRgba8(drawn).into_rgb8().into_raw(),
    }
}

/// Writes a picture as a full-colour PNG.
pub(crate) fn write_png(path: &Path, picture: &Picture) {
    let file = std::fs::File::create(path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
    let mut encoder = png::Encoder::new(std::io::BufWriter::new(file), picture.width, picture.height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::High);
    let mut writer = encoder.write_header().expect("a PNG header");
    writer.write_image_data(&picture.rgb).expect("the PNG is written");
}
