"""Cut the report's font down to the letters it needs.

    python scripts/subset_font.py REGULAR.otf SEMIBOLD.otf

The sources are the upright regular and semibold of Inter (Debian package fonts-inter), which is
under the SIL Open Font License without a reserved name. Needs fonttools and brotli. Writes
src/firstfire/report/fonts/{regular,semibold}.woff2: tabular figures are made the only figures, so
that columns stand even where a reader's program does not know the feature.
"""

import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

FOLDER = Path(__file__).resolve().parents[1] / "src" / "firstfire" / "report" / "fonts"
LATIN = [*range(0x20, 0x7F), *range(0xA0, 0x100), *range(0x100, 0x180)]
GREEK = [*range(0x391, 0x3A2), *range(0x3A3, 0x3AA), *range(0x3B1, 0x3CA), 0x3D5]
SIGNS = [ord(c) for c in "–—‘’“”„…•†‰‹›′″⁄⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉€−∞≈≠≤≥√∂∑∫∆±×÷·←→↑↓↔\u2009\u202f"]


def tabular(font: TTFont) -> dict[str, str]:
    """Names of the figures' glyphs, and of the even-width ones that stand for them."""
    table = font["GSUB"].table
    wanted = {
        index
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "tnum"
        for index in record.Feature.LookupListIndex
    }
    found: dict[str, str] = {}
    for index in wanted:
        for sub in table.LookupList.Lookup[index].SubTable:
            found |= dict(getattr(getattr(sub, "ExtSubTable", sub), "mapping", {}))
    return found


def cut(source: Path, target: Path) -> None:
    font = TTFont(source)
    even = tabular(font)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap = {
                code: even.get(name, name) if 0x30 <= code <= 0x39 else name
                for code, name in table.cmap.items()
            }
    # One of the ten is a hair narrower in the source.
    figures = [font.getBestCmap()[code] for code in range(0x30, 0x3A)]
    widest = max(font["hmtx"][name][0] for name in figures)
    for name in figures:
        font["hmtx"][name] = (widest, font["hmtx"][name][1])
    options = subset.Options(
        flavor="woff2",
        layout_features=["kern", "mark", "ccmp"],
        hinting=False,
        desubroutinize=False,
    )
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[*LATIN, *GREEK, *SIGNS])
    cutter.subset(font)
    font.flavor = "woff2"
    font.save(target)
    print(f"{target.name}: {target.stat().st_size} bytes")


if __name__ == "__main__":
    for path, name in zip(sys.argv[1:3], ("regular", "semibold"), strict=True):
        cut(Path(path), FOLDER / f"{name}.woff2")
