"""Records do what the standard library's dataclasses do, made before or after their first object."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from concurrent.futures import ThreadPoolExecutor
from dataclasses import FrozenInstanceError, asdict, field, fields, replace
from pathlib import Path
from typing import Any

import pytest

from tutorial_lib import records


def pair(**chosen: bool) -> tuple[Any, Any]:
    """The same class by the standard library and by ours."""

    def body() -> Any:
        class Board:
            length: int
            name: str = "slat"
            marks: tuple[int, ...] = field(default_factory=tuple)
            seen: int = field(default=0, compare=False, repr=False)
            bare: str = field(default="pine", init=False)
            holes: list[int] = field(default_factory=list, init=False, compare=False)

            def __post_init__(self) -> None:
                self.holes.append(self.length)

        return Board

    return dataclasses.dataclass(**chosen)(body()), records.dataclass(**chosen)(body())


@pytest.mark.parametrize("chosen", [{"frozen": True}, {}, {"frozen": True, "kw_only": True}, {"eq": False}])
def test_like_the_standard_librarys(chosen: dict[str, bool]) -> None:
    told = []
    for cls in pair(**chosen):
        one, same, other = cls(length=3), cls(length=3, seen=4), cls(length=3, marks=(1, 2))
        hashed = [hash(each) == hash(one) for each in (same, other)] if cls.__hash__ else None
        told.append([
            repr(other), one == same, one == other, one == 3, hashed, asdict(other), replace(one, name="leg").holes,
            [each.name for each in fields(one)], cls.__match_args__, cls.__hash__ is object.__hash__,
        ])  # fmt: skip
    assert told[0] == told[1]
    assert (
        told[1][0] == "pair.<locals>.body.<locals>.Board(length=3, name='slat', marks=(1, 2), bare='pine', holes=[3])"
    )


def test_hashes_are_those_of_what_is_compared() -> None:
    """No address in a hash: sets would come in another order with every run."""
    standard, ours = pair(frozen=True)
    assert hash(ours(5, "leg")) == hash(standard(5, "leg"))


def test_a_frozen_one_stays_as_it_is() -> None:
    _, ours = pair(frozen=True)
    one = ours(3)
    with pytest.raises(FrozenInstanceError):
        one.length = 4
    with pytest.raises(FrozenInstanceError):
        del one.length
    assert one.length == 3


@pytest.mark.parametrize("call", [lambda cls: cls(), lambda cls: cls(1, 2, 3, 4, 5), lambda cls: cls(1, long=2)])
def test_a_wrong_call_is_told(call: Any) -> None:
    _, ours = pair(frozen=True)
    with pytest.raises(TypeError, match=r"__init__\(\)"):
        call(ours)


@records.dataclass(frozen=True)
class Wood:
    length: int

    def double(self) -> int:
        return 2 * self.length


@records.dataclass(frozen=True)
class Slat(Wood):
    width: int = 4

    def __repr__(self) -> str:
        return "a slat"


@records.dataclass(frozen=True)
class Leg(Wood):
    depth: int = 2


class Rail(Leg):
    """No record itself."""

    def __init__(self, length: int) -> None:
        super().__init__(length, depth=9)


def test_one_that_follows_from_another() -> None:
    assert (Slat(3), Slat(3).double(), Slat(3, 5) == Slat(3, 5), Slat(3) == Wood(3)) == (Slat(3, 4), 6, True, False)
    assert repr(Slat(3)) == "a slat" and repr(Wood(2)) == "Wood(length=2)"
    assert (Rail(7).depth, Rail(7).double(), Rail(7) == Rail(7)) == (9, 14, True)


def test_pickled_and_copied_in_a_process_that_has_made_none() -> None:
    """A worker unpickles objects of classes that it never called."""

    @records.dataclass(frozen=True)
    class Far:
        length: int

    Far.__qualname__, Far.__module__ = "Far", __name__
    globals()["Far"] = Far
    assert "__dataclass_fields__" not in Far.__dict__
    found = pickle.loads(b"\x80\x04c" + f"{__name__}\nFar\n".encode() + b")\x81}U\x06lengthK\x05sb.")
    assert (found, found == Far(5), replace(found, length=6).length) == (Far(5), True, 6)
    assert copy.copy(found) == pickle.loads(pickle.dumps(found)) == found


def test_made_once_whoever_calls_first() -> None:
    for _ in range(20):
        _, ours = pair(frozen=True)
        with ThreadPoolExecutor(8) as pool:
            assert set(pool.map(ours, [1] * 8)) == {ours(1)}


def test_slots_are_made_at_once() -> None:
    @records.dataclass(frozen=True, slots=True)
    class Thin:
        length: int

    assert "__dataclass_fields__" in Thin.__dict__ and not hasattr(Thin(2), "__dict__") and Thin(2) == Thin(2)


def test_no_module_makes_its_records_at_once() -> None:
    sources = [path for path in Path(records.__file__).parent.rglob("*.py") if path.name != "records.py"]
    late = [str(path) for path in sources if "from dataclasses import dataclass" in path.read_text(encoding="utf-8")]
    assert len(sources) > 200 and not late, f"take dataclass from tutorial_lib.records: {late}"
