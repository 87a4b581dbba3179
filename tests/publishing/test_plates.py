"""Screen plates: what they say, where they stand, that they are read over anything."""

from __future__ import annotations

import io
import re
from functools import cache
from itertools import groupby, pairwise
from xml.etree import ElementTree

import pytest
from PIL import Image

from tests.conftest import ROOT
from tests.drawing.crowded import overlapping_words
from tests.publishing import demo
from tests.publishing.pages import GALLERY
from tutorial_lib.cli.kit import _called
from tutorial_lib.cli.shared import read_options
from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.zero import leg_zero_short, reach
from tutorial_lib.drawing.ink import Stroke, Words, crosses
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.scene import Line, Rect
from tutorial_lib.drawing.solids import Solid, project
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import Plan, plan
from tutorial_lib.publishing.chapters import chapters
from tutorial_lib.publishing.plates import pictures
from tutorial_lib.publishing.plates.kinds import BESIDE, Plates, _brief, chapter_named
from tutorial_lib.publishing.plates.pictures import LEAST
from tutorial_lib.publishing.plates.plate import FORMS, SCREENS, Form, Plate
from tutorial_lib.publishing.plates.setting import TEMPLATE, plate_files
from tutorial_lib.publishing.vector import drawn

TEXT_CONTRAST, LINE_CONTRAST = 4.5, 3.0  # WCAG 2.2, 1.4.3 and 1.4.11 (from memory)


@cache
def maker() -> Plates:
    return Plates(demo.demo(), demo.facts(), demo.report())


@cache
def plates() -> dict[str, Plate]:
    return {plate.key: plate for plate in maker().all()}


@cache
def shot(form: Form, key: str) -> tuple[Image.Image, str]:
    _, png, svg, _ = next(plate_files([plates()[key]], form))
    return Image.open(io.BytesIO(png)).convert("RGBA"), svg.decode()


def luminance(rgb: tuple[int, ...]) -> float:
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (v / 255 for v in rgb)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: tuple[int, ...], b: tuple[int, ...]) -> float:
    dark, light = sorted((luminance(a), luminance(b)))
    return (light + 0.05) / (dark + 0.05)


WHITE, BLACK = (255, 255, 255), (0, 0, 0)


def test_there_is_one_for_all_that_is_asked() -> None:
    kinds = [plate.kind for plate in plates().values()]
    steps = sum(step.operation is not None or step.key == "square" for step in demo.demo().assembly.steps)
    assert kinds.count("part") == kinds.count("count") == len(demo.demo().build.parts)
    assert kinds.count("slats") == kinds.count("legs") == kinds.count("section") == 1
    assert kinds.count("step") == steps and kinds.count("correction") == len(demo.report().conflicts)


def test_they_say_what_the_plan_has_in_the_creators_words() -> None:
    rail, found = plates()["part-side-rail"], plates()["correction-02-end-rail-length"]
    assert (rail.letter, rail.head, rail.big) == ("A", "Side rail, cut 2", "78 3/4 in")
    assert rail.small == ("2x6, true size 1 1/2 x 5 1/2 in",)
    assert (found.wrong, found.big) == ("35 1/2 in", "38 1/2 in") and found.time == pytest.approx(85.6, abs=0.1)
    names = demo.demo().options.names | {"cleat": ("ledge", "cleat")}
    own = plan(demo.demo().options.model_copy(update={"names": names}))
    ledges = Plates(own, facts_of(own))
    assert ledges.part(own.build.part("cleat")).head == "Ledge, cut 2"
    assert ledges.of_facts(["cleat.screw_length"])[0].head == "Ledge screw"


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("key", ["part-side-rail", "slats", "legs", "step-05-leg", "correction-02-end-rail-length"])
def test_a_picture_is_transparent_and_keeps_to_what_is_safe(form: Form, key: str) -> None:
    image, svg = shot(form, key)
    screen = SCREENS[form]
    assert image.size == (screen.width, screen.height)
    left, top, right, bottom = image.getchannel("A").getbbox() or (0, 0, 0, 0)
    assert left >= screen.left and top >= screen.top
    assert right <= screen.width - screen.right and bottom <= screen.height - screen.bottom
    assert bottom == screen.height - screen.bottom  # it stands at the foot of it
    assert f'width="{screen.width}" height="{screen.height}"' in svg and "<text" not in svg and "font" not in svg
    assert plates()[key].head.split(",")[0] in svg  # told to who can't see it


def test_white_or_black_stands_out_from_any_footage() -> None:
    greys = [(grey,) * 3 for grey in range(256)]
    assert min(max(contrast(WHITE, grey), contrast(BLACK, grey)) for grey in greys) >= TEXT_CONTRAST


@pytest.mark.parametrize("form", FORMS)
def test_words_are_black_on_white_in_a_black_edge(form: Form) -> None:
    image, _ = shot(form, "correction-02-end-rail-length")
    box = image.getchannel("A").getbbox()
    assert box is not None
    plate = image.crop((box[0], box[1] + 1, box[2] - 1, box[3]))  # its free edges may end within a pixel
    assert plate.getchannel("A").getextrema()[0] == 255  # nothing of the footage shows through
    corner = [plate.getpixel((x, y)) for x in range(4) for y in range(4)]
    assert set(corner) == {(0, 0, 0, 255)}
    assert plate.getpixel((12, 12)) == (255, 255, 255, 255)


def test_colours_stand_out_from_the_white_they_lie_on() -> None:
    """Nothing but a cross and an underline is coloured, and both do as lines have to."""
    text = TEMPLATE.read_text(encoding="utf-8")
    colours = [tuple(int(c[i : i + 2], 16) for i in (1, 3, 5)) for c in re.findall(r"#[0-9A-F]{6}", text)]
    assert len(colours) >= 2 and all(contrast(c, WHITE) >= LINE_CONTRAST for c in colours)


def test_words_on_drawings_are_large_and_apart() -> None:
    for plate in plates().values():
        for form in FORMS:
            if (scene := plate.picture(form)) is not None:
                assert min(scene.style.small, scene.style.text) >= LEAST
                assert not overlapping_words(scene), plate.key


def test_facts_and_chapters_choose() -> None:
    found = maker().of_facts(["slat.length", "slat.count", "slat.gap", "slat.marks", "pilot.diameter"])
    assert [(p.key, p.big) for p in found] == [
        ("part-slat", "38 1/4 in"), ("count-slat", "14"), ("slats", ""), ("fact-pilot-diameter", "1/8 in"),
    ]  # fmt: skip
    with pytest.raises(InputError, match=r'"slat.lenght" is not a known fact. Did you mean "slat.length"'):
        maker().of_facts(["slat.lenght"])
    course = chapters(demo.report(), demo.facts())
    keys = [p.key for p in maker().of_chapter(chapter_named(course, "corner"))]
    assert keys == ["fact-corner-screws-each", "fact-corner-screw-length", "fact-corner-screw-total"]
    assert "correction-04-slat-length" in [p.key for p in maker().of_chapter(chapter_named(course, "Slats"))]
    with pytest.raises(InputError, match='"legs" is several chapters; name one: Cutting the legs, Fixing the legs.'):
        chapter_named(course, "legs")
    with pytest.raises(InputError, match='"roof" is no chapter of the talk'):
        chapter_named(course, "roof")


@pytest.mark.parametrize("bed", ["king-two-lines", "queen-tubes"])
def test_other_beds_fit_too(bed: str) -> None:
    other: Plan = plan(read_options(str(ROOT / f"assets/builds/gallery/{bed}.toml")))
    made = Plates(other, demo.facts())  # only the words are theirs
    for form in FORMS:
        for plate, png, _, _ in plate_files([made.slats(), made.legs(), made.section()], form):
            box = Image.open(io.BytesIO(png)).getchannel("A").getbbox()
            assert box is not None and box[0] >= SCREENS[form].left, plate.key
            assert box[2] <= SCREENS[form].width - SCREENS[form].right and box[1] >= SCREENS[form].top, plate.key
            scene = plate.picture(form)
            assert scene is None or not overlapping_words(scene), plate.key


def test_any_word_of_the_creators_is_set_as_it_is() -> None:
    """Quotes, signs of the typesetter and other scripts stay words; a letter the type has not is a box."""
    odd = 'Λάμα "#[x] \\ $ ☆'
    own = plan(demo.demo().options.model_copy(update={"names": {"cleat": (odd,)}}))
    plate = Plates(own, facts_of(own, ["design"])).count(own.build.part("cleat"))
    assert plate.head == odd  # no English plural
    _, png, svg, _ = next(plate_files([plate], "wide"))
    assert png.startswith(b"\x89PNG") and ElementTree.fromstring(svg).get("aria-label") == plate.alt


def test_several_of_a_part_of_two_lengths_are_told_by_the_creators_word() -> None:
    boxes = read_build((GALLERY / "uk-king-over-boxes.toml").read_text(encoding="utf-8"))
    own = plan(boxes.model_copy(update={"names": {"cleat": ("batten",)}}))
    made = Plates(own, facts_of(own, ["design"]))
    heads = [made.count(part).head for part in own.build.made if part.use == "cleat"]
    assert heads == ["Battens (599 mm)", "Battens (1138 mm)"]
    assert _called(own).startswith("batten")  # looked through for letters that the type has not


def test_a_plate_too_high_is_made_smaller_not_cut() -> None:
    long = Plate(key="x", kind="fact", head="word " * 90, big="1")
    for form in FORMS:
        _, png, _, _ = next(plate_files([long], form))
        box = Image.open(io.BytesIO(png)).getchannel("A").getbbox()
        assert box is not None and box[1] >= SCREENS[form].top and box[0] >= SCREENS[form].left


def test_between_posts_the_first_slat_stands_off_the_head_rail_and_legs_have_their_zero() -> None:
    build = design(read_build((GALLERY / "queen-corner-posts.toml").read_text(encoding="utf-8")))
    strip = pictures.slat_strip(build, 1700)
    slats = [shape.x for shape in strip.shapes if isinstance(shape, Rect) and shape.fill == "wood"]
    assert slats[0] == 1.5 and len(slats) == 14
    told = leg_zero_short(build)
    assert told == "the side rail's head end, centre legs from the head rail's outer face"


def test_a_part_that_others_hide_is_drawn_over_them_dashed() -> None:
    build = design(read_build((GALLERY / "twin-headboard.toml").read_text(encoding="utf-8")))

    def dashes(key: str) -> int:
        shapes = pictures.in_the_bed(build, (key,), 740, 520).shapes
        return sum(isinstance(shape, Line) and shape.line == "hidden" for shape in shapes)

    assert dashes("batten") == 2 * 12  # both stand behind the headboard: three faces of four edges each
    assert dashes("slat") == dashes("headboard_slat") == 0


def test_diagonals_lie_on_the_frame_however_high_posts_go() -> None:
    build = design(read_build((GALLERY / "twin-headboard.toml").read_text(encoding="utf-8")))
    solids = [Solid(pictures._spot(p.box.lo), pictures._spot(p.box.hi), p.label) for p in build.pieces.values()]
    rail = build.pieces["side rail left"].box
    assert max(solid.hi[2] for solid in solids) > rail.hi[2]
    (start, long), (near, wide) = reach(build)
    first, second = pictures.diagonals(build, solids)
    ends = [((start, near), (long, wide)), ((start, wide), (long, near))]
    for line, places in zip((first, second), ends, strict=True):
        assert line == tuple(project((float(x), float(y), float(rail.hi[2]))) for x, y in places)


def test_lines_that_follow_each_other_are_set_as_one_and_none_is_lost() -> None:
    scene = pictures.in_the_bed(demo.demo().build, ("cleat",), 740, 520)
    strokes = [ink for ink in lay(scene)[0] if isinstance(ink, Stroke)]
    told = drawn(scene)
    assert told.count("curve.move") == len(strokes)
    assert told.count("curve.line") == sum(len(stroke.points) - 1 for stroke in strokes)
    runs = [list(run) for _, run in groupby(strokes, lambda s: (s.line, s.closed))]
    apart = [len(run) if run[0].closed or run[0].line == "hidden" else 1 for run in runs]
    assert told.count("place(curve(") == sum(apart) < len(strokes)


@pytest.mark.parametrize("bed", ["queen-corner-posts", "king-two-lines", "twin-headboard"])
def test_no_line_goes_through_a_leg_s_name(bed: str) -> None:
    """Posts stand on the line that ends the bed: their names stand beside it."""
    build = design(read_build((GALLERY / f"{bed}.toml").read_text(encoding="utf-8")))
    for form in FORMS:
        inks = lay(pictures.leg_map(build, *BESIDE[form]))[0]
        names = [ink.frame for ink in inks if isinstance(ink, Words) and re.fullmatch(r"[A-Z][0-9]", ink.text)]
        strokes = [ink.points for ink in inks if isinstance(ink, Stroke)]
        lines = [line for points in strokes for line in pairwise((*points, points[0]))]
        assert len(names) == len(build.legs)
        assert not any(crosses(line, name) for name in names for line in lines)


def test_a_step_s_plate_is_brief() -> None:
    """Both first sentences up to 180 letters, else the first alone."""
    short, long = "Set it to its mark.", "x" * 170
    assert _brief([short, short, short]) == [short, short]
    assert _brief([short, long]) == [short] and _brief([long + long, short]) == [long + long]
    assert _brief(["x" * 90, "y" * 90]) == ["x" * 90, "y" * 90] and len(_brief(["x" * 90, "y" * 91])) == 1


def test_the_section_is_named_in_the_creator_s_shortest_words() -> None:
    names = {"side_rail": ("the long side rail", "side"), "cleat": ("ledge",)}
    own = plan(demo.demo().options.model_copy(update={"names": names}))
    plate = Plates(own, facts_of(own, ["design"])).section()
    assert plate.head == "Side, ledge and slat"
    assert plate.wide is not None and {"side", "ledge", "slat"} <= set(plate.wide.texts())


def test_several_of_a_part_keep_to_the_creator_s_grammar() -> None:
    posts = read_build((GALLERY / "queen-corner-posts.toml").read_text(encoding="utf-8"))
    for word, several in (("стойка", "Стойка"), ("box", "Boxes"), ("rail by the window", "Rail by the window")):
        own = plan(posts.model_copy(update={"names": {"side_rail": (word,)}}))
        assert Plates(own, facts_of(own, ["design"])).count(own.build.part("side_rail")).head == several
    headed = plan(read_build((GALLERY / "king-two-lines.toml").read_text(encoding="utf-8")))
    made = Plates(headed, facts_of(headed, ["design"]))
    assert made.count(headed.build.part("headboard")).head == "Headboard boards"  # four boards, one headboard
