"""What can't be built: every contradiction of an engine's numbers, with a cure."""
