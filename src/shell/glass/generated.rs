//! What the markup compiler makes of `ui/app_window.slint`. Nothing else lives here, so that its lint exceptions reach
//! nothing else.
#![allow(
    unsafe_code,
    missing_docs,
    unreachable_pub,
    unused_qualifications,
    let_underscore_drop,
    elided_lifetimes_in_paths,
    unused_lifetimes,
    clippy::all,
    clippy::restriction,
    clippy::pedantic,
    clippy::nursery,
    reason = "generated code keeps the habits of its generator"
)]

slint::include_modules!();
