//! Outside checks of the kernel: published figures, laws, shared vectors, layering.
