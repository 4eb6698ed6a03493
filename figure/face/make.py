#!/usr/bin/env python3
"""Makes the fonts of this folder: a part of Source Serif 4 under another name.

    npm pack @expo-google-fonts/source-serif-4@0.4.1 && tar xzf expo-google-fonts-source-serif-4-0.4.1.tgz
    apt-get install python3-fonttools
    /usr/bin/python3 make.py package

Its licence (OFL.txt) reserves the name "Source" for the unchanged family, so
what is changed has a name of our own. What is changed: only the letters and
signs that the pages and pictures can need, no hints, no ligatures, and two
signs more: a raised minus (the minus, smaller) and a hyphen that does not break.
Kerning is of pairs alone, without what depends on a third letter, so that the
program measures and draws exactly what a browser sets.
"""
import sys
from pathlib import Path

from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FAMILY = "Knockon Serif"
FACES = {
    "upright": ("400Regular/SourceSerif4_400Regular.ttf", "Regular"),
    "italic": ("400Regular_Italic/SourceSerif4_400Regular_Italic.ttf", "Italic"),
    "bold": ("600SemiBold/SourceSerif4_600SemiBold.ttf", "Bold"),
}
# Letters of the Latin script, Greek ones of formulas, signs, arrows, marks.
KEPT = [
    (0x20, 0x7E), (0xA0, 0x17F), (0x218, 0x21B), (0x2C6, 0x2DD), (0x391, 0x3C9),
    (0x2002, 0x200A), (0x2010, 0x2026), (0x202F, 0x203A), (0x2044, 0x2044), (0x2070, 0x208E),
    (0x20AC, 0x20AC), (0x2122, 0x2122), (0x2190, 0x2199), (0x2202, 0x2265), (0x25A0, 0x25CA), (0x2713, 0x2713),
]
# Kerning, small capitals, raised and lowered figures, figures of one width.
FEATURES = ["kern", "locl", "smcp", "tnum", "lnum", "sups", "subs"]


def add_signs(font):
    glyphs, cmap = font["glyf"], font.getBestCmap()
    pen = TTGlyphPen(font.getGlyphSet())
    minus, six = glyphs["minus"], glyphs[cmap[0x2076]]
    rise = (six.yMin + six.yMax) / 2 - 0.6 * (minus.yMin + minus.yMax) / 2
    pen.addComponent("minus", (0.6, 0, 0, 0.6, 0, round(rise)))
    font.setGlyphOrder(font.getGlyphOrder() + ["uni207B"])
    glyphs["uni207B"] = pen.glyph()
    font["hmtx"]["uni207B"] = (round(0.6 * font["hmtx"]["minus"][0]), round(0.6 * font["hmtx"]["minus"][1]))
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[0x207B] = "uni207B"
            table.cmap[0x2011] = "hyphen"


def keep_pairs(font):
    table = font["GPOS"].table
    for record in table.FeatureList.FeatureRecord:
        of = record.Feature
        of.LookupListIndex = [n for n in of.LookupListIndex if table.LookupList.Lookup[n].LookupType in (2, 9)]
        of.LookupCount = len(of.LookupListIndex)


def name(font, style):
    table = font["name"]
    notice, licence, where = (table.getDebugName(n) for n in (0, 13, 14))
    table.names = []
    full = f"{FAMILY} {style}".removesuffix(" Regular")
    post = f"{FAMILY.replace(' ', '')}-{style}"
    for n, text in {0: notice, 1: FAMILY, 2: style, 3: post, 4: full, 5: "Version 1.0", 6: post, 13: licence, 14: where}.items():
        table.setName(text, n, 3, 1, 0x409)


def make(source, target, style):
    font = TTFont(source, recalcTimestamp=False)
    add_signs(font)
    keep_pairs(font)
    options = Options()
    options.drop_tables += ["STAT", "GDEF"]
    options.layout_features, options.hinting, options.name_IDs = FEATURES, False, ["*"]
    options.legacy_kern = options.notdef_outline = True
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[c for first, last in KEPT for c in range(first, last + 1)])
    subsetter.subset(font)
    name(font, style)
    bold = style == "Bold"
    font["OS/2"].usWeightClass = 700 if bold else 400
    font["head"].macStyle = {"Regular": 0, "Bold": 1, "Italic": 2}[style]
    font["OS/2"].fsSelection = (font["OS/2"].fsSelection & ~0x61) | {"Regular": 0x40, "Bold": 0x20, "Italic": 0x01}[style]
    font.flavor = "woff"
    font.save(target)


for face, (path, style) in FACES.items():
    make(Path(sys.argv[1]) / path, Path(__file__).parent / f"{face}.woff", style)
