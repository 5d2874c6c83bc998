//! What one hand can hold on a guitar.

/// The open strings in standard tuning, as MIDI numbers: E2 A2 D3 G3 B3 E4.
const OPEN: [i32; 6] = [40, 45, 50, 55, 59, 64];

/// The highest fret that chords are taken on.
const HIGHEST_FRET: i32 = 14;

/// Frets from the lowest finger to the highest: four frets lie under four fingers, a fifth
/// is within a stretch.
const STRETCH: i32 = 4;

const FINGERS: usize = 4;

/// Whether a bass and upper notes, the lowest first, can be held at once: each on a string
/// of its own, within a stretch, by four fingers of which the first may lie across.
pub(super) fn can_hold(bass: i32, upper: &[i8]) -> bool {
    let notes: Vec<i32> = std::iter::once(bass)
        .chain(upper.iter().map(|midi| i32::from(*midi)))
        .collect();
    notes.len() <= OPEN.len() && place(&notes, 0, &mut Vec::new())
}

/// Tries each string from `string` up for the first of `notes`.
fn place(notes: &[i32], string: usize, frets: &mut Vec<i32>) -> bool {
    let Some((note, rest)) = notes.split_first() else {
        return is_in_hand(frets);
    };
    (string..OPEN.len()).any(|string| {
        let fret = note - OPEN[string];
        if !(0..=HIGHEST_FRET).contains(&fret) {
            return false;
        }
        frets.push(fret);
        let held = place(rest, string + 1, frets);
        frets.pop();
        held
    })
}

fn is_in_hand(frets: &[i32]) -> bool {
    let stopped: Vec<i32> = frets.iter().copied().filter(|fret| *fret > 0).collect();
    let Some(lowest) = stopped.iter().min().copied() else {
        return true;
    };
    let highest = stopped.iter().max().copied().unwrap_or(lowest);
    let across = stopped.iter().filter(|fret| **fret == lowest).count();
    // A finger across several strings leaves no open string to sound under it.
    let barred = across > 1 && !frets.contains(&0);
    let fingers = if barred {
        stopped.len() - across + 1
    } else {
        stopped.len()
    };
    highest - lowest <= STRETCH && fingers <= FINGERS
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hand_holds_what_players_hold() {
        // Common shapes of the instrument, string by string from the lowest.
        for (shape, name) in [
            ([-1, 3, 2, 0, 1, 0], "open C"),
            ([3, 2, 0, 0, 0, 3], "open G"),
            ([1, 3, 3, 2, 1, 1], "F across six strings"),
            ([-1, 3, 5, 4, 5, -1], "Cmaj7"),
            ([3, -1, 3, 4, 3, -1], "G7 on four strings"),
            ([-1, 4, 5, 3, 5, -1], "C#dim7"),
        ] {
            let notes: Vec<i32> = OPEN
                .iter()
                .zip(shape)
                .filter(|(_, fret)| *fret >= 0)
                .map(|(open, fret)| open + fret)
                .collect();
            let upper: Vec<i8> = notes[1..].iter().map(|midi| *midi as i8).collect();
            assert!(can_hold(notes[0], &upper), "{name}");
        }
    }

    #[test]
    fn a_hand_does_not_hold_everything() {
        for (bass, upper, why) in [
            (41, vec![58, 65, 68], "needs frets 1 and 8"),
            (
                41,
                vec![42, 43],
                "three notes that only the lowest string has",
            ),
            (40, vec![45, 50, 55, 59, 64, 69], "seven notes"),
            (54, vec![55, 56, 57], "four neighbours"),
        ] {
            assert!(!can_hold(bass, &upper), "{why}");
        }
    }
}
