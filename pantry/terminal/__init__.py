"""The command line's own rooms: what it is set to, what it asks, how it says the answers."""
