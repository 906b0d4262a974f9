"""What the gas does: properties, flow, burn, wall heat, friction, the compiled stepper."""
