"""A headboard's post as a cantilever: a worked post of a public permit, handbook coefficients, and an FE library.

The worked post: a 4x4 rail post of Hem-Fir No.2, incised, fixed at its base, 200 lb at its top 3 ft up, calculated
after NDS 2018; a calculation sheet in a public building permit. Its E is 1.3 million psi by the incising factor 0.95,
its bending value 850 psi by 1.5 for the size and 0.80 for incising. Wood Handbook, FPL-GTR-282, Table 9-1: a load at
the free end of a cantilever bends it k_b W L3 / E I with k_b 1/3; from memory. AWC Design Aid 6, figure "Cantilever
beam, concentrated load at free end": M = P l, from memory.
"""

from __future__ import annotations

import pytest

from tests.strength.test_headboard import headed
from tests.validation.printed import Printed, Source, cells
from tutorial_lib.strength.headboard import Cantilever, leaning
from tutorial_lib.strength.sections import Size

HANDBOOK = Source(
    title="Wood Handbook, FPL-GTR-282", edition="2021", place="Table 9-1, cantilever, load at its free end",
    state="from memory", rounding="fraction, exact",
)  # fmt: skip
DESIGN_AID = Source(
    title="AWC Design Aid No. 6, Beam Design Formulas", edition="2007", place="cantilever, load at its free end",
    state="from memory", rounding="exact",
)  # fmt: skip
PERMIT = Source(
    title="Calculation sheet of a rail post, public building permit, City of Everett", edition="2022, after NDS 2018",
    place="4x4 rail post, 200 lb at its top", state="seen", rounding="half of the last figure printed",
)  # fmt: skip
PUSH, LONG, STIFF = 110.0, 26.125, 1.4e6 * 3.5**4 / 12
POST = Cantilever(PUSH, LONG)
RAIL_POST, SQUARE = Cantilever(200.0, 36.0), Size(3.5, 3.5, False)
INCISED = 0.95 * 1.3e6 * SQUARE.inertia
PRINTED: tuple[Printed, ...] = (
    *cells(HANDBOOK, 1e-9, [("k_b", 1 / 3, lambda: POST.sag(STIFF) * STIFF / (PUSH * LONG**3))]),
    *cells(DESIGN_AID, 1e-9, [("M as a part of P l", 1.0, lambda: POST.moment / (PUSH * LONG))]),
    *cells(PERMIT, 0.5, [
        ("M [lb ft]", 600, lambda: RAIL_POST.moment / 12),
        ("fb [psi]", 1008, lambda: RAIL_POST.stress(SQUARE.modulus)),
        ("L / sag", 178, lambda: int(RAIL_POST.length / RAIL_POST.sag(INCISED))),
        ("fv [psi]", 24, lambda: int(1.5 * RAIL_POST.push / SQUARE.area)),
    ]),
    *cells(PERMIT, 0.005, [
        ("sag [in]", 0.20, lambda: RAIL_POST.sag(INCISED)),
        ("fb / F'b", 0.99, lambda: RAIL_POST.stress(SQUARE.modulus) / (850 * 1.5 * 0.80)),
    ]),
)  # fmt: skip


@pytest.mark.parametrize("printed", PRINTED, ids=str)
def test_printed(printed: Printed) -> None:
    printed.check()


def test_stress_is_the_moment_over_the_section_modulus() -> None:
    assert POST.stress(3.5**3 / 6) == pytest.approx(110 * 26.125 / 7.1458, rel=1e-4)


def test_a_post_pushed_as_far_as_it_holds_is_in_equilibrium_in_an_fe_library() -> None:
    """Its corner fixed, friction at its foot, the push that is held at its top: the corner takes its couple."""
    library = pytest.importorskip("Pynite")
    found = leaning(headed().outcome)
    fe = library.FEModel3D()
    fe.add_material("wood", 1.4e6, 1.4e6 / 16, 0.3, 0.0)
    fe.add_section("post", 3.5**2, 3.5**4 / 12, 3.5**4 / 12, 0.141 * 3.5**4)
    for name, high in (("foot", 0.0), ("corner", found.corner), ("top", found.top)):
        fe.add_node(name, 0.0, high, 0.0)
    fe.def_support("corner", True, True, True, True, True, True)
    fe.add_member("below", "foot", "corner", "wood", "post")
    fe.add_member("above", "corner", "top", "wood", "post")
    fe.add_node_load("top", "FX", -found.held)
    fe.add_node_load("foot", "FX", -found.foot)  # the foot would slide from the wall: friction holds it toward it
    fe.analyze_linear(check_stability=False)
    moment = fe.nodes["corner"].RxnMZ["Combo 1"]
    assert abs(moment) == pytest.approx(found.couple, rel=1e-6)
    sag = abs(fe.nodes["top"].DX["Combo 1"])
    assert sag == pytest.approx(Cantilever(found.held, found.top - found.corner).sag(1.4e6 * 3.5**4 / 12), rel=1e-6)
