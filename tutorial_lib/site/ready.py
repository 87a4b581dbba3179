"""What the page's Python does before its memory is kept: a plain bed taken as far as it goes without the solver.

A page that starts from this memory has its modules and tables loaded.
"""

from __future__ import annotations

from importlib import import_module

from tutorial_lib.plan import plan
from tutorial_lib.site.live import Live

BED = '[build]\nname = "bed"\ntitle = "A bed"\n[mattress]\nsize = "twin"\n[heights]\nunderside = "10 in"\n'


def ready() -> None:
    """Loads and does it."""
    for module in ("tutorial_lib.cutting.search", "tutorial_lib.publishing.sheet"):
        import_module(module)
    live = Live(BED, "")
    live.form()
    live.ask("{}")
    bed = plan(live.creator)
    for room in (bed.strength, bed.drilling):
        len(room.findings)
