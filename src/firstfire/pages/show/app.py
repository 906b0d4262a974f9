"""The web app: each page by its address, every tab joined to the hub."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from typing import Any

from fastapi import FastAPI
from fastapi.responses import RedirectResponse, Response

from firstfire.files import cache_folder

# Where NiceGUI would keep a visitor's settings: it is told before it is imported, and none are.
os.environ.setdefault("NICEGUI_STORAGE_PATH", str(cache_folder() / "pages"))

from nicegui import Client, core, ui
from nicegui import app as library
from nicegui.events import GenericEventArguments

from firstfire.pages.show.all_pages import PAGES
from firstfire.pages.show.assets import FONTS, font, script, style
from firstfire.pages.show.begin import begin_page, begun
from firstfire.pages.show.frame import framed
from firstfire.pages.show.nowhere import nowhere
from firstfire.pages.show.page import Page
from firstfire.pages.show.room import Room
from firstfire.pages.show.setting_files import setting_files
from firstfire.pages.show.tab import Tab

_KEPT = {"cache-control": "private, max-age=3600"}
_FRESH = {"cache-control": "no-cache"}
_HEAD = (
    '<link rel="stylesheet" href="/own/pages.css"><script defer src="/own/pages.js"></script>'
    '<meta name="robots" content="noindex">'
)


def app(room: Room) -> FastAPI:
    """The app over what is worked on in a room. It stands behind the guard, never alone."""
    found = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
    _own_files(found)
    _addresses(room)
    setting_files(found, room)
    library.add_exception_handler(404, nowhere)  # instead of its own page
    ui.run_with(
        found, title="firstfire", dark=None, tailwind=False, show_welcome_message=False,
        language="en-US", binding_refresh_interval=None, favicon=_FAVICON, reconnect_timeout=10.0,
    )  # fmt: skip
    # The guard has looked at who asks already; here the origin is looked at once more.
    core.sio.eio.cors_allowed_origins = list(room.origins)
    return found


_FAVICON = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" '
    'fill="#fbfaf6"/><path d="M8 4V20H24V4M8 10H24M16 15L21 28" fill="none" stroke="#1d2326" '
    'stroke-width="2.5"/></svg>'
)


def _own_files(to: FastAPI) -> None:
    """Style, script and fonts: nothing is read by a name that somebody sends."""

    @to.get("/own/pages.css")
    def _css() -> Response:
        return Response(style(), media_type="text/css", headers=_FRESH)

    @to.get("/own/pages.js")
    def _js() -> Response:
        return Response(script(), media_type="text/javascript", headers=_FRESH)

    for name in FONTS:
        data = font(name)

        def _font(data: bytes = data) -> Response:
            return Response(data, media_type="font/woff2", headers=_KEPT)

        to.get(f"/own/{name}.woff2", response_model=None)(lambda data=data: _font(data))


def _addresses(room: Room) -> None:
    for page in PAGES:
        _address(page, room)

    @ui.page("/", title="firstfire")
    async def _begin(client: Client) -> RedirectResponse | None:
        if room.hub is not None:
            return RedirectResponse(PAGES[0].address)
        _built(begin_page(room), client)

        async def heard(event: GenericEventArguments) -> None:
            said, there = await begun(room, event.args)
            if there:
                client.run_javascript(f"location.assign({json.dumps(there)})")
            else:
                client.run_javascript(f"ff.take({json.dumps({'say': said})})")

        ui.on("ff-begin", heard)
        return None


def _address(page: Page, room: Room) -> None:
    """One page at its address."""

    @ui.page(page.address, title="firstfire")
    async def _page(client: Client) -> RedirectResponse | None:
        hub = room.hub
        if hub is None:
            return RedirectResponse("/")
        _built(framed(page), client)

        def push(message: dict[str, Any]) -> None:
            if client.id in hub.tabs:
                client.run_javascript(f"ff.take({_within_script(message)})")

        async def heard(event: GenericEventArguments) -> None:
            if isinstance(event.args, dict):
                await hub.done(client.id, event.args)

        async def came(event: GenericEventArguments) -> None:
            narrow = bool(isinstance(event.args, dict) and event.args.get("narrow"))
            await hub.came(client.id, Tab(push, narrow=narrow, page=page.address))

        ui.on("ff", heard)
        ui.on("ff-came", came)
        _when_gone(client, lambda: hub.went(client.id))
        return None


def _built(html: str, client: Client) -> None:
    """A page's HTML, made here and escaped where it was filled in."""
    ui.add_head_html(_HEAD)
    client.content.classes(remove="nicegui-content")
    ui.html(str(html), sanitize=False).classes("pages")


def _when_gone(client: Client, done: Callable[[], None]) -> None:
    """Call when the tab is closed for good; a short cut in the line is none."""
    client.on_delete(done)


def _within_script(message: dict[str, Any]) -> str:
    """Data as JavaScript has it."""
    return json.dumps(message, ensure_ascii=True, allow_nan=False)
