"""The wiring set up: what hangs where, wires, pins and currents."""
