//! Writes a passage as a Standard MIDI File (MIDI Association, RP-001): format 1, one track
//! for the time and the chord names, one each for bass, chords and percussion.

use std::collections::HashMap;

use midly::num::{u4, u7, u15, u24, u28};
use midly::{Format, Header, MetaMessage, MidiMessage, Smf, Timing, TrackEvent, TrackEventKind};

use crate::arranging::{Note, Passage, Voice};
use crate::theory::{Key, Line, Mode, Notation, TICKS_PER_BEAT, Ticks};

/// A track of its own in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum MidiPart {
    Bass,
    Chords,
    Percussion,
}

impl MidiPart {
    const ALL: [Self; 3] = [Self::Bass, Self::Chords, Self::Percussion];

    fn of(voice: Voice) -> Self {
        match voice {
            Voice::Bass => Self::Bass,
            Voice::Upper(_) => Self::Chords,
            Voice::Drum(_) => Self::Percussion,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Bass => "Bass",
            Self::Chords => "Chords",
            Self::Percussion => "Percussion",
        }
    }

    /// The channel, from 0; General MIDI keeps the tenth for percussion.
    fn channel(self) -> u4 {
        u4::new(match self {
            Self::Bass => 0,
            Self::Chords => 1,
            Self::Percussion => 9,
        })
    }
}

/// The bytes of a MIDI file of `passage`, which `line` in `key` was arranged to.
#[must_use]
pub fn midi(passage: &Passage, line: &Line, key: Key) -> Vec<u8> {
    let names: Vec<String> = line
        .numerals()
        .map(|numeral| numeral.written(Notation::Ascii))
        .collect();
    let mut tracks = vec![conductor(passage, line, key, &names)];
    for part in MidiPart::ALL {
        let notes: Vec<&Note> = passage
            .notes
            .iter()
            .filter(|note| MidiPart::of(note.voice) == part)
            .collect();
        if !notes.is_empty() {
            tracks.push(track(part, &notes, passage.length));
        }
    }
    let division = u15::try_from(TICKS_PER_BEAT as u16).expect("a beat has few enough ticks");
    let file = Smf {
        header: Header::new(Format::Parallel, Timing::Metrical(division)),
        tracks,
    };
    let mut bytes = Vec::new();
    file.write(&mut bytes)
        .expect("a line is far shorter than the longest track");
    bytes
}

/// Tempo, meter, key, and the name of each chord where it begins.
fn conductor<'n>(
    passage: &Passage,
    line: &Line,
    key: Key,
    names: &'n [String],
) -> Vec<TrackEvent<'n>> {
    let microseconds = (60_000_000.0 / f64::from(passage.tempo)).round() as u32;
    let beats = line.meter().beats() as u8;
    let signature = key.signature() as i8;
    let mut events: Vec<(Ticks, TrackEventKind<'n>)> = [
        MetaMessage::TrackName(b"plagal"),
        MetaMessage::Tempo(u24::new(microseconds)),
        MetaMessage::TimeSignature(beats, 2, 24, 8),
        MetaMessage::KeySignature(signature, key.mode() == Mode::Minor),
    ]
    .map(|message| (0, TrackEventKind::Meta(message)))
    .to_vec();
    for (slot, name) in names.iter().enumerate() {
        let marker = TrackEventKind::Meta(MetaMessage::Marker(name.as_bytes()));
        events.push((line.start(slot), marker));
    }
    with_deltas(events, passage.length)
}

fn track(part: MidiPart, notes: &[&Note], length: Ticks) -> Vec<TrackEvent<'static>> {
    let name = MetaMessage::TrackName(part.name().as_bytes());
    let mut events = vec![(0, TrackEventKind::Meta(name))];
    let channel = part.channel();
    let mut strokes: Vec<(Ticks, bool, TrackEventKind<'static>)> = Vec::new();
    for (note, end) in sounding(notes) {
        let key = number(note);
        let velocity = u7::new((note.strength * 127.0).round().clamp(1.0, 127.0) as u8);
        let on = MidiMessage::NoteOn { key, vel: velocity };
        let off = MidiMessage::NoteOff {
            key,
            vel: u7::new(64),
        };
        let midi = |message| TrackEventKind::Midi { channel, message };
        strokes.push((note.start, true, midi(on)));
        strokes.push((end, false, midi(off)));
    }
    // What ends at a tick ends before what begins there.
    strokes.sort_by_key(|(time, begins, _)| (*time, *begins));
    events.extend(strokes.into_iter().map(|(time, _, kind)| (time, kind)));
    with_deltas(events, length)
}

/// The notes with where they end. A key that is struck again while it sounds ends there:
/// a channel knows each key once.
fn sounding<'n>(notes: &[&'n Note]) -> Vec<(&'n Note, Ticks)> {
    let mut by_start = notes.to_vec();
    by_start.sort_by_key(|note| note.start);
    let mut struck: HashMap<u7, usize> = HashMap::new();
    let mut result: Vec<(&Note, Ticks)> = Vec::new();
    for note in by_start {
        let key = number(note);
        if let Some(before) = struck.get(&key).map(|index| &mut result[*index]) {
            if before.0.start == note.start {
                before.1 = before.1.max(note.start + note.length);
                continue;
            }
            before.1 = before.1.min(note.start);
        }
        struck.insert(key, result.len());
        result.push((note, note.start + note.length.max(1)));
    }
    result
}

fn number(note: &Note) -> u7 {
    let number = match note.voice {
        Voice::Bass | Voice::Upper(_) => note.pitch.midi().clamp(0, 127) as u8,
        Voice::Drum(drum) => drum.general_midi(),
    };
    u7::new(number)
}

/// From times to the distances between them, and the end of the track.
fn with_deltas<'n>(events: Vec<(Ticks, TrackEventKind<'n>)>, length: Ticks) -> Vec<TrackEvent<'n>> {
    let last = events.iter().map(|(time, _)| *time).max().unwrap_or(0);
    let end = TrackEventKind::Meta(MetaMessage::EndOfTrack);
    let mut now = 0;
    events
        .into_iter()
        .chain([(length.max(last), end)])
        .map(|(time, kind)| {
            let delta = u28::new(time - now);
            now = time;
            TrackEvent { delta, kind }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arranging::{Arrangement, Texture, arrange};
    use crate::theory::{BareSix, Meter};

    fn arranged(text: &str, key: &str, texture: Texture) -> (Passage, Line, Key) {
        let line = Line::read(text, Meter::ThreeFour, BareSix::AddedSixth).expect("a line");
        let key: Key = key.parse().expect("a key");
        let request = Arrangement {
            texture,
            tempo: 120.0,
            variation: 0,
        };
        let passage = arrange(&line, key, &request).expect("it has notes");
        (passage, line, key)
    }

    #[test]
    fn the_header_is_the_one_of_the_standard() {
        let (passage, line, key) = arranged("i | iiø7 V7 | i", "Gm", Texture::HeldChords);
        let bytes = midi(&passage, &line, key);
        // RP-001: "MThd", length 6, format 1, three tracks, 5040 ticks a quarter note.
        let header = [0, 0, 0, 6, 0, 1, 0, 3, 0x13, 0xb0];
        assert_eq!(&bytes[..4], b"MThd");
        assert_eq!(bytes[4..14], header);
        assert_eq!(&bytes[14..18], b"MTrk");
        // FF 51 03 and 500 000 microseconds a beat; FF 58 04 and 3/4; FF 59 02, two flats,
        // minor.
        for message in [
            &[0xff, 0x51, 3, 0x07, 0xa1, 0x20][..],
            &[0xff, 0x58, 4, 3, 2, 24, 8],
            &[0xff, 0x59, 2, 0xfe, 1],
        ] {
            assert!(bytes.windows(message.len()).any(|found| found == message));
        }
    }

    #[test]
    fn every_note_of_every_texture_begins_once_and_ends() {
        for texture in Texture::ALL {
            let (passage, line, key) = arranged("I | vi7 V7/V | V7 | I", "D", texture);
            let bytes = midi(&passage, &line, key);
            let file = Smf::parse(&bytes).expect("it is a MIDI file");
            let mut begun = 0;
            for track in &file.tracks {
                let mut open: HashMap<(u4, u7), u32> = HashMap::new();
                let mut now = 0;
                for event in track {
                    now += event.delta.as_int();
                    if let TrackEventKind::Midi { channel, message } = event.kind {
                        match message {
                            MidiMessage::NoteOn { key, vel } => {
                                assert!(vel > 0);
                                assert!(open.insert((channel, key), now).is_none(), "{texture}");
                                begun += 1;
                            }
                            MidiMessage::NoteOff { key, .. } => {
                                let start = open.remove(&(channel, key));
                                assert!(start.is_some_and(|start| start < now), "{texture}");
                            }
                            other => panic!("{other:?}"),
                        }
                    }
                }
                assert!(open.is_empty(), "{texture}: notes that never end");
                assert!(now >= passage.length, "{texture}");
            }
            let mut heard: Vec<(MidiPart, u7, Ticks)> = Vec::new();
            for note in &passage.notes {
                let event = (MidiPart::of(note.voice), number(note), note.start);
                if !heard.contains(&event) {
                    heard.push(event);
                }
            }
            assert_eq!(begun, heard.len(), "{texture}");
        }
    }
}
