//! `potside pot`: the heat of a pot alone, for a dyer getting to know it.

use serde_json::{Map, Value, json};

use crate::craft::boil;
use crate::craft::heat::{self, Kettle, PotKnowledge};
use crate::craft::quantity::{Band, Temperature, Volume};
use crate::craft::time::Span;
use crate::craft::vessel::Place;
use crate::craft::water;
use crate::sheet::COOL_MARKS;
use crate::shell::cli::PotArgs;
use crate::shell::exit::Exit;
use crate::shell::terminal::{complain, say};
use crate::view::words;

/// A cool-down is told from here, or from the boil if that is lower.
const COOLING_FROM_C: f64 = 93.0;

/// Prints come-up, cool-down, evaporation, hold power and boil.
pub(in crate::shell) fn pot(args: &PotArgs) -> Exit {
    let three_quarters = Volume::saturating_litres(args.pot.capacity.litres() * 0.75);
    let filled = args.water.unwrap_or(three_quarters);
    if filled > args.pot.capacity {
        complain(&format!(
            "{} of water don't go into a pot of {}",
            words::litres(filled),
            words::litres(args.pot.capacity)
        ));
        return Exit::Misused;
    }
    let told = Told::of(args, filled);
    if args.json {
        say(&format!("{:#}", told.json()));
    } else {
        say(&told.text());
    }
    Exit::Well
}

struct Told {
    boil: Temperature,
    from: Temperature,
    to: Temperature,
    hold: Temperature,
    come_up: Option<Band<Option<Span>>>,
    cooling_from: Temperature,
    cool: Vec<Band<Option<Span>>>,
    evaporation: heat::Evaporation,
    hold_power_w: f64,
}

impl Told {
    fn of(args: &PotArgs, filled: Volume) -> Self {
        let place = args
            .station
            .map_or(Place::Altitude(args.altitude), Place::Station);
        let boil = boil::boiling_point(place);
        let unknown = PotKnowledge::unknown(args.burner.kind);
        let knowledge = args
            .efficiency
            .map_or(unknown, |efficiency| unknown.with_fixed_efficiency(efficiency));
        let kettle = Kettle {
            pot: args.pot,
            burner: args.burner,
            lid: args.lid,
            room: args.room,
            boil,
            water: water::mass_of(filled, args.from),
            goods: None,
            knowledge,
        };
        let come_up = heat::come_up(&kettle, args.from, args.to, None).time;
        let cooling_from = Temperature::saturating_celsius(COOLING_FROM_C).least(boil);
        let marks = COOL_MARKS.map(Temperature::saturating_celsius);
        let hold = args.hold.least(boil);
        Self {
            boil,
            from: args.from,
            to: args.to,
            hold,
            come_up: come_up.likely.map(|_| come_up),
            cooling_from,
            cool: heat::cool_down(&kettle, cooling_from, &marks),
            evaporation: heat::evaporation(&kettle, hold),
            hold_power_w: heat::hold_power(&kettle, hold).watts(),
        }
    }

    fn json(&self) -> Value {
        let cool = COOL_MARKS.iter().zip(&self.cool);
        json!({
            "boil_c": self.boil.celsius(),
            "from_c": self.from.celsius(),
            "to_c": self.to.celsius(),
            "come_up_min": self.come_up.map(minutes),
            "cooling_from_c": self.cooling_from.celsius(),
            "cool_min": cool
                .map(|(mark, band)| (format!("{mark:.0}"), band.likely.map_or(Value::Null, |_| minutes(*band))))
                .collect::<Map<_, _>>(),
            "hold_c": self.hold.celsius(),
            "evaporation_g_per_min": {"still": self.evaporation.still, "stirred": self.evaporation.stirred},
            "hold_power_w": self.hold_power_w,
        })
    }

    fn text(&self) -> String {
        let mut text = format!("water boils here at {}\n", words::celsius_fine(self.boil));
        let come_up = self.come_up.map_or_else(
            || "never: the pot loses as much as it gets; a lid, less water or more power would do".to_owned(),
            shown,
        );
        let (from, to) = (words::celsius(self.from), words::celsius(self.to));
        text.push_str(&format!("come-up from {from} to {to}: {come_up}\n"));
        for (mark, band) in COOL_MARKS.iter().zip(&self.cool) {
            let from = words::celsius(self.cooling_from);
            text.push_str(&format!(
                "cool-down from {from} to {mark:.0} \u{b0}C: {}\n",
                shown(*band)
            ));
        }
        let hold = words::celsius(self.hold);
        let (still, stirred) = (self.evaporation.still, self.evaporation.stirred);
        text.push_str(&format!(
            "evaporation at {hold}: {still:.1} g/min, stirred without pause {stirred:.1} g/min\n"
        ));
        text.push_str(&format!(
            "power to hold {hold}, net: {:.0} W\n",
            self.hold_power_w
        ));
        text
    }
}

fn minutes(band: Band<Option<Span>>) -> Value {
    json!({
        "low": band.low.map(Span::minutes),
        "likely": band.likely.map(Span::minutes),
        "high": band.high.map(Span::minutes),
    })
}

fn shown(band: Band<Option<Span>>) -> String {
    match (band.low, band.likely, band.high) {
        (Some(low), Some(likely), Some(high)) => {
            format!(
                "{}, likely {}",
                words::band(Band { low, likely, high }),
                words::span(likely)
            )
        }
        (Some(low), Some(likely), None) => {
            format!(
                "{} or longer, likely {}; it may never get there",
                words::span(low),
                words::span(likely)
            )
        }
        (_, _, _) => "never".to_owned(),
    }
}
