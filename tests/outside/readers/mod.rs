//! Everything in the program that reads a text from outside, with what must be so whatever
//! the text is: it ends in a value that is printed as it is read, or in an error that names
//! its place and tells no terminal what to do; never in a panic.

mod answers;
mod files;
mod music;

use std::fmt::Display;

/// Reads a text; the number chooses among circumstances, such as the key. Tells whether the
/// text was read.
pub(crate) type Read = fn(&str, usize) -> bool;

pub(crate) struct Reader {
    pub(crate) name: &'static str,
    pub(crate) read: Read,
    /// Texts that are read, to be changed.
    pub(crate) samples: fn() -> Vec<String>,
}

pub(crate) const READERS: [Reader; 12] = [
    Reader {
        name: "numeral",
        read: music::numeral,
        samples: music::words,
    },
    Reader {
        name: "line",
        read: music::line,
        samples: music::lines,
    },
    Reader {
        name: "symbol",
        read: music::symbol,
        samples: music::symbols,
    },
    Reader {
        name: "RomanText",
        read: music::roman_text,
        samples: music::words,
    },
    Reader {
        name: "key",
        read: music::key,
        samples: music::keys,
    },
    Reader {
        name: "pattern",
        read: music::pattern,
        samples: music::patterns,
    },
    Reader {
        name: "exercise",
        read: files::exercise,
        samples: files::exercises,
    },
    Reader {
        name: "settings",
        read: files::settings,
        samples: files::settings_files,
    },
    Reader {
        name: "sound",
        read: files::sound,
        samples: files::sounds,
    },
    Reader {
        name: "device",
        read: files::device,
        samples: files::devices,
    },
    Reader {
        name: "journal",
        read: files::journal,
        samples: files::journal_lines,
    },
    Reader {
        name: "answer",
        read: answers::answer,
        samples: answers::typed,
    },
];

/// Longer than any message need be: the longest quotes what it is about.
const LONGEST: usize = 1_000;

/// What must be so of a message.
fn told(error: &impl Display) {
    let message = error.to_string();
    assert!(!message.is_empty());
    assert!(message.len() < LONGEST, "{message}");
}
