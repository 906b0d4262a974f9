"""A result as plain text: 80 columns, the answer first, words before colour."""
