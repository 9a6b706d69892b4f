"""Taking the record out and lists in: pure reading of what other programs write."""
