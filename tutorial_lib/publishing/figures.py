"""A fact's value as a person reads it; written in ``facts.written``, named here for the pages."""

from tutorial_lib.facts.written import line, plain, write_value

__all__ = ["line", "plain", "write_value"]
