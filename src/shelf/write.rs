//! Writing the shelf's file, such that reading it gives the same shelf.

use super::bath::{ShelvedBath, Weighed};
use super::kept::Shelf;
use super::lot::{Lot, state_text};
use super::supply::{Stock, Supply};
use crate::recipe::model::Form;

const HEAD: &str = "\
# The shelf: lots of goods, supplies, finished baths. Potside writes this file whole, so comments don't stay;
# a note does. What may be changed by hand: the page on the shelf's format. Check it with `potside check`.
format = 1
";

/// The file of a shelf.
#[must_use]
pub fn write(shelf: &Shelf) -> String {
    let mut page = String::from(HEAD);
    page.push_str(&format!("last_lot = {}\n", shelf.last_lot));
    page.push_str(&format!("last_supply = {}\n", shelf.last_supply));
    if !shelf.passed_over.is_empty() {
        list(&mut page, "passed_over", shelf.passed_over.iter());
    }
    for lot in shelf.lots() {
        write_lot(&mut page, lot);
    }
    for supply in shelf.supplies() {
        write_supply(&mut page, supply);
    }
    for bath in shelf.baths() {
        write_bath(&mut page, bath);
    }
    page
}

fn write_lot(page: &mut String, lot: &Lot) {
    page.push_str("\n[[lot]]\n");
    text(page, "id", &lot.id.to_string());
    text(page, "name", &lot.name);
    text(page, "fibre", lot.fibre.id());
    page.push_str(&format!("hanks = {}\n", lot.hanks));
    text(page, "came", lot.came.id());
    page.push_str(&format!("since = {}\n", lot.since));
    if !lot.from.is_empty() {
        list(page, "from", lot.from.iter().map(ToString::to_string));
    }
    page.push_str("weighed = [\n");
    for weighing in &lot.weighings {
        page.push_str(&format!(
            "    {{ on = {}, weight = {}, state = {} }},\n",
            weighing.on,
            quoted(&weighing.weight.to_string()),
            quoted(&state_text(weighing.state))
        ));
    }
    page.push_str("]\n");
    if !lot.baths.is_empty() {
        list(page, "baths", lot.baths.iter());
    }
    if let Some(gone) = lot.gone {
        page.push_str(&format!("gone = {gone}\n"));
    }
    if let Some(note) = &lot.note {
        text(page, "note", note);
    }
}

fn write_supply(page: &mut String, supply: &Supply) {
    page.push_str("\n[[supply]]\n");
    text(page, "id", &supply.id.to_string());
    match &supply.stock {
        Stock::Salt(substance) => text(page, "substance", substance.id()),
        Stock::Labelled(label) => text(page, "label", &label.to_string()),
        Stock::Dyestuff { id, form } => {
            text(page, "dyestuff", id);
            text(page, "form", form.id());
        }
    }
    text(page, "name", &supply.name);
    text(page, "left", &supply.left.to_string());
    if let Some(low) = supply.low {
        text(page, "low", &low.to_string());
    }
    if let Some(note) = &supply.note {
        text(page, "note", note);
    }
}

fn write_bath(page: &mut String, bath: &ShelvedBath) {
    page.push_str("\n[[bath]]\n");
    text(page, "id", &bath.id);
    if let Some(lot) = bath.lot {
        text(page, "lot", &lot.to_string());
    }
    text(page, "kind", bath.kind.id());
    text(page, "recipe", &bath.recipe);
    text(page, "name", &bath.name);
    page.push_str(&format!("on = {}\n", bath.on));
    if !bath.is_whole {
        page.push_str("stopped = true\n");
    }
    page.push_str(&format!("pot = {}\n", bath.pot));
    text(page, "pot_metal", bath.metal.id());
    if !bath.weighed.is_empty() {
        page.push_str("weighed = [\n");
        for weighed in &bath.weighed {
            page.push_str(&format!("    {},\n", ware(weighed)));
        }
        page.push_str("]\n");
    }
}

fn ware(weighed: &Weighed) -> String {
    let form = weighed.form.map_or_else(String::new, |form: Form| {
        format!("form = {}, ", quoted(form.id()))
    });
    let draws: Vec<String> = weighed
        .drawn
        .iter()
        .map(|draw| {
            format!(
                "{{ from = {}, weight = {} }}",
                quoted(&draw.from.to_string()),
                quoted(&draw.weight.to_string())
            )
        })
        .collect();
    let drawn = if draws.is_empty() {
        String::new()
    } else {
        format!(", drawn = [{}]", draws.join(", "))
    };
    format!(
        "{{ letter = {}, ware = {}, name = {}, {form}weight = {}{drawn} }}",
        quoted(&weighed.letter.to_string()),
        quoted(&weighed.ware),
        quoted(&weighed.name),
        quoted(&weighed.weight.to_string())
    )
}

fn text(page: &mut String, key: &str, value: &str) {
    page.push_str(&format!("{key} = {}\n", quoted(value)));
}

fn list(page: &mut String, key: &str, values: impl Iterator<Item = impl AsRef<str>>) {
    let quoted: Vec<String> = values.map(|value| quoted(value.as_ref())).collect();
    page.push_str(&format!("{key} = [{}]\n", quoted.join(", ")));
}

/// A basic string. Nothing hidden is ever kept, so that only the two marks need a backslash.
fn quoted(value: &str) -> String {
    format!("\"{}\"", value.replace('\\', "\\\\").replace('"', "\\\""))
}
