//! Sealing: cut at every call, faults at every call, every flipped bit, repeats.

use std::collections::BTreeMap;

use potside::journal::id::BathId;
use potside::journal::seal::{
    Listed, PAGE_BYTES_MAX, Page, PageFault, SealFault, list_pages, read_page, seal, sealed_baths, write_page,
};
use potside::journal::store::StoreFault;
use serde_json::{Value, json};

use super::support::baths::bath;
use super::support::fault_store::{Fault, FaultStore, Plan, Tear};

fn content() -> Value {
    json!({"plan": {"alum_g": 14.999_999_999_999_998, "hold_ms": 3_600_000}, "actual": ["weighed \u{e4}", null, -0.5]})
}

fn name() -> String {
    format!("{}.json", bath())
}

fn listed(name: String, page: Page) -> Listed {
    Listed { name, page: Ok(page) }
}

#[test]
fn a_page_comes_back_as_it_was_sealed_and_is_listed() {
    let mut daybook = FaultStore::default();

    let page = seal(&mut daybook, &bath(), &content()).unwrap();

    assert_eq!(
        (page.name.clone(), page.content.clone(), page.bath.clone()),
        (name(), content(), bath())
    );
    assert_eq!(list_pages(&mut daybook).unwrap(), [listed(name(), page)]);
    assert_eq!(
        daybook.live_files().keys().collect::<Vec<_>>(),
        [&name()],
        "no temporary name is left"
    );
}

#[test]
fn a_cut_at_any_call_leaves_the_whole_page_or_none_and_sealing_again_finishes_it() {
    let clean = FaultStore::default();
    seal(&mut clean.clone(), &bath(), &content()).unwrap();
    let calls = clean.0.borrow().calls;
    assert!(calls >= 9, "{calls}");

    for (at, fault) in (0..calls).flat_map(|at| [(at, Fault::CutBefore), (at, Fault::CutAfter)]) {
        let mut daybook = FaultStore::default();
        daybook.plan(Some(Plan {
            at,
            fault,
            persists: true,
        }));
        let is_sealed = seal(&mut daybook, &bath(), &content()).is_ok();
        for tear in Tear::ALL {
            let told = format!("{fault:?} at {at}, {tear:?}");
            let mut after = FaultStore::with_files(&daybook.after_cut(tear));
            let pages = list_pages(&mut after).unwrap();
            assert!(
                pages.iter().all(|listed| listed.page.is_ok()),
                "{told}: half a page: {pages:?}"
            );
            assert!(!is_sealed || pages.len() == 1, "{told}: sealed and gone");

            let again = seal(&mut after, &bath(), &content()).unwrap();

            assert_eq!(again.name, name(), "{told}");
            let kept = FaultStore::with_files(&after.after_cut(Tear::Nothing));
            assert_eq!(
                list_pages(&mut kept.clone()).unwrap(),
                [listed(name(), again)],
                "{told}"
            );
        }
    }
}

#[test]
fn a_fault_at_any_call_is_told_and_sealing_again_succeeds() {
    for at in 0..12 {
        for fault in [Fault::Eio, Fault::Enospc, Fault::Erofs] {
            let mut daybook = FaultStore::default();
            daybook.plan(Some(Plan {
                at,
                fault,
                persists: false,
            }));
            let first = seal(&mut daybook, &bath(), &content());
            daybook.plan(None);

            let again = seal(&mut daybook, &bath(), &content()).unwrap();

            if let Err(told) = first {
                assert!(matches!(told, SealFault::Store(_)), "{told}");
            }
            let kept = FaultStore::with_files(&daybook.after_cut(Tear::Nothing));
            assert_eq!(
                list_pages(&mut kept.clone()).unwrap(),
                [listed(name(), again)],
                "{fault:?} at {at}"
            );
            assert_eq!(daybook.0.borrow().violations, Vec::<String>::new());
        }
    }
}

#[test]
fn no_flipped_bit_of_a_page_passes() {
    let bytes = write_page(&bath(), &content());
    read_page(&name(), &bytes).unwrap();

    for (at, bit) in (0..bytes.len()).flat_map(|at| (0..8).map(move |bit| (at, bit))) {
        let mut flipped = bytes.clone();
        flipped[at] ^= 1 << bit;
        assert!(read_page(&name(), &flipped).is_err(), "bit {bit} of byte {at}");
    }
}

#[test]
fn another_record_of_the_same_bath_is_refused_and_nothing_is_overwritten() {
    let mut daybook = FaultStore::default();
    seal(&mut daybook, &bath(), &content()).unwrap();
    let files = daybook.live_files();

    let told = seal(&mut daybook, &bath(), &json!({"plan": "other"})).unwrap_err();

    assert_eq!(told, SealFault::SealedOtherwise { name: name() });
    assert_eq!(daybook.live_files(), files);
}

#[test]
fn a_damaged_page_is_listed_as_such_left_in_place_and_the_next_name_is_taken() {
    let mut damaged = write_page(&bath(), &content());
    damaged[40] ^= 1;
    let mut daybook = FaultStore::with_files(&BTreeMap::from([(name(), damaged.clone())]));

    let page = seal(&mut daybook, &bath(), &content()).unwrap();

    assert_eq!(page.name, format!("{}.2.json", bath()));
    let pages = list_pages(&mut daybook).unwrap();
    assert!(
        pages
            .iter()
            .any(|listed| listed.name == name() && matches!(listed.page, Err(PageFault::Digest { .. })))
    );
    assert_eq!(daybook.live_files()[&name()], damaged);
    assert_eq!(
        seal(&mut daybook, &bath(), &content()).unwrap(),
        page,
        "to seal again is harmless"
    );
}

#[test]
fn a_record_that_could_not_be_read_back_is_refused_before_anything_is_written() {
    let mut deep = json!({});
    for _ in 0..200 {
        deep = json!({ "in": deep });
    }
    let mut daybook = FaultStore::default();

    assert!(matches!(
        seal(&mut daybook, &bath(), &deep),
        Err(SealFault::NotAPage { .. })
    ));
    assert!(daybook.live_files().is_empty());
}

#[test]
fn listing_passes_over_files_that_are_not_pages_and_reports_those_it_cannot_read() {
    let mut files = BTreeMap::from([
        ("notes.txt".to_owned(), b"x".to_vec()),
        ("a.10.json".to_owned(), Vec::new()),
    ]);
    files.insert("b.json.part".to_owned(), b"half".to_vec());
    files.insert(
        "c.json".to_owned(),
        write_page(&BathId::from_text("c").unwrap(), &content()),
    );
    let mut daybook = FaultStore::with_files(&files);
    daybook.plan(Some(Plan {
        at: 1,
        fault: Fault::Eio,
        persists: false,
    }));

    let pages = list_pages(&mut daybook).unwrap();

    assert_eq!(pages.len(), 1);
    assert_eq!(pages[0].name, "c.json");
    assert!(matches!(
        pages[0].page,
        Err(PageFault::Unread(StoreFault::Device { .. }))
    ));
}

#[test]
fn a_full_disk_gives_up_its_ballast_for_a_page_and_says_full_when_it_has_none() {
    for (ballast, is_sealed) in [(64 * 1024, true), (0, false)] {
        let mut daybook = FaultStore::default();
        daybook.0.borrow_mut().ballast = ballast;
        daybook.0.borrow_mut().room = Some(ballast);

        let sealed = seal(&mut daybook, &bath(), &content());

        assert_eq!(sealed.is_ok(), is_sealed, "{sealed:?}");
        if let Err(fault) = sealed {
            assert!(
                matches!(fault, SealFault::Store(StoreFault::Full { .. })),
                "{fault}"
            );
        }
        assert_eq!(daybook.0.borrow().ballast, 0);
        assert_eq!(list_pages(&mut daybook).unwrap().len(), usize::from(is_sealed));
    }
}

/// The ballast is for full disks alone: on any other fault it stays.
#[test]
fn a_page_that_fails_otherwise_leaves_the_ballast() {
    let mut daybook = FaultStore::default();
    daybook.0.borrow_mut().ballast = 64 * 1024;
    daybook.plan(Some(Plan {
        at: 2,
        fault: Fault::Eio,
        persists: false,
    }));

    let sealed = seal(&mut daybook, &bath(), &content());

    assert!(
        matches!(sealed, Err(SealFault::Store(StoreFault::Device { .. }))),
        "{sealed:?}"
    );
    assert_eq!(daybook.0.borrow().ballast, 64 * 1024);
}

#[test]
fn a_device_that_garbles_puts_no_page_into_the_daybook() {
    let mut daybook = FaultStore::default();
    daybook.0.borrow_mut().garbles = true;

    let sealed = seal(&mut daybook, &bath(), &content());

    let different = |fault: &StoreFault| matches!(fault, StoreFault::ReadsBackDifferent { .. });
    assert!(
        matches!(&sealed, Err(SealFault::Store(fault)) if different(fault)),
        "{sealed:?}"
    );
    assert_eq!(list_pages(&mut daybook).unwrap(), []);
    daybook.0.borrow_mut().garbles = false;
    assert_eq!(seal(&mut daybook, &bath(), &content()).unwrap().name, name());
}

#[test]
fn a_bath_counts_as_sealed_by_a_page_with_a_whole_digest() {
    let other = BathId::from_text("2026-08-26-0931-k3f9").unwrap();
    let third = BathId::from_text("2026-08-27-0931-k3f9").unwrap();
    let mut damaged = write_page(&other, &content());
    damaged[40] ^= 1;
    let files = BTreeMap::from([
        (name(), write_page(&bath(), &content())),
        (format!("{other}.json"), damaged),
        (format!("{third}.json"), b"{}".to_vec()),
        (format!("{third}.2.json"), write_page(&third, &content())),
        ("notes.txt".to_owned(), write_page(&other, &content())),
    ]);

    let sealed = sealed_baths(&mut FaultStore::with_files(&files)).unwrap();

    assert_eq!(sealed.into_iter().collect::<Vec<_>>(), [bath(), third]);
}

#[test]
fn a_page_has_at_most_16_mib() {
    let around = write_page(&bath(), &json!("")).len();
    let most = 16 * 1024 * 1024;
    assert_eq!(PAGE_BYTES_MAX, most);
    for (bytes, is_page) in [(most, true), (most + 1, false)] {
        let page = write_page(&bath(), &json!("x".repeat(bytes - around)));
        assert_eq!(page.len(), bytes);

        let read = read_page(&name(), &page);

        assert_eq!(read.is_ok(), is_page);
        if let Err(fault) = read {
            assert_eq!(fault, PageFault::TooLong { bytes });
        }
    }
}
