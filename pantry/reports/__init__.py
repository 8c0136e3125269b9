"""What can be asked: reads only."""
