"""What the house prints: PDF made of words and measures, with fonts of its own (`fonts/`)."""
