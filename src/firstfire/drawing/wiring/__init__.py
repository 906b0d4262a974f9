"""The wiring sheet: symbols, paths between two rails, and the table of wires."""
