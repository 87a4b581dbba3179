def apply(items, decisions, subjects, units): return items, []
