"""Assembly: the order of the work, step by step, with weights, helpers, squaring and what the wood does afterwards."""

from tutorial_lib.assembly.assemble import Alternative, Assembly, assemble
from tutorial_lib.assembly.driving import Screws
from tutorial_lib.assembly.movement import Movement, retighten
from tutorial_lib.assembly.steps import Step

__all__ = ["Alternative", "Assembly", "Movement", "Screws", "Step", "assemble", "retighten"]
