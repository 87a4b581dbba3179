"""A viewer's choices: the form that asks for them, and what they mean in the one form of a viewer's bed."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from functools import cache
from itertools import groupby
from typing import Any

from tutorial_lib.adapting.viewer import Asked
from tutorial_lib.design.options import Options, YoursOptions
from tutorial_lib.design.sizes import mattress_size
from tutorial_lib.design.values import read_money
from tutorial_lib.errors import Fault, InputError, TutorialError
from tutorial_lib.measures import Units, money, writer
from tutorial_lib.records import dataclass
from tutorial_lib.site.elements import Child, Markup, element, joined
from tutorial_lib.site.wording import say
from tutorial_lib.strength.sections import grade_names
from tutorial_lib.tables import family_of, mattress, mattresses, species_names
from tutorial_lib.workbook import values
from tutorial_lib.workbook.choices import DESIGN
from tutorial_lib.workbook.controls import Control, look_up

MATTRESS, MEASURED, METRIC, HAVE, PRICE = "mattress", "measured", "build.units", "have", "price "
SHOP = "Shop"  # the group that the prices stand below
UNITS: tuple[tuple[str, Units], ...] = (("inches", "in"), ("millimetres", "mm"))
LONGEST = 400  # characters of one answer


def _others() -> tuple[Control, ...]:
    woods, grades = (tuple((n, n) for n in names) for names in (species_names(), grade_names()))
    return (
        Control(key="load.people", label="People", kind="count", group="Load"),
        Control(key="load.person", label="Each weighs", kind="weight", group="Load"),
        Control(key="saw.kerf", label="Kerf of the blade", kind="length", group="Saw"),
        Control(key="shop.carry", label="Longest board I can carry home", kind="length", group=SHOP,
                empty="any length"),
        Control(key="shop.store_cuts", label="Rough cuts at the store", kind="count", group=SHOP),
        Control(key="wood.species", label="Species", kind="choice", choices=woods, group="Wood"),
        Control(key="wood.grade", label="Grade on the stamp", kind="choice", choices=grades, group="Wood"),
        Control(key="heights.underside", label="Floor to underside", kind="length", group="Height"),
    )  # fmt: skip


OWN = ("mattress.size", "mattress.width", "mattress.length", "height_by", "height")  # asked for in another way
VIDEO = ("build.", "names.")  # the creator's alone, but the units, which are asked for above
CONTROLS = (
    *_others(),
    *(control for control in DESIGN if control.key not in OWN and not control.key.startswith(VIDEO)),
)


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
        named = self.mattress in _mattress_names()
        told = {MATTRESS if named else MEASURED: self.mattress} if self.mattress else {}
        return told | ({HAVE: "\n".join(self.have)} if self.have else {}) | self.values

    def asked(self, creator: Options) -> Asked:
        """The same as every command takes it."""
        units: Units = "mm" if self.values.get(METRIC, creator.build.units) == "mm" else "in"
        plain = [f"{key}={_stated(key, value, units)}" for key, value in self.values.items()
                 if not key.startswith(PRICE)]  # fmt: skip
        return Asked(self.mattress or None, (*plain, *self._prices(creator)), self.have)

    def _prices(self, creator: Options) -> Iterator[str]:
        """Stock of a section with the viewer's prices in it.

        Raises:
            InputError: what is no price, by its field.
        """
        prices = {key: values.stated("money", text, "in") for key, text in self.values.items() if key.startswith(PRICE)}
        if found := [fault for key, text in prices.items() for fault in _no_price(key, text)]:
            raise InputError(found)
        for section, stock in _stock(creator):
            mine = [prices.get(f"{PRICE}{section} {n}") for n in range(len(stock))]
            if any(mine):
                rows = (_row(row, price) for row, price in zip(stock, mine, strict=True))
                yield f"lumber.{section}.stock=[{', '.join(rows)}]"


def faults(error: TutorialError, chosen: Iterable[str]) -> dict[str, str]:
    """What is wrong, by the control of those chosen that it belongs to; by the empty name what belongs to none."""
    keys, found = (*chosen, HAVE), dict[str, list[str]]()
    for fault in error.faults if isinstance(error, InputError) else (Fault("", str(error)),):
        where = fault.where.removeprefix("--set ").removeprefix("--")
        key = next((key for about in (_of_this, _of_its_table) for key in keys if about(where, key)), "")
        told = f"{fault.beside[:1].upper()}{fault.beside[1:]}" if key else str(Fault(where, fault.what))
        found.setdefault(key, []).append(told)
    return {key: " ".join(dict.fromkeys(said)) for key, said in found.items()}


def _whole(text: str) -> str:
    """The text with a question mark for half a sign, which no file can hold."""
    return text.encode("utf-8", "replace").decode()


def _no_price(key: str, text: str) -> Iterator[Fault]:
    try:
        read_money(text)
    except ValueError as error:
        yield Fault(key, f"{error}.")


def _of_this(where: str, key: str) -> bool:
    return key == where or where.endswith(f" {key}") or (key == MEASURED and where == MATTRESS)


def _of_its_table(where: str, key: str) -> bool:
    """Where a whole table is at fault, or the size that was measured."""
    return key.startswith(f"{where}.") or (key == MEASURED and where.startswith(f"{MATTRESS}."))


def _stock(creator: Options) -> Iterator[tuple[str, list[dict[str, Any]]]]:
    """What is sold of each section, as the build file states it."""
    for section, lumber in creator.raw().get("lumber", {}).items():
        if lumber.get("stock"):
            yield section, lumber["stock"]


def _row(row: dict[str, Any], price: str | None) -> str:
    """One row of stock as TOML writes it in a line."""
    told = row | ({"price": price} if price else {})
    return "{" + ", ".join(f"{key} = {json.dumps(value)}" for key, value in told.items()) + "}"


def _stated(key: str, text: str, units: Units) -> str:
    """An answer as the build file states it: a bare weight or length gets the plan's unit."""
    kind = next((control.kind for control in CONTROLS if control.key == key), "text")
    return str(values.stated(kind, text, units)) if kind in ("length", "weight") else text


def shown_keys(options: Options) -> list[str]:
    """The controls that mean something in this bed."""
    return [control.key for control in CONTROLS if control.when is None or control.when(options)]


def form(creator: Options) -> Markup:
    """The form: the mattress and the boards first, every other choice of the build file folded, group by group."""
    own_units = creator.build.units
    own = writer(own_units).size(*mattress_size(creator))
    units = next(shown for shown, value in UNITS if value == own_units)
    return joined(
        _field(MATTRESS, say("mattress"), _select(MATTRESS, _creators(own), _mattress_sizes(creator))),
        _field(MEASURED, say("measured"), _input(MEASURED), say(f"such as size {own_units}")),
        _field(HAVE, say("boards"), element("textarea", id=_id(HAVE), name=HAVE, rows="1"),
               say(f"such as boards {own_units}")),
        element(
            "details", element("summary", say("more choices")),
            _field(METRIC, say("metric"), _select(METRIC, _creators(units), UNITS)),
            *_groups(creator),
        ),
    )  # fmt: skip


def _groups(creator: Options) -> Iterator[Markup]:
    """What any viewer may have otherwise comes first: who lies on it, the saw, the shop."""
    for name, controls in groupby(sorted(CONTROLS, key=_order), key=_group_of):
        yield _group(name, [_control(control, creator) for control in controls])
        if name == SHOP:
            yield _group(say("prices"), _price_fields(creator))


def _group_of(control: Control) -> str:
    return control.group


def _order(control: Control) -> int:
    groups = list(dict.fromkeys(map(_group_of, CONTROLS)))
    return groups.index(control.group)


def _group(name: str, fields: Iterable[Child]) -> Markup:
    return element("details", element("summary", name), fields, class_="group")


def _control(control: Control, creator: Options) -> Markup:
    value = look_up(creator, control.key)
    if control.kind == "choice":
        choices = tuple((shown, str(value)) for shown, value in control.choices if value is not None)
        own = next((shown for shown, known in control.choices if known == value), "")
        return _field(control.key, control.label, _select(control.key, _creators(own or str(value or "")), choices))
    own = values.shown(control.kind, value, creator.build.units) or control.empty
    return _field(control.key, control.label, _input(control.key, _creators(own)))


def _creators(own: str) -> str:
    """What the creator has, shown where nothing is chosen."""
    return say("creator has", value=own) if own else say("the creator's")


def _price_fields(creator: Options) -> Iterator[Child]:
    for section, stock in _stock(creator):
        for number, row in enumerate(stock):
            key = f"{PRICE}{section} {number}"
            price = creator.lumber[section].stock[number].price
            own = say("no price") if price is None else _creators(money(price, creator.shop.currency))
            yield _field(key, f"{section}, {row['length']}", _input(key, own))


def _field(key: str, label: str, control: Markup, hint: str = "") -> Markup:
    fault = element("p", class_="fault", id=f"{_id(key)}-fault", hidden=True)
    told = element("label", label, [" ", element("small", hint)] if hint else None, for_=_id(key))
    return element("div", told, control, fault, class_="field", data_key=key)


def _id(key: str) -> str:
    return "f-" + "".join(char if char.isalnum() else "-" for char in key)


def _input(key: str, empty: str = "") -> Markup:
    return element("input", type="text", id=_id(key), name=key, placeholder=empty or None, autocomplete="off",
                   maxlength=str(LONGEST))  # fmt: skip


def _select(key: str, own: str, choices: Iterable[tuple[str, str]]) -> Markup:
    options = [element("option", own, value="")]
    options += [element("option", shown, value=value) for shown, value in choices]
    return element("select", options, id=_id(key), name=key)


@cache
def _mattress_names() -> tuple[str, ...]:
    """Every size once, US ones by their bare name."""
    return tuple(dict.fromkeys(m.name if m.region == "US" else f"{m.region} {m.name}" for m in mattresses()))


def _mattress_sizes(creator: Options) -> Iterator[tuple[str, str]]:
    """Every name with the size it is taken for."""
    family = family_of(*mattress_size(creator), creator.mattress.size)
    for name in _mattress_names():
        chosen = mattress(name, family).chosen
        yield f"{name}, {writer(chosen.units).size(chosen.width, chosen.length)}", name
