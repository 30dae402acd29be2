//! The recipe walked through once, with the bath's temperature at hand: every step with what it computes.

use crate::craft::cautions::{Hands, hands};
use crate::craft::quantity::{Band, Ramp, Temperature, Volume};
use crate::craft::time::Span;
use crate::craft::vessel::Lid;
use crate::msg;
use crate::recipe::model::{Act, Figure, Letter, Recipe, RecipeStep};

use super::additions;
use super::bath_sheet::{Entering, SlowRaise};
use super::heating::{Heating, Load};
use super::held::{BALANCE, MainHold};
use super::liquor::Liquor;
use super::notes::Notes;
use super::plan::{PlannedAddition, Step, StepAct, StepIndex};
use super::step_cautions::{Here, caution_at};
use super::usual;
use super::verdict::{SheetRefusal, SheetWarning};
use super::wishes::StovePlace;
use super::working::Measured;

/// Room kept between hold and boil, so that a bath held just under the boil doesn't boil.
const BOIL_MARGIN_K: f64 = 2.0;

/// What is walked through, and with what.
#[derive(Debug, Clone, Copy)]
pub(super) struct Way<'a> {
    pub(super) recipe: &'a Recipe,
    /// The recipe's steps, or those that a used bath still needs.
    pub(super) steps: &'a [RecipeStep],
    pub(super) stove: &'a StovePlace,
    pub(super) liquor: &'a Liquor,
    pub(super) additions: &'a [PlannedAddition],
    pub(super) boil: Temperature,
    pub(super) heating: &'a Heating,
}

/// What came of it.
#[derive(Debug)]
pub(super) struct Walked {
    pub(super) steps: Vec<Step>,
    /// The bath before and after each step.
    pub(super) temperatures: Vec<(Temperature, Temperature)>,
    /// The raises since the bath was last let cool, up to the main hold; `None` when one never gets there.
    pub(super) come_up: Option<Band<Span>>,
    pub(super) hold: Option<MainHold>,
    /// The burner's part of full power when the main hold began.
    pub(super) setting_before_hold: f64,
    pub(super) entering: Option<Entering>,
    pub(super) slow_raises: Vec<SlowRaise>,
}

/// Walks the recipe. Soaking goes first, then everything is weighed, then the rest as the recipe has it.
pub(super) fn walk(way: Way<'_>, notes: &mut Notes) -> Walked {
    let mut walk = Walk {
        way,
        temperature: way.liquor.filled_at,
        goods_in: false,
        raises: Some(Vec::new()),
        setting: 1.0,
        dropped_from: None,
        walked: Walked {
            steps: Vec::new(),
            temperatures: Vec::new(),
            come_up: None,
            hold: None,
            setting_before_hold: 1.0,
            entering: None,
            slow_raises: Vec::new(),
        },
    };
    walk.run(notes);
    walk.walked
}

impl Walked {
    /// The workings of what the walk found beside the steps.
    pub(super) fn workings(&self, notes: &mut Notes) {
        if let Some(entering) = self.entering {
            notes.working(
                msg!("bath after the goods are in"),
                vec![(msg!("bath before them").into(), Measured::new(entering.from.celsius(), "C"))],
                msg!("the heat of bath, pot, goods and the water they bring, shared out, and the goods' heat of wetting"),
                Measured::new(entering.drops_to.celsius(), "C"),
                BALANCE,
            );
            if let Some(recovery) = entering.recovery {
                notes.working(
                    msg!("back to where the bath was, likely"),
                    vec![(
                        msg!("bath after them").into(),
                        Measured::new(entering.drops_to.celsius(), "C"),
                    )],
                    msg!("come-up at full power with the goods in"),
                    Measured::new(recovery.likely.minutes(), "min"),
                    BALANCE,
                );
            }
        }
        for raise in &self.slow_raises {
            notes.working(
                &msg!(
                    "burner for the raise of step {step}, at its end",
                    step = raise.step.0.saturating_add(1)
                ),
                vec![(
                    msg!("ramp").into(),
                    Measured::new(raise.ramp.kelvin_per_minute(), "C/min"),
                )],
                msg!("what warms the bath at the ramp and what is lost, over the heat of full power"),
                Measured::new(raise.setting.end * 100.0, "%"),
                BALANCE,
            );
        }
    }
}

struct Walk<'a> {
    way: Way<'a>,
    temperature: Temperature,
    goods_in: bool,
    /// The raises since the bath was last let cool; `None` once one never gets there.
    raises: Option<Vec<Band<Span>>>,
    /// The burner's part of full power now.
    setting: f64,
    /// Where the bath was before goods went in, until it is heated again.
    dropped_from: Option<(Temperature, Option<Band<Span>>)>,
    walked: Walked,
}

impl Walk<'_> {
    fn run(&mut self, notes: &mut Notes) {
        let Way { steps, additions, .. } = self.way;
        let soak_first = steps
            .iter()
            .take_while(|step| matches!(step.act, Act::WetOut { .. }))
            .count();
        for step in steps.iter().take(soak_first) {
            self.step(step, notes);
        }
        for addition in additions {
            let letter = addition.letter;
            self.push(StepAct::Weigh { letter }, None, None, self.temperature);
        }
        for step in steps.iter().skip(soak_first) {
            self.step(step, notes);
        }
    }

    fn push(&mut self, act: StepAct, how: Option<&str>, caution: Option<&str>, to: Temperature) {
        let here = Here {
            at: self.temperature,
            lid: self.way.stove.lid,
            additions: self.way.additions,
            recipe: self.way.recipe,
            first_heat: !self
                .walked
                .steps
                .iter()
                .any(|step| matches!(step.act, StepAct::Raise { .. })),
        };
        let caution = caution.map(str::to_owned).or_else(|| caution_at(&act, &here));
        let usual = usual::usual(&act);
        self.walked.temperatures.push((self.temperature, to));
        self.temperature = to;
        self.walked.steps.push(Step {
            act,
            how: how.map(str::to_owned),
            caution,
            usual,
        });
    }

    const fn load(&self) -> Load {
        if self.goods_in {
            self.way.liquor.load
        } else {
            self.way.liquor.load_without_goods()
        }
    }

    fn step(&mut self, step: &RecipeStep, notes: &mut Notes) {
        if let Act::Hold { floor, .. } = &step.act {
            self.back_to_the_hold(floor.chosen, notes);
        }
        let here = self.temperature;
        let (act, to) = match &step.act {
            Act::WetOut { least } => (StepAct::WetOut { least: least.chosen }, here),
            Act::Fill => (self.fill(), self.way.liquor.filled_at),
            Act::Dissolve { letters } => (self.dissolve(letters, notes), here),
            Act::Add { letters } => {
                additions::judge_stays(self.way.additions, letters, self.way.liquor.bath, here, notes);
                let letters = letters.clone();
                (StepAct::Add { letters }, here)
            }
            Act::Strain { letters } => {
                let letters = letters.clone();
                (StepAct::Strain { letters }, here)
            }
            Act::Enter { at_most } => self.enter(at_most.chosen),
            Act::Raise { to, ramp } => self.raise(to.chosen, ramp.as_ref().map(|ramp| ramp.chosen), notes),
            Act::Hold {
                span,
                floor,
                ceiling,
                turn_every,
            } => {
                self.judge_hold(floor.chosen, notes);
                (
                    self.hold(span.chosen, floor.chosen, ceiling.chosen, turn_every.as_ref()),
                    here,
                )
            }
            Act::Cool { to, lid_on } => self.cool(to.chosen, *lid_on),
            Act::Look { sign, after, again } => {
                let act = StepAct::Look {
                    sign: sign.clone(),
                    after: after.chosen,
                    again: again.chosen,
                };
                (act, here)
            }
            Act::Dip {
                times,
                at_most,
                under,
                air,
            } => {
                self.dips(step, *times, at_most.chosen, under.chosen, air.chosen);
                return;
            }
            Act::Lift => (self.lift(notes), here),
            Act::Squeeze => (StepAct::Squeeze, here),
            Act::Rinse { times, until_clear } => {
                let (times, until_clear) = (*times, *until_clear);
                (StepAct::Rinse { times, until_clear }, here)
            }
            Act::Air { span } => (StepAct::Air { span: span.chosen }, here),
            Act::Rest { span } => (StepAct::Rest { span: span.chosen }, here),
            Act::Dry => (StepAct::Dry, here),
            Act::Shelve => (StepAct::Shelve, here),
        };
        self.push(act, step.how.as_deref(), step.caution.as_deref(), to);
    }

    /// Dips one by one: goods in, and for each dip its time under the liquor and its time in the air.
    fn dips(&mut self, step: &RecipeStep, times: u32, at_most: Temperature, under: Span, air: Span) {
        let (how, caution) = (step.how.as_deref(), step.caution.as_deref());
        let (enter, to) = self.enter(at_most);
        self.push(enter, None, caution, to);
        self.dropped_from = None;
        for number in 1..=times {
            let here = self.temperature;
            let dip = StepAct::Dip {
                number,
                of: times,
                under,
            };
            self.push(dip, how, caution, here);
            self.push(StepAct::Air { span: air }, None, None, here);
        }
        self.goods_in = false;
    }

    const fn fill(&self) -> StepAct {
        StepAct::Fill {
            water: self.way.liquor.pour,
            level: self.way.liquor.level_filled,
        }
    }

    fn dissolve(&self, letters: &[Letter], notes: &mut Notes) -> StepAct {
        let cup: Volume = additions::cup_for(self.way.additions, letters, self.temperature, notes);
        StepAct::Dissolve {
            letters: letters.to_vec(),
            cup,
        }
    }

    fn enter(&mut self, at_most: Temperature) -> (StepAct, Temperature) {
        let from = self.temperature;
        let liquor = self.way.liquor;
        let entered = self
            .way
            .heating
            .entered(liquor.load_without_goods(), liquor.goods(), from);
        self.goods_in = true;
        self.dropped_from = Some((from, entered.recovery));
        self.walked.entering = Some(Entering {
            from,
            drops_to: entered.drops_to,
            recovery: entered.recovery,
        });
        (StepAct::Enter { at_most }, entered.drops_to)
    }

    /// A hold that goods have brought below its floor is preceded by the raise that brings it back.
    fn back_to_the_hold(&mut self, floor: Temperature, notes: &mut Notes) {
        let Some((from, recovery)) = self.dropped_from.take() else {
            return;
        };
        let here = self.temperature;
        if here >= floor || from < floor {
            return;
        }
        notes.warn(SheetWarning::HoldStartsLater {
            from,
            to: here,
            floor,
        });
        let ways = || self.way.heating.come_up(self.load(), here, from, None).ways;
        let ways = if recovery.is_none() { ways() } else { String::new() };
        self.count_raise(recovery, from, || ways, notes);
        let act = StepAct::Raise {
            from: here,
            to: from,
            come_up: recovery,
        };
        self.push(
            act,
            Some(msg!("Back to the hold, which counts from there.")),
            None,
            from,
        );
    }

    fn raise(&mut self, asked: Temperature, ramp: Option<Ramp>, notes: &mut Notes) -> (StepAct, Temperature) {
        let from = self.temperature;
        let to = self.below_boil(asked, notes);
        let raise = self.way.heating.come_up(self.load(), from, to, ramp);
        self.dropped_from = None;
        if raise.doubtful {
            notes.warn(SheetWarning::MayNotGetThere {
                target: to,
                ways: raise.ways.clone(),
            });
        }
        self.setting = raise.setting.map_or(1.0, |setting| setting.end);
        if let (Some(ramp), Some(setting)) = (ramp, raise.setting) {
            self.walked.slow_raises.push(SlowRaise {
                step: StepIndex(self.walked.steps.len()),
                ramp,
                setting,
            });
        }
        self.count_raise(raise.band, to, || raise.ways, notes);
        let come_up = raise.band;
        (StepAct::Raise { from, to, come_up }, to)
    }

    fn count_raise(
        &mut self,
        band: Option<Band<Span>>,
        target: Temperature,
        ways: impl FnOnce() -> String,
        notes: &mut Notes,
    ) {
        match (band, self.raises.as_mut()) {
            (Some(band), Some(raises)) => raises.push(band),
            (Some(_), None) => {}
            (None, _) => {
                self.raises = None;
                notes.never_gets_to(target, ways());
            }
        }
    }

    fn hold(
        &mut self,
        span: Span,
        floor: Temperature,
        ceiling: Temperature,
        turn_every: Option<&Figure<Span>>,
    ) -> StepAct {
        let at = self.temperature;
        self.walked.hold = Some(MainHold { at, span });
        self.walked.setting_before_hold = self.setting;
        self.walked.come_up = self.raises.as_deref().map(one_after_the_other);
        StepAct::Hold {
            at,
            floor: floor.least(at),
            ceiling: ceiling.least(self.way.boil).most(at),
            span,
            turn_every: turn_every.map(|every| every.chosen),
        }
    }

    fn cool(&mut self, to: Temperature, lid_on: bool) -> (StepAct, Temperature) {
        let from = self.temperature;
        let lid = if lid_on { Lid::Loose } else { Lid::Off };
        let cool_down = self.way.heating.cool(self.load(), from, to, lid);
        self.raises = self.raises.take().map(|_| Vec::new());
        let act = StepAct::Cool {
            from,
            to,
            cool_down,
            lid_on,
        };
        (act, to.least(from))
    }

    fn lift(&mut self, notes: &mut Notes) -> StepAct {
        self.goods_in = false;
        let at = self.temperature;
        match hands(at) {
            Hands::Free => {}
            Hands::GlovesShortly { burn_seconds } | Hands::ToolOnly { burn_seconds } => {
                notes.warn(SheetWarning::LiftedHot { at, burn_seconds });
            }
        }
        StepAct::Lift
    }

    /// A temperature the bath may be raised to here: never closer to the boil than the margin.
    fn below_boil(&self, asked: Temperature, notes: &mut Notes) -> Temperature {
        let boil = self.way.boil;
        let most = Temperature::saturating_celsius(boil.celsius() - BOIL_MARGIN_K);
        if asked > most {
            notes.warn(SheetWarning::HoldLowered {
                asked,
                lowered: most,
                boil,
            });
        }
        asked.least(most)
    }

    fn judge_hold(&self, floor: Temperature, notes: &mut Notes) {
        let boil = self.way.boil;
        if floor > self.temperature && floor.celsius() > boil.celsius() - BOIL_MARGIN_K {
            notes.refuse(SheetRefusal::BoilsBelowHold {
                boil,
                floor,
                margin_k: BOIL_MARGIN_K,
            });
        }
    }
}

/// Raises of one pot, one after the other: a pot that is slow in one is slow in all, so the ends add up as they are.
fn one_after_the_other(raises: &[Band<Span>]) -> Band<Span> {
    let sum = |of: fn(&Band<Span>) -> Span| raises.iter().map(of).fold(Span::NONE, Span::plus);
    Band {
        low: sum(|band| band.low),
        likely: sum(|band| band.likely),
        high: sum(|band| band.high),
    }
}
