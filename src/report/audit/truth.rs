//! Whether the truth that travels with a question is what its chord symbols say.
//!
//! The symbols are printed and read back before they are analysed, so that nothing but
//! what stands on a chart can pass. Reader and teller share the rules of what a chord does
//! in its context; what is tested is that naming, spelling and devices survive the loss of
//! the numerals.

use serde::Serialize;

use super::case::{Cases, Read, Subject, share};
use crate::harmony::{Analysis, ChordInContext, Progression, analyse};
use crate::theory::{Chord, Notation, Symbol};

/// How far the analyser agrees.
#[derive(Clone, Debug, Serialize)]
pub struct Agreement {
    /// Share of questions in which every chord and the wanted device are read as told.
    pub agreement: f64,
    /// Share of chords read as told.
    pub chords: f64,
    /// Share of questions in which all devices are read as told, the others as well.
    pub all_devices: f64,
    /// How many disagreements there are in all.
    pub count: u32,
    /// The first of them.
    pub disagreements: Cases,
}

impl Agreement {
    pub(super) fn fault(&self) -> Option<String> {
        (self.agreement < LEAST).then(|| {
            format!(
                "the analyser agrees with {:.2} % of the questions, fewer than {:.1} %",
                100.0 * self.agreement,
                100.0 * LEAST
            )
        })
    }
}

/// The least share of questions that must be read as told.
const LEAST: f64 = 0.995;

#[derive(Default)]
pub(super) struct TruthExaminer {
    questions: u32,
    agreed: u32,
    same_devices: u32,
    chords: u32,
    chords_agreed: u32,
    disagreements: Cases,
}

impl TruthExaminer {
    /// Reads the line from its symbols, and compares.
    pub(super) fn examine(&mut self, subject: &Subject<'_>) -> Read {
        let progression = &subject.question.progression;
        let read = read(progression, subject);
        self.questions += 1;
        let before = self.disagreements.count();
        for (slot, at) in read.chord_of.iter().enumerate() {
            let told = ChordInContext::of(&progression.line, slot, progression.key.mode());
            let reading = &read.analysis.readings[*at][0];
            self.chords += 1;
            if told.judge(&reading.numeral).is_right() {
                self.chords_agreed += 1;
            } else {
                let what = format!(
                    "{} ({}) is read as {} ({})",
                    told.truth,
                    told.role.words(told.mode, Notation::Text),
                    reading.numeral,
                    reading.role.words(told.mode, Notation::Text),
                );
                self.disagreements.add(subject.case(Some(slot), what));
            }
        }
        let wanted = &subject.question.wanted;
        if !finds(&read.analysis, wanted) {
            let what = format!("`{wanted}` is not found in the symbols");
            self.disagreements.add(subject.case(None, what));
        }
        self.agreed += u32::from(self.disagreements.count() == before);
        let all = progression
            .devices
            .iter()
            .all(|told| finds(&read.analysis, &told.device));
        self.same_devices += u32::from(all);
        read
    }

    pub(super) fn finish(self) -> Agreement {
        Agreement {
            agreement: share(self.agreed, self.questions),
            chords: share(self.chords_agreed, self.chords),
            all_devices: share(self.same_devices, self.questions),
            count: self.disagreements.count(),
            disagreements: self.disagreements,
        }
    }
}

fn finds(analysis: &Analysis, device: &crate::devices::DeviceId) -> bool {
    analysis.devices.iter().any(|found| found.device == *device)
}

/// What a line's printed symbols say in its key.
pub(super) fn read(progression: &Progression, subject: &Subject<'_>) -> Read {
    let mut symbols: Vec<Symbol> = Vec::new();
    let mut chord_of = Vec::new();
    for numeral in progression.line.numerals() {
        let chord = Chord::new(numeral, progression.key).expect("questions spell their chords");
        let printed = chord.symbol().written(Notation::Text);
        let symbol: Symbol = printed.parse().expect("a printed symbol can be read");
        if symbols.last() != Some(&symbol) {
            symbols.push(symbol);
        }
        chord_of.push(symbols.len() - 1);
    }
    Read {
        analysis: analyse(&symbols, progression.key, subject.catalogue),
        chord_of,
    }
}
