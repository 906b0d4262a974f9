"""What can be ticked to stand beside the present engine, and what can be saved as a new file."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

Ticked = Sequence[tuple[str, bool]]
_BOX = Markup(
    '<li><label><input type="checkbox" data-beside="{what}" data-name="{name}"{on}> {words}</label>'
    "</li>"
)


def choices(trials: Ticked, files: Ticked, stem: str) -> Markup:
    """Boxes for trials and files, and the form that saves one of them.

    Parameters
    ----------
    trials, files
        What each is called, and whether it is ticked.
    stem
        Of the engine file's name.
    """
    boxes = [_box("trial", str(at), words, on) for at, (words, on) in enumerate(trials)]
    boxes += [_box("file", name, name, on) for name, on in files]
    listed = Markup('<ul class="plain boxes">{}</ul>').format(Markup("").join(boxes))
    none = Markup("<p>{}</p>").format(
        "No trial was laid beside it yet, and no other engine file is in its folder."
    )
    options = [("present", "the present engine, as it stands here"), ("steps", "the ticked steps")]
    options += [(str(at), words) for at, (words, _) in enumerate(trials)]
    shown = Markup("").join(
        Markup('<option value="{}">{}</option>').format(value, words) for value, words in options
    )
    return Markup(
        '<fieldset class="boxes"><legend>Beside the present engine, four in all at most</legend>{}'
        "</fieldset>"
        '<p><button type="button" data-do="check beside">Check what is not checked yet</button></p>'
        '<form data-aside class="aside"><label>Save as a new file <select name="of">{}</select>'
        '</label> <label>named <input name="name" value="{}-better" required></label> '
        "<button>Save as new</button></form>"
    ).format(listed if boxes else none, shown, stem)


def _box(what: str, name: str, words: str, on: bool) -> Markup:
    return _BOX.format(what=what, name=name, words=words, on=Markup(" checked") if on else "")
