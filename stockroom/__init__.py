"""stockroom: the record of a household that freeze-dries its own food."""

__version__ = "0.1.0"
