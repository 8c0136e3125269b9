"""What is computed: pure functions of their arguments, time among them."""
