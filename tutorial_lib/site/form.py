"""A viewer's choices: the form that asks for them, and what they mean in the one form of a viewer's bed."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from fractions import Fraction
from itertools import groupby
from typing import Any

from tutorial_lib.adapting.viewer import Asked
from tutorial_lib.design.options import Options, YoursOptions
from tutorial_lib.errors import Fault, InputError, TutorialError
from tutorial_lib.records import dataclass
from tutorial_lib.site.elements import Child, Markup, element, joined
from tutorial_lib.site.wording import say
from tutorial_lib.strength.sections import grade_names
from tutorial_lib.tables import mattresses, species_names
from tutorial_lib.workbook.choices import DESIGN
from tutorial_lib.workbook.controls import Control, look_up

MATTRESS, MEASURED, METRIC, HAVE, PRICE = "mattress", "measured", "build.units", "have", "price "
LONGEST = 400  # characters of one answer


def _others() -> tuple[Control, ...]:
    woods, grades = (tuple((n, n) for n in names) for names in (species_names(), grade_names()))
    return (
        Control(key="heights.underside", label="Floor to underside", kind="length", group="Height"),
        Control(key="load.people", label="People", kind="count", group="Load"),
        Control(key="load.person", label="Each weighs", kind="text", group="Load"),
        Control(key="wood.species", label="Species", kind="choice", choices=woods, group="Wood"),
        Control(key="wood.grade", label="Grade on the stamp", kind="choice", choices=grades, group="Wood"),
        Control(key="saw.kerf", label="Kerf of the blade", kind="length", group="Saw"),
        Control(key="shop.carry", label="Longest board I can carry home", kind="length", group="Shop"),
        Control(key="shop.store_cuts", label="Rough cuts at the store", kind="count", group="Shop"),
    )


OWN = ("mattress.size", "mattress.width", "mattress.length", "height_by", "height")  # asked for in another way
CONTROLS = (*(control for control in DESIGN if control.key not in OWN), *_others())


@dataclass
class Choices:
    """What a viewer chose, as they wrote it; what they left alone is not in it."""

    mattress: str = ""
    have: tuple[str, ...] = ()
    values: dict[str, str] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.mattress or self.have or self.values)

    @classmethod
    def read(cls, data: Mapping[str, Any]) -> Choices:
        """From the form's answers, key by key; empty ones are left out.

        Raises:
            InputError: an answer is no text, or longer than any that means something.
        """
        told = {_whole(str(key)): _whole(value) if isinstance(value, str) else value for key, value in data.items()}
        faults = [Fault(key, f"must be text of at most {LONGEST} characters.") for key, value in told.items()
                  if not isinstance(value, str) or (len(value) > LONGEST and key != HAVE)]  # fmt: skip
        if faults:
            raise InputError(faults)
        values = {key: value.strip() for key, value in told.items() if value.strip()}
        mattress = values.pop(MATTRESS, "")
        mattress = values.pop(MEASURED, "") or mattress
        have = tuple(line.strip() for line in values.pop(HAVE, "").splitlines() if line.strip())
        return cls(mattress, have, values)

    @classmethod
    def of(cls, yours: YoursOptions) -> Choices:
        """From what a viewer's build file says was asked for."""
        values = {}
        for text in yours.changes:
            key, _, value = text.partition("=")
            values[key.strip()] = value.strip()
        return cls(yours.mattress or "", yours.have, values)

    def as_json(self) -> dict[str, str]:
        """As the form's answers."""
        named = self.mattress in dict(_mattress_names())
        told = {MATTRESS if named else MEASURED: self.mattress} if self.mattress else {}
        return told | ({HAVE: "\n".join(self.have)} if self.have else {}) | self.values

    def asked(self, creator: Options) -> Asked:
        """The same as every command takes it."""
        plain = [f"{key}={value}" for key, value in self.values.items() if not key.startswith(PRICE)]
        return Asked(self.mattress or None, (*plain, *self._prices(creator)), self.have)

    def _prices(self, creator: Options) -> Iterator[str]:
        """Stock of a section with the viewer's prices in it."""
        for section, stock in _stock(creator):
            mine = [self.values.get(f"{PRICE}{section} {n}") for n in range(len(stock))]
            if any(mine):
                rows = (_row(row, price) for row, price in zip(stock, mine, strict=True))
                yield f"lumber.{section}.stock=[{', '.join(rows)}]"


def faults(error: TutorialError, chosen: Iterable[str]) -> dict[str, str]:
    """What is wrong, by the control of those chosen that it belongs to; by the empty name what belongs to none."""
    keys, found = (*chosen, HAVE), dict[str, list[str]]()
    for fault in error.faults if isinstance(error, InputError) else (Fault("", str(error)),):
        key = next((key for key in keys if _about(fault.where, key)), "")
        found.setdefault(key, []).append(fault.what if key else str(fault))
    return {key: " ".join(told) for key, told in found.items()}


def _whole(text: str) -> str:
    """The text with a question mark for half a sign, which no file can hold."""
    return text.encode("utf-8", "replace").decode()


def _about(where: str, key: str) -> bool:
    named = where.removeprefix("--")
    return key == named or named.endswith(f" {key}") or (key == MEASURED and named == MATTRESS)


def _stock(creator: Options) -> Iterator[tuple[str, list[dict[str, Any]]]]:
    """What is sold of each section, as the build file states it."""
    for section, lumber in creator.raw().get("lumber", {}).items():
        if lumber.get("stock"):
            yield section, lumber["stock"]


def _row(row: dict[str, Any], price: str | None) -> str:
    """One row of stock as TOML writes it in a line."""
    told = row | ({"price": price} if price else {})
    return "{" + ", ".join(f"{key} = {json.dumps(value)}" for key, value in told.items()) + "}"


def shown_keys(options: Options) -> list[str]:
    """The controls that mean something in this bed."""
    return [control.key for control in CONTROLS if control.when is None or control.when(options)]


def form(creator: Options) -> Markup:
    """The form: the mattress and the boards first, every other choice of the build file folded in groups."""
    return joined(
        _field(MATTRESS, say("mattress"), _select(MATTRESS, _mattress_names())),
        _field(MEASURED, say("measured"), _input(MEASURED, say("measured hint"))),
        _field(HAVE, say("boards"), element("textarea", id=_id(HAVE), name=HAVE, rows="2",
                                            placeholder=say("boards hint"))),
        element(
            "details", element("summary", say("more choices")),
            _field(METRIC, say("metric"), _select(METRIC, (("inches", "in"), ("millimetres", "mm")))),
            [_group(name, [_control(control, creator) for control in controls])
             for name, controls in groupby(sorted(CONTROLS, key=_order), key=lambda control: control.group)],
            _group(say("prices"), _price_fields(creator)),
        ),
    )  # fmt: skip


def _order(control: Control) -> int:
    groups = list(dict.fromkeys(c.group for c in CONTROLS))
    return groups.index(control.group)


def _group(name: str, fields: Iterable[Child]) -> Markup:
    return element("fieldset", element("legend", name), fields)


def _control(control: Control, creator: Options) -> Markup:
    if control.kind == "choice":
        choices = tuple((shown, str(value)) for shown, value in control.choices if value is not None)
        return _field(control.key, control.label, _select(control.key, choices))
    return _field(control.key, control.label, _input(control.key, _creators(creator, control)))


def _creators(creator: Options, control: Control) -> str:
    """What the creator has, shown where nothing is entered."""
    value = look_up(creator, control.key)
    if value is None:
        return control.empty
    if isinstance(value, Fraction):
        from tutorial_lib.measures import exact_length

        return str(exact_length(value, creator.build.units))
    return str(value)


def _price_fields(creator: Options) -> Iterator[Child]:
    for section, stock in _stock(creator):
        for number, row in enumerate(stock):
            key = f"{PRICE}{section} {number}"
            yield _field(key, f"{section}, {row['length']}", _input(key, str(row.get("price", say("no price")))))


def _field(key: str, label: str, control: Markup) -> Markup:
    fault = element("p", class_="fault", id=f"{_id(key)}-fault", hidden=True)
    return element("div", element("label", label, for_=_id(key)), control, fault, class_="field", data_key=key)


def _id(key: str) -> str:
    return "f-" + "".join(char if char.isalnum() else "-" for char in key)


def _input(key: str, empty: str) -> Markup:
    return element("input", type="text", id=_id(key), name=key, placeholder=empty, autocomplete="off", maxlength="400")


def _select(key: str, choices: Iterable[tuple[str, str]]) -> Markup:
    options = [element("option", say("the creator's"), value="")]
    options += [element("option", shown, value=value) for shown, value in choices]
    return element("select", options, id=_id(key), name=key)


def _mattress_names() -> tuple[tuple[str, str], ...]:
    """Every size once, US ones by their bare name."""
    names = dict.fromkeys(m.name if m.region == "US" else f"{m.region} {m.name}" for m in mattresses())
    return tuple((name, name) for name in names)
