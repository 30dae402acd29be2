//! Reading the shelf's file: text in, a shelf or all its faults out.

use std::collections::{BTreeMap, BTreeSet};

use super::acts::{HANKS_MOST, PARTS_MOST, WEIGHINGS_MOST};
use super::bath::{Draw, ShelvedBath, Weighed};
use super::kept::{BATHS_MOST, LOTS_MOST, PASSED_OVER_MOST, SUPPLIES_MOST, Shelf};
use super::lot::{Came, Lot, LotWeighing, state_of};
use super::page::{
    allow_only, bath_id, count, day, day_if_given, each, named, tell, weight, weight_if_given,
};
use super::supply::{Label, Stock, Supply, SupplyId};
use super::weight::Milligrams;
use super::words::NOTE_CHARACTERS_MOST;
use crate::craft::basis::basis;
use crate::craft::fibre::Fibre;
use crate::craft::lot::LotId;
use crate::craft::reading;
use crate::craft::vessel::PotMetal;
use crate::msg;
use crate::recipe::Faults;
use crate::recipe::fault::{Choice, Wrong};
use crate::recipe::hidden::shown;
use crate::recipe::model::{BathKind, Form, Letter};
use crate::recipe::never::never_offered;
use crate::recipe::raw::{NAME_CHARACTERS_MOST, Page, Table, kebab, tree, without_mark};

/// The file has at most this many bytes.
pub const FILE_BYTES_MOST: usize = 1024 * 1024;

/// One bath weighs in at most a letter's worth of wares.
const ADDITIONS_MOST: usize = 26;

/// Reads the shelf's file.
///
/// # Errors
/// All faults at once, in the order they stand in the file, each with line, column and remedy.
pub fn read(text: &str) -> Result<Shelf, Faults> {
    let text = without_mark(text);
    let mut page = Page::new(text);
    let shelf = read_text(&mut page, text);
    match (Faults::of(page.into_faults()), shelf) {
        (None, Some(shelf)) => Ok(shelf),
        (Some(faults), _) => Err(faults),
        (None, None) => Err(Faults::unexplained()),
    }
}

fn read_text(page: &mut Page<'_>, text: &str) -> Option<Shelf> {
    if text.len() > FILE_BYTES_MOST {
        let said = msg!(
            "the file has {bytes} bytes; a shelf has at most {most}",
            bytes = text.len(),
            most = FILE_BYTES_MOST
        );
        return tell(page, 0, said, msg!("take out lots and baths of years ago"));
    }
    let tree = tree(page, text, FILE_BYTES_MOST)?;
    let root = Table::root(tree.get_ref(), msg!("the shelf"));
    allow_only(
        page,
        root,
        &[
            "format",
            "last_lot",
            "last_supply",
            "passed_over",
            "lot",
            "supply",
            "bath",
        ],
    );
    let format = root.format(page);
    let passed_over = each(page, root, "passed_over", PASSED_OVER_MOST, bath_id);
    let baths = read_baths(page, root);
    let lots = read_lots(page, root, &baths.names);
    let supplies = read_supplies(page, root);
    let last_lot = last(
        page,
        root,
        "last_lot",
        LotId::NUMBER_MAX,
        highest(&lots.whole, LotId::number),
    );
    let last_supply = last(
        page,
        root,
        "last_supply",
        SupplyId::NUMBER_MAX,
        highest(&supplies.whole, SupplyId::number),
    );
    format?;
    Some(Shelf {
        passed_over: passed_over?.into_iter().map(|(id, _)| id).collect(),
        lots: lots.all()?,
        supplies: supplies.all()?,
        baths: baths.all()?,
        last_lot: last_lot?,
        last_supply: last_supply?,
    })
}

/// Tables of one kind: those without a fault, and whether that is all of them.
struct Read<T> {
    whole: T,
    is_all: bool,
}

impl<T> Read<T> {
    fn all(self) -> Option<T> {
        self.is_all.then_some(self.whole)
    }
}

/// The baths, and the ids of them all, those with a fault included, so that one fault isn't told twice.
struct ReadBaths {
    whole: Vec<ShelvedBath>,
    names: BTreeSet<String>,
    is_all: bool,
}

impl ReadBaths {
    fn all(self) -> Option<Vec<ShelvedBath>> {
        self.is_all.then_some(self.whole)
    }
}

fn highest<I: Copy, T>(there: &BTreeMap<I, T>, number: impl Fn(I) -> u32) -> u32 {
    there.keys().next_back().map_or(0, |id| number(*id))
}

/// The last number given; by default the highest there is.
fn last(page: &mut Page<'_>, root: Table<'_>, key: &'static str, most: u32, highest: u32) -> Option<u32> {
    if !root.has(key) {
        return Some(highest);
    }
    let last = match root.get(key).and_then(|value| value.get_ref().as_integer()) {
        Some(integer) if integer.as_str() == "0" => 0,
        _ => count(page, root, key, most)?,
    };
    if last < highest {
        return tell(
            page,
            root.place_of(key),
            msg!(
                "{key} is {last}, but number {highest} is there",
                key = key,
                last = last,
                highest = highest
            ),
            msg!(
                "write {key} = {highest}; a number is never given twice",
                key = key,
                highest = highest
            ),
        );
    }
    Some(last)
}

fn read_lots(page: &mut Page<'_>, root: Table<'_>, baths: &BTreeSet<String>) -> Read<BTreeMap<LotId, Lot>> {
    let mut whole = BTreeMap::new();
    let tables = root.tables(page, "lot", msg!("the lot"), LOTS_MOST);
    let mut is_all = true;
    let mut named_from = Vec::new();
    let mut known = BTreeSet::new();
    for table in tables {
        let id = named(page, table, "id", LotId::from_text);
        if let Some(id) = id
            && !known.insert(id)
        {
            is_all = tell(
                page,
                table.place_of("id"),
                msg!("a second lot {id}", id = id),
                msg!("give it a number that was never given"),
            )
            .unwrap_or(false);
        }
        match read_lot(page, table, id, baths, &mut named_from) {
            Some(lot) => drop(whole.insert(lot.id, lot)),
            None => is_all = false,
        }
    }
    for (lot, from, at) in named_from {
        if from >= lot {
            is_all = tell(
                page,
                at,
                msg!(
                    "{lot} is made of {from}, which is no earlier lot",
                    lot = lot,
                    from = from
                ),
                msg!("name lots with lower numbers"),
            )
            .unwrap_or(false);
        } else if !known.contains(&from) {
            is_all = tell(
                page,
                at,
                msg!(
                    "{lot} is made of {from}, which isn't in the file",
                    lot = lot,
                    from = from
                ),
                msg!("take it out of from, or put the lot back"),
            )
            .unwrap_or(false);
        }
    }
    Read { whole, is_all }
}

fn read_lot(
    page: &mut Page<'_>,
    table: Table<'_>,
    id: Option<LotId>,
    known_baths: &BTreeSet<String>,
    named_from: &mut Vec<(LotId, LotId, usize)>,
) -> Option<Lot> {
    allow_only(
        page,
        table,
        &[
            "id", "name", "fibre", "hanks", "came", "since", "from", "weighed", "baths", "gone", "note",
        ],
    );
    let name = table.text(page, "name", NAME_CHARACTERS_MOST);
    let fibres = Fibre::ALL.into_iter().map(Fibre::id);
    let fibre = table.choice(page, "fibre", Choice::Fibre, Fibre::from_id, fibres);
    let hanks = count(page, table, "hanks", HANKS_MOST);
    let came = named(page, table, "came", |text| {
        Came::from_id(text).ok_or_else(|| {
            msg!(
                "\"{word}\" is no way to come; write raw or scoured",
                word = shown(text)
            )
        })
    });
    let since = day(page, table, "since");
    let gone = day_if_given(page, table, "gone");
    let from = each(page, table, "from", PARTS_MOST, LotId::from_text);
    let weighings = read_weighings(page, table, fibre);
    let baths = each(page, table, "baths", BATHS_MOST, bath_id);
    let note = table.text_if_given(page, "note", NOTE_CHARACTERS_MOST);

    let id = id?;
    if let Some(from) = &from {
        named_from.extend(from.iter().map(|(from, at)| (id, *from, *at)));
    }
    let mut seen = BTreeSet::new();
    let mut are_known = true;
    for (bath, at) in baths.iter().flatten() {
        if !known_baths.contains(bath) {
            are_known = tell(
                page,
                *at,
                msg!(
                    "{lot} has been through {bath}, which isn't in the file",
                    lot = id,
                    bath = bath
                ),
                msg!("take it out of baths, or put the bath back"),
            )
            .unwrap_or(false);
        } else if !seen.insert(bath) {
            are_known = tell(
                page,
                *at,
                msg!("{bath} is listed twice", bath = bath),
                msg!("list it once"),
            )
            .unwrap_or(false);
        }
    }
    if table.has("note") && note.is_none() || !are_known {
        return None;
    }
    Some(Lot {
        id,
        name: name?.text.trim().to_owned(),
        fibre: fibre?,
        hanks: hanks?,
        came: came?,
        since: since?,
        from: from?.into_iter().map(|(from, _)| from).collect(),
        weighings: weighings?,
        baths: baths?.into_iter().map(|(bath, _)| bath).collect(),
        gone: gone?,
        note: note.map(|note| note.text.trim().to_owned()),
    })
}

fn read_weighings(page: &mut Page<'_>, lot: Table<'_>, fibre: Option<Fibre>) -> Option<Vec<LotWeighing>> {
    if !lot.has("weighed") {
        return lot.miss(page, "weighed");
    }
    let tables = lot.tables(page, "weighed", msg!("the weighing"), WEIGHINGS_MOST);
    if lot.is_empty_list("weighed") {
        return tell(
            page,
            lot.place_of("weighed"),
            msg!("the lot was never weighed"),
            msg!("write at least one weighing"),
        );
    }
    let count = tables.len();
    let mut whole = Vec::new();
    for table in tables {
        allow_only(page, table, &["on", "weight", "state"]);
        let on = day(page, table, "on");
        let weight = weight(page, table, "weight");
        let state = named(page, table, "state", state_of);
        let (Some(on), Some(weight), Some(state)) = (on, weight, state) else {
            continue;
        };
        if weight.is_none() {
            tell(
                page,
                table.place_of("weight"),
                msg!("the goods weigh nothing"),
                msg!("give their weight"),
            )
            .unwrap_or(());
            continue;
        }
        if let Some(fibre) = fibre
            && let Err(fault) = basis(fibre, weight.mass(), state)
        {
            tell(
                page,
                table.place_of("state"),
                fault.to_string(),
                msg!("write what is known of them"),
            )
            .unwrap_or(());
            continue;
        }
        whole.push(LotWeighing { on, weight, state });
    }
    (whole.len() == count && count > 0).then_some(whole)
}

fn read_supplies(page: &mut Page<'_>, root: Table<'_>) -> Read<BTreeMap<SupplyId, Supply>> {
    let mut whole = BTreeMap::new();
    let mut known = BTreeSet::new();
    let mut is_all = true;
    for table in root.tables(page, "supply", msg!("the supply"), SUPPLIES_MOST) {
        allow_only(
            page,
            table,
            &[
                "id",
                "substance",
                "label",
                "dyestuff",
                "form",
                "name",
                "left",
                "low",
                "note",
            ],
        );
        let id = named(page, table, "id", SupplyId::from_text);
        if let Some(id) = id
            && !known.insert(id)
        {
            is_all = tell(
                page,
                table.place_of("id"),
                msg!("a second supply {id}", id = id),
                msg!("give it a number that was never given"),
            )
            .unwrap_or(false);
        }
        match read_supply(page, table, id) {
            Some(supply) => drop(whole.insert(supply.id, supply)),
            None => is_all = false,
        }
    }
    Read { whole, is_all }
}

fn read_supply(page: &mut Page<'_>, table: Table<'_>, id: Option<SupplyId>) -> Option<Supply> {
    let stock = read_stock(page, table);
    let name = table.text(page, "name", NAME_CHARACTERS_MOST);
    let left = weight(page, table, "left");
    let low = weight_if_given(page, table, "low");
    let note = table.text_if_given(page, "note", NOTE_CHARACTERS_MOST);
    if table.has("note") && note.is_none() {
        return None;
    }
    Some(Supply {
        id: id?,
        stock: stock?,
        name: name?.text.trim().to_owned(),
        left: left?,
        low: low?,
        note: note.map(|note| note.text.trim().to_owned()),
    })
}

fn read_stock(page: &mut Page<'_>, table: Table<'_>) -> Option<Stock> {
    let given: Vec<&str> = ["substance", "label", "dyestuff"]
        .into_iter()
        .filter(|key| table.has(key))
        .collect();
    if table.has("form") && given != ["dyestuff"] {
        tell(
            page,
            table.place_of("form"),
            msg!("a salt has no form"),
            msg!("leave form out; it is for dyestuffs"),
        )
        .unwrap_or(());
    }
    match given.as_slice() {
        ["substance"] => named(page, table, "substance", reading::substance).map(Stock::Salt),
        ["label"] => named(page, table, "label", Label::from_text).map(Stock::Labelled),
        ["dyestuff"] => {
            let text = table.text(page, "dyestuff", NAME_CHARACTERS_MOST)?;
            let forms = Form::ALL.into_iter().map(Form::id);
            let form = table.choice(page, "form", Choice::Form, Form::from_id, forms);
            let id = kebab(page, "dyestuff", text)?;
            if let Some(never) = never_offered(id) {
                page.note(
                    text.at,
                    Wrong::NeverOffered {
                        word: id.to_owned(),
                        never,
                    },
                );
                return None;
            }
            Some(Stock::Dyestuff {
                id: id.to_owned(),
                form: form?,
            })
        }
        [] => tell(
            page,
            table.at,
            msg!("the supply doesn't say what it is"),
            msg!("add substance = \"...\", label = \"17 % Al2O3\" or dyestuff = \"...\""),
        ),
        _ => tell(
            page,
            table.at,
            msg!("the supply is {count} things at once", count = given.len()),
            msg!("keep one of substance, label and dyestuff"),
        ),
    }
}

fn read_baths(page: &mut Page<'_>, root: Table<'_>) -> ReadBaths {
    let mut read = ReadBaths {
        whole: Vec::new(),
        names: BTreeSet::new(),
        is_all: true,
    };
    for table in root.tables(page, "bath", msg!("the bath"), BATHS_MOST) {
        let id = named(page, table, "id", bath_id);
        if let Some(id) = &id
            && !read.names.insert(id.clone())
        {
            read.is_all = tell(
                page,
                table.place_of("id"),
                msg!("a second bath {id}", id = id),
                msg!("a bath is put down once; take one out"),
            )
            .unwrap_or(false);
        }
        match read_bath(page, table, id) {
            Some(bath) => read.whole.push(bath),
            None => read.is_all = false,
        }
    }
    read
}

fn read_bath(page: &mut Page<'_>, table: Table<'_>, id: Option<String>) -> Option<ShelvedBath> {
    allow_only(
        page,
        table,
        &[
            "id",
            "lot",
            "kind",
            "recipe",
            "name",
            "on",
            "stopped",
            "pot",
            "pot_metal",
            "weighed",
        ],
    );
    let lot = match table.has("lot") {
        true => named(page, table, "lot", LotId::from_text).map(Some),
        false => Some(None),
    };
    let kinds = BathKind::ALL.into_iter().map(BathKind::id);
    let kind = table.choice(page, "kind", Choice::Bath, BathKind::from_id, kinds);
    let recipe = table.text(page, "recipe", NAME_CHARACTERS_MOST);
    let name = table.text(page, "name", NAME_CHARACTERS_MOST);
    let on = day(page, table, "on");
    let stopped = table.yes(page, "stopped");
    let pot = count(page, table, "pot", u32::from(u8::MAX));
    let metal = named(page, table, "pot_metal", |text| {
        let metals = PotMetal::ALL.map(PotMetal::id).join(", ");
        PotMetal::from_id(text).ok_or_else(|| {
            msg!(
                "\"{word}\" is no metal of pots; write {metals}",
                word = shown(text),
                metals = metals
            )
        })
    });
    let weighed = read_weighed(page, table);
    Some(ShelvedBath {
        id: id?,
        lot: lot?,
        kind: kind?,
        recipe: recipe?.text.to_owned(),
        name: name?.text.to_owned(),
        on: on?,
        is_whole: !stopped?,
        pot: u8::try_from(pot?).ok()?,
        metal: metal?,
        weighed: weighed?,
    })
}

fn read_weighed(page: &mut Page<'_>, bath: Table<'_>) -> Option<Vec<Weighed>> {
    let tables = bath.tables(page, "weighed", msg!("the ware"), ADDITIONS_MOST);
    let count = tables.len();
    let mut whole = Vec::new();
    for table in tables {
        allow_only(
            page,
            table,
            &["letter", "ware", "name", "form", "weight", "drawn"],
        );
        let letter = named(page, table, "letter", |text| {
            let mut letters = text.chars();
            match (letters.next(), letters.next()) {
                (Some(letter), None) if letter.is_ascii_uppercase() => Ok(Letter(letter)),
                (_, _) => Err(msg!(
                    "\"{word}\" is not one letter from A to Z",
                    word = shown(text)
                )),
            }
        });
        let ware = table.text(page, "ware", NAME_CHARACTERS_MOST);
        let name = table.text(page, "name", NAME_CHARACTERS_MOST);
        let form = match table.has("form") {
            true => {
                let forms = Form::ALL.into_iter().map(Form::id);
                table
                    .choice(page, "form", Choice::Form, Form::from_id, forms)
                    .map(Some)
            }
            false => Some(None),
        };
        let weight = weight(page, table, "weight");
        let drawn = read_drawn(page, table, weight);
        let one = (|| {
            Some(Weighed {
                letter: letter?,
                ware: ware?.text.to_owned(),
                name: name?.text.to_owned(),
                form: form?,
                weight: weight?,
                drawn: drawn?,
            })
        })();
        whole.extend(one);
    }
    let is_a_list = !bath.has("weighed") || count > 0 || bath.is_empty_list("weighed");
    (whole.len() == count && is_a_list).then_some(whole)
}

fn read_drawn(page: &mut Page<'_>, ware: Table<'_>, of: Option<Milligrams>) -> Option<Vec<Draw>> {
    let tables = ware.tables(page, "drawn", msg!("the draw"), SUPPLIES_MOST);
    let count = tables.len();
    let mut whole = Vec::new();
    for table in tables {
        allow_only(page, table, &["from", "weight"]);
        let from = named(page, table, "from", SupplyId::from_text);
        let weight = weight(page, table, "weight");
        whole.extend(from.zip(weight).map(|(from, weight)| Draw { from, weight }));
    }
    let sum = Milligrams::sum(whole.iter().map(|draw| draw.weight));
    if let Some(of) = of
        && sum.is_none_or(|sum| sum > of)
    {
        return tell(
            page,
            ware.place_of("drawn"),
            msg!(
                "more is drawn than the {weight} g that were weighed",
                weight = of.in_grams()
            ),
            msg!("make the draws add up to no more than the weight"),
        );
    }
    (whole.len() == count).then_some(whole)
}
