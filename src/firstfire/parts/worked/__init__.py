"""Cases worked out by hand or by a book, which a test holds every way to fail against."""
