//! The layers of an instrument and the filters of its body.

use crate::document::{Faults, Object, Problem, Value, list, number, one_of, placed, whole};

use crate::synth::sound::{
    After, Burst, Decay, Filter, FilterKind, Layer, Mode, Modes, Shimmer, Stiffness, Strung, Tone,
};

/// Decibels.
pub(super) fn level(value: &Value, faults: &mut Faults) -> Option<f64> {
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

pub(super) fn layer(value: &Value, faults: &mut Faults) -> Option<Layer> {
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
    let pickup = fields.optional("pickup", number(0.02..=0.5));
    let stiffness = fields.required("stiffness", stiffness);
    let tone = fields.required("tone", tone);
    let decay = fields.required("decay", decay);
    let after = fields.optional("after", after);
    Some(Strung {
        level,
        partials: partials.unwrap_or(32),
        at: at?,
        pickup,
        stiffness: stiffness?,
        tone: tone?,
        decay: decay?,
        after,
    })
}

fn stiffness(value: &Value, faults: &mut Faults) -> Option<Stiffness> {
    let mut fields = Object::of(value, faults)?;
    let middle = fields.required("middle", number(0.0..=0.01));
    let octaves = fields.optional("octaves", number(0.1..=10.0));
    let least = fields.optional("least", number(0.0..=0.01));
    fields.finish();
    Some(Stiffness {
        middle: middle?,
        octaves: octaves.unwrap_or(1.0),
        least: least.unwrap_or(0.0),
    })
}

fn modes(fields: &mut Object, level: f64) -> Option<Modes> {
    let modes = fields.required("modes", list(1..=24, mode));
    let tone = fields.required("tone", tone);
    let shimmer = fields.optional("shimmer", shimmer);
    let octave = fields.optional("octave", number(0.1..=2.0));
    Some(Modes {
        level,
        modes: modes?,
        tone: tone?,
        shimmer,
        octave: octave.unwrap_or(1.0),
    })
}

fn shimmer(value: &Value, faults: &mut Faults) -> Option<Shimmer> {
    let mut fields = Object::of(value, faults)?;
    // More than 3 cents would sound out of tune.
    let cents = fields.required("cents", number(0.0..=3.0));
    let level = fields.required("level", number(-40.0..=-6.0));
    fields.finish();
    Some(Shimmer {
        cents: cents?,
        level: level?,
    })
}

fn noise(fields: &mut Object, level: f64) -> Option<Burst> {
    let low = fields.required("low", hertz);
    let high = fields.required("high", placed(hertz));
    let decay = fields.optional("decay", number(1.0..=5000.0));
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
        decay,
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
    let cents = fields.optional("cents", number(-3.0..=3.0));
    let partials = fields.optional("partials", whole(1..=64usize));
    fields.finish();
    Some(After {
        level: level?,
        longer: longer?,
        cents: cents.unwrap_or(0.0),
        partials: partials.unwrap_or(64),
    })
}

const FILTERS: [(&str, FilterKind); 5] = [
    ("bell", FilterKind::Bell),
    ("low-shelf", FilterKind::LowShelf),
    ("high-shelf", FilterKind::HighShelf),
    ("low-pass", FilterKind::LowPass),
    ("high-pass", FilterKind::HighPass),
];

pub(super) fn filter(value: &Value, faults: &mut Faults) -> Option<Filter> {
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
