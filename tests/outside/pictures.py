"""Draws what every sound and the drums are like: spectrogram, envelope and loudness.

    pictures.py DIRECTORY PLAGAL...    the program and any arguments before the command

One picture for each sound, of a line of four chords, and one for the percussion of the band.
Prints, for the percussion, its level against the chords, how bright it is, and how alike
its strokes are. Look at the pictures; nothing here judges them.
"""

import json
import pathlib
import subprocess
import sys
import tempfile

import librosa
import matplotlib
import numpy
import pyloudnorm
import soundfile

matplotlib.use("Agg")
from matplotlib import pyplot

LINE = "Imaj7 | ii7 | V7 | I"
RATE = 48000


def plagal(*arguments):
    return subprocess.run([*sys.argv[2:], *arguments], check=True, capture_output=True, text=True).stdout


def render(folder, *arguments):
    file = pathlib.Path(folder) / "line.wav"
    plagal("render", "--force", LINE, "--key", "C", "-o", str(file), *arguments)
    samples, rate = soundfile.read(file)
    assert rate == RATE
    return samples


def decibels(amplitude):
    return 20 * numpy.log10(numpy.maximum(amplitude, 1e-6))


def momentary(samples):
    """Loudness of 400 ms at a time, every 100 ms (EBU Tech 3341, momentary)."""
    meter = pyloudnorm.Meter(RATE, block_size=0.4)
    filtered = samples.copy()
    for stage in meter._filters.values():
        for side in range(2):
            filtered[:, side] = stage.apply_filter(filtered[:, side])
    starts = range(0, len(samples) - int(0.4 * RATE), int(0.1 * RATE))
    power = [numpy.mean(filtered[at : at + int(0.4 * RATE)] ** 2, axis=0).sum() for at in starts]
    times = [(at / RATE) + 0.4 for at in starts]
    return times, -0.691 + 10 * numpy.log10(numpy.maximum(power, 1e-9))


def draw(title, samples, file):
    mono = samples.mean(axis=1)
    figure, (top, middle, bottom) = pyplot.subplots(3, 1, figsize=(10, 9), sharex=True)
    spectrum = decibels(numpy.abs(librosa.stft(mono, n_fft=4096, hop_length=512)) / 1024)
    times = numpy.arange(spectrum.shape[1]) * 512 / RATE
    hertz = numpy.arange(spectrum.shape[0]) * RATE / 4096
    top.pcolormesh(times, hertz[1:], spectrum[1:], vmin=-100, vmax=-10, cmap="magma")
    top.set_yscale("log")
    top.set_ylim(40, 16000)
    top.set_ylabel("Hz")
    loudness = pyloudnorm.Meter(RATE).integrated_loudness(samples)
    top.set_title(f"{title}: {loudness:.1f} LUFS, peak {decibels(numpy.abs(samples).max()):.1f} dBFS")
    envelope = librosa.feature.rms(y=mono, frame_length=1024, hop_length=256)[0]
    middle.plot(numpy.arange(len(envelope)) * 256 / RATE, decibels(envelope))
    middle.set_ylim(-80, 0)
    middle.set_ylabel("envelope, dB")
    bottom.plot(*momentary(samples))
    bottom.set_ylim(-60, -10)
    bottom.set_ylabel("momentary, LUFS")
    bottom.set_xlabel("s")
    for axis in (middle, bottom):
        axis.grid(alpha=0.3)
    figure.tight_layout()
    figure.savefig(file, dpi=70)
    pyplot.close(figure)


def strokes(mono):
    """The first 120 ms of each stroke that stands clear."""
    onsets = librosa.onset.onset_detect(y=mono, sr=RATE, units="samples", backtrack=True)
    length = int(0.12 * RATE)
    gaps = numpy.diff([*onsets, len(mono)])
    return [mono[at : at + length] for at, gap in zip(onsets, gaps) if gap >= length]


def alikeness(one, other):
    """The largest normalised correlation within 5 ms: 1 where a stroke is a copy."""
    reach = int(0.005 * RATE)
    inner = one[reach:-reach]
    found = numpy.correlate(other, inner, mode="valid")
    energy = numpy.sqrt((inner**2).sum() * (other**2).sum())
    return found.max() / max(energy, 1e-12)


def percussion(folder, directory):
    for texture, tempo in (("band", "100"), ("band", "180"), ("ballad", "66")):
        how = ["--texture", texture, "--tempo", tempo]
        drums = render(folder, *how, "--only", "percussion")
        mono = drums.mean(axis=1)
        name = f"percussion-{texture}-{tempo}"
        draw(name, drums, directory / f"{name}.png")
        hits = strokes(mono)
        likes = [alikeness(hits[a], hits[b]) for a in range(len(hits)) for b in range(a + 1, len(hits))]
        centroid = librosa.feature.spectral_centroid(y=mono, sr=RATE).mean()
        print(
            f"{name}: {len(hits)} strokes, brightness {centroid:.0f} Hz, "
            f"most alike {max(likes):.3f}, median {numpy.median(likes):.3f}"
        )


def main():
    directory = pathlib.Path(sys.argv[1])
    directory.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        for sound in json.loads(plagal("sounds", "--json"))["sounds"]:
            samples = render(folder, "--tempo", "60", "--sound", sound["id"])
            draw(sound["title"], samples, directory / f"{sound['id']}.png")
        percussion(folder, directory)


if __name__ == "__main__":
    main()
