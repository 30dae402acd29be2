//! The bench: what stays the same from bath to bath.

use crate::craft::vessel::{Burner, Pot};
use crate::machine::voice::QuietHours;
use crate::sheet::StovePlace;

use super::locale::{Habits, Language};
use super::screen::Theme;

/// Pot, burner, place, look and loudness as last set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bench {
    /// Pot, burner, place, water, room, scale.
    pub stove: StovePlace,
    /// The pots and burners beside the ones of the stove.
    pub others: Others,
    /// The language of the glass.
    pub language: Language,
    /// The units and the clock of the glass.
    pub habits: Habits,
    /// The look of the screen.
    pub theme: Theme,
    /// How loud, 0 to 100.
    pub volume_percent: u8,
    /// Dripping hands: a firm tap takes longer.
    pub wet_hands: bool,
    /// Hours in which only what is urgent sounds.
    pub quiet_hours: Option<QuietHours>,
    /// Recipes with copper and tin are on. Set in the bench file only, so that nobody turns it on in passing.
    pub hazardous_metals: bool,
}

/// Pots and burners that stand on the bench as well. Six pots at most are on a stove, so five beside the first.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Others {
    pots: [Option<Pot>; OTHERS_MOST],
    burners: [Option<Burner>; OTHERS_MOST],
}

/// So many pots beside the first, and so many burners.
pub const OTHERS_MOST: usize = 5;

impl Others {
    /// The first few of the pots and burners given; one that is given twice is kept once.
    #[must_use]
    pub fn of(pots: impl IntoIterator<Item = Pot>, burners: impl IntoIterator<Item = Burner>) -> Self {
        let mut others = Self::default();
        for pot in pots {
            put(&mut others.pots, pot);
        }
        for burner in burners {
            put(&mut others.burners, burner);
        }
        others
    }

    /// The other pots.
    pub fn pots(&self) -> impl Iterator<Item = Pot> {
        self.pots.into_iter().flatten()
    }

    /// The other burners.
    pub fn burners(&self) -> impl Iterator<Item = Burner> {
        self.burners.into_iter().flatten()
    }
}

fn put<T: PartialEq + Copy>(places: &mut [Option<T>], one: T) {
    if places.contains(&Some(one)) {
        return;
    }
    if let Some(free) = places.iter_mut().find(|place| place.is_none()) {
        *free = Some(one);
    }
}

impl Bench {
    /// The bench with another of its pots on the stove; the one that stood there stands beside.
    #[must_use]
    pub fn with_pot(self, pot: Pot) -> Self {
        let kept = std::iter::once(self.stove.pot).chain(self.others.pots());
        let mut bench = self;
        bench.others = Others::of(kept.filter(|one| *one != pot), self.others.burners());
        bench.stove.pot = pot;
        bench
    }

    /// The bench with another of its burners under the pot.
    #[must_use]
    pub fn with_burner(self, burner: Burner) -> Self {
        let kept = std::iter::once(self.stove.burner).chain(self.others.burners());
        let mut bench = self;
        bench.others = Others::of(self.others.pots(), kept.filter(|one| *one != burner));
        bench.stove.burner = burner;
        bench
    }

    /// The bench with its pot kept beside, so that the one on the stove can be changed into another.
    #[must_use]
    pub fn keeping_pot(self) -> Self {
        let pots = self.others.pots().chain([self.stove.pot]);
        Self {
            others: Others::of(pots, self.others.burners()),
            ..self
        }
    }

    /// The bench with its burner kept beside.
    #[must_use]
    pub fn keeping_burner(self) -> Self {
        let burners = self.others.burners().chain([self.stove.burner]);
        Self {
            others: Others::of(self.others.pots(), burners),
            ..self
        }
    }

    /// The bench without the pots and burners beside.
    #[must_use]
    pub fn with_these_alone(self) -> Self {
        Self {
            others: Others::default(),
            ..self
        }
    }
}

impl Default for Bench {
    fn default() -> Self {
        Self {
            stove: StovePlace::default(),
            others: Others::default(),
            language: Language::English,
            habits: Habits::METRIC,
            theme: Theme::Kitchen,
            volume_percent: 80,
            wet_hands: false,
            quiet_hours: None,
            hazardous_metals: false,
        }
    }
}
