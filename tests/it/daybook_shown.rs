//! A record as lines, table and page: the same numbers in each, and nothing of the dyer's taken for a command.

use std::collections::BTreeMap;

use chrono::FixedOffset;
use potside::journal::record::BathRecord;
use potside::shell::daybook::csv::{COLUMNS, csv};
use potside::shell::daybook::page::page;
use potside::shell::daybook::text::text;

use super::support::finished::eventful;

const UTC: FixedOffset = FixedOffset::east_opt(0).unwrap();

fn table(record: &BathRecord) -> Vec<BTreeMap<String, String>> {
    let bytes = csv(record, UTC).unwrap();
    let mut reader = csv::Reader::from_reader(bytes.as_slice());
    reader.deserialize().map(|row| row.unwrap()).collect()
}

#[test]
fn the_lines_tell_plan_and_actual_and_all_that_went_otherwise() {
    let told = text(&eventful(), UTC);

    for wanted in [
        "BATH bath-1: Test alum",
        "alum (potash) (potash-alum)  15.0 % WOF: planned 15.0 g, weighed 16.2 g, 1.20 g more than planned",
        "HOLD 1 h at 85 \u{b0}C (80 \u{b0}C to 93 \u{b0}C) turned every 15 min",
        "held 1 h 01 min of 1 h, turns: 2 made, 1 missed",
        "0:55  60.5 \u{b0}C",
        "2:00  step 8, reminder 2: missed",
        "1:30 turn 1",
        "back at 2:11, away at least 10 min, no one knows how long at most; the dyer said: count it",
        "0:03  step 2: weighed 14.8 g",
        "skipped, enough by eye",
        "keep pot and spoon away from food",
    ] {
        assert!(told.contains(wanted), "{wanted:?} isn't in\n{told}");
    }
}

#[test]
fn the_table_has_a_step_a_line_and_its_numbers_come_back() {
    let record = eventful();

    let rows = table(&record);

    assert_eq!(rows.len(), record.steps.len());
    let (weigh, hold, cool) = (&rows[1], &rows[7], &rows[8]);
    assert_eq!(
        (&*weigh["planned_g"], &*weigh["actual_g"], &*weigh["wares"]),
        ("15", "16.2", "potash-alum")
    );
    assert_eq!(
        (&*weigh["began_min"], &*weigh["ended_min"], &*weigh["actual_min"]),
        ("1", "4", "3")
    );
    assert_eq!(
        (
            &*hold["planned_span_min"],
            &*hold["turns_made"],
            &*hold["turns_missed"]
        ),
        ("60", "2", "1")
    );
    assert!((hold["held_min"].parse::<f64>().unwrap() - 61.0).abs() < 1e-6);
    assert_eq!((&*cool["how"], &*cool["reason"]), ("skipped", "enough-by-eye"));
    assert!(rows.iter().all(|row| row.len() == COLUMNS.len()));
}

#[test]
fn a_cell_that_a_spreadsheet_would_run_is_made_text() {
    for hostile in ["=1+2", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"] {
        let mut record = eventful();
        record.recipe_name = hostile.to_owned();
        record.steps[0].planned.words = Some(format!("{hostile}, \"quoted\"\nsecond line"));

        let rows = table(&record);

        assert_eq!(rows[0]["recipe"], format!("'{hostile}"));
        assert_eq!(rows[0]["words"], format!("'{hostile}, \"quoted\"\nsecond line"));
    }
}

#[test]
fn the_curve_has_a_dot_a_reading_in_its_place_and_a_mark_for_each_turn_and_addition() {
    let record = eventful();

    let shown = page(&record, UTC);

    let count = |mark: &str| shown.matches(mark).count();
    assert_eq!(count("class=\"reading\""), record.readings.len());
    assert_eq!(
        (count("class=\"turn-made\""), count("class=\"turn-missed\"")),
        (2, 1)
    );
    assert_eq!((count("class=\"addition\""), count("class=\"away\"")), (1, 1));
    // 300 min over 660 units from 46; 105 degrees over 208 units up from 232: the reading of 85 at 75 min.
    assert!(shown.contains("cx=\"211.0\" cy=\"63.6\""), "{shown}");
    // The planned course: 40 degrees at 34 min.
    assert!(shown.contains("points=\"120.8,152.8 "), "{shown}");
    assert_eq!(count("class=\"unit\""), 2, "both axes tell their unit");
}

#[test]
fn the_page_stands_alone_and_a_hostile_name_stays_text() {
    let mut record = eventful().with_recipe("# </pre><script>x</script>");
    record.recipe_name = "<script>alert(\"x\")</script> & <img src=x onerror=y>".into();
    record.additions[0].name = "<b>alum</b>".into();
    record.cautions.push("</ul><iframe>".into());

    let shown = page(&record, UTC);

    for tag in [
        "<script", "<img", "<b>", "<iframe", "<link", "src=\"", "href=", "@import", "url(",
    ] {
        assert!(!shown.contains(tag), "{tag} is in the page");
    }
    assert!(shown.contains("&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt; &amp; &lt;img"));
    // The one address in it is the name of the drawing's vocabulary.
    assert_eq!(shown.matches("http").count(), 1);
    assert!(shown.contains("xmlns=\"http://www.w3.org/2000/svg\""));
    assert!(shown.starts_with("<!DOCTYPE html>"));
}

#[test]
fn a_name_cannot_move_the_cursor() {
    let mut record = eventful();
    record.recipe_name = "alum\u{1b}[2J\u{7}\nBATH faked".into();

    let told = text(&record, UTC);

    assert!(told.lines().next().unwrap().contains("BATH faked"));
    assert!(!told.contains('\u{1b}') && !told.contains('\u{7}'));
}

#[test]
fn a_bath_stopped_at_once_can_be_shown_in_every_form() {
    let record = super::support::finished::record_of("0:00 pot 1 begin\n 0:00:10 pot 1 stop");

    assert!(text(&record, UTC).contains("stopped"));
    assert_eq!(table(&record).len(), record.steps.len());
    assert!(page(&record, UTC).contains("not done"));
}

#[test]
fn a_vat_tells_its_looks_and_its_dips() {
    let mut stage = super::support::script::Stage::new(&super::support::plans::vat_bath());
    stage.play(
        "0:00 pot 1 begin
        0:01 pot 1 confirm
        0:05 pot 1 confirm
        0:36 pot 1 not-yet
        0:52 pot 1 confirm
        0:55 pot 1 confirm
        0:58:30 pot 1 confirm
        1:09 pot 1 skip",
    );
    let record = BathRecord::of(stage.machine.pots().next().unwrap());

    let (told, shown, rows) = (text(&record, UTC), page(&record, UTC), table(&record));

    for wanted in [
        "LOOK for clear yellow-green, after 30 min and every 15 min until it shows",
        "not yet at one look",
        "DIP 1 of 2 3 min",
    ] {
        assert!(told.contains(wanted), "{wanted:?} isn't in\n{told}");
        assert!(shown.contains(wanted), "{wanted:?} isn't on the page");
    }
    assert!(told.contains("0:36  step 3, look 1"), "{told}");
    assert_eq!(
        (&*rows[2]["looks_not_yet"], &*rows[3]["looks_not_yet"]),
        ("1", "")
    );
    assert_eq!(
        (&*rows[4]["planned_span_min"], &*rows[4]["actual_min"]),
        ("3", "3.5")
    );
}
