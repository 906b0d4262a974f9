"""The frame of every page: head with questions and the file's state, trials, conflict, messages."""

from __future__ import annotations

from markupsafe import Markup

from firstfire.pages.show.all_pages import PAGES
from firstfire.pages.show.page import Page

_HEAD = Markup("""<a class="skip" href="#main">To the answer</a>
<svg width="0" height="0" aria-hidden="true" focusable="false" style="position:absolute"><defs>
<pattern id="r-marginal" width="6" height="6" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)"><path d="M0 0V6" stroke="var(--marginal)"
 stroke-width="1.6"/></pattern>
<pattern id="r-fails" width="3.6" height="3.6" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)"><path d="M0 0V3.6M0 0H3.6" stroke="var(--fails)"
 stroke-width="1.5"/></pattern>
<pattern id="r-dots" width="4" height="4" patternUnits="userSpaceOnUse">
<circle cx="1.5" cy="1.5" r=".8" fill="var(--pencil)"/></pattern></defs></svg>
<header class="head pages-head">
<h1><bdi data-name></bdi></h1>
<nav aria-label="Questions"><ul>{questions}</ul></nav>
<div class="file"><span data-state role="status"></span>
<button type="button" data-do="undo" disabled>Undo</button>
<button type="button" data-do="redo" disabled>Redo</button>
<button type="button" data-do="save" disabled>Save</button></div>
</header>
<div class="messages" role="alert" aria-live="assertive" data-say></div>
<div class="trials" data-trials hidden></div>
<div class="trials" data-laid hidden></div>
<section class="conflict" data-conflict hidden aria-label="Two texts of one file"></section>
<p class="working-on" data-progress hidden></p>
""")
_QUESTION = Markup('<li><a href="{address}"{here}>{question}</a></li>')
_HERE = Markup(' aria-current="page"')


def framed(page: Page) -> Markup:
    """A page with its head."""
    questions = Markup("").join(
        _QUESTION.format(
            address=one.address, question=one.question, here=_HERE if one is page else Markup("")
        )
        for one in PAGES
    )
    return (
        _HEAD.replace("{questions}", questions)
        + Markup('<main id="main">')
        + page.body
        + Markup('</main><a class="thumb" href="/engine#values">Change values</a>')
    )
