//! The real disk in a scratch folder: the same promises as over the faulty store, as far as a running system shows them.
#![expect(
    clippy::disallowed_methods,
    reason = "a test looks at the real files from outside"
)]

use std::path::Path;

use potside::journal::recover::recover;
use potside::journal::seal::{Listed, list_pages, seal, sealed_baths};
use potside::journal::store::{Deed, Store, StoreFault};
use potside::journal::writer::{Keeping, Writer};
use potside::shell::disk::DiskFault;
use potside::shell::disk::ballast::BALLAST_BYTES;
use potside::shell::disk::data_folder::DataFolder;
use potside::shell::disk::footing::Footing;
use potside::shell::disk::places::spare_store;
use potside::shell::disk::real_store::RealStore;
use serde_json::json;

use super::support::baths::{acts, bath, entries_of, run};

fn open(root: &Path) -> DataFolder {
    DataFolder::open(&root.join("new").join("potside")).unwrap()
}

fn begun(data: &DataFolder) -> RealStore {
    data.begin_bath(&bath(), b"name = \"x\"\n", b"{}").unwrap();
    data.bath_store(&bath())
}

fn writer(place: RealStore) -> Writer<RealStore> {
    let mut places = vec![place];
    let recovered = recover(&mut places, &bath());
    Writer::resume(&recovered, places, "potside 0.1.0").unwrap()
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|item| item.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn two_runs_leave_two_segments_and_the_first_as_it_was() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let place = begun(&data);
    let first_file = place.folder().join("segment-0001.jsonl");
    let first = run(&mut writer(place), &acts(1, 3), || false);
    let first_bytes = std::fs::read(&first_file).unwrap();

    let second = run(&mut writer(data.bath_store(&bath())), &acts(2, 2), || false);

    let mut place = data.bath_store(&bath());
    let got = recover(std::slice::from_mut(&mut place), &bath());
    assert!(got.is_whole() && got.damage.is_empty(), "{:?}", got.damage);
    assert_eq!(entries_of(&got), [first, second].concat());
    assert_eq!(std::fs::read(&first_file).unwrap(), first_bytes);
    assert_eq!(
        names(place.folder()),
        [
            "recipe.toml",
            "segment-0001.jsonl",
            "segment-0002.jsonl",
            "sheet.json"
        ]
    );
    assert_eq!(data.baths().unwrap(), [bath()]);
    assert_eq!(names(data.folder()), ["ballast", "baths", "daybook", "lock"]);
}

#[test]
fn a_second_potside_is_told_that_one_is_running() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());

    assert!(matches!(
        DataFolder::open(data.folder()),
        Err(DiskFault::InUse { .. })
    ));
    let folder = data.folder().to_owned();
    drop(data);
    crate::support::closed::open(&folder);
}

#[test]
fn the_ballast_is_put_by_given_up_once_and_put_by_again_at_the_next_start() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let mut place = begun(&data);
    let ballast = data.folder().join("ballast");
    assert!(data.has_ballast());
    assert_eq!(std::fs::metadata(&ballast).unwrap().len(), BALLAST_BYTES as u64);

    assert_eq!(place.release_ballast(), Ok(true));
    assert_eq!(place.release_ballast(), Ok(false));

    assert!(!ballast.exists());
    drop(data);
    assert!(open(root.path()).has_ballast() && ballast.exists());
}

#[test]
fn only_a_file_that_this_run_created_can_be_written() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let mut place = begun(&data);
    place.create_new("segment-0001.jsonl").unwrap();
    let mut next_run = data.bath_store(&bath());

    let not_ours = StoreFault::NotOurs {
        name: "segment-0001.jsonl".to_owned(),
    };
    assert_eq!(next_run.append("segment-0001.jsonl", b"x"), Err(not_ours.clone()));
    assert_eq!(
        next_run.create_new("segment-0001.jsonl"),
        Err(StoreFault::AlreadyThere {
            name: "segment-0001.jsonl".to_owned()
        })
    );
    place.close("segment-0001.jsonl");
    assert_eq!(place.append("segment-0001.jsonl", b"x"), Err(not_ours));
}

#[test]
fn names_that_lead_elsewhere_are_refused() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let mut place = begun(&data);
    for name in ["../x", "a/b", "", ".hidden", "/etc/x", "a\\b", "a\0b"] {
        let told = place.create_new(name).unwrap_err();
        assert!(
            matches!(
                told,
                StoreFault::Device {
                    deed: Deed::Create,
                    ..
                }
            ),
            "{name:?}: {told}"
        );
        assert!(place.read(name, 10).is_err() && place.link_no_clobber("x", name).is_err());
        assert!(matches!(
            data.small_files().read(name),
            Err(DiskFault::Name { .. })
        ));
    }
}

#[test]
fn a_segment_changed_removed_or_moved_by_another_program_is_left_and_a_new_one_takes_all() {
    type Meddling = fn(&Path);
    let meddlings: [(&str, Meddling); 4] = [
        ("removed", |file| std::fs::remove_file(file).unwrap()),
        ("moved", |file| {
            std::fs::rename(file, file.with_extension("bak")).unwrap();
        }),
        ("cut short", |file| {
            std::fs::OpenOptions::new()
                .write(true)
                .open(file)
                .unwrap()
                .set_len(10)
                .unwrap();
        }),
        ("replaced", |file| {
            let bytes = std::fs::read(file).unwrap();
            std::fs::remove_file(file).unwrap();
            std::fs::write(file, bytes).unwrap();
        }),
    ];
    for (told, meddle) in meddlings {
        let root = tempfile::tempdir().unwrap();
        let data = open(root.path());
        let place = begun(&data);
        let folder = place.folder().to_owned();
        let mut writer = writer(place);
        let acts = acts(1, 4);
        run(&mut writer, &acts[..2], || false);
        meddle(&folder.join("segment-0001.jsonl"));
        run(&mut writer, &acts[2..], || false);

        assert_eq!(*writer.keeping(), Keeping::Home, "{told}");
        let got = recover(&mut [data.bath_store(&bath())], &bath());
        let script: Vec<_> = acts.iter().flat_map(|act| act.entries.clone()).collect();
        assert_eq!(entries_of(&got), script, "{told}");
        assert!(
            names(&folder).contains(&"segment-0002.jsonl".to_owned()),
            "{told}"
        );
    }
}

#[test]
fn a_sealed_page_is_read_only_and_stays() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let content = json!({"plan": [1, 2.5], "actual": null});

    let page = seal(&mut data.daybook_store(), &bath(), &content).unwrap();

    let file = data.folder().join("daybook").join(&page.name);
    assert!(std::fs::metadata(&file).unwrap().permissions().readonly());
    assert_eq!(names(file.parent().unwrap()), [page.name.as_str()]);
    assert_eq!(seal(&mut data.daybook_store(), &bath(), &content).unwrap(), page);
    assert!(seal(&mut data.daybook_store(), &bath(), &json!(2)).is_err());
    let listed = Listed {
        name: page.name.clone(),
        page: Ok(page),
    };
    assert_eq!(list_pages(&mut data.daybook_store()).unwrap(), [listed]);
    let sealed = sealed_baths(&mut data.daybook_store()).unwrap();
    assert_eq!(sealed.into_iter().collect::<Vec<_>>(), [bath()]);
}

#[test]
fn a_link_never_clobbers() {
    let root = tempfile::tempdir().unwrap();
    let mut place = RealStore::new(root.path().to_owned(), None);
    for (name, bytes) in [("a", "one"), ("b", "two")] {
        place.create_new(name).unwrap();
        place.append(name, bytes.as_bytes()).unwrap();
        place.flush(name).unwrap();
    }

    assert_eq!(
        place.link_no_clobber("a", "b"),
        Err(StoreFault::AlreadyThere { name: "b".to_owned() })
    );
    assert_eq!(place.read("b", 10).unwrap(), b"two");
    assert_eq!(
        place.link_no_clobber("x", "c"),
        Err(StoreFault::NotThere { name: "c".to_owned() })
    );
    place.link_no_clobber("a", "c").unwrap();
    place.flush_dir().unwrap();
    assert_eq!(place.read_back("c", 10).unwrap(), b"one");
    assert_eq!(
        place.read("c", 2),
        Err(StoreFault::TooLarge {
            name: "c".to_owned(),
            bytes_max: 2
        })
    );
}

#[test]
fn a_small_file_is_replaced_whole_and_its_last_good_version_kept() {
    let root = tempfile::tempdir().unwrap();
    let files = open(root.path()).small_files();
    let is_good = |bytes: &[u8]| bytes.starts_with(b"good");
    assert_eq!(files.read("bench.toml").unwrap(), None);

    files.replace("bench.toml", b"good 1", is_good).unwrap();
    files.replace("bench.toml", b"good 2", is_good).unwrap();

    assert_eq!(files.read("bench.toml").unwrap().unwrap(), b"good 2");
    assert_eq!(files.read_last_good("bench.toml").unwrap().unwrap(), b"good 1");
}

#[test]
fn a_damaged_small_file_is_moved_aside_and_the_last_good_one_stays() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let files = data.small_files();
    let is_good = |bytes: &[u8]| bytes.starts_with(b"good");
    files.replace("shelf.toml", b"good 1", is_good).unwrap();
    files.replace("shelf.toml", b"good 2", is_good).unwrap();
    for count in 1..=2 {
        let spoilt = format!("spoilt {count}");
        std::fs::write(data.folder().join("shelf.toml"), &spoilt).unwrap();

        files.replace("shelf.toml", b"good 3", is_good).unwrap();

        let aside = std::fs::read(data.folder().join(format!("shelf.toml.damaged-{count}"))).unwrap();
        assert_eq!(aside, spoilt.as_bytes());
        assert_eq!(files.read("shelf.toml").unwrap().unwrap(), b"good 3");
        assert_eq!(files.read_last_good("shelf.toml").unwrap().unwrap(), b"good 1");
    }
}

#[test]
fn a_recipe_once_kept_with_a_bath_is_not_replaced() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    begun(&data);

    data.begin_bath(&bath(), b"name = \"y\"\n", b"[]").unwrap();

    let files = data.bath_files(&bath());
    assert_eq!(files.read("recipe.toml").unwrap().unwrap(), b"name = \"x\"\n");
    assert_eq!(files.read("sheet.json").unwrap().unwrap(), b"{}");
}

#[test]
fn a_place_that_refuses_sends_the_bath_to_the_spare_one() {
    let root = tempfile::tempdir().unwrap();
    let stick = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let home = begun(&data);
    let folder = home.folder().to_owned();
    let mut places = vec![home, spare_store(stick.path(), &bath())];
    let recovered = recover(&mut places, &bath());
    let mut writer = Writer::resume(&recovered, places, "potside 0.1.0").unwrap();
    std::fs::remove_dir_all(&folder).unwrap();
    std::fs::write(&folder, "a file where the folder was").unwrap();

    let saved = run(&mut writer, &acts(1, 2), || false);

    assert!(matches!(writer.keeping(), Keeping::Spare { place_index: 1, .. }));
    let got = recover(&mut [spare_store(stick.path(), &bath())], &bath());
    assert_eq!(entries_of(&got), saved);
}

#[test]
fn a_bath_folder_that_was_removed_is_made_again_with_all_of_the_bath() {
    let root = tempfile::tempdir().unwrap();
    let data = open(root.path());
    let mut writer = writer(begun(&data));
    let before = run(&mut writer, &acts(1, 2), || false);
    std::fs::remove_dir_all(data.bath_store(&bath()).folder()).unwrap();

    let after = run(&mut writer, &acts(2, 2), || false);

    assert!(
        matches!(writer.keeping(), Keeping::Home),
        "{:?}",
        writer.keeping()
    );
    let got = recover(&mut [data.bath_store(&bath())], &bath());
    assert_eq!(entries_of(&got), [before, after].concat());
}

/// A file system of 5 MiB, taken down again when it goes out of scope.
#[cfg(target_os = "linux")]
struct SmallDisk(tempfile::TempDir);

#[cfg(target_os = "linux")]
impl SmallDisk {
    /// Nothing where mounting isn't allowed.
    fn mount() -> Option<Self> {
        let folder = tempfile::tempdir().unwrap();
        let mut mount = std::process::Command::new("mount");
        mount
            .args(["-t", "tmpfs", "-o", "size=5m", "potside-test"])
            .arg(folder.path());
        let is_mounted = mount.output().is_ok_and(|told| told.status.success());
        is_mounted.then_some(Self(folder))
    }
}

#[cfg(target_os = "linux")]
impl Drop for SmallDisk {
    fn drop(&mut self) {
        drop(std::process::Command::new("umount").arg(self.0.path()).status());
    }
}

#[cfg(target_os = "linux")]
#[test]
#[expect(clippy::print_stdout, reason = "a skipped test says so")]
fn a_really_full_disk_gives_up_its_ballast_and_every_act_is_saved() {
    let Some(disk) = SmallDisk::mount() else {
        println!("skipped: mounting a small file system is not allowed here");
        return;
    };
    let data = DataFolder::open(disk.0.path()).unwrap();
    let mut writer = writer(begun(&data));
    let acts = acts(1, 40);
    let first = run(&mut writer, &acts[..10], || false);
    let mut filler = std::fs::File::create(disk.0.path().join("filler")).unwrap();
    while std::io::Write::write(&mut filler, &[7; 4096]).is_ok_and(|bytes| bytes > 0) {}

    let rest = run(&mut writer, &acts[10..], || false);

    let script: Vec<_> = acts.iter().flat_map(|act| act.entries.clone()).collect();
    assert_eq!([first, rest].concat(), script);
    assert_eq!(*writer.keeping(), Keeping::Home);
    assert!(!data.folder().join("ballast").exists());
    let got = recover(&mut [data.bath_store(&bath())], &bath());
    assert_eq!(entries_of(&got), script);
    let told = got
        .records
        .iter()
        .filter_map(|record| record.entry.body.get("fault")?.as_str());
    assert_eq!(
        told.collect::<Vec<_>>(),
        ["no room left to write (segment-0001.jsonl)"]
    );
}

#[cfg(target_os = "linux")]
#[test]
#[expect(clippy::print_stdout, reason = "a skipped test says so")]
fn a_folder_in_memory_is_known_as_volatile() {
    // Linux mounts a tmpfs at /dev/shm: shm_overview(7).
    let Ok(folder) = tempfile::tempdir_in("/dev/shm") else {
        println!("skipped: there is no /dev/shm here");
        return;
    };

    let data = DataFolder::open(folder.path()).unwrap();

    assert_eq!(data.footing(), Footing::Volatile { kind: "tmpfs" });
}

#[test]
fn a_disk_that_refuses_is_told_in_every_language_with_what_helps() {
    use std::io::ErrorKind;

    use chrono::{Offset as _, Utc};
    use potside::view::locale::{Language, Locale};

    for kind in [
        ErrorKind::StorageFull,
        ErrorKind::ReadOnlyFilesystem,
        ErrorKind::PermissionDenied,
    ] {
        let fault = DiskFault::System {
            deed: "write",
            path: "/data/bench.toml".into(),
            source: kind.into(),
        };
        let english = fault.to_string();
        assert!(english.contains("start with --data FOLDER"), "{english}");
        for language in [Language::German, Language::French] {
            let locale = Locale {
                language,
                ..Locale::plain(Utc.fix())
            };
            let said = locale.read(&english);
            assert!(said.contains("(/data/bench.toml)"), "{said}");
            for kept in ["the disk", "write", "start with"] {
                assert!(!said.contains(kept), "{said}");
            }
        }
    }
}
