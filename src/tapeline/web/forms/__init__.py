"""Forms: what she typed, checked field by field; every fault is one sentence beside its field."""
