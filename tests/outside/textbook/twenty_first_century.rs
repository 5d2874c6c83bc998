//! Robert Hutchinson, Music Theory for the 21st-Century Classroom (open textbook). Each
//! case names its section. The lines are the book's own chords as numerals.

use super::{accepts, names, refuses};

const BOOK: &str = "21st-Century Classroom";

#[test]
fn diatonic_progressions_have_their_names() {
    names(
        BOOK,
        &[
            ("7.4 Cadences", "I ii [V I]", "authentic-cadence"),
            ("7.4 Cadences", "I V [IV I]", "plagal-cadence"),
            ("7.4 Cadences", "I IV [V vi]", "deceptive-cadence"),
            ("7.4 Cadences", "I IV [V]", "half-cadence"),
            ("8.2 The IV/5 sus chord", "I [IV/5] I", "suspended-dominant"),
            (
                "9.1 Circle of fifths",
                "[I IV viio iii vi ii V I]",
                "diatonic-fifths-cycle",
            ),
            (
                "9.1 Circle of fifths",
                "minor: [i iv bVII bIII bVI iio V i]",
                "diatonic-fifths-cycle",
            ),
            ("9.3.1 II-V-I", "[ii V I]", "two-five-one"),
            ("9.3.2 VI-II-V-I", "[vi ii V I]", "diatonic-fifths-cycle"),
            ("9.3.2 VI-II-V-I", "[I vi ii V]", "turnaround"),
            ("9.3.2 VI-II-V-I", "[ii V I] vi", "two-five-one"),
            (
                "9.3.3 III-VI-II-V",
                "[iii vi ii V] iii vi ii V",
                "mediant-turnaround",
            ),
            ("9.3.3 III-VI-II-V", "ii [V iii] vi", "dominant-to-mediant"),
            (
                "9.4 Harmonic function",
                "I IV [viio] I",
                "leading-tone-chord",
            ),
            (
                "9.4 Harmonic function",
                "I ii [viio] I",
                "leading-tone-chord",
            ),
            ("9.4 Harmonic function", "I [vi] IV V", "tonic-substitute"),
            ("9.6 Subtonic VII", "I [bVII IV I]", "double-plagal"),
            ("9.6 Subtonic VII", "IV [bVII] I", "flat-seven"),
            ("9.6 Subtonic VII", "I [bVII] V I", "flat-seven"),
            (
                "9.8 i-VII-VI-VII",
                "minor: [i bVII bVI V]",
                "descending-tetrachord",
            ),
            (
                "9.8 i-VII-VI-VII",
                "minor: [bVI bVII i]",
                "flat-six-flat-seven",
            ),
            (
                "12.4 The 12-bar blues",
                "[I7 IV7 I7] V7 IV7 I7",
                "blues-sevenths",
            ),
            (
                "16.3 Cadential six-four",
                "I ii7/4 [I/5 V] I",
                "cadential-six-four",
            ),
            (
                "26.11 Six-four chords (passing)",
                "[I V64 I/3]",
                "passing-inversions",
            ),
            (
                "26.11 Six-four chords (passing)",
                "[IV I64 IV/6] V",
                "passing-inversions",
            ),
            (
                "27.4 Resolution of vii7",
                "IV [viio7] I",
                "leading-tone-chord",
            ),
            (
                "27.4 Resolution of vii7",
                "IV [viiø7] I",
                "leading-tone-chord",
            ),
        ],
    );
    refuses(
        BOOK,
        &[
            // The last chord tells it from the Andalusian progression.
            (
                "9.8 i-VII-VI-VII",
                "minor: i bVII bVI bVII",
                "descending-tetrachord",
            ),
            // A pedal six-four stays on its bass.
            (
                "26.11 Six-four chords (pedal)",
                "I IV64 I",
                "plagal-cadence",
            ),
        ],
    );
}

#[test]
fn secondary_chords_are_named_by_their_targets() {
    names(
        BOOK,
        &[
            ("17.2 Tonicization", "I [V65/V] V I", "dominant-of-five"),
            ("17.2 Tonicization", "I [V65/vi] vi IV", "dominant-of-six"),
            ("17.3 in major", "I [V7/ii] ii V7", "dominant-of-two"),
            ("17.3 in major", "I [V7/iii] iii vi", "dominant-of-three"),
            ("17.3 in major", "I [V7/IV] IV V", "dominant-of-four"),
            ("17.3 in major", "I [V/V] V I", "dominant-of-five"),
            ("17.3 in major", "I [V/vi] vi ii", "dominant-of-six"),
            (
                "17.3 in minor",
                "minor: i [V7/iv] iv V",
                "applied-dominants-minor",
            ),
            (
                "17.3 in minor",
                "minor: i [V7/bIII] bIII iv",
                "applied-dominants-minor",
            ),
            (
                "17.3 in minor",
                "minor: i [V7/V] V i",
                "applied-dominants-minor",
            ),
            (
                "17.3 in minor",
                "minor: i [V7/bVI] bVI iv",
                "applied-dominants-minor",
            ),
            (
                "17.3 in minor",
                "minor: i [V7/bVII] bVII bIII",
                "applied-dominants-minor",
            ),
            (
                "17.6 Irregular resolutions",
                "I [V/V] IV I",
                "applied-dominant-deceptive",
            ),
            (
                "17.6 Irregular resolutions",
                "I [V7/V] IV I",
                "applied-dominant-deceptive",
            ),
            (
                "17.6 Irregular resolutions",
                "I [V/V] bVII I",
                "applied-dominant-deceptive",
            ),
            (
                "17.6 Irregular resolutions",
                "I [V42/IV] V7/ii ii",
                "applied-dominant-deceptive",
            ),
            (
                "17.6 Irregular resolutions",
                "I [V7/vi] IV I",
                "applied-dominant-deceptive",
            ),
            ("18.2 in major", "I [viio7/V] V I", "applied-leading-tone"),
            ("18.2 in major", "I [viiø7/V] V I", "applied-leading-tone"),
            (
                "18.2 in major",
                "IV [viio7/ii] ii V",
                "applied-leading-tone",
            ),
            (
                "18.2 in major",
                "I [viio7/vi] vi ii",
                "applied-leading-tone",
            ),
            (
                "18.2 in minor",
                "minor: i [viio7/iv] iv V",
                "applied-leading-tone",
            ),
            (
                "18.2 in minor",
                "minor: i [viio7/V] V i",
                "applied-leading-tone",
            ),
        ],
    );
    refuses(
        BOOK,
        &[
            // An F major chord in C minor that goes to G is IV, and V/VII only before B flat.
            (
                "17.3 in minor",
                "minor: i IV7 V i",
                "applied-dominants-minor",
            ),
            (
                "17.6 Irregular resolutions",
                "I V7/vi IV I",
                "dominant-of-six",
            ),
        ],
    );
    accepts(
        BOOK,
        &[
            ("17.2 Tonicization", "I [II7] V I", "V7/V"),
            ("17.2 Tonicization", "I [III7] vi IV", "V7/vi"),
            ("17.3 in minor", "minor: i [bVII7] bIII iv", "V7/bIII"),
            ("17.3 in minor", "minor: i [V7/bIII] bIII iv", "bVII7"),
            ("18.2 in major", "I [#ivo7] V I", "viio7/V"),
        ],
    );
}

#[test]
fn mixture_and_altered_predominants_have_their_names() {
    names(
        BOOK,
        &[
            ("19.1 Mode mixture", "I III IV [iv]  I", "minor-four"),
            ("19.1 Mode mixture", "I [bVII7] I", "backdoor-dominant"),
            (
                "19.4 Deceptive cadence with bVI",
                "IV [V bVI] bVII I",
                "flat-six-deceptive",
            ),
            (
                "19.4 Deceptive cadence with bVI",
                "IV V [bVI bVII I]",
                "flat-six-flat-seven",
            ),
            (
                "19.5 The Picardy third",
                "minor: i iv V [I]",
                "picardy-third",
            ),
            ("20.1 The Neapolitan", "minor: i [N6] V i", "neapolitan"),
            ("20.1 The Neapolitan", "minor: iv [N6] V7 i", "neapolitan"),
            (
                "21.2 Augmented sixths",
                "minor: i [It6] V",
                "augmented-sixth",
            ),
            (
                "21.2 Augmented sixths",
                "minor: i [Fr6] V",
                "augmented-sixth",
            ),
            (
                "21.2 Augmented sixths",
                "minor: i [Ger6] i/5 V",
                "augmented-sixth",
            ),
            (
                "21.2 Augmented sixths",
                "I [Ger6] I/5 V7",
                "enharmonic-german-sixth",
            ),
            (
                "21.5.3 The German sixth",
                "minor: i [bVI7] V",
                "augmented-sixth",
            ),
            (
                "21.5.3 The German sixth",
                "minor: i [bVI7] V",
                "flat-six-dominant-minor",
            ),
            (
                "21.7 Chromatic bass lines",
                "minor: [i V/7 V42/iv IV/6 iv/b6 V]",
                "chromatic-descending-bass",
            ),
            (
                "21.7 Chromatic bass lines",
                "minor: [i V/7 V42/iv IV/6 Ger6 i/5]",
                "chromatic-descending-bass",
            ),
            ("22.7 Chromatic mediants", "I [III] I", "chromatic-mediant"),
            ("22.7 Chromatic mediants", "I [bIII] I", "chromatic-mediant"),
            ("22.7 Chromatic mediants", "I [VI] I", "chromatic-mediant"),
            ("22.7 Chromatic mediants", "I [bVI] I", "chromatic-mediant"),
        ],
    );
    accepts(
        BOOK,
        &[
            ("21.4 Lead-sheet analysis", "minor: i [Ger6] V i", "bVI7"),
            ("21.4 Lead-sheet analysis", "minor: i [bVI7] V i", "Ger6"),
        ],
    );
}

#[test]
fn modulations_and_jazz_progressions_have_their_names() {
    names(
        BOOK,
        &[
            // G to D: the tonic of the old key is IV of the new one.
            (
                "22.4 Diatonic pivot chords",
                "I ii7 V I/3 IV [I V7/V Vadd6] vi7 V7/V Vadd6",
                "pivot-modulation",
            ),
            (
                "22.7.3 Sequential modulation",
                "[ii V I iii VI7 IImaj7]",
                "sequential-modulation",
            ),
            // C to B minor: the dominant turns out to be a German sixth.
            (
                "23.1 Enharmonic modulation",
                "I IV [V7] vii/#4 V7/vii vii",
                "enharmonic-modulation",
            ),
            // D to F sharp minor: V7/IV turns out to be a German sixth.
            (
                "23.2 V7 and Ger6 as pivots",
                "I [V7/IV] iii/7 V7/iii iii",
                "enharmonic-modulation",
            ),
            (
                "23.3 Diminished seventh as pivot",
                "I [viio7] bIII V7/bIII bIII",
                "enharmonic-modulation",
            ),
            ("31.8.1 II-V-I", "[ii9 V13 Imaj9]", "two-five-one"),
            (
                "31.8.1 II-V-I",
                "minor: [iiø7 V7alt iadd6add9]",
                "minor-two-five-one",
            ),
            (
                "31.8.2 III-VI-II-V",
                "[iii7 vi7 ii7 V7] I",
                "mediant-turnaround",
            ),
            ("31.8.2 III-VI-II-V", "[I VI7 ii7 V7] I", "turnaround"),
            (
                "31.8.2 III-VI-II-V",
                "[III7 VI7 II7 V7] I",
                "dominant-chain",
            ),
            (
                "31.8.2 III-VI-II-V",
                "[III7 bIII7 II7 bII7] I",
                "substitute-chain",
            ),
            ("31.8.2 III-VI-II-V", "ii7 [bII7] I", "tritone-substitute"),
        ],
    );
    accepts(
        BOOK,
        &[
            ("31.8.2 III-VI-II-V", "[III7] VI7 II7 V7 I", "V7/vi"),
            ("31.8.2 III-VI-II-V", "III7 [VI7] II7 V7 I", "V7/ii"),
            ("31.8.2 III-VI-II-V", "III7 VI7 [II7] V7 I", "V7/V"),
        ],
    );
}
