"""The memory that many beds take, one like no other, worked out one after the other. By hand:

python -m tests.hard.growth 10000
"""

from __future__ import annotations

import json
import resource
import sys

from tests import builds
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import plan

TOLD = 100  # beds between two lines


def work_out(seed: int) -> bool:
    """All facts and findings of a bed; False where there can be none such."""
    made = (builds.raw, builds.raw_on_posts, builds.raw_with_headboard)[seed % 3](seed)
    try:
        bed = plan(from_raw(made))
        json.dumps(facts_of(bed).as_json())
    except InputError:
        return False
    return bed.findings is not None


def main(number: int) -> None:
    """Tell the greatest memory so far, now and then."""
    done = seed = 0
    print("beds   MB")
    while done < number:
        seed += 1
        if work_out(seed):
            done += 1
            if done % TOLD == 0 or done == 10:
                print(f"{done:>5} {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:>5.0f}", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]))
