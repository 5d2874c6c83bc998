//! Reads a sound file. Owns the names of its fields and the range of every value.

use crate::document::{
    self, Faults, Mismatch, Object, Problem, Value, list, number, one_of, parsed, placed, text,
    whole,
};
use crate::theory::Pitch;

use super::sound::{
    After, Burst, Decay, Filter, FilterKind, Layer, Mode, Modes, Shape, Sound, Strung, Tone,
};

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

fn sound(value: &Value, faults: &mut Faults) -> Option<Sound> {
    let mut fields = Object::of(value, faults)?;
    let id = fields.required("id", parsed("an id such as `organ`", id));
    let title = fields.required("title", text(1..=60));
    let about = fields.required("about", text(1..=200));
    let range = fields.required("range", placed(list(2..=2, parsed("a pitch", pitch))));
    let attack = fields.required("attack", number(0.5..=500.0));
    let release = fields.required("release", number(20.0..=2000.0));
    let spread = fields.optional("spread", number(0.0..=1.0)).unwrap_or(0.0);
    let room = fields.optional("room", level).unwrap_or(-20.0);
    let tilt = fields.optional("tilt", number(-12.0..=12.0)).unwrap_or(0.0);
    let layers = fields.required("layers", list(1..=6, layer));
    let body = fields.optional("body", list(1..=8, filter));
    fields.finish();
    let range = range?;
    let (lowest, highest) = (range.value[0], range.value[1]);
    if lowest.midi() > highest.midi() {
        let problem = Problem::wrong(format!("`{lowest}` lies above `{highest}`"));
        range.spot.fault(problem, faults);
    }
    Some(Sound {
        id: id?,
        title: title?,
        about: about?,
        range: (lowest, highest),
        shape: Shape {
            attack: attack?,
            release: release?,
            spread,
            room,
            tilt,
        },
        layers: layers?,
        body: body.unwrap_or_default(),
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

fn pitch(text: &str) -> Result<Pitch, crate::theory::NotANote> {
    text.parse()
}

/// Decibels.
fn level(value: &Value, faults: &mut Faults) -> Option<f64> {
    number(-80.0..=24.0)(value, faults)
}

fn hertz(value: &Value, faults: &mut Faults) -> Option<f64> {
    number(20.0..=20_000.0)(value, faults)
}

fn seconds(value: &Value, faults: &mut Faults) -> Option<f64> {
    number(0.01..=60.0)(value, faults)
}

#[derive(Clone, Copy)]
enum Kind {
    String,
    Modes,
    Noise,
}

const KINDS: [(&str, Kind); 3] = [
    ("string", Kind::String),
    ("modes", Kind::Modes),
    ("noise", Kind::Noise),
];

fn layer(value: &Value, faults: &mut Faults) -> Option<Layer> {
    let mut fields = Object::of(value, faults)?;
    // Without its kind a layer's other fields cannot be judged.
    let kind = fields.required("kind", one_of(&KINDS))?;
    let level = fields.optional("level", level).unwrap_or(0.0);
    let layer = match kind {
        Kind::String => string(&mut fields, level).map(Layer::String),
        Kind::Modes => modes(&mut fields, level).map(Layer::Modes),
        Kind::Noise => noise(&mut fields, level).map(Layer::Noise),
    };
    fields.finish();
    layer
}

fn string(fields: &mut Object, level: f64) -> Option<Strung> {
    let partials = fields.optional("partials", whole(1..=64usize));
    let at = fields.required("at", number(0.02..=0.5));
    let stiffness = fields.optional("stiffness", number(0.0..=0.01));
    let stiffness_octaves = fields.optional("stiffness_octaves", number(0.1..=10.0));
    let tone = fields.required("tone", tone);
    let decay = fields.required("decay", decay);
    let after = fields.optional("after", after);
    Some(Strung {
        level,
        partials: partials.unwrap_or(32),
        at: at?,
        stiffness: stiffness.unwrap_or(0.0),
        stiffness_octaves: stiffness_octaves.unwrap_or(1.0),
        tone: tone?,
        decay: decay?,
        after,
    })
}

fn modes(fields: &mut Object, level: f64) -> Option<Modes> {
    let modes = fields.required("modes", list(1..=24, mode));
    let tone = fields.required("tone", tone);
    let octave = fields.optional("octave", number(0.1..=2.0)).unwrap_or(1.0);
    Some(Modes {
        level,
        modes: modes?,
        tone: tone?,
        octave,
    })
}

fn noise(fields: &mut Object, level: f64) -> Option<Burst> {
    let low = fields.required("low", hertz);
    let high = fields.required("high", placed(hertz));
    let decay = fields.required("decay", number(1.0..=5000.0));
    let touch = fields
        .optional("touch", number(-24.0..=24.0))
        .unwrap_or(0.0);
    let (low, high) = (low?, high?);
    if high.value < low {
        let problem = Problem::wrong(format!("the band ends below its start `{low}`"));
        high.spot.fault(problem, fields.faults());
    }
    Some(Burst {
        level,
        low,
        high: high.value,
        decay: decay?,
        touch,
    })
}

fn mode(value: &Value, faults: &mut Faults) -> Option<Mode> {
    let mut fields = Object::of(value, faults)?;
    let ratio = fields.required("ratio", number(0.25..=32.0));
    let level = fields.required("level", level);
    let decay = fields.optional("decay", seconds);
    let touch = fields
        .optional("touch", number(-24.0..=24.0))
        .unwrap_or(0.0);
    fields.finish();
    Some(Mode {
        ratio: ratio?,
        level: level?,
        decay,
        touch,
    })
}

fn tone(value: &Value, faults: &mut Faults) -> Option<Tone> {
    let mut fields = Object::of(value, faults)?;
    let hertz = fields.required("hertz", hertz);
    let follow = fields.optional("follow", number(0.0..=1.0)).unwrap_or(0.0);
    let touch = fields.optional("touch", number(0.0..=6.0)).unwrap_or(0.0);
    let slope = fields.required("slope", number(0.0..=36.0));
    fields.finish();
    Some(Tone {
        hertz: hertz?,
        follow,
        touch,
        slope: slope?,
    })
}

fn decay(value: &Value, faults: &mut Faults) -> Option<Decay> {
    let mut fields = Object::of(value, faults)?;
    let low = fields.required("seconds", seconds);
    let octave = fields.optional("octave", number(0.1..=2.0)).unwrap_or(1.0);
    let high = fields.required("high", seconds);
    fields.finish();
    Some(Decay {
        seconds: low?,
        octave,
        high: high?,
    })
}

fn after(value: &Value, faults: &mut Faults) -> Option<After> {
    let mut fields = Object::of(value, faults)?;
    let level = fields.required("level", level);
    let longer = fields.required("longer", number(1.0..=20.0));
    // More than 3 cents would sound out of tune.
    let cents = fields.optional("cents", number(-3.0..=3.0)).unwrap_or(0.0);
    fields.finish();
    Some(After {
        level: level?,
        longer: longer?,
        cents,
    })
}

const FILTERS: [(&str, FilterKind); 5] = [
    ("bell", FilterKind::Bell),
    ("low-shelf", FilterKind::LowShelf),
    ("high-shelf", FilterKind::HighShelf),
    ("low-pass", FilterKind::LowPass),
    ("high-pass", FilterKind::HighPass),
];

fn filter(value: &Value, faults: &mut Faults) -> Option<Filter> {
    let mut fields = Object::of(value, faults)?;
    let kind = fields.required("kind", one_of(&FILTERS));
    let hertz = fields.required("hertz", hertz);
    let q = fields.optional("q", number(0.1..=20.0)).unwrap_or(0.7);
    let gain = fields.optional("gain", number(-24.0..=24.0));
    fields.finish();
    Some(Filter {
        kind: kind?,
        hertz: hertz?,
        q,
        gain: gain.unwrap_or(0.0),
    })
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
        let text = include_str!("../../sounds/nylon-guitar.json").replace("0.3 }", "4.5 }");
        assert_eq!(
            messages(&text),
            ["19:56: `layers[0].after.cents` is `4.5`; expected a number from -3 to 3"]
        );
    }
}
