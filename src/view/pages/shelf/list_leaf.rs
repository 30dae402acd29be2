//! A work list for a lot: what would go wrong, the baths with the one that is next, all additions, what is missing.

use crate::say;
use crate::sheet::SheetRefusal;
use crate::shelf::worklist::{Finding, Severity, Trouble, Wait, WaitKind, WorkList, WorkPlan};
use crate::shelf::{Lot, Missing};
use crate::view::pages::findings;
use crate::view::pages::page::Facts;
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen, SideAct};

use super::lists::recipe_name;
use super::words::{act, fact, heading, press, said, tag_and_name};
use super::{pot_of, wares};

/// The list as a leaf.
pub(super) fn leaf(list: &WorkList, lot: &Lot, plan: &WorkPlan, facts: &Facts<'_>) -> LeafScreen {
    let locale = facts.locale;
    let found = told(plan, facts);
    let mut blocks: Vec<Block> = found
        .iter()
        .map(|finding| findings::numbered(finding, locale))
        .collect();
    blocks.push(said(locale.read(&list.about)));
    blocks.push(heading(say!(locale, "Baths")));
    for (index, listed) in list.baths.iter().enumerate() {
        blocks.push(bath(
            index,
            &recipe_name(&listed.recipe, facts),
            listed.pot,
            plan,
            facts,
        ));
        blocks.extend(listed.then.as_ref().map(|it| wait(it, facts)));
    }
    if !plan.wants.is_empty() {
        blocks.push(heading(say!(locale, "All together, for what is still to do")));
        let wants = plan.wants.iter();
        blocks.extend(wants.map(|want| fact(locale.read(&want.name), locale.grams(want.needs))));
    }
    let has_supplies = facts.shelf.supplies().next().is_some();
    if has_supplies && !plan.wants.is_empty() {
        blocks.push(heading(say!(locale, "Missing on the shelf")));
        if plan.missing.is_empty() {
            blocks.push(said(say!(locale, "nothing: the shelf has enough of all of it")));
        }
        blocks.extend(plan.missing.iter().map(|one| missing(one, facts)));
    }
    LeafScreen {
        title: locale.read(&list.name),
        note: say!(locale, "for {lot}", lot = tag_and_name(lot, locale)),
        blocks,
        foot: vec![begin(list, lot, plan, &found, facts)],
    }
}

/// What is found, without what the dyer has settled on the bench.
fn told<'a>(plan: &'a WorkPlan, facts: &Facts<'_>) -> Vec<&'a Finding> {
    let is_settled = |finding: &&Finding| {
        let Trouble::Sheet(refusal) = &finding.trouble else {
            return false;
        };
        facts.bench.hazardous_metals && matches!(**refusal, SheetRefusal::OffUnlessAsked { .. })
    };
    plan.findings
        .iter()
        .filter(|finding| !is_settled(finding))
        .collect()
}

fn bath(index: usize, name: &str, pot: Option<u8>, plan: &WorkPlan, facts: &Facts<'_>) -> Block {
    let number = index.saturating_add(1);
    let label = format!("{number}. {name}");
    let locale = facts.locale;
    let in_pot = pot.map_or_else(String::new, |pot| {
        format!("{}; ", say!(locale, "in pot {pot}", pot = pot))
    });
    let weighed = plan.baths.iter().find(|bath| bath.number == number);
    let weighed: Vec<String> = weighed
        .into_iter()
        .flat_map(|bath| &bath.sheet.plan.additions)
        .map(|addition| {
            let grams = locale.grams(addition.target);
            format!("{grams} {}", locale.read(&addition.name))
        })
        .collect();
    let detail = format!("{in_pot}{}", weighed.join(", "));
    match plan.progress.done.get(index) {
        Some(Some(record)) => Block {
            value: say!(locale, "done"),
            ..press(
                &format!("record-{record}"),
                label,
                say!(locale, "see its record"),
                Icon::Tick,
            )
        },
        Some(None) => Block {
            detail: say!(locale, "done before it came"),
            ..fact(label, say!(locale, "done"))
        },
        None if plan.progress.next == Some(index) => {
            let label = match plan.progress.ready_on.filter(|on| *on > facts.today) {
                Some(on) => say!(
                    locale,
                    "{bath}: next, from {day}",
                    bath = label,
                    day = locale.date(on)
                ),
                None => say!(locale, "{bath}: next", bath = label),
            };
            Block {
                look: BlockLook::Step,
                value: "\u{bb}".into(),
                label,
                detail,
                ..Block::default()
            }
        }
        None => Block {
            detail,
            ..fact(label, "")
        },
    }
}

fn wait(wait: &Wait, facts: &Facts<'_>) -> Block {
    let locale = facts.locale;
    let how = match wait.how {
        WaitKind::RestDamp => say!(locale, "then it rests damp"),
        WaitKind::Age => say!(locale, "then it ages, dry"),
        WaitKind::Dry => say!(locale, "then it dries"),
    };
    let least =
        (wait.least.ms() > 0).then(|| say!(locale, "at least {span}", span = locale.span(wait.least)));
    let most = wait
        .most
        .map(|most| say!(locale, "at most {span}", span = locale.span(most)));
    let line: Vec<String> = std::iter::once(how).chain(least).chain(most).collect();
    said(line.join(", "))
}

fn missing(one: &Missing, facts: &Facts<'_>) -> Block {
    let locale = facts.locale;
    let instead: Vec<String> = one
        .instead
        .iter()
        .map(|(id, exchange)| {
            let supply = facts.shelf.supply(*id);
            say!(
                locale,
                "{supply} would do: {amount} of it, equal in {element}",
                supply = supply.map_or_else(
                    || id.to_string(),
                    |supply| { wares::tag_and_name(supply, facts.recipes, locale).replace("  ", " ") }
                ),
                amount = locale.grams(exchange.shelf_amount),
                element = locale.read(exchange.equal_in.name())
            )
        })
        .collect();
    Block {
        detail: instead.join("; "),
        ..fact(
            locale.read(&one.want.name),
            say!(
                locale,
                "{there} there, {needed} needed",
                there = locale.shelf_weight(one.there),
                needed = locale.grams(one.want.needs)
            ),
        )
    }
}

fn begin(list: &WorkList, lot: &Lot, plan: &WorkPlan, found: &[&Finding], facts: &Facts<'_>) -> SideAct {
    let locale = facts.locale;
    let Some(next) = plan.progress.next else {
        return act(
            "begin",
            say!(locale, "this list is done"),
            Icon::Tick,
            false,
            false,
        );
    };
    let number = next.saturating_add(1);
    let is_refused = found
        .iter()
        .any(|finding| finding.number == number && finding.trouble.severity() == Severity::Refuse);
    let is_free = facts.shelf.is_there(lot.id) && pot_of(facts.machine, lot.id).is_none();
    let name = list
        .baths
        .get(next)
        .map_or_else(String::new, |listed| recipe_name(&listed.recipe, facts));
    let can = is_free && !is_refused;
    act(
        "begin",
        say!(
            locale,
            "begin bath {number}: {recipe}",
            number = number,
            recipe = name
        ),
        Icon::Plus,
        can,
        true,
    )
}
