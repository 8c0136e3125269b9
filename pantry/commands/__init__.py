"""What can be done: one file a verb; each loads, decides by rules, records."""
