"""What a class is and what a plan is: frozen plain data, without input or output."""
