"""The page *Will it hold*: the cutaway, the ledger, seconds into the run, changes to try."""

from __future__ import annotations

from markupsafe import Markup

from firstfire.pages.show.page import Page

_BODY = Markup("""
<div class="answer" data-slot="sentence"></div>
<div class="desk-grid hold">
<section class="drawing-side" aria-labelledby="drawing-title">
<h2 id="drawing-title">The engine in section</h2>
<div class="for-desk" data-slot="desk"></div>
<div class="for-narrow" data-slot="narrow"></div>
<fieldset class="boxes"><legend>Laid over it, at that event and second</legend>
<label><input type="checkbox" data-over="forces"> forces where it presses most</label>
<label><input type="checkbox" data-over="warm"> lines of one temperature in the walls</label>
</fieldset>
<div data-slot="over"></div>
<div class="ruler">
<p><label for="event">What happens</label> <select id="event" disabled></select></p>
<p class="seconds" id="seconds-row"><label for="seconds">Seconds into the run</label>
<input id="seconds" type="range" min="0" max="1000" step="1" value="0" disabled>
<output id="seconds-words" for="seconds"></output></p>
<div id="lasting" class="lasting" hidden aria-hidden="true"><span>sure</span><span>never</span>
<svg viewBox="0 0 1000 100" preserveAspectRatio="none" focusable="false"><path class="grid"
 d="M0,0H1000M0,50H1000M0,100H1000"/><path class="now" data-now d=""/><path data-curve d=""/></svg>
</div>
<p id="chance" class="quiet"></p>
</div>
</section>
<section class="ledger-side" aria-labelledby="ledger-title">
<h2 id="ledger-title">What gives way then, lowest factor first</h2>
<p class="quiet" id="at"></p>
<div data-slot="ledger"><p>Running it for the first time: where its compiled code has to be made
this takes a minute, once on a machine.</p></div>
</section>
</div>
<section class="hung" aria-labelledby="life-title"><h2 id="life-title">Over its whole life</h2>
<div><p>What is likeliest to end it comes first. A line opens to its reason.</p>
<div data-slot="life"></div></div></section>
<section class="hung" aria-labelledby="moves-title"><h2 id="moves-title">The next move</h2>
<div><p>Each was really tried. <i>Try beside</i> lays it over the present engine; the file stays
as it is until you write it there.</p>
<p class="caution">An estimate and no permission. Before anything is spun, fuelled, sparked or run:
shield, distance, eyes and ears, fuel away and an extinguisher at hand, open air, a stop that cuts
spark and fuel; local codes and licensed practice decide.</p>
<div data-slot="moves" class="moves"></div></div></section>
<section class="hung" aria-labelledby="card-title"><h2 id="card-title">Card</h2>
<div data-slot="card"></div></section>
<section class="hung" aria-labelledby="cautions-title"><h2 id="cautions-title">Cautions</h2>
<div data-slot="cautions"></div></section>
""")

PAGE = Page("/hold", "Will it hold", _BODY)
