"""Writes spelling.tsv: roots, basses and notes of numerals in all thirty keys, by music21.

Each numeral is written twice, as the project writes it and as music21 must be asked for
the same chord. Run it with the packages of requirements.txt.
"""

from music21 import roman

import table

TRAPS = [
    ("sevenths are diatonic, so `I7` and `bVII7` come out major", "dominants as `Ib7`, `bVIIb7`"),
    ("`i7` in major is corrected to a minor seventh", "a minor triad with major seventh is `i[add7]` there"),
    ("`VI` and `VII` of minor are the lowered degrees", "our `bVI`, `bVII`, `bIII` are asked for as `VI`, `VII`, `III`"),
    ("`vi` of minor depends on a setting", "Minor67Default.CAUTIONARY: minor and diminished chords stand on the raised degree"),
    ("`[add6]` adds the sixth of the scale", "in minor our `iadd6` is asked for as `i[add#6]`"),
    ("a bare `6` is first inversion", "our added sixth is asked for as `[add6]`"),
    ("`V7b9` loses its third and fifth", "asked for as `V9[b9]`, in minor `V9`"),
    ("a bass degree after a slash is dropped", "only inversions are asked for, as figures"),
    ("the substitute dominant has no name", "our `subV7/x` is asked for as `bIIb7/x`"),
    ("an applied chord's target decides its scale", "targets are asked for in the mode they have in the key"),
]

# Where one numeral has several writings of ours, each stands with the same figure.
MAJOR = """
I I, ii ii, iii iii, IV IV, V V, vi vi, viio viio,
I/3 I6, I/5 I64, ii/4 ii6, ii/6 ii64, iii/5 iii6, IV/6 IV6, IV/1 IV64, V/7 V6, V/2 V64, vi/1 vi6, viio/2 viio6, viio/4 viio64,
Imaj7 I7, ii7 ii7, iii7 iii7, IVmaj7 IV7, V7 V7, vi7 vi7, viiø7 viiø7, viiø7 vii/o7,
ii7/4 ii65, ii7/6 ii43, ii7/1 ii42, V7/7 V65, V7/2 V43, V7/4 V42, V65 V65, V43 V43, V42 V2,
Imaj7/3 I65, IVmaj7/3 IV42, vi7/1 vi65, viiø7/2 viiø65, viiø7/6 viiø42, iii7/2 iii42,
V9 V9, V7b9 V9[b9], ii9 ii9, I+ I+, V+ V+, V+7 V+7, V7sus4 V7[no3][add4], Vsus4 V[no3][add4], Iadd6 I[add6], Iadd9 I[add9], IVadd6 IV[add6],
II II, III III, VI VI, VII VII, II7 II7, III7 III7, VI7 VI7, VII7 VII7, I7 Ib7, IV7 IVb7,
V/ii V/ii, V/iii V/iii, V/IV V/IV, V/V V/V, V/vi V/vi,
V7/ii V7/ii, V7/iii V7/iii, V7/IV V7/IV, V7/V V7/V, V7/vi V7/vi,
V7/ii/#1 V65/ii, V7/ii/3 V43/ii, V7/ii/5 V42/ii, V7/V/#4 V65/V, V7/V/6 V43/V, V7/V/1 V42/V, V7/IV/3 V65/IV, V7/IV/b7 V42/IV, V7/vi/#5 V65/vi, V7/vi/2 V2/vi,
V65/V V65/V, V42/IV V42/IV, V43/vi V43/vi,
V+/IV V+/IV, V7b9/ii V9/ii, V9/V V9/V,
viio/ii viio/ii, viio/V viio/V, viio/vi viio/vi, viio7/ii viio7/ii, viio7/iii viio7/iii, viio7/IV viio7/IV, viio7/V viio7/V, viio7/vi viio7/vi, viiø7/V viiø7/V, viiø7/IV viiø7/IV,
viio7/V/6 viio65/V, viio7/ii/3 viio65/ii,
ii7/V ii7/V, ii7/IV ii7/IV, iiø7/vi iiø7/vi, iiø7/ii iiø7/ii, iiø7/iii iiø7/iii, IV/V IV/V, iv/vi iv/vi,
V/V/V V/V/V, V7/V/V V7/V/V, V7/V/ii V7/V/ii, V7/V/vi V7/V/vi, V7/V/IV V7/V/IV, viio7/V/V viio7/V/V, viio7/V/ii viio7/V/ii, V7/V/V/V V7/V/V/V,
V7/bII V7/bII, V7/bIII V7/bIII, V7/bVI V7/bVI, V7/bVII V7/bVII, V7/iv V7/iv, V7/v V7/v, ii7/bVI ii7/bVI, ii7/bIII ii7/bIII,
subV7 bIIb7, bII7 bIIb7, subV7/V bIIb7/V, subV7/ii bIIb7/ii, subV7/IV bIIb7/IV, subV7/iii bIIb7/iii, subV7/vi bIIb7/vi, bVI7 bVIb7, bIII7 bIIIb7, bVII7 bVIIb7, bV7 bVb7,
i i, i7 i7, imaj7 i[add7], iadd6 i[add6], iv iv, iv/b6 iv6, iv7 iv7, ivmaj7 iv[add7], ivadd6 iv[add6], v v, v7 v7, iio iio, iiø7 iiø7, iiø7/4 iiø65, viio7 viio7, viio7/2 viio65, viio7/4 viio43, viio7/b6 viio42,
bIII bIII, bIIImaj7 bIII7, bVI bVI, bVI/1 bVI6, bVImaj7 bVI7, bVII bVII, bVIImaj7 bVII7, bII bII, bIImaj7 bII7, bvi7 bvi7, bIII/5 bIII6,
#io7 #io7, #iio7 #iio7, #ivo7 #ivo7, #vo7 #vo7, #ivø7 #ivø7, #ivo #ivo, biiio7 biiio7, io7 io7, vo7 vo7, vio7 vio7, iiio7 iiio7, #iv7 #iv7,
It6 It6, Fr6 Fr43, Ger6 Ger65, Fr43 Fr43, Ger65 Ger65, It6/V It6/V, Fr6/V Fr43/V, Ger6/V Ger65/V, Ger6/ii Ger65/ii, Ger6/IV Ger65/IV, N6 N6, N6/V N6/V, N6/ii N6/ii,
II/#4 II6, VI/#1 VI6, III/#5 III6
"""

MINOR = """
i i, iio iio, bIII III, iv iv, v v, V V, bVI VI, bVII VII, viio viio, vi vi, vio vio, bIII+ III+,
i/3 i6, i/b3 i6, i/5 i64, iio/4 iio6, iio/6 iio64, iio/b6 iio64, bIII/5 III6, iv/6 iv6, iv/b6 iv6, iv/1 iv64, V/7 V6, V/2 V64, bVI/1 VI6, bVII/2 VII6, viio/2 viio6, viio/4 viio64, v/7 v6, v/b7 v6,
i7 i7, imaj7 i#7, iadd6 i[add#6], iadd9 i[add9], iiø7 iiø7, bIIImaj7 III7, iv7 iv7, v7 v7, V7 V7, bVImaj7 VI7, bVII7 VII7, viio7 viio7, viø7 viø7, vio7 vio7, ii7 ii7, IV7 IV7, IV IV, I I, II II, II7 II7,
i7/3 i65, i7/7 i42, i7/b7 i42, iiø7/4 iiø65, iiø7/6 iiø43, iiø7/1 iiø42, V7/7 V65, V7/2 V43, V7/4 V42, viio7/2 viio65, viio7/4 viio43, viio7/6 viio42, viio7/b6 viio42, iv7/3 iv42, bVImaj7/1 VI65, IV7/6 IV65,
V9 V9[#9], V7b9 V9, V7sus4 V7[no3][add4], V+ V+, V+7 V+7, ivadd6 iv[add6], bIIIadd6 III[add6], bVIadd6 VI[add6],
V/iv V/iv, V/V V/V, V/v V/v, V/bIII V/III, V/bVI V/VI, V/bVII V/VII,
V7/iv V7/iv, V7/V V7/V, V7/v V7/v, V7/bIII V7/III, V7/bVI V7/VI, V7/bVII V7/VII, V7/bII V7/bII,
V7/iv/3 V65/iv, V7/V/#4 V65/V, V7/bIII/2 V65/III, V7/bVI/5 V65/VI, V7/iv/b7 V42/iv,
viio/iv viio/iv, viio/V viio/V, viio/bIII viio/III, viio7/iv viio7/iv, viio7/V viio7/V, viiø7/V viiø7/V, viiø7/bIII viiø7/III, viio7/bIII viio7/III, viio7/bVI viio7/VI, viio7/bVII viio7/VII,
iiø7/iv iiø7/iv, ii7/bIII ii7/III, ii7/bVI ii7/VI, ii7/bVII ii7/VII, iiø7/v iiø7/v, iv/iv iv/iv, IV/bVII IV/VII, IV/bIII IV/III,
V7/V/V V7/V/V, V7/V/iv V7/V/iv, V7/V/bIII V7/V/III, viio7/V/V viio7/V/V, viio7/V/iv viio7/V/iv,
subV7 bIIb7, bII7 bIIb7, subV7/V bIIb7/V, subV7/iv bIIb7/iv, subV7/bIII bIIb7/III, bVI7 VIb7, bIII7 IIIb7, bII bII, bIImaj7 bII7, bVIImaj7 VII#7,
#ivo7 #ivo7, #ivø7 #ivø7, io7 io7, vo7 vo7, iv7 iv7,
It6 It6, Fr6 Fr43, Ger6 Ger65, It6/V It6/V, Fr6/V Fr43/V, Ger6/V Ger65/V, Ger6/iv Ger65/iv, Ger6/bIII Ger65/III, N6 N6, N6/iv N6/iv, N6/V N6/V
"""

MAJOR_TONICS = "Cb Gb Db Ab Eb Bb F C G D A E B F# C#".split()
MINOR_TONICS = "ab eb bb f c g d a e b f# c# g# d# a#".split()


def pairs(text):
    words = [entry.split() for entry in text.replace("\n", " ").split(",")]
    return dict.fromkeys((mine, figure) for mine, figure in words)


def rows(text, tonics):
    yield "\t".join(["numeral", "music21", *tonics])
    for mine, figure in pairs(text):
        cells = [
            table.cell(
                roman.RomanNumeral(
                    figure,
                    table.theirs(tonic) if tonic[0].isupper() else tonic[0] + table.theirs(tonic[1:]),
                    sixthMinor=roman.Minor67Default.CAUTIONARY,
                    seventhMinor=roman.Minor67Default.CAUTIONARY,
                )
            )
            for tonic in tonics
        ]
        yield "\t".join([mine, figure, *cells])


if __name__ == "__main__":
    lines = table.comments("numerals in thirty keys: notes from the bass up, * before the root", TRAPS)
    lines += ["[major]", *rows(MAJOR, MAJOR_TONICS), "[minor]", *rows(MINOR, MINOR_TONICS)]
    table.write("spelling.tsv", lines)
