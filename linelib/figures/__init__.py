"""Pictures: they get results and draw them, they compute nothing of the physics."""
