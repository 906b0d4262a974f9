"""The page *Setting up*: the degree wheel, what was measured, and every chapter with its sheets."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from firstfire.pages.show.page import Page
from firstfire.pages.show.setting import ADDRESS

_HOLES = ("8", "10", "12")
_SHAFTS = ("8", "10", "12")
_HEIGHTS = ("top", "middle", "bottom")
_WAYS = ("along", "across")

_BODY = Markup("""
<div class="answer" data-slot="sentence"></div>
<p class="caution">Estimates and no permission. Turn it by hand, plug out, fuel away, spark off and
its lead earthed, before anything is spun; shield, distance, eyes and ears, an extinguisher and open
air before fuel, spark or a run; local codes and licensed practice decide.</p>
<div class="desk-grid setup">
<section class="drawing-side" aria-labelledby="wheel-title">
<h2 id="wheel-title">The degree wheel</h2>
<p class="quiet" id="wheel-how">Drag a numbered event round the wheel; or choose it with Tab and
press the arrow keys, a degree each, Page Up and Page Down five. Both turns lie on one spiral, the
first outside. What you turn is a trial beside the present engine; its file stays as it is.</p>
<div class="wheel-place" data-wheel><p class="quiet">Reading the engine ...</p></div>
<p class="unseen" id="wheel-said" role="status"></p>
</section>
<section class="ledger-side" aria-labelledby="turned-title">
<h2 id="turned-title">What it does</h2>
<ol class="turns" data-turns></ol>
<p class="quiet" id="turned-of">Being worked out.</p>
<div data-slot="turned"></div>
</section>
</div>
<section class="hung" aria-labelledby="measured-title"><h2 id="measured-title">What you
measured</h2>
<div><p>A reading is laid over the engine file: every size, sheet and verdict follows, on all pages.
The file stays as it is; what was laid stands above as a chip and is taken away with one click.</p>
<div class="readings-forms">{forms}</div></div></section>
<div data-slot="setting"><p class="quiet">The chapters are being worked out ...</p></div>
""")
_FORM = Markup(
    '<details class="reading"><summary><h3>{title}</h3> <span class="quiet">{what}</span></summary>'
    '<form data-measured="{kind}" novalidate>{inside}<ul class="problems" data-wrong role="alert">'
    '</ul><p><button>Lay it over</button> <span class="quiet" data-done role="status"></span></p>'
    "</form></details>"
)


def _forms() -> Iterator[Markup]:
    yield _FORM.format(
        title="Your printer", what="how far its holes and shafts come out", kind="printer",
        inside=_printer(),
    )  # fmt: skip
    yield _FORM.format(
        title="The bore", what="at three heights, two ways", kind="bore", inside=_bore()
    )
    yield _FORM.format(
        title="A compression gauge", what="what it shows when cranked", kind="gauge",
        inside=_gauge(),
    )  # fmt: skip
    yield _FORM.format(
        title="A test piece", what="broken or twisted at the bench", kind="coupon", inside=_coupon()
    )


def _field(name: str, label: str, value: str = "", more: str = "") -> Markup:
    return Markup(
        '<label><span>{}</span> <input name="{}" value="{}" autocomplete="off" '
        'inputmode="decimal" spellcheck="false"{}></label>'
    ).format(label, name, value, Markup(more))


def _printer() -> Markup:
    rows = Markup("").join(
        Markup('<div class="pair">{}{}</div>').format(
            _field(f"{kind} {n}", f"{words} {n} drawn, mm", drawn),
            _field(f"{kind} {n} read", f"{words} {n} came out, mm"),
        )
        for kind, words, sizes in (("hole", "hole", _HOLES), ("shaft", "shaft or pin", _SHAFTS))
        for n, drawn in enumerate(sizes, 1)
    )
    return Markup(
        "<p>Print the gauge of the chapter of fits, or any of your parts; leave out what you did "
        "not read. Holes of 5 to 20 mm. Three of a kind tell how far it strays, too.</p>{}"
    ).format(rows)


def _bore() -> Markup:
    rows = Markup("").join(
        Markup('<div class="pair">{}</div>').format(
            Markup("").join(
                _field(f"{height} {way}", f"{height}, {way} the crank, mm") for way in _WAYS
            )
        )
        for height in _HEIGHTS
    )
    return Markup(
        "<p>Measure 10 mm below its top, in the middle of the stroke and 10 mm above its bottom, "
        "inside jaws rocked until they read most. Some of the six will do.</p>{}{}"
    ).format(rows, _field("cylinder", "cylinder, where there are two", "1"))


def _gauge() -> Markup:
    return Markup(
        '<p class="caution">Fuel off and drained, plug lead on an earthed spare plug away from the '
        "hole: cranked with its lead open a coil throws sparks beside what the hole blows out. Oil "
        "by drops: a spoonful fills a small chamber and locks it.</p>"
        '<div class="pair">{}{}</div><div class="pair">{}{}</div>'
    ).format(
        _field("shows", "the gauge shows, bar"),
        _field("rpm", "while it is cranked at, rpm"),
        _field("oiled", "with drops of oil on the rings, bar (if tried)"),
        _field("cylinder", "cylinder, where there are two"),
    )


def _coupon() -> Markup:
    return Markup(
        "<p>How each is loaded stands in the chapter of test pieces. A bare number is the scale's "
        "kilograms; N or N·m may be written. Face and hands away from what breaks.</p>"
        '<label><span>test piece</span> <select name="piece" data-slot="coupons">'
        '<option value="">its list is being worked out</option></select></label>'
        '<div class="pair">{}{}{}</div>'
    ).format(
        _field("read 1", "first reading, kg"),
        _field("read 2", "second, kg"),
        _field("read 3", "third, kg"),
    )


PAGE = Page(ADDRESS, "Setting up", _BODY.replace("{forms}", Markup("").join(_forms())))
