//! Writes a line as a MusicXML 4.0 score (W3C Music Notation Community Group): chords on
//! two staves, each with its symbol above and its numeral below.

mod harmony;
mod value;
mod writer;

use crate::arranging::{Setting, Voicing};
use crate::theory::{Key, Line, Mode, Notation, Pitch, PitchClass, Symbol, TICKS_PER_BEAT, Ticks};
use value::{Value, values};
use writer::Writer;

/// A stretch of one chord within one bar.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    slot: usize,
    ticks: Ticks,
    begins: bool,
    ends: bool,
}

/// The score of a line as it was set, at `tempo` quarter notes a minute.
#[must_use]
pub fn musicxml(line: &Line, key: Key, setting: &Setting, tempo: f32) -> String {
    let mut xml = Writer::default();
    xml.raw(concat!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n",
        "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" ",
        "\"http://www.musicxml.org/dtds/partwise.dtd\">\n",
    ));
    xml.within("score-partwise", " version=\"4.0\"", |xml| {
        xml.within("identification", "", |xml| {
            xml.within("encoding", "", |xml| {
                xml.text(
                    "software",
                    "",
                    concat!("plagal ", env!("CARGO_PKG_VERSION")),
                );
            });
        });
        xml.within("part-list", "", |xml| {
            xml.within("score-part", " id=\"P1\"", |xml| {
                xml.text("part-name", "", "Chords");
            });
        });
        xml.within("part", " id=\"P1\"", |xml| {
            for (number, bar) in bars(line).iter().enumerate() {
                xml.within("measure", &format!(" number=\"{}\"", number + 1), |xml| {
                    if number == 0 {
                        attributes(xml, line, key);
                        metronome(xml, tempo);
                    }
                    measure(xml, line, bar, setting);
                });
            }
        });
    });
    xml.finish()
}

/// The bars of a line, a chord that crosses a bar line in each of its bars.
fn bars(line: &Line) -> Vec<Vec<Stretch>> {
    let bar = line.meter().bar();
    let mut bars = vec![Vec::new(); line.bars() as usize];
    for (slot, chord) in line.slots().iter().enumerate() {
        let start = line.start(slot);
        let end = start + chord.length;
        let mut now = start;
        while now < end {
            let until = end.min((now / bar + 1) * bar);
            bars[(now / bar) as usize].push(Stretch {
                slot,
                ticks: until - now,
                begins: now == start,
                ends: until == end,
            });
            now = until;
        }
    }
    bars
}

fn attributes(xml: &mut Writer, line: &Line, key: Key) {
    xml.within("attributes", "", |xml| {
        xml.text("divisions", "", TICKS_PER_BEAT);
        xml.within("key", "", |xml| {
            xml.text("fifths", "", key.signature());
            let mode = match key.mode() {
                Mode::Major => "major",
                Mode::Minor => "minor",
            };
            xml.text("mode", "", mode);
        });
        xml.within("time", "", |xml| {
            xml.text("beats", "", line.meter().beats());
            xml.text("beat-type", "", 4);
        });
        xml.text("staves", "", 2);
        for (number, sign, place) in [(1, "G", 2), (2, "F", 4)] {
            xml.within("clef", &format!(" number=\"{number}\""), |xml| {
                xml.text("sign", "", sign);
                xml.text("line", "", place);
            });
        }
    });
}

fn metronome(xml: &mut Writer, tempo: f32) {
    xml.within("direction", " placement=\"above\"", |xml| {
        xml.within("direction-type", "", |xml| {
            xml.within("metronome", "", |xml| {
                xml.text("beat-unit", "", "quarter");
                xml.text("per-minute", "", tempo);
            });
        });
        xml.raw(&format!("<sound tempo=\"{tempo}\"/>\n"));
    });
}

/// The upper staff, then back to the beginning of the bar and the bass.
fn measure(xml: &mut Writer, line: &Line, bar: &[Stretch], setting: &Setting) {
    let lengths: Vec<Ticks> = bar.iter().map(|stretch| stretch.ticks).collect();
    let written = values(&lengths, line.meter());
    for (stretch, values) in bar.iter().zip(&written) {
        if stretch.begins {
            symbol(xml, &setting.chords[stretch.slot].symbol());
            let numeral = &line.slots()[stretch.slot].numeral;
            words(xml, &numeral.written(Notation::Screen));
        }
        staff(xml, stretch, values, &setting.voicings[stretch.slot], 1);
    }
    let sum: Ticks = lengths.iter().sum();
    xml.within("backup", "", |xml| xml.text("duration", "", sum));
    for (stretch, values) in bar.iter().zip(&written) {
        staff(xml, stretch, values, &setting.voicings[stretch.slot], 2);
    }
}

fn words(xml: &mut Writer, text: &str) {
    xml.within("direction", " placement=\"below\"", |xml| {
        xml.within("direction-type", "", |xml| xml.text("words", "", text));
        xml.text("staff", "", 2);
    });
}

fn symbol(xml: &mut Writer, symbol: &Symbol) {
    let kind = harmony::kind(symbol);
    xml.within("harmony", "", |xml| {
        xml.within("root", "", |xml| class(xml, "root-", symbol.root));
        xml.text("kind", "", kind.word);
        if symbol.bass != symbol.root {
            xml.within("bass", "", |xml| class(xml, "bass-", symbol.bass));
        }
        for degree in &kind.degrees {
            xml.within("degree", "", |xml| {
                xml.text("degree-value", "", degree.value);
                xml.text("degree-alter", "", degree.alter);
                xml.text("degree-type", "", degree.change);
            });
        }
    });
}

fn class(xml: &mut Writer, prefix: &str, class: PitchClass) {
    xml.text(&format!("{prefix}step"), "", class.letter());
    if class.alteration() != 0 {
        xml.text(&format!("{prefix}alter"), "", class.alteration());
    }
}

/// The notes of one staff in one stretch: the upper voices together, or the bass.
fn staff(xml: &mut Writer, stretch: &Stretch, values: &[Value], voicing: &Voicing, number: u8) {
    let bass = [voicing.bass];
    let pitches = if number == 1 {
        voicing.upper.as_slice()
    } else {
        &bass
    };
    for (index, value) in values.iter().enumerate() {
        let from_before = index > 0 || !stretch.begins;
        let to_next = index + 1 < values.len() || !stretch.ends;
        for (voice, pitch) in pitches.iter().enumerate() {
            xml.within("note", "", |xml| {
                if voice > 0 {
                    xml.raw("<chord/>\n");
                }
                self::pitch(xml, *pitch);
                xml.text("duration", "", value.ticks);
                ties(xml, "tie", from_before, to_next);
                xml.text("voice", "", if number == 1 { 1 } else { 5 });
                xml.text("type", "", value.name);
                if value.dotted {
                    xml.raw("<dot/>\n");
                }
                if let Some((actual, normal)) = value.tuplet {
                    xml.within("time-modification", "", |xml| {
                        xml.text("actual-notes", "", actual);
                        xml.text("normal-notes", "", normal);
                    });
                }
                xml.text("staff", "", number);
                if from_before || to_next {
                    xml.within("notations", "", |xml| {
                        ties(xml, "tied", from_before, to_next);
                    });
                }
            });
        }
    }
}

fn pitch(xml: &mut Writer, pitch: Pitch) {
    xml.within("pitch", "", |xml| {
        class(xml, "", pitch.class);
        xml.text("octave", "", pitch.octave);
    });
}

fn ties(xml: &mut Writer, element: &str, from_before: bool, to_next: bool) {
    if from_before {
        xml.raw(&format!("<{element} type=\"stop\"/>\n"));
    }
    if to_next {
        xml.raw(&format!("<{element} type=\"start\"/>\n"));
    }
}
