//! The losses of one pot over all its temperatures, worked out once and then read off.
//!
//! The surface sums cost microseconds and a band asks for thousands of them, so they are done at nodes and read off by
//! cubics. Natural convection goes about as the excess over the room to the power 5/4, which no cubic follows near nothing;
//! the nodes are therefore even in the root of the excess, in which it is smooth. Read off so, losses are right to three
//! parts in a thousand, six where the flow over a wide pot turns turbulent.

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
    grid: Grid,
    nodes: [Losses; NODE_COUNT],
}

impl LossCurve {
    /// The losses at so many degrees, the ends held beyond the ends.
    pub(crate) fn at(&self, celsius: f64) -> Losses {
        let place = self.grid.place_of(celsius);
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
    fn over(kettle: &Kettle, shape: &Shape, room_celsius: f64, grid: Grid, skins: &mut Skins) -> Self {
        let pressure = saturation_megapascals(kettle.boil.celsius() + ZERO_C) * 1e6;
        let room = Air::of_room(room_celsius, pressure);
        let open_share = match kettle.lid {
            Lid::Off => 1.0,
            Lid::Loose => LOOSE_LEAK,
            Lid::Tight => 0.0,
        };
        let mut nodes = [Losses::default(); NODE_COUNT];
        let (mut place, mut skin_before, mut rise, mut gap_before) = (0.0, 0.0, 0.0, 0.0);
        for (node, [skin, gap]) in nodes.iter_mut().zip(skins.iter_mut()) {
            let celsius = grid.celsius_at(place);
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
            place += 1.0;
        }
        Self { grid, nodes }
    }
}

/// The temperatures of the nodes: even in the signed root of the excess over the room, the room itself on a node, so that a
/// bath as warm as the room loses exactly nothing to the air.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Grid {
    room: f64,
    /// Nodes below the room.
    below: f64,
    /// Of the root, from node to node.
    step: f64,
}

impl Grid {
    fn of(room: f64, boil: f64) -> Self {
        let up = (boil - room).max(10.0).sqrt();
        // A bath colder still gains so little from the room that the last node's gain will do.
        let down = (room - 2.0).clamp(0.0, 9.0).sqrt();
        let below = (LAST_NODE * down / (up + down)).ceil().min(LAST_NODE - 4.0);
        Self {
            room,
            below,
            step: up / (LAST_NODE - below),
        }
    }

    fn celsius_at(&self, place: f64) -> f64 {
        let root = (place - self.below) * self.step;
        self.room + root * root.abs()
    }

    fn place_of(&self, celsius: f64) -> f64 {
        let excess = celsius - self.room;
        (self.below + excess.abs().sqrt().copysign(excess) / self.step).clamp(0.0, LAST_NODE)
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
        let grid = Grid::of(room, kettle.boil.celsius());
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

const NODE_COUNT: usize = 21;
const LAST_NODE: f64 = 20.0;
/// Steam past a lid set on loosely, as a part of the open pot's. Common practice, no source; it is why
/// [`super::PotKnowledge::lid`] is wide.
const LOOSE_LEAK: f64 = 0.10;
