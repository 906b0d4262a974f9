"""*Will it run* behind the hub: what is asked for it, what it is told, what a change drops."""

import pytest
from tests.pages.awaited import awaited
from tests.pages.served import ROOT
from tests.pages.stood_in import Answers, Heard

from firstfire.pages.answers.messages import StartAsked, Told
from firstfire.pages.desk.desk import Desk
from firstfire.pages.show.hub import Hub
from firstfire.pages.show.run_page import PAGE
from firstfire.pages.show.tab import Tab

WREN = (ROOT / "engines" / "wren.toml").read_text()
BORE = {"do": "set", "path": "cylinder.bore", "said": "41"}
START = {"do": "start", "said": {"spark": "8", "fault.spark_late": "5 deg"}}


class StartAnswers(Answers):
    """Stands where the process that tells a start does."""

    def __init__(self):
        super().__init__()
        self.dropped, self.hurried = 0, 0

    def drop(self):
        self.dropped += 1

    def hurry(self):
        self.hurried += 1


@pytest.fixture
def hub(tmp_path):
    file = tmp_path / "wren.toml"
    file.write_text(WREN)
    made = Hub(Desk(file, journal=tmp_path / "journal"))
    made.office, made.running.office = Answers(), StartAnswers()
    yield made
    made.desk.close()


def doing(hub, *done, page=PAGE.address):
    heard, other = Heard(), Heard()

    async def go():
        hub.tabs["a"], hub.tabs["b"] = Tab(heard.append, page=page), Tab(other.append, page="/hold")
        await hub.ask()
        for number, what in enumerate(done, start=1):
            if isinstance(what, Told):
                hub.running._start_heard(what)
            else:
                await hub.done("a", {"n": number, **what})

    awaited(go())
    return heard, other


def told(hub, kind, **data):
    return Told(1, hub.desk.sheet.key, kind, data)


def test_a_cycle_is_asked_for_only_where_somebody_looks_at_it(hub):
    doing(hub)
    assert hub.office.asked[-1].also == ("cycle",)
    doing(hub, page="/engine")
    assert hub.office.asked[-1].also == ()


def test_a_sound_is_asked_for_once(hub):
    doing(hub, {"do": "sound"}, BORE)
    assert [asked.also for asked in hub.office.asked] == [
        ("cycle",), ("cycle", "sound"), ("cycle",),
    ]  # fmt: skip


def test_a_cycle_goes_to_its_own_page_alone_and_to_one_that_opens_later(hub):
    heard, other = doing(hub)
    hub._heard(
        Told(
            1,
            hub.desk.sheet.key,
            "cycle",
            {"html": "curves", "runs": "it gives", "motion": {"rpm": 1}},
        )
    )
    assert heard.last("motion") == {"rpm": 1}
    assert other.last("motion") is None
    late = Heard()
    assert not hub.running.came(Tab(late.append, page=PAGE.address))
    assert late.last("motion") == {"rpm": 1}
    assert hub.shown.all_of_it()["put"]["cycle"] == "curves"


def test_a_start_is_asked_of_the_engine_on_the_desk(hub):
    doing(hub, BORE, START)
    (asked,) = hub.running.office.asked
    assert isinstance(asked, StartAsked)
    assert 'bore = "41 mm"' in asked.of.text
    assert asked.said == START["said"]
    assert asked.key == hub.desk.sheet.key


def test_a_tab_that_opens_gets_the_start_that_is_told(hub):
    doing(hub, told(hub, "start", html="told", story={"time": [0, 1]}))
    late = Heard()

    async def go():
        await hub.came("late", Tab(late.append, narrow=True, page=PAGE.address))
        hub._watching.cancel()

    awaited(go())
    assert late.last("put")["start"] == "told"
    assert late.last("story") == {"time": [0, 1]}


def test_the_sound_of_a_start_goes_out_only_when_it_is_asked_for(hub):
    sound = {"samples": "AAAA", "rate": 22050.0, "from": 0.0, "words": "Computed"}
    heard, other = doing(hub, told(hub, "start", html="told", story={}, sound=sound))
    assert heard.last("start_sound") is None
    heard, other = doing(hub, {"do": "start sound"})
    assert heard.last("start_sound") == sound
    assert other.last("start_sound") is None


def test_where_no_start_is_told_there_is_no_sound_of_one(hub):
    heard, _ = doing(hub, {"do": "start sound"})
    assert heard.last("start_sound") is None


def test_its_progress_is_shown_and_its_answer_ends_it(hub):
    way = {"what": "odds", "share": 0.5, "left": 20.0}
    heard, other = doing(hub, START, told(hub, "progress", **way))
    assert heard.last("start")["progress"] == way | {"ending": False}
    assert other.last("start") is None
    heard, _ = doing(hub, told(hub, "start", html="told", story={"time": [0, 1]}))
    assert heard.last("start")["progress"] is None
    assert heard.last("put") == {"start": "told"}
    assert hub.running.office.dropped > 0


def test_stop_has_it_end_with_what_it_has(hub):
    heard, _ = doing(hub, START, {"do": "end start"})
    assert hub.running.office.hurried == 1
    assert heard.last("start")["progress"]["ending"]
    doing(hub, told(hub, "start", html="x", story={}), {"do": "end start"})
    assert hub.running.office.hurried == 1  # none is under way


def test_a_change_drops_a_start_under_way_and_marks_one_that_is_told(hub):
    heard, _ = doing(hub, START, told(hub, "start", html="told", story={}), START)
    before = hub.running.office.dropped
    heard, _ = doing(hub, BORE)
    assert hub.running.office.dropped > before
    assert heard.last("start")["progress"] is None
    assert "start" in heard.last("old")
    heard, _ = doing(hub, {"do": "undo"})
    assert "start" not in heard.last("old")


def test_what_a_start_of_the_engine_before_says_is_not_heard(hub):
    late = told(hub, "start", html="old", story={})
    heard, _ = doing(hub, START, BORE, late)
    assert heard.last("put") is None
    assert "start" not in hub.shown.slots


def test_what_is_wrong_is_told_at_its_fields_and_gone_with_the_next_start(hub):
    wrong = [{"field": "spark", "words": "Is soon."}]
    heard, _ = doing(hub, START, told(hub, "failed", words="No.", problems=wrong))
    assert heard.last("start") == {"progress": None, "problems": wrong}
    assert heard.last("say") == "No."
    heard, _ = doing(hub, START)
    assert heard.last("start")["problems"] == []


@pytest.mark.parametrize(
    "said", [None, "x", 3, {"spark": {"a": 1}}, {str(n): "x" * 9999 for n in range(500)}]
)
def test_no_start_asks_for_more_than_a_page_has(hub, said):
    doing(hub, {"do": "start", "said": said})
    (asked,) = hub.running.office.asked
    assert len(asked.said) <= 60
    assert all(isinstance(words, str) and len(words) <= 80 for words in asked.said.values())
