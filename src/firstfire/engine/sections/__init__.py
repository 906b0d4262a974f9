"""The description, section by section, in the order of building."""
