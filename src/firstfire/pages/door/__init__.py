"""The door: who may come in, the address, and what every page brings along."""
