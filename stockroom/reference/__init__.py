"""Tables shipped with the program, and their loaders. Every row names its source.

Import what is needed from the modules: `foods`, `food_checks`, `servings`, `allergens`,
`containers`, `lives`, `keeping_figures`, `sources`.
"""
