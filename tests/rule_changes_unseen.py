"""Changes of rules that no case can see, by rule, each with its reason: they leave the meaning of the rule as it is."""

_COLUMNS = (
    "the table has the same heights for S_DS from 0.25 to 0.40, so that moving an entry between them moves nothing"
)
_ROWS = (
    "the table has the same heights for walls of 16, 18 and 24 in, so that moving the two thicker ones moves nothing"
)
_TABLE_1 = {
    f"table_1: {side} entry {place} {way}": why
    for side, places, why in (("column", (1, 2, 3), _COLUMNS), ("row", (5, 6), _ROWS))
    for place in places
    for way in ("higher", "lower")
}

UNSEEN: dict[str, dict[str, str]] = {
    "nm-14-7-4-adobe/wall-height": _TABLE_1,
    "nm-14-7-4-ceb/wall-height": _TABLE_1,
    "nm-14-7-4-rammed-earth/wall-height": _TABLE_1,
}
