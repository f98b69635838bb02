"""From a plan to paper: station cards (PDF) and the shopping workbook."""
