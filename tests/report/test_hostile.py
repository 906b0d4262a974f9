"""Names and stories of any kind appear as text and break nothing."""

import json

import pytest
from tests.report.conftest import called
from tests.report.reading import elements, strict, with_class, words

from firstfire.report import report
from firstfire.report.clean import clean

NAMES = {
    "markup": '</title><script>alert(1)</script><img src=x onerror="alert(2)">',
    "template": "{{ 7 * 7 }}{% raw %}",
    "style": "</style><style>*{display:none}</style>",
    "very long": "engine" * 400,
    "right to left": "מנוע \u202eקטן\u2066 abc",
    "emoji": "🔥👩\u200d🔧 wren 🏍️",
    "controls": "a\x00b\x07c\x1b[31md\u2028e\ufffe",
    "blank": " ",
    "ampersand": 'Fish & "Chips" <3',
}


@pytest.mark.parametrize("kind", NAMES)
def test_a_name_is_text(wren, kind):
    name = NAMES[kind]
    page = report(called(wren, name, story=name))
    tree = strict(page)
    heading = next(elements(tree, "h1"))
    assert words(heading) == clean(name).strip()
    scripts = list(elements(tree, "script"))
    assert len([one for one in scripts if one.get("type") != "application/json"]) == 1
    for one in scripts[:-1]:  # how the drawing turns: data, and nothing that a name could end
        assert json.loads("".join(one.itertext()))
    assert len(list(elements(tree, "style"))) == 1
    assert not list(elements(tree, "img"))
    answer = with_class(tree, "answer")[0]
    assert clean(name).strip() in words(answer)
    assert not any(ord(c) < 32 and c not in "\n" for c in page.replace("\r", "\x00"))
    assert "\u202e" not in page
    assert "\u2066" not in page


def test_letters_of_other_scripts_stay():
    assert clean("מנוע קטן 発動機 Motör") == "מנוע קטן 発動機 Motör"


def test_emoji_made_of_several_stay_joined():
    assert clean("👩\u200d🔧") == "👩\u200d🔧"
