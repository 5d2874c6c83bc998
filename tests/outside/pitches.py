"""Writes pitches.tsv: the MIDI number and the frequency of spelled pitches, by music21.

A4 = 440 Hz, as ISO 16 has it, in twelve-tone equal temperament.
"""

from music21 import pitch

import table

SPELLINGS = [letter + sign for letter in "CDEFGAB" for sign in ("--", "-", "", "#", "##")]


def rows():
    yield "pitch\tmidi\thertz"
    for octave in range(0, 9):
        for name in SPELLINGS:
            note = pitch.Pitch(name + str(octave))
            # `Pitch.midi` folds what lies outside 0 to 127; `ps` does not.
            yield f"{table.ours(name)}{octave}\t{int(note.ps)}\t{note.frequency:.4f}"


if __name__ == "__main__":
    table.write("pitches.tsv", [*table.comments("pitches, A4 = 440 Hz", []), *rows()])
