//! Compiles the screens when the shell is built.

fn main() {
    #[cfg(feature = "shell")]
    compile();
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
        .with_debug_info(debug);
    slint_build::compile_with_config("ui/app_window.slint", config).expect("the screens compile");
}
