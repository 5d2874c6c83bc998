//! Reads an exercise file. Owns the names of its fields, their ranges and defaults.

use super::definition::Exercise;
use super::keys::keys;
use crate::arranging::Texture;
use crate::devices::{Catalogue, DeviceId};
use crate::document::{
    self, Faults, Object, Placed, Problem, Value, distinct, known, one_of, one_or_list, parsed,
    placed, single_or_pair, text, whole,
};
use crate::harmony::{Phrasing, Style};
use crate::quiz::{Asked, Drill, Followed, KeyGiven, NoQuestion, Question, QuestionKind};
use crate::theory::{BareSix, Key, Meter, Mode};

/// What an exercise may name; the first sound is the default.
#[derive(Clone, Copy, Debug)]
pub struct Known<'k> {
    /// The devices that may be named.
    pub catalogue: &'k Catalogue,
    /// The ids of the sounds that may be named.
    pub sounds: &'k [&'k str],
}

/// Entries of a list of devices, at most.
const MOST_DEVICES: usize = 128;

impl Exercise {
    /// Reads an exercise file.
    ///
    /// # Errors
    ///
    /// All faults of the text, each with its place.
    pub fn read(text: &str, known: Known<'_>) -> Result<Self, Faults> {
        document::read(text, |value, faults| {
            exercise(value, known, Thoroughly::No, faults)
        })
    }

    /// Reads an exercise file and tries questions on every device of it, which takes some
    /// milliseconds.
    ///
    /// # Errors
    ///
    /// All faults of the text; if there are none, the devices that cannot be asked.
    pub fn check(text: &str, known: Known<'_>) -> Result<(), Faults> {
        document::read(text, |value, faults| {
            exercise(value, known, Thoroughly::Yes, faults)
        })
        .map(drop)
    }
}

/// Whether questions are tried as well.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Thoroughly {
    Yes,
    No,
}

fn exercise(
    value: &Value,
    known: Known<'_>,
    thoroughly: Thoroughly,
    faults: &mut Faults,
) -> Option<Exercise> {
    let mut fields = Object::of(value, faults)?;
    fields.required("format", whole(1..=1));
    let id = fields.required("id", document::id("an id such as `first-cadences`"));
    let title = fields.required("title", text(1..=60));
    let about = fields.required("about", text(1..=400));
    let devices = fields.required("devices", devices(known.catalogue, 1));
    let always = fields.optional("always", self::devices(known.catalogue, 0));
    let never = fields.optional("never", self::devices(known.catalogue, 0));
    let floor = fields.optional("floor", whole(0..=100));
    let keys = fields.optional("keys", placed(keys));
    let bars = fields.optional("bars", single_or_pair(whole(2..=32)));
    let meter = fields.optional("meter", parsed("a meter", str::parse::<Meter>));
    let tempo = fields.optional("tempo", single_or_pair(whole(30..=300)));
    let key_given = fields.optional(
        "key_given",
        one_of(&KeyGiven::ALL.map(|given| (given.name(), given))),
    );
    let kind = fields.optional(
        "kind",
        one_of(&QuestionKind::ALL.map(|kind| (kind.id(), kind))),
    );
    let asked = fields.optional(
        "ask",
        one_of(&Asked::ALL.map(|asked| (asked.name(), asked))),
    );
    let followed = fields.optional(
        "voice",
        one_of(&Followed::ALL.map(|voice| (voice.name(), voice))),
    );
    let answers = fields.optional("answers", answers);
    let questions = fields.optional("questions", whole(1..=500));
    let sounds = fields.optional("sound", names("a sound", known.sounds));
    let textures = fields.optional("texture", one_or_list(1..=16, placed(texture)));
    let styles = fields.optional("style", one_or_list(1..=Style::ALL.len(), style));
    let phrasing = fields.optional(
        "phrasing",
        one_of(&Phrasing::ALL.map(|phrasing| (phrasing.name(), phrasing))),
    );

    let keys = keys.map_or_else(any_major, |keys| keys.value);
    let listed = devices.as_deref().unwrap_or_default();
    let found = fields.faults();
    for device in listed {
        check_asked(device, known.catalogue, &keys, found);
    }
    let is_asked = |device: &&Placed<DeviceId>| listed.iter().any(|a| a.value == device.value);
    for device in always.iter().flatten().filter(|device| !is_asked(device)) {
        let problem = "it is always asked, but is not among the devices";
        device.spot.fault(Problem::wrong(problem), found);
    }
    for device in never.iter().flatten().filter(is_asked) {
        let problem = "it is never to be heard, but is among the devices";
        device.spot.fault(Problem::wrong(problem), found);
    }
    fields.finish();

    let plain = |devices: Vec<Placed<DeviceId>>| devices.into_iter().map(|d| d.value).collect();
    let drill = Drill {
        exercise: id.clone()?,
        devices: plain(devices.clone()?),
        never: plain(never.unwrap_or_default()),
        keys,
        bars: bars.unwrap_or(4..=8),
        meter: meter.unwrap_or(Meter::FourFour),
        tempo: tempo.unwrap_or(80..=112),
        key_given: key_given.unwrap_or(KeyGiven::Cadence),
        kind: kind.unwrap_or(QuestionKind::NameChords),
        asked: asked.unwrap_or(Asked::ChordsOutOfKey),
        followed: followed.unwrap_or(Followed::Bass),
        answers: answers.unwrap_or(0),
        questions: questions.unwrap_or(20),
        sounds: sounds.or_else(|| Some(vec![first(known.sounds)?]))?,
        textures: match &textures {
            Some(textures) => textures.iter().map(|texture| texture.value).collect(),
            None => vec![Texture::HeldChords],
        },
        styles: styles.unwrap_or_default(),
        phrasing: phrasing.unwrap_or_default(),
        six: BareSix::AddedSixth,
    };
    if thoroughly == Thoroughly::Yes {
        check_tempos(textures.as_deref().unwrap_or_default(), &drill, faults);
    }
    if thoroughly == Thoroughly::Yes && faults.is_empty() {
        check_askable(&devices?, &drill, known.catalogue, faults);
    }
    Some(Exercise {
        id: id?,
        title: title?,
        about: about?,
        always: plain(always.unwrap_or_default()),
        floor,
        drill,
    })
}

/// Questions tried on a device before it counts as one that cannot be asked.
const TRIALS: u64 = 4;

/// Every device must give questions in the bars, the meter and the kind of the exercise.
fn check_askable(
    devices: &[Placed<DeviceId>],
    drill: &Drill,
    catalogue: &Catalogue,
    faults: &mut Faults,
) {
    for device in devices {
        let made = (0..TRIALS).map(|seed| Question::new(drill, catalogue, &device.value, seed));
        let refusals: Vec<NoQuestion> = made.map_while(Result::err).collect();
        if let (TRIALS, Some(refusal)) = (refusals.len() as u64, refusals.last()) {
            let problem = format!("no question can be made: {refusal}");
            device.spot.fault(Problem::wrong(problem), faults);
        }
    }
}

/// Every texture must suit a tempo of the exercise, or it would never be heard.
fn check_tempos(textures: &[Placed<Texture>], drill: &Drill, faults: &mut Faults) {
    for texture in textures {
        if !drill.tempo.clone().any(|tempo| texture.value.suits(tempo)) {
            let (slowest, fastest) = texture.value.card().tempos;
            let problem = format!(
                "`{}` suits tempos from {slowest} to {fastest}, of which the exercise has none",
                texture.value
            );
            texture.spot.fault(Problem::wrong(problem), faults);
        }
    }
}

fn any_major() -> Vec<Key> {
    Key::everyday()
        .filter(|key| key.mode() == Mode::Major)
        .collect()
}

fn first(names: &[&str]) -> Option<String> {
    names.first().map(|name| (*name).to_owned())
}

/// A device that is asked must be of the kind that can be, in one of the keys.
fn check_asked(
    device: &Placed<DeviceId>,
    catalogue: &Catalogue,
    keys: &[Key],
    faults: &mut Faults,
) {
    let Some(entry) = catalogue.get(&device.value) else {
        return;
    };
    if !entry.asked {
        let problem = "the device is only recognised, no questions are made on it";
        device.spot.fault(Problem::wrong(problem), faults);
    }
    if !keys.iter().any(|key| entry.modes.contains(&key.mode())) {
        let modes: Vec<&str> = entry.modes.iter().map(|mode| mode.name()).collect();
        let problem = format!(
            "the device is met in {} keys, of which the exercise has none",
            modes.join(" or ")
        );
        device.spot.fault(Problem::wrong(problem), faults);
    }
}

/// A list of different devices of the catalogue.
fn devices(
    catalogue: &Catalogue,
    least: usize,
) -> impl Fn(&Value, &mut Faults) -> Option<Vec<Placed<DeviceId>>> {
    move |value, faults| {
        let ids: Vec<&str> = catalogue.ids().collect();
        let entry = |value: &Value, faults: &mut Faults| {
            let id = known("a device", &ids)(value, faults)?;
            Some(id.parse().expect("the catalogue holds ids alone"))
        };
        distinct(least..=MOST_DEVICES, placed(entry))(value, faults)
    }
}

/// One known name, or several different ones.
fn names<'k>(
    what: &'k str,
    names: &'k [&'k str],
) -> impl Fn(&Value, &mut Faults) -> Option<Vec<String>> {
    one_or_list(1..=16, known(what, names))
}

fn texture(value: &Value, faults: &mut Faults) -> Option<Texture> {
    let words = Texture::ALL.map(|texture| (texture.id(), texture));
    one_of(&words)(value, faults)
}

fn style(value: &Value, faults: &mut Faults) -> Option<Style> {
    one_of(&Style::ALL.map(|style| (style.name(), style)))(value, faults)
}

/// `0` for typed answers, or the number of choices.
fn answers(value: &Value, faults: &mut Faults) -> Option<usize> {
    match whole(0..=12)(value, faults)? {
        1 => value.expected("0 for typed answers, or 2 to 12 choices", faults),
        answers => Some(answers),
    }
}
