//! Reads sound and kit files. Owns the names of their fields and the range of every value.

mod layers;

use crate::arranging::Drum;
use crate::document::{self, Faults, Mismatch, Object, Problem, Value, list, number, parsed, text};
use crate::theory::{NameError, Pitch};

use super::sound::{Instrument, Kit, Shape, Sound, Tremolo};
use layers::{filter, layer, level};

impl Sound {
    /// Reads a sound file.
    ///
    /// # Errors
    ///
    /// All faults of the text, each with its place.
    pub fn read(text: &str) -> Result<Self, Faults> {
        document::read(text, sound)
    }
}

impl Kit {
    /// Reads a kit file.
    ///
    /// # Errors
    ///
    /// All faults of the text, each with its place.
    pub fn read(text: &str) -> Result<Self, Faults> {
        document::read(text, kit)
    }
}

fn sound(value: &Value, faults: &mut Faults) -> Option<Sound> {
    let mut fields = Object::of(value, faults)?;
    let id = fields.required("id", parsed("an id such as `organ`", id));
    let title = fields.required("title", text(1..=60));
    let about = fields.required("about", text(1..=200));
    let range = fields.required("range", range);
    let instrument = instrument(&mut fields);
    fields.finish();
    Some(Sound {
        id: id?,
        title: title?,
        about: about?,
        range: range?,
        instrument: instrument?,
    })
}

fn range(value: &Value, faults: &mut Faults) -> Option<(Pitch, Pitch)> {
    let ends = list(2..=2, parsed("a pitch", pitch))(value, faults)?;
    let (lowest, highest) = (ends[0], ends[1]);
    if lowest.midi() > highest.midi() {
        let problem = Problem::wrong(format!("`{lowest}` lies above `{highest}`"));
        return value.fault(problem, faults);
    }
    Some((lowest, highest))
}

fn pitch(text: &str) -> Result<Pitch, NameError> {
    text.parse()
}

fn kit(value: &Value, faults: &mut Faults) -> Option<Kit> {
    let mut fields = Object::of(value, faults)?;
    let id = fields.required("id", parsed("an id such as `brushes`", id));
    let title = fields.required("title", text(1..=60));
    let about = fields.required("about", text(1..=200));
    let pieces = fields.required("drums", pieces);
    fields.finish();
    Some(Kit {
        id: id?,
        title: title?,
        about: about?,
        pieces: pieces?,
    })
}

fn pieces(value: &Value, faults: &mut Faults) -> Option<Vec<(Drum, Instrument)>> {
    let mut fields = Object::of(value, faults)?;
    let pieces: Vec<Option<(Drum, Instrument)>> = Drum::ALL
        .iter()
        .map(|drum| Some((*drum, fields.required(name(*drum), piece)?)))
        .collect();
    fields.finish();
    pieces.into_iter().collect()
}

const fn name(drum: Drum) -> &'static str {
    match drum {
        Drum::Ride => "ride",
        Drum::HiHat => "hi-hat",
        Drum::Tap => "tap",
        Drum::Swirl => "swirl",
        Drum::Kick => "kick",
    }
}

fn piece(value: &Value, faults: &mut Faults) -> Option<Instrument> {
    let mut fields = Object::of(value, faults)?;
    let instrument = instrument(&mut fields);
    fields.finish();
    instrument
}

fn instrument(fields: &mut Object) -> Option<Instrument> {
    let attack = fields.required("attack", number(0.5..=500.0));
    let release = fields.required("release", number(20.0..=2000.0));
    let spread = fields.optional("spread", number(0.0..=1.0));
    let loudness = fields.optional("level", level);
    let room = fields.optional("room", level);
    let tilt = fields.optional("tilt", number(-12.0..=12.0));
    let tremolo = fields.optional("tremolo", tremolo);
    let restrike = fields.optional("restrike", number(0.5..=20.0));
    let layers = fields.required("layers", list(1..=6, layer));
    let body = fields.optional("body", list(1..=8, filter));
    Some(Instrument {
        shape: Shape {
            attack: attack?,
            release: release?,
            spread: spread.unwrap_or(0.0),
            level: loudness.unwrap_or(0.0),
            room: room.unwrap_or(-20.0),
            tilt: tilt.unwrap_or(0.0),
            tremolo,
            restrike,
        },
        layers: layers?,
        body: body.unwrap_or_default(),
    })
}

fn tremolo(value: &Value, faults: &mut Faults) -> Option<Tremolo> {
    let mut fields = Object::of(value, faults)?;
    let hertz = fields.required("hertz", number(0.1..=12.0));
    let depth = fields.required("depth", number(0.0..=12.0));
    fields.finish();
    Some(Tremolo {
        hertz: hertz?,
        depth: depth?,
    })
}

/// Lower-case words joined by hyphens.
fn id(text: &str) -> Result<String, Mismatch> {
    let is_word = |word: &str| {
        !word.is_empty()
            && word
                .bytes()
                .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
    };
    if text.len() <= 64 && text.split('-').all(is_word) {
        Ok(text.to_owned())
    } else {
        Err(Mismatch::new(format!(
            "`{text}` is not an id; expected words of a to z joined by `-`"
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn messages(text: &str) -> Vec<String> {
        let faults = Sound::read(text).expect_err("it has faults");
        faults
            .iter()
            .map(|fault| format!("{}: {fault}", fault.place))
            .collect()
    }

    #[test]
    fn every_fault_is_named_with_its_place() {
        let text = r#"{
  "id": "Reed Organ", "title": "Reed organ", "about": "Held", "range": ["C5", "C2"],
  "attack": 0, "relaese": 100,
  "layers": [
    { "kind": "modes", "modes": [{ "ratio": 1, "levle": 0 }], "tone": { "hertz": 900, "slope": 6 } },
    { "kind": "noise", "low": 900, "high": 200, "decay": 50 },
    { "kind": "reed" }
  ]
}"#;
        insta::assert_snapshot!(messages(text).join("\n"), @r"
        1:1: `release` is missing; expected a number from 20 to 2000
        2:9: `id`: `Reed Organ` is not an id; expected words of a to z joined by `-`
        2:72: `range`: `C5` lies above `C2`
        3:13: `attack` is `0`; expected a number from 0.5 to 500
        3:16: `relaese` is not a field here; did you mean `release`?
        5:34: `layers[0].modes[0].level` is missing; expected a number from -80 to 24
        5:48: `layers[0].modes[0].levle` is not a field here; did you mean `level`?
        6:44: `layers[1].high`: the band ends below its start `900`
        7:15: `layers[2].kind` is `reed`; expected `string`, `modes` or `noise`
        ");
    }

    #[test]
    fn a_detune_that_sounds_out_of_tune_is_refused() {
        let text = include_str!("../../../sounds/nylon-guitar.json").replace("0.3,", "4.5,");
        assert_eq!(
            messages(&text),
            ["18:56: `layers[0].after.cents` is `4.5`; expected a number from -3 to 3"]
        );
    }
}
