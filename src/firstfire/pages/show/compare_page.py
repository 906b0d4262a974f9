"""The page *Compare*: the present engine and its trials side by side."""

from __future__ import annotations

from markupsafe import Markup

from firstfire.pages.show.page import Page

_BODY = Markup("""
<div class="answer" data-slot="sentence"></div>
<section aria-labelledby="compare-title"><h2 id="compare-title">The present engine and its
trials</h2>
<div data-slot="compare"><p>The whole check runs behind; what it finds comes here.</p></div>
</section>
""")

PAGE = Page("/compare", "Compare", _BODY)
