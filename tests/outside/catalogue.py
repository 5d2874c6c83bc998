"""Writes catalogue.tsv: every numeral of the catalogue's examples and counterexamples, by music21.

Each is asked for in all fifteen keys of its mode. The table holds the notes in C, from the bass
up; a key in which music21 does not give the same chord transposed is written after them.
"""

import json
import re

from music21 import interval, roman

import spelling
import table

TRAPS = spelling.TRAPS + [
    ("a bass foreign to the chord is dropped", "the chord is asked for alone and its bass, after `@`, as an interval above the tonic"),
    ("a German sixth is a chord on the raised fourth", "over 1 it is `Ger43`"),
    ("a ninth is the scale's", "above a lowered root it is added with its flat: `bVIb7[addb9]`"),
    ("a thirteenth chord has the eleventh in it", "ours has not (common practice); asked for as `V9[add13]`"),
]

MAJOR = """
Ger6/1 Ger43, Sw6 Sw43, Ger6/iii Ger65/iii, II9 II9, IIImaj7 III#7, IImaj7 II#7, IV/5 IV@P5, IV/II IV/II, IV/bIII IV/bIII, V13 V9[add13],
V7/1 V7@P1, V7/II V7/II, V7/III V7/III, V7/vii V7/vii, V7b9/vi V9/vi, V9/IV V9/IV, V9sus4 V9[no3][add4], VI7b9 VI9[b9], Vadd6 V[add6],
Vmaj7 V#7, bII9 bIIb7[addb9], bVI9 bVIb7[addb9], bVII/1 bVII@P1, bVII9 bVIIb7[add9], bVmaj7 bV7, bvi9 bvi7[addb9], ii7/5 ii7@P5, ii7/II ii7/II,
ii7/bII ii7/bII, iiiø7 iiiø7, iimaj7 ii[add#7], iio7 iio7, ivo7 ivo7, v9 v9, vi7/bII vi7/bII, vii vii, vii/#4 vii64
"""

MINOR = """
I7 I7, IV/6 IV6, V7/1 V7@P1, bVI9 VIb7[add9], bVII13 VII9[add13], i/6 i@M6, i/7 i@M7, i/b7 i@m7, iv9 iv9
"""

FIGURES = {
    "major": dict(list(spelling.pairs(spelling.MAJOR)) + list(spelling.pairs(MAJOR))),
    "minor": dict(list(spelling.pairs(spelling.MINOR)) + list(spelling.pairs(MINOR))),
}
TONICS = {"major": spelling.MAJOR_TONICS, "minor": spelling.MINOR_TONICS}
CATALOGUE = table.HERE.parent.parent / "src" / "devices" / "catalogue"


def numerals():
    """Mode and numeral of every chord in a line of the catalogue, each once."""
    found = set()
    for file in sorted(CATALOGUE.glob("*.json")):
        device = json.loads(file.read_text(encoding="utf-8"))
        for line in device["examples"] + device["counterexamples"]:
            mode, text = re.fullmatch(r"(?:(major|minor):)?(.*)", line).groups()
            words = [word for word in text.split() if word not in ("|", "%")]
            found.update((mode or device["modes"][0], word) for word in words)
    return sorted(found)


def asked(figure, tonic):
    """Bass, root and the other notes in a key."""
    figure, _, foreign = figure.partition("@")
    key = table.theirs(tonic) if tonic[0].isupper() else tonic[0] + table.theirs(tonic[1:])
    caution = roman.Minor67Default.CAUTIONARY
    chord = roman.RomanNumeral(figure, key, sixthMinor=caution, seventhMinor=caution)
    if not foreign:
        return table.cell(chord)
    bass = interval.Interval(foreign).transposePitch(chord.key.tonic).name
    root = chord.root().name
    others = [pitch.name for pitch in chord.pitches if pitch.name != bass]
    names = [bass, *dict.fromkeys(others)]
    return " ".join(("*" if name == root else "") + table.ours(name) for name in names)


def moved(cell, by):
    return " ".join(
        ("*" if word[0] == "*" else "") + table.ours(by.transposePitch(table.pitch(word.strip("*"))).name)
        for word in cell.split()
    )


def rows():
    for mode, numeral in numerals():
        figure = FIGURES[mode].get(numeral) or exit(f"no figure for {numeral} in {mode}")
        home = asked(figure, "C" if mode == "major" else "c")
        strange = []
        for tonic in TONICS[mode]:
            name = tonic[0].upper() + tonic[1:]
            by = interval.Interval(table.pitch("C"), table.pitch(name))
            cell = asked(figure, tonic)
            if cell != moved(home, by):
                strange.append(f"{name}: {cell}")
        yield "\t".join([mode, numeral, figure, home, *strange])


if __name__ == "__main__":
    title = "numerals of the catalogue's examples: notes in C from the bass up, * before the root"
    table.write("catalogue.tsv", [*table.comments(title, TRAPS), *rows()])
