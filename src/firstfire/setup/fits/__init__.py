"""What fits into what: seats, clearances, rings, belt, torques and sealant of an engine."""
