"""The page *Engine*: the description as a form, the drawing beside it, the file's text behind."""

from __future__ import annotations

from markupsafe import Markup

from firstfire.pages.show.page import Page

_BODY = Markup("""
<div class="answer" data-slot="sentence"></div>
<div class="desk-grid engine">
<section class="form-side" aria-labelledby="form-title" id="values">
<h2 id="form-title">Its description</h2>
<p>In the order of building. Grey values are defaults with their reason; a value that you set
turns blue. Empty a field to go back to the default.</p>
<p><label for="find">Find a value</label> <input id="find" type="search" autocomplete="off">
<label for="lengths">Lengths in</label> <select id="lengths"><option value="mm">mm</option>
<option value="in">inch</option></select></p>
<div class="form" data-slot="form"><p>Reading the engine ...</p></div>
</section>
<section class="drawing-side" aria-labelledby="drawing-title">
<h2 id="drawing-title">The engine in section</h2>
<div class="for-desk" data-slot="desk"></div>
<div class="for-narrow" data-slot="narrow"></div>
<details class="more"><summary>Along the crank</summary>
<div data-slot="along"></div></details>
<details class="more" id="file"><summary>The text of its file</summary>
<ul class="problems" data-problems></ul>
<p><label for="text">Both are one: what you change here stands in the form, and the other way
round.</label></p>
<textarea id="text" spellcheck="false" autocomplete="off" rows="24"></textarea>
</details>
</section>
</div>
""")

PAGE = Page("/engine", "Engine", _BODY)
