//! Heat leaving one face of a pot in still air: the open water, the lid, the wall, the base.
//!
//! Natural convection after `McAdams` (plates, facing up and down) and Churchill and Chu (the wall); evaporation by the
//! Chilton-Colburn likeness of heat and vapour transport with the Stefan flow; the skin of still water after Katsaros et
//! al. 1977; the layer under a lid after Hollands et al. 1976. All are handbook correlations, from memory, with spreads of
//! 10 to 20 % of their own. Forced air is left out: a hood or a draught is what the loss factor of a kitchen is for.

use crate::craft::boil::ZERO_C;
use crate::craft::quantity::Temperature;
use crate::craft::water::{density_grams_per_litre, evaporation_heat_raw, specific_heat_raw};

use super::air::{Air, Film, GRAVITY, VAPOUR_HEAT};
use super::shape::Shape;

/// What leaves an open surface.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Open {
    /// W/m2, evaporation with it.
    pub(crate) heat: f64,
    /// kg/(m2 s) of vapour; negative when the room's damp falls on a cold bath.
    pub(crate) vapour: f64,
    /// How much colder than the bath the skin is, K.
    pub(crate) skin: f64,
}

/// The open water left to itself: its skin is colder than the bath. `guess` is where to look first for the difference.
pub(crate) fn still_water(bath: f64, room: Air, diameter: f64, guess: f64) -> Open {
    let at = |skin: f64| {
        let open = stirred_water(bath - skin, room, diameter);
        // The water's properties half-way between bath and skin.
        let from_below = skin_conductance(bath - ZERO_C - 0.5 * skin);
        (Open { skin, ..open }, from_below * skin * skin.cbrt() - open.heat)
    };
    if guess > 0.0 {
        // From a near guess the secant needs two or three looks.
        let (near, near_miss) = at(guess);
        let mut last = (guess, near_miss);
        let mut skin = guess - near_miss * guess / (GUESSED_STEEPNESS * near.heat.max(1.0));
        for _ in 0..4 {
            if !(skin > 0.0 && skin < 2.0 * guess) {
                break;
            }
            let (open, miss) = at(skin);
            if miss.abs() <= SKIN_CLOSE * open.heat {
                return open;
            }
            let next = skin - miss * (skin - last.0) / (miss - last.1);
            last = (skin, miss);
            skin = next;
        }
    }
    let (bare, _) = at(0.0);
    if bare.heat <= 0.0 {
        return bare;
    }
    // The residual rises with the skin; keep the root between `low` and `high`.
    let (mut low, mut low_miss) = (0.0, -bare.heat);
    let mut high = 1.2 * (bare.heat / skin_conductance(bath - ZERO_C)).powf(0.75);
    let (mut best, mut high_miss) = at(high);
    for _ in 0..30 {
        let mut skin = (low * high_miss - high * low_miss) / (high_miss - low_miss);
        if !(skin > low && skin < high) {
            skin = f64::midpoint(low, high);
        }
        let (open, miss) = at(skin);
        best = open;
        if miss.abs() <= SKIN_CLOSE * open.heat {
            break;
        }
        // Illinois: halving the stale end's weight keeps both ends moving.
        if miss > 0.0 {
            (high, high_miss) = (skin, miss);
            low_miss *= 0.5;
        } else {
            (low, low_miss) = (skin, miss);
            high_miss *= 0.5;
        }
    }
    best
}

/// The open water when its face is as hot as the bath: stirred without pause.
pub(crate) fn stirred_water(face_kelvin: f64, room: Air, diameter: f64) -> Open {
    let face = Air::over_water(face_kelvin, room.pressure);
    let film = Film::between(face, room);
    let convection = plate_up(&film, diameter / 4.0);
    let transfer = convection / film.heat * film.lewis.powf(2.0 / 3.0);
    let of_face = face.vapour_by_mass();
    let drive = (of_face - room.vapour_by_mass()) / (1.0 - of_face);
    let vapour = transfer * drive.ln_1p();
    let carried = vapour * VAPOUR_HEAT / convection;
    let blown = if carried.abs() > 1e-9 {
        carried / carried.exp_m1()
    } else {
        1.0
    };
    let warmer = face_kelvin - room.kelvin;
    let heat = vapour * evaporation_heat_raw(face_kelvin - ZERO_C)
        + convection * blown * warmer
        + radiation(WATER_EMISSIVITY, face_kelvin, room.kelvin);
    Open {
        heat,
        vapour,
        skin: 0.0,
    }
}

/// What goes through a lid.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Lidded {
    /// W/m2 of opening.
    pub(crate) heat: f64,
    /// How much colder than the bath the lid is, K.
    pub(crate) gap: f64,
}

/// Through a lid that fits: the damp layer under it, then the lid's own top. `guess` is where to look first for how much
/// colder than the bath the lid is.
pub(crate) fn under_lid(bath: f64, room: Air, shape: &Shape, guess: f64) -> Lidded {
    let emissivity = shape.build.emissivity;
    let sheds = |lid: f64| {
        let film = Film::between(room.warmed(lid), room);
        plate_up(&film, shape.diameter / 4.0) * (lid - room.kelvin) + radiation(emissivity, lid, room.kelvin)
    };
    if bath - room.kelvin <= 0.01 {
        return Lidded {
            heat: sheds(bath),
            gap: 0.0,
        };
    }
    let at = |gap: f64| {
        let heat = sheds(bath - gap);
        (
            Lidded { heat, gap },
            layer(bath, bath - gap, room.pressure, shape.freeboard) - heat,
        )
    };
    let most = bath - room.kelvin;
    if guess > 0.0 && guess < most {
        let (near, near_miss) = at(guess);
        let mut last = (guess, near_miss);
        let mut gap = guess - near_miss * guess / (GUESSED_STEEPNESS * near.heat.max(1.0));
        for _ in 0..4 {
            if !(gap > 0.0 && gap < most) {
                break;
            }
            let (lidded, miss) = at(gap);
            if miss.abs() <= LID_CLOSE * lidded.heat {
                return lidded;
            }
            let next = gap - miss * (gap - last.0) / (miss - last.1);
            last = (gap, miss);
            gap = next;
        }
    }
    let (mut low, mut low_miss) = (0.0, -sheds(bath));
    let (mut high, mut high_miss) = (most, layer(bath, room.kelvin, room.pressure, shape.freeboard));
    let mut best = Lidded {
        heat: -low_miss,
        gap: 0.0,
    };
    for _ in 0..30 {
        let mut gap = (low * high_miss - high * low_miss) / (high_miss - low_miss);
        if !(gap > low && gap < high) {
            gap = f64::midpoint(low, high);
        }
        let (lidded, miss) = at(gap);
        best = lidded;
        if miss.abs() <= LID_CLOSE * lidded.heat {
            break;
        }
        if miss > 0.0 {
            (high, high_miss) = (gap, miss);
            low_miss *= 0.5;
        } else {
            (low, low_miss) = (gap, miss);
            high_miss *= 0.5;
        }
    }
    best
}

/// The wetted wall and the dry wall above it, which is a fin. W.
pub(crate) fn side(bath: f64, room: Air, shape: &Shape) -> f64 {
    let film = Film::between(room.warmed(bath), room);
    let height = shape.wetted_height.max(0.01);
    let rayleigh = film.rayleigh_1m * height.powi(3);
    // Churchill and Chu, laminar and turbulent in one, at air's Prandtl number of 0.71.
    let nusselt = (0.825 + 0.387 * rayleigh.sqrt().cbrt() / 1.1918).powi(2);
    let warmer = bath - room.kelvin;
    let emissivity = shape.build.emissivity;
    let radiated = radiation(emissivity, bath, room.kelvin);
    let per_area = nusselt * film.conductivity / height * warmer + radiated;
    let around = std::f64::consts::PI * (shape.diameter + 2.0 * shape.build.wall);
    let conductance = if warmer.abs() > 1e-6 {
        per_area / warmer
    } else {
        0.0
    };
    // Up the fin the excess dies away and natural convection weakens with its fourth root: taken at half the excess.
    let on_fin = (HALF_EXCESS * conductance).max(0.1);
    let reach = (shape.build.conductivity * shape.build.wall / on_fin).sqrt();
    let fin = reach * (shape.freeboard / reach).tanh();
    around * (shape.wetted_height + HALF_EXCESS * fin) * per_area
}

/// The base on an open trivet with the burner off. W.
pub(crate) fn base(bath: f64, room: Air, shape: &Shape) -> f64 {
    let film = Film::between(room.warmed(bath), room);
    let length = shape.diameter / 4.0;
    let nusselt = 0.27 * fourth_root(film.rayleigh_1m * length.powi(3));
    let per_area = nusselt * film.conductivity / length * (bath - room.kelvin)
        + radiation(shape.build.emissivity, bath, room.kelvin);
    per_area * shape.opening
}

/// `McAdams`, hot face up, W/(m2 K): laminar below, turbulent above, mixed over a fifth either way.
fn plate_up(film: &Film, length: f64) -> f64 {
    let rayleigh = (film.rayleigh_1m * length.powi(3)).max(1.0);
    let turbulent = ((rayleigh / TURNS_TURBULENT - 0.8) / 0.4).clamp(0.0, 1.0);
    let nusselt = (1.0 - turbulent) * 0.54 * fourth_root(rayleigh) + turbulent * 0.15 * rayleigh.cbrt();
    nusselt * film.conductivity / length
}

/// Between the water and a lid `gap` metres above it, W/m2: Hollands' layer carrying heat and vapour.
fn layer(bath: f64, lid: f64, pressure: f64, gap: f64) -> f64 {
    let below = Air::over_water(bath, pressure);
    let above = Air::over_water(lid, pressure);
    let film = Film::between(below, above);
    let rayleigh = film.rayleigh_1m * gap.powi(3);
    let cells = if rayleigh > 1_708.0 {
        1.0 - 1_708.0 / rayleigh
    } else {
        0.0
    };
    let nusselt = 1.0 + 1.44 * cells + ((rayleigh / 5_830.0).cbrt() - 1.0).max(0.0);
    let convection = nusselt * film.conductivity / gap;
    let of_face = below.vapour_by_mass();
    let drive = (of_face - above.vapour_by_mass()) / (1.0 - of_face);
    let vapour = convection / film.heat * film.lewis.powf(2.0 / 3.0) * drive.ln_1p();
    vapour * evaporation_heat_raw(bath - ZERO_C)
        + convection * (bath - lid)
        + radiation(LAYER_EMISSIVITY, bath, lid)
}

/// Heat that reaches a cool skin from the bath below, W/m2 per kelvin to the 4/3.
fn skin_conductance(celsius: f64) -> f64 {
    let t = celsius.clamp(1.0, 110.0);
    let kelvin = t + ZERO_C;
    let density = density_grams_per_litre(Temperature::saturating_celsius(t));
    let conductivity = 0.555_7 + 2.181e-3 * t - 9.66e-6 * t * t;
    let viscosity = 2.414e-5 * 10f64.powf(247.8 / (kelvin - 140.0));
    let expansion = (206.8e-6 + 7.912_5e-6 * (t - 20.0) - 0.030_51e-6 * (t - 20.0) * (t - 60.0)).max(20e-6);
    let lift = GRAVITY * expansion * density * density * specific_heat_raw(t) / (viscosity * conductivity);
    0.156 * conductivity * lift.cbrt()
}

fn radiation(emissivity: f64, warm: f64, cool: f64) -> f64 {
    emissivity * STEFAN_BOLTZMANN * (warm.powi(4) - cool.powi(4))
}

fn fourth_root(value: f64) -> f64 {
    value.sqrt().sqrt()
}

/// Rayleigh number at which the flow over a plate turns turbulent.
const TURNS_TURBULENT: f64 = 1e7;
/// How closely the heat to and from a skin must agree.
const SKIN_CLOSE: f64 = 2e-4;
/// How closely the heat to and from a lid must agree.
const LID_CLOSE: f64 = 1e-3;
/// Logarithmic steepness of the residual over the skin: 4/3 from below and the rest from above.
const GUESSED_STEEPNESS: f64 = 1.9;
/// The fourth root of a half.
const HALF_EXCESS: f64 = 0.841;
/// W/(m2 K4).
const STEFAN_BOLTZMANN: f64 = 5.670_374e-8;
const WATER_EMISSIVITY: f64 = 0.95;
/// Water facing a wet lid.
const LAYER_EMISSIVITY: f64 = 0.9;
