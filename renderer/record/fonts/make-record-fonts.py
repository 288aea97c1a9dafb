"""Makes the fonts of the printed record from @fontsource/barlow (SIL Open Font License 1.1).

A PDF names its letters by the font's own character map, so glyphs that only a feature reaches
(tabular figures, the fi ligature) print well and then copy and search as nothing. These fonts
reach the tabular figures by plain digits and have no features at all. They also carry an ohm
sign, which Barlow lacks; it is drawn here from the weight's own stroke.

Needs fontTools with brotli (Debian: python3-fonttools python3-brotli). Run in this folder:
    /usr/bin/python3 make-record-fonts.py
"""

import math

from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

SOURCE = "../../../node_modules/@fontsource/barlow/files/barlow-latin-{weight}-normal.woff2"
# Stroke of curves in units of 1000 an em, measured on the O of each weight.
WEIGHTS = {400: 71, 500: 96, 600: 116}
DIGITS = "zero one two three four five six seven eight nine".split()
CAP_HEIGHT = 700
OVERSHOOT = 10


def arc(half_width, half_height, middle, start, end, steps=40):
    """Points of a superellipse from one angle to another, degrees, counter-clockwise from east."""
    for step in range(steps + 1):
        angle = math.radians(start + (end - start) * step / steps)
        cos, sin = math.cos(angle), math.sin(angle)
        power = 2 / 2.35
        yield (
            math.copysign(abs(cos) ** power, cos) * half_width,
            middle + math.copysign(abs(sin) ** power, sin) * half_height,
        )


def ohm(stroke):
    foot, gap, reach = stroke * 0.9, 62, 278
    outer_w, top = 262, CAP_HEIGHT + OVERSHOOT
    middle = (top + foot * 1.6) / 2 + 40
    outer_h = top - middle
    outer = list(arc(outer_w, outer_h, middle, -58, 238))
    inner = list(arc(outer_w - stroke, outer_h - stroke * 0.95, middle, 236, -56))
    points = [(gap, 0), (reach, 0), (reach, foot), (outer[0][0] - 4, foot)]
    points += outer
    points += [(-outer[0][0] + 4, foot), (-reach, foot), (-reach, 0), (-gap, 0)]
    points += [(-gap, inner[0][1] - 20)] + inner + [(gap, inner[-1][1] - 20)]
    shift = reach + 44
    pen = TTGlyphPen(None)
    # TrueType fills clockwise contours.
    path = [(round(x + shift), round(y)) for x, y in reversed(points)]
    pen.moveTo(path[0])
    for point in path[1:]:
        pen.lineTo(point)
    pen.closePath()
    return pen.glyph(), 2 * shift


for weight, stroke in WEIGHTS.items():
    font = TTFont(SOURCE.format(weight=weight))
    glyph, advance = ohm(stroke)
    font.setGlyphOrder(font.getGlyphOrder() + ["ohm"])
    font["glyf"]["ohm"] = glyph
    font["hmtx"]["ohm"] = (advance, 44)
    for table in font["cmap"].tables:
        if not table.isUnicode():
            continue
        for at, digit in enumerate(DIGITS):
            table.cmap[0x30 + at] = f"{digit}.tf"
        table.cmap[0x3A9] = table.cmap[0x2126] = "ohm"
    del font["GSUB"]
    for name in font["name"].names:
        if name.nameID in (1, 3, 4, 6, 16):
            name.string = str(name).replace("Barlow", "BarlowRecord")
    font.flavor = "woff2"
    font.save(f"record-{weight}.woff2")
