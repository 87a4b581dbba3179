"""``python3 -m tutorial_lib``: sets itself up the first time, then runs the command line."""

import gc
import sys

from tutorial_lib import bootstrap


def main() -> int:
    """Run the command line in an environment that has what it needs; returns the exit status."""
    bootstrap.hand_over(sys.argv[1:])
    from tutorial_lib import cli

    status = cli.main(sys.argv[1:])
    gc.freeze()  # the process ends: nobody waits for all it made to be looked through once more
    return status


if __name__ == "__main__":
    sys.exit(main())
