"""Reads back, with music21, the MusicXML and MIDI files that plagal renders.

    scores.py PLAGAL...    the program and any arguments before the command

Each line's files must have the key, meter, tempo, bars and chord symbols that `plagal
spell` tells, and no note foreign to the chord that sounds.
"""

import json
import pathlib
import subprocess
import sys
import tempfile

from music21 import converter, harmony, key, meter, stream, tempo

LINES = [
    ("G", "4/4", "IVadd6 | ivadd6 | Iadd6 | V7/ii | V7/V | V7 | I | %"),
    ("Eb", "4/4", "Imaj7 V7/ii | ii7 V7b9 #ivo7 | I/5 % | iiø7 V7 ivadd6 bVII7 I | V7 I"),
    ("F#m", "3/4", "i | iiø7 V7 | i/b3 iv bVI | Ger6 i/5 V7 V7b9 | i"),
    ("Db", "2/4", "I vi7 ii7 | V7 subV7 I | io7 I+ ii7 iiio7 V7"),
    ("A", "4/4", "I/3 I V7/IV IV iv I V7/V | V7 | I vi ii V7 I IV V I"),
]


def plagal(arguments):
    done = subprocess.run([*sys.argv[1:], *arguments], check=True, capture_output=True, text=True)
    return done.stdout


def names(pitches):
    return {pitch.name.replace("-", "b") for pitch in pitches}


def check(folder, tonic, meter_text, line):
    place = f"{line} in {tonic}"
    common = [line, "--key", tonic, "--meter", meter_text]
    spelled = json.loads(plagal(["spell", *common, "--json"]))
    files = {}
    for ending in ("musicxml", "mid"):
        files[ending] = folder / f"line.{ending}"
        plagal(["render", "--force", *common, "--tempo", "72", "-o", str(files[ending])])

    score = converter.parse(files["musicxml"])
    upper, lower = score.parts
    mode = spelled["key"].split()[1]
    found = upper.recurse().getElementsByClass(key.KeySignature).first().asKey(mode)
    assert names([found.tonic]) == {spelled["key"].split()[0]}, f"{place}: key {found}"
    found = upper.recurse().getElementsByClass(meter.TimeSignature).first()
    assert found.ratioString == meter_text, f"{place}: meter {found}"
    for part in score.parts:
        for bar in part.getElementsByClass(stream.Measure):
            assert bar.duration.quarterLength == int(meter_text[0]), f"{place}: bar {bar.number}"

    symbols = list(upper.flatten().getElementsByClass(harmony.ChordSymbol))
    chords = spelled["chords"]
    assert len(symbols) == len(chords), f"{place}: {len(symbols)} symbols"
    start = 0
    for symbol, chord in zip(symbols, chords):
        what = f"{place}: {chord['symbol']}"
        assert abs(symbol.getOffsetInHierarchy(upper.flatten()) - start) < 1e-6, what
        assert names([symbol.root()]) == {chord["root"]}, f"{what}: root {symbol.root()}"
        assert names([symbol.bass()]) == {chord["bass"]}, f"{what}: bass {symbol.bass()}"
        notes = set(chord["notes"])
        # An augmented sixth is written as the dominant seventh that shares its notes.
        if not chord["numeral"].startswith(("It6", "Fr6", "Ger6")):
            assert names(symbol.pitches) == notes, f"{what}: {names(symbol.pitches)}"
        end = start + chord["beats"]
        for part, allowed in ((upper, notes), (lower, {chord["bass"]})):
            sounding = {
                name
                for note in part.flatten().notes
                if not isinstance(note, harmony.ChordSymbol)
                and note.offset < end - 1e-6
                and note.offset + note.quarterLength > start + 1e-6
                for name in names(note.pitches)
            }
            assert sounding and sounding <= allowed, f"{what}: {sounding} of {allowed}"
        start = end

    performance = converter.parse(files["mid"])
    found = performance.recurse().getElementsByClass(tempo.MetronomeMark).first()
    assert round(found.number) == 72, f"{place}: tempo {found}"
    length = max(part.highestTime for part in performance.parts)
    assert abs(length - start) < 0.5, f"{place}: {length} beats of {start}"


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit("expected the program")
    with tempfile.TemporaryDirectory() as folder:
        for tonic, meter_text, line in LINES:
            check(pathlib.Path(folder), tonic, meter_text, line)
    print(f"scores: {len(LINES)} lines read back as they were spelled")
