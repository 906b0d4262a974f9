"""What is said of a start: its words, its plan, its JSON."""
