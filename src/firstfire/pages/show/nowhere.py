"""What stands at an address where no page is: the pages that there are."""

from __future__ import annotations

from fastapi import Request
from fastapi.responses import HTMLResponse
from markupsafe import Markup

from firstfire.pages.show.all_pages import PAGES

_PAGE = Markup(
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>No such page: firstfire'
    '</title><meta name="viewport" content="width=device-width, initial-scale=1">'
    '<meta name="robots" content="noindex"><link rel="stylesheet" href="/own/pages.css"></head>'
    '<body><main class="nowhere"><h1>There is no page at this address</h1>'
    "<p>These are there:</p><ul>{}</ul></main></body></html>"
)


async def nowhere(_request: Request, _why: Exception) -> HTMLResponse:
    """Answer a request for a page that there isn't; nothing of its address is repeated."""
    links = (
        Markup('<li><a href="{}">{}</a></li>').format(one.address, one.question) for one in PAGES
    )
    return HTMLResponse(_PAGE.format(Markup("").join(links)), 404)
