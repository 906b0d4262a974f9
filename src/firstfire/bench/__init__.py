"""What a test on the bench teaches: readings turned into numbers of the engine file."""
