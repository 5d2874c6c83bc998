//! What holds of every mark, whatever the chord and the answer.

use super::targets::{MAJOR, MINOR, usual_writings};
use super::*;

#[test]
fn tiers_stand_in_the_order_of_their_credit() {
    assert!(Tier::ALL.is_sorted());
    assert!(
        Tier::ALL
            .windows(2)
            .all(|pair| pair[0].credit() >= pair[1].credit())
    );
}

#[test]
fn a_mark_is_never_below_the_credit_of_a_reading() {
    let lines = MAJOR.map(|text| (Mode::Major, text)).into_iter();
    let lines = lines.chain(MINOR.map(|text| (Mode::Minor, text)));
    // A chord that leads nowhere is where the readings differ most.
    let lines = lines.chain([(Mode::Minor, "i viio7 i"), (Mode::Minor, "i viio7 iv V7 i")]);
    let (mut wrong, mut pairs) = (Vec::new(), 0);
    for (mode, text) in lines {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        for slot in 0..line.slots().len() {
            let sounding = ChordInContext::of(&line, slot, mode);
            for name in usual_writings() {
                let mark = sounding.judge(&name);
                for reading in readings(&name, mode) {
                    pairs += 1;
                    let alone = sounding.judge_reading(&reading);
                    if mark.credit() < alone.credit() {
                        wrong.push(format!(
                            "{text} {slot}: {name} is {mark:?} though {alone:?}"
                        ));
                    }
                }
            }
        }
    }
    assert!(pairs > 15_000, "{pairs}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn leaving_a_flat_out_costs_no_credit() {
    // Answers alone, with no word of how they are read: in minor VII is the subtonic.
    for (line, written, bare) in [
        ("i [viio7] i", "viio7/bIII", "viio7/III"),
        ("i [V7/iv] iv", "V7/bVI", "V7/VI"),
        ("i [bVII7] bIII", "bVII7", "VII7"),
    ] {
        let [written, bare] = [written, bare].map(|answer| judge(Mode::Minor, line, answer));
        assert!(
            bare.credit() >= written.credit(),
            "{line}: {bare:?}, {written:?}"
        );
    }
}
