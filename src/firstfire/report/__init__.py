"""The report: one self-contained page from a result. It computes nothing."""
