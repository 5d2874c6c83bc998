//! One device: what it is called, what it is made of, and how to hear it.

use super::family::Family;
use super::id::DeviceId;
use super::pattern::{Expansion, Pattern, PatternError, PatternFault};
use super::rule::Rule;
use crate::document::{
    self, Faults, Mismatch, Object, Value, distinct, flag, list, number, one_of, parsed, placed,
    text,
};
use crate::theory::{BareSix, Line, LineError, Meter, Mode};

/// What finds a device in a line.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// Any of its patterns.
    Patterns {
        /// The patterns as they are written.
        written: Vec<Pattern>,
        /// What they stand for, each choice made.
        expansions: Vec<Expansion>,
    },
    /// A condition that patterns cannot say. Its patterns are typical cases of it.
    Rule {
        /// The condition.
        rule: Rule,
        /// The patterns as they are written.
        written: Vec<Pattern>,
        /// What they stand for, each choice made.
        expansions: Vec<Expansion>,
    },
}

/// A line that a device's file gives as an example or as a counterexample.
#[derive(Clone, Debug, PartialEq)]
pub struct Example {
    /// The mode it is in.
    pub mode: Mode,
    /// The line as written.
    pub line: Line,
}

/// A named harmonic idiom.
#[derive(Clone, Debug, PartialEq)]
pub struct Device {
    /// The id that exercises and journals name it by.
    pub id: DeviceId,
    /// The trade's names, the one to print first.
    pub names: Vec<String>,
    /// The family it belongs to.
    pub family: Family,
    /// The modes in which the device is met.
    pub modes: Vec<Mode>,
    /// What says whether a line holds it.
    pub form: Form,
    /// What gives it away by ear.
    pub tell: String,
    /// How it works, in a sentence.
    pub explains: String,
    /// Devices that it is confused with.
    pub neighbours: Vec<DeviceId>,
    /// Devices that take its chords over where both are found.
    pub yields_to: Vec<DeviceId>,
    /// Where the handbooks describe it.
    pub source: String,
    /// Share of tunes of the repertoire that have it, 0 to 1.
    pub share: f64,
    /// Whether questions can be made on it; else it is only recognised.
    pub asked: bool,
    /// Lines that hold it.
    pub examples: Vec<Example>,
    /// Lines that look like it and do not hold it.
    pub counterexamples: Vec<Example>,
}

impl Device {
    /// The name to print.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.names[0]
    }

    /// The rule that finds the device, if patterns do not.
    #[must_use]
    pub fn rule(&self) -> Option<Rule> {
        match self.form {
            Form::Rule { rule, .. } => Some(rule),
            Form::Patterns { .. } => None,
        }
    }

    /// Every way to spell the device out, in all its modes; of a rule, the typical ways.
    #[must_use]
    pub fn expansions(&self) -> &[Expansion] {
        match &self.form {
            Form::Patterns { expansions, .. } | Form::Rule { expansions, .. } => expansions,
        }
    }

    /// The ways to spell the device out in one mode.
    pub fn expansions_in(&self, mode: Mode) -> impl Iterator<Item = &Expansion> {
        let met = self.modes.contains(&mode);
        self.expansions()
            .iter()
            .filter(move |expansion| met && expansion.suits(mode))
    }

    /// The pattern as text.
    #[must_use]
    pub fn pattern_text(&self) -> String {
        let listed = |written: &[Pattern]| {
            let texts: Vec<String> = written.iter().map(ToString::to_string).collect();
            texts.join("; ")
        };
        match &self.form {
            Form::Patterns { written, .. } => listed(written),
            Form::Rule { rule, written, .. } if written.is_empty() => format!("rule: {rule}"),
            Form::Rule { rule, written, .. } => {
                format!("rule: {rule}, such as {}", listed(written))
            }
        }
    }

    /// Reads a device file.
    ///
    /// # Errors
    /// All faults of the file at once.
    pub fn read(text: &str) -> Result<Self, Faults> {
        document::read(text, device)
    }
}

fn device(value: &Value, faults: &mut Faults) -> Option<Device> {
    let id = || parsed("a device id", str::parse::<DeviceId>);
    let mode = one_of(&[("major", Mode::Major), ("minor", Mode::Minor)]);
    let mut fields = Object::of(value, faults)?;
    let device_id = fields.required("id", id());
    let names = fields.required("names", distinct(1..=6, text(1..=60)));
    let family = fields.required("family", parsed("a family", str::parse::<Family>));
    let modes = fields.required("modes", distinct(1..=2, mode));
    let form = form(&mut fields);
    let tell = fields.required("tell", text(10..=240));
    let explains = fields.required("explains", text(10..=320));
    let neighbours = fields.required("neighbours", distinct(1..=8, id()));
    let yields_to = fields.optional("yields_to", distinct(0..=12, id()));
    let source = fields.required("source", text(3..=200));
    let share = fields.optional("share", number(0.0..=1.0));
    let asked = fields.optional("asked", flag);
    let example_texts = list(1..=12, placed(text(1..=200)));
    let examples = fields.required("examples", example_texts.clone());
    let counterexamples = fields.required("counterexamples", example_texts);
    let default_mode = modes.as_ref().and_then(|modes| modes.first()).copied();
    let mut lines = |texts: Option<Vec<document::Placed<String>>>| {
        texts?
            .into_iter()
            .map(|text| {
                let read = example(&text.value, default_mode.unwrap_or(Mode::Major));
                read.map_err(|error| {
                    text.spot
                        .fault(document::Problem::wrong(error), fields.faults());
                })
                .ok()
            })
            .collect::<Option<Vec<Example>>>()
    };
    let examples = lines(examples);
    let counterexamples = lines(counterexamples);
    fields.finish();
    Some(Device {
        id: device_id?,
        names: names?,
        family: family?,
        modes: modes?,
        form: form?,
        tell: tell?,
        explains: explains?,
        neighbours: neighbours?,
        yields_to: yields_to.unwrap_or_default(),
        source: source?,
        share: share.unwrap_or(0.05),
        asked: asked.unwrap_or(true),
        examples: examples?,
        counterexamples: counterexamples?,
    })
}

/// Patterns, or a rule with such patterns as are typical of it.
fn form(fields: &mut Object<'_, '_>) -> Option<Form> {
    let patterns = || distinct(1..=24, parsed("a pattern", pattern));
    let spelled_out = |written: &[Pattern]| written.iter().flat_map(Pattern::expansions).collect();
    if fields.has("rule") {
        let rule = fields.required("rule", parsed("a rule", str::parse::<Rule>));
        let written = fields.optional("patterns", patterns()).unwrap_or_default();
        return Some(Form::Rule {
            rule: rule?,
            expansions: spelled_out(&written),
            written,
        });
    }
    let written = fields.required("patterns", patterns())?;
    Some(Form::Patterns {
        expansions: spelled_out(&written),
        written,
    })
}

fn pattern(text: &str) -> Result<Pattern, Mismatch> {
    text.parse().map_err(|error: PatternError| {
        let near = match &error.fault {
            PatternFault::Numeral(error) => error.near.clone(),
            PatternFault::NotOneOwnGroup
            | PatternFault::Choice
            | PatternFault::Anchor
            | PatternFault::TooLong => None,
        };
        Mismatch::new(&error)
            .at(error.offset..text.len())
            .near(near)
    })
}

/// A line, in the device's first mode unless it begins with `major:` or `minor:`.
fn example(text: &str, default: Mode) -> Result<Example, LineError> {
    let (mode, line) = match (text.strip_prefix("major:"), text.strip_prefix("minor:")) {
        (Some(line), _) => (Mode::Major, line),
        (None, Some(line)) => (Mode::Minor, line),
        (None, None) => (default, text),
    };
    Ok(Example {
        mode,
        line: Line::read(line, Meter::FourFour, BareSix::AddedSixth)?,
    })
}
