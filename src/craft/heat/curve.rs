//! The losses of one pot over all its temperatures, worked out once and then read off.
//!
//! The surface sums cost microseconds and a band asks for thousands of them; between two nodes some 5 K apart a cubic is
//! right to a few parts in ten thousand.

use crate::craft::boil::{ZERO_C, saturation_megapascals};
use crate::craft::vessel::Lid;
use crate::craft::water::evaporation_heat_raw;

use super::air::Air;
use super::kettle::Kettle;
use super::shape::Shape;
use super::spread::ROOM_SPREAD_K;
use super::surface::{base, side, still_water, under_lid};

/// Losses at one temperature of the bath.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Losses {
    /// Through the opening, evaporation with it, W.
    pub(crate) top: f64,
    /// Through the wall, W.
    pub(crate) side: f64,
    /// Through the base when the burner is off, W.
    pub(crate) base: f64,
    /// Water gone as steam, kg/s.
    pub(crate) steam: f64,
}

impl Losses {
    fn mixed<const N: usize>(parts: [(f64, &Self); N]) -> Self {
        let mut sum = Self::default();
        for (share, part) in parts {
            sum.top += share * part.top;
            sum.side += share * part.side;
            sum.base += share * part.base;
            sum.steam += share * part.steam;
        }
        sum
    }
}

/// The losses of one kettle over its temperatures, for one room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LossCurve {
    low: f64,
    step: f64,
    nodes: [Losses; NODE_COUNT],
}

impl LossCurve {
    /// The losses at so many degrees, the ends held beyond the ends.
    pub(crate) fn at(&self, celsius: f64) -> Losses {
        let place = ((celsius - self.low) / self.step).clamp(0.0, LAST_NODE);
        let first = (place.floor() - 1.0).clamp(0.0, LAST_NODE - 3.0);
        let x = place - first;
        let Some([a, b, c, d]) = self.nodes.get(whole(first)..whole(first).saturating_add(4)) else {
            return Losses::default();
        };
        // Lagrange's cubic through four equally spaced nodes.
        let (x1, x2, x3) = (x - 1.0, x - 2.0, x - 3.0);
        Losses::mixed([
            (-x1 * x2 * x3 / 6.0, a),
            (x * x2 * x3 / 2.0, b),
            (-x * x1 * x3 / 2.0, c),
            (x * x1 * x2 / 6.0, d),
        ])
    }

    /// The curve for one room, and the skins it found; `skins` is where to look first.
    fn over(kettle: &Kettle, shape: &Shape, room_celsius: f64, grid: (f64, f64), skins: &mut Skins) -> Self {
        let pressure = saturation_megapascals(kettle.boil.celsius() + ZERO_C) * 1e6;
        let room = Air::of_room(room_celsius, pressure);
        let open_share = match kettle.lid {
            Lid::Off => 1.0,
            Lid::Loose => LOOSE_LEAK,
            Lid::Tight => 0.0,
        };
        let (low, step) = grid;
        let mut nodes = [Losses::default(); NODE_COUNT];
        let (mut celsius, mut skin_before, mut rise, mut gap_before) = (low, 0.0, 0.0, 0.0);
        for (node, [skin, gap]) in nodes.iter_mut().zip(skins.iter_mut()) {
            let bath = celsius + ZERO_C;
            let mut top = 0.0;
            if open_share > 0.0 {
                let guess = if *skin > 0.0 { *skin } else { skin_before + rise };
                let open = still_water(bath, room, shape.diameter, guess);
                *skin = open.skin;
                rise = open.skin - skin_before;
                skin_before = open.skin;
                node.steam = open_share * open.vapour * shape.opening;
                // Past a lid goes only the steam; the lid itself sheds the rest.
                top = match kettle.lid {
                    Lid::Off => open.heat,
                    Lid::Loose | Lid::Tight => {
                        open_share * open.vapour * evaporation_heat_raw(celsius - open.skin)
                    }
                };
            }
            top += match kettle.lid {
                Lid::Off => 0.0,
                Lid::Loose | Lid::Tight => {
                    let guess = if *gap > 0.0 { *gap } else { gap_before };
                    let lidded = under_lid(bath, room, shape, guess);
                    *gap = lidded.gap;
                    gap_before = lidded.gap;
                    lidded.heat
                }
            };
            node.top = top * shape.opening;
            node.side = side(bath, room, shape);
            node.base = base(bath, room, shape);
            celsius += step;
        }
        Self { low, step, nodes }
    }
}

/// The curves of a kettle for its room as typed and for one a spread warmer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RoomCurves {
    typed: LossCurve,
    warmer: LossCurve,
}

impl RoomCurves {
    pub(crate) fn of(kettle: &Kettle, shape: &Shape) -> Self {
        let room = kettle.room.celsius();
        // The room sits on a node, so that a bath as warm as the room loses exactly nothing to the air.
        let high = kettle.boil.celsius().max(room + 10.0);
        let lowest = (room - 25.0).clamp(0.0, 20.0).min(room);
        let below = (LAST_NODE * (room - lowest) / (high - lowest)).ceil();
        let step = (high - room) / (LAST_NODE - below);
        let grid = (room - below * step, step);
        let mut skins = [[0.0; 2]; NODE_COUNT];
        let typed = LossCurve::over(kettle, shape, room, grid, &mut skins);
        let warmer = LossCurve::over(kettle, shape, room + ROOM_SPREAD_K, grid, &mut skins);
        Self { typed, warmer }
    }

    /// The curve for a room `z` spreads warmer than typed. Over the few kelvin of a room's spread losses go straight.
    pub(crate) fn in_room(&self, z: f64) -> LossCurve {
        let mut curve = self.typed;
        if z.abs() > 1e-12 {
            for (node, warmer) in curve.nodes.iter_mut().zip(&self.warmer.nodes) {
                *node = Losses::mixed([(1.0 - z, &*node), (z, warmer)]);
            }
        }
        curve
    }
}

/// How much colder than the bath the skin of the open water and the lid were found, node by node.
type Skins = [[f64; 2]; NODE_COUNT];

#[expect(
    clippy::as_conversions,
    reason = "a float to integer `as` saturates and takes NaN to zero; the caller has clamped it to a node"
)]
fn whole(node: f64) -> usize {
    node as usize
}

const NODE_COUNT: usize = 17;
const LAST_NODE: f64 = 16.0;
/// Steam past a lid set on loosely, as a part of the open pot's. Common practice, no source; it is why
/// [`super::PotKnowledge::lid`] is wide.
const LOOSE_LEAK: f64 = 0.10;
