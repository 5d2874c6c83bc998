//! `plagal check`: all faults of data files.

use std::io;
use std::path::{Path, PathBuf};

use clap::Args;
use serde::Serialize;

use super::context::{Context, print};
use super::failure::{Failure, tell_file};
use super::shelves;
use crate::devices::{Catalogue, Device};
use crate::document::{self, Faults, Problem, Value};
use crate::exercise::Exercise;
use crate::host::library::{BadFile, Named, Reason, read_file};
use crate::host::settings;
use crate::synth::{Kit, Sound};

/// Check exercise, device, sound and settings files: all faults, each with its place
#[derive(Debug, Args)]
pub(super) struct Check {
    /// The files, or folders of which all .json files are checked
    #[arg(required = true, value_name = "FILE")]
    files: Vec<PathBuf>,
}

/// What a data file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum FileKind {
    Exercise,
    Device,
    Sound,
    /// The percussion of a band.
    Kit,
    Settings,
}

#[derive(Serialize)]
struct Checked {
    file: String,
    kind: Option<&'static str>,
    faults: usize,
}

impl Check {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let catalogue = shelves::catalogue(&shelves::devices(context))?;
        let mut checked = Vec::new();
        let mut unreadable = Vec::new();
        let mut paths = Vec::new();
        for path in &self.files {
            let found = files(path);
            if found.is_empty() {
                unreadable.push(BadFile {
                    name: path.display().to_string(),
                    reason: Reason::Unreadable(io::Error::other(
                        "the folder holds nothing to check; expected files that end in `.json`",
                    )),
                });
            }
            paths.extend(found);
        }
        for path in &paths {
            let mut kind = None;
            let read = read_file(path, |text| {
                let found =
                    document::read(text, |value, faults| FileKind::of(value, path, faults))?;
                kind = Some(found);
                found.check(text, &catalogue, context)
            });
            let faults = match read {
                Ok(()) => 0,
                Err(BadFile {
                    reason: Reason::Unreadable(error),
                    name,
                }) => {
                    let reason = Reason::Unreadable(error);
                    unreadable.push(BadFile { name, reason });
                    continue;
                }
                Err(bad) => {
                    tell_file(&bad, context.json, context.error_style);
                    bad.faults()
                }
            };
            checked.push(Checked {
                file: path.display().to_string(),
                kind: kind.map(FileKind::name),
                faults,
            });
        }
        self.report(&checked, context)?;
        if !unreadable.is_empty() {
            Err(Failure::BadFiles(unreadable))
        } else if checked.iter().any(|file| file.faults > 0) {
            Err(Failure::Found)
        } else {
            Ok(())
        }
    }

    fn report(&self, checked: &[Checked], context: &Context) -> Result<(), Failure> {
        if context.json {
            return context.print_json(&serde_json::json!({ "files": checked }));
        }
        let lines = checked.iter().map(|file| {
            let name = context.style.safe(&file.file);
            let kind = file.kind.unwrap_or("unknown kind");
            match file.faults {
                0 => format!("{name}: {kind}, no faults\n"),
                1 => format!("{name}: {kind}, 1 fault\n"),
                faults => format!("{name}: {kind}, {faults} faults\n"),
            }
        });
        print(&lines.collect::<String>())
    }
}

/// The file, or the `.json` files of a folder and of the folders in it, by their names.
fn files(path: &Path) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(path) else {
        return vec![path.to_owned()];
    };
    let mut found: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    found.sort();
    let is_json = |path: &Path| path.extension().is_some_and(|ending| ending == "json");
    // Not through links, which may lead round in a circle.
    let is_folder = |path: &Path| path.symlink_metadata().is_ok_and(|found| found.is_dir());
    let (folders, mut found): (Vec<PathBuf>, Vec<PathBuf>) =
        found.into_iter().partition(|path| is_folder(path));
    found.retain(|path| is_json(path));
    found.extend(folders.iter().flat_map(|folder| files(folder)));
    found
}

impl FileKind {
    fn name(self) -> &'static str {
        match self {
            Self::Exercise => "exercise",
            Self::Device => "device",
            Self::Sound => "sound",
            Self::Kit => "kit",
            Self::Settings => "settings",
        }
    }

    /// By the fields that only this kind has, or by the name of its file or folder.
    fn of(value: &Value, path: &Path, faults: &mut Faults) -> Option<Self> {
        let named = |name: &str| path.file_name().is_some_and(|file| file == name);
        let within = |folder: &str| {
            let parent = path.parent().and_then(Path::file_name);
            parent.is_some_and(|parent| parent == folder)
        };
        if value.has("drums") {
            Some(Self::Kit)
        } else if value.has("layers") || within(Sound::FOLDER) {
            Some(Self::Sound)
        } else if value.has("patterns") || value.has("rule") || within(Device::FOLDER) {
            Some(Self::Device)
        } else if value.has("devices") || within(Exercise::FOLDER) {
            Some(Self::Exercise)
        } else if named(settings::FILE) {
            Some(Self::Settings)
        } else {
            let problem = Problem::Wrong {
                message: "it is no file of plagal".to_owned(),
                expected: Some(
                    "`devices` of an exercise, `patterns` of a device or `layers` of a sound"
                        .to_owned(),
                ),
                near: None,
            };
            value.fault(problem, faults)
        }
    }

    fn check(self, text: &str, catalogue: &Catalogue, context: &Context) -> Result<(), Faults> {
        match self {
            Self::Exercise => {
                shelves::with_known(catalogue, context, |known| Exercise::check(text, known))
            }
            Self::Device => Device::read(text).map(drop),
            Self::Sound => Sound::read(text).map(drop),
            Self::Kit => Kit::read(text).map(drop),
            Self::Settings => document::read(text, settings::read).map(drop),
        }
    }
}
