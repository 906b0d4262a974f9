"""What a browser shows: the hub between desk, answers and tabs, and one file for each page."""
