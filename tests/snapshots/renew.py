"""Writes all second copies anew, a minute of it: python -m tests.snapshots.renew; read the diff before it is kept."""

from __future__ import annotations

from tests.snapshots import answers, constants, cuts, limits, many, written


def main() -> None:
    """One after the other."""
    written.main()
    constants.main()
    for sums in (many, cuts, answers, limits):
        sums.main([])


if __name__ == "__main__":
    main()
