//! How evenly the cylinders fire: mean, first harmonic, what is left.
