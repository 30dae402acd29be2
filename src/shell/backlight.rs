//! The light behind the glass, where the machine lets a program set it: `/sys/class/backlight` on Linux, which a
//! Raspberry Pi's touch display and most laptops have. Where there is none, or it may not be written, nothing is done.

use std::path::{Path, PathBuf};

use crate::view::dimming::Light;

/// Where Linux keeps them.
const FOLDER: &str = "/sys/class/backlight";

/// A dimmed glass has so many hundredths of the light it had.
const DIMMED_PERCENT: u32 = 30;

/// One light, and what it stood at before it was dimmed.
#[derive(Debug)]
pub(super) struct Backlight {
    file: Option<PathBuf>,
    /// What it stood at, while it is dimmed.
    full: Option<u32>,
}

impl Backlight {
    /// The first light there is.
    pub(super) fn find() -> Self {
        Self::find_in(Path::new(FOLDER))
    }

    fn find_in(folder: &Path) -> Self {
        let mut lights: Vec<PathBuf> = std::fs::read_dir(folder)
            .map(|entries| {
                entries
                    .flatten()
                    .map(|entry| entry.path().join("brightness"))
                    .collect()
            })
            .unwrap_or_default();
        lights.sort();
        Self {
            file: lights.into_iter().next(),
            full: None,
        }
    }

    /// Dims or undims. What somebody set by hand meanwhile is kept as the full light.
    pub(super) fn follow(&mut self, light: Light) {
        match (light, self.full) {
            (Light::Dimmed, None) => {
                let Some(full) = self.read().filter(|full| *full > 1) else {
                    return;
                };
                let dimmed = full.saturating_mul(DIMMED_PERCENT).div_ceil(100).max(1);
                if self.write(dimmed) {
                    self.full = Some(full);
                }
            }
            (Light::Full, Some(full)) => {
                let dimmed = full.saturating_mul(DIMMED_PERCENT).div_ceil(100).max(1);
                if self.read() == Some(dimmed) {
                    self.write(full);
                }
                self.full = None;
            }
            (Light::Dimmed, Some(_)) | (Light::Full, None) => {}
        }
    }

    fn read(&self) -> Option<u32> {
        let text = std::fs::read_to_string(self.file.as_ref()?).ok()?;
        text.trim().parse().ok()
    }

    #[expect(clippy::disallowed_methods, reason = "this file owns the light")]
    fn write(&self, value: u32) -> bool {
        let Some(file) = &self.file else { return false };
        std::fs::write(file, format!("{value}\n")).is_ok()
    }
}

impl Drop for Backlight {
    fn drop(&mut self) {
        self.follow(Light::Full);
    }
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "tests play the kernel's folder")]
mod tests {
    use super::*;

    fn light(at: &str) -> (tempfile::TempDir, PathBuf, Backlight) {
        let folder = tempfile::tempdir().unwrap();
        let one = folder.path().join("panel");
        std::fs::create_dir(&one).unwrap();
        let file = one.join("brightness");
        std::fs::write(&file, at).unwrap();
        let light = Backlight::find_in(folder.path());
        (folder, file, light)
    }

    fn read(file: &Path) -> String {
        std::fs::read_to_string(file).unwrap().trim().to_owned()
    }

    #[test]
    fn it_is_dimmed_to_a_third_and_put_back() {
        let (_folder, file, mut light) = light("200\n");
        light.follow(Light::Dimmed);
        assert_eq!(read(&file), "60");
        light.follow(Light::Dimmed);
        light.follow(Light::Full);
        assert_eq!(read(&file), "200");
    }

    #[test]
    fn it_is_put_back_when_the_program_ends_and_never_goes_out() {
        let (_folder, file, mut light) = light("2\n");
        light.follow(Light::Dimmed);
        assert_eq!(read(&file), "1");
        drop(light);
        assert_eq!(read(&file), "2");
    }

    #[test]
    fn what_a_hand_set_meanwhile_stays() {
        let (_folder, file, mut light) = light("200\n");
        light.follow(Light::Dimmed);
        std::fs::write(&file, "150\n").unwrap();
        light.follow(Light::Full);
        assert_eq!(read(&file), "150");
    }

    #[test]
    fn a_machine_without_one_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let mut light = Backlight::find_in(folder.path());
        light.follow(Light::Dimmed);
        light.follow(Light::Full);
    }
}
