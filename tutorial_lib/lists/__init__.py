"""What a person works from as plain tables, and those tables as CSV."""

from tutorial_lib.lists.gather import NAMES, list_of, lists_of
from tutorial_lib.lists.table import Column, List, Mark
from tutorial_lib.lists.written import csv_text

__all__ = ["NAMES", "Column", "List", "Mark", "csv_text", "list_of", "lists_of"]
