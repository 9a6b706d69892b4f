"""The demo: two invented years in the galley of a research hut on a windy northern island."""
