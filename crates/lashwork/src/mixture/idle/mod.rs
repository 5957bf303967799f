//! Where the mixture screw is best, from the speed of the engine.
