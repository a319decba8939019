#!/usr/bin/python3
"""Writes data/font_widths.toml: how far the pen moves for each character of the drawing font.

Usage: font_widths.py > data/font_widths.toml        (needs Debian's fonts-b612 and python3-fonttools)

Run it only when the font changes. The engine measures text with the table, so it needs no font file.
"""
import subprocess

from fontTools.ttLib import TTFont

RANGES = [(0x20, 0x7E), (0xA0, 0xFF), (0x152, 0x153), (0x160, 0x161), (0x178, 0x178), (0x2010, 0x2014), (0x2018, 0x201E),
          (0x2020, 0x2022), (0x2026, 0x2026), (0x2030, 0x2033), (0x20AC, 0x20AC), (0x2190, 0x2195), (0x2212, 0x2212),
          (0x221A, 0x221A), (0x2248, 0x2248), (0x2260, 0x2260), (0x2264, 0x2265), (0x25B6, 0x25B6), (0x25BC, 0x25BC),
          (0x25CF, 0x25CF), (0x2610, 0x2612)]


def face(style: str) -> TTFont:
    pattern = f"B612:style={style}"
    path = subprocess.run(["fc-match", "-f", "%{file}", pattern], capture_output=True, check=True, text=True).stdout
    return TTFont(path)


def main() -> None:
    regular, bold = face("Regular"), face("Bold")
    version = regular["name"].getDebugName(5)
    em = regular["head"].unitsPerEm
    print("# How far the pen moves for each character of B612, in thousandths of the text size. Written by script/font_widths.py.")
    print("# B612 Mono moves by 650 for every character.")
    print(f'default_source = "B612 {version}, table hmtx"\n\nrow = [')
    maps = regular.getBestCmap(), bold.getBestCmap()
    for first, last in RANGES:
        for code in range(first, last + 1):
            if code in maps[0] and code in maps[1]:
                widths = [round(f["hmtx"][m[code]][0] * 1000 / em) for f, m in zip((regular, bold), maps)]
                print(f"  {{ code = {code}, regular = {widths[0]}, bold = {widths[1]} }},")
    print("]\n\n[emit]\nheader = \"engine/draw/text_metrics.hpp\"\nrow = \"GlyphRow\"\ntable = \"kGlyphs\"")
    print('columns = ["code", "regular", "bold", "source"]')


main()
