//! What is offered as usual, in the measures of the dyer: round in what is read, exact in what is kept.
//!
//! Sizes, powers and heights are common practice, no source: what household pots and plates are sold as.

use crate::craft::measures::{CENTIMETRES_PER_INCH, KitchenUnit, METRES_PER_FOOT};
use crate::craft::quantity::{Altitude, Length, Power, Volume};
use crate::craft::vessel::{BurnerKind, Pot, PotMetal};
use crate::view::locale::{Habits, Volumes};

/// The place among three usual ones that is taken when nobody knows better.
pub(super) const MIDDLE: usize = 1;

/// Units that go together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Units {
    /// Grams, litres, centimetres, Celsius.
    Metric,
    /// Ounces, US gallons, inches, Fahrenheit.
    Us,
    /// Ounces, imperial gallons, inches, Fahrenheit: who asks for the old measures is offered all of them.
    Imperial,
}

impl Units {
    /// In the order they are offered.
    pub(super) const ALL: [Self; 3] = [Self::Metric, Self::Us, Self::Imperial];

    /// What the bench keeps for them.
    pub(super) const fn habits(self) -> Habits {
        match self {
            Self::Metric => Habits::METRIC,
            Self::Us => Habits::UNITED_STATES,
            Self::Imperial => Habits {
                volumes: Volumes::ImperialGallons,
                ..Habits::UNITED_STATES
            },
        }
    }
}

/// Heights above the sea, the sea first. Water boils about one degree lower for every 300 m, so that the nearest of
/// them is right to about a degree.
pub(super) fn heights(habits: Habits) -> [Altitude; 5] {
    match habits.volumes {
        Volumes::Litres => [0.0, 300.0, 600.0, 1_000.0, 1_500.0].map(Altitude::saturating_metres),
        Volumes::UsGallons | Volumes::ImperialGallons => [0.0, 1_000.0, 2_000.0, 3_500.0, 5_000.0]
            .map(|feet| Altitude::saturating_metres(feet * METRES_PER_FOOT)),
    }
}

/// Three pots, from one for a few hanks to one for a blanket.
pub(super) fn pots(habits: Habits) -> [Pot; 3] {
    let pot = |litres: f64, wide_cm: f64| Pot {
        capacity: Volume::saturating_litres(litres),
        diameter: Length::saturating_centimetres(wide_cm),
        metal: PotMetal::Stainless,
    };
    let in_gallons = |gallon: KitchenUnit, sizes: [(f64, f64); 3]| {
        sizes.map(|(gallons, inches)| pot(gallons * gallon.si() / 1_000.0, inches * CENTIMETRES_PER_INCH))
    };
    match habits.volumes {
        Volumes::Litres => [pot(6.0, 22.0), pot(12.0, 26.0), pot(20.0, 30.0)],
        Volumes::UsGallons => in_gallons(KitchenUnit::UsGallon, [(1.5, 9.0), (3.0, 10.0), (5.0, 12.0)]),
        Volumes::ImperialGallons => in_gallons(
            KitchenUnit::ImperialGallon,
            [(1.5, 9.0), (2.5, 10.0), (4.0, 12.0)],
        ),
    }
}

/// Three full powers of a kind of burner: a small one, the usual one, a large one.
pub(super) fn powers(kind: BurnerKind) -> [Power; 3] {
    match kind {
        BurnerKind::Gas => [1_800.0, 3_000.0, 5_000.0],
        BurnerKind::Induction => [1_400.0, 2_000.0, 3_500.0],
        BurnerKind::Ceramic => [1_200.0, 1_800.0, 2_300.0],
        BurnerKind::Coil => [1_000.0, 1_500.0, 2_000.0],
    }
    .map(Power::saturating_watts)
}

/// The usual one of them.
pub(super) fn usual_power(kind: BurnerKind) -> Power {
    let [_, usual, _] = powers(kind);
    usual
}
