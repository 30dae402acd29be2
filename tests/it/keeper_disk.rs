//! The keeper on the real disk: files changed or removed under it, the spare place, an act handed over twice.

use std::path::{Path, PathBuf};

use potside::craft::time::{Moment, Span, Stretch};
use potside::journal::id::{ActId, BathId};
use potside::journal::line::Record;
use potside::journal::recover::recover;
use potside::keeper::{Folder, Keeper, Look, Told};
use potside::machine::away::WallClock;
use potside::machine::{Ask, Input, PotNo};
use potside::sheet::plan::StepIndex;
use potside::shell::disk::data_folder::DataFolder;

use super::support::closed::open;
use super::support::plans::alum_bath;

const BATH: &str = "20260825-093107-alum-p1";

fn at(stretch: Stretch, minute: u64) -> Moment {
    let start = Moment {
        stretch,
        steady_ms: 60_000,
        wall_ms: 1_787_650_000_000,
    };
    start.plus(Span::from_minutes(minute))
}

/// What another program does to a file.
type Disturb = fn(&Path);

struct Kitchen {
    root: tempfile::TempDir,
    keeper: Option<Keeper<DataFolder>>,
    stretch: Stretch,
    minute: u64,
}

impl Kitchen {
    fn open() -> Self {
        let root = tempfile::tempdir().unwrap();
        std::fs::create_dir(root.path().join("stick")).unwrap();
        let mut kitchen = Self {
            root,
            keeper: None,
            stretch: Stretch(0),
            minute: 0,
        };
        kitchen.start();
        kitchen
    }

    fn folder(&self) -> DataFolder {
        let folder = open(&self.root.path().join("data"));
        folder.with_spare(Some(self.root.path().join("stick")))
    }

    fn start(&mut self) {
        self.start_by("boot", WallClock::NotKnown);
    }

    fn start_by(&mut self, boot: &str, wall: WallClock) {
        self.keeper = None;
        let (keeper, stretch) = Keeper::open_by(self.folder(), Some(boot), wall).unwrap();
        self.keeper = Some(keeper);
        self.stretch = stretch;
    }

    fn keeper(&mut self) -> &mut Keeper<DataFolder> {
        self.keeper.as_mut().unwrap()
    }

    fn begin(&mut self) {
        self.keeper().prepare(BATH, "name = \"x\"\n", "{}");
        let input = Input::Begin {
            pot: PotNo(1),
            bath_id: BATH.to_owned(),
            plan: alum_bath(),
            cautions_read: true,
        };
        self.take("t0-0", &input);
    }

    fn take(&mut self, act: &str, input: &Input) -> Told {
        self.minute += 1;
        let now = at(self.stretch, self.minute);
        let act = ActId::from_text(act).unwrap();
        self.keeper().take(Some(&act), input, now)
    }

    fn confirm(&mut self, step: usize) {
        let ask = Ask::Confirm {
            step: StepIndex(step),
            sure: true,
        };
        let told = self.take(&format!("t0-{}", step + 1), &Input::Pot(PotNo(1), ask));
        assert!(matches!(told, Told::Taken(_)), "{told:?}");
    }

    fn home(&self) -> PathBuf {
        self.root.path().join("data/baths").join(BATH)
    }

    /// What is kept in home and spare place together, or in one folder alone.
    fn acts(&self) -> Vec<String> {
        let mut folder = self.folder();
        let bath = BathId::from_text(BATH).unwrap();
        let got = recover(&mut folder.places(&bath), &bath);
        assert_eq!(got.doubt(), None);
        let act = |record: &Record| record.act.as_ref().map(ToString::to_string);
        got.records.iter().filter_map(act).collect()
    }

    fn close(&mut self) {
        self.keeper = None;
    }
}

fn segment(folder: &Path, number: u32) -> PathBuf {
    folder.join(format!("segment-{number:04}.jsonl"))
}

#[test]
fn a_file_changed_cut_removed_or_moved_under_the_keeper_is_left_and_a_new_one_takes_all() {
    let disturb: [(&str, Disturb); 4] = [
        ("changed", |path| {
            let mut bytes = std::fs::read(path).unwrap();
            bytes.extend_from_slice(b"a line of somebody else\n");
            std::fs::write(path, bytes).unwrap();
        }),
        ("cut", |path| std::fs::write(path, "").unwrap()),
        ("removed", |path| std::fs::remove_file(path).unwrap()),
        ("moved", |path| {
            std::fs::rename(path, path.with_extension("elsewhere")).unwrap();
        }),
    ];
    for (how, disturb) in disturb {
        let mut kitchen = Kitchen::open();
        kitchen.begin();
        kitchen.confirm(0);
        disturb(&segment(&kitchen.home(), 1));

        kitchen.confirm(1);

        assert_eq!(kitchen.keeper().not_saving_since(), None, "{how}");
        assert!(segment(&kitchen.home(), 2).exists(), "{how}");
        kitchen.close();
        assert_eq!(kitchen.acts(), ["t0-0", "t0-1", "t0-2"], "{how}");
    }
}

#[test]
fn a_home_that_refuses_is_gone_on_with_in_the_spare_place_and_read_back_from_both() {
    let mut kitchen = Kitchen::open();
    kitchen.begin();
    kitchen.confirm(0);
    // A file where the folder was: nothing can be made in it, by whoever it is tried.
    let home = kitchen.home();
    std::fs::rename(&home, home.with_extension("aside")).unwrap();
    std::fs::write(&home, "").unwrap();

    kitchen.confirm(1);
    assert!(kitchen.keeper().in_spare_since().is_some() && kitchen.keeper().not_saving_since().is_none());
    kitchen.close();
    std::fs::remove_file(&home).unwrap();
    std::fs::rename(home.with_extension("aside"), &home).unwrap();
    kitchen.start();

    let run = kitchen.keeper().machine().pot(PotNo(1)).unwrap();
    assert_eq!(run.stand.step, StepIndex(2));
    kitchen.confirm(2);
    assert_eq!(
        kitchen.keeper().in_spare_since(),
        None,
        "home again after a start"
    );
    kitchen.close();
    assert_eq!(kitchen.acts(), ["t0-0", "t0-1", "t0-2", "t0-3"]);
}

#[test]
fn a_bath_that_began_in_the_spare_place_alone_is_found_at_the_next_start() {
    let mut kitchen = Kitchen::open();
    let baths = kitchen.root.path().join("data/baths");
    std::fs::remove_dir(&baths).unwrap();
    std::fs::write(&baths, "").unwrap();
    kitchen.begin();
    kitchen.confirm(0);
    assert!(kitchen.keeper().in_spare_since().is_some());
    kitchen.close();
    std::fs::remove_file(&baths).unwrap();

    kitchen.start();

    let run = kitchen.keeper().machine().pot(PotNo(1)).unwrap();
    assert_eq!((run.bath_id.as_str(), run.stand.step), (BATH, StepIndex(1)));
    let bath = BathId::from_text(BATH).unwrap();
    kitchen.close();
    assert_eq!(
        kitchen.folder().recipe_of(&bath).as_deref(),
        Some("name = \"x\"\n")
    );
}

#[test]
fn an_act_handed_over_again_changes_nothing_even_after_a_restart() {
    let mut kitchen = Kitchen::open();
    kitchen.begin();
    kitchen.confirm(0);
    let heard = Input::Pot(PotNo(1), Ask::Heard);
    assert!(matches!(kitchen.take("t0-9", &heard), Told::Taken(_)));

    assert_eq!(kitchen.take("t0-9", &heard), Told::Repeated);
    kitchen.close();
    kitchen.start();
    assert_eq!(kitchen.take("t0-9", &heard), Told::Repeated);
    assert!(matches!(kitchen.take("t1-1", &heard), Told::Taken(_)));

    kitchen.close();
    assert_eq!(kitchen.acts(), ["t0-0", "t0-1", "t0-9", "t1-1"]);
}

#[test]
fn a_bath_is_not_begun_twice_under_one_id() {
    let mut kitchen = Kitchen::open();
    kitchen.begin();
    kitchen.take("t0-1", &Input::Pot(PotNo(1), Ask::Stop));
    let again = Input::Begin {
        pot: PotNo(1),
        bath_id: BATH.to_owned(),
        plan: alum_bath(),
        cautions_read: true,
    };

    assert_eq!(kitchen.take("t0-7", &again), Told::Repeated);
    kitchen.close();
    kitchen.start();
    assert_eq!(kitchen.take("t1-0", &again), Told::Repeated);
    let troubles = kitchen.keeper().take_troubles();
    assert!(
        troubles.iter().any(|line| line.contains("already")),
        "{troubles:?}"
    );
}

#[test]
fn a_damaged_page_does_not_hide_its_bath() {
    let mut kitchen = Kitchen::open();
    kitchen.begin();
    let page = kitchen
        .root
        .path()
        .join("data/daybook")
        .join(format!("{BATH}.json"));
    std::fs::write(&page, "half a page").unwrap();
    kitchen.close();

    kitchen.start();
    assert!(kitchen.keeper().machine().pot(PotNo(1)).is_some());
    kitchen.take("t0-5", &Input::Pot(PotNo(1), Ask::Stop));

    assert_eq!(kitchen.keeper().take_troubles(), [""; 0]);
    assert_eq!(std::fs::read(&page).unwrap(), b"half a page");
    let second = page.with_file_name(format!("{BATH}.2.json"));
    assert!(second.exists());
}

/// Ids as `/proc/sys/kernel/random/boot_id` tells them (`proc_sys_kernel(5)`): 36 characters.
const BOOTS: [&str; 2] = [
    "6f1d2c3b-8a47-4c1e-9b55-0d2f7e8a9b10",
    "0b9e8d7c-1f2a-4b3c-8d4e-5f6071829300",
];

/// How the wall clock was known as the bath began, while it went on, and at the next start of the machine; and whether
/// the absence between has a longest time.
#[test]
fn an_absence_over_a_restart_has_a_longest_time_where_a_server_had_set_the_clock_before_and_after() {
    use WallClock::{NotKnown, Synchronised};
    let cases = [
        ([NotKnown, NotKnown, Synchronised], false),
        ([Synchronised, Synchronised, NotKnown], false),
        ([Synchronised, Synchronised, Synchronised], true),
        // A board starts before it has found the network: the server comes later.
        ([NotKnown, Synchronised, Synchronised], true),
        ([Synchronised, NotKnown, Synchronised], false),
    ];
    for ([began, went_on, back], has_longest) in cases {
        let mut kitchen = Kitchen::open();
        kitchen.start_by(BOOTS[0], began);
        kitchen.begin();
        kitchen.confirm(0);
        kitchen.keeper().know_clock(went_on);
        kitchen.confirm(1);

        kitchen.start_by(BOOTS[1], back);
        let minutes = 30;
        // The machine has been up for a minute of them.
        let now = Moment {
            steady_ms: 60_000,
            ..at(kitchen.stretch, kitchen.minute + minutes)
        };
        let look = Look {
            now,
            slept: Span::NONE,
            wall: back,
        };
        let came_back = kitchen.keeper().came_back(look);

        let Some(Input::Returned { at_most, .. }) = came_back else {
            panic!("{came_back:?}")
        };
        // Each of the two clocks may be a second off.
        let longest = Span::from_minutes(minutes).plus(Span::from_seconds(2));
        assert_eq!(
            at_most,
            has_longest.then_some(longest),
            "{began:?} {went_on:?} {back:?}"
        );
    }
}

/// What is said of the clock is a record of its own, in the same segment, and only when it changed.
#[test]
fn a_clock_that_is_set_while_a_bath_goes_on_is_on_record_once() {
    let mut kitchen = Kitchen::open();
    kitchen.start_by(BOOTS[0], WallClock::NotKnown);
    kitchen.begin();
    for _ in 0..3 {
        kitchen.keeper().know_clock(WallClock::Synchronised);
    }
    kitchen.confirm(0);
    kitchen.keeper().know_clock(WallClock::Synchronised);
    kitchen.confirm(1);

    let bytes = std::fs::read_to_string(segment(&kitchen.home(), 1)).unwrap();
    let said: Vec<String> = bytes
        .lines()
        .map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap())
        .filter(|line| line["what"] == "segment")
        .map(|line| format!("{}: {}", line["body"]["because"], line["body"]["program"]))
        .collect();

    let name = format!("potside {} boot {}", env!("CARGO_PKG_VERSION"), BOOTS[0]);
    assert_eq!(
        said,
        [
            format!("\"start\": \"{name}\""),
            format!("\"clock\": \"{name} clock synchronised\""),
        ]
    );
    kitchen.close();
    assert_eq!(kitchen.acts(), ["t0-0", "t0-1", "t0-2"]);
}
