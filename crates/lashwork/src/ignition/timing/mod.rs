//! Timing readings and advance curves, from static to full speed.
