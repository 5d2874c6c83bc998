//! Applied names against where the chord goes.

use super::*;

#[test]
fn the_right_target_in_another_form_is_worth_as_much_for_every_target() {
    // A dominant, its leading-tone chord and its tritone substitute resolve alike:
    // Hutchinson, "Secondary Diminished Chords"; Open Music Theory v2, "Substitutions".
    for (mode, target, by_root) in [
        (Mode::Major, "ii", ["#io7", "bIII7"]),
        (Mode::Major, "iii", ["#iio7", "IV7"]),
        (Mode::Major, "IV", ["iiio7", "bV7"]),
        (Mode::Major, "V", ["#ivo7", "bVI7"]),
        (Mode::Major, "vi", ["#vo7", "bVII7"]),
        (Mode::Minor, "iv", ["iiio7", "bV7"]),
        (Mode::Minor, "V", ["#ivo7", "bVI7"]),
        (Mode::Minor, "bVI", ["vo7", "VI7"]),
        (Mode::Minor, "bIII", ["iio7", "III7"]),
    ] {
        let line = format!("V7 [V7/{target}] {target}");
        let named = ["viio7", "subV7"].map(|form| format!("{form}/{target}"));
        for answer in named.iter().map(String::as_str).chain(by_root) {
            assert_eq!(judge(mode, &line, answer), OtherForm, "{line}: {answer}");
        }
        let substitute = format!("V7 [subV7/{target}] {target}");
        for form in ["V7", "viio7"] {
            let answer = format!("{form}/{target}");
            let tier = judge(mode, &substitute, &answer);
            assert_eq!(tier, OtherForm, "{substitute}: {answer}");
        }
    }
    check(
        Mode::Major,
        &[
            ("ii7 [V7] I", "subV7", OtherForm),
            ("ii7 [V7] vi7", "bII7", OtherForm),
            ("ii7 [bII7] I", "V7", OtherForm),
            ("I [#io7] ii7", "V7/ii", OtherForm),
            // It is the target that counts, wherever the dominant goes astray.
            ("I [V7/vi] IV", "viio7/vi", OtherForm),
            ("I [V7/vi] IV", "subV7/vi", OtherForm),
            ("I [V7/vi] IV", "#vo7", OtherForm),
            // No more for another target, in whatever form.
            ("I [V7/ii] ii7", "III7", WrongTarget),
            ("I [V7/ii] ii7", "viio7/V", WrongTarget),
            ("I [V7/ii] ii7", "subV7/V", WrongTarget),
            ("I [V7/ii] ii7", "viio7/IV", WrongTarget),
            ("I [V7/vi] IV", "V7/V", WrongTarget),
            // Backdoor and tonic are no forms of a dominant's target.
            ("I [bVII7] I", "V7", AreaOnly),
            ("V7 [I] IV", "viio7/IV", Wrong),
        ],
    );
    assert!(OtherForm.credit() >= WrongTarget.credit());
}

#[test]
fn a_name_for_a_target_that_the_chord_does_not_lead_to_is_half_right() {
    check(
        Mode::Major,
        &[
            ("I [bVII7] iii", "V7/bIII", WrongTarget),
            ("I [bVII7] iii", "subV7/vi", WrongTarget),
            ("IV [bVII7] I", "V7/bIII", WrongTarget),
            ("IV [bVII7] I", "V/bIII", WrongTarget),
            ("I [bVII7] bIIImaj7", "V7/bIII", Right),
            ("I [bVII7] bIIImaj7", "subV7/vi", WrongTarget),
            ("I [bVII7] vi", "subV7/vi", Right),
            ("ii7 [bII7] I", "V7/bV", WrongTarget),
            ("I [bVI7] V7", "V7/bII", WrongTarget),
            ("I [bVI7] bII", "V7/bII", Right),
            ("I [bVI7] bII", "Ger6", WrongTarget),
            ("I [#ivø7] V7/iii iii", "viiø7/V", WrongTarget),
            ("I [#ivø7] iv7 I", "viiø7/V", WrongTarget),
            ("I [#ivø7] V7/iii iii", "iiø7/iii", Right),
            ("I [#ivø7] V7", "viiø7/V", Right),
            ("IV [#ivo7] I", "viio7/V", WrongTarget),
            ("iii7 [biiio7] ii7", "viio7/iii", WrongContext),
            ("I [IV7] I", "V7/bVII", WrongContext),
            ("I [III] I", "V/vi", WrongTarget),
            ("I [ii7] V7", "vi/IV", WrongTarget),
        ],
    );
    check(
        Mode::Minor,
        &[
            ("i [IV7] i", "V7/bVII", WrongTarget),
            ("i [IV7] bVII", "V7/VII", Right),
            ("i [bII7] i", "V7/bV", WrongTarget),
        ],
    );
}

#[test]
fn the_dominants_of_the_keys_degrees_keep_their_names_wherever_they_go() {
    // Common practice; Terefenko, Jazz Theory, takes VI7 and V7/ii as the same
    // (second-hand). ♯iv°7 is as often written vii°7/V before the tonic over its fifth.
    check(
        Mode::Major,
        &[
            ("I [VI7] ii7", "V7/ii", Right),
            ("I [VI7] bVImaj7", "V7/ii", Right),
            ("I [II7] ii7 V7", "V7/V", Right),
            ("I [II7] bII7 I", "V7/V", Right),
            ("I [III7] bIII7 II7", "V7/vi", Right),
            ("[I7] IV7 I7", "V7/IV", WrongContext),
            ("I [I7] IV", "V7/IV", Right),
            ("I [I7] iv", "V7/iv", Right),
            ("IV [#ivo7] V7", "viio7/V", Right),
            ("IV [#ivo7] I/5 V7", "viio7/V", Right),
            ("IV [#ivo7] I/5 VI7", "viio7/V", Right),
            ("I [vi7] II7 V7", "ii7/V", Right),
            ("I [iii7] VI7 ii7", "ii7/ii", Right),
            ("I [bVI7] I", "Ger6", Right),
            ("[bIImaj7] V7 I", "N6", Right),
        ],
    );
    check(
        Mode::Minor,
        &[
            ("i [bVII7] i", "V7/III", Right),
            ("i [bIII7] bVI", "V7/VI", Right),
            ("i [iv7] bVII7 bIII", "ii7/bIII", Right),
        ],
    );
}

#[test]
fn a_triad_over_a_foreign_bass_is_taken_by_its_notes() {
    check(
        Mode::Major,
        &[
            ("I [#ivø7] iv7 I", "vi/#4", OtherName),
            ("I [#ivø7] V7/iii iii", "vi/b5", OtherName),
            ("I [vi7] ii7", "I/6", OtherName),
            ("I [ii7] V7", "IV/2", OtherName),
            ("I [iiø7] V7", "iv/2", OtherName),
            ("I [#ivø7] iv7 I", "vi", Wrong),
            ("I [ii7] V7", "IV", AreaOnly),
            ("I [iiø7/4] V7", "iv/2", OtherName),
        ],
    );
}

/// Every name in its usual writing: on each degree, and for each target of the mode.
pub(super) fn usual_writings() -> Vec<Numeral> {
    let targets = ["ii", "iii", "IV", "V", "vi", "bIII", "bVI", "bVII", "bII"];
    let forms = ["V7", "viio7", "viiø7", "subV7", "ii", "iiø7"];
    let applied = targets
        .iter()
        .flat_map(|target| forms.map(|form| format!("{form}/{target}")));
    let signs = ["", "b", "#"];
    let romans = ["I", "II", "III", "IV", "V", "VI", "VII"];
    let by_root = signs.iter().flat_map(|sign| {
        romans.iter().flat_map(move |roman| {
            let lower = roman.to_lowercase();
            [
                format!("{sign}{roman}"),
                format!("{sign}{roman}7"),
                format!("{sign}{lower}"),
                format!("{sign}{lower}o7"),
                format!("{sign}{lower}ø7"),
            ]
        })
    });
    let others = ["subV7", "Ger6", "N6", "V7sus4", "ii7/5", "IV/5", "I/5"];
    applied
        .chain(by_root)
        .chain(others.map(str::to_owned))
        .map(|text| text.parse().unwrap_or_else(|error| panic!("{error}")))
        .filter(|name: &Numeral| (-6..=6).contains(&name.root().interval().fifths()))
        .collect()
}

pub(super) const MAJOR: [&str; 14] = [
    "I V7/ii ii7 V7 I",
    "I III7 VI7 II7 V7 I",
    "I III7 bIII7 II7 bII7 I",
    "I II7 IV I",
    "IV #ivo7 I/5 V7 I",
    "IV #ivo7 I/5 VI7 ii7 V7",
    "IV #ivo7 V7 I",
    "I io7 I #io7 ii7 biiio7 iii7",
    "IV iv bVII7 iii7 VI7 ii7",
    "ii7 bII7 I bVI7 V7",
    "I #ivø7 VII7 iii7 #ivø7 iv I",
    "vi7 II7 v7 I7 IV bII V7 I",
    "I7 IV7 I7 V7sus4 V7",
    "viiø7 III7 vi viio7 I",
];
pub(super) const MINOR: [&str; 8] = [
    "i V7/iv iv iiø7 V7 i",
    "i bVII7 bIII bVI7 V7 i",
    "i bVII bVI V i IV7 i",
    "i bII7 i N6 V7",
    "iv #ivo7 i/5 V7 i viio7 bVI",
    "i II7 ii7 V7 bVI bIII7 bVI",
    "i VI7 II7 V7sus4 V7 i",
    "iv7 bVII7 bIIImaj7 bVImaj7 iiø7 V7",
];

#[test]
fn whatever_is_right_is_listed_in_its_usual_writing() {
    // The same name but for its extensions, its bass and the case of its target.
    let same_name = |one: &Numeral, other: &Numeral| {
        one.target.as_ref().map(|target| target.root())
            == other.target.as_ref().map(|target| target.root())
            && std::mem::discriminant(&one.head) == std::mem::discriminant(&other.head)
            && Shape::acting(one).sounds_as(Shape::acting(other))
    };
    let mut missing = Vec::new();
    let lines = MAJOR.map(|text| (Mode::Major, text));
    for (mode, text) in lines
        .into_iter()
        .chain(MINOR.map(|text| (Mode::Minor, text)))
    {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        for slot in 0..line.slots().len() {
            let sounding = ChordInContext::of(&line, slot, mode);
            let accepted = sounding.accepted();
            for name in usual_writings() {
                // In minor the flat may be left out, which is not listed.
                let as_written = readings(&name, mode).len() == 1;
                let listed = accepted.iter().any(|one| same_name(one, &name));
                if as_written && sounding.judge(&name).is_right() && !listed {
                    missing.push(format!("{text}: {} takes {name}", sounding.truth));
                }
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

#[test]
fn signs_of_textbooks_are_listed_with_the_names() {
    for (text, slot, sign) in [
        ("IV I/5 V7 I", 1, Some("V6/4")),
        ("I Io7 I", 1, Some("CTo7")),
        ("I bVI7 I", 1, Some("CT+6")),
        ("IV I/5 IV I", 1, None),
        ("IV #ivo7 V7", 1, None),
    ] {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        let sounding = ChordInContext::of(&line, slot, Mode::Major);
        let written = sounding.accepted_written(Notation::Text);
        assert_eq!(sounding.sign(Notation::Text).as_deref(), sign, "{text}");
        assert_eq!(
            written.len(),
            sounding.accepted().len() + usize::from(sign.is_some())
        );
        assert!(written.iter().all(|name| name != "V/2"), "{written:?}");
    }
}

#[test]
fn a_target_is_named_as_the_chord_that_follows() {
    for (mode, text, function) in [
        (Mode::Minor, "i V7/iv iv", "dominant of iv"),
        (Mode::Major, "I V7/IV iv", "dominant of iv"),
        (Mode::Major, "I V7/iv IV", "dominant of IV"),
        (Mode::Minor, "i V7/V V7", "dominant of V"),
    ] {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        let sounding = ChordInContext::of(&line, 1, mode);
        assert_eq!(sounding.function(Notation::Text), function, "{text}");
    }
}

#[test]
fn a_target_that_is_named_in_vain_is_said_as_it_was_meant() {
    // Of an augmented sixth it is the fifth of the key that it is applied to.
    for (text, answer, named) in [
        ("I bVII7 iii", "V7/bIII", Some("bIII")),
        ("I bVII7 iii", "subV7/vi", Some("vi")),
        ("I bIII7 I", "Ger6/V", Some("II")),
        ("I bVI7 bII", "Ger6", Some("V")),
        ("I bVII7 bIIImaj7", "V7/bIII", None),
        ("I bVII7 iii", "V7/ii", None),
    ] {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        let answer = answer.parse().expect("a numeral");
        let sounding = ChordInContext::of(&line, 1, Mode::Major);
        let target = sounding.misnamed_target(&answer, Notation::Text);
        let target = target.map(|target| target.to_uppercase());
        let named = named.map(str::to_uppercase);
        assert_eq!(target, named, "{text}: {answer}");
    }
}
