"""The independent verifier: what the library claims, checked with a general-purpose rules library."""
