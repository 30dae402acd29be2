//! How sour or alkaline a bath of known salts is: a band of pH, as advice. A test strip in the pot wins.
//!
//! Equilibria of 25 C, so the band is that of a sample left to cool. Activities by Davies; aluminium hydrolyses
//! and may settle as hydroxide; carbonate gives off gas once the water is full of it. What the fibre, the plant and
//! the tap water bring isn't known here.

use super::dissolving::{Clash, clash};
use super::quantity::{Band, Mass, Volume};
use super::salts::molar_mass;
use super::substance::Substance;

/// What is known of a bath's acidity.
#[derive(Debug, Clone, PartialEq)]
pub struct Acidity {
    /// The band of pH; `None` when nothing in the bath can be reckoned with.
    pub ph: Option<Band<f64>>,
    /// The gas that alkali and acid set free, in litres, at most. Above a glassful the pot wants room.
    pub gas_litres: f64,
    /// Whether two of the additions foam up when they meet.
    pub fizzes: bool,
    /// What is in the bath and isn't counted.
    pub not_counted: Vec<Substance>,
}

/// The acidity of a bath of these additions in this much water.
#[must_use]
pub fn acidity(additions: &[(Substance, Mass)], bath: Volume) -> Acidity {
    let mut waters = Dissolved::default();
    let mut not_counted = Vec::new();
    let mut is_anything = false;
    for (substance, amount) in additions {
        if waters.add(*substance, amount.grams(), bath.litres()) {
            is_anything = is_anything || amount.grams() > 0.0;
        } else if !not_counted.contains(substance) {
            not_counted.push(*substance);
        }
    }
    let fizzes = additions.iter().any(|(one, _)| {
        additions
            .iter()
            .any(|(other, _)| clash(*one, *other) == Some(Clash::Fizz))
    });
    if !is_anything || bath.litres() <= 0.0 {
        return Acidity {
            ph: None,
            gas_litres: 0.0,
            fizzes,
            not_counted,
        };
    }
    let closed = waters.settle(Gas::LeavesAbove(FULL_WATER_BAR));
    // In an open pot a chalky or soured bath goes on trading gas with the air; how far depends on the hour.
    let aired = if waters.chalk > 0.0 || closed.gas > GAS_LEAST_MOLES {
        waters.settle(Gas::Fixed(AIR_BAR))
    } else {
        closed
    };
    let (low, high) = (closed.ph.min(aired.ph), closed.ph.max(aired.ph));
    Acidity {
        ph: Some(Band {
            low: low - UNSURE,
            likely: f64::midpoint(low, high),
            high: high + UNSURE,
        }),
        gas_litres: aired.gas.max(closed.gas) * bath.litres() * LITRES_OF_GAS_PER_MOLE,
        fizzes,
        not_counted,
    }
}

/// Alum baths measured by others lie within this of the reckoning (British Pharmacopoeia and Merck's figures, read).
const UNSURE: f64 = 0.4;
/// One mole of gas at 25 C and 1013 hPa.
const LITRES_OF_GAS_PER_MOLE: f64 = 24.47;
/// Less gas than this from a litre is the rounding of a difference, not gas.
const GAS_LEAST_MOLES: f64 = 1e-9;
/// Carbon dioxide over water that bubbles, and over water in equilibrium with air, in bar.
const FULL_WATER_BAR: f64 = 1.0;
const AIR_BAR: f64 = 4.2e-4;

// Common logarithms at 25 C and no ionic strength.
const LOG_WATER: f64 = -13.995;
/// Al3+ + n H2O = Al(OH)n + n H+: Baes and Mesmer 1976, read in a table quoting them.
const LOG_AL_HYDROLYSIS: [f64; 4] = [-4.97, -9.3, -15.0, -23.0];
/// 2 Al3+ to Al2(OH)2, 3 Al3+ to Al3(OH)4: the same.
const LOG_AL_DIMER: f64 = -7.7;
const LOG_AL_TRIMER: f64 = -13.94;
/// Fresh aluminium hydroxide, Al(OH)3 + 3 H+ = Al3+ + 3 H2O (from memory; gibbsite, which takes years, is 7.8 to 8.5).
const LOG_FRESH_HYDROXIDE: f64 = 10.8;
/// Acids by their losses of a proton. Tartaric: NBS pH standard's; the others from memory, as in any handbook.
const PK_TARTARIC: [f64; 2] = [3.036, 4.366];
const PK_CITRIC: [f64; 3] = [3.128, 4.761, 6.396];
const PK_ACETIC: [f64; 1] = [4.756];
const PK_SULFURIC_SECOND: [f64; 1] = [1.99];
const PK_CARBONIC: [f64; 2] = [6.352, 10.329];
const PK_AMMONIUM: [f64; 1] = [9.245];
/// Moles of carbon dioxide in a litre under one bar.
const LOG_CARBON_DIOXIDE: f64 = -1.468;
/// Calcite, Ca2+ x CO3 2-.
const LOG_CALCITE: f64 = -8.48;
/// Acid in kitchen vinegar, by weight: 5 % (common practice, no source).
const VINEGAR_ACID_SHARE: f64 = 0.05;
const ACETIC_ACID_MOLAR_MASS: f64 = 60.052;
/// Davies' slope in water of 25 C, and the ionic strength beyond which his formula is held.
const DAVIES_SLOPE: f64 = 0.509;
const IONIC_STRENGTH_MAX: f64 = 0.5;

/// Moles of each in a litre, however they split up.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Dissolved {
    aluminium: f64,
    sulfate: f64,
    tartrate: f64,
    citrate: f64,
    acetate: f64,
    carbonate: f64,
    chalk: f64,
    ammonia: f64,
    /// Positive charge that stays whatever the acidity: sodium, potassium, calcium of salts.
    lasting_positive: f64,
    /// Negative charge that stays: chloride.
    lasting_negative: f64,
    calcium: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Settled {
    ph: f64,
    /// Moles of carbon dioxide that left each litre.
    gas: f64,
}

/// What becomes of carbon dioxide.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Gas {
    /// It bubbles off above this pressure in bar, and none comes in.
    LeavesAbove(f64),
    /// The air holds it at this pressure in bar, and it comes and goes.
    Fixed(f64),
}

/// Activity coefficients of ions by their charge, 0 to 5.
type Activity = [f64; 6];

impl Dissolved {
    /// Adds a substance; `false` if its acidity isn't reckoned with.
    fn add(&mut self, substance: Substance, grams: f64, litres: f64) -> bool {
        let moles = molar_mass(substance).map_or(0.0, |molar_mass| grams / molar_mass / litres);
        match substance {
            Substance::PotashAlum | Substance::SodaAlum | Substance::BurntAlum => {
                self.aluminium += moles;
                self.sulfate += 2.0 * moles;
                self.lasting_positive += moles;
            }
            Substance::AmmoniumAlum => {
                self.aluminium += moles;
                self.sulfate += 2.0 * moles;
                self.ammonia += moles;
            }
            Substance::AluminiumSulfate14
            | Substance::AluminiumSulfate16
            | Substance::AluminiumSulfate17
            | Substance::AluminiumSulfate18 => {
                self.aluminium += 2.0 * moles;
                self.sulfate += 3.0 * moles;
            }
            Substance::AluminiumTriacetate => self.add_acetate_of_aluminium(moles, 3.0),
            Substance::AluminiumDiacetate => self.add_acetate_of_aluminium(moles, 2.0),
            Substance::AluminiumMonoacetate => self.add_acetate_of_aluminium(moles, 1.0),
            Substance::SodiumAcetate | Substance::SodiumAcetateTrihydrate => {
                self.acetate += moles;
                self.lasting_positive += moles;
            }
            Substance::CalciumAcetate => {
                self.acetate += 2.0 * moles;
                self.calcium += moles;
            }
            Substance::CreamOfTartar => {
                self.tartrate += moles;
                self.lasting_positive += moles;
            }
            Substance::TartaricAcid => self.tartrate += moles,
            Substance::CitricAcid | Substance::CitricAcidMonohydrate => self.citrate += moles,
            Substance::Vinegar => {
                self.acetate += grams * VINEGAR_ACID_SHARE / ACETIC_ACID_MOLAR_MASS / litres;
            }
            Substance::SodaAsh | Substance::SodaMonohydrate | Substance::SodaCrystals => {
                self.carbonate += moles;
                self.lasting_positive += 2.0 * moles;
            }
            Substance::BakingSoda => {
                self.carbonate += moles;
                self.lasting_positive += moles;
            }
            Substance::Chalk => self.chalk += moles,
            Substance::SlakedLime => self.calcium += moles,
            Substance::Salt => {
                self.lasting_positive += moles;
                self.lasting_negative += moles;
            }
            Substance::Fructose => {}
            // Iron and tin make acid as air gets at them; copper, tannin, soap and bran have no figures here.
            Substance::TannicAcid
            | Substance::FerrousSulfate7
            | Substance::FerrousSulfate1
            | Substance::CopperSulfate5
            | Substance::TinChloride2
            | Substance::NeutralSoap
            | Substance::NeutralDetergent
            | Substance::WheatBran
            | Substance::ZincDust
            | Substance::SodiumHydrosulphite => return false,
        }
        true
    }

    fn add_acetate_of_aluminium(&mut self, moles: f64, acetates: f64) {
        self.aluminium += moles;
        self.acetate += acetates * moles;
    }

    /// The pH at which all charges cancel.
    fn settle(&self, gas: Gas) -> Settled {
        let mut strength = 0.01;
        let mut ph = 7.0;
        for _ in 0..STRENGTH_ROUNDS {
            let activity = davies(strength);
            let (mut sour, mut alkaline) = (-1.0, 15.0);
            for _ in 0..HALVINGS {
                ph = f64::midpoint(sour, alkaline);
                if self.at(ph, &activity, gas).charge > 0.0 {
                    sour = ph;
                } else {
                    alkaline = ph;
                }
            }
            let next = f64::midpoint(strength, self.at(ph, &activity, gas).ionic_strength);
            let stands = (next - strength).abs() <= STRENGTH_STANDS * strength;
            strength = next;
            if stands {
                break;
            }
        }
        let left = self.at(ph, &davies(strength), gas).gas;
        Settled { ph, gas: left }
    }

    /// How everything splits up at one pH.
    fn at(&self, ph: f64, activity: &Activity, gas: Gas) -> Split {
        let proton = ten_to(-ph);
        let mut split = Split::default();
        split.ion(1, proton / activity[1]);
        split.ion(-1, ten_to(LOG_WATER) / proton / activity[1]);
        split.ion(1, self.lasting_positive);
        split.ion(-1, self.lasting_negative);
        split.acid(&PK_SULFURIC_SECOND, -1, self.sulfate, proton, activity);
        split.acid(&PK_TARTARIC, 0, self.tartrate, proton, activity);
        split.acid(&PK_CITRIC, 0, self.citrate, proton, activity);
        split.acid(&PK_ACETIC, 0, self.acetate, proton, activity);
        split.acid(&PK_AMMONIUM, 1, self.ammonia, proton, activity);
        self.split_aluminium(&mut split, proton, activity);
        self.split_carbonate(&mut split, proton, activity, gas);
        split
    }

    fn split_aluminium(&self, split: &mut Split, proton: f64, activity: &Activity) {
        if self.aluminium <= 0.0 {
            return;
        }
        // Concentrations for one unit of activity of Al3+, to the powers 1, 2 and 3 of it.
        let [first, second, third, fourth] = LOG_AL_HYDROLYSIS;
        let one = [
            (3, 1.0 / activity[3]),
            (2, ten_to(first) / proton / activity[2]),
            (1, ten_to(second) / proton.powi(2) / activity[1]),
            (0, ten_to(third) / proton.powi(3)),
            (-1, ten_to(fourth) / proton.powi(4) / activity[1]),
        ];
        let dimer = ten_to(LOG_AL_DIMER) / proton.powi(2) / activity[4];
        let trimer = ten_to(LOG_AL_TRIMER) / proton.powi(4) / activity[5];
        let single: f64 = one.iter().map(|(_, per_unit)| per_unit).sum();
        let total = |free: f64| free * single + 2.0 * free.powi(2) * dimer + 3.0 * free.powi(3) * trimer;
        let slope = |free: f64| single + 4.0 * free * dimer + 9.0 * free.powi(2) * trimer;
        // The total rises ever steeper, so Newton's steps from above come down to it and never pass it.
        let mut free = self.aluminium / single;
        for _ in 0..NEWTON_STEPS {
            let step = (total(free) - self.aluminium) / slope(free);
            free -= step;
            if step <= free * 1e-14 {
                break;
            }
        }
        let free = free.min(ten_to(LOG_FRESH_HYDROXIDE) * proton.powi(3));
        for (charge, per_unit) in one {
            split.ion(charge, free * per_unit);
        }
        split.ion(4, free.powi(2) * dimer);
        split.ion(5, free.powi(3) * trimer);
    }

    fn split_carbonate(&self, split: &mut Split, proton: f64, activity: &Activity, gas: Gas) {
        split.ion(2, self.calcium);
        if self.carbonate <= 0.0 && self.chalk <= 0.0 {
            return;
        }
        // Concentrations for one unit of dissolved carbon dioxide.
        let [first, second] = PK_CARBONIC;
        let hydrogen_carbonate = ten_to(-first) / proton / activity[1];
        let carbonate = ten_to(-first - second) / proton.powi(2) / activity[2];
        let all = 1.0 + hydrogen_carbonate + carbonate;
        let (is_fixed, gas_bar) = match gas {
            Gas::LeavesAbove(bar) => (false, bar),
            Gas::Fixed(bar) => (true, bar),
        };
        let gas_full = ten_to(LOG_CARBON_DIOXIDE) * gas_bar;
        // Chalk dissolves until calcium times carbonate is calcite's: x (carbonate + x) share = product.
        let product = ten_to(LOG_CALCITE) / activity[2].powi(2);
        let share = carbonate / all;
        let soured = |base: f64| {
            let root = (base.powi(2) + 4.0 * product / share).sqrt();
            // The same root, written so that near numbers are not subtracted.
            2.0 * product / share / (root + base)
        };
        let chalk_closed = soured(self.carbonate + self.calcium).min(self.chalk);
        let carbon_dioxide_closed = (self.carbonate + chalk_closed) / all;
        let (dissolved_chalk, carbon_dioxide) = if is_fixed || carbon_dioxide_closed > gas_full {
            let calcium = product / (gas_full * carbonate);
            ((calcium - self.calcium).clamp(0.0, self.chalk), gas_full)
        } else {
            (chalk_closed, carbon_dioxide_closed)
        };
        split.ion(2, dissolved_chalk);
        split.ion(-1, carbon_dioxide * hydrogen_carbonate);
        split.ion(-2, carbon_dioxide * carbonate);
        split.gas = (self.carbonate + dissolved_chalk - carbon_dioxide * all).max(0.0);
    }
}

/// From 16 units of pH to less than a billionth of one.
const HALVINGS: u32 = 36;
const NEWTON_STEPS: u32 = 60;
const STRENGTH_ROUNDS: u32 = 30;
/// An ionic strength that changes by less than this part moves the pH by less than a millionth.
const STRENGTH_STANDS: f64 = 1e-6;

/// Sums over all ions of one pH.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Split {
    charge: f64,
    ionic_strength: f64,
    gas: f64,
}

impl Split {
    fn ion(&mut self, charge: i32, moles: f64) {
        let charge = f64::from(charge);
        self.charge += charge * moles;
        self.ionic_strength += 0.5 * charge * charge * moles;
    }

    /// An acid of `total` moles whose undissociated form carries `charge`.
    fn acid(&mut self, pks: &[f64], charge: i32, total: f64, proton: f64, activity: &Activity) {
        if total <= 0.0 {
            return;
        }
        let gamma = |charge: i32| {
            let size = usize::try_from(charge.unsigned_abs()).unwrap_or(0);
            activity.get(size).copied().unwrap_or(1.0)
        };
        let mut weight = 1.0;
        let mut forms = vec![(charge, 1.0 / gamma(charge))];
        let mut form_charge = charge;
        for pk in pks {
            form_charge = form_charge.saturating_sub(1);
            weight *= ten_to(-pk) / proton;
            forms.push((form_charge, weight / gamma(form_charge)));
        }
        let all: f64 = forms.iter().map(|(_, weight)| weight).sum();
        for (charge, weight) in forms {
            self.ion(charge, total * weight / all);
        }
    }
}

fn davies(ionic_strength: f64) -> Activity {
    let strength = ionic_strength.clamp(0.0, IONIC_STRENGTH_MAX);
    let root = strength.sqrt();
    let per_square = DAVIES_SLOPE * (root / (1.0 + root) - 0.3 * strength);
    [0.0_f64, 1.0, 2.0, 3.0, 4.0, 5.0].map(|charge| ten_to(-per_square * charge * charge))
}

fn ten_to(power: f64) -> f64 {
    10.0_f64.powf(power)
}
