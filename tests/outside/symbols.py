"""Writes symbols.tsv: the notes of chord symbols on every root, by music21.

Each quality is written as the project reads it and as music21 must be asked for it.
"""

from music21 import harmony, pitch

import table

TRAPS = [
    ("a flat is `-`; `Bb7` and `Ab6` are silently misread", "roots and basses are asked for as `B-`"),
    ("`-` is no minor sign", "our `C-7` is asked for as `Cm7`"),
    ("`maj9`, `mmaj7` and `alt` are refused, `69` is misread", "asked for as `M9`, `mM7`, `7b9#9#11b13`, `6add9`"),
    ("a thirteenth chord has the eleventh in it", "ours has not (common practice); asked for as `9add13`"),
    ("`5` is misread", "asked for as `power`"),
]

# As the project reads it, and as music21 does; a point is the bare root.
QUALITIES = """
. ., maj maj, M M, m m, min min, mi m, - m, o o, dim dim, ° dim, + +, aug aug,
7 7, maj7 maj7, M7 M7, Δ maj7, Δ7 maj7, m7 m7, min7 min7, -7 m7, ø7 ø7, ø ø7, m7b5 m7b5, o7 o7, dim7 dim7, °7 o7,
mmaj7 mM7, m(maj7) mM7, mM7 mM7, +maj7 +M7, maj7#5 +M7, +7 +7, 7#5 7#5, aug7 aug7, 7b5 7b5,
6 6, m6 m6, min6 min6, -6 m6, 69 6add9, 6/9 6add9, m69 m6add9,
9 9, maj9 M9, m9 m9, mmaj9 mM9, ø9 ø9, 7b9 7b9, 7(b9) 7b9, 7#9 7#9, 7b9b13 7b9b13, 7#5#9 7#5#9,
11 11, m11 m11, maj11 M11, 13 9add13, m13 m9add13, maj13 M9add13, 7#11 7#11, maj7#11 maj7#11, 9#11 9#11, 7b13 7b13, 7add13 7add13,
alt 7b9#9#11b13, 7alt 7b9#9#11b13,
sus4 sus4, sus sus, sus2 sus2, 7sus4 7sus4, 7sus 7sus, add9 add9, madd9 madd9, add2 add9, add11 add11, 5 power
"""

ROOTS = "Fb Cb Gb Db Ab Eb Bb F C G D A E B F# C# G# D# A# E# B#".split()

# A bass of the chord or foreign to it, as an interval that music21 adds to the root.
SLASHES = """
. M3, . P5, . M2, . m7, m m3, m P5, m M2, 7 m7, 7 M3, 7 P5, maj7 M3, maj7 M7, m7 m7, m7 m3, m7 P4, o7 m3, ø7 d5, 6 P5, m6 m3
"""


def pairs(text):
    return [entry.split() for entry in text.replace("\n", " ").split(",")]


def cell(root, quality, bass=""):
    symbol = table.theirs(root) + quality.removeprefix(".")
    return table.cell(harmony.ChordSymbol(symbol + (f"/{bass}" if bass else "")))


def quality_rows():
    yield "\t".join(["quality", "music21", *ROOTS])
    for mine, quality in pairs(QUALITIES):
        yield "\t".join([mine, quality, *(cell(root, quality) for root in ROOTS)])


def slash_rows():
    """Whole symbols: the bass's name depends on the root."""
    yield "symbol\tnotes"
    for quality, interval in pairs(SLASHES):
        for root in ROOTS[2:-2]:
            bass = pitch.Pitch(table.theirs(root)).transpose(interval).name
            mine = root + quality.removeprefix(".") + "/" + table.ours(bass)
            yield mine + "\t" + cell(root, quality, bass)


if __name__ == "__main__":
    lines = table.comments("chord symbols: notes from the bass up, * before the root", TRAPS)
    lines += ["[qualities]", *quality_rows(), "[slashes]", *slash_rows()]
    table.write("symbols.tsv", lines)
