//! Open Music Theory, versions 1 and 2 (open textbooks). Each case names its chapter; the
//! lines are the book's chords as numerals.

use super::{accepts, names, refuses};

#[test]
fn version_1_names_diatonic_progressions() {
    names(
        "OMT 1",
        &[
            (
                "Classical cadence types",
                "I ii7/4 [V7 I]",
                "authentic-cadence",
            ),
            ("Classical cadence types", "I IV I [V]", "half-cadence"),
            (
                "Classical cadence types",
                "I IV [I/5 V] I",
                "cadential-six-four",
            ),
            (
                "Classical cadence types",
                "I ii7/4 [I/5 V7] I",
                "cadential-six-four",
            ),
            (
                "Harmonic syntax - the idealized phrase",
                "I [V I]",
                "authentic-cadence",
            ),
            (
                "Harmonic syntax - the idealized phrase",
                "I IV [V I]",
                "authentic-cadence",
            ),
            (
                "Harmonic syntax - the idealized phrase",
                "I [ii V I]",
                "two-five-one",
            ),
            (
                "Harmonic syntax - the idealized phrase",
                "I vi [V I]",
                "authentic-cadence",
            ),
            (
                "Harmonic syntax - the idealized phrase",
                "I [vi ii V I]",
                "diatonic-fifths-cycle",
            ),
            (
                "Harmonic syntax - prolongation",
                "[I V/2 I/3] IV",
                "passing-inversions",
            ),
            (
                "Harmonic syntax - prolongation",
                "[I V43 I/3] ii7/4",
                "passing-inversions",
            ),
            (
                "Harmonic syntax - prolongation",
                "[I viio/2 I/3] IV",
                "passing-inversions",
            ),
            (
                "Harmonic syntax - prolongation",
                "I IV [V vi] ii",
                "deceptive-cadence",
            ),
            (
                "Harmonic syntax - prolongation",
                "minor: [i v/b7 iv/b6 V]",
                "descending-tetrachord",
            ),
            ("Harmonic functions", "I [iii] IV V", "tonic-substitute"),
            ("Harmonic functions", "I [vi] IV V", "tonic-substitute"),
        ],
    );
    refuses(
        "OMT 1",
        &[
            // A supertonic over 2 is a subdominant and does not pass within the tonic.
            (
                "Harmonic syntax - prolongation",
                "I ii I/3 IV",
                "passing-inversions",
            ),
            // A six-four over a held tonic is no change of harmony.
            (
                "Harmonic syntax - prolongation",
                "I IV/1 I",
                "plagal-cadence",
            ),
            // A phrase that goes on from V to I has no half cadence there.
            ("Classical cadence types", "I IV V I", "half-cadence"),
        ],
    );
}

#[test]
fn version_1_names_chromatic_chords() {
    names(
        "OMT 1",
        &[
            ("Applied chords", "I IV [V7/V] V I", "dominant-of-five"),
            ("Applied chords", "I [viio/V] V I", "applied-leading-tone"),
            (
                "Chromatically altered subdominant chords",
                "minor: i [N6] V7 i",
                "neapolitan",
            ),
            (
                "Chromatically altered subdominant chords",
                "minor: i [It6] V",
                "augmented-sixth",
            ),
            (
                "Chromatically altered subdominant chords",
                "IV/6 [Fr6] I/5 V I",
                "augmented-sixth",
            ),
            (
                "Chromatically altered subdominant chords",
                "minor: iv [Ger6] i/5 V",
                "augmented-sixth",
            ),
            (
                "Chromatically altered subdominant chords",
                "IV [Ger6] I/5 V",
                "enharmonic-german-sixth",
            ),
            ("Modal mixture", "minor: i iv V [I]", "picardy-third"),
            ("Modal mixture", "I [iv] V I", "minor-four"),
            ("Modal mixture", "I [bVI] V I", "flat-six"),
            (
                "Modulation (direct)",
                "V I [IImaj7 V7/II IImaj7]",
                "direct-modulation",
            ),
            (
                "Modulation (truck driver)",
                "V I [V7/bII bIImaj7] IV/bII",
                "direct-modulation",
            ),
            (
                "Galant schemata (Fonte)",
                "[V7/ii] ii V7 I",
                "dominant-of-two",
            ),
            (
                "Galant schemata (Monte)",
                "[V7/IV] IV V7/V V",
                "dominant-of-four",
            ),
            (
                "Galant schemata (Monte)",
                "V7/IV IV [V7/V] V",
                "dominant-of-five",
            ),
        ],
    );
    accepts(
        "OMT 1",
        &[
            ("Applied chords", "I [#ivo] V I", "viio/V"),
            ("Applied chords", "I [II7] V I", "V7/V"),
            (
                "Chromatically altered subdominant chords",
                "minor: i [bII/4] V7 i",
                "N6",
            ),
        ],
    );
}

#[test]
fn version_1_names_progressions_of_pop_and_rock() {
    names(
        "OMT 1",
        &[
            ("The 50s doo-wop progression", "[I vi ii V] I", "turnaround"),
            (
                "Circle-of-fifths progression, minor",
                "minor: i [iv bVII bIII] i",
                "relative-major-two-five",
            ),
            (
                "Circle-of-fifths progression, minor",
                "minor: [i iv bVII bIII]",
                "diatonic-fifths-cycle",
            ),
            (
                "Circle-of-fifths progression, minor",
                "minor: [i iv bVII bIII bVI iio V]",
                "diatonic-fifths-cycle",
            ),
            (
                "The lament progression",
                "minor: [i bVII bVI V]",
                "descending-tetrachord",
            ),
            (
                "Harmonic functions in minor",
                "minor: [bVI bVII i]",
                "flat-six-flat-seven",
            ),
            ("Plagal progressions", "I [IV I]", "plagal-cadence"),
            (
                "Plagal progressions (double)",
                "[bVII IV I]",
                "double-plagal",
            ),
            (
                "Plagal progressions (double)",
                "minor: [bVII iv i]",
                "double-plagal",
            ),
            (
                "Plagal progressions (extended)",
                "bVI bIII [bVII IV I]",
                "double-plagal",
            ),
            ("The Puff progression", "I [iii] IV", "tonic-substitute"),
            (
                "The singer/songwriter progression",
                "IV I [V vi]",
                "deceptive-cadence",
            ),
            (
                "The blues progression",
                "I7 IV7 I7 V7 [IV7 I7]",
                "blues-sevenths",
            ),
            (
                "The blues progression (II-V-I in the last phrase)",
                "I7 IV7 I7 [II7] V7 I7",
                "dominant-of-five",
            ),
            (
                "Pop/rock tonality, system 2 (modes)",
                "I [v] I",
                "minor-five",
            ),
            (
                "Pop/rock tonality, system 3 (mixture)",
                "[bVI bVII I]",
                "flat-six-flat-seven",
            ),
            (
                "Pop/rock tonality, system 4 (blues)",
                "I V [IV I]",
                "plagal-cadence",
            ),
            (
                "Pop/rock tonality, system 5 (pentatonic)",
                "I [bIII] IV",
                "flat-three",
            ),
            (
                "Pop/rock form, terms (turnaround)",
                "I IV I [V7]",
                "form-end-dominant",
            ),
        ],
    );
}

#[test]
fn version_2_names_jazz_substitutions_and_common_tones() {
    names(
        "OMT 2",
        &[
            (
                "Modal schemas (Dorian shuttle)",
                "minor: i [IV] i IV",
                "dorian-four",
            ),
            ("Substitutions", "[I VI7 ii7 V7] I", "turnaround"),
            ("Substitutions", "I [VI7 II7 V7] I", "dominant-chain"),
            (
                "Substitutions",
                "I vi7 [iiø7] V7b9 I",
                "half-diminished-two",
            ),
            ("Substitutions", "I vi7 ii7 [subV7] I", "tritone-substitute"),
            (
                "Substitutions",
                "I vi7 [subV7/V] V7 I",
                "tritone-substitute-of-five",
            ),
            (
                "Embellishing chords",
                "I [vi7 V7/V] V7 I",
                "related-two-five-major-target",
            ),
            (
                "Embellishing chords",
                "I [iii7 V7/ii] ii7 V7",
                "related-two-five-minor-target",
            ),
            ("Common-tone chords", "I [io7] I", "common-tone-diminished"),
            (
                "Common-tone chords",
                "I ii7 V7 [vo7] V7 I",
                "common-tone-diminished",
            ),
            (
                "Common-tone chords",
                "I [Ger6/1] I",
                "common-tone-augmented-sixth",
            ),
        ],
    );
    refuses(
        "OMT 2",
        &[
            // These share no root with the chord that they lead to.
            ("Common-tone chords", "I viio7 I", "common-tone-diminished"),
            (
                "Common-tone chords",
                "I Ger6 V I",
                "common-tone-augmented-sixth",
            ),
            (
                "Common-tone chords",
                "I Ger6 I/5 V7",
                "common-tone-augmented-sixth",
            ),
        ],
    );
    accepts(
        "OMT 2",
        &[
            ("Substitutions", "I vi7 ii7 [bII7] I", "subV7"),
            ("Substitutions", "I [VI7] ii7 V7 I", "V7/ii"),
        ],
    );
}
