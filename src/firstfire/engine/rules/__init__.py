"""Rules of thumb: every default an engine file may leave unsaid, with its reason and source."""
