"""Who may not come in is refused by the guard, before anything else sees the request."""

import pytest
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route, WebSocketRoute
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect
from tests.pages.awaited import awaited

from firstfire.pages.door.guard import Guard
from firstfire.pages.door.requests import Lock

LOCK = Lock("right-token", 8123)
HOST = "127.0.0.1:8123"
ORIGIN = f"http://{HOST}"
COOKIE = f"firstfire-8123={LOCK.token}"


async def echo(request):
    return PlainTextResponse(f"{len(await request.body())} bytes")


async def listen(socket):
    await socket.accept()
    await socket.send_text("heard")
    await socket.close()


@pytest.fixture(scope="module")
def client():
    routes = [Route("/{path:path}", echo, methods=["GET", "POST"]), WebSocketRoute("/ws", listen)]
    inside = Starlette(routes=[routes[1], routes[0]])
    return TestClient(Guard(inside, LOCK, largest=1000), follow_redirects=False)


def got(client, path="/engine", method="GET", content=None, **headers):
    client.cookies.clear()
    named = {"host": HOST, "cookie": COOKIE}
    named |= {key.replace("_", "-"): value for key, value in headers.items()}
    return client.request(
        method, path, content=content, headers={k: v for k, v in named.items() if v is not None}
    )


def test_who_has_the_cookie_comes_in(client):
    assert got(client).text == "0 bytes"
    assert got(client, host="localhost:8123").status_code == 200


def test_the_token_in_the_address_becomes_a_cookie_and_leaves_the_address(client):
    said = got(client, "/engine?token=right-token", cookie=None)
    assert (said.status_code, said.headers["location"]) == (303, "/engine")
    cookie = said.headers["set-cookie"]
    assert COOKIE in cookie
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie


@pytest.mark.parametrize(
    "host", ["evil.example:8123", "evil.example", "127.0.0.1:80", "127.0.0.1", "", HOST + "0"]
)
def test_a_foreign_host_is_refused(client, host):
    assert got(client, host=host).status_code == 421


@pytest.mark.parametrize("cookie", [None, "firstfire-8123=wrong", "firstfire-80=right-token", ";"])
def test_without_the_right_token_nobody_comes_in(client, cookie):
    assert got(client, cookie=cookie).status_code == 403


@pytest.mark.parametrize("token", ["wrong", "", "right-tokeN", "right-token%00", "é"])
def test_a_wrong_token_in_the_address_is_refused(client, token):
    assert got(client, f"/?token={token}", cookie=None).status_code == 403


def test_a_token_in_the_address_of_a_post_is_none(client):
    said = got(client, "/?token=right-token", "POST", cookie=None, origin=ORIGIN)
    assert said.status_code == 403


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://127.0.0.1:80",
                                    "https://127.0.0.1:8123"])  # fmt: skip
def test_another_pages_request_is_refused(client, origin):
    assert got(client, origin=origin).status_code == 403
    assert got(client, method="POST", origin=origin).status_code == 403


def test_a_change_without_an_origin_is_refused(client):
    assert got(client, method="POST").status_code == 403
    assert got(client, method="POST", origin=ORIGIN).status_code == 200


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_what_the_browser_calls_foreign_is_refused(client, site):
    assert got(client, sec_fetch_site=site).status_code == 403
    assert got(client, sec_fetch_site="same-origin").status_code == 200
    assert got(client, sec_fetch_site="none").status_code == 200


@pytest.mark.parametrize(
    "path",
    ["/a/%2e%2e/b", "/%2e%2e%2fetc%2fpasswd", "/a/..%5c..%5cb", "/a%00b", "/%252e%252e/b"],
)
def test_a_path_upwards_is_refused(client, path):
    assert got(client, path).status_code == 400


def test_a_body_that_says_it_is_too_large_is_refused(client):
    said = got(client, method="POST", content=b"x" * 1001, origin=ORIGIN)
    assert said.status_code == 413
    assert got(client, method="POST", content=b"x" * 1000, origin=ORIGIN).text == "1000 bytes"


def test_300_mb_are_refused_before_they_are_sent():
    """By their length alone: nothing of the body is asked for."""
    head = [(b"host", HOST.encode()), (b"cookie", COOKIE.encode()), (b"origin", ORIGIN.encode()),
            (b"content-length", b"300000000")]  # fmt: skip
    scope = {"type": "http", "method": "POST", "path": "/", "query_string": b"", "headers": head}
    said = []

    async def never():
        raise AssertionError("the body was read")

    async def send(message):
        said.append(message)

    awaited(Guard(never, LOCK)(scope, never, send))
    assert said[0]["status"] == 413


def test_a_body_without_a_length_is_counted(client):
    said = got(client, method="POST", content=(b"x" * 100 for _ in range(30)), origin=ORIGIN)
    assert said.status_code == 413


def heard(client, **headers):
    client.cookies.clear()
    named = {"host": HOST, "cookie": COOKIE, "origin": ORIGIN} | headers
    with client.websocket_connect(
        "/ws", headers={k: v for k, v in named.items() if v is not None}
    ) as socket:
        return socket.receive_text()


def test_our_own_websocket_comes_in(client):
    assert heard(client) == "heard"


@pytest.mark.parametrize(
    "headers",
    [{"origin": "http://evil.example"}, {"origin": None}, {"origin": "null"},
     {"host": "evil.example:8123"}, {"cookie": None}, {"cookie": "firstfire-8123=wrong"}],
)  # fmt: skip
def test_a_foreign_websocket_is_refused(client, headers):
    with pytest.raises(WebSocketDisconnect) as why:
        heard(client, **headers)
    assert why.value.code == 1008


def test_every_answer_forbids_what_is_outside(client):
    for said in (got(client), got(client, cookie=None)):
        assert "default-src 'self'" in said.headers["content-security-policy"]
        assert said.headers["referrer-policy"] == "no-referrer"
