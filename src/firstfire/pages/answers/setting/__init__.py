"""What the page *Setting up* shows: chapters, sheets and tables, made in a process behind."""
