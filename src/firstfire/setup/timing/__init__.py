"""When everything happens: the table, the tooth out, the steps."""
