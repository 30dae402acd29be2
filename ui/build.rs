//! Compiles the screens when the shell is built, and always the catalogue of translations; says how the program is linked.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
#[cfg(feature = "shell")]
use std::process::{Command, Stdio};

/// Where the catalogues lie: one folder for each language, laid out as gettext lays it out.
const CATALOGUES: &str = "src/view/locale/po";

/// The languages beside English, by their tags.
const LANGUAGES: [&str; 2] = ["de", "fr"];

/// The comment of entries that are not looked up but read back out of a finished sentence.
const READ_BACK: &str = "read back";

fn main() {
    catalogue();
    #[cfg(feature = "shell")]
    {
        compile();
        link();
    }
}

/// Writes every catalogue as a table sorted by what is said in English, so that nothing is read at run time.
#[expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "cargo speaks to build scripts through the environment, and a catalogue that can't be read stops the build"
)]
fn catalogue() {
    println!("cargo::rerun-if-changed={CATALOGUES}");
    let mut code = String::new();
    let mut templates = BTreeSet::new();
    for language in LANGUAGES {
        let folder = Path::new(CATALOGUES).join(language).join("LC_MESSAGES");
        let mut pairs = Vec::new();
        for entry in ["potside.po", "book.po"]
            .map(|name| entries_of(&folder.join(name)))
            .into_iter()
            .flatten()
        {
            if entry.comment.as_deref() == Some(READ_BACK) && entry.msgid.contains('{') {
                templates.insert(entry.msgid.clone());
            }
            pairs.extend(pair_of(entry));
        }
        pairs.sort();
        pairs.dedup();
        writeln!(
            code,
            "static {}: &[(&str, &str)] = &{pairs:?};",
            language.to_uppercase()
        )
        .expect("a string takes it");
    }
    let templates: Vec<String> = templates.into_iter().collect();
    writeln!(code, "static TEMPLATES: &[&str] = &{templates:?};").expect("a string takes it");
    let out: PathBuf = std::env::var_os("OUT_DIR").expect("cargo names it").into();
    std::fs::write(out.join("catalogue.rs"), code).expect("the folder is cargo's own");
}

/// The entries of a catalogue.
#[expect(clippy::panic, reason = "a catalogue that can't be read stops the build")]
fn entries_of(path: &Path) -> Vec<rspolib::POEntry> {
    match rspolib::pofile(path) {
        Ok(file) => file
            .entries
            .into_iter()
            .filter(|entry| !entry.obsolete && !entry.msgid.is_empty())
            .collect(),
        Err(fault) => panic!("{}: {fault}", path.display()),
    }
}

/// The English, with its context before it where it has one, and the translation.
fn pair_of(entry: rspolib::POEntry) -> Option<(String, String)> {
    let said = entry.msgstr.filter(|said| !said.is_empty())?;
    let context = entry
        .msgctxt
        .map_or_else(String::new, |context| format!("{context}\u{4}"));
    Some((format!("{context}{}", entry.msgid), said))
}

/// Debug builds keep the names of elements, which the headless tests search by; without them every search
/// would silently find nothing.
#[cfg(feature = "shell")]
#[expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "cargo speaks to build scripts through the environment, and a screen that doesn't compile stops the build"
)]
fn compile() {
    let debug = std::env::var("PROFILE").is_ok_and(|profile| profile == "debug");
    let config = slint_build::CompilerConfiguration::new()
        .embed_resources(slint_build::EmbedResourcesKind::EmbedFiles)
        .with_bundled_translations(CATALOGUES)
        .with_default_translation_context(slint_build::DefaultTranslationContext::None)
        .with_debug_info(debug);
    slint_build::compile_with_config("ui/app_window.slint", config).expect("the screens compile");
}

/// The functions that a session runs, by the linker's names; how it is made stands at its head.
#[cfg(feature = "shell")]
const IN_USE: &str = "ui/in_use.txt";

/// Asks the linker for a program that holds less of the memory while it runs. Each wish is tried first on a program of
/// nothing with the linker and the C library of this machine, and one that isn't understood here is left out: it saves
/// memory and does nothing else.
#[cfg(feature = "shell")]
#[expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "cargo speaks to build scripts through the environment, and the folder it names can be written"
)]
fn link() {
    println!("cargo::rerun-if-changed={IN_USE}");
    let here = |name: &str| std::env::var(name).unwrap_or_default();
    let is_made_for_this_machine = here("CARGO_CFG_TARGET_OS") == "linux" && here("HOST") == here("TARGET");
    if here("PROFILE") != "release" || !is_made_for_this_machine {
        return;
    }
    let out = PathBuf::from(here("OUT_DIR"));
    let order = out.join("in_use.ld");
    let names = std::fs::read_to_string(IN_USE).expect("it is part of the sources");
    std::fs::write(&order, together(&names)).expect("the folder is cargo's own");

    let wishes = [
        // What is used lies together, so that what isn't doesn't come along with it.
        format!("-Wl,-T,{}", order.display()),
        // The places to be filled in at the start as one bit each and not as three words.
        "-Wl,-z,pack-relative-relocs".to_owned(),
    ];
    for wish in wishes.iter().filter(|wish| is_understood(&out, wish)) {
        println!("cargo::rustc-link-arg-bin=potside={wish}");
    }
}

/// A linker script that puts the named functions together, with what starts any program, and before those that the C
/// library brings for its start and end. Functions that the compiler holds to be cold have a prefix.
#[cfg(feature = "shell")]
fn together(names: &str) -> String {
    let mut script = "SECTIONS { .text.in_use : {\n*crt1.o(.text)\n*(.text.startup)\n".to_owned();
    for name in names.lines().filter(|line| !line.starts_with('#')) {
        script.push_str(&format!("*(.text.{name} .text.unlikely.{name})\n"));
    }
    script.push_str("} } INSERT BEFORE .init;\n");
    script
}

/// Whether a program that was linked so starts here.
#[cfg(feature = "shell")]
#[expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "cargo speaks to build scripts through the environment, and the folder it names can be written"
)]
fn is_understood(out: &Path, wish: &str) -> bool {
    let (source, program) = (out.join("nothing.rs"), out.join("nothing"));
    std::fs::write(&source, "fn main() {}").expect("the folder is cargo's own");
    let flags = std::env::var("CARGO_ENCODED_RUSTFLAGS").unwrap_or_default();
    let linker = std::env::var("RUSTC_LINKER").map(|linker| format!("-Clinker={linker}"));
    let compiled = Command::new(std::env::var_os("RUSTC").expect("cargo names it"))
        .args(flags.split('\u{1f}').filter(|flag| !flag.is_empty()))
        .args(linker)
        .arg(format!("-Clink-arg={wish}"))
        .arg("-o")
        .args([&program, &source])
        .stderr(Stdio::null())
        .status();
    compiled.is_ok_and(|status| status.success())
        && Command::new(&program)
            .status()
            .is_ok_and(|status| status.success())
}
