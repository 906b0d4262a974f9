"""Events, and every loop that goes round."""
