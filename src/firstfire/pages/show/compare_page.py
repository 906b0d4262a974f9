"""The page *Compare*: engines side by side, and the steps that would make this one hold."""

from __future__ import annotations

from markupsafe import Markup

from firstfire.pages.show.beside import COMPARE
from firstfire.pages.show.page import Page

_BODY = Markup("""
<div class="answer" data-slot="sentence"></div>
<section class="hung" aria-labelledby="beside-title"><h2 id="beside-title">Side by side</h2>
<div><div data-slot="beside"></div>
<p class="working-on" data-errand hidden></p></div></section>
<section aria-labelledby="compare-title"><h2 id="compare-title">What differs</h2>
<div data-slot="compare"><p>The whole check runs behind; what it finds comes here.</p></div>
</section>
<section class="hung" aria-labelledby="plan-title"><h2 id="plan-title">Make it hold</h2>
<div><p>The least work that makes everything judged hold together. The search takes as long as some
six whole checks; stopped, it keeps the steps that it has found.</p>
<p><button type="button" data-do="plan">Look for the steps</button></p>
<div data-slot="plan"></div>
<p data-lay hidden><button type="button" data-laying>Lay the ticked steps beside</button></p>
</div></section>
""")

PAGE = Page(COMPARE, "Compare", _BODY)
