"""What those who work on firstfire run by hand."""
