"""What a small home-printed four-stroke engine will do, before it is printed."""
