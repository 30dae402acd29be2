//! One window on which the screens of [`scenes`](crate::scenes) are painted by the real painter, in a language, a theme
//! and a size.

use chrono::FixedOffset;
use potside::shell::glass::generated::AppWindow;
use potside::shell::glass::paint::Painter;
use potside::view::locale::{Habits, Language, Locale};
use potside::view::screen::{Notice, Screen, Status, Theme};
use slint::ComponentHandle;

use crate::gallery::{self, Picture};

pub(crate) const THEMES: [Theme; 3] = [Theme::Daylight, Theme::Kitchen, Theme::Night];

pub(crate) const fn theme_name(theme: Theme) -> &'static str {
    match theme {
        Theme::Daylight => "daylight",
        Theme::Kitchen => "kitchen",
        Theme::Night => "night",
    }
}

pub(crate) fn theme(name: &str) -> Theme {
    let found = THEMES.into_iter().find(|theme| theme_name(*theme) == name);
    found.unwrap_or_else(|| panic!("no theme {name}"))
}

/// A language with its usual units, or with those of the United States.
pub(crate) fn locale(language: Language, us: bool) -> Locale {
    let zone = FixedOffset::east_opt(3_600).expect("an hour east");
    let habits = if us { Habits::UNITED_STATES } else { Habits::METRIC };
    Locale {
        language,
        habits,
        zone,
    }
}

pub(crate) struct Shown {
    pub(crate) window: AppWindow,
    painter: Painter,
    language: Language,
}

impl Shown {
    pub(crate) fn new(language: Language, theme: Theme, width: u32, height: u32) -> Self {
        gallery::go_headless();
        let window = AppWindow::new().expect("a headless window");
        slint::select_bundled_translation(language.tag()).expect("the language is bundled");
        window.show().expect("it shows");
        window.window().set_size(slint::PhysicalSize::new(width, height));
        let painter = Painter::new(&window);
        let mut shown = Self {
            window,
            painter,
            language,
        };
        shown.dress(theme);
        shown
    }

    /// Puts the window into a theme.
    pub(crate) fn dress(&mut self, theme: Theme) {
        self.dress_with(theme, Vec::new());
    }

    /// The same, with notices at its foot.
    pub(crate) fn dress_with(&mut self, theme: Theme, notices: Vec<Notice>) {
        let status = Status {
            theme,
            language: self.language,
            notices,
            ..Status::default()
        };
        self.painter.paint_status(&self.window, &status);
    }

    pub(crate) fn paint(&mut self, screen: &Screen) {
        self.painter.paint(&self.window, screen);
        i_slint_backend_testing::mock_elapsed_time(std::time::Duration::from_millis(400));
    }

    pub(crate) fn take(&mut self, screen: &Screen) -> Picture {
        self.paint(screen);
        gallery::take_window(self.window.window())
    }
}
