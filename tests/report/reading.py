"""A page as a tree, and its words as a reader sees them."""

import html5lib

NAMESPACE = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"


def strict(page):
    """The tree of a page; any fault of its HTML is raised."""
    parser = html5lib.HTMLParser(strict=True)
    return parser.parse(page)


def elements(tree, name):
    """Every element of a name, HTML's own."""
    return tree.iter(NAMESPACE + name)


def words(element):
    """All text in an element, its spaces as one reads them."""
    return " ".join("".join(element.itertext()).split(" ")).strip()


def by_id(tree, wanted):
    return next(e for e in tree.iter() if e.get("id") == wanted)


def with_class(tree, name):
    return [e for e in tree.iter() if name in (e.get("class") or "").split()]
