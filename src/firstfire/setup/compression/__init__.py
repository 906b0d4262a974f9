"""What a compression gauge should read while the engine is cranked, before any fuel."""
