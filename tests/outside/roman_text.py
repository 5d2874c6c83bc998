"""Writes roman_text.tsv: RomanText numerals made up here, in C major and C minor, by music21.

The numerals of real analyses are compared too, without being copied: see corpus.py.
"""

from music21 import roman

import table

TRAPS = [
    ("a sign after the figures is dropped", "`III6+` is compared in the corpus alone, as an exception"),
    ("an alteration of a note that is not there is dropped", "`V7[b9]` is not asked for"),
    ("an alteration raises or lowers once more what the numeral's case has already raised or lowered", "such are not asked for"),
    ("a seventh is the scale's even above an altered root", "where that gives it no common name, the project refuses it"),
]

ROMANS = "I II III IV V VI VII".split()
FIGURES = ["", "6", "64", "7", "65", "43", "42"]
NAMED = """
It6 It It53 It64 Fr43 Fr Fr6 Fr7 Fr65 Fr42 Ger65 Ger Ger6 Ger7 Ger43 Ger42 Ger+6 N6 N N53 N64 Cad64
V9 II9 ii9 IV9 vi9 V11 ii11 V13 V2 ii6/5 V4/3 vii/o7 viio/7 iiø IId7 IId65 VIId7 V/7
V[no3] V7[no5] i6[no1] I[no3no5] V9[no3] V7[no3][no5] viio6[no5] V11[no9] V65[no3]
I[add6] i[add6] IV[add6] iv[add6] I[add9] I[add2] IV[add4] V7[add6] V7[add13] I[add#11] i[add7] I[add7] V[no3][add4] V7[no3][add4] I[no3][add2] V54
V7[b5] V7[#5] V[#5] V9[b9] V9[#9] i[#3] I[b3] IV7[b7] VI7[#7] viiø7[#5]
V/V V7/V V65/V V43/ii V42/IV V2/vi V/III V7/VI V7/VII viio/V viio7/ii viio65/V viiø7/V viio43/vi V/vi V/bVI V/bII viio6/iv6
V7/V/V V65/V/V viio7/V/V V7/V/ii V/V/VII Ger65/V It6/V Fr43/ii N6/V N6/iv Cad64/V V7/N6 ii7/V iiø65/ii VI/V vi/v VII/iv #viio7/V bVI/V
V/V[no3] viio6[no1]/III I64/V[no5] V[no5]/V i/ii IV/bVII #ivo7 #ivø65 #io7 #iio43 biiio7 bII7 bIId7 bVId7 bIIId65
"""


def made_up():
    """Every degree in both cases, plain and altered, with each sign and each figure."""
    for upper in ROMANS:
        for accidental in ("", "b", "#"):
            for numeral, signs in ((upper, ("", "+")), (upper.lower(), ("", "o", "ø"))):
                for sign in signs:
                    figures = FIGURES if not accidental or not sign else ["", "7", "65"]
                    yield from (accidental + numeral + sign + figure for figure in figures)
    yield from NAMED.split()


def asked(figure, key):
    caution = roman.Minor67Default.CAUTIONARY
    return roman.RomanNumeral(figure, key, sixthMinor=caution, seventhMinor=caution)


def write_table():
    lines = table.comments("RomanText numerals: notes from the bass up, * before the root", TRAPS)
    lines.append("numeral\tC\tc")
    for figure in dict.fromkeys(made_up()):
        lines.append("\t".join([figure, *(table.cell(asked(figure, key)) for key in "Cc")]))
    table.write("roman_text.tsv", lines)


if __name__ == "__main__":
    write_table()
