"""Is what we say about children true? Invented cohorts whose truth is known, and scores.

Nothing here reads the ability engine: `ours` drives it through `tapeline.ability` as a stranger
would, and the invented children learn, tire and fall ill by rules of their own (`worlds`,
`cohort`), which the engine does not share.
"""
