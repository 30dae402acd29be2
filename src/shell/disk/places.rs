//! The data folder as the keeper sees it: the baths of the home place and of the spare one.

use std::path::Path;

use super::DiskFault;
use super::data_folder::DataFolder;
use super::real_store::RealStore;
use super::small_file::SmallFiles;
use crate::craft::time::Moment;
use crate::journal::id::BathId;
use crate::journal::store::{Deed, StoreFault};
use crate::keeper::{Folder, Listing};
use crate::msg;
use crate::shelf::{ShelfAsk, ShelfDone, ShelfSeen};
use crate::shell::clock;
use crate::shell::shelf::seen;
use crate::shell::shelf::settle::settle;

/// A bath's folder in a spare place begins with this.
pub(super) const SPARE_PREFIX: &str = "potside-";

impl Folder for DataFolder {
    type Store = RealStore;

    fn baths(&mut self) -> Result<Listing, StoreFault> {
        let mut listing = Listing {
            baths: Self::baths(self).map_err(|fault| told(Deed::List, &fault))?,
            troubles: Vec::new(),
        };
        if let Some(spare) = self.spare() {
            match spare_baths(spare) {
                Ok(baths) => listing.baths.extend(baths),
                Err(refusal) => listing
                    .troubles
                    .push(format!("the spare place {}: {refusal}", spare.display())),
            }
        }
        listing.baths.sort();
        listing.baths.dedup();
        Ok(listing)
    }

    fn begin_bath(&mut self, bath: &BathId, recipe_toml: &[u8], sheet_json: &[u8]) -> Result<(), StoreFault> {
        let at_home = Self::begin_bath(self, bath, recipe_toml, sheet_json);
        match (at_home, self.spare()) {
            (Ok(()), _) => Ok(()),
            (Err(fault), None) => Err(told(Deed::Create, &fault)),
            (Err(_), Some(spare)) => {
                begin_spare(spare, bath, recipe_toml, sheet_json).map_err(|fault| told(Deed::Create, &fault))
            }
        }
    }

    fn places(&mut self, bath: &BathId) -> Vec<RealStore> {
        let mut places = vec![self.bath_store(bath)];
        places.extend(self.spare().map(|spare| spare_store(spare, bath)));
        places
    }

    fn daybook(&mut self) -> RealStore {
        self.daybook_store()
    }

    fn follow_daybook(&mut self) -> Vec<String> {
        let settled = settle(&self.small_files(), &mut self.daybook_store());
        settled.unwrap_or_else(|why| vec![format!("the shelf isn't moved on yet: {why}")])
    }

    fn shelf(&mut self) -> ShelfSeen {
        seen::look(&self.small_files())
    }

    fn ask_shelf(&mut self, asked: &ShelfAsk, now: Moment) -> Result<(ShelfDone, Vec<String>), String> {
        let today = clock::day_of(now.wall_ms);
        seen::ask(&self.small_files(), &mut self.daybook_store(), asked, today)
    }

    fn recipe_of(&mut self, bath: &BathId) -> Option<String> {
        let spare = self
            .spare()
            .map(|spare| SmallFiles::new(spare.join(format!("{SPARE_PREFIX}{bath}"))));
        let files = std::iter::once(self.bath_files(bath)).chain(spare);
        files
            .filter_map(|files| files.read("recipe.toml").ok().flatten())
            .find_map(|bytes| String::from_utf8(bytes).ok())
    }
}

/// The store of one bath's journal in a spare place, such as a stick: `<place>/potside-<bath-id>`. The folder is made
/// when the first file is, the place itself never: a stick that isn't there isn't made up.
#[must_use]
pub fn spare_store(place: &Path, bath: &BathId) -> RealStore {
    RealStore::made_late(place.join(format!("{SPARE_PREFIX}{bath}")), None)
}

fn begin_spare(spare: &Path, bath: &BathId, recipe_toml: &[u8], sheet_json: &[u8]) -> Result<(), DiskFault> {
    let folder = spare.join(format!("{SPARE_PREFIX}{bath}"));
    super::data_folder::put_bath(&folder, recipe_toml, sheet_json)
}

fn spare_baths(spare: &Path) -> std::io::Result<Vec<BathId>> {
    if !spare.exists() {
        return Ok(Vec::new());
    }
    let mut baths = Vec::new();
    for item in std::fs::read_dir(spare)? {
        let name = item?.file_name();
        let bath = name.to_str().and_then(|name| name.strip_prefix(SPARE_PREFIX));
        baths.extend(bath.and_then(|bath| BathId::from_text(bath).ok()));
    }
    Ok(baths)
}

fn told(deed: Deed, fault: &DiskFault) -> StoreFault {
    StoreFault::Device {
        deed,
        name: msg!("the folder of the bath").to_owned(),
        detail: fault.to_string(),
    }
}
