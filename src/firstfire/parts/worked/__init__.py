"""Cases worked out by hand or taken from handbooks, for ways to fail whose own file has no room."""
