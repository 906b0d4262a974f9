"""Whose part is drawn: the engine, the cylinder, and words that every part's drawing needs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firstfire.catalog import Catalog
from firstfire.drawing.workshop.fitted import bare
from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import CatalogError


@dataclass(frozen=True)
class Asked:
    """An engine and one of its cylinders, counted from 1.

    Attributes
    ----------
    plain
        The engine.
    catalog
        Where its materials have their names.
    number
        Of the cylinder.
    """

    plain: PlainEngine
    catalog: Catalog
    number: int = 1

    @property
    def parts(self) -> CylinderParts:
        """Of that cylinder."""
        return self.plain.cylinders[self.number - 1]

    def alike(self, key: Callable[[CylinderParts], object]) -> int:
        """How many cylinders have the same part as this one, by all that it is made of."""
        own = key(self.parts)
        return sum(key(other) == own for other in self.plain.cylinders)

    def others(self, what: str, pieces: int) -> tuple[str, ...]:
        """A note where the other cylinder's part is another one."""
        if pieces == len(self.plain.cylinders):
            return ()
        other = 2 if self.number == 1 else 1
        return (
            f"For cylinder {self.number}; cylinder {other}'s {what} differs: --cylinder {other}.",
        )

    @staticmethod
    def limited(metres: float, low: float, high: float) -> str:
        """A size with limits of its own, mm.

        Examples
        --------
        >>> Asked.limited(0.034, -0.2, 0.0), Asked.limited(0.066, -0.05, 0.05)
        ('34 (0/−0.2)', '66 ±0.05')
        """
        if low == -high:
            return f"{bare(metres)} ±{high:g}"
        signed = [f"{x:+g}".replace("-", "−") if x else "0" for x in (high, low)]
        return f"{bare(metres)} ({'/'.join(signed)})"


def stuff(asked: Asked, material: str) -> str:
    """A material's name."""
    try:
        name = asked.catalog.row("material", material).name
    except CatalogError:
        name = material
    return name.split(" (")[0]


def within(asked: Asked, material: str) -> str:
    """A material's name as it stands within a sentence.

    Examples
    --------
    >>> from types import SimpleNamespace as Like
    >>> within(Like(catalog=Catalog()), "steel_mild"), within(Like(catalog=Catalog()), "petg")
    ('mild steel', 'PETG')
    """
    name = stuff(asked, material)
    return name if name[1:2].isupper() else name[:1].lower() + name[1:]


def coat(coating: str) -> str:
    """How a part is finished."""
    return "as machined" if coating == "none" else coating.replace("_", " ")


def trial(made: str, section: str) -> tuple[str, ...]:
    """What to do before a part that the file prints is ordered of metal."""
    if made != "printed":
        return ()
    return (
        "These sizes are a print's, as the file makes it. Before you order it of metal try that: "
        f"--set {section}.material=... --set {section}.made=bought, and draw it again.",
    )
