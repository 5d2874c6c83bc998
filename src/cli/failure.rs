//! Why a command ends without success, and the exit code of each reason.

use std::io::{self, Write};
use std::ops::Range;

use super::render_error::{Excerpt, Message};
use super::style::Style;
use crate::document::Problem;
use crate::host::journal_file::{Rescued, Unsaved};
use crate::host::library::{BadFile, Reason};

/// Why a command ends early.
#[derive(Debug)]
pub(super) enum Failure {
    /// The arguments make no command; the text is complete.
    Usage(String),
    /// An argument or standard input is not what it should be.
    BadText(BadText),
    BadFiles(Vec<BadFile>),
    Missing(Missing),
    /// There is no sound device where one is indispensable, and why.
    NoSound(String),
    /// What is asked for cannot be made, and why.
    Impossible {
        name: String,
        why: String,
    },
    /// A check found something and has already told it.
    Found,
    CannotWrite {
        name: String,
        error: io::Error,
    },
    /// Answers that the journal refused are in a file of their own.
    Rescued(Rescued),
    /// Answers are on no disk at all.
    Unsaved(Unsaved),
    /// A signal asked for the end.
    Ended {
        /// Its number.
        signal: u8,
        /// What there is to tell of answers that the journal refused.
        refused: Option<Box<Self>>,
    },
    /// The reader of standard output has enough.
    ClosedPipe,
}

/// A text given by the user, and what is wrong in it.
#[derive(Debug)]
pub(super) struct BadText {
    /// What it is called, such as `LINE`.
    pub name: String,
    pub text: String,
    /// The bytes that are wrong.
    pub range: Range<usize>,
    pub message: String,
    pub expected: Option<String>,
}

/// A name of something that the library does not hold.
#[derive(Debug)]
pub(super) struct Missing {
    /// What was asked for, such as `device`.
    pub what: &'static str,
    pub id: String,
    pub near: Option<String>,
    /// Files that may have been meant to hold it.
    pub bad: Vec<BadFile>,
}

impl Failure {
    pub(super) fn exit_code(&self) -> u8 {
        let missing = |bad: &BadFile| matches!(&bad.reason, Reason::Unreadable(_));
        match self {
            Self::ClosedPipe => 0,
            // As shells count them.
            Self::Ended { signal, .. } => 128 + signal,
            Self::Found => 1,
            Self::Usage(_) => 2,
            Self::BadFiles(files) if files.iter().any(missing) => 66,
            Self::Missing(_) => 66,
            Self::NoSound(_) => 69,
            Self::BadText(_) | Self::BadFiles(_) | Self::Impossible { .. } => 65,
            Self::CannotWrite { .. } | Self::Rescued(_) | Self::Unsaved(_) => 73,
        }
    }

    /// Tells the failure on standard error.
    pub(super) fn tell(&self, json: bool, style: Style) {
        match self {
            Self::ClosedPipe | Self::Found => {}
            Self::Ended { refused, .. } => {
                if let Some(refused) = refused {
                    refused.tell(json, style);
                }
            }
            Self::Usage(text) if json => tell(&Message::plain(summary(text)), json, style),
            Self::Usage(text) => {
                let lines: Vec<String> = text.lines().map(|line| style.safe(line)).collect();
                say(&format!("{}\n", lines.join("\n")));
            }
            Self::BadText(bad) => tell(&bad.message(), json, style),
            Self::Impossible { name, why } => {
                tell(&Message::plain(format!("`{name}`: {why}")), json, style);
            }
            Self::BadFiles(files) => {
                for file in files {
                    tell_file(file, json, style);
                }
            }
            Self::Missing(missing) => {
                for file in &missing.bad {
                    tell_file(file, json, style);
                }
                tell(&missing.message(), json, style);
            }
            Self::NoSound(why) => {
                tell(&Message::plain(format!("no sound: {why}")), json, style);
            }
            Self::Rescued(rescued) => tell(&Message::plain(rescued.to_string()), json, style),
            Self::Unsaved(unsaved) => {
                let what = format!(
                    "{unsaved}; they follow: put them into a file, which `plagal journal merge` takes in"
                );
                tell(&Message::plain(what), json, style);
                say(&ascii(&unsaved.lines.concat()));
            }
            Self::CannotWrite { name, error } => {
                let what = format!("cannot write `{name}`: {error}");
                tell(&Message::plain(what), json, style);
            }
        }
    }
}

impl BadText {
    /// What `error` says of a range of the text called `name`.
    pub(super) fn new(
        name: &str,
        text: &str,
        range: Range<usize>,
        error: &dyn std::fmt::Display,
    ) -> Self {
        Self {
            name: name.to_owned(),
            text: text.to_owned(),
            range,
            message: error.to_string(),
            expected: None,
        }
    }

    /// What was expected there instead.
    pub(super) fn expected(self, expected: impl Into<String>) -> Self {
        Self {
            expected: Some(expected.into()),
            ..self
        }
    }

    fn message(&self) -> Message {
        Message {
            what: self.message.clone(),
            expected: self.expected.clone(),
            excerpt: Some(Excerpt::of_bytes(&self.name, &self.text, &self.range)),
        }
    }
}

impl Missing {
    fn expected(&self) -> String {
        match self.what {
            "learner" => "a name that `plagal journal learners` lists".to_owned(),
            "exercise" => {
                "an id that `plagal exercises` lists, or a file that ends in `.json`".to_owned()
            }
            "device" => "an id that `plagal devices` lists".to_owned(),
            "texture" => "an id that `plagal textures` lists".to_owned(),
            "sound" | "kit" => "an id that `plagal sounds` lists".to_owned(),
            what => format!("the id of a {what}"),
        }
    }

    fn message(&self) -> Message {
        let mut what = format!("there is no {} `{}`", self.what, self.id);
        if let Some(near) = &self.near {
            what += &format!("; did you mean `{near}`?");
        } else {
            what += &format!("; expected {}", self.expected());
        }
        Message {
            what,
            expected: Some(self.expected()),
            excerpt: None,
        }
    }
}

/// Tells everything that is wrong with a file.
pub(super) fn tell_file(file: &BadFile, json: bool, style: Style) {
    match &file.reason {
        Reason::Unreadable(_) | Reason::SameId { .. } | Reason::Unfitting(_) => {
            let mut message = Message::plain(file.reason.to_string());
            message.excerpt = Some(Excerpt::whole(&file.name));
            tell(&message, json, style);
        }
        Reason::Faulty(faults) => {
            for fault in faults.iter() {
                let whole = matches!(fault.problem, Problem::More { .. });
                let excerpt = if whole {
                    Excerpt::whole(&file.name)
                } else {
                    Excerpt::of_fault(&file.name, faults.text(), fault)
                };
                let message = Message {
                    what: fault.to_string(),
                    expected: fault.problem.expected().map(str::to_owned),
                    excerpt: Some(excerpt),
                };
                tell(&message, json, style);
            }
        }
    }
}

/// Tells one message on standard error.
pub(super) fn tell(message: &Message, json: bool, style: Style) {
    if json {
        say(&message.json());
    } else {
        say(&message.rendered(style));
    }
}

/// JSON with nothing in it that a terminal might obey, and the same meaning.
fn ascii(json: &str) -> String {
    let mut text = String::with_capacity(json.len());
    for unit in json.encode_utf16() {
        match u8::try_from(unit) {
            Ok(byte @ (b'\n' | b' '..=b'~')) => text.push(byte.into()),
            Ok(_) | Err(_) => text += &format!("\\u{unit:04x}"),
        }
    }
    text
}

/// Writes to standard error; where that is closed, nobody listens.
fn say(text: &str) {
    let _ = io::stderr().write_all(text.as_bytes());
}

/// The first line of a usage message, without its label.
fn summary(text: &str) -> String {
    let first = text.lines().next().unwrap_or_default();
    first.trim_start_matches("error: ").to_owned()
}
