"""How a phone knows that it talks to this house: the house's own authority and its certificates."""
