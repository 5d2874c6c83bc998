"""Writes every numeral of the RomanText analyses that music21's own corpus carries.

Those analyses have licences of their own and do not enter the project: the recipe wants a
folder outside it, where it writes corpus.tsv with each numeral, its key and its notes.
"""

import pathlib
import sys

from music21 import converter, corpus, roman

import table


def is_roman_text(path):
    return path.suffix in (".rntxt", ".rntext", ".romantext", ".rtxt")


def rows():
    """Every numeral in its key, the pivots that stand beside another included."""
    for path in filter(is_roman_text, map(pathlib.Path, corpus.corpora.CoreCorpus().getPaths())):
        score = converter.parse(str(path), format="romanText", forceSource=True)
        for numeral in score.recurse().getElementsByClass(roman.RomanNumeral):
            pivot = getattr(numeral, "pivotChord", None)
            for kind, read in (("numeral", numeral), ("pivot", pivot)):
                if read is not None:
                    place = f"{path.stem} bar {numeral.measureNumber}"
                    key = table.ours(read.key.tonicPitchNameWithCase)
                    yield "\t".join([kind, place, key, read.figure, table.cell(read)])


if __name__ == "__main__":
    if len(sys.argv) < 2 or pathlib.Path(sys.argv[1]).resolve().is_relative_to(table.HERE.parent.parent):
        sys.exit("expected a folder outside the project")
    title = "numerals of the RomanText analyses in music21's corpus"
    table.write("corpus.tsv", [*table.comments(title, []), *rows()])
