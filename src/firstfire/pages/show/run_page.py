"""The page *Will it run*: a cycle in motion with its curves, power by speed, and the start."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from firstfire import catalog
from firstfire.pages.answers.start_asked import ENGINES
from firstfire.pages.show.page import Page
from firstfire.runs.start.faults.all import FAULTS
from firstfire.runs.start.faults.fault import Fault

_FIELDS = (
    ("temperature", "Air and engine", "as its surroundings", "20 °C", "°C where no unit is said"),
    ("stood", "It has stood for", "as the file has it", "12 h", "hours where no unit is said"),
    ("throttle", "Throttle open", "as the file has it", "40 %", "% where no unit is said"),
    ("prime", "Fuel beforehand", "none", "3", "pulses, or a volume as 0.1 ml"),
    ("spark", "Spark before top", "as the file has it", "8", "degrees where no unit is said"),
)
_FIELD = Markup(
    '<p class="field"><label for="start-{name}">{label}</label> <input id="start-{name}" '
    'name="{name}" autocomplete="off" placeholder="{none}" aria-describedby="start-{name}-hint">'
    '<small id="start-{name}-hint">{hint}; for example {like}</small>'
    '<span class="wrong" data-wrong="{name}" role="alert" hidden></span></p>'
)
_FAULT = Markup(
    '<li><input type="checkbox" id="fault-{id}" data-fault="{name}"> '
    '<label for="fault-{id}">{what}</label>{size} <small>{sign}</small>'
    '<span class="wrong" data-wrong="fault.{name}" role="alert" hidden></span></li>'
)
_SIZE = Markup(
    ' <input class="size" data-size="{name}" value="{usual}" autocomplete="off" '
    'aria-label="{what}: {size}, {least} to {most}">'
)


def _fields() -> Iterator[Markup]:
    rows = catalog.load(()).rows("starter")
    options = Markup("").join(
        Markup('<option value="{}">{}</option>').format(row.key, row.name) for row in rows
    )
    yield Markup(
        '<p class="field"><label for="start-starter">Starter</label> <select id="start-starter" '
        'name="starter"><option value="">as the file has it</option>{}</select>'
        '<span class="wrong" data-wrong="starter" role="alert" hidden></span></p>'
    ).format(options)
    for name, label, none, like, hint in _FIELDS:
        yield _FIELD.format(name=name, label=label, none=none, like=like, hint=hint)
    counts = Markup("").join(
        Markup("<option{}>{}</option>").format(Markup(" selected") if n == ENGINES[1] else "", n)
        for n in ENGINES
    )
    yield Markup(
        '<p class="field"><label for="start-engines">Engines drawn for the odds</label> '
        '<select id="start-engines" name="engines">{}</select></p>'
    ).format(counts)


def _fault(fault: Fault) -> Markup:
    size = Markup("")
    if fault.size:
        size = _SIZE.format(
            name=fault.name, usual=fault.usual, what=fault.what, size=fault.size,
            least=fault.least, most=fault.most,
        )  # fmt: skip
    return _FAULT.format(
        id=fault.name.replace("_", "-"), name=fault.name, what=fault.what, size=size,
        sign=fault.sign,
    )  # fmt: skip


_BODY = Markup("""
<svg width="0" height="0" aria-hidden="true" focusable="false" class="defs"><defs>
<pattern id="r-hatch" width="7" height="7" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)"><path d="M0 0V7" stroke="var(--rule)" stroke-width="1.4"/></pattern>
<pattern id="r-burn" width="3.5" height="3.5" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)"><path d="M0 0H3.5V3.5H0Z" fill="var(--burned)"/>
<path d="M0 0V3.5" stroke="var(--ink)" stroke-width=".9"/></pattern>
<pattern id="m-hatch" width="2.6" height="2.6" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)"><path d="M0 0V2.6" stroke="var(--pencil)" stroke-width=".3"/>
</pattern>
<pattern id="m-burn" width="1.6" height="1.6" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)"><path d="M0 0H1.6V1.6H0Z" fill="var(--burned-gas)"/>
<path d="M0 0V1.6" stroke="var(--ink)" stroke-width=".3"/></pattern></defs></svg>
<div class="answer run-answer" data-slot="runs"><p>One cycle at a speed that it holds, then its
start: estimates, computed from your numbers.</p></div>
<div class="run-grid" id="cycle">
<section class="moving" aria-labelledby="moving-title">
<h2 id="moving-title">One cycle in motion</h2>
<p class="what"><label for="run-event">What happens</label> <select id="run-event"></select></p>
<p class="what"><label for="run-speed">or full throttle at</label> <input id="run-speed"
 inputmode="numeric" size="6" autocomplete="off"> rpm</p>
<p class="quiet" id="run-at"></p>
<div class="mechanism" id="mechanism" data-forces></div>
<p class="turn-row"><label for="turn">Crank angle</label>
<input id="turn" type="range" min="-360" max="360" step="1" value="-90">
<output id="turn-words" for="turn"></output></p>
<div class="strokes" role="group" aria-label="Strokes of cylinder 1">
<button type="button" data-turn="-290">takes in</button>
<button type="button" data-turn="-90">compresses</button>
<button type="button" data-turn="15">burns</button>
<button type="button" data-turn="230">lets out</button>
<button type="button" id="play" aria-pressed="false">Run slowly</button></div>
<div id="gas-words" class="gas-words"></div>
<p id="joint-words" class="joint-words"></p>
<p class="forces-row"><input type="checkbox" id="forces" checked aria-describedby="forces-how">
<label for="forces">Arrows of the forces at its joints</label>
<small id="forces-how">To the scale drawn at the left below; mean cycle. Of the piston pin on the
rod, the piston on its wall, the rod on the crankpin, the crank on its bearings.</small></p>
<p class="legend-gas"><span class="gas-chip fresh"></span>fresh
<span class="gas-chip burned"></span>burned
<span class="gas-chip exhaust"></span>leaving or changing</p>
<div class="hear"><h3>How it sounds</h3>
<p><button type="button" id="hear">Compute its exhaust's sound</button>
<button type="button" id="hush" hidden>Quiet</button></p>
<p class="quiet" id="hear-words" role="status">Computed only when asked for, and played here.</p>
</div>
</section>
<section class="curves" aria-labelledby="curves-title">
<h2 id="curves-title">Its curves</h2>
<p class="quiet">Press a curve, or use the arrow keys on it, to turn the crank there. Mean cycle;
how far cycles differ stands at the pressure.</p>
<div data-slot="cycle"><p>Running it for the first time: where its compiled code has to be made
this takes a minute, once on a machine.</p></div>
</section>
</div>
<section class="hung" aria-labelledby="speeds-title"><h2 id="speeds-title">Power and torque against
speed</h2>
<div><p class="quiet">The line is the speed that is run above. Press a curve to run another, or type
it there.</p>
<div data-slot="speeds"><p>The whole check runs behind; its speeds come here.</p></div></div>
</section>
<section aria-labelledby="start-title" id="start">
<h2 id="start-title">Will it start?</h2>
<p>It is started here in numbers, tooth by tooth and spark by spark, and so are engines like it,
drawn from what is uncertain. What you set holds for this start alone; the file stays as it is.</p>
<p class="caution">An estimate and no permission. Before a real one is spun, fuelled or sparked:
plug out and ignition dead while you turn it by hand, shield, eyes and ears, hands and cords clear
of all that turns, fuel away from the spark, an extinguisher at hand, open air, a stop that cuts
spark and fuel. A kick-back breaks wrists. Local codes and licensed practice decide.</p>
<form id="start-form" autocomplete="off">
<div class="fields">{fields}</div>
<details class="more" id="start-faults"><summary>Give it a fault, to see what it looks like
<span class="said" id="faults-said"></span></summary>
<ul class="faults">{faults}</ul></details>
<p><button id="start-go">Start it</button>
<span id="start-progress" class="working-on" hidden><progress max="1"
 aria-label="Share of the start that is told"></progress> <span></span>
<button type="button" id="start-stop">Stop</button></span></p>
</form>
<div class="start-grid">
<div class="story-move" id="story-move" hidden>
<h3>The start in time</h3>
<div class="mechanism" id="story-mechanism"></div>
<div class="story-words">
<p class="turn-row"><label for="story-time">Seconds of its start</label>
<input id="story-time" type="range" min="0" max="1000" step="1" value="0">
<output id="story-at" for="story-time"></output></p>
<p id="story-said"></p>
<p id="story-gas" class="quiet"></p>
<p class="strokes"><button type="button" id="story-play" aria-pressed="false">Run slowly</button>
<button type="button" id="story-hear">Hear it in its own time</button>
<button type="button" id="story-hush" hidden>Quiet</button></p>
<p class="quiet" id="story-heard" role="status"></p>
</div>
</div>
<div class="start-told" data-slot="start"></div>
</div>
</section>
""").format(
    fields=Markup("").join(_fields()), faults=Markup("").join(_fault(fault) for fault in FAULTS)
)

PAGE = Page("/run", "Will it run", _BODY)
