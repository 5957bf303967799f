//! How high the fuel stands, and what other fuels do to it.
