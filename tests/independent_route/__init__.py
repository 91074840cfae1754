"""The same questions answered by a second, separate route."""
