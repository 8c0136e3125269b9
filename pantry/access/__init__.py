"""Who is it? Passwords, sessions, one-time ways in, and the slowing down of guesses.

Nothing here goes into the journal, and no secret is kept: only what it can be checked against. What
somebody may do once known is not said here but in `pantry/commands/rights.py`.
"""
