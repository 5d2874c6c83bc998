//! Whether what is accepted and what is on offer is fair.

use std::collections::BTreeMap;

use serde::Serialize;

use super::case::{Cases, Read, Subject};
use super::truth;
use crate::devices::Shape;
use crate::harmony::{Context, Sounding, Tier, role};
use crate::quiz::{Ask, Form, Question, Truth};
use crate::theory::{Chord, Degree, IntervalClass, Notation, Numeral};

/// What is unfair about a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unfair {
    /// Nothing is asked at all.
    AsksNothing,
    /// The name by which the chord is asked, or one that is accepted, is marked wrong.
    AcceptsNothing,
    /// A name is taken for the same function although it says another one here.
    TwoFunctions,
    /// No answer on offer is right.
    NoRightAnswer,
    /// Several answers on offer are right.
    SeveralRight,
    /// Two answers on offer are the same function here, or look alike.
    Twins,
    /// A wrong answer on offer is as well supported as the right one.
    AsWellSupported,
    /// The answer that counts as right is not what the symbols say.
    Untrue,
}

impl Unfair {
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::AsksNothing => "nothing is asked",
            Self::AcceptsNothing => "an accepted name is marked wrong",
            Self::TwoFunctions => "two functions are accepted as one",
            Self::NoRightAnswer => "no answer on offer is right",
            Self::SeveralRight => "several answers on offer are right",
            Self::Twins => "two answers on offer are the same",
            Self::AsWellSupported => "a wrong answer is as well supported",
            Self::Untrue => "the right answer is not what the symbols say",
        }
    }
}

/// What was unfair.
#[derive(Clone, Debug, Serialize)]
pub struct Fairness {
    pub faults: u32,
    /// How many of each sort.
    pub sorts: BTreeMap<Unfair, u32>,
    /// Things that were asked, and answers on offer for them.
    pub asks: u32,
    pub offers: u32,
    /// The first of the faults.
    pub cases: Cases,
}

impl Fairness {
    pub(super) fn fault(&self) -> Option<String> {
        (self.faults > 0).then(|| format!("{} things asked are unfair", self.faults))
    }
}

#[derive(Default)]
pub(super) struct Examiner {
    sorts: BTreeMap<Unfair, u32>,
    asks: u32,
    offers: u32,
    cases: Cases,
}

/// What is unfair, and about which answer.
type Found = Vec<(Unfair, String)>;

impl Examiner {
    pub(super) fn examine(&mut self, subject: &Subject<'_>, read: &Read) {
        let question = subject.question;
        if question.asks.is_empty() {
            self.add(subject, None, Unfair::AsksNothing, "");
        }
        for ask in &question.asks {
            self.asks += 1;
            self.offers += u32::try_from(ask.form.offers()).expect("offers are few");
            for (unfair, detail) in found(subject, ask, read) {
                self.add(subject, ask.slot, unfair, &detail);
            }
        }
    }

    fn add(&mut self, subject: &Subject<'_>, slot: Option<usize>, unfair: Unfair, detail: &str) {
        *self.sorts.entry(unfair).or_default() += 1;
        let what = format!("{}: {detail}", unfair.words());
        self.cases.add(subject.case(slot, what));
    }

    pub(super) fn finish(self) -> Fairness {
        Fairness {
            faults: self.cases.count(),
            sorts: self.sorts,
            asks: self.asks,
            offers: self.offers,
            cases: self.cases,
        }
    }
}

fn found(subject: &Subject<'_>, ask: &Ask, read: &Read) -> Found {
    let question = subject.question;
    match (&ask.truth, &ask.form, ask.slot) {
        (Truth::Chord(sounding), Form::Numeral { choices }, Some(slot)) => {
            let line = &question.progression.line;
            let context = Context::in_line(line, slot, question.key().mode());
            let mut found = accepted(sounding, &context);
            let sounds = &read.analysis.readings[read.chord_of[slot]][0].numeral;
            if !sounding.judge(sounds).is_right() {
                found.push((Unfair::Untrue, sounds.to_string()));
            }
            found.extend(offered(sounding, &context, choices));
            found
        }
        (Truth::Choice(truth), Form::OneOf { choices }, _) if question.other.is_some() => {
            let mut found = alike(choices);
            found.extend(two_lines(subject, *truth));
            found
        }
        (Truth::Choice(truth), Form::OneOf { choices }, _) => {
            let mut found = alike(choices);
            found.extend(devices(subject, ask, *truth, read));
            found
        }
        (Truth::Key(home), Form::Key { choices }, _) => {
            let mut found: Found = Vec::new();
            if !choices.contains(home) {
                found.push((Unfair::NoRightAnswer, home.to_string()));
            }
            let tonics: Vec<String> = choices
                .iter()
                .map(|key| key.tonic().chromatic().to_string())
                .collect();
            found.extend(alike(&tonics));
            if *home != question.key() {
                found.push((Unfair::Untrue, home.to_string()));
            }
            found
        }
        (Truth::Slots(slots), Form::Slots, _) => out_of_key(question, slots),
        _ => vec![(
            Unfair::AcceptsNothing,
            "another form than the truth has".to_owned(),
        )],
    }
}

/// What is unfair in the names that are accepted for a chord.
fn accepted(sounding: &Sounding, context: &Context) -> Found {
    let mut found = Vec::new();
    for name in sounding.accepted() {
        let tier = sounding.judge(&name);
        if !tier.is_right() {
            found.push((Unfair::AcceptsNothing, name.to_string()));
        }
        // Another name for the same notes is told as one when it is marked.
        let says_so = tier == Tier::OtherName;
        let own = role(&name, context);
        if !says_so && own != sounding.role && !told_apart_by_no_ear(sounding, &name, own) {
            let words = |role: crate::harmony::Role| role.words(context.mode, Notation::Text);
            let detail = format!(
                "{name} is the {}, not the {}",
                words(own),
                words(sounding.role)
            );
            found.push((Unfair::TwoFunctions, detail));
        }
    }
    found
}

/// The German sixth and the substitute of V7/V are one chord by its sound and by what it
/// does, under the names of two trades.
fn told_apart_by_no_ear(sounding: &Sounding, name: &Numeral, own: crate::harmony::Role) -> bool {
    Shape::acting(name).sounds_as(Shape::acting(&sounding.truth))
        && own.target() == sounding.role.target()
        && own.area() == sounding.role.area()
}

/// What is unfair in the numerals on offer for a chord.
fn offered(sounding: &Sounding, context: &Context, choices: &[Numeral]) -> Found {
    if choices.is_empty() {
        return Vec::new();
    }
    let mut found = Vec::new();
    let is_right = |choice: &Numeral| sounding.judge(choice).is_right();
    let right: Vec<&Numeral> = choices.iter().filter(|one| is_right(one)).collect();
    match right.as_slice() {
        [] => found.push((Unfair::NoRightAnswer, sounding.usual().to_string())),
        [_] => {}
        [one, other, ..] => found.push((Unfair::SeveralRight, format!("{one} and {other}"))),
    }
    for (at, one) in choices.iter().enumerate() {
        for other in &choices[at + 1..] {
            if !(is_right(one) && is_right(other)) && same_here(one, other, context) {
                found.push((Unfair::Twins, format!("{one} and {other}")));
            }
        }
        if !is_right(one) && as_well_supported(one, sounding, context) {
            found.push((Unfair::AsWellSupported, one.to_string()));
        }
    }
    found
}

/// Whether two numerals are the same function in a context, or are written alike.
fn same_here(one: &Numeral, other: &Numeral, context: &Context) -> bool {
    let takes = |truth: &Numeral, answer: &Numeral| {
        Sounding::new(truth.clone(), context.clone())
            .judge(answer)
            .is_right()
    };
    let written = |numeral: &Numeral| numeral.written(Notation::Screen);
    written(one) == written(other) || takes(one, other) || takes(other, one)
}

/// Whether a wrong answer says here the very thing that the chord does, of the notes that
/// sound.
fn as_well_supported(wrong: &Numeral, sounding: &Sounding, context: &Context) -> bool {
    let notes = |numeral: &Numeral| {
        let mut notes: Vec<i32> = numeral
            .without_tensions()
            .degrees()
            .iter()
            .map(|degree| degree.interval().chromatic())
            .collect();
        notes.sort_unstable();
        notes
    };
    let same_shape = Shape::acting(wrong).sounds_as(Shape::acting(&sounding.truth));
    (same_shape || notes(wrong) == notes(&sounding.truth)) && role(wrong, context) == sounding.role
}

/// Answers that look alike.
fn alike(choices: &[String]) -> Found {
    let twin = |at: usize| choices[..at].contains(&choices[at]);
    (0..choices.len())
        .filter(|at| twin(*at))
        .map(|at| (Unfair::Twins, choices[at].clone()))
        .collect()
}

/// What is unfair where a device is to be named: that the symbols hold another one that is
/// on offer, or not the right one.
fn devices(subject: &Subject<'_>, ask: &Ask, truth: usize, read: &Read) -> Found {
    let pointed: Vec<usize> = subject
        .question
        .pointed
        .iter()
        .map(|at| read.chord_of[*at])
        .collect();
    let holds = |at: usize| {
        ask.offered.get(at).is_some_and(|id| {
            let found = read
                .analysis
                .devices
                .iter()
                .filter(|found| found.device == *id);
            found
                .into_iter()
                .any(|found| pointed.iter().any(|at| found.own.contains(at)))
        })
    };
    let mut found = Vec::new();
    if !holds(truth) {
        found.push((Unfair::Untrue, subject.question.wanted.to_string()));
    }
    for at in (0..ask.offered.len()).filter(|at| *at != truth && holds(*at)) {
        found.push((Unfair::AsWellSupported, ask.offered[at].to_string()));
    }
    found
}

/// What is unfair where one of two lines holds the device.
fn two_lines(subject: &Subject<'_>, truth: usize) -> Found {
    let question = subject.question;
    let Some(other) = &question.other else {
        return Vec::new();
    };
    let holds = |progression| {
        let read = truth::read(progression, subject);
        read.analysis
            .devices
            .iter()
            .any(|found| found.device == question.wanted)
    };
    let mut found = Vec::new();
    if !holds(&question.progression) || truth != usize::from(other.is_first) {
        found.push((
            Unfair::Untrue,
            "the right line does not hold the device".to_owned(),
        ));
    }
    if holds(&other.progression) {
        let line = other.progression.line.to_string();
        found.push((Unfair::AsWellSupported, line));
    }
    if sounds(&question.progression.line, question) == sounds(&other.progression.line, question) {
        found.push((Unfair::Twins, "both lines sound alike".to_owned()));
    }
    found
}

/// The notes of each chord above its bass, all of them as they sound.
fn sounds(line: &crate::theory::Line, question: &Question) -> Vec<(i32, Vec<i32>)> {
    let sound = |numeral: &Numeral| {
        let chord = Chord::new(numeral, question.key()).expect("questions spell their chords");
        let mut notes: Vec<i32> = chord.notes().iter().map(|note| note.chromatic()).collect();
        notes.sort_unstable();
        (chord.bass().chromatic(), notes)
    };
    line.numerals().map(sound).collect()
}

/// Slots that count as out of the key without a note outside it, and the other way round.
/// Whether a note stands outside is told by its sound, as it is by ear.
fn out_of_key(question: &Question, slots: &[usize]) -> Found {
    let key = question.key();
    let scale: Vec<i32> = (-7..=7)
        .map(|fifths| Degree::at(IntervalClass::from_fifths(fifths)))
        .filter(|degree| key.holds(*degree))
        .map(|degree| key.note(degree).chromatic())
        .collect();
    let line = &question.progression.line;
    let leaves = |numeral: &Numeral| {
        let chord = Chord::new(numeral, key).expect("questions spell their chords");
        chord
            .notes()
            .iter()
            .any(|note| !scale.contains(&note.chromatic()))
    };
    let wrong = line
        .numerals()
        .enumerate()
        .filter(|(slot, numeral)| leaves(numeral) != slots.contains(slot));
    wrong
        .map(|(slot, numeral)| (Unfair::Untrue, format!("{numeral} in slot {slot}")))
        .collect()
}
