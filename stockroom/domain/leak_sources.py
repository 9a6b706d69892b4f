"""Where the leak rate, its limit and the reading of its shape come from."""

from __future__ import annotations

from stockroom.domain.working import Source, Standing

LEAK_LIMIT = Source(
    "leak-limit",
    "Parenteral Society, Technical Monograph 7: leak rate of a freeze dryer that is clean, dry and"
    " empty at most 0.02 mbar L/s, tested every three months or after a connection was disturbed"
    " (secondary copy)",
    Standing.PUBLISHED,
)
PRESSURE_RISE = Source(
    "pressure-rise",
    "Vacuum technology reference: leak rate by pressure rise, volume times rise over time;"
    " 1 mbar L/s is 59.2 cm3 of gas a minute at 0 C and 1013 mbar (secondary copy)",
    Standing.PUBLISHED,
)
TWO_PARTS = Source(
    "leak-two-parts",
    "A rise in its second part at least 0.8 times as fast as in its first is an air leak; a slower"
    " one is moisture or outgassing",
    Standing.ENGINEERING_JUDGEMENT,
)
LEAK_SOURCES = (LEAK_LIMIT, PRESSURE_RISE, TWO_PARTS)
