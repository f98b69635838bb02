"""From a class document and the reference to a plan: pure functions, one file per stage."""
