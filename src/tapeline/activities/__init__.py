"""Skills, progressions, activities, materials, precautions: and what is allowed for whom.

Boundary: knows the shipped library and its rules, and no child by name. It imports errors
and units only; who a child is comes in as a `Who`, where we are as a `Here`.
"""
