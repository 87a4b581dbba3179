"""What the creator chose, typed and strict.

Every field is one key of the build file. Lengths are exact Fraction inches, weights pounds, times hours.
A field left out is None where a later step chooses it; what is stated is checked, never replaced.
"""

from __future__ import annotations

from difflib import get_close_matches
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import (
    Field,
    field_validator,
    model_validator,
)

from tutorial_lib.design.deck_options import (
    HEIGHT_KEYS,
    FrameOptions,
    HeightOptions,
    PlinthOptions,
    SlatOptions,
    StorageOptions,
)
from tutorial_lib.design.fields import Across, Address, Hours, Length, Money, Pounds, Section, Size
from tutorial_lib.design.headboard_options import HeadboardOptions
from tutorial_lib.design.post_options import PostOptions
from tutorial_lib.design.screw_options import ScrewsOptions
from tutorial_lib.design.values import read_gallons

MOST_STORE_CUTS = 50
NAMED = (  # parts, and what else a creator has words for
    "side_rail", "end_rail", "cleat", "runner", "centre_beam", "centre_runner", "beam_block", "slat", "leg",
    "corner_leg", "mid_leg", "centre_leg", "flange", "bolt", "corner", "mattress", "frame", "strap", "runner_end",
    "glue_block", "plinth_side", "plinth_end", "post", "corner_block", "bed_bolt", "barrel_nut", "headboard", "batten",
    "upright", "headboard_slat",
)  # fmt: skip
LegPlace = Literal["under the rail", "under", "inside"]


class BuildOptions(Section):
    """[build] Who shows what, and the plan's units."""

    name: Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]*$")]
    title: str
    channel: str = ""
    episode: str = ""
    address: Address = ""  # of the video; a QR code on the sheet
    units: Literal["in", "mm"] = "in"


class MattressOptions(Section):
    """[mattress] A size by name, or measured; measured sizes win."""

    size: str | None = None
    width: Length | None = None
    length: Length | None = None
    thickness: Length | None = None
    box_spring: Length | None = None  # height of the box spring under it
    split: bool = False  # it, or its box spring, is two halves side by side
    tolerance: Length | None = None
    corner_radius: Length | None = None  # seen from above; asked for where posts stand into the opening
    gap_limit: Length | None = None
    gap_limit_from: str = "the mattress maker's terms"

    @model_validator(mode="after")
    def _enough(self) -> MattressOptions:
        if self.size is None and (self.width is None or self.length is None):
            raise ValueError('give a size by name (size = "twin") or both width and length as measured')
        return self


class ClearanceOptions(Section):
    """[clearance] Room between the mattress and the rails, per side and per end."""

    side: Length | None = None  # left out: see design.sizes.clearance
    end: Length | None = None


class SupportOptions(Section):
    """[support] What carries the slat ends along the sides."""

    kind: Literal["cleats", "runners"] = "cleats"
    lumber: str = "2x2"
    recess: Length | None = None  # cleats: rail top above slat top
    end_play: Length = Fraction(0)  # cleats: shorter than the opening by this much at each end


class CentreOptions(Section):
    """[centre] Lines along the middle under the slats."""

    lines: Annotated[int, Field(ge=0, le=3)] = 0
    kind: Literal["beam", "flat"] = "beam"
    lumber: str = "2x4"
    ends: Literal["leg", "hanger", "block"] = "leg"  # with cleats; on runners the lines end under the end rails
    play: Length = Fraction(1, 32)
    legs: Annotated[int, Field(ge=0, le=12)] = 3
    setback: Length | None = None  # outer end of the bed to the line's first leg; as the side legs when left out
    leg_kind: Literal["post", "doubled", "tube"] | None = None  # of its legs; as the side legs when left out
    leg_lumber: str | None = None


class LegOptions(Section):
    """[legs] Kind, grid and set-backs."""

    kind: Literal["post", "doubled", "corner L", "tube"] = "post"
    lumber: str = "4x4"
    # under the rail's own line, so that rail and cleat, or rail and runner, stand on the leg; under the cleat or
    # runner, beside the rail; or inside the corner, up to the slats. Left out: see Options.leg_place.
    place: LegPlace | None = None
    per_side: Annotated[int, Field(ge=1, le=12)] = 3
    setback: Length | None = None  # outer end of the bed to the corner leg's near edge; as far out as it goes when open
    side_setback: Length | None = None  # outer side face to the leg, across; runners only
    omit: tuple[str, ...] = ()
    glue_blocks: str | None = None  # L legs: lumber of a block glued into the inner corner of each; never counted
    leveller: Length = Fraction(0)
    tube_diameter: Length = Fraction(3, 2)
    flange: Length = Fraction(4)  # flange plate, side of the square or diameter
    flange_thickness: Length = Fraction(1, 8)


class StockOptions(Section):
    """[[lumber.NAME.stock]] One length sold, or boards at hand: an offcut, or a number of them without a price."""

    length: Size
    price: Money | None = None
    available: Annotated[int, Field(ge=0)] | None = None  # with a price: how many the shop has; without: at hand
    offcut: bool = False
    measured: tuple[Size, ...] = ()  # boards of this row already at hand, each as it really is
    thickness: Across | None = None  # of boards at hand, where they are not as the others
    width: Across | None = None

    @property
    def at_hand(self) -> bool:
        """True for boards that need not be bought: offcuts, and without a price those counted or of their own size."""
        own = self.available is not None or self.thickness is not None or self.width is not None
        return self.offcut or (own and self.price is None)


class LumberOptions(Section):
    """[lumber.NAME] Actual size, wood and what the shop sells of one section."""

    thickness: Across | None = None  # from the table of dressed sizes when left out
    width: Across | None = None
    species: str | None = None
    grade: str | None = None
    stock: tuple[StockOptions, ...] = ()


class WoodOptions(Section):
    """[wood] Species, grade and moisture unless a section says otherwise."""

    species: str = "Spruce-Pine-Fir"
    grade: str = "No.2"
    moisture_bought: Annotated[float, Field(ge=4, le=30)] = 15.0
    moisture_room: Annotated[float, Field(ge=4, le=20)] = 8.0


class SawOptions(Section):
    """[saw] What kind it is, kerf and trim, and how to choose among equally cheap plans."""

    kind: Literal["power", "hand"] = "power"  # a hand saw has cautions and steps of its own
    kerf: Length = Fraction(1, 8)
    trim: Length = Fraction(1, 4)  # all that is lost at a board's ends, its squaring cut included
    prefer: tuple[Literal["fewest layouts", "longest offcut"], ...] = ("fewest layouts", "longest offcut")

    @model_validator(mode="after")
    def _thin(self) -> SawOptions:
        if self.kerf > 1:
            raise ValueError("a kerf of more than 1 in is wider than any saw cuts; check its unit")
        return self


class ShopOptions(Section):
    """[shop] Money, the car, the store's saw."""

    currency: Annotated[str, Field(pattern=r"^[a-z]{3}$")] = "usd"
    region: Literal["US", "EU", "UK", "AU"] | None = None  # whose boards and lengths; as the sections say when left out
    carry: Length | None = None  # longest board that fits the car
    spare_boards: Annotated[int, Field(ge=0, le=20)] = 0
    store_cuts: Annotated[int, Field(ge=0, le=MOST_STORE_CUTS)] = 0
    store_tolerance: Length = Fraction(1, 4)


class DriverOptions(Section):
    """[driver] The room a drill or driver needs."""

    length: Length = Fraction(8)
    radius: Length = Fraction(5, 4)


class LoadOptions(Section):
    """[load] Who lies on it."""

    people: Annotated[int, Field(ge=1, le=4)] = 2
    person: Pounds = Fraction(275)
    mattress: Pounds = Fraction(90)
    bedding: Pounds = Fraction(10)
    standing: Pounds = Fraction(315)
    careful: bool = False  # all duration factors 1.0


class CanOptions(Section):
    """[[finish.cans]] One size of can the shop has."""

    size: str  # "1 quart", "750 ml"
    price: Money | None = None

    @model_validator(mode="after")
    def _known(self) -> CanOptions:
        read_gallons(self.size)
        return self

    @property
    def gallons(self) -> Fraction:
        """What it holds [US gal]."""
        return read_gallons(self.size)


BARE = "none"  # the finish of wood that stays raw


class FinishOptions(Section):
    """[finish] What goes on, and how it is sanded."""

    kind: str = "oil"
    name: str = ""  # as the can has it: "golden oak"
    coats: Annotated[int, Field(ge=0, le=10)] = 2
    recoat: Hours | None = None
    grits: tuple[int, ...] = (120, 180)
    seal_hidden: bool = False
    cans: tuple[CanOptions, ...] = ()  # usual sizes without a price when left out

    @property
    def laid(self) -> int:
        """Coats that are laid on: none of no finish."""
        return 0 if self.kind == BARE else self.coats


class PriceOptions(Section):
    """[prices] What is bought by the piece."""

    nut: Money | None = None
    washer: Money | None = None
    bracket: Money | None = None
    flange: Money | None = None
    tube: Money | None = None  # one leg's tube
    disc: Money | None = None  # one sanding disc
    pad: Money | None = None  # one felt pad or glide


class RoomOptions(Section):
    """[room] Door, stairs and helpers."""

    door_width: Length | None = None
    door_height: Length | None = None
    stair_width: Length | None = None  # clear width of the stairs
    landing: Length | None = None  # clear width of the passage they turn into; as the stairs when left out
    stair_headroom: Length | None = None
    helpers: Annotated[int, Field(ge=1, le=8)] = 2
    knock_down: bool = False  # the bed will move house: how it comes apart again is told too


class SaidOptions(Section):
    """[said] What the video says."""

    captions: str | None = None  # its captions, a transcript or a script, from the build file's folder


class YoursOptions(Section):
    """[yours] What a viewer asked for: the build follows from it and from the creator's build under [from]."""

    mattress: str | None = None
    changes: tuple[str, ...] = ()  # "saw.kerf=3 mm"
    have: tuple[str, ...] = ()  # "10 of 2x4, 92 1/2 in"


class Options(Section):
    """A whole build file."""

    build: BuildOptions
    mattress: MattressOptions
    clearance: ClearanceOptions = ClearanceOptions()
    frame: FrameOptions = FrameOptions()
    posts: PostOptions = PostOptions()
    headboard: HeadboardOptions = HeadboardOptions()
    support: SupportOptions = SupportOptions()
    centre: CentreOptions = CentreOptions()
    slats: SlatOptions = SlatOptions()
    legs: LegOptions = LegOptions()
    heights: HeightOptions = HeightOptions()
    storage: StorageOptions = StorageOptions()
    plinth: PlinthOptions = PlinthOptions()
    lumber: dict[str, LumberOptions] = Field(default_factory=dict)
    wood: WoodOptions = WoodOptions()
    saw: SawOptions = SawOptions()
    shop: ShopOptions = ShopOptions()
    screws: ScrewsOptions = ScrewsOptions()
    driver: DriverOptions = DriverOptions()
    load: LoadOptions = LoadOptions()
    finish: FinishOptions = FinishOptions()
    prices: PriceOptions = PriceOptions()
    room: RoomOptions = RoomOptions()
    names: dict[str, tuple[str, ...]] = Field(default_factory=dict)
    said: SaidOptions = SaidOptions()
    yours: YoursOptions = YoursOptions()
    origin: Options | None = Field(default=None, alias="from")  # the creator's build this one was adapted from

    @field_validator("names")
    @classmethod
    def _of_parts(cls, names: dict[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
        for name in names:
            if name not in NAMED:
                near = get_close_matches(name, NAMED, 1)
                raise ValueError(
                    f'"{name}" is no part of a bed.{f" Did you mean {near[0]}?" if near else ""} '
                    f"Parts with names: {', '.join(NAMED)}"
                )
        return names

    @model_validator(mode="after")
    def _some_height(self) -> Options:
        if not self.heights.given and self.storage.height is None:
            known = ", ".join(HEIGHT_KEYS)
            raise ValueError(f"[heights] give exactly one of {known}, or under [storage] the height of the boxes")
        return self

    @property
    def bed(self) -> Options:
        """The bed alone, without where it comes from."""
        return self if self.origin is None else self.model_copy(update={"origin": None})

    @property
    def line_leg_kind(self) -> Literal["post", "doubled", "tube"]:
        """Of a centre line's legs: as stated, or as the side legs; under a line an L is two boards side by side."""
        if self.centre.leg_kind is not None:
            return self.centre.leg_kind
        return "doubled" if self.legs.kind == "corner L" else self.legs.kind

    @property
    def tubes(self) -> bool:
        """True where some legs are steel tubes with flanges."""
        return self.legs.kind == "tube" or (self.centre.lines > 0 and self.line_leg_kind == "tube")

    @property
    def leg_place(self) -> LegPlace:
        """Where the side legs stand: as stated; else where they hold the bed upright best.

        On runners that is under the rail; with cleats inside the corner, screwed to both rails: legs that only stand
        under a rail hold no bed upright whose people sit down. Bolts and a side set-back ask for legs beside the rail.
        """
        if self.legs.place is not None:
            return self.legs.place
        if self.screws.leg.kind == "carriage bolt" or self.legs.side_setback:
            return "under"
        return "under the rail" if self.support.kind == "runners" else "inside"

    def raw(self) -> dict[str, Any]:
        """The options as the build file would state them: plain text, numbers and tables, defaults left out."""
        context = {"units": self.build.units}
        found = self.model_dump(exclude={"origin"}, exclude_defaults=True, exclude_none=True, context=context)
        raw = {name: _lists(value) for name, value in found.items() if value != {}}
        return raw if self.origin is None else raw | {"from": self.origin.raw()}  # in its own units


def _lists(value: Any) -> Any:
    """Tuples as lists, as a build file has them."""
    if isinstance(value, dict):
        return {key: _lists(v) for key, v in value.items()}
    return [_lists(v) for v in value] if isinstance(value, tuple | list) else value
