"""What the recipes share: music21's names in our writing, and the committed tables."""

import pathlib
import sys

import music21

SOURCE = f"music21 {music21.__version__} (PyPI, BSD-3-Clause)"
HERE = pathlib.Path(__file__).resolve().parent


def ours(name):
    """music21 writes a flat as `-`; the project writes `b`."""
    return name.replace("-", "b")


def theirs(name):
    return name.replace("b", "-")


def pitch(name):
    """A note by our name."""
    return music21.pitch.Pitch(theirs(name))


def cell(chord):
    """The notes from the bass up, with a `*` before the root: `B D F *G`."""
    root, bass = chord.root().name, chord.bass().name
    names = list(dict.fromkeys([bass] + [pitch.name for pitch in chord.pitches]))
    return " ".join(("*" if name == root else "") + ours(name) for name in names)


def comments(title, traps):
    """The head of a table: where it comes from, and what was translated by hand."""
    lines = [f"# {title}", f"# source: {SOURCE}"]
    lines += [f"# trap: {met} -> {done}" for met, done in traps]
    return lines


def write(file, lines):
    """Writes a table beside the recipes, or into the folder of the first argument."""
    folder = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else HERE
    (folder / file).write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{file}: {len(lines)} lines from {SOURCE}")
