//! Where a named chord differs from the one that sounded, in words.

use crate::devices::{Kind, Shape};
use crate::harmony::{ChordInContext, Role, Tier};
use crate::theory::{Degree, Notation, Numeral};

/// What is wrong with the name; nothing if it is right.
pub(super) fn diagnosis(
    sounding: &ChordInContext,
    named: &Numeral,
    tier: Tier,
    notation: Notation,
) -> Option<String> {
    let words = match tier {
        Tier::Right => return None,
        Tier::OtherName => "another name for it, right here",
        Tier::OtherForm => "the right target, in another form",
        Tier::WrongTarget => return Some(wrong_target(sounding, named, notation)),
        Tier::WrongQuality | Tier::WrongContext | Tier::AreaOnly
            if differs_in_bass(sounding, named) =>
        {
            let bass = sounding.truth.sounding_bass().written(notation);
            return Some(format!("the right chord, but it stands on {bass}"));
        }
        Tier::WrongQuality if is_of_its_area(sounding, named) => {
            "the right root, but another quality"
        }
        Tier::WrongQuality => "the right root, but another quality and so another function",
        Tier::AreaOnly => match minor_subdominants(sounding, named) {
            Some(words) => return Some(words),
            None => "the same distance from home, but another chord",
        },
        Tier::WrongContext if sounding.role == Role::BluesSeventh => {
            "the same chord, but in the blues its seventh asks for nothing"
        }
        Tier::WrongContext => "the same notes, but here they resolve another way",
        Tier::Wrong | Tier::Partly => "another function",
    };
    Some(words.to_owned())
}

/// Whether nothing but the bass tells the named chord from the one that sounded.
fn differs_in_bass(sounding: &ChordInContext, named: &Numeral) -> bool {
    Shape::acting(named) == Shape::acting(&sounding.truth)
        && named.sounding_bass() != sounding.truth.sounding_bass()
}

fn is_of_its_area(sounding: &ChordInContext, named: &Numeral) -> bool {
    sounding.role_of(named).area() == sounding.role.area()
}

/// The chord itself under the name of a target that it does not lead to, or another chord.
fn wrong_target(sounding: &ChordInContext, named: &Numeral, notation: Notation) -> String {
    let Some(target) = sounding.misnamed_target(named, notation) else {
        return "the right kind of chord, but it leads elsewhere".to_owned();
    };
    let next = sounding.next().without_tensions().written(notation);
    format!("the same chord, but the name says that it leads to {target}, and here {next} follows")
}

/// iv and iiø7 are both called minor subdominant: what tells them apart is where they
/// stand and where they go.
fn minor_subdominants(sounding: &ChordInContext, named: &Numeral) -> Option<String> {
    let minor = Role::MinorSubdominant;
    if sounding.role != minor || sounding.role_of(named) != minor {
        return None;
    }
    let degree = |numeral: &Numeral| Shape::acting(numeral).root.number();
    let number = degree(named);
    let way = match (number, goes(sounding)) {
        (4, Some(Course::ToDominant)) => ", and falls home",
        (2, Some(Course::Home)) => ", and goes on to V",
        _ => "",
    };
    Some(format!("that one stands on {number}{way}"))
}

/// Where a subdominant goes.
enum Course {
    ToDominant,
    Home,
}

fn goes(sounding: &ChordInContext) -> Option<Course> {
    let next = sounding.next();
    let Shape { root, kind } = Shape::acting(next);
    let five = Degree::new(5, 0);
    let six_four = root == Degree::TONIC && next.sounding_bass() == five;
    if root == five && matches!(kind, Kind::Dominant | Kind::Suspended) || six_four {
        Some(Course::ToDominant)
    } else if root == Degree::TONIC && matches!(kind, Kind::Major | Kind::Minor) {
        Some(Course::Home)
    } else {
        None
    }
}

/// What a chord does, with its article: of a minor subdominant also what tells it from the
/// other one.
pub(super) fn function(sounding: &ChordInContext, notation: Notation) -> String {
    let function = with_article(&sounding.function(notation));
    if sounding.role != Role::MinorSubdominant {
        return function;
    }
    let function = if Shape::acting(&sounding.truth).root == Degree::new(2, 0) {
        "a minor-subdominant chord on 2".to_owned()
    } else {
        function
    };
    let way = match goes(sounding) {
        Some(Course::ToDominant) => ", on its way to V",
        Some(Course::Home) => ", falling home",
        None => "",
    };
    function + way
}

fn with_article(function: &str) -> String {
    let proper = ["borrowed", "half-diminished"];
    if proper.iter().any(|start| function.starts_with(start)) {
        return function.to_owned();
    }
    let indefinite = [
        "falling",
        "common-tone",
        "resting",
        "chromatic",
        "tonic substitute",
    ];
    let article = if indefinite.iter().any(|start| function.starts_with(start)) {
        "a"
    } else {
        "the"
    };
    format!("{article} {function}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{BareSix, Line, Meter, Mode};

    fn sounding(mode: Mode, text: &str, slot: usize) -> ChordInContext {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        ChordInContext::of(&line, slot, mode)
    }

    #[test]
    fn a_reason_says_no_more_than_is_so() {
        let same_chord = "the same chord, but the name says that it leads to";
        for (text, slot, named, reason) in [
            ("ii7 V7 I", 1, "Vsus", "the right root, but another quality"),
            (
                "IV viiø7 I",
                1,
                "viio7",
                "the right root, but another quality",
            ),
            ("I iiø7 V7", 1, "ii", "the right root, but another quality"),
            (
                "I V7/ii ii7",
                1,
                "vi",
                "the right root, but another quality and so another function",
            ),
            (
                "I V7/ii ii7",
                1,
                "#io7",
                "the right target, in another form",
            ),
            (
                "I V7/ii ii7",
                1,
                "V7/V",
                "the right kind of chord, but it leads elsewhere",
            ),
            (
                "I bVII7 iii7",
                1,
                "V7/bIII",
                &format!("{same_chord} bIII, and here iii7 follows"),
            ),
            (
                "I bVII7 iii7",
                1,
                "subV7/vi",
                &format!("{same_chord} vi, and here iii7 follows"),
            ),
            (
                "I bVI7 bIImaj7",
                1,
                "Ger6",
                &format!("{same_chord} V, and here bIImaj7 follows"),
            ),
            ("IV I/5 V7", 1, "I", "the right chord, but it stands on 5"),
            ("I ii7/5 V7", 1, "ii", "the right chord, but it stands on 5"),
            ("I iiø7 V7", 1, "iv", "that one stands on 4, and falls home"),
            (
                "IV iv I",
                1,
                "iiø7",
                "that one stands on 2, and goes on to V",
            ),
            ("IV iv V7", 1, "iiø7", "that one stands on 2"),
        ] {
            let sounding = sounding(Mode::Major, text, slot);
            let named = named.parse().expect("a numeral");
            let tier = sounding.judge(&named);
            let said = diagnosis(&sounding, &named, tier, Notation::Text);
            assert_eq!(said.as_deref(), Some(reason), "{text}: {named}");
        }
        let tonic = sounding(Mode::Minor, "i V7 i", 0);
        let named = "I".parse().expect("a numeral");
        assert_eq!(
            diagnosis(&tonic, &named, tonic.judge(&named), Notation::Text).as_deref(),
            Some("the right root, but another quality")
        );
    }

    #[test]
    fn the_minor_subdominants_are_told_apart_by_where_they_go() {
        for (text, function_said) in [
            (
                "I iiø7 V7",
                "a minor-subdominant chord on 2, on its way to V",
            ),
            ("I iiø7 I", "a minor-subdominant chord on 2, falling home"),
            ("I iv I", "the minor subdominant, falling home"),
            ("I iv I/5 V7", "the minor subdominant, on its way to V"),
            ("I iv bVII7", "the minor subdominant"),
            ("I IV I", "the subdominant"),
        ] {
            let said = function(&sounding(Mode::Major, text, 1), Notation::Text);
            assert_eq!(said, function_said, "{text}");
        }
    }
}
