//! Multimodal Musicianship (open textbook, Macalester College), Stuart Smith's Jazz Theory
//! (open textbook), and what handbooks that
//! are not open teach, from memory.

use super::{accepts, names, refuses};

#[test]
fn multimodal_musicianship_on_mixture_and_common_tones() {
    names(
        "Multimodal Musicianship",
        &[
            (
                "chapter 31, Secondary dominants",
                "I [V7/V] V7 I",
                "dominant-of-five",
            ),
            (
                "chapter 40, Mode mixture",
                "minor: i iv V [I]",
                "picardy-third",
            ),
            ("chapter 40, Mode mixture", "IV [iv] I", "minor-four"),
            (
                "chapter 42, Augmented sixths",
                "minor: i iv/b6 [It6] V",
                "augmented-sixth",
            ),
            (
                "chapter 42, Augmented sixths",
                "minor: i iv/b6 [Fr6] V",
                "augmented-sixth",
            ),
            (
                "chapter 42, Augmented sixths",
                "minor: i iv/b6 [Ger6] V",
                "augmented-sixth",
            ),
            // The spelling of the common-tone chord is free; its bass may be any of its notes.
            (
                "chapter 48, Common-tone diminished",
                "I [io7] I",
                "common-tone-diminished",
            ),
            (
                "chapter 48, Common-tone diminished",
                "I [#iio7] I",
                "common-tone-diminished",
            ),
            (
                "chapter 48, Common-tone diminished",
                "I [#ivo7] I",
                "common-tone-diminished",
            ),
        ],
    );
}

#[test]
fn jazz_theory_on_substitutes_of_any_dominant() {
    names(
        "Smith, Jazz Theory",
        &[
            ("Tritone substitution", "ii7 [bII7] I", "tritone-substitute"),
            (
                "Tritone substitution",
                "[ii7 bII7] I",
                "two-tritone-substitute",
            ),
            (
                "Tritone substitution, of a secondary dominant",
                "I [bIII7] ii7 V7",
                "tritone-substitute-applied",
            ),
            (
                "Tritone substitution, preceded by its dominants",
                "[bIII7 bVI7 bII7] I",
                "dominant-chain",
            ),
            (
                "Tritone substitution, preceded by its ii",
                "I [bvi7 bII7] I",
                "related-two-of-substitute",
            ),
        ],
    );
}

#[test]
fn from_memory_jazz_handbooks() {
    names(
        "from memory",
        &[
            ("Coker, back door", "IV [iv7 bVII7] I", "backdoor-two-five"),
            ("Coker, back door", "IV iv7 [bVII7] I", "backdoor-dominant"),
            (
                "Levine, IV to bVII7",
                "I [IV bVII7] iii7 VI7",
                "four-to-backdoor",
            ),
            (
                "Levine, #iv diminished",
                "IV [#ivo7] I/5 VI7",
                "sharp-four-diminished",
            ),
            ("Levine, ii-subV", "[ii7 bII7] I", "two-tritone-substitute"),
            (
                "Levine, borrowed turnaround",
                "[I bIIImaj7 bVImaj7 bIImaj7] I",
                "borrowed-turnaround",
            ),
            (
                "Levine, major-third cycle",
                "[I V7/bVI bVImaj7 V7/III IIImaj7 V7] I",
                "major-third-cycle",
            ),
            (
                "Levine, delayed V/V",
                "I [II7] ii7 V7",
                "delayed-dominant-of-five",
            ),
            (
                "Nettles and Graf, #iv half-diminished",
                "I [#ivø7] iv I",
                "sharp-four-half-diminished",
            ),
            (
                "Nettles and Graf, minor turnaround",
                "minor: [i viø7 iiø7 V7] i",
                "minor-turnaround",
            ),
            (
                "Nettles, descending diminished",
                "iii7 [biiio7] ii7 V7",
                "descending-passing-diminished",
            ),
            (
                "Nettles, ascending diminished",
                "I [#io7] ii7 V7",
                "ascending-passing-diminished",
            ),
            (
                "Nettles, line cliche",
                "minor: [i imaj7 i7 iadd6]",
                "minor-line-cliche",
            ),
        ],
    );
    refuses(
        "from memory",
        &[
            // The same notes with another resolution.
            (
                "Nettles, descending diminished",
                "ii7 #iio7 iii7",
                "descending-passing-diminished",
            ),
            (
                "Coker, back door",
                "iv7 bVII7 bIIImaj7",
                "backdoor-dominant",
            ),
            (
                "Levine, #iv diminished",
                "IV #ivo7 V7 I",
                "sharp-four-diminished",
            ),
        ],
    );
    accepts(
        "from memory",
        &[("common practice", "IVadd6 [ivadd6] V7 I", "iiø7")],
    );
}
