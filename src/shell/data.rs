//! Where the program keeps things: baths going, the daybook, the bench, the dyer's own recipes.

use std::io::Read;
use std::path::{Path, PathBuf};

use super::disk::real_store::RealStore;
use super::disk::small_file::SmallFiles;
use super::disk::untouched::{BENCH, is_untouched};
use super::shelf::{file, settle};
use super::{bench_file, first_habits};
use crate::msg;
use crate::shelf::Shelf;
use crate::view::bench::Bench;

/// The data folder.
#[derive(Debug, Clone)]
pub struct Data {
    root: PathBuf,
    spare: Option<PathBuf>,
}

impl Data {
    /// The folder that was named, or the system's usual place for a program's data.
    ///
    /// `spare` names a second place, which has to be there; without it, the system's usual place for a program's
    /// state is one if it is another folder.
    pub(super) fn at(named: Option<&Path>, spare: Option<&Path>) -> Result<Self, String> {
        let root = match named {
            Some(named) => named.to_owned(),
            None => directories::ProjectDirs::from("", "", "potside")
                .map(|dirs| dirs.data_dir().to_owned())
                .ok_or("no home folder is known here; name one with --data FOLDER")?,
        };
        if let Some(spare) = spare.filter(|spare| !spare.is_dir()) {
            return Err(format!("--spare {}: there is no such folder", spare.display()));
        }
        let usual = || {
            let dirs = directories::ProjectDirs::from("", "", "potside")?;
            dirs.state_dir().map(Path::to_owned)
        };
        let spare = spare.map(Path::to_owned).or_else(usual);
        Ok(Self { root, spare })
    }

    /// The spare place, made if it is the usual one. A place that can't be made is none.
    #[must_use]
    pub fn spare(&self) -> Option<PathBuf> {
        let spare = self.spare.clone()?;
        let is_there = spare.is_dir() || std::fs::create_dir_all(&spare).is_ok();
        (is_there && spare != self.root).then_some(spare)
    }

    /// The folder itself.
    #[must_use]
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// A folder a bath that is going.
    #[must_use]
    pub fn baths(&self) -> PathBuf {
        self.root.join("baths")
    }

    /// The records of finished baths.
    #[must_use]
    pub fn daybook(&self) -> PathBuf {
        self.root.join("daybook")
    }

    /// The sheets of labels that were written from the glass.
    #[must_use]
    pub fn labels(&self) -> PathBuf {
        self.root.join("labels")
    }

    /// The file of the bench.
    pub(super) fn bench_file(&self) -> PathBuf {
        self.root.join(BENCH)
    }

    /// Whether nothing of a dyer's was ever kept here: the first start. Asked before anything is opened.
    pub(super) fn is_untouched(&self) -> bool {
        is_untouched(&self.root, self.spare.as_deref())
    }

    /// The bench as it was last kept; the usual one, in the language of the system, if there is none yet.
    pub(super) fn bench(&self) -> Result<Bench, String> {
        let file = self.bench_file();
        if !file.exists() {
            return Ok(first_habits::bench());
        }
        let text = read_text(&file, bench_file::TEXT_BYTES_MAX)?;
        bench_file::read(&text).map_err(|why| format!("{}: {why}", file.display()))
    }

    /// Keeps the bench; the last good one stays beside it. One line if it can't.
    pub(super) fn keep_bench(&self, text: &str) -> Result<(), String> {
        let files = SmallFiles::new(self.root.clone());
        let is_good =
            |bytes: &[u8]| std::str::from_utf8(bytes).is_ok_and(|text| bench_file::read(text).is_ok());
        files
            .replace(BENCH, text.as_bytes(), is_good)
            .map_err(|fault| msg!("the bench isn't kept: {fault}", fault = fault))
    }

    /// The small files of the folder: bench, shelf.
    pub(super) fn small_files(&self) -> SmallFiles {
        SmallFiles::new(self.root.clone())
    }

    /// The shelf with every sealed record put down on it, in memory; nothing if there is none yet. Beside it, what a
    /// person should know.
    pub(super) fn shelf(&self) -> Result<(Option<Shelf>, Vec<String>), String> {
        let shelf = file::load(&self.small_files()).map_err(|faults| file::not_over(&faults))?;
        let Some(mut shelf) = shelf else {
            return Ok((None, Vec::new()));
        };
        if !self.daybook().exists() {
            return Ok((Some(shelf), Vec::new()));
        }
        let mut daybook = RealStore::new(self.daybook(), None);
        let (_, told) = settle::put_down_all(&mut shelf, &mut daybook)?;
        Ok((Some(shelf), told))
    }

    /// The dyer's own recipe files, by name.
    pub(super) fn own_recipe_files(&self) -> Vec<PathBuf> {
        self.own_files("recipes")
    }

    /// The dyer's own work lists, by name.
    pub(super) fn own_worklist_files(&self) -> Vec<PathBuf> {
        self.own_files("worklists")
    }

    fn own_files(&self, folder: &str) -> Vec<PathBuf> {
        let Ok(folder) = std::fs::read_dir(self.root.join(folder)) else {
            return Vec::new();
        };
        let mut files: Vec<PathBuf> = folder
            .filter_map(|entry| entry.ok().map(|entry| entry.path()))
            .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
            .collect();
        files.sort();
        files
    }
}

/// A text file of at most so many bytes, or one line on why it can't be read.
#[expect(
    clippy::disallowed_methods,
    reason = "small files of the dyer's are opened here"
)]
pub(super) fn read_text(path: &Path, bytes_max: usize) -> Result<String, String> {
    let shown = path.display();
    let file = std::fs::File::open(path).map_err(|why| format!("{shown}: can't be opened: {why}"))?;
    let limit = u64::try_from(bytes_max).unwrap_or(u64::MAX).saturating_add(1);
    let mut bytes = Vec::new();
    file.take(limit)
        .read_to_end(&mut bytes)
        .map_err(|why| format!("{shown}: can't be read: {why}"))?;
    if bytes.len() > bytes_max {
        return Err(format!(
            "{shown}: longer than {bytes_max} bytes; a file of this kind is far shorter"
        ));
    }
    String::from_utf8(bytes).map_err(|why| {
        let at = why.utf8_error().valid_up_to();
        format!("{shown}: not a text in UTF-8 (byte {at}); save it as UTF-8")
    })
}
