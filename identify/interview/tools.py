"""The tools a person is asked for, in that order."""

from identify.model.rule import Tool

ASKED = (
    Tool.CALIPER,
    Tool.RULE,
    Tool.METRIC_GAUGE,
    Tool.INCH_GAUGE,
    Tool.SEAT_GAUGE,
    Tool.PROTRACTOR,
    Tool.COMBS,
    Tool.KNOWN_ENDS,
)
FIRST_TOOLS = frozenset({Tool.CALIPER})
"""Ticked before anything is said: what nearly everybody has."""
