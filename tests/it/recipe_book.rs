//! The built-in book: every page reads, every figure has a source, every line fits the screen.

use potside::recipe::{book, read};

#[test]
fn every_page_of_the_book_reads_without_a_fault() {
    for page in book::PAGES {
        match read(page.text) {
            Ok(recipe) => assert_eq!(recipe.id, page.id),
            Err(faults) => panic!("{}:\n{faults}", page.id),
        }
    }
    assert_eq!(book::all().len(), book::PAGES.len());
}
