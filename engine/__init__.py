"""Shop arithmetic: no screen, no terminal, floats in millimetres, degrees, rev/min and newtons."""
