"""The desk: the document behind the pages. It knows no browser, and no physics."""
