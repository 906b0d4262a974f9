"""What is wrong when it was put together wrongly, from readings."""
