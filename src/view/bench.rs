//! The bench: what stays the same from bath to bath.

use crate::sheet::StovePlace;

use super::screen::Theme;

/// Pot, burner, place, look and loudness as last set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bench {
    /// Pot, burner, place, water, room, scale.
    pub stove: StovePlace,
    /// The look of the screen.
    pub theme: Theme,
    /// How loud, 0 to 100.
    pub volume_percent: u8,
    /// Dripping hands: a firm tap takes longer.
    pub wet_hands: bool,
    /// Recipes with copper and tin are on. Set in the bench file only, so that nobody turns it on in passing.
    pub hazardous_metals: bool,
}

impl Default for Bench {
    fn default() -> Self {
        Self {
            stove: StovePlace::default(),
            theme: Theme::Kitchen,
            volume_percent: 80,
            wet_hands: false,
            hazardous_metals: false,
        }
    }
}
