"""Letters that leave the house by e-mail: what one is, and who takes it."""
