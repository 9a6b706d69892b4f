"""Results set out for people and for programs: text, CSV and JSON from the same values."""
