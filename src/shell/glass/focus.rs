//! Walking the focus by the shell: arrows move it as Tab does.

use slint::platform::{Key, WindowEvent};

/// Moves the focus to the next control (`forward`) or the one before, as Tab and Shift+Tab do. To be called from the
/// event loop, not from inside a key callback: hand it to `slint::Timer::single_shot` with no delay.
///
/// # Errors
/// When the window's backend refuses the event.
pub fn walk(window: &slint::Window, forward: bool) -> Result<(), slint::PlatformError> {
    let key = if forward { Key::Tab } else { Key::Backtab };
    let pressed = WindowEvent::KeyPressed { text: key.into() };
    let released = WindowEvent::KeyReleased { text: key.into() };
    window.dispatch_event_with_result(pressed)?;
    window.dispatch_event_with_result(released)?;
    Ok(())
}
