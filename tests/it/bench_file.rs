//! The bench's file: the example of docs/bench-format.md, back and forth, and what is told of a bad one.

use potside::shell::bench_file::{read, write};

fn example() -> String {
    let page = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/bench-format.md")).unwrap();
    let (_, rest) = page.split_once("```toml\n").unwrap();
    rest.split_once("```").unwrap().0.to_owned()
}

#[test]
fn the_example_reads_and_what_is_written_reads_the_same() {
    let bench = read(&example()).unwrap();

    assert_eq!(bench.others.pots().count(), 1);
    assert_eq!(bench.others.burners().count(), 1);
    let hours = bench.quiet_hours.unwrap();
    assert_eq!((hours.from, hours.until), (22 * 60, 7 * 60));
    assert!(!bench.hazardous_metals);
    assert_eq!(read(&write(&bench)).unwrap(), bench);
}

#[test]
fn a_bad_bench_is_told_by_the_key() {
    let told = |from: &str, to: &str| {
        let text = example();
        assert!(text.contains(from), "{from}");
        read(&text.replace(from, to)).unwrap_err().to_string()
    };
    assert!(told("22:00 to 07:00", "night").contains("quiet_hours: \"night\" is not two clock times"));
    assert!(told("22:00 to 07:00", "25:00 to 07:00").contains("quiet_hours"));
    let six = format!("[{}]", ["\"9 L, 22 cm\""; 6].join(", "));
    assert!(told("[\"20 L, 30 cm, enamel\"]", &six).contains("other_pots: 6 are named"));
    assert!(told("20 L, 30 cm, enamel", "large").contains("other_pots"));
    assert!(told("volume = 80", "volume = 180").contains("volume"));
    assert!(told("room = ", "rom = ").contains("rom"));
}
