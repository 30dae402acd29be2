//! A work list for a lot: what would go wrong, the baths with the one that is next, all additions, what is missing.

use crate::sheet::SheetRefusal;
use crate::shelf::worklist::{Finding, Severity, Trouble, Wait, WaitKind, WorkList, WorkPlan};
use crate::shelf::{Lot, Missing};
use crate::view::pages::findings;
use crate::view::pages::page::Facts;
use crate::view::screen::{Block, BlockLook, Icon, LeafScreen, SideAct};

use super::lists::recipe_name;
use super::pot_of;
use super::words::{act, day, fact, heading, press, said, tag_and_name};

/// The list as a leaf.
pub(super) fn leaf(list: &WorkList, lot: &Lot, plan: &WorkPlan, facts: &Facts<'_>) -> LeafScreen {
    let found = told(plan, facts);
    let mut blocks: Vec<Block> = found
        .iter()
        .map(|finding| findings::numbered(finding, facts.locale))
        .collect();
    blocks.push(said(list.about.clone()));
    blocks.push(heading("Baths"));
    for (index, listed) in list.baths.iter().enumerate() {
        blocks.push(bath(
            index,
            recipe_name(&listed.recipe, facts),
            listed.pot,
            plan,
            facts,
        ));
        blocks.extend(listed.then.as_ref().map(|it| wait(it, facts)));
    }
    if !plan.wants.is_empty() {
        blocks.push(heading("All together, for what is still to do"));
        let wants = plan.wants.iter();
        blocks.extend(wants.map(|want| fact(&want.name, facts.locale.grams(want.needs))));
    }
    let has_supplies = facts.shelf.supplies().next().is_some();
    if has_supplies && !plan.wants.is_empty() {
        blocks.push(heading("Missing on the shelf"));
        if plan.missing.is_empty() {
            blocks.push(said("nothing: the shelf has enough of all of it"));
        }
        blocks.extend(plan.missing.iter().map(|one| missing(one, facts)));
    }
    LeafScreen {
        title: list.name.clone(),
        note: format!("for {}", tag_and_name(lot)),
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
    let in_pot = pot.map_or_else(String::new, |pot| format!("in pot {pot}; "));
    let weighed = plan.baths.iter().find(|bath| bath.number == number);
    let weighed: Vec<String> = weighed
        .into_iter()
        .flat_map(|bath| &bath.sheet.plan.additions)
        .map(|addition| format!("{} {}", facts.locale.grams(addition.target), addition.name))
        .collect();
    let detail = format!("{in_pot}{}", weighed.join(", "));
    match plan.progress.done.get(index) {
        Some(Some(record)) => Block {
            value: "done".into(),
            ..press(&format!("record-{record}"), label, "see its record", Icon::Tick)
        },
        Some(None) => Block {
            detail: "done before it came".into(),
            ..fact(&label, "done")
        },
        None if plan.progress.next == Some(index) => {
            let from = plan.progress.ready_on.filter(|on| *on > facts.today);
            let value = from.map_or_else(|| "next".to_owned(), |on| format!("next, from {}", day(on)));
            Block {
                look: BlockLook::Step,
                value: "\u{bb}".into(),
                label: format!("{label}: {value}"),
                detail,
                ..Block::default()
            }
        }
        None => Block {
            detail,
            ..fact(&label, "")
        },
    }
}

fn wait(wait: &Wait, facts: &Facts<'_>) -> Block {
    let how = match wait.how {
        WaitKind::RestDamp => "rests damp",
        WaitKind::Age => "ages, dry",
        WaitKind::Dry => "dries",
    };
    let least = match wait.least.ms() {
        0 => String::new(),
        _ => format!(", at least {}", facts.locale.span(wait.least)),
    };
    let most = wait.most.map_or_else(String::new, |most| {
        format!(", at most {}", facts.locale.span(most))
    });
    said(format!("then it {how}{least}{most}"))
}

fn missing(one: &Missing, facts: &Facts<'_>) -> Block {
    let instead: Vec<String> = one
        .instead
        .iter()
        .map(|(id, exchange)| {
            let name = facts.shelf.supply(*id).map_or("", |supply| supply.name.as_str());
            format!(
                "{id} {name} would do: {} of it, equal in {}",
                facts.locale.grams(exchange.shelf_amount),
                exchange.equal_in.name()
            )
        })
        .collect();
    Block {
        detail: instead.join("; "),
        ..fact(
            &one.want.name,
            format!(
                "{} there, {} needed",
                one.there,
                facts.locale.grams(one.want.needs)
            ),
        )
    }
}

fn begin(list: &WorkList, lot: &Lot, plan: &WorkPlan, found: &[&Finding], facts: &Facts<'_>) -> SideAct {
    let Some(next) = plan.progress.next else {
        return act("begin", "this list is done", Icon::Tick, false, false);
    };
    let number = next.saturating_add(1);
    let is_refused = found
        .iter()
        .any(|finding| finding.number == number && finding.trouble.severity() == Severity::Refuse);
    let is_free = facts.shelf.is_there(lot.id) && pot_of(facts.machine, lot.id).is_none();
    let name = list
        .baths
        .get(next)
        .map_or("", |listed| recipe_name(&listed.recipe, facts));
    let can = is_free && !is_refused;
    act(
        "begin",
        &format!("begin bath {number}: {name}"),
        Icon::Plus,
        can,
        true,
    )
}
