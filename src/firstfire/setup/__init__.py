"""Numbers to build by: what to print, buy and make."""
