"""The shapes of what is answered, by subject: what programs outside are told they will get.

The reports build their rows as they like; a test reads every one of them as its shape, in which
a key too few or too many is a fault. Where a column is not told to every role it may be left out.
"""
