"""The command line: an edge that computes nothing."""
