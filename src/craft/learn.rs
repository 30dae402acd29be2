//! What the baths of one pot on one burner have taught about it.
//!
//! Three factors are learned, in logarithms: how much of the burner's power gets in, how much more or less than computed
//! the pot loses, and how its lid fits. Each bath also has a day of its own: draughts, where the pot stood, how the knob was
//! set. A reading is compared as the logarithm of the time it took or, where the model never gets so far, as a temperature at a
//! time. The posterior is the Gaussian one about the best fit (Gauss-Newton on the log factors, a scalar Kalman step for
//! each reading); a reading more than two spreads from the fit loses weight, one more than three counts for nothing.

use super::heat::Ties;
use super::heat::integrate::Stop;
use super::heat::{DRAW_COUNT, Draw, Heat, Kettle, LogNormal, PotKnowledge, Prepared};
use super::quantity::Temperature;
use super::time::Span;
use super::vessel::{Burner, BurnerKind, Pot};

/// One bath as it really went.
#[derive(Debug, Clone, PartialEq)]
pub struct BathSeen {
    /// The pot as it stood; its `knowledge` is not looked at. `lid` and `goods` as they were while it was watched.
    pub kettle: Kettle,
    /// What was read.
    pub seen: Vec<Seen>,
    /// The bath before it in the list, with other goods or another lid: it has that one's day.
    pub goes_on: bool,
}

/// A pot went from one temperature to another in a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// Under which heat.
    pub under: Under,
    /// At the start.
    pub from: Temperature,
    /// At the end, as read.
    pub to: Temperature,
    /// How long it took.
    pub took: Span,
}

/// What the burner did meanwhile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Under {
    /// It stayed at this part of its full power. A come-up that was turned down to keep a ramp teaches nothing here.
    Burner(f64),
    /// It was off.
    Nothing,
}

/// What is known after some baths.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Learned {
    /// Fewer than two baths: not yet known.
    NotYet {
        /// Baths with a reading that could be used.
        bath_count: usize,
    },
    /// What to expect of the next bath.
    Known {
        /// Factors and spreads for the next bath, its own day's scatter with them.
        knowledge: PotKnowledge,
        /// Baths with a reading that could be used.
        bath_count: usize,
    },
}

impl Learned {
    /// What to reckon with: what was learned, or what is usual for a burner of the kind.
    #[must_use]
    pub fn knowledge(&self, burner: BurnerKind) -> PotKnowledge {
        match self {
            Self::NotYet { .. } => PotKnowledge::unknown(burner),
            Self::Known { knowledge, .. } => *knowledge,
        }
    }
}

/// One bath as it really went, of one pot on one burner.
#[derive(Debug, Clone, PartialEq)]
pub struct Lesson {
    /// Its pot.
    pub pot: Pot,
    /// The burner under it.
    pub burner: Burner,
    /// What was read, one part for each load and lid.
    pub parts: Vec<BathSeen>,
    /// When the bath began, in milliseconds since 1970.
    pub begun_wall_ms: i64,
}

/// What the newest lessons of this very pot on this very burner teach. Lessons of others are passed over: the same pot
/// on another plate is another story.
#[must_use]
pub fn learn_from(lessons: &[Lesson], pot: &Pot, burner: &Burner) -> Learned {
    let mut fitting: Vec<&Lesson> = lessons
        .iter()
        .filter(|lesson| lesson.pot == *pot && lesson.burner == *burner)
        .collect();
    fitting.sort_by_key(|lesson| std::cmp::Reverse(lesson.begun_wall_ms));
    fitting.truncate(LESSONS_MOST);
    let baths: Vec<BathSeen> = fitting
        .into_iter()
        .rev()
        .flat_map(|lesson| lesson.parts.clone())
        .collect();
    learn(&PotKnowledge::unknown(burner.kind), &baths)
}

/// What baths of one pot on one burner teach, from what was known before any of them.
#[must_use]
pub fn learn(before: &PotKnowledge, baths: &[BathSeen]) -> Learned {
    let bath_count = baths
        .chunk_by(|_, next| next.goes_on)
        .filter(|bath| bath.iter().flat_map(|part| &part.seen).any(teaches))
        .count();
    if bath_count < BATHS_LEAST {
        return Learned::NotYet { bath_count };
    }
    let prior = Prior::of(before);
    let prepared: Vec<(Prepared<'_>, &BathSeen)> = baths
        .iter()
        .map(|bath| (Prepared::of(&bath.kettle), bath))
        .collect();
    let belief = best_fit(&prior, &prepared);
    Learned::Known {
        knowledge: prior.knowledge(&belief),
        bath_count,
    }
}

/// The fit that explains the readings at the least cost. A wild reading may pull the first fit to a place where everything
/// is explained a little; so when any reading lost weight, each bath is also left out of a start of its own.
fn best_fit(prior: &Prior, baths: &[(Prepared<'_>, &BathSeen)]) -> Belief {
    let from_all = settle(prior, prior.belief(), baths);
    if !from_all.doubted {
        return from_all.belief;
    }
    let mut best = from_all;
    let first = baths.len().saturating_sub(STARTS_MOST);
    for left_out in first..baths.len() {
        let others: Vec<(Prepared<'_>, &BathSeen)> = baths
            .iter()
            .enumerate()
            .filter(|(index, _)| *index != left_out)
            .map(|(_, bath)| *bath)
            .collect();
        let fit = settle(prior, settle(prior, prior.belief(), &others).belief, baths);
        if fit.cost < best.cost {
            best = fit;
        }
    }
    best.belief
}

/// Passes until the fit stands.
fn settle(prior: &Prior, start: Belief, baths: &[(Prepared<'_>, &BathSeen)]) -> Fit {
    let mut fit = pass(prior, &start, baths);
    for _ in 1..PASS_COUNT {
        let last = fit.belief;
        fit = pass(prior, &last, baths);
        let stands = last
            .mean
            .iter()
            .zip(fit.belief.mean)
            .zip(fit.belief.variances())
            .take(POT_COUNT)
            .all(|((before, after), variance)| (after - before).powi(2) <= STANDS_PART * variance);
        if stands {
            break;
        }
    }
    fit
}

/// A fit, and what it cost to believe.
struct Fit {
    belief: Belief,
    /// Twice the negative logarithm of its likelihood, wild readings at their fixed price.
    cost: f64,
    /// Some reading lost weight.
    doubted: bool,
}

/// A reading tells something when the pot moved by more than a thermometer's error in more than a moment.
fn teaches(seen: &Seen) -> bool {
    let risen = seen.to.celsius() - seen.from.celsius();
    let long_enough = seen.took >= Span::from_minutes(2) && seen.took <= Span::from_minutes(72 * 60);
    long_enough
        && match seen.under {
            Under::Burner(setting) => setting > 0.0 && setting <= 1.0 && risen >= RISE_LEAST_K,
            Under::Nothing => -risen >= RISE_LEAST_K,
        }
}

/// What was believed before, split into what stays with the pot and what changes from day to day.
struct Prior {
    medians: [f64; POT_COUNT],
    pot: [f64; POT_COUNT],
    day: [f64; DAY_COUNT],
}

impl Prior {
    fn of(before: &PotKnowledge) -> Self {
        let factors = [before.efficiency, before.loss, before.lid];
        let spreads = factors.map(LogNormal::spread);
        let day = pairwise(DAY_SPREADS, spreads, f64::min);
        let [efficiency, loss, lid] = day;
        Self {
            medians: factors.map(|factor| factor.median().ln()),
            pot: pairwise(spreads, day, |all, day| (all * all - day * day).max(0.0).sqrt()),
            // The room enters in its own spreads.
            day: [efficiency, loss, lid, 1.0],
        }
    }

    fn belief(&self) -> Belief {
        let mut belief = Belief {
            mean: [0.0; STATE_COUNT],
            spread: [[0.0; STATE_COUNT]; STATE_COUNT],
        };
        for ((value, median), (row_index, (row, spread))) in belief
            .mean
            .iter_mut()
            .zip(self.medians)
            .zip(belief.spread.iter_mut().zip(self.pot).enumerate())
        {
            *value = median;
            if let Some(own) = row.get_mut(row_index) {
                *own = spread * spread;
            }
        }
        belief
    }

    /// How far a mean lies from what was believed before, squared spreads.
    fn cost(&self, mean: &[f64; STATE_COUNT]) -> f64 {
        let [efficiency, loss, lid, ..] = *mean;
        let away = pairwise([efficiency, loss, lid], self.medians, |now, before| now - before);
        pairwise(
            away,
            self.pot,
            |away, spread| if spread > 0.0 { away / spread } else { 0.0 },
        )
        .iter()
        .map(|part| part * part)
        .sum()
    }

    /// The next bath's factors: what is known of the pot, and a day's scatter.
    fn knowledge(&self, belief: &Belief) -> PotKnowledge {
        let [efficiency, loss, lid, ..] = belief.mean;
        let [efficiency_day, loss_day, lid_day, _] = self.day;
        let [efficiency_var, loss_var, lid_var, ..] = belief.variances();
        let factor =
            |mean: f64, variance: f64, day: f64| LogNormal::new(mean.exp(), (variance + day * day).sqrt());
        PotKnowledge {
            efficiency: factor(efficiency.min(0.0), efficiency_var, efficiency_day),
            loss: factor(loss, loss_var, loss_day),
            lid: factor(lid, lid_var, lid_day),
            ties: self.ties(belief),
        }
    }
}

impl Prior {
    /// How the next bath's factors hang together.
    fn ties(&self, belief: &Belief) -> Ties {
        let [
            [efficiency, ..],
            [loss_efficiency, loss, ..],
            [lid_efficiency, lid_loss, lid, ..],
            ..,
        ] = belief.spread;
        let [efficiency_day, loss_day, lid_day, _] = self.day;
        let whole = |variance: f64, day: f64| (variance + day * day).max(1e-12).sqrt();
        let (efficiency, loss, lid) = (
            whole(efficiency, efficiency_day),
            whole(loss, loss_day),
            whole(lid, lid_day),
        );
        Ties::of_correlations(
            loss_efficiency / (loss * efficiency),
            lid_efficiency / (lid * efficiency),
            lid_loss / (lid * loss),
        )
    }
}

/// A Gaussian over the pot's three factors and the day's four.
#[derive(Debug, Clone, Copy)]
struct Belief {
    mean: [f64; STATE_COUNT],
    spread: [[f64; STATE_COUNT]; STATE_COUNT],
}

impl Belief {
    fn variances(&self) -> [f64; STATE_COUNT] {
        let mut variances = [0.0; STATE_COUNT];
        for (index, (variance, row)) in variances.iter_mut().zip(&self.spread).enumerate() {
            *variance = row.get(index).copied().unwrap_or(0.0).max(0.0);
        }
        variances
    }

    /// A new day: its scatter is as before any reading, and owes nothing to the pot's.
    fn next_day(&mut self, day: [f64; DAY_COUNT]) {
        for value in self.mean.iter_mut().skip(POT_COUNT) {
            *value = 0.0;
        }
        for (row_index, row) in self.spread.iter_mut().enumerate() {
            for (column_index, cell) in row.iter_mut().enumerate() {
                if row_index >= POT_COUNT || column_index >= POT_COUNT {
                    *cell = 0.0;
                }
            }
        }
        for (row_index, (row, spread)) in self.spread.iter_mut().skip(POT_COUNT).zip(day).enumerate() {
            if let Some(own) = row.iter_mut().skip(POT_COUNT).nth(row_index) {
                *own = spread * spread;
            }
        }
    }

    /// Takes up one reading: it lies `miss` above what this mean expects, along `slope`, with a variance of its own.
    fn take(&mut self, miss: f64, slope: &[f64; STATE_COUNT], variance: f64) {
        let gain: [f64; STATE_COUNT] = self.spread.map(|row| dot(&row, slope));
        let total = dot(&gain, slope) + variance;
        if !(total.is_finite() && total > 0.0 && miss.is_finite()) {
            return;
        }
        for (value, gain) in self.mean.iter_mut().zip(gain) {
            *value += gain / total * miss;
        }
        for (row, row_gain) in self.spread.iter_mut().zip(gain) {
            for (cell, column_gain) in row.iter_mut().zip(gain) {
                *cell -= row_gain * column_gain / total;
            }
        }
    }
}

/// Goes through all readings once more, straightened out about the fit so far.
fn pass(prior: &Prior, fit: &Belief, baths: &[(Prepared<'_>, &BathSeen)]) -> Fit {
    let mut belief = prior.belief();
    let (mut strain, mut reading_count) = (0.0, 0.0);
    let (mut cost, mut doubted) = (prior.cost(&fit.mean), false);

    for (prepared, bath) in baths {
        if !bath.goes_on {
            belief.next_day(prior.day);
        }
        for seen in bath.seen.iter().filter(|seen| teaches(seen)) {
            let expected = Expected::of(prepared, seen, &fit.mean);
            let day_variance: f64 = expected
                .slope
                .iter()
                .skip(POT_COUNT)
                .zip(prior.day)
                .map(|(slope, day)| (slope * day).powi(2))
                .sum();
            // How far a sound reading may lie from this fit; at first the fit is the prior, and nearly anything is sound.
            let whole_variance = expected.variance + day_variance + fit.pot_variance(&expected.slope);
            let miss_of_fit = expected.miss;
            let in_spreads = miss_of_fit * miss_of_fit / whole_variance;
            let weight = weight_of(in_spreads);
            cost += in_spreads.min(WILD_COST);
            doubted |= weight < 1.0;
            strain += weight * in_spreads;
            reading_count += 1.0;
            let variance = expected.variance + whole_variance * (1.0 / weight - 1.0);
            let moved = pairwise(belief.mean, fit.mean_of_pot(), |now, fitted| now - fitted);
            belief.take(
                miss_of_fit - dot(&expected.slope, &moved),
                &expected.slope,
                variance,
            );
        }
    }
    // Readings that scatter more than they should widen what they teach.
    let widen = if reading_count > 0.0 {
        (strain / reading_count).max(1.0)
    } else {
        1.0
    };
    let [efficiency, loss, lid] = prior.pot;
    for (row, most) in belief.spread.iter_mut().zip([efficiency, loss, lid]) {
        for cell in row.iter_mut().take(POT_COUNT) {
            *cell = (*cell * widen).clamp(-most * most, most * most);
        }
    }
    Fit {
        belief,
        cost,
        doubted,
    }
}

/// A sound reading counts whole, a wild one not at all; between two and three spreads it fades.
fn weight_of(in_spreads: f64) -> f64 {
    ((WILD_COST - in_spreads) / (WILD_COST - SOUND_COST)).clamp(1e-4, 1.0)
}

impl Belief {
    /// The variance that not knowing the pot puts on a reading of this slope.
    fn pot_variance(&self, slope: &[f64; STATE_COUNT]) -> f64 {
        let mut pot_slope = *slope;
        for part in pot_slope.iter_mut().skip(POT_COUNT) {
            *part = 0.0;
        }
        dot(&self.spread.map(|row| dot(&row, &pot_slope)), &pot_slope).max(0.0)
    }

    /// The mean with the day at its middle, about which a bath is straightened out.
    fn mean_of_pot(&self) -> [f64; STATE_COUNT] {
        let [efficiency, loss, lid, ..] = self.mean;
        [efficiency, loss, lid, 0.0, 0.0, 0.0, 0.0]
    }
}

/// What the model says of a reading: how long it should have taken or, where the model never gets there, what the
/// thermometer should have shown.
struct Expected {
    /// Logarithm of seconds, or degrees: by how much the reading lies above the model.
    miss: f64,
    slope: [f64; STATE_COUNT],
    /// Of thermometer, start and tap.
    variance: f64,
}

impl Expected {
    fn of(prepared: &Prepared<'_>, seen: &Seen, factors: &[f64; STATE_COUNT]) -> Self {
        let [efficiency, loss, lid, ..] = *factors;
        let stepped = |log: f64| LogNormal::new(log.exp(), LOG_STEP);
        let kettle = Kettle {
            knowledge: PotKnowledge {
                efficiency: stepped(efficiency.min(0.0)),
                loss: stepped(loss),
                lid: stepped(lid),
                ties: Ties::NONE,
            },
            ..*prepared.kettle
        };
        let prepared = prepared.on_burner_of(&kettle);
        Self::by_time(&prepared, seen).unwrap_or_else(|| Self::by_temperature(&prepared, seen))
    }

    fn by_time(prepared: &Prepared<'_>, seen: &Seen) -> Option<Self> {
        let log_seconds = |draw: &Draw| {
            let case = prepared.case(draw, heat(seen.under), None);
            let (from, to) = (seen.from.celsius(), seen.to.celsius());
            let end = match seen.under {
                Under::Burner(_) => case.warm(from, to, LONGEST_S),
                Under::Nothing => case.cool(case.start(from), to, LONGEST_S),
            };
            (end.stop == Stop::Event && end.time > 1.0).then(|| end.time.ln())
        };
        let expected = log_seconds(&Draw::MIDDLE)?;
        let pace = prepared
            .case(&Draw::MIDDLE, heat(seen.under), None)
            .warming(seen.to.celsius(), prepared.water);
        let read = READING_SPREAD_K / (pace.abs() * expected.exp()).max(1e-3);
        let seconds = seen.took.minutes() * 60.0;
        Some(Self {
            miss: seconds.ln() - expected,
            ..Self::sloping(slopes(log_seconds)?, [read, TAP_SPREAD_S / seconds])
        })
    }

    fn by_temperature(prepared: &Prepared<'_>, seen: &Seen) -> Self {
        let seconds = seen.took.minutes() * 60.0;
        let after = |draw: &Draw, seconds: f64| {
            let case = prepared.case(draw, heat(seen.under), None);
            let [celsius, ..] = case.wait(case.start(seen.from.celsius()), seconds).state;
            celsius
        };
        let expected = after(&Draw::MIDDLE, seconds);
        let late = after(&Draw::MIDDLE, seconds + TAP_SPREAD_S) - expected;
        let slopes = slopes(|draw| Some(after(draw, seconds))).unwrap_or_default();
        Self {
            miss: seen.to.celsius() - expected,
            ..Self::sloping(slopes, [READING_SPREAD_K, late])
        }
    }

    fn sloping(slopes: [f64; DRAW_COUNT], noises: [f64; 2]) -> Self {
        let [efficiency, loss, lid, start, room] = slopes;
        let [efficiency, loss, lid] = [efficiency, loss, lid].map(|slope| slope / LOG_STEP);
        let [read, tap] = noises;
        Self {
            miss: 0.0,
            slope: [efficiency, loss, lid, efficiency, loss, lid, room],
            variance: read * read + start * start + tap * tap,
        }
    }
}

/// Half the change of a measure from one spread below to one above, along each thing not known.
fn slopes(measure: impl Fn(&Draw) -> Option<f64>) -> Option<[f64; DRAW_COUNT]> {
    let mut slopes = [0.0; DRAW_COUNT];
    for (index, slope) in slopes.iter_mut().enumerate() {
        let at = |z: f64| measure(&Draw::one(index, z));
        *slope = 0.5 * (at(1.0)? - at(-1.0)?);
    }
    Some(slopes)
}

const fn heat(under: Under) -> Heat {
    match under {
        Under::Burner(fraction) => Heat::On { fraction },
        Under::Nothing => Heat::Off,
    }
}

fn dot(left: &[f64; STATE_COUNT], right: &[f64; STATE_COUNT]) -> f64 {
    left.iter().zip(right).map(|(left, right)| left * right).sum()
}

fn pairwise<const N: usize>(left: [f64; N], right: [f64; N], of: impl Fn(f64, f64) -> f64) -> [f64; N] {
    let mut to = left;
    for (left, right) in to.iter_mut().zip(right) {
        *left = of(*left, right);
    }
    to
}

const POT_COUNT: usize = 3;
const DAY_COUNT: usize = 4;
const STATE_COUNT: usize = 7;
/// Fewer say nothing.
const BATHS_LEAST: usize = 2;
const PASS_COUNT: usize = 6;
/// The fit stands when it moved by less than a twentieth of its spread.
const STANDS_PART: f64 = 0.002_5;
/// No reading is further apart.
const LONGEST_S: f64 = 259_200.0;
const RISE_LEAST_K: f64 = 5.0;
/// Scatter of efficiency, losses and lid from one day to the next. Common practice, no source.
pub const DAY_SPREADS: [f64; 3] = [0.02, 0.08, 0.15];
/// A kitchen thermometer in a stirred bath, standard deviation in kelvin. Common practice, no source.
pub const READING_SPREAD_K: f64 = 1.0;
/// How late or early a tap is, standard deviation in seconds. Common practice, no source.
pub const TAP_SPREAD_S: f64 = 60.0;
/// Squared spreads from the fit up to which a reading is sound, and from which it is wild: a forgotten tap is more likely
/// than three spreads of an honest one.
const SOUND_COST: f64 = 4.0;
const WILD_COST: f64 = 9.0;
/// With more baths than this the oldest are no longer doubted one by one.
const STARTS_MOST: usize = 8;
/// Older baths than these are let go: a pot gets a new lid, a burner a new seal.
const LESSONS_MOST: usize = 12;
/// Half the step of the slopes, in logarithms.
const LOG_STEP: f64 = 0.03;
