//! The one heat balance: `C dT/dt = input - losses`, the steam taken from the bath.

use crate::craft::quantity::{Mass, Ramp, Temperature};
use crate::craft::time::Span;
use crate::craft::vessel::Lid;
use crate::craft::water::{specific_heat_raw, volume_of};

use super::bands::{DRAW_COUNT, Draw};
use super::curve::{LossCurve, RoomCurves};
use super::integrate::{End, Fineness, Stop, run};
use super::kettle::Kettle;
use super::shape::Shape;
use super::spread::{START_SPREAD_K, Ties};

/// Where the heat of a run went, in joules; what the tests of energy hold on to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ledger {
    /// How long the run took; none when the target was not met.
    pub took: Option<Span>,
    /// Heat into the pot.
    pub put_in: f64,
    /// Heat lost through every face, steam with it.
    pub lost: f64,
    /// Water gone as steam.
    pub steam: Mass,
    /// Heat capacity of pot and fibre, J/K.
    pub dry_heat_capacity: f64,
    /// Water in bath and goods at the start.
    pub water: Mass,
}

/// The likely come-up as a ledger, steps `fineness` times as fine as usual.
#[must_use]
pub fn ledger_of_come_up(
    kettle: &Kettle,
    from: Temperature,
    to: Temperature,
    ramp: Option<Ramp>,
    fineness: f64,
) -> Ledger {
    let prepared = Prepared::of(kettle);
    let mut case = prepared.case(&Draw::MIDDLE, Heat::On { fraction: 1.0 }, ramp);
    case.fineness = fineness;
    prepared.ledger(&case.warm(from.celsius(), to.celsius(), LEDGER_HORIZON_S))
}

/// The likely cooling as a ledger, steps `fineness` times as fine as usual.
#[must_use]
pub fn ledger_of_cooling(kettle: &Kettle, from: Temperature, to: Temperature, fineness: f64) -> Ledger {
    let prepared = Prepared::of(kettle);
    let mut case = prepared.case(&Draw::MIDDLE, Heat::Off, None);
    case.fineness = fineness;
    prepared.ledger(&case.cool(case.start(from.celsius()), to.celsius(), LEDGER_HORIZON_S))
}

/// What the burner does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Heat {
    Off,
    /// A part of full power.
    On {
        fraction: f64,
    },
}

/// A kettle with its shape and curves worked out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Prepared<'k> {
    pub(crate) kettle: &'k Kettle,
    curves: RoomCurves,
    /// kg of water in bath and goods.
    pub(crate) water: f64,
    /// J/K of pot and fibre.
    pub(crate) dry: f64,
    diameter: f64,
}

impl<'k> Prepared<'k> {
    pub(crate) fn of(kettle: &'k Kettle) -> Self {
        let displaced = kettle.goods.map_or(0.0, |goods| goods.displaced().litres());
        let filled = volume_of(kettle.water, Temperature::saturating_celsius(20.0)).litres() + displaced;
        let shape = Shape::of(&kettle.pot, filled);
        let carried = kettle.goods.map_or(0.0, |goods| goods.carried_water.grams());
        let fibre = kettle
            .goods
            .map_or(0.0, |goods| goods.dry.grams() * goods.fibre.facts().specific_heat);
        Self {
            kettle,
            curves: RoomCurves::of(kettle, &shape),
            water: ((kettle.water.grams() + carried) / 1_000.0).max(WATER_LEAST_KG),
            dry: shape.heat_capacity(kettle.lid) + fibre,
            diameter: shape.diameter,
        }
    }

    /// The same pot and filling on the burner of another kettle.
    pub(crate) fn on_burner_of<'o>(&self, other: &'o Kettle) -> Prepared<'o> {
        Prepared {
            kettle: other,
            curves: self.curves,
            water: self.water,
            dry: self.dry,
            diameter: self.diameter,
        }
    }

    /// Which parts of a draw can change anything.
    pub(crate) fn matters(&self, heat: Heat) -> [bool; DRAW_COUNT] {
        let known = &self.kettle.knowledge;
        let tied = known.ties != Ties::NONE;
        let heated = matches!(heat, Heat::On { .. });
        let lidded = match self.kettle.lid {
            Lid::Off => false,
            Lid::Loose | Lid::Tight => true,
        };
        [
            tied || (heated && known.efficiency.spread() > 0.0),
            known.loss.spread() > 0.0,
            known.lid.spread() > 0.0 && lidded,
            true,
            true,
        ]
    }

    /// Inside diameter of the pot, m.
    pub(crate) const fn diameter(&self) -> f64 {
        self.diameter
    }

    /// The balance for one draw of what isn't known.
    pub(crate) fn case(&self, draw: &Draw, heat: Heat, ramp: Option<Ramp>) -> Case {
        let known = &self.kettle.knowledge;
        let (efficiency, loss, lid) = known.ties.tie(draw.efficiency, draw.loss, draw.lid);
        let input = match heat {
            Heat::Off => 0.0,
            Heat::On { fraction } => {
                (known.efficiency.at(efficiency)).min(1.0) * self.kettle.burner.power.watts() * fraction
            }
        };
        Case {
            curve: self.curves.in_room(draw.room),
            input,
            burner_off: matches!(heat, Heat::Off),
            loss: known.loss.at(loss),
            lid: match self.kettle.lid {
                Lid::Off => 1.0,
                Lid::Loose | Lid::Tight => known.lid.at(lid),
            },
            start_off: START_SPREAD_K * draw.start,
            ramp: ramp.map(|ramp| ramp.kelvin_per_minute() / 60.0),
            water: self.water,
            dry: self.dry,
            boil: self.kettle.boil.celsius(),
            fineness: 1.0,
        }
    }

    fn ledger(&self, end: &End<4>) -> Ledger {
        let [_, water, lost, put_in] = end.state;
        Ledger {
            took: (end.stop == Stop::Event).then(|| Span::from_fractional_minutes(end.time / 60.0)),
            put_in,
            lost,
            steam: Mass::saturating_grams((self.water - water) * 1_000.0),
            dry_heat_capacity: self.dry,
            water: Mass::saturating_grams(self.water * 1_000.0),
        }
    }
}

/// The balance with every unknown settled. The state of a run is bath C, water kg, heat lost J,
/// heat put in J.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Case {
    curve: LossCurve,
    /// W into the pot.
    pub(crate) input: f64,
    burner_off: bool,
    loss: f64,
    lid: f64,
    /// K by which the start temperature is off.
    start_off: f64,
    /// K/s at most.
    ramp: Option<f64>,
    water: f64,
    dry: f64,
    boil: f64,
    fineness: f64,
}

impl Case {
    /// The state at the start, the reading being off by what the draw says.
    pub(crate) fn start(&self, celsius: f64) -> [f64; 4] {
        [(celsius + self.start_off).min(self.boil), self.water, 0.0, 0.0]
    }

    /// W lost at a temperature, and kg/s of steam.
    pub(crate) fn losses(&self, celsius: f64) -> (f64, f64) {
        let losses = self.curve.at(celsius);
        let base = if self.burner_off { losses.base } else { 0.0 };
        let watts = self.loss * (self.lid * losses.top + losses.side + base);
        (watts, self.loss * self.lid * losses.steam)
    }

    /// K/s at a temperature with so much water.
    pub(crate) fn warming(&self, celsius: f64, water: f64) -> f64 {
        let [warming, ..] = self.rate(&[celsius, water, 0.0, 0.0]);
        warming
    }

    /// J/K at a temperature with so much water.
    pub(crate) fn heat_capacity(&self, celsius: f64, water: f64) -> f64 {
        water * specific_heat_raw(celsius) + self.dry
    }

    /// Runs up to `to`.
    pub(crate) fn warm(&self, from: f64, to: f64, horizon: f64) -> End<4> {
        run(
            self.start(from),
            horizon,
            &self.steps(),
            |state| self.rate(state),
            |[celsius, ..]| celsius - to,
        )
    }

    /// Runs down to `to` from a state.
    pub(crate) fn cool(&self, from: [f64; 4], to: f64, horizon: f64) -> End<4> {
        run(
            from,
            horizon,
            &self.steps(),
            |state| self.rate(state),
            |[celsius, ..]| to - celsius,
        )
    }

    /// Runs for a time.
    pub(crate) fn wait(&self, from: [f64; 4], seconds: f64) -> End<4> {
        run(from, seconds, &self.steps(), |state| self.rate(state), |_| -1.0)
    }

    fn rate(&self, [celsius, water, ..]: &[f64; 4]) -> [f64; 4] {
        let (lost, mut steam) = self.losses(*celsius);
        if *water <= WATER_LEAST_KG {
            steam = 0.0;
        }
        let capacity = self.heat_capacity(*celsius, *water);
        let free = (self.input - lost) / capacity;
        match self.ramp {
            Some(ramp) if ramp < free => [ramp, -steam, lost, ramp * capacity + lost],
            Some(_) | None => [free, -steam, lost, self.input],
        }
    }

    fn steps(&self) -> Fineness<4> {
        let fine = self.fineness.clamp(1.0, 1e6);
        Fineness {
            error_most: [5e-4 / fine, f64::MAX, f64::MAX, f64::MAX],
            step_first: 60.0 / fine,
            step_longest: 7_200.0 / fine,
        }
    }
}

/// A pot never boils quite dry in these sums; it keeps the quotients finite.
const WATER_LEAST_KG: f64 = 0.01;
const LEDGER_HORIZON_S: f64 = 259_200.0;
