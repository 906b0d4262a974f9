"""The pages in a real browser: they open, answer, undo, and lose nothing."""

import signal
import socket

import pytest
from tests.pages.served import Served, Tab, settled_text
from tests.pages.test_accessible import grave


def test_our_typeface_and_colours_are_used(browser, lasting):
    with Tab(browser, lasting, color_scheme="dark") as tab:
        tab.ready()
        assert tab.page.evaluate("document.fonts.check('16px firstfire')")
        look = "getComputedStyle(document.body)"
        assert tab.page.evaluate(f"{look}.backgroundColor") == "rgb(21, 25, 27)"
        assert tab.page.evaluate(f"{look}.fontFamily").startswith("firstfire")
        corners = "[...document.querySelectorAll('button,input,select,textarea')]"
        assert tab.page.evaluate(f"{corners}.every(e => getComputedStyle(e).borderRadius == '0px')")


def bore(tab):
    return "document.querySelector('[data-slot=desk] .ff-measure[data-path=\"cylinder.bore\"]')"


def test_a_number_changes_drawing_text_and_state_and_undo_takes_it_back(browser, lasting):
    with Tab(browser, lasting) as tab:
        tab.ready()
        tab.type("cylinder.bore", "41,5")
        tab.until(f"{bore(tab)}.dataset.value == '0.0415'")
        tab.state("changed")
        assert 'bore = "41.5 mm"' in tab.page.locator("#text").input_value()
        tab.page.locator('[data-do="undo"]').click()
        tab.until(f"{bore(tab)}.dataset.value == '0.04'")
        tab.state("saved")
        tab.until("document.querySelector('.entry [data-path=\"cylinder.bore\"]').value == '40 mm'")
        assert tab.said == []


def test_what_is_wrong_stands_at_its_field_in_words(browser, lasting):
    with Tab(browser, lasting) as tab:
        tab.ready()
        tab.type("cylinder.bore", "4000 mm")
        wrong = tab.page.locator('[data-row="cylinder.bore"] .wrong')
        wrong.wait_for()
        assert "from 10 mm to 120 mm" in wrong.inner_text()
        assert tab.field("cylinder.bore").get_attribute("aria-invalid") == "true"
        tab.page.locator('[data-do="undo"]').click()
        wrong.wait_for(state="hidden")
        tab.state("saved")
        assert tab.field("cylinder.bore").input_value() == "40 mm"


def test_the_text_is_the_same_document(browser, lasting):
    with Tab(browser, lasting) as tab:
        tab.ready()
        tab.page.locator("#file > summary").click()
        area = tab.page.locator("#text")
        area.fill(area.input_value().replace('stroke = "36 mm"', 'stroke = "35 mm"  # <b>mine</b>'))
        tab.until(
            "document.querySelector('.entry [data-path=\"cylinder.stroke\"]').value == '35 mm'"
        )
        assert tab.page.locator("main b:text('mine')").count() == 0
        tab.page.locator('[data-do="undo"]').click()
        tab.state("saved")


def test_two_tabs_show_one_engine(browser, lasting):
    with Tab(browser, lasting) as one, Tab(browser, lasting) as other:
        one.ready()
        other.ready()
        one.type("cylinder.bore", "41 mm")
        other.until(
            "document.querySelector('.entry [data-path=\"cylinder.bore\"]').value == '41 mm'"
        )
        other.type("cylinder.stroke", "35 mm")
        one.until(
            "document.querySelector('.entry [data-path=\"cylinder.stroke\"]').value == '35 mm'"
        )
        one.page.locator('[data-do="undo"]').click()
        one.page.locator('[data-do="undo"]').click()
        other.state("saved")


def test_an_address_without_a_page_names_those_there_are(browser, lasting):
    with Tab(browser, lasting) as tab:
        found = tab.page.goto(lasting.base + "/no%3Cb%3Esuch")
        assert found.status == 404
        assert "<b>" not in found.text()
        links = "[...document.querySelectorAll('main a')].map(a => a.getAttribute('href'))"
        assert tab.page.evaluate(links) == ["/engine", "/hold", "/run", "/setup", "/compare"]
        assert tab.page.evaluate("document.fonts.check('16px firstfire')")
        tab.page.locator("main a", has_text="Will it hold").click()
        tab.page.wait_for_url("**/hold")


def test_nothing_can_be_moved_before_the_page_knows_what_happens(browser, lasting):
    with Tab(browser, lasting, "/hold") as tab:
        early = """() => {
          const set = (event) => Object.assign(document.querySelector("#event"), {value: event});
          return [set("full_throttle@0").disabled, document.querySelector("#seconds").disabled];
        }"""
        tab.page.add_init_script(f"addEventListener('DOMContentLoaded', () => early = ({early})())")
        tab.page.reload()
        tab.ready()
        assert tab.page.evaluate("early") == [True, True]
        tab.until("!document.querySelector('#seconds').disabled")


def test_a_speed_chosen_elsewhere_stands_in_the_list(browser, lasting):
    with Tab(browser, lasting, "/hold") as tab:
        tab.ready()
        tab.until("!document.querySelector('#event').disabled")
        was = tab.page.locator("#event").input_value()
        tab.page.evaluate("ff.send('at', {event: 'full_throttle@2750rpm', seconds: null})")
        tab.until("ff.at.event === 'full_throttle@2750rpm'")
        tab.page.reload()
        tab.ready()
        tab.until("document.querySelector('#event').value === 'full_throttle@2750rpm'")
        assert tab.page.locator("#seconds-row").is_visible()
        tab.page.locator("#event").select_option(was)
        tab.until(f"ff.at.event === {was!r}")


def test_seconds_move_what_holds(browser, lasting):
    with Tab(browser, lasting, "/hold") as tab:
        tab.ready()
        crown = "document.querySelector('[data-way=\"piston.crown.break\"] .factor b')?.textContent"
        before = tab.page.evaluate(crown)
        tab.page.locator("#seconds").fill("900")
        tab.until(f"{crown} != {before!r}")
        assert "min" in tab.page.locator("#seconds-words").inner_text()
        assert "into it" in tab.page.locator("#at").inner_text()


def test_a_part_of_the_drawing_and_its_line_find_each_other_by_keyboard(browser, lasting):
    with Tab(browser, lasting, "/hold") as tab:
        tab.ready()
        part = tab.page.locator("[data-slot=desk] .ff-part[data-part=rod-1]")
        part.focus()
        assert tab.page.locator("ol.ledger li.lit").count() > 0
        tab.page.keyboard.press("Enter")
        line = "document.activeElement.closest('li')?.dataset.part"
        assert tab.page.evaluate(line) == "rod-1"
        tab.page.keyboard.press("Enter")
        assert tab.page.evaluate("document.activeElement.dataset.part") == "rod-1"


def test_an_engine_is_set_saved_and_taken_back_by_keyboard_alone(browser, folder):
    with Served(folder, "wren.toml") as served, Tab(browser, served) as tab:
        tab.ready()
        for _ in range(60):
            tab.page.keyboard.press("Tab")
            if tab.page.evaluate("document.activeElement.dataset.path") == "cylinder.bore":
                break
        tab.page.keyboard.press("Control+A")
        tab.page.keyboard.type("42 mm")
        tab.state("changed")
        tab.page.keyboard.press("Control+S")
        tab.state("saved")
        assert 'bore = "42 mm"' in settled_text(folder / "wren.toml", "42 mm")


def test_killed_and_started_again_nothing_is_lost(browser, folder):
    served = Served(folder, "wren.toml")
    with Tab(browser, served) as tab:
        tab.ready()
        tab.type("cylinder.bore", "43 mm")
        tab.state("changed")
    served.end(signal.SIGKILL)
    assert 'bore = "40 mm"' in (folder / "wren.toml").read_text()
    with Served(folder, "wren.toml") as again, Tab(browser, again) as tab:
        tab.ready()
        assert tab.field("cylinder.bore").input_value() == "43 mm"
        assert "is here again" in tab.page.locator("[data-say]").inner_text()
        tab.page.locator('[data-do="undo"]').click()
        tab.state("saved")


def test_an_editor_beside_it_is_a_conflict_with_both_sides(browser, folder):
    file = folder / "wren.toml"
    with Served(folder, "wren.toml") as served, Tab(browser, served) as tab:
        tab.ready()
        tab.type("cylinder.bore", "43 mm")
        tab.state("changed")
        theirs = file.read_text() + "\n# <img src=x onerror=alert(1)>\n"
        file.write_text(theirs)
        tab.state("in conflict")
        assert "onerror" in tab.page.locator("[data-conflict]").inner_text()
        assert tab.page.locator("[data-conflict] img").count() == 0
        tab.page.keyboard.press("Control+S")
        tab.page.locator("[data-say]:has-text('nothing was written')").wait_for()
        assert file.read_text() == theirs
        tab.page.locator('[data-do="keep_mine"]').click()
        tab.state("changed")
        tab.page.locator('[data-do="save"]').click()
        tab.state("saved")
        assert "43 mm" in file.read_text()


def test_a_reload_in_the_middle_of_work_shows_all_of_it_again(browser, folder):
    with Served(folder, "wren.toml") as served, Tab(browser, served) as tab:
        tab.ready()
        tab.type("cylinder.bore", "43 mm")
        tab.page.reload()
        tab.ready()
        tab.state("changed")
        tab.until("document.querySelector('.entry [data-path=\"cylinder.bore\"]').value == '43 mm'")


def test_the_first_page_begins_an_engine_from_a_few_answers(browser, folder):
    with Served(folder) as served, Tab(browser, served, "/") as tab:
        tab.page.locator("[data-new] button").wait_for()
        assert tab.page.locator('[data-begin="open"]').inner_text() == "wren.toml"
        tab.page.locator('[name="name"]').fill("../<b>first</b>")
        tab.page.locator('[name="cylinder.bore"]').fill("38")
        tab.page.locator("[data-new] button").click()
        tab.page.wait_for_url("**/engine")
        tab.ready()
        tab.state("not saved yet")
        assert tab.page.locator("[data-name] b").count() == 0
        tab.page.locator('[data-do="save"]').click()
        tab.state("saved")
        assert (folder / "b-first-b.toml").exists()


def test_a_dropped_file_is_checked_by_its_content(browser, folder):
    with Served(folder) as served, Tab(browser, served, "/") as tab:
        chosen = tab.page.locator("#file")
        chosen.set_input_files([{"name": "../../evil.toml", "mimeType": "x", "buffer": b"\0\1"}])
        tab.page.locator("[data-say]:has-text('no engine file')").wait_for()
        chosen.set_input_files([{"name": "x.toml", "mimeType": "x", "buffer": b"a" * 600_000}])
        tab.page.locator("[data-say]:has-text('0.6 MB')").wait_for()
        text = (folder / "wren.toml").read_bytes()
        chosen.set_input_files([{"name": "../../wren.toml", "mimeType": "x", "buffer": text}])
        tab.page.wait_for_url("**/engine")
        tab.ready()
        tab.page.locator('[data-do="save"]').click()
        tab.state("saved")
    assert sorted(path.name for path in folder.glob("*.toml")) == ["wren-2.toml", "wren.toml"]


def test_a_broken_file_opens_and_says_what_is_wrong(browser, folder):
    (folder / "broken.toml").write_text('[cylinder]\nbore = "wide"\nstroke = \n')
    with Served(folder, "broken.toml") as served, Tab(browser, served) as tab:
        tab.page.locator("[data-problems] li").first.wait_for(state="attached")
        assert "Line 3" in tab.page.locator("[data-problems]").text_content()


def raw(served, head, path="/engine"):
    """What the server answers to a request as it is written."""
    with socket.create_connection(("127.0.0.1", served.port), timeout=10) as line:
        words = "".join(
            f"{name}: {value}\r\n" for name, value in ({"Connection": "close"} | head).items()
        )
        line.sendall(f"GET {path} HTTP/1.1\r\n{words}\r\n".encode())
        answer = b""
        while piece := line.recv(65536):
            answer += piece
            if b"\r\n\r\n" in answer and b"101 Switching" in answer:
                break
    return answer


def test_the_server_itself_refuses_whom_the_guard_refuses(lasting):
    host = f"127.0.0.1:{lasting.port}"
    cookie = f"firstfire-{lasting.port}={lasting.token}"
    own = {"Host": host, "Cookie": cookie}
    socket_head = {
        "Upgrade": "websocket", "Sec-WebSocket-Key": "dGhlIHNhbXBsZSBub25jZQ==",
        "Sec-WebSocket-Version": "13", "Connection": "Upgrade",
    }  # fmt: skip
    line = "/_nicegui_ws/socket.io/?EIO=4&transport=websocket"
    assert b" 200 " in raw(lasting, own).splitlines()[0]
    assert b" 421 " in raw(lasting, own | {"Host": "evil.example"}).splitlines()[0]
    assert b" 403 " in raw(lasting, {"Host": host}).splitlines()[0]
    assert b" 403 " in raw(lasting, own | {"Origin": "http://evil.example"}).splitlines()[0]
    assert b" 400 " in raw(lasting, own, "/own/../../etc/passwd").splitlines()[0]
    for head in (
        own | {"Origin": "http://evil.example"},
        own,
        {"Host": host, "Origin": f"http://{host}"},
        own | {"Host": "evil.example", "Origin": "http://evil.example"},
    ):
        assert b" 403 " in raw(lasting, head | socket_head, line).splitlines()[0]
    fine = own | {"Origin": f"http://{host}"}
    assert b" 101 " in raw(lasting, fine | socket_head, line).splitlines()[0]


def test_only_its_one_address_answers(lasting):
    """What listens on all addresses answers on any of 127.0.0.0/8 too (RFC 1122, 3.2.1.3)."""
    for address, answers in (("127.0.0.1", True), ("127.0.0.2", False)):
        with socket.socket() as line:
            line.settimeout(2)
            assert (line.connect_ex((address, lasting.port)) == 0) is answers


@pytest.mark.slow
def test_from_a_verdict_to_a_fix_that_is_written(browser, folder):
    """The newcomer's path: what gives way, a change tried beside, then written and saved."""
    long = 600_000
    with (
        Served(folder, "wren.toml") as served,
        Tab(browser, served, "/hold", reduced_motion="reduce") as tab,
    ):
        tab.ready(whole=True)
        tab.page.locator('[data-try="0"]').wait_for(timeout=long)
        assert "firstfire" not in tab.page.locator("[data-slot=sentence]").inner_text()
        tab.until("document.querySelector('ol.ledger .word')", long)
        first = tab.page.locator("[data-slot=life] summary").first
        first.focus()
        tab.page.keyboard.press("Enter")
        tab.page.locator("[data-slot=life] .working").first.wait_for()
        words = tab.page.locator("[data-slot=moves] li").first.inner_text()
        tab.page.locator('[data-try="0"]').click()
        shown = tab.page.locator("[data-trials] [aria-pressed=true]")
        tab.until(
            "document.querySelector('[data-trials] [aria-pressed=true]')?.dataset.show === '0'"
        )
        assert shown.inner_text() in words
        tab.page.locator("ol.ledger .was").first.wait_for()
        before = (folder / "wren.toml").read_text()
        tab.page.locator('[data-take="0"]').click()
        tab.state("changed")
        assert (folder / "wren.toml").read_text() == before
        tab.page.locator('[data-do="save"]').click()
        tab.state("saved")
        assert (folder / "wren.toml").read_text() != before
        assert tab.said == []
        tab.page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        tab.page.locator("[data-slot=life] .working").nth(5).wait_for()
        assert grave(tab) == []
