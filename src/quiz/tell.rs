//! What gives the answer away: the tell of a device, or where home comes.

use super::question::{Ask, Question, Truth};
use crate::devices::DeviceId;
use crate::harmony::{Role, roles};

impl Ask {
    /// The device whose tell helps to hear the answer, if one does. What a line's last
    /// chord does is no help in finding its home; what its first one does is.
    #[must_use]
    pub fn told_by(&self, question: &Question) -> Option<&DeviceId> {
        let device = self.devices.first()?;
        let opens = || {
            let found = question.progression.occurrence(device);
            found.is_some_and(|found| found.own.start == 0)
        };
        let helps = match self.truth {
            Truth::Key(_) => opens(),
            Truth::Chord(_) | Truth::Choice(_) | Truth::Slots(_) => true,
        };
        helps.then_some(device)
    }
}

/// Where in the line home comes, and after what.
pub(super) fn where_home_comes(question: &Question) -> Option<String> {
    let line = &question.progression.line;
    let roles = roles(line, question.key().mode());
    let is_home = |role: &Role| matches!(role, Role::Tonic);
    if roles.first().is_some_and(is_home) {
        let back = (1..roles.len()).find(|at| is_home(&roles[*at]) && is_dominant(roles[at - 1]));
        let again = back.map_or_else(String::new, |at| {
            format!(
                ", and its dominant leads back to it in bar {}",
                line.bar(at)
            )
        });
        return Some(format!("Home is there from the first chord{again}."));
    }
    let home = roles.iter().position(is_home)?;
    let bar = line.bar(home);
    Some(match roles[home - 1] {
        before if is_dominant(before) => format!("Home comes in bar {bar}, after its dominant."),
        Role::Subdominant | Role::MinorSubdominant => {
            format!("Home comes in bar {bar}, after its subdominant.")
        }
        _ => format!("Home comes in bar {bar}."),
    })
}

/// Whether a chord before home is its dominant.
fn is_dominant(role: Role) -> bool {
    matches!(
        role,
        Role::Dominant | Role::SuspendedDominant | Role::LeadingTone
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::Catalogue;
    use crate::harmony::Progression;
    use crate::quiz::question::question_seed;
    use crate::quiz::tests::drill;
    use crate::quiz::{Answer, Drill, Mark, QuestionKind};
    use crate::theory::{BareSix, Line, Meter, Notation};

    fn home_question(device: &str, index: u32) -> (Question, Catalogue) {
        let catalogue = Catalogue::built_in();
        let drill = Drill {
            kind: QuestionKind::Home,
            bars: 4..=8,
            ..drill(&[device])
        };
        let wanted = device.parse().expect("an id");
        let seed = question_seed(5, index);
        let question = Question::new(&drill, &catalogue, &wanted, seed).expect("a question");
        (question, catalogue)
    }

    #[test]
    fn where_home_is_asked_the_end_of_the_form_tells_nothing() {
        for index in 0..20 {
            let (question, catalogue) = home_question("form-end-dominant", index);
            let ask = &question.asks[0];
            assert_eq!(ask.told_by(&question), None);
            let answer = Answer::Key(question.key());
            let mark = Mark::new(&question, ask, answer, &catalogue);
            let said = mark.sentences(&question, ask, Notation::Text).join(" ");
            assert!(
                said.contains("Home comes") || said.contains("Home is there"),
                "{said}"
            );
            let (question, _) = home_question("off-tonic-opening", index);
            let told = question.asks[0].told_by(&question);
            assert_eq!(told.map(DeviceId::as_str), Some("off-tonic-opening"));
        }
    }

    #[test]
    fn home_is_found_where_the_line_comes_to_rest() {
        let (mut question, catalogue) = home_question("form-end-dominant", 0);
        for (text, said) in [
            (
                "V7/V | ii7 | V7 Imaj7 | V7/V",
                "Home comes in bar 3, after its dominant.",
            ),
            (
                "IV | iv | I | V7/IV",
                "Home comes in bar 3, after its subdominant.",
            ),
            ("IV | bVII7 | I | V7/IV", "Home comes in bar 3."),
            (
                "I | IV V7 | I | V7",
                "Home is there from the first chord, and its dominant leads back to it in bar 3.",
            ),
        ] {
            let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
            question.progression = Progression::new("C".parse().expect("a key"), line, &catalogue);
            assert_eq!(where_home_comes(&question).as_deref(), Some(said), "{text}");
        }
    }
}
