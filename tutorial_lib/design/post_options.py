"""What the creator chose of corner posts that the rails die into."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from tutorial_lib.design.fields import Length, Section


class PostOptions(Section):
    """[posts] Corner posts that the rails die into; only with those corners."""

    lumber: str = "4x4"
    # blocks screwed from inside; bolts through the post into barrel nuts in the rail; or bed-rail hooks
    joint: Literal["corner blocks", "barrel nuts", "hooks"] = "corner blocks"
    blocks: str = "2x3"  # the corner blocks' lumber
    # the rail's outer face behind the post's; left out, as much as leaves the joint its room inside
    reveal: Length | None = None
    above: Length = Fraction(0)  # the post's top above the rails'
