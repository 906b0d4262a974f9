"""Ways to fail, worked out by hand or by a book: what a test holds the laws to."""
