//! Lambda and what else the exhaust gas says.
