//! The steps of plain lines: the chords of the key alone.
//!
//! The weights follow common practice: root motion by falling fifth first, then by third
//! and by step; half of all root motion in the jazz repertoire is a falling fifth
//! (counted in the Jazz Harmony Treebank, Harasim et al. 2020).

use super::table::Row;

pub(super) const MAJOR: &[Row] = &[
    (
        "I",
        &[
            ("ii7", 3.0),
            ("iii7", 1.2),
            ("IV", 3.0),
            ("V7", 1.2),
            ("vi7", 3.0),
            ("I/3", 0.6),
            ("V7/7", 0.5),
            ("ii7/4", 0.5),
        ],
    ),
    (
        "ii7",
        &[
            ("V7", 9.0),
            ("V7/7", 0.7),
            ("iii7", 0.5),
            ("I/3", 0.4),
            ("IV", 0.3),
        ],
    ),
    ("iii7", &[("vi7", 5.0), ("IV", 2.0), ("ii7", 0.8)]),
    (
        "IV",
        &[
            ("I", 2.2),
            ("ii7", 2.0),
            ("V7", 3.0),
            ("iii7", 0.7),
            ("vi7", 0.2),
            ("I/3", 0.8),
            ("V7/7", 0.4),
        ],
    ),
    // Back to IV only in the blues, where the form has it so.
    (
        "V7",
        &[("I", 8.0), ("vi7", 1.0), ("iii7", 0.4), ("I/3", 0.7)],
    ),
    (
        "vi7",
        &[
            ("ii7", 5.0),
            ("IV", 2.5),
            ("iii7", 0.6),
            ("V7", 0.8),
            ("I/3", 0.2),
            ("ii7/4", 0.8),
        ],
    ),
    (
        "I/3",
        &[
            ("IV", 4.0),
            ("ii7", 2.5),
            ("V7", 0.6),
            ("vi7", 0.5),
            ("ii7/4", 1.0),
        ],
    ),
    // The bass rises by a semitone to the tonic, and by a tone to the dominant.
    ("V7/7", &[("I", 5.0)]),
    ("ii7/4", &[("V7", 6.0)]),
];

pub(super) const MINOR: &[Row] = &[
    (
        "i",
        &[
            ("iiø7", 3.0),
            ("iv7", 3.0),
            ("V7", 1.2),
            ("bVI", 2.5),
            ("bIII", 0.8),
            ("bVII", 0.9),
            ("i/b3", 0.6),
            ("V7/7", 0.4),
            ("iiø7/4", 0.5),
        ],
    ),
    ("iiø7", &[("V7", 9.0), ("V7/7", 0.5)]),
    (
        "bIII",
        &[("bVI", 3.0), ("iv7", 2.0), ("iiø7", 1.2), ("V7", 0.6)],
    ),
    (
        "iv7",
        &[
            ("V7", 3.0),
            ("i", 1.5),
            ("iiø7", 1.5),
            ("bVII", 0.8),
            ("i/b3", 0.6),
        ],
    ),
    ("V7", &[("i", 8.0), ("bVI", 1.0), ("i/b3", 0.7)]),
    (
        "bVI",
        &[
            ("iiø7", 4.0),
            ("iv7", 1.5),
            ("V7", 1.5),
            ("bIII", 0.6),
            ("bVII", 1.0),
            ("iiø7/4", 0.8),
        ],
    ),
    ("bVII", &[("bIII", 2.0), ("i", 1.0), ("bVI", 1.0)]),
    (
        "i/b3",
        &[("iv7", 4.0), ("iiø7", 2.5), ("bVI", 0.8), ("iiø7/4", 0.8)],
    ),
    ("V7/7", &[("i", 5.0)]),
    ("iiø7/4", &[("V7", 6.0)]),
];
