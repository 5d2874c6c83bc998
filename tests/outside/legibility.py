"""Listens, with librosa, to questions that plagal renders, and writes down their chords.

    legibility.py COUNT SEED PLAGAL...    the program and any arguments before the command

Lines are taken from every exercise in turn and rendered by every sound and every texture
marked fair. The listener is told when each chord begins and
ends, as the chart tells the pupil, and nothing of what it is. A spectrum of constant Q is
explained by harmonic notes (non-negative least squares, after Mauch and Dixon, ISMIR 2010);
their chroma from G3 up is compared with templates of all qualities on all roots, and the
bass is the lowest note as the chord begins. A chord is found when root, quality and
bass are those of the truth; names of the same notes over the same bass count as one, for
no chroma can tell them apart. Needs librosa (`pip install librosa==0.11.0`); 500 questions
take some minutes, so it is run by hand.
"""

import collections
import json
import multiprocessing
import pathlib
import subprocess
import sys
import tempfile

import librosa
import numpy
from scipy.optimize import nnls

RATE = 22050
HOP = 512
BINS = 36
LOWEST, HIGHEST = 38, 91
FIRST = 36
OCTAVES = 6
# Where arrangers put the bass at the highest, and the upper voices at the lowest: A3, G3.
BASS_TOP, UPPER_FROM = 57, 55
# Weaker than this part of the strongest upper note is taken for a partial or an echo.
FAINT = 0.08
# A chord over a bass of its own is likelier than one over a foreign bass, as over a pedal.
FOREIGN = 0.97
PLAIN = ("held-chords", "broken-chords")

QUALITIES = {
    "major": (0, 4, 7),
    "minor": (0, 3, 7),
    "diminished": (0, 3, 6),
    "augmented": (0, 4, 8),
    "suspended fourth": (0, 5, 7),
    "added sixth": (0, 4, 7, 9),
    "minor with sixth": (0, 3, 7, 9),
    "added ninth": (0, 2, 4, 7),
    "dominant seventh": (0, 4, 7, 10),
    "major seventh": (0, 4, 7, 11),
    "minor seventh": (0, 3, 7, 10),
    "minor with major seventh": (0, 3, 7, 11),
    "half-diminished": (0, 3, 6, 10),
    "diminished seventh": (0, 3, 6, 9),
    "augmented with seventh": (0, 4, 8, 10),
    "augmented with major seventh": (0, 4, 8, 11),
    "seventh with lowered fifth": (0, 4, 6, 10),
    "seventh with suspended fourth": (0, 5, 7, 10),
    "ninth": (0, 2, 4, 7, 10),
    "major ninth": (0, 2, 4, 7, 11),
    "minor ninth": (0, 2, 3, 7, 10),
    "seventh with lowered ninth": (0, 1, 4, 7, 10),
    "seventh with raised ninth": (0, 3, 4, 7, 10),
    "thirteenth": (0, 4, 7, 9, 10),
    "thirteenth with ninth": (0, 2, 4, 7, 9, 10),
}


def templates():
    """Which sounds a chord over a bass has: each quality on each root over each bass, with
    and without a perfect fifth that may be omitted."""
    made = []
    for quality in QUALITIES.values():
        kinds = {quality}
        if 7 in quality and len(quality) > 3:
            kinds.add(tuple(step for step in quality if step != 7))
        for kind in sorted(kinds):
            for root in range(12):
                own = {(root + step) % 12 for step in kind}
                for lowest in range(12):
                    chroma = numpy.zeros(12)
                    chroma[sorted(own | {lowest})] = 1
                    weight = 1 if lowest in own else FOREIGN
                    made.append((root, quality, lowest, weight * chroma / numpy.linalg.norm(chroma)))
    return made


TEMPLATES = templates()


def spectrum(samples):
    return numpy.abs(
        librosa.cqt(
            samples,
            sr=RATE,
            hop_length=HOP,
            fmin=librosa.midi_to_hz(FIRST - 1 / 3),
            n_bins=BINS * OCTAVES,
            bins_per_octave=BINS,
            filter_scale=0.6,
        )
    )


def dictionary():
    """Spectra of harmonic notes: dull ones, and ones whose first three partials are even."""
    time = numpy.arange(RATE) / RATE
    atoms, notes = [], []
    for note in range(LOWEST, HIGHEST + 1):
        for fall, even in ((0.5, 1), (0.7, 3)):
            tone = numpy.zeros_like(time)
            for partial in range(1, 25):
                hertz = partial * librosa.midi_to_hz(note)
                if hertz < 0.45 * RATE:
                    phase = 2 * numpy.pi * hertz * time + partial**2
                    tone += fall ** max(partial - even, 0) * numpy.sin(phase)
            middle = spectrum(tone)[:, 18:26].mean(axis=1)
            atoms.append(middle / numpy.linalg.norm(middle))
            notes.append(note)
    return numpy.array(atoms).T, numpy.array(notes)


def heard(magnitudes, atoms, notes):
    """How much of each note from LOWEST to HIGHEST there is."""
    weights, _ = nnls(atoms, magnitudes)
    found = numpy.zeros(HIGHEST - LOWEST + 1)
    numpy.add.at(found, notes - LOWEST, weights)
    return found


def bass(found):
    low = found[: BASS_TOP - LOWEST + 1]
    clear = numpy.flatnonzero(low >= 0.3 * low.max())
    return (LOWEST + int(clear[0])) % 12


def chord(found, lowest):
    upper = numpy.where(numpy.arange(LOWEST, HIGHEST + 1) >= UPPER_FROM, found, 0)
    chroma = librosa.feature.chroma_cqt(
        C=upper[:, None], bins_per_octave=12, fmin=librosa.midi_to_hz(LOWEST), norm=numpy.inf
    )[:, 0]
    chroma = numpy.sqrt(numpy.clip(chroma - FAINT, 0, None) / (1 - FAINT))
    chroma[lowest] = max(chroma[lowest], 1)
    over = [template for template in TEMPLATES if template[2] == lowest]
    return max(over, key=lambda template: template[3] @ chroma)[:2]


def listen(samples, spans, beat, atoms, notes):
    """Root, intervals and bass of the chord in each span of seconds."""
    magnitudes = spectrum(samples)
    frame = lambda seconds: int(round(seconds * RATE / HOP))
    for start, end in spans:
        first = magnitudes[:, frame(start + 0.05) : frame(min(end, start + 0.4 * beat))]
        whole = magnitudes[:, frame(start + 0.08) : max(frame(end - 0.05), frame(start + 0.08) + 1)]
        lowest = bass(heard(first.mean(axis=1), atoms, notes))
        root, intervals = chord(heard(whole.mean(axis=1), atoms, notes), lowest)
        yield root, intervals, lowest


def plagal(program, arguments):
    done = subprocess.run([*program, *arguments], check=True, capture_output=True, text=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


def questions(program, count, seed):
    exercises = [one["id"] for one in plagal(program, ["exercises", "--json"])[0]["exercises"]]
    each = str(-(-count // len(exercises)))
    made = [
        plagal(program, ["question", name, "--count", each, "--seed", str(seed), "--json"])
        for name in exercises
    ]
    return [question for turn in zip(*made) for question in turn][:count]


def pairs(program):
    sounds = [one["id"] for one in plagal(program, ["sounds", "--json"])[0]["sounds"]]
    textures = plagal(program, ["textures", "--json"])[0]["textures"]
    textures = [one["id"] for one in textures if one["fair"]]
    # Neighbours differ in both, so that a reduced count meets every sound and texture.
    return [
        (sounds[(place + turn) % len(sounds)], textures[place % len(textures)])
        for turn in range(len(sounds))
        for place in range(len(textures))
    ]


def pitch_class(name):
    return librosa.note_to_midi(name.replace("♭", "b").replace("♯", "#") + "4") % 12


ATOMS = None


def share(atoms):
    global ATOMS
    ATOMS = atoms


def ask(job):
    program, question, sound, texture, seed = job
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / "question.wav"
        where = ["--key", question["key"], "--meter", question["meter"]]
        how = ["--tempo", str(question["tempo"]), "--sound", sound, "--texture", texture]
        plagal(program, ["render", "--force", question["line"], *where, *how, "--seed", str(seed), "-o", str(file)])
        samples, _ = librosa.load(file, sr=RATE, mono=True)
    spelled = plagal(program, ["spell", question["line"], *where, "--json"])[0]["chords"]
    beat = 60 / question["tempo"]
    spans, at = [], 0
    for one in spelled:
        spans.append((at * beat, (at + one["beats"]) * beat))
        at += one["beats"]
    results = []
    for truth, found in zip(spelled, listen(samples, spans, beat, *ATOMS)):
        root, intervals, lowest = found
        lowest_told = pitch_class(truth["bass"])
        told = {pitch_class(name) for name in truth["notes"]} | {lowest_told}
        # An Italian sixth sounds as the seventh without its fifth that its symbol is.
        if truth["numeral"].startswith("It6"):
            told |= {(root + 7) % 12}
        bass_right = lowest == lowest_told
        chord_right = {(root + step) % 12 for step in intervals} | {lowest} == told
        results.append((bass_right, chord_right, truth["symbol"], truth["numeral"], found, truth["beats"]))
    return question, sound, texture, results


def main():
    count, seed, program = int(sys.argv[1]), int(sys.argv[2]), sys.argv[3:]
    combinations = pairs(program)
    jobs = [
        (program, question, *combinations[place % len(combinations)], seed + place)
        for place, question in enumerate(questions(program, count, seed))
    ]
    tally = collections.Counter()
    missed = collections.Counter()
    with multiprocessing.Pool(initializer=share, initargs=(dictionary(),)) as pool:
        for question, sound, texture, results in pool.imap(ask, jobs):
            for bass_right, chord_right, symbol, numeral, found, beats in results:
                right = bass_right and chord_right
                for group in ("all", f"sound {sound}", f"texture {texture}", "plain" if texture in PLAIN else "moving"):
                    tally[group] += 1
                    missed[group] += not right
                if not right:
                    names = librosa.midi_to_note(range(12), octave=False, unicode=False)
                    root, intervals, lowest = found
                    kind = next(name for name, steps in QUALITIES.items() if steps == intervals)
                    print(
                        f"missed: {symbol} ({numeral}, {beats} beats at {question['tempo']}) heard as "
                        f"{names[root]} {kind} over {names[lowest]}; {sound}, {texture}"
                    )
    for group in sorted(tally):
        print(f"{group}: {tally[group] - missed[group]} of {tally[group]} chords, {1 - missed[group] / tally[group]:.2%}")
    for group, allowed in (("all", 0.03), ("plain", 0.005)):
        # One miss is allowed however few chords there are.
        if missed[group] > max(1, allowed * tally[group]):
            sys.exit(f"more than {allowed:.1%} of {group} chords were not found")


if __name__ == "__main__":
    main()
