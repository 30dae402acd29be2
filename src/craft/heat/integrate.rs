//! One integrator for everything that changes with time: Dormand and Prince's pair of order 5 and 4, with a step that
//! suits itself and an event that is met exactly.
//!
//! Source: Dormand & Prince, J. Comp. Appl. Math. 6 (1980) 19. Knows nothing of pots.

/// What stopped a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// The watched quantity came to zero.
    Event,
    /// The time given was over.
    Horizon,
}

/// Where a run ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End<const N: usize> {
    /// Time passed.
    pub time: f64,
    /// The state then.
    pub state: [f64; N],
    /// Why it ended.
    pub stop: Stop,
}

/// How finely to step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fineness<const N: usize> {
    /// The error a step may make in each part of the state.
    pub error_most: [f64; N],
    /// The first step tried.
    pub step_first: f64,
    /// No step is longer.
    pub step_longest: f64,
}

/// Runs `rate` from `start` until `watch` crosses zero, at most for `horizon`.
///
/// `watch` is below zero at the start and crosses upwards; if it is not below zero, the run ends at once. A run takes at
/// most ten thousand steps; one that needs more ends where it is, as at its horizon.
pub fn run<const N: usize>(
    start: [f64; N],
    horizon: f64,
    fineness: &Fineness<N>,
    rate: impl Fn(&[f64; N]) -> [f64; N],
    watch: impl Fn(&[f64; N]) -> f64,
) -> End<N> {
    let mut time = 0.0;
    let mut state = start;
    if watch(&state) >= 0.0 {
        return End {
            time,
            state,
            stop: Stop::Event,
        };
    }
    let mut first = rate(&state);
    let mut step = fineness.step_first.min(fineness.step_longest);
    for _ in 0..STEPS_MOST {
        if time >= horizon {
            break;
        }
        step = step
            .min(fineness.step_longest)
            .min(horizon - time)
            .max(f64::MIN_POSITIVE);
        let tried = stride(&state, &first, step, &rate);
        let error = worst(&tried.error, &fineness.error_most);
        if error > 1.0 && step > STEP_LEAST {
            step *= (0.9 / error.sqrt().sqrt()).clamp(0.2, 0.9);
            continue;
        }
        if watch(&tried.state) >= 0.0 {
            let (into, state) = meet(&state, &first, step, &rate, &watch);
            return End {
                time: time + into,
                state,
                stop: Stop::Event,
            };
        }
        time += step;
        state = tried.state;
        first = tried.last_rate;
        step *= if error > 1e-9 {
            (0.9 / error.sqrt().sqrt()).clamp(0.2, 5.0)
        } else {
            5.0
        };
    }
    End {
        time,
        state,
        stop: Stop::Horizon,
    }
}

struct Tried<const N: usize> {
    state: [f64; N],
    error: [f64; N],
    last_rate: [f64; N],
}

/// The length within a step at which the watched quantity crosses zero, by the rule of false position.
fn meet<const N: usize>(
    from: &[f64; N],
    first: &[f64; N],
    step: f64,
    rate: &impl Fn(&[f64; N]) -> [f64; N],
    watch: &impl Fn(&[f64; N]) -> f64,
) -> (f64, [f64; N]) {
    let (mut low, mut high) = (0.0, step);
    let (mut low_miss, mut high_miss) = (watch(from), f64::NAN);
    let mut there = stride(from, first, high, rate).state;
    if high_miss.is_nan() {
        high_miss = watch(&there);
    }
    for _ in 0..30 {
        if high - low <= 1e-9 * step || high_miss <= EVENT_CLOSE {
            break;
        }
        let mut middle = (low * high_miss - high * low_miss) / (high_miss - low_miss);
        if !(middle > low && middle < high) {
            middle = f64::midpoint(low, high);
        }
        let state = stride(from, first, middle, rate).state;
        let miss = watch(&state);
        if miss >= 0.0 {
            (high, high_miss, there) = (middle, miss, state);
            low_miss *= 0.5;
        } else {
            (low, low_miss) = (middle, miss);
            high_miss *= 0.5;
            if miss >= -EVENT_CLOSE {
                (high, there) = (middle, state);
                break;
            }
        }
    }
    (high, there)
}

/// One stride of the pair; the seventh rate is the next stride's first.
fn stride<const N: usize>(
    from: &[f64; N],
    k1: &[f64; N],
    h: f64,
    rate: &impl Fn(&[f64; N]) -> [f64; N],
) -> Tried<N> {
    let k2 = rate(&along(from, h, [(1.0 / 5.0, k1)]));
    let k3 = rate(&along(from, h, [(3.0 / 40.0, k1), (9.0 / 40.0, &k2)]));
    let k4 = rate(&along(
        from,
        h,
        [(44.0 / 45.0, k1), (-56.0 / 15.0, &k2), (32.0 / 9.0, &k3)],
    ));
    let k5 = rate(&along(
        from,
        h,
        [
            (19_372.0 / 6_561.0, k1),
            (-25_360.0 / 2_187.0, &k2),
            (64_448.0 / 6_561.0, &k3),
            (-212.0 / 729.0, &k4),
        ],
    ));
    let k6 = rate(&along(
        from,
        h,
        [
            (9_017.0 / 3_168.0, k1),
            (-355.0 / 33.0, &k2),
            (46_732.0 / 5_247.0, &k3),
            (49.0 / 176.0, &k4),
            (-5_103.0 / 18_656.0, &k5),
        ],
    ));
    let state = along(
        from,
        h,
        [
            (35.0 / 384.0, k1),
            (500.0 / 1_113.0, &k3),
            (125.0 / 192.0, &k4),
            (-2_187.0 / 6_784.0, &k5),
            (11.0 / 84.0, &k6),
        ],
    );
    let k7 = rate(&state);
    let error = along(
        &[0.0; N],
        h,
        [
            (71.0 / 57_600.0, k1),
            (-71.0 / 16_695.0, &k3),
            (71.0 / 1_920.0, &k4),
            (-17_253.0 / 339_200.0, &k5),
            (22.0 / 525.0, &k6),
            (-1.0 / 40.0, &k7),
        ],
    );
    Tried {
        state,
        error,
        last_rate: k7,
    }
}

fn along<const N: usize, const M: usize>(from: &[f64; N], h: f64, parts: [(f64, &[f64; N]); M]) -> [f64; N] {
    let mut to = *from;
    for (weight, rates) in parts {
        for (value, rate) in to.iter_mut().zip(rates) {
            *value += h * weight * rate;
        }
    }
    to
}

fn worst<const N: usize>(error: &[f64; N], most: &[f64; N]) -> f64 {
    error
        .iter()
        .zip(most)
        .map(|(error, most)| error.abs() / most)
        .fold(0.0, f64::max)
}

const STEPS_MOST: usize = 10_000;
/// A step this short is taken whatever its error: a kink in the rate must not stop the run.
const STEP_LEAST: f64 = 1e-3;
/// The watched quantity is in kelvin here; nobody reads a thermometer closer.
const EVENT_CLOSE: f64 = 2e-4;
