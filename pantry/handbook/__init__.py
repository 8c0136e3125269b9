"""Data of the trade, every number with its named source."""
