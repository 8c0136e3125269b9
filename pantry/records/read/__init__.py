"""Reading the records into what the rules look at."""
