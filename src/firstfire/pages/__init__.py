"""The pages: a local web app in which a number is changed and the engine answers."""
