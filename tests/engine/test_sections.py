"""Sections of the description: declared once, frozen, and each value where it was declared."""

import copy
import pickle

import pytest

from firstfire.engine.fields import Length, Section, said


class Tube(Section):
    """A made-up part."""

    length: Length = said("how long", low="1 mm", high="2 m")
    wall: Length | None = said("how thick", optional=True)

    @property
    def double(self) -> float:
        """Twice as long."""
        return 2 * self.length


class Flanged(Tube):
    """One that inherits, says a thing anew and holds another section."""

    width: Length = said("how wide")
    length: Length = said("how long over its flanges")
    inner: Tube


def flanged() -> Flanged:
    return Flanged(length=1.0, width=2.0, inner=Tube(length=3.0))


def test_values_stand_in_the_order_of_declaration_inherited_ones_first() -> None:
    assert list(Flanged.model_fields) == ["length", "wall", "width", "inner"]
    assert Flanged.model_fields["length"].said.description == "how long over its flanges"
    assert Tube.model_fields["length"].said.description == "how long"
    assert Flanged.model_fields["inner"].section is Tube
    assert Flanged.model_fields["wall"].section is None


def test_what_is_unsaid_or_unknown_is_refused_and_an_optional_one_is_none() -> None:
    assert Tube(length=1.0).wall is None
    with pytest.raises(TypeError, match="Tube has no height; needs length"):
        Tube(height=1.0)
    partly = Tube.model_construct(height=1.0)
    assert partly.wall is None
    for missing in ("length", "height"):
        with pytest.raises(AttributeError):
            getattr(partly, missing)


def test_it_is_frozen_equal_by_value_and_travels() -> None:
    one = flanged()
    with pytest.raises(AttributeError, match="frozen"):
        one.length = 2.0
    with pytest.raises(AttributeError, match="frozen"):
        del one.length
    for other in (flanged(), copy.deepcopy(one), pickle.loads(pickle.dumps(one))):
        assert other == one
        assert hash(other) == hash(one)
    assert one != one.model_copy(update={"inner": Tube(length=4.0)})
    assert Tube(length=1.0) != Flanged.model_construct(length=1.0)


def test_a_copy_changes_what_it_says_and_nothing_else() -> None:
    one = flanged()
    wider = one.model_copy(update={"width": 9.0})
    assert (wider.width, wider.length, wider.double) == (9.0, 1.0, 2.0)
    assert one.width == 2.0
