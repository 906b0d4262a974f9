"""Sheets and tables to take along: served from memory, by names that were made here."""

from __future__ import annotations

import asyncio
import io
import re
import zipfile
from collections.abc import Mapping
from urllib.parse import quote

from fastapi import FastAPI
from fastapi.responses import PlainTextResponse, Response

from firstfire.pages.show.room import Room

ALL = "all.zip"
_KINDS = {
    "pdf": "application/pdf", "svg": "image/svg+xml", "dxf": "image/vnd.dxf", "stl": "model/stl",
    "csv": "text/csv; charset=utf-8", "toml": "text/plain; charset=utf-8", "zip": "application/zip",
}  # fmt: skip
_NOT_ALL = (
    "Not every chapter is worked out yet. Go back, wait until the last one stands, and ask again; "
    "single sheets can be had already."
)
_NOT_YET = (
    "This sheet isn't drawn yet, or the engine was changed and it is being drawn anew. Go back, "
    "wait until the chapter is no longer grey, and ask again."
)


def setting_files(to: FastAPI, room: Room) -> None:
    """Add the addresses under which they are fetched. The guard stands before them."""

    @to.get("/setup/files/{name}", response_model=None)
    async def _file(name: str) -> Response:
        hub = room.hub
        if hub is None:
            return PlainTextResponse(_NOT_YET, 404)
        files = hub.setting.files
        data = files.get(name)
        if name == ALL:
            if not hub.setting.complete(hub.desk.sheet.key):
                return PlainTextResponse(_NOT_ALL, 404)
            data = await asyncio.to_thread(zipped, dict(files))
        if data is None:
            return PlainTextResponse(_NOT_YET, 404)
        return _sent(f"{hub.desk.path.stem}-{name}", data)

    @to.get("/setup/measured/{place}", response_model=None)
    async def _overlay(place: int) -> Response:
        hub = room.hub
        laid = hub.desk.sheet.laid if hub is not None else ()
        if hub is None or not 0 <= place < len(laid):
            return PlainTextResponse("That is taken away again.", 404)
        name = f"{hub.desk.path.stem}-{laid[place].kind.replace(' ', '-')}.toml"
        return _sent(name, laid[place].text.encode())


def _sent(name: str, data: bytes) -> Response:
    """As a download: it is never shown as a page of ours."""
    plain = re.sub(r"[^A-Za-z0-9._-]+", "-", name)
    how = f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(name, safe='')}"
    kind = _KINDS.get(name.rpartition(".")[2], "application/octet-stream")
    headers = {"content-disposition": how, "cache-control": "no-store"}
    return Response(data, media_type=kind, headers=headers)


def zipped(files: Mapping[str, bytes]) -> bytes:
    """All files in one."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in sorted(files.items()):
            archive.writestr(name, data)
    return stream.getvalue()
