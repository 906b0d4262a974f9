"""What brings the fuel: injector, carburettor or gas mixer, and all from the tank to there."""
