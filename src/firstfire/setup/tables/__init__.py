"""Tables for a small controller: plain integers over this engine's own speeds and loads."""
