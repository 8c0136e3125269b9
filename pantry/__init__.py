"""Chooseby: the stock room of a private house's kitchen that knows the menu."""

__version__ = "0.1.0"
