"""Charts as our own static SVG: fine axes, labels at the lines, patterns before colour."""
