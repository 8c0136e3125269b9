"""The import of a house book: the sheets people bring, read whole, checked whole, written once."""
