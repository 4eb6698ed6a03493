#!/usr/bin/env python3
"""Makes noletters.ttf: a font that has a space and a mark of private use, and no
letter. A browser that knows no other font draws with what the pages bring along
or draws boxes. (With no font at all it draws nothing, web fonts included.)

    apt-get install python3-fonttools && /usr/bin/python3 make.py
"""
from pathlib import Path

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
fb=FontBuilder(1000,isTTF=True)
fb.setupGlyphOrder([".notdef","space","box"])
fb.setupCharacterMap({0x20:"space",0xE000:"box"})


def box():
    pen = TTGlyphPen(None)
    pen.moveTo((50, 0))
    for corner in [(50, 700), (950, 700), (950, 0)]:
        pen.lineTo(corner)
    pen.closePath()
    return pen.glyph()


fb.setupGlyf({".notdef":box(),"space":TTGlyphPen(None).glyph(),"box":box()})
fb.setupHorizontalMetrics({".notdef":(1000,50),"space":(1000,0),"box":(1000,50)})
fb.setupHorizontalHeader(ascent=800,descent=-200)
fb.setupNameTable({"familyName":"No Letters","styleName":"Regular"})
fb.setupOS2(sTypoAscender=800,usWinAscent=800,usWinDescent=200); fb.setupPost()
fb.font['head'].created=fb.font['head'].modified=0
fb.font.recalcTimestamp=False
fb.save(Path(__file__).parent / "noletters.ttf")
