"""The answers: what is computed for the pages, in a process of its own, off the event loop."""
