//! The heat balance against tables made by an independent, much longer model, against measured pots, and against itself.

use potside::craft::fibre::Fibre;
use potside::craft::heat::integrate::{Fineness, Stop, run};
use potside::craft::heat::{
    GoodsLoad, Kettle, LidSeen, LogNormal, PotKnowledge, Reach, WhyNever, bath_temperature_after, come_up,
    cool_down, drift, entering, evaporation, hold_power, hold_setting, ledger_of_come_up, ledger_of_cooling,
};
use potside::craft::quantity::{Band, Length, Mass, Power, Ramp, Temperature, Volume};
use potside::craft::time::Span;
use potside::craft::vessel::{Burner, BurnerKind, Lid, Pot, PotMetal};
use proptest::prelude::*;

/// The rows of a table, heads and remarks left out.
pub(crate) fn rows(table: &str) -> Vec<Vec<String>> {
    let body: Vec<&str> = table.lines().filter(|line| !line.starts_with('#')).collect();
    csv::ReaderBuilder::new()
        .from_reader(body.join("\n").as_bytes())
        .records()
        .map(|row| row.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

pub(crate) fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value).unwrap()
}

/// The pots of the tables: assumed shapes, steel with an aluminium disc, three quarters full at 20 C.
pub(crate) fn table_kettle(pot: &str, lid: Lid, room: f64) -> Kettle {
    let (litres, across, water) = match pot {
        "5L" => (std::f64::consts::PI * 1.6, 20.0, 3_743.0),
        "12L" => (std::f64::consts::PI * 1.69 * 2.3, 26.0, 8_982.0),
        "20L" => (std::f64::consts::PI * 2.25 * 2.85, 30.0, 14_970.0),
        "40L" => (std::f64::consts::PI * 3.61 * 3.55, 38.0, 29_940.0),
        other => panic!("no pot {other}"),
    };
    Kettle {
        pot: Pot {
            capacity: Volume::from_litres(litres).unwrap(),
            diameter: Length::from_centimetres(across).unwrap(),
            metal: PotMetal::Stainless,
        },
        burner: Burner {
            kind: BurnerKind::Induction,
            power: Power::from_watts(2_000.0).unwrap(),
        },
        lid,
        room: celsius(room),
        boil: celsius(99.974),
        water: Mass::from_grams(water).unwrap(),
        goods: None,
        knowledge: PotKnowledge::unknown(BurnerKind::Induction),
    }
}

pub(crate) fn lid(word: &str) -> Lid {
    match word {
        "off" => Lid::Off,
        "on_loose" => Lid::Loose,
        "on_tight" => Lid::Tight,
        other => panic!("no lid {other}"),
    }
}

/// Asserts the spread of ratios got / wanted and prints the worst.
fn hold_to(what: &str, ratios: &mut [(f64, String)], worst_most: f64, median_most: f64) {
    ratios.sort_by(|a, b| (a.0 - 1.0).abs().total_cmp(&(b.0 - 1.0).abs()));
    let (median, _) = ratios[ratios.len() / 2];
    let (worst, row) = ratios.last().unwrap();
    println!(
        "{what}: {} rows, median ratio {median:.3}, worst {worst:.3} at {row}",
        ratios.len()
    );
    assert!(
        (worst - 1.0).abs() <= worst_most,
        "{what}: ratio {worst} at {row}"
    );
    assert!(
        (median - 1.0).abs() <= median_most,
        "{what}: median ratio {median}"
    );
}

#[test]
fn losses_by_part_agree_with_the_table() {
    let mut ratios = Vec::new();
    for row in rows(include_str!("../tables/loss_breakdown_20C.csv")) {
        let kettle = table_kettle(&row[0], lid(&row[1]), row[2].parse().unwrap());
        let at = celsius(row[3].parse().unwrap());
        let want: f64 = row[5].parse::<f64>().unwrap() + row[6].parse::<f64>().unwrap();
        ratios.push((hold_power(&kettle, at).watts() / want, format!("{row:?}")));
    }
    hold_to("losses", &mut ratios, 0.15, 0.05);
}

#[test]
fn cooling_times_agree_with_the_table() {
    let mut ratios = Vec::new();
    for row in rows(include_str!("../tables/cooling_times.csv")) {
        let kettle = table_kettle(&row[0], lid(&row[1]), row[2].parse().unwrap());
        let targets = [60.0, 50.0, 43.0, 40.0, 30.0].map(celsius);
        let bands = cool_down(&kettle, celsius(93.0), &targets);
        for ((band, target), want) in bands.iter().zip(targets).zip(&row[3..8]) {
            let got = band.likely.map(Span::minutes);
            let asymptote = row[1] == "on_tight" && target <= kettle.room;
            match (got, want.parse::<f64>().ok()) {
                // Under a tight lid the room's temperature is only approached; what a code calls arrival is its rounding.
                (got, _) if asymptote => assert_eq!(got, None, "{row:?}"),
                (Some(got), Some(want)) => ratios.push((got / want, format!("{row:?} {want}"))),
                (got, want) => panic!("{row:?}: {got:?}, not {want:?}"),
            }
        }
    }
    hold_to("cooling", &mut ratios, 0.15, 0.05);
}

/// The tables' efficiencies taken as given; their losses run at 15 C. Blank means more than six hours.
#[test]
fn heat_up_times_agree_with_the_table() {
    let mut ratios = Vec::new();
    let mut barely_count = 0;
    for row in rows(include_str!("../tables/heat_up_times.csv")) {
        let mut kettle = table_kettle(&row[0], lid(&row[1]), 15.0);
        kettle.burner.power = Power::from_watts(row[4].parse::<f64>().unwrap() * 1_000.0).unwrap();
        kettle.knowledge = kettle.knowledge.with_fixed_efficiency(row[3].parse().unwrap());
        let up = come_up(&kettle, celsius(15.0), celsius(90.0), None);
        match (up.time.likely, row[7].parse::<f64>().ok()) {
            // Where the pot barely gets there, one percent of the losses is half an hour: such a row is met when losses
            // five percent either way lie on both sides of it.
            (got, Some(want)) if barely(&kettle, got.map(Span::minutes)) => {
                let [less, more] = [0.95, 1.05].map(|part| minutes_with_losses(&kettle, part));
                assert!(
                    less.is_some_and(|less| less < want),
                    "{row:?}: {less:?} with less loss"
                );
                assert!(
                    more.is_none_or(|more| more > want),
                    "{row:?}: {more:?} with more loss"
                );
                barely_count += 1;
            }
            (Some(got), Some(want)) => ratios.push((got.minutes() / want, format!("{row:?}"))),
            (None, None) => {
                let never = up.never.expect("what never gets there says why");
                assert!(
                    never.ways.lid.is_some() || never.ways.water.is_some() || never.ways.power.is_some(),
                    "{row:?}: no way out"
                );
            }
            (got, want) => panic!("{row:?}: {got:?}, not {want:?}"),
        }
    }
    hold_to("come-up", &mut ratios, 0.15, 0.05);
    assert!(barely_count <= 8, "{barely_count} rows of barely");
}

/// Ten percent of time or more hangs on two percent of the losses.
fn barely(kettle: &Kettle, got: Option<f64>) -> bool {
    let less = minutes_with_losses(kettle, 0.98);
    match (less, got) {
        (Some(less), Some(got)) => got / less > 1.10,
        (Some(_), None) => true,
        (None, _) => minutes_with_losses(kettle, 0.95).is_some(),
    }
}

fn minutes_with_losses(kettle: &Kettle, part: f64) -> Option<f64> {
    let mut other = *kettle;
    other.knowledge.loss = LogNormal::exactly(part);
    come_up(&other, celsius(15.0), celsius(90.0), None)
        .time
        .likely
        .map(Span::minutes)
}

#[test]
fn evaporation_and_holding_power_agree_with_the_table() {
    let (mut still, mut stirred, mut hold) = (Vec::new(), Vec::new(), Vec::new());
    for row in rows(include_str!("../tables/evaporation.csv")) {
        let at = celsius(row[1].parse().unwrap());
        let open = table_kettle(&row[0], Lid::Off, 20.0);
        let got = evaporation(&open, at);
        let ratio = |got: f64, column: usize| (got / row[column].parse::<f64>().unwrap(), format!("{row:?}"));
        still.push(ratio(got.still, 2));
        stirred.push(ratio(got.stirred, 3));
        hold.push(ratio(hold_power(&open, at).watts(), 9));
        hold.push(ratio(
            hold_power(&table_kettle(&row[0], Lid::Tight, 20.0), at).watts(),
            10,
        ));
    }
    hold_to("still evaporation", &mut still, 0.15, 0.05);
    hold_to("stirred evaporation", &mut stirred, 0.15, 0.05);
    hold_to("holding power", &mut hold, 0.15, 0.05);
}

/// Published coolings of real pots, lid off, within 30 %.
#[test]
fn measured_pots_cool_as_published() {
    let mut ratios = Vec::new();
    for row in rows(include_str!("../tables/measured_pots.csv")) {
        let published: f64 = row[2].parse().unwrap();
        if row[0].starts_with("Hosom") {
            // Such as "12L min 98->70".
            let (pot, span) = row[1].split_once(" min ").unwrap();
            let (from, to) = span.split_once("->").unwrap();
            let kettle = table_kettle(pot, Lid::Off, 20.0);
            let [band] = cool_down(
                &kettle,
                celsius(from.parse().unwrap()),
                &[celsius(to.parse().unwrap())],
            )[..] else {
                panic!("one target, one band");
            };
            ratios.push((band.likely.unwrap().minutes() / published, format!("{row:?}")));
        }
        if row[0].starts_with("open 8 gal") {
            let room: f64 = row[1]
                .split_once("room ")
                .unwrap()
                .1
                .trim_end_matches(" C")
                .parse()
                .unwrap();
            let mut kettle = table_kettle("20L", Lid::Off, room);
            kettle.pot.capacity = Volume::from_litres(30.28).unwrap();
            kettle.pot.diameter = Length::from_centimetres(31.75).unwrap();
            kettle.water = Mass::from_grams(20_760.0).unwrap();
            let hours = cool_down(&kettle, celsius(98.0), &[celsius(20.0)])[0]
                .likely
                .unwrap()
                .minutes()
                / 60.0;
            ratios.push((
                ((98.0 - room) / (20.0 - room)).ln() / hours / published,
                format!("{row:?}"),
            ));
        }
    }
    assert_eq!(ratios.len(), 19);
    hold_to("measured pots", &mut ratios, 0.30, 0.15);
}

/// Engineering tables of open tanks, within 30 %; the largest of our pots stands for a tank. The open-tank table calls itself
/// rough and is left out above 90 C, where it stays a third below every film model.
#[test]
fn open_tanks_steam_as_published() {
    let mut ratios = Vec::new();
    for row in rows(include_str!("../tables/measured_pots.csv")) {
        if !row[1].contains("evaporative") || row[1].starts_with("93") || row[1].starts_with("98") {
            continue;
        }
        let first: f64 = row[1].split_once(" C").unwrap().0.parse().unwrap();
        let air = row[1]
            .split_once("water, ")
            .map_or(15.6, |(_, air)| air.split_once(" C").unwrap().0.parse().unwrap());
        let mut kettle = table_kettle("40L", Lid::Off, air);
        kettle.pot.capacity = Volume::from_litres(100.0).unwrap();
        kettle.pot.diameter = Length::from_centimetres(60.0).unwrap();
        let at = celsius(first);
        // The tip sheet's air is dry, ours half damp: rows where that damp is a tenth of the drive say nothing of us.
        let vapour = potside::craft::water::vapour_kilopascals;
        if 0.5 * vapour(celsius(air)) > 0.1 * vapour(at) {
            continue;
        }
        let area = std::f64::consts::PI * 0.09;
        let watts =
            evaporation(&kettle, at).still / 60.0 * potside::craft::water::evaporation_heat(at) / area;
        ratios.push((watts / row[2].parse::<f64>().unwrap(), format!("{row:?}")));
    }
    assert!(ratios.len() >= 20, "{}", ratios.len());
    hold_to("open tanks", &mut ratios, 0.30, 0.15);
}

/// Heat put in less heat lost is heat kept, to a thousandth: IAPWS-95 enthalpy of water from 15 to 90 C is 313.987 kJ/kg
/// (`tests/tables/water_enthalpy_rise.csv`).
#[test]
fn energy_is_conserved() {
    for pot in ["5L", "12L", "20L", "40L"] {
        let kettle = table_kettle(pot, Lid::Tight, 15.0);
        let ledger = ledger_of_come_up(&kettle, celsius(15.0), celsius(90.0), None, 1.0);
        let kept = ledger.water.grams() * 313.987 + ledger.dry_heat_capacity * 75.0;
        assert!(
            ((ledger.put_in - ledger.lost) / kept - 1.0).abs() < 1e-3,
            "{pot}: {ledger:?} kept {kept}"
        );
        let ramp = Ramp::from_kelvin_per_minute(0.7).unwrap();
        let ledger = ledger_of_come_up(&kettle, celsius(15.0), celsius(90.0), Some(ramp), 1.0);
        assert!(
            ((ledger.put_in - ledger.lost) / kept - 1.0).abs() < 1e-3,
            "{pot}: {ledger:?} kept {kept}"
        );
    }
}

/// With the steam leaving: the water of a cooling is weighed anew every 5 K.
#[test]
fn energy_is_conserved_while_the_bath_steams() {
    let mut kettle = table_kettle("12L", Lid::Off, 20.0);
    let whole = ledger_of_cooling(&kettle, celsius(95.0), celsius(40.0), 1.0);
    let mut kept = 0.0;
    let mut steam = 0.0;
    for step in 0..11 {
        let from = 95.0 - 5.0 * f64::from(step);
        let part = ledger_of_cooling(&kettle, celsius(from), celsius(from - 5.0), 1.0);
        let mean_g = part.water.grams() - part.steam.grams() / 2.0;
        kept += (mean_g * potside::craft::water::specific_heat(celsius(from - 2.5)) + part.dry_heat_capacity)
            * 5.0;
        steam += part.steam.grams();
        kettle.water = Mass::from_grams(part.water.grams() - part.steam.grams()).unwrap();
    }
    assert!((whole.lost / kept - 1.0).abs() < 2e-3, "{whole:?} kept {kept}");
    // The parts start from a pot with a lower line: the wall loses a little less.
    assert!(
        (whole.steam.grams() / steam - 1.0).abs() < 1e-2,
        "{whole:?} steam {steam}"
    );
    // 527 g by the longer model from 93 C; from 95 C some 3 % more.
    assert!((500.0..600.0).contains(&steam), "{steam}");
}

#[test]
fn finer_steps_change_no_time_by_a_thousandth() {
    for cover in [Lid::Off, Lid::Loose, Lid::Tight] {
        let mut kettle = table_kettle("20L", cover, 20.0);
        for watts in [1_500.0, 2_500.0] {
            kettle.burner.power = Power::from_watts(watts).unwrap();
            let [usual, half, fine] = [1.0, 2.0, 1_000.0].map(|fineness| {
                ledger_of_come_up(&kettle, celsius(15.0), celsius(90.0), None, fineness)
                    .took
                    .unwrap()
                    .minutes()
            });
            assert!(
                (usual / half - 1.0).abs() < 1e-3 && (usual / fine - 1.0).abs() < 1e-3,
                "{usual} {half} {fine}"
            );
        }
        for target in [85.0, 75.0, 60.0, 50.0, 43.0, 30.0] {
            let [usual, half, fine] = [1.0, 2.0, 1_000.0].map(|fineness| {
                ledger_of_cooling(&kettle, celsius(90.0), celsius(target), fineness)
                    .took
                    .unwrap()
                    .minutes()
            });
            println!("{cover:?} {target} {usual:.3} {half:.3} {fine:.3}");
            assert!(
                (usual / half - 1.0).abs() < 1e-3 && (usual / fine - 1.0).abs() < 1e-3,
                "{target}: {usual} {half} {fine}"
            );
        }
    }
}

/// Newton's cooling has a closed solution: from 100 to 20 above the room with a time constant of 3000 s takes 3000 ln 5.
#[test]
fn the_integrator_meets_the_closed_solution_and_its_event() {
    let fineness = Fineness {
        error_most: [1e-3],
        step_first: 10.0,
        step_longest: 1e5,
    };
    let end = run(
        [100.0],
        1e6,
        &fineness,
        |[above]| [-above / 3_000.0],
        |[above]| 20.0 - above,
    );
    assert_eq!(end.stop, Stop::Event);
    assert!((end.time / (3_000.0 * 5f64.ln()) - 1.0).abs() < 1e-4, "{end:?}");
    let end = run(
        [100.0],
        3_000.0,
        &fineness,
        |[above]| [-above / 3_000.0],
        |_| -1.0,
    );
    assert_eq!(
        (end.stop, end.time.to_bits()),
        (Stop::Horizon, 3_000f64.to_bits())
    );
    assert!(
        (end.state[0] / (100.0 / std::f64::consts::E) - 1.0).abs() < 1e-4,
        "{end:?}"
    );
}

/// 20 L pot, 15 L at 90 C, 1 kg of wool with 2 kg of water at 15 C. By hand, with the pot's 2.2 kJ/K left in:
/// (15 * 4.205 + 2.18) * 90 + (2 * 4.188 + 1.36) * 15 over 65.26 + 9.74 = 80.3 C.
#[test]
fn cold_wet_goods_drop_the_bath_as_the_mixing_rule_says() {
    let kettle = table_kettle("20L", Lid::Loose, 20.0);
    let wet = GoodsLoad {
        fibre: Fibre::Wool,
        dry: Mass::from_grams(1_000.0).unwrap(),
        carried_water: Mass::from_grams(2_000.0).unwrap(),
    };
    let entered = entering(&kettle, celsius(90.0), &wet, celsius(15.0));
    assert!((entered.drops_to.celsius() - 80.3).abs() < 0.15, "{entered:?}");
    let minutes = entered.recovery.likely.unwrap().minutes();
    // 75 kJ/K over 9.7 K at 1680 W less some 240 W.
    assert!((7.0..10.0).contains(&minutes), "{minutes}");

    // Dry goods at the bath's own temperature: only the heat of wetting, 113 J/g, is left; 1.7 K in 15 L.
    let dry = GoodsLoad {
        carried_water: Mass::from_grams(0.0).unwrap(),
        ..wet
    };
    let entered = entering(&kettle, celsius(40.0), &dry, celsius(40.0));
    assert!((entered.drops_to.celsius() - 41.7).abs() < 0.1, "{entered:?}");
}

#[test]
fn a_ramp_is_kept_and_its_setting_keeps_it() {
    let mut kettle = table_kettle("20L", Lid::Loose, 20.0);
    kettle.burner.power = Power::from_watts(3_500.0).unwrap();
    let ramp = Ramp::from_kelvin_per_minute(1.0).unwrap();
    let up = come_up(&kettle, celsius(20.0), celsius(85.0), Some(ramp));
    assert!((up.time.likely.unwrap().minutes() - 65.0).abs() < 0.1, "{up:?}");
    let setting = up.setting.unwrap();
    let [start, end] =
        [(20.0, setting.start), (85.0, setting.end)].map(|(at, part)| drift(&kettle, celsius(at), part));
    assert!(
        (start - 1.0).abs() < 0.01 && (end - 1.0).abs() < 0.01,
        "{start} {end}"
    );
    let full = come_up(&kettle, celsius(20.0), celsius(85.0), None);
    assert!(full.time.likely < up.time.likely && full.setting.is_none());
}

/// Fermi check of the longer model: 2 kW gas at 32 % never brings an open 20 L pot to 90 C; a lid does.
#[test]
fn what_never_gets_there_says_what_would_do() {
    let mut kettle = table_kettle("20L", Lid::Off, 15.0);
    kettle.burner = Burner {
        kind: BurnerKind::Gas,
        power: Power::from_watts(2_000.0).unwrap(),
    };
    kettle.knowledge = PotKnowledge::unknown(BurnerKind::Gas);
    let up = come_up(&kettle, celsius(15.0), celsius(90.0), None);
    assert_eq!((up.reach, up.time.likely), (Reach::Never, None));
    let never = up.never.unwrap();
    let WhyNever::LevelsOff { at } = never.why else {
        panic!("{never:?}")
    };
    // 640 W is what this pot loses at about 83 C.
    assert!((at.celsius() - 82.8).abs() < 1.0, "{never:?}");
    assert_eq!(never.ways.lid, Some(Lid::Loose));

    let with = |change: &dyn Fn(&mut Kettle)| {
        let mut other = kettle;
        change(&mut other);
        come_up(&other, celsius(15.0), celsius(90.0), None)
            .time
            .likely
            .is_some()
    };
    let power = never.ways.power.unwrap();
    assert!(with(&|kettle| kettle.burner.power = power));
    assert!(!with(
        &|kettle| kettle.burner.power = Power::from_watts(power.watts() * 0.97).unwrap()
    ));
    assert!(with(&|kettle| kettle.lid = Lid::Loose));

    kettle.boil = celsius(88.0);
    let above = come_up(&kettle, celsius(15.0), celsius(90.0), None);
    assert!(
        matches!(above.never.unwrap().why, WhyNever::AboveBoil { .. }),
        "{above:?}"
    );
}

/// Thin air takes vapour more easily: its diffusivity goes with 1/p, and the bath is nearer its boil. No measured pot at
/// height was found; by the correlations the loss at 85 C rises by a fifth or so from 0 to 2000 m, and must not fall.
#[test]
fn an_open_pot_loses_more_up_a_mountain() {
    let mut kettle = table_kettle("20L", Lid::Off, 20.0);
    let low = hold_power(&kettle, celsius(85.0)).watts();
    kettle.boil = celsius(93.317);
    let high = hold_power(&kettle, celsius(85.0)).watts();
    assert!((1.02..1.45).contains(&(high / low)), "{}", high / low);
}

#[test]
fn a_pot_left_with_its_lid_unknown_is_somewhere_between_open_and_tight() {
    let kettle = table_kettle("20L", Lid::Loose, 20.0);
    let six_hours = Span::from_minutes(360);
    let known = bath_temperature_after(&kettle, celsius(90.0), six_hours, LidSeen::AsStated);
    let unknown = bath_temperature_after(&kettle, celsius(90.0), six_hours, LidSeen::NotKnown);
    assert!(
        unknown.low < known.low && known.likely < known.high && known.high < unknown.high,
        "{unknown:?} {known:?}"
    );
    let none = bath_temperature_after(&kettle, celsius(90.0), Span::NONE, LidSeen::AsStated);
    assert!((none.likely.celsius() - 90.0).abs() < 1e-9, "{none:?}");
}

fn any_kettle() -> impl Strategy<Value = Kettle> {
    let pot = (0.0..=10_000.0, 0.0..=1_000.0, 0usize..6);
    let stove = (0usize..4, 0.0..=100_000.0, 0usize..3);
    let air = (-30.0..=130.0, -30.0..=130.0);
    let bath = (
        0.0..=1_000_000.0,
        proptest::option::of((0usize..9, 0.0..=1_000_000.0, 0.0..=1_000_000.0)),
    );
    (pot, stove, air, bath, kitchen_or_not()).prop_map(|(pot, stove, air, bath, small)| {
        // Half of the kettles are of a size a kitchen knows, the others of any size that can be typed.
        let scale = |value: f64, kitchen: f64| if small { value * kitchen } else { value };
        let goods = bath.1.map(|(fibre, dry, carried)| GoodsLoad {
            fibre: Fibre::ALL[fibre],
            dry: Mass::from_grams(scale(dry, 0.002)).unwrap(),
            carried_water: Mass::from_grams(scale(carried, 0.005)).unwrap(),
        });
        let kind = [
            BurnerKind::Induction,
            BurnerKind::Ceramic,
            BurnerKind::Coil,
            BurnerKind::Gas,
        ][stove.0];
        Kettle {
            pot: Pot {
                capacity: Volume::from_litres(scale(pot.0, 0.005)).unwrap(),
                diameter: Length::from_centimetres(scale(pot.1, 0.05)).unwrap(),
                metal: [
                    PotMetal::Stainless,
                    PotMetal::Enamel,
                    PotMetal::Aluminium,
                    PotMetal::Copper,
                    PotMetal::Iron,
                    PotMetal::Glass,
                ][pot.2],
            },
            burner: Burner {
                kind,
                power: Power::from_watts(scale(stove.1, 0.05)).unwrap(),
            },
            lid: [Lid::Off, Lid::Loose, Lid::Tight][stove.2],
            room: celsius(air.0),
            boil: celsius(air.1),
            water: Mass::from_grams(scale(bath.0, 0.05)).unwrap(),
            goods,
            knowledge: PotKnowledge::unknown(kind),
        }
    })
}

fn kitchen_or_not() -> impl Strategy<Value = bool> {
    proptest::bool::ANY
}

/// A pot of a kitchen, three quarters full or less.
fn kitchen_kettle() -> impl Strategy<Value = Kettle> {
    (
        (4.0..45.0, 0.85..1.2, 0.4..0.75),
        (0usize..3, 10.0..30.0, 88.0..100.0),
        1_000.0..4_000.0,
    )
        .prop_map(|((litres, squat, fill), (cover, room, boil), watts)| {
            let mut kettle = table_kettle("5L", [Lid::Off, Lid::Loose, Lid::Tight][cover], room);
            let (litres, squat, fill, watts): (f64, f64, f64, f64) = (litres, squat, fill, watts);
            let across = 20.0 * (litres / 5.0).cbrt() * squat;
            kettle.pot.capacity = Volume::from_litres(litres).unwrap();
            kettle.pot.diameter = Length::from_centimetres(across).unwrap();
            kettle.boil = celsius(boil);
            kettle.water = Mass::from_grams(litres * fill * 1_000.0).unwrap();
            kettle.burner.power = Power::from_watts(watts).unwrap();
            kettle
        })
}

/// None is never, which is later than any time.
fn later(span: Option<Span>) -> f64 {
    span.map_or(f64::INFINITY, Span::minutes)
}

fn cooling(kettle: &Kettle) -> f64 {
    later(cool_down(kettle, celsius(85.0), &[celsius(45.0)])[0].likely)
}

fn warming(kettle: &Kettle) -> f64 {
    later(come_up(kettle, celsius(15.0), celsius(82.0), None).time.likely)
}

fn ordered(band: &Band<Option<Span>>) -> bool {
    later(band.low) <= later(band.likely) && later(band.likely) <= later(band.high)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn a_bigger_opening_a_colder_room_and_no_lid_cool_sooner(kettle in kitchen_kettle()) {
        let mut wider = kettle;
        wider.pot.diameter = Length::from_centimetres(kettle.pot.diameter.centimetres() * 1.15).unwrap();
        // Wider and just as high, so that the line falls but nothing runs over.
        wider.pot.capacity = Volume::from_litres(kettle.pot.capacity.litres() * 1.15 * 1.15).unwrap();
        if kettle.lid == Lid::Off {
            prop_assert!(cooling(&wider) < cooling(&kettle));
        }
        let colder = Kettle { room: celsius(kettle.room.celsius() - 5.0), ..kettle };
        prop_assert!(cooling(&colder) < cooling(&kettle));
        let [off, loose, tight] = [Lid::Off, Lid::Loose, Lid::Tight].map(|lid| cooling(&Kettle { lid, ..kettle }));
        prop_assert!(off < loose && loose < tight, "{off} {loose} {tight}");
    }

    #[test]
    fn more_power_and_a_lid_warm_sooner(kettle in kitchen_kettle()) {
        let mut stronger = kettle;
        stronger.burner.power = Power::from_watts(kettle.burner.power.watts() * 1.2).unwrap();
        let (weak, strong) = (warming(&kettle), warming(&stronger));
        prop_assert!(strong < weak || weak.is_infinite());
        let [off, loose, tight] = [Lid::Off, Lid::Loose, Lid::Tight].map(|lid| warming(&Kettle { lid, ..kettle }));
        // A lid is metal to be warmed too: seconds, where the losses are small beside the burner.
        prop_assert!(loose <= off * 1.01 && tight <= loose, "{off} {loose} {tight}");
    }

    #[test]
    fn nothing_that_can_be_typed_breaks_the_sums(
        kettle in any_kettle(),
        from in -30.0..=130.0,
        to in -30.0..=130.0,
        minutes in 0u64..100_000,
        ramp in proptest::option::of(0.05..=50.0),
    ) {
        let (from, to) = (celsius(from), celsius(to));
        let ramp = ramp.map(|ramp| Ramp::from_kelvin_per_minute(ramp).unwrap());
        let up = come_up(&kettle, from, to, ramp);
        prop_assert!(ordered(&up.time), "{up:?}");
        prop_assert_eq!(up.reach == Reach::Surely, up.never.is_none());
        if let Some(setting) = up.setting {
            prop_assert!((0.0..=1.0).contains(&setting.start) && (0.0..=1.0).contains(&setting.end));
        }
        for band in cool_down(&kettle, from, &[to, celsius(40.0)]) {
            prop_assert!(ordered(&band), "{band:?}");
        }
        let steam = evaporation(&kettle, from);
        prop_assert!(steam.still >= 0.0 && steam.stirred >= steam.still && steam.stirred.is_finite(), "{steam:?}");
        prop_assert!(hold_power(&kettle, from).watts().is_finite());
        prop_assert!(drift(&kettle, from, f64::NAN).is_finite());
        let setting = hold_setting(&kettle, from);
        prop_assert!(setting.low <= setting.likely && setting.likely <= setting.high && setting.high.is_finite());
        for lid in [LidSeen::AsStated, LidSeen::NotKnown] {
            let left = bath_temperature_after(&kettle, from, Span::from_minutes(minutes), lid);
            prop_assert!(left.low <= left.likely && left.likely <= left.high, "{left:?}");
        }
        if let Some(goods) = kettle.goods {
            let entered = entering(&Kettle { goods: None, ..kettle }, from, &goods, to);
            prop_assert!(ordered(&entered.recovery));
        }
    }
}
