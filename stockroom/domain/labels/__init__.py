"""Labels: what stands on one, the grids they are printed on, and how text is made to fit."""
