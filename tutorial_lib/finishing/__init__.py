"""Finishing: the faces that show, how they are sanded and coated, how much it takes and how long."""

from tutorial_lib.finishing.exposure import FaceMap, FaceState
from tutorial_lib.finishing.finish import Finishing, finish

__all__ = ["FaceMap", "FaceState", "Finishing", "finish"]
