//! Where the user's files live, by the XDG Base Directory Specification 0.8.

use std::ffi::OsString;
use std::path::PathBuf;

/// The folder of this program inside the base directories.
const NAME: &str = "plagal";

/// The home of the user's exercises, sounds, devices and settings when none is named:
/// `plagal` in `XDG_CONFIG_HOME`, which is `.config` by default.
///
/// `variable` looks up an environment variable; nothing if the environment names no home.
#[must_use]
pub fn home(variable: impl Fn(&str) -> Option<OsString>) -> Option<PathBuf> {
    let base = base(&variable, "XDG_CONFIG_HOME", ".config", "APPDATA")?;
    Some(base.join(NAME))
}

/// The journal when none is named: `plagal/journal.jsonl` in `XDG_DATA_HOME`, which is
/// `.local/share` by default.
#[must_use]
pub fn journal(variable: impl Fn(&str) -> Option<OsString>) -> Option<PathBuf> {
    let base = base(&variable, "XDG_DATA_HOME", ".local/share", "LOCALAPPDATA")?;
    Some(base.join(NAME).join("journal.jsonl"))
}

fn base(
    variable: &impl Fn(&str) -> Option<OsString>,
    xdg: &str,
    in_home: &str,
    windows: &str,
) -> Option<PathBuf> {
    // The specification: a relative path is invalid and must be ignored, an empty one too.
    let absolute = |name: &str| {
        variable(name)
            .map(PathBuf::from)
            .filter(|path| path.is_absolute())
    };
    absolute(xdg)
        .or_else(|| cfg!(windows).then(|| absolute(windows)).flatten())
        .or_else(|| Some(absolute("HOME")?.join(in_home)))
}

#[cfg(all(test, unix))]
mod tests {
    use std::ffi::OsString;
    use std::path::Path;

    use super::{home, journal};

    #[test]
    fn the_base_directories_are_followed() {
        type Variables = &'static [(&'static str, &'static str)];
        let cases: [(Variables, Option<&str>, Option<&str>); 4] = [
            (
                &[("HOME", "/home/mira")],
                Some("/home/mira/.config/plagal"),
                Some("/home/mira/.local/share/plagal/journal.jsonl"),
            ),
            (
                &[
                    ("HOME", "/home/mira"),
                    ("XDG_CONFIG_HOME", "/etc/mira"),
                    ("XDG_DATA_HOME", "/srv/mira"),
                ],
                Some("/etc/mira/plagal"),
                Some("/srv/mira/plagal/journal.jsonl"),
            ),
            (
                &[
                    ("HOME", "/home/mira"),
                    ("XDG_CONFIG_HOME", "relative"),
                    ("XDG_DATA_HOME", ""),
                ],
                Some("/home/mira/.config/plagal"),
                Some("/home/mira/.local/share/plagal/journal.jsonl"),
            ),
            (&[], None, None),
        ];
        for (variables, expected_home, expected_journal) in cases {
            let variable = |name: &str| {
                let found = variables.iter().find(|(key, _)| *key == name);
                found.map(|(_, value)| OsString::from(value))
            };
            assert_eq!(home(variable).as_deref(), expected_home.map(Path::new));
            assert_eq!(
                journal(variable).as_deref(),
                expected_journal.map(Path::new)
            );
        }
    }
}
