"""Round figures that the weights of the named features are pulled toward (judgement, no source)."""

PRIOR: dict[str, float] = {
    "anaphor": 0.5, "apiece": 0.5, "axis_other": -1.8, "bare_length": 0.5, "count_off": -1, "counting": -3,
    "cue_hit": 1.3, "cue_none": -0.6, "each_other": -0.8, "elsewhere_equal": -1, "equal": 2.6, "equal_rare": 0.8,
    "equal_stock": -1, "far": -2.2, "fastener_other": -4, "fastener_own": 1, "footer": 4, "grit_said": 1,
    "heading": 2, "hedged": 1.5, "name_hit": 1.5, "name_last": 1, "name_last_other": -0.5, "name_near": 0.3,
    "name_next": 1, "name_next_other": -1, "name_other": -1.5, "none a_number": 0.7, "none bias": 3.2,
    "none foreign_noun": 1, "none foreign_subject": 1, "none left": 1, "none one": 1, "none operand": 0.3,
    "none other": 1.2, "none other_size": 1, "none per_unknown": 1, "none slack": 1.2, "none small": 0.2,
    "none split": 1, "none supposed": 1.4, "none unit": -0.2, "noun_elsewhere": -2, "noun_fewer": -2,
    "noun_foreign": -0.5, "noun_hit": 2, "noun_none": -0.5, "noun_other": -2.5, "noun_own": 1, "noun_solid": -2,
    "offset_other": -1.2,
    "operand_off": -1, "own_noun": 1, "pair_section": 0.6, "part": 4, "part_behind": -0.5, "per_other": -1,
    "per_own": 1, "rest": 1, "side_other": -2, "side_own": 0.5, "slip": -1, "spacing_other": -1.5, "span": 1,
    "split_off": -1, "stock_length_hit": 1.5, "stock_noun": 1.2, "sure_part": 0.5, "thing": 1.8,
    "thing_instead": -0.8, "thing_touches": 0.5, "thing_touches_other": -1, "told": 5, "total_other": -0.8,
    "touches": 0.5, "touches_other": -0.5, "touches_size": 0.5, "typical": -0.3, "unit_said": 0.3, "way_other": -2,
    "way_own": 0.5, "where_other": -1,
}  # fmt: skip
