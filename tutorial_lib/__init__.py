"""A slatted platform bed for a woodworking tutorial, worked out from one build file.

Nothing is imported when the package loads: public names resolve when they are first used, so that the first run
works on a machine that has no more than Python. Written so that an old Python can parse it and be told it is too old.
"""

import importlib

__version__ = "0.1.0"

# Public name -> the module it lives in.
_PUBLIC = {
    "InputError": "tutorial_lib.errors",
    "Finding": "tutorial_lib.findings",
    "inch": "tutorial_lib.measures",
    "mm": "tutorial_lib.measures",
    "read_length": "tutorial_lib.measures",
    "write_length": "tutorial_lib.measures",
}

__all__ = sorted(_PUBLIC)


def __getattr__(name: str) -> object:
    """Import a public name the first time it is asked for."""
    if name not in _PUBLIC:
        raise AttributeError("module {!r} has no attribute {!r}".format(__name__, name))
    return getattr(importlib.import_module(_PUBLIC[name]), name)
